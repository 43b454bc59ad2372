"""From a file in a folder to clean lines: its name, links, size, encoding and the characters no line may hold.

Whatever is wrong with one of these is refused with its place.
"""

import re
import stat
from pathlib import Path

from sawside.errors import At, Fault, Faults
from sawside.nodes import UNSAFE, code_point
from sawside.syntax import place

#: How the name of a YAML file may end.
ENDINGS = (".yaml", ".yml")
MOST_BYTES = 1_000_000
MOST_LINES = 20_000
MOST_FAULTS = 50

_BREAK = re.compile(r"\r\n|\r|\n")
_UTF8 = "save it again with the encoding UTF-8"


def leaves(path: Path, folder: Path) -> bool:
    """Return whether a path leads out of a folder, through a link for example: such a file is never opened."""
    try:
        return not path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # a link that leads to itself
        return True


def meant_name(path: Path) -> str:
    """Return the name a file was surely meant to have, or nothing: some editors add `.txt`, some people write `.YAML`.

    >>> meant_name(Path("my-saw.yaml.txt")), meant_name(Path("My saw.YAML")), meant_name(Path("notes.txt"))
    ('my-saw.yaml', 'My saw.yaml', '')
    """
    plain = path.with_suffix("") if path.suffix.lower() == ".txt" else path
    return plain.stem + plain.suffix.lower() if plain.suffix.lower() in ENDINGS else ""


def looks_like(missing: Path) -> str:
    """Return the name of the file beside a missing one that was probably meant to be it, or nothing."""
    named = {path.name: meant_name(path) for path in sorted(missing.parent.iterdir()) if path.is_file()}
    return next((name for name, meant in named.items() if meant and Path(meant).stem.lower() == missing.stem), "")


def says_nothing(path: Path, key: str) -> bool:
    """Return whether a file is left out, under any name, or holds no more than notes and one key."""
    if not path.exists() and not path.is_symlink():
        return not looks_like(path)
    try:
        lines = [] if leaves(path, path.parent) else clean(load(path, ""), "")[1]
    except Faults:
        return False  # what is wrong with it is said when it is read
    return bool(lines) and all(line.split("#")[0].strip() in ("", key, "---", "...") for line in lines)


def load(path: Path, shown: str) -> bytes:
    """Return the bytes of a file; raise Faults when it cannot be read, is no plain file or is too large.

    The size is asked first and the reading is bounded as well: a device or a growing file cannot fill the memory.
    """
    try:
        facts = path.stat()
        if not stat.S_ISREG(facts.st_mode):
            raise Faults([Fault(At(shown), "this is not a file", "put a text file in its place")])
        if facts.st_size > MOST_BYTES:
            raise Faults([_too_large(shown)])
        with path.open("rb") as stream:
            return stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise Faults([Fault(At(shown), f"the file cannot be read: {error.strerror}")]) from None


def clean(data: str | bytes, file: str) -> tuple[str, list[str]]:
    """Return the text without its byte order mark, and its lines; raise Faults for what no shop file may hold.

    >>> clean(b"\\xef\\xbb\\xbfname: a\\r\\nplace: b", "a.yaml")[1]
    ['name: a', 'place: b']
    """
    if len(data) > MOST_BYTES:
        raise Faults([_too_large(file)])
    text = (decode(data, file) if isinstance(data, bytes) else data).removeprefix("\ufeff")
    lines = _BREAK.split(text)
    if len(lines) > MOST_LINES:
        raise Faults([Fault(At(file), f"the file has more than {MOST_LINES} lines", "split it into several files")])
    faults = _check_lines(lines, file)
    if faults:
        raise Faults(faults[:MOST_FAULTS])
    return text, lines


def _too_large(file: str) -> Fault:
    return Fault(At(file), f"the file is larger than {MOST_BYTES // 1_000_000} MB", "check that it is the file you mean")


def decode(data: bytes, file: str) -> str:
    """Return the text of a file's bytes; raise Faults at the first byte that is not UTF-8."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Faults([Fault(At(file), "the file is saved as UTF-16", _UTF8)])
    data = data.removeprefix(b"\xef\xbb\xbf")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = _BREAK.split(data[: error.start].decode("utf-8"))
        rest = _BREAK.split(data[error.start :].decode("utf-8", "replace"))[0]
        at = At(file, len(before), len(before[-1]) + 1, 1, before[-1] + rest)
        what = f"the file is not UTF-8: byte 0x{data[error.start]:02X} in line {len(before)}"
        raise Faults([Fault(at, what, _UTF8)]) from None


def _check_lines(lines: list[str], file: str) -> list[Fault]:
    """Return faults for characters no line may hold, tabs as indentation, directives and marks of a merge."""
    faults = _check_merged(lines, file)
    for number, line in enumerate(lines):
        if found := UNSAFE.search(line):
            hint = "take it out" if found[0] != "\0" else f"is this a text file? If so, {_UTF8}"
            at = place(file, lines, number, found.start(), 1)
            faults.append(Fault(at, f"the character {code_point(found[0])} is not allowed", hint))
        if tab := re.match(r"( *)(\t+)", line):
            at = At(file, number + 1, tab.start(2) + 1, len(tab[2]), line)
            faults.append(Fault(at, "a tab is used for indentation", "use spaces: two for each level"))
        if line.startswith("%"):
            faults.append(Fault(place(file, lines, number, 0), "a line cannot begin with `%`", "take the line out"))
        if len(faults) >= MOST_FAULTS:
            break
    return faults


#: The marks git leaves in a file where two versions of the same lines met (git-merge, "How conflicts are presented").
_CONFLICT = re.compile(r"(<{7}|\|{7}|={7}|>{7})(?: .*)?\s*")
_TAKE_OUT = "look whether the lines round it stand there twice, then take this line out"


def _check_merged(lines: list[str], file: str) -> list[Fault]:
    """Return one fault for each place where a merge left two versions, and for each mark of one that stands alone.

    >>> print(_check_merged(["<<<<<<< a", "x: 1", "=======", "x: 2", ">>>>>>> b"], "a.yaml")[0].what)
    a merge left two versions of the same lines here, in lines 1 to 5
    """
    marks = [(number, found[1][0]) for number, line in enumerate(lines) if (found := _CONFLICT.fullmatch(line))]
    faults, begun = [], None
    for number, mark in marks:
        if mark == "<":
            begun = number
        elif mark == ">" and begun is not None:
            what = f"a merge left two versions of the same lines here, in lines {begun + 1} to {number + 1}"
            hint = "choose one of the two versions; take the other one out, and the lines that begin with <<<<<<<, ======="
            hint += " and >>>>>>>"
            faults.append(Fault(place(file, lines, begun, 0), what, hint))
            begun = None
        elif begun is None:
            faults.append(Fault(place(file, lines, number, 0), "a mark of a merge was left here", _TAKE_OUT))
    if begun is not None:
        faults.append(Fault(place(file, lines, begun, 0), "a mark of a merge was left here", _TAKE_OUT))
    return faults
