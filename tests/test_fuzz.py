"""Damaged files: whatever is done to a shop's files, reading them ends with a checked shop or with faults.

And it ends soon, and takes little room.
The good shop and the procedures are damaged at random, always in the same way for the same seed. Every file is read and
checked against its own records; every fiftieth damaged file goes through the whole reading of the shop.
`SAWSIDE_FUZZ=10000` sets how many files are damaged; without it a small number keeps the suite quick.
"""

import functools
import json
import os
import random
import shutil
import string
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sawside import checks, files, library, schema, source
from sawside.errors import Faults, frame
from sawside.families import FAMILIES
from sawside.outputs import site
from sawside.shop import SHOP

GOOD = Path(__file__).parent / "faults" / "good"
COUNT = int(os.environ.get("SAWSIDE_FUZZ", "600"))
SEED = 20260314
#: A reading that takes longer hangs, for the person who waits [s of the processor: how busy the machine is does not
#: count]; and the room all readings together may take [bytes].
LONGEST, MOST_MEMORY = 2.0, 500_000_000

SPECIAL = (
    "\t",
    "\r",
    "\n",
    "\0",
    "\x1b[31m",
    "\u202e",
    "\u2028",
    "\ufeff",
    "\U0001f4a9",
    "e\u0301" * 20,
    "\u0660",
    "\u00bd",
    "\u2044",
    "\u00b1",
    "\u2212",
    "{{",
    "}}",
    "{{ x",
    "{% raw %}",
    "{# ",
    "&a",
    "*a",
    "<<: *a",
    "!!python/object/apply:os.system",
    "!!set",
    "? ",
    ": ",
    " #",
    "- ",
    "-",
    "---\n",
    "...\n",
    "|",
    ">",
    ">-\n",
    "'",
    '"',
    "\\",
    "\\Uffffffff",
    "\\U00110000",
    "\\x0",
    "[",
    "]",
    "{",
    "}",
    "[[" * 200,
    "{a: " * 200,
    "- " * 200,
    "`",
    "@",
    "%",
    "%YAML 9.9\n",
    ",",
    "nan mm",
    "inf",
    "-inf mm",
    "1e999 mm",
    "1e-999 mm",
    "9" * 400 + " mm",
    "0." + "0" * 400 + "1 mm",
    "1/0 in",
    "1 1/2 1/2 in",
    "5' 3\" 2'",
    "1e5e5",
    "--5",
    "+/-",
    "+/- +/-",
    "18 mm +/- nan",
    "mm",
    "unknown",
    "Unknown",
    "yes",
    "null",
    "~",
    "\u00a0",
    "a" * 5000,
    "()" * 500,
    "not " * 300 + "x",
    "x or " * 300 + "y",
    "().__class__",
    "known(" * 100,
    "(" * 2000,
    "'" * 999,
    "{{ " * 300,
)


def flip_bytes(data: bytes, chance: random.Random) -> bytes:
    """Change a few bytes."""
    changed = bytearray(data)
    for _ in range(chance.randint(1, 8)):
        changed[chance.randrange(len(changed))] = chance.randrange(256)
    return bytes(changed)


def cut(data: bytes, chance: random.Random) -> bytes:
    """Take a piece out, or leave only the beginning."""
    start, end = sorted(chance.randrange(len(data) + 1) for _ in range(2))
    return data[:start] + (data[end:] if chance.random() < 0.7 else b"")


def shuffle_lines(data: bytes, chance: random.Random) -> bytes:
    """Swap, repeat or drop lines."""
    lines = data.split(b"\n")
    for _ in range(chance.randint(1, 6)):
        one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
        swapped, repeated, dropped = (lines[other], lines[one]), (lines[one], lines[one]), (b"", lines[other])
        lines[one], lines[other] = chance.choice((swapped, repeated, dropped))
    return b"\n".join(lines)


def indent_lines(data: bytes, chance: random.Random) -> bytes:
    """Move lines to the right or to the left."""
    lines = data.split(b"\n")
    for _ in range(chance.randint(1, 6)):
        place = chance.randrange(len(lines))
        front = chance.choice((b" ", b"  ", b"    ", b"\t", b"- "))
        lines[place] = front + lines[place] if chance.random() < 0.6 else lines[place].lstrip()
    return b"\n".join(lines)


def swap_words(data: bytes, chance: random.Random) -> bytes:
    """Put words of the file into the places of others."""
    words = data.split(b" ")
    for _ in range(chance.randint(1, 6)):
        one, other = chance.randrange(len(words)), chance.randrange(len(words))
        words[one], words[other] = words[other], words[one]
    return b" ".join(words)


