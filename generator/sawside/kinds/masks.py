"""Masks: which parts of a view a kind of sheet takes, and the parts that several kinds share."""

from collections.abc import Mapping
from typing import Any

#: Name of a part of the view -> what is taken of it: everything (None) or, of a map and of each map in a list, these parts.
#: `*` stands for every name of a map.
Mask = dict[str, "Mask | None"]


def parts(names: str, **inside: Mask | None) -> Mask:
    """Return a mask of these parts as a whole and of those inside others."""
    return dict.fromkeys(names.split()) | inside


SAW = parts("name place revision revised address")
HEAD = parts("name revision revised address")  # what a running head and foot print
NUMBER = parts("label text small good limited status note")
CELL = parts("name label text good limited status")
NOTICE = parts("signal hazard consequence avoid signs machine_state")
LINE = parts("signal sign line")
ASK = parts("name ask")
BLADE = parts("name section fits reasons")
#: What stops everybody, on every sheet that is taken to the saw; what a shop says itself about a saw, beside the hazards.
STOP = parts("always out_of_service")
OWN = STOP | parts("local_rules")
#: A step of the method, and one of a list: what, how, within which limit, and what to do about it.
STEP = parts("number step state key_points reason check figure record", sets=NUMBER | parts("plus_minus"), notices=NOTICE)
LISTED = parts("step state key_points check put_right")
#: Every drawing by its name: what is read aloud for it is not printed.
DRAWN = parts("", drawings={"*": parts("paper title")})
UNDRAWN = parts("", drawings={"*": parts("paper")})
ALOUD = parts("", drawings={"*": parts("alt")})
#: Pictures of the signs and their names stand for the codes of the notices: they belong to the program, as the typeface does.
SIGNS = parts("signs sign_svgs")


def select(data: Any, mask: Mask | None) -> Any:
    """Return of plain data what a mask takes; of a list, of each of its maps."""
    if mask is None or data is None:
        return data
    if isinstance(data, Mapping):
        mask = dict.fromkeys(data, mask["*"]) if "*" in mask else mask
        return {name: select(data[name], inside) for name, inside in mask.items() if name in data}
    return [select(part, mask) for part in data]


def both(one: Mask | None, other: Mask | None) -> Mask | None:
    """Return a mask of what either takes."""
    if one is None or other is None:
        return None
    return {
        name: both(one[name], other[name]) if name in one and name in other else one.get(name, other.get(name))
        for name in (*one, *other)
    }
