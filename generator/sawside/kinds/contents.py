"""What each kind of sheet prints, as data: the part of a machine's view it is given, and the short mark of that content.

Two prints with the same mark say the same, whatever paper, ink or version of this program made them.
"""

from collections.abc import Mapping
from typing import Any

from sawside.kinds.masks import Mask, both, select
from sawside.kinds.print_mark import mark_of
from sawside.kinds.sheet_kinds import KINDS
from sawside.kinds.view_types import MachineView


def cut(kind: str, view: MachineView) -> dict[str, Any]:
    """Return a whole view without what a kind of sheet leaves out of its lists."""
    found: dict[str, Any] = {**view}
    for each in KINDS[kind].cuts:
        found = each(found)
    return found


def printed(kind: str, view: MachineView) -> dict[str, Any]:
    """Return what a kind of sheet prints of a view, as plain data."""
    return _taken(kind, view, KINDS[kind].prints)


def given(kind: str, view: MachineView) -> dict[str, Any]:
    """Return what the layout of a kind is given: what it prints, and what it needs besides."""
    return _taken(kind, view, both(KINDS[kind].prints, KINDS[kind].aside))


def _taken(kind: str, view: MachineView, mask: Mask | None) -> dict[str, Any]:
    # what is taken is a small part of a view: only that is walked once more for how its numbers stand
    taken = select(cut(kind, view), mask)
    found: dict[str, Any] = taken if KINDS[kind].standing else _plain(taken)
    return found


def about(kind: str, view: MachineView) -> str:
    """Return the id of the blade that a sheet is about beside its saw, or nothing.

    A card is for one blade whichever is on the saw. Of guide and wall sheet the one of the blade on the saw is the saw's own.
    """
    blade = view.get("blade") if KINDS[kind].by_blade else None
    return blade["id"] if blade and blade["fits"] and (kind == "card" or not blade["fitted"]) else ""


def fingerprint(kind: str, view: MachineView) -> str:
    """Return the mark of what a kind of sheet prints of a view: SHA-256 of its content as text, the first 40 bits of it."""
    return mark_of([kind, printed(kind, view)])


def _plain(data: Any) -> Any:
    """Return data in which a measured number stands as a computed one does."""
    if isinstance(data, Mapping):
        plain = {name: _plain(part) for name, part in data.items() if name != "working"}
        return plain | {"status": "computed"} if plain.get("status") == "measured" else plain
    return [_plain(part) for part in data] if isinstance(data, (list, tuple)) else data