def insert(data: bytes, chance: random.Random) -> bytes:
    """Put strings that mean something to somebody into the file."""
    for _ in range(chance.randint(1, 3)):
        place = chance.randrange(len(data) + 1)
        data = data[:place] + chance.choice(SPECIAL).encode() + data[place:]
    return data


def replace_values(data: bytes, chance: random.Random) -> bytes:
    """Put such strings in the place of whole values."""
    lines = data.split(b"\n")
    for _ in range(chance.randint(1, 3)):
        place = chance.randrange(len(lines))
        if b": " in lines[place]:
            value = chance.choice(SPECIAL) if chance.random() < 0.7 else f"{chance.uniform(-1e6, 1e6) ** 5} mm"
            lines[place] = lines[place].split(b": ")[0] + b": " + value.encode()
    return b"\n".join(lines)


def random_letters(data: bytes, chance: random.Random) -> bytes:
    """Put letters of any writing into the file."""
    for _ in range(chance.randint(1, 10)):
        letter = chr(chance.randrange(*chance.choice(((0x20, 0x250), (0x250, 0xD800), (0xE000, 0x110000)))))
        added = letter if chance.random() < 0.5 else chance.choice(string.punctuation)
        place = chance.randrange(len(data) + 1)
        data = data[:place] + added.encode() + data[place:]
    return data


def deepen(data: bytes, chance: random.Random) -> bytes:
    """Put the file below many keys or many hyphens."""
    depth = chance.choice((3, 11, 13, 200, 3000))
    if chance.random() < 0.5:
        return b"- " * depth + data
    keys = b"".join(b" " * n + b"a:\n" for n in range(min(depth, 200)))
    return keys + b"\n".join(b" " * 200 + line for line in data.split(b"\n"))


def multiply(data: bytes, chance: random.Random) -> bytes:
    """Repeat the file, or one piece of it, many times."""
    if chance.random() < 0.5:
        return data * chance.choice((2, 20, 200))
    start = chance.randrange(len(data))
    return data[:start] + data[start : start + chance.randint(1, 30)] * chance.choice((10, 1000, 20000)) + data[start:]


DAMAGES = (flip_bytes, cut, shuffle_lines, indent_lines, swap_words, insert, replace_values, random_letters, deepen, multiply)
#: How often each is done: the last two make large files, which are slow to read.
WEIGHTS = (15, 10, 15, 10, 10, 15, 15, 8, 1, 1)


def damaged(data: bytes, chance: random.Random) -> bytes:
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        data = chance.choices(DAMAGES, WEIGHTS)[0](data or b"a", chance)
    return data


def check(name: str, data: bytes) -> None:
    """Read one file as what it is and check it against its records; raise Faults when it has any."""
    node, family = source.read(data, name), FAMILIES[0]
    folder, stem = Path(name).parent.name, Path(name).stem
    if folder == "machines":
        _, faults = schema.record(node, family.machine, "machine", family.assumptions)
    elif stem == "shop":
        _, faults = schema.record(node, SHOP, "shop", family.assumptions)
    elif stem == "blades":
        _, faults = schema.records(node, "blades", family.blade, "blade", family.assumptions)
    elif stem == "jobs":
        _, faults = schema.records(node, "jobs", family.job, "job")
    elif stem == "notices":
        *_, faults = schema.load_notices(node)
    elif stem == "sources":
        *_, faults = schema.load_sources(node)
    else:
        procedure, faults = schema.load_procedure(node, stem)
        faults += checks.check_words(procedure, family, None) if procedure else []
    if faults:
        raise Faults(faults)


def shop(folder: Path) -> list[Path]:
    """Write the good shop with its procedures into a folder; return the files that are to be damaged."""
    shutil.copytree(GOOD, folder)
    shutil.copytree(files.data_folder("procedures"), folder / "procedures", ignore=shutil.ignore_patterns("shops"))
    return sorted(path for path in folder.rglob("*.yaml"))


