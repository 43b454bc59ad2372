"""Damaged shops through the front door: `sawside check --quick` on each, in this process, and one line of summary.

    python tests/fuzz/run.py --count 30000 --seed 1

Each round one file of a good shop is damaged (a shop file, mkdocs.yml, a hand-written page or a procedure), the shop is
checked as a person would, and the file is put back. Counted are tracebacks, checks that took more than two seconds of the
processor, and messages with words of Python in them. The sheets are not set: tests/test_promise.py does that.
"""

import argparse
import functools
import random
import re
import sys
import tempfile
import time
from pathlib import Path

from click.testing import CliRunner

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
import test_fuzz
from sawside import source
from sawside.cli import main

LONGEST = 2.0
PYTHON = re.compile(
    r"Traceback|\b[A-Z][a-z]+Error\b|<class |\bNone\b|\bNoneType\b|\bdict\b|\bobject at 0x|\bself\.|jinja2?\b|yaml\.[a-z]"
)


def words(output: str) -> str:
    """Return what a message says in its own words: without the quoted file, names between backticks, and paths."""
    lines = [line for line in output.splitlines() if not re.match(r"\s*\d* [|]|\s*--> ", line)]
    return re.sub(r"`[^`]*`", "", "\n".join(lines))


def fuzz(folder: Path, count: int, seed: int) -> dict[str, object]:
    """Check `count` damaged shops; return what was counted and the first failures."""
    chance = random.Random(seed)
    test_fuzz.shop(folder)
    files = sorted(path for path in folder.rglob("*") if path.suffix in (".yaml", ".yml", ".md"))
    good = {path: path.read_bytes() for path in files}
    source.read = functools.lru_cache(maxsize=100)(source.read)  # the files that are not damaged are read once
    runner = CliRunner()
    seen = {"checked": 0, "good": 0, "refused": 0, "tracebacks": 0, "over_2_s": 0, "python_words": 0, "slowest": 0.0, "first": []}
    for number in range(count):
        path = chance.choice(files)
        path.write_bytes(test_fuzz.damaged(good[path], chance))
        began = time.process_time()
        result = runner.invoke(main, ["check", "--quick", "--project", str(folder)])
        took = time.process_time() - began
        bad = {
            "tracebacks": result.exception is not None and not isinstance(result.exception, SystemExit),
            "over_2_s": took > LONGEST,
            "python_words": bool(PYTHON.search(words(result.output))),
        }
        for name, yes in bad.items():
            seen[name] += yes
        if any(bad.values()) and len(seen["first"]) < 10:
            seen["first"].append(
                (
                    number,
                    path.relative_to(folder).as_posix(),
                    [k for k, yes in bad.items() if yes],
                    repr(result.exception)[:200],
                    result.output[:300],
                    round(took, 2),
                )
            )
        seen["checked"] += 1
        seen["good" if result.exit_code == 0 else "refused"] += 1
        seen["slowest"] = max(seen["slowest"], took)
        path.write_bytes(good[path])
    return seen


def summary(seen: dict[str, object]) -> str:
    """Return what was counted in one line."""
    return (
        f"{seen['checked']} damaged inputs through check: {seen['tracebacks']} tracebacks, {seen['over_2_s']} over 2 s, "
        f"{seen['python_words']} with Python words ({seen['good']} good, {seen['refused']} refused, slowest {seen['slowest']:.2f} s)"
    )


if __name__ == "__main__":
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--count", type=int, default=1000)
    options.add_argument("--seed", type=int, default=test_fuzz.SEED)
    asked = options.parse_args()
    with tempfile.TemporaryDirectory() as room:
        counted = fuzz(Path(room) / "shop", asked.count, asked.seed)
    for failure in counted["first"]:
        print(failure)
    print(summary(counted))
    sys.exit(bool(counted["tracebacks"] or counted["over_2_s"] or counted["python_words"]))
