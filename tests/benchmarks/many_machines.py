"""How the work grows with the number of machines: run it by hand, `python tests/benchmarks/many_machines.py`.

It copies the demonstration machines, resolves and prints them all in memory, and reports the time for one machine at each
size over that at the smallest: a ratio near 1 means that the work grows in step with the shop.
"""

import shutil
import sys
import tempfile
import time
from pathlib import Path

from sawside import library
from sawside.outputs import layouts, publishing

ROOT = Path(__file__).resolve().parents[2]
SHOP = ROOT / "procedures" / "shops" / "demonstration"


def shop_of(count: int, folder: Path) -> Path:
    """Return a copy of the demonstration shop with `count` machines."""
    target = folder / f"shop-{count}"
    shutil.copytree(SHOP, target)
    files = sorted((target / "machines").glob("*.yaml"))
    for number in range(len(files), count):
        text = files[number % len(files)].read_text(encoding="utf-8")
        lines = [f"id: saw-{number}" if line.startswith("id:") else line for line in text.splitlines()]
        (target / "machines" / f"saw-{number}.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return target


def seconds_for_one(count: int, folder: Path) -> float:
    """Return the seconds one machine takes, reading and page-making included, paper left out."""
    shop = shop_of(count, folder)
    began = time.perf_counter()
    read = library.load(shop)
    layouts.pages(read, publishing.views(read), [])
    return (time.perf_counter() - began) / count


def main(sizes: tuple[int, ...]) -> None:
    """Print one line for each size."""
    with tempfile.TemporaryDirectory() as name:
        seconds_for_one(sizes[0], Path(name) / "warm-up")
        first = None
        for size in sizes:
            each = seconds_for_one(size, Path(name))
            first = first or each
            print(f"{size:5d} machines: {1000 * each:7.1f} ms each, {each / first:4.2f} times the first")


if __name__ == "__main__":
    main(tuple(int(word) for word in sys.argv[1:]) or (4, 16, 64))