def fuzz(folder: Path, count: int, whole: int) -> dict[str, float]:
    """Damage and read `count` files, every `whole`-th through the whole library; return what was seen."""
    chance = random.Random(SEED)
    source.read = functools.lru_cache(maxsize=100)(source.read)  # the files that are not damaged are read once
    paths = shop(folder)
    good = {path: path.read_bytes() for path in paths}
    library.load(folder, folder / "procedures")  # the good files are read, and kept
    seen = {"read": 0, "good": 0, "refused": 0, "whole": 0, "faults": 0, "slowest": 0.0}
    for number in range(count):
        path = chance.choice(paths)
        data = damaged(good[path], chance)
        name = path.relative_to(folder).as_posix()
        began = time.process_time()
        try:
            check(name, data)
            seen["good"] += 1
        except Faults as found:
            assert found.faults and all(frame(fault) for fault in found.faults)
            seen["refused"] += 1
            seen["faults"] += len(found.faults)
        seen["slowest"] = max(seen["slowest"], time.process_time() - began)
        seen["read"] += 1
        if number % whole == 0:
            seen["slowest"] = max(seen["slowest"], through_the_library(folder, path, data))
            seen["whole"] += 1
            path.write_bytes(good[path])
    return seen


def through_the_library(folder: Path, path: Path, data: bytes) -> float:
    """Put a damaged file into the shop and read it all; return how long that took [s]."""
    path.write_bytes(data)
    began = time.process_time()
    try:
        library.load(folder, folder / "procedures")
    except Faults as found:
        assert str(found)
    return time.process_time() - began


def most_memory() -> int:
    """Return the most memory this process has held [bytes], 0 where the system does not say.

    Linux counts the memory of the process that started this one into `ru_maxrss`, but not into VmHWM (proc(5)).
    """
    status = Path("/proc/self/status")
    if status.exists():
        return int(next(line for line in status.read_text().splitlines() if line.startswith("VmHWM")).split()[1]) * 1024
    try:
        import resource
    except ImportError:  # Windows
        return 0
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024)


def test_damaged_files_end_with_faults_soon_and_in_little_room(tmp_path):
    """In a process of its own, so that its memory can be asked for."""
    code = (
        f"import sys, json; sys.path.insert(0, {str(Path(__file__).parent)!r})\n"
        "import test_fuzz; from pathlib import Path\n"
        f"seen = test_fuzz.fuzz(Path({str(tmp_path / 'shop')!r}), {COUNT}, 50)\n"
        "print(json.dumps(seen | {'memory': test_fuzz.most_memory()}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=60 + COUNT,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(path for path in sys.path if path)},
    )
    assert done.returncode == 0, done.stderr[-3000:]
    seen = json.loads(done.stdout)
    print(seen)
    assert seen["read"] == COUNT and seen["whole"] >= COUNT // 50
    assert seen["refused"] > COUNT * 0.5 and seen["good"] > COUNT * 0.02
    assert seen["slowest"] < LONGEST
    assert seen["memory"] < MOST_MEMORY


@pytest.mark.parametrize("number", range(len(SPECIAL)))
def test_every_special_string_in_every_place_of_a_line(number):
    """Before, behind and in the place of a key and of a value, plain and in either quotes."""
    word = SPECIAL[number]
    for text in (
        word,
        f"{word}: a",
        f"a: {word}",
        f"name{word}: a",
        f"a: b{word}",
        f"a: {word} b",
        f"a: '{word}'",
        f'a: "{word}"',
        f"jobs:\n  - {word}\n",
        f"jobs:\n  - id: {word}\n    name: x",
        f"id: a\ntyre_width: {word}\n",
        f"id: a\ntyre_width: 1 {word}\n",
        f"tyre_width: {word} mm\n",
    ):
        for name in ("machines/a.yaml", "jobs.yaml", "shop.yaml"):
            began = time.process_time()
            with pytest.raises(Faults) as caught:
                check(name, text.encode())
            assert caught.value.faults and time.process_time() - began < LONGEST
            for fault in caught.value.faults:
                assert fault.at.file == name and (fault.hint or "cannot be read" in fault.what), fault
                shown = frame(fault)
                assert all(character.isprintable() or character == "\n" for character in shown), shown


def test_a_damaged_mkdocs_yml_ends_with_faults(tmp_path):
    """The site builder reads this file, and it would rather say a word of its own."""
    chance, folder = random.Random(SEED), tmp_path / "shop"
    shutil.copytree(GOOD, folder)
    good, seen = (folder / "mkdocs.yml").read_bytes(), 0
    for _ in range(max(100, COUNT // 10)):
        (folder / "mkdocs.yml").write_bytes(damaged(good, chance))
        began = time.process_time()
        try:
            site.project(folder)
        except Faults as found:
            assert str(found)
            seen += 1
        assert time.process_time() - began < LONGEST
    assert seen > 50
