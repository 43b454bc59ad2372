"""A group of keys as it is written in procedures and notices: which keys it may hold and how each is read."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from sawside.errors import Fault, Faults
from sawside.nodes import Map, Node, quote
from sawside.schema.texts import refuse, text, texts
from sawside.suggest import suggest

#: Isolated: nobody can start it. Stopped: switched off and seen standing, the hand away from the start. Running.
STEP_STATES = ("isolated", "stopped", "running")

MACHINE_STATES = ("any", *STEP_STATES)


@dataclass(frozen=True)
class Key:
    """One key of a group: how it is read, whether it must be there, and what to write when it is not."""

    name: str
    read: Callable[[str, Node], object]
    hint: str
    required: bool = True


def group(node: Map, keys: tuple[Key, ...], what: str, faults: list[Fault]) -> dict[str, Any]:
    """Return the values of a group by key; add faults for unknown, missing and wrong ones."""
    known = {key.name: key for key in keys}
    meant = set()
    for name, (at, _) in node.items.items():
        if name not in known:
            near = suggest(name, [key for key in known if key not in node.items])
            meant.add(near)
            hint = f"did you mean `{near}`?" if near else f"keys of {what}: " + ", ".join(known)
            faults.append(Fault(at, f"unknown key {quote(name)}", hint))
    values: dict[str, Any] = {}
    for name, key in known.items():
        if name in node.items:
            try:
                values[name] = key.read(name, node.items[name][1])
            except Faults as found:
                faults += found.faults
        elif key.required and name not in meant:
            faults.append(Fault(node.at, f"{what} needs `{name}`", key.hint))
    return values


def words(longest: int, slots: bool = False) -> Callable[[str, Node], str]:
    """Return a reader of one text of at most so many characters."""
    return partial(text, longest=longest, slots=slots)


def list_of(longest: int, slots: bool = False) -> Callable[[str, Node], tuple[str, ...]]:
    """Return a reader of a list of texts, each of at most so many characters."""
    return partial(texts, longest=longest, slots=slots)


def one_of(choices: tuple[str, ...], name: str, node: Node) -> str:
    """Return a text that is one of the choices, or raise Faults with a suggestion."""
    value = text(name, node, 200)
    if value not in choices:
        near = suggest(value, choices)
        hint = (f"did you mean `{near}`? " if near else "") + "write one of: " + ", ".join(choices)
        raise refuse(node.at, f"`{name}` cannot be {quote(value)}", hint)
    return value


def yes_no(name: str, node: Node) -> bool:
    """Return whether a key says `yes`; raise Faults when it is neither `yes` nor `no`."""
    return one_of(("yes", "no"), name, node) == "yes"
