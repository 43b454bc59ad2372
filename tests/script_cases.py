"""Functions that the translation into JavaScript is tried on: each name says whether it has one."""

import math
from collections.abc import Callable

from sawside.calc.limits import OutsideMethod, positive

TABLE = {"fine": (1, 2.5), "coarse": (3, 4.5)}


def good_words(size: float, many: int = 2) -> str:
    """Words, a format, a default and a chain."""
    return f"{size:.3g} mm, {many} times" if 0 < size <= 10 else "outside"


def good_walk(sizes: list) -> list:
    """A loop with everything in it."""
    found, last = [], 0
    for number, size in enumerate(sizes, 1):
        if size < 0:
            continue
        if number > 6:
            break
        last += size
        found.append((number, last))
    return sorted(found, key=lambda pair: (-pair[1], pair[0]))


def good_sets(words: list) -> list:
    """Sets, dictionaries and what is empty."""
    kinds = {word[:1] for word in words}
    counts = {kind: sum(1 for word in words if word[:1] == kind) for kind in kinds}
    most = max(counts.values(), default=0)
    return [len(kinds), most, bool(kinds) and "" in kinds, list(reversed(words))[1:], words[-1] if words else None]


def good_rounding(values: list) -> list:
    """Half to even, and exact sums."""
    return [
        [round(value, 2) for value in values],
        [round(value) for value in values],
        math.fsum(values),
        [f"{v:.2f}" for v in values],
    ]


def good_refusal(length: float) -> float:
    """A refusal that is caught, and one that is not."""
    try:
        positive(length=length)
    except OutsideMethod:
        return -1.0
    if length > 5:
        raise OutsideMethod("length", length, "5 or less")
    return TABLE["fine"][1] * length // 1 + length % 0.75


def bad_erf(x: float) -> float:
    """JavaScript has no such function."""
    return math.erf(x)


def bad_inside(x: float) -> float:
    """What it calls has no translation."""
    return 1.0 + bad_erf(x)


def bad_generator(x: float):
    """Nothing in JavaScript is worked out like this here."""
    yield x


def bad_with(x: float, opened: Callable) -> float:
    """A block of another kind."""
    with opened() as file:
        return file + x


def bad_format(x: float) -> str:
    """A format the script cannot write."""
    return f"{x:>12}"


def bad_slice(items: list) -> None:
    """A change in a part of a list."""
    items[1:2] = [3]
