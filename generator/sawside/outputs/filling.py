"""A part of a page that is said for every blade that may go on: shown for one, kept for the others in what they say differently.

The page's script puts another blade's parts in their places; without a script the page says what it says for the blade shown.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

#: One piece of a region: its name, the same for all blades that have it, and its HTML: one element with `data-part`.
Part = tuple[str, str]


@dataclass(frozen=True)
class Filling:
    """What a region of a page says for one blade: the names of its parts in order, and those that differ from what is shown."""

    blade: str
    order: tuple[str, ...]
    changed: tuple[Part, ...]


def fillings(shown: Sequence[Part], by_blade: Mapping[str, Sequence[Part]]) -> tuple[Filling, ...]:
    """Return for each blade what differs from the parts shown.

    >>> fillings([("a", "1"), ("b", "2")], {"x": [("a", "1"), ("c", "9"), ("b", "3")]})
    (Filling(blade='x', order=('a', 'c', 'b'), changed=(('c', '9'), ('b', '3'))),)
    """
    here = dict(shown)
    return tuple(
        Filling(blade, tuple(name for name, _ in parts), tuple((name, html) for name, html in parts if here.get(name) != html))
        for blade, parts in by_blade.items()
    )


def filled(shown: Sequence[Part], one: Filling) -> list[Part]:
    """Return the parts of a region for a blade, as the page's script puts them.

    >>> filled([("a", "1"), ("b", "2")], Filling("x", ("b", "c"), (("c", "9"),)))
    [('b', '2'), ('c', '9')]
    """
    known = dict(shown) | dict(one.changed)
    return [(name, known[name]) for name in one.order]
