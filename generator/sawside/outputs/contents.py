"""What each kind of sheet prints, as data: the part of a machine's view it is given, and the short mark of that content.

A sheet is given what stands here for its kind and nothing else, so whatever it prints has its part in the mark. Two prints
with the same mark say the same, whatever paper, ink or version of this program made them.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from sawside.outputs import cuts
from sawside.outputs.kinds import KINDS
from sawside.outputs.print_mark import mark_of
from sawside.outputs.view_types import MachineView

#: Name of a part of the view -> what is taken of it: everything (None) or, of a map and of each map in a list, these parts.
#: `*` stands for every name of a map.
Mask = dict[str, "Mask | None"]
Cut = Callable[[dict[str, Any]], dict[str, Any]]


@dataclass(frozen=True)
class Content:
    """What a kind of sheet prints of a view, and what its layout needs besides without printing it.

    `cuts` are made first: each takes a view and gives one without what this kind leaves out. `standing` says whether the
    sheet tells measured numbers from computed ones.
    """

    prints: Mask
    aside: Mask
    cuts: tuple[Cut, ...] = ()
    standing: bool = False


def _parts(names: str, **inside: Mask | None) -> Mask:
    """Return a mask of these parts as a whole and of those inside others."""
    return dict.fromkeys(names.split()) | inside


_SAW = _parts("name place revision revised address")
_HEAD = _parts("name revision revised address")  # what a running head and foot print
_NUMBER = _parts("label text small good limited status note")
_CELL = _parts("name label text good limited status")
_NOTICE = _parts("signal hazard consequence avoid signs machine_state")
_LINE = _parts("signal sign line")
_ASK = _parts("name ask")
_BLADE = _parts("name section fits reasons")
#: What stops everybody, on every sheet that is taken to the saw; what a shop says itself about a saw, beside the hazards.
_STOP = _parts("always out_of_service")
_OWN = _STOP | _parts("local_rules")
#: A step of the method, and one of a list: what, how, within which limit, and what to do about it.
_STEP = _parts("number step state key_points reason check figure record", sets=_NUMBER | _parts("plus_minus"), notices=_NOTICE)
_LISTED = _parts("step state key_points check put_right")
#: Every drawing by its name: what is read aloud for it is not printed.
_DRAWN = _parts("", drawings={"*": _parts("paper title")})
_UNDRAWN = _parts("", drawings={"*": _parts("paper")})
_ALOUD = _parts("", drawings={"*": _parts("alt")})
#: Pictures of the signs and their names stand for the codes of the notices: they belong to the program, as the typeface does.
_SIGNS = _parts("signs sign_svgs")
_FIRST = partial(cuts.first_sentences, 1)

#: Kind of sheet -> what it prints. Each kind of `outputs/kinds.py` has one entry.
CONTENTS = {
    "card": Content(
        _OWN | _UNDRAWN | _parts("", machine=_SAW, shop=_ASK, blade=_BLADE, notices=_LINE,
                                 card=_parts("title", lines=_parts("number state text"))),
        _SIGNS | _ALOUD | _parts("", card=_parts("", lines=_parts("runs"))),
        (_FIRST, cuts.unfit, cuts.severe, cuts.one_line, cuts.carded)),
    "wall": Content(
        _OWN | _UNDRAWN | _parts(
            "", machine=_SAW, shop=_ASK, blade=_BLADE, columns=_parts("wall"),
            blades=_parts("name section fits fitted verdict reasons", items=_parts("name label text limited status")),
            wall=_parts("", numbers=_NUMBER, steps=None, write_in=_parts("label"), hazards=_NOTICE)),
        _SIGNS | _ALOUD | _parts("", wall=_parts("picture")),
        (partial(cuts.first_sentences, 2), cuts.hanging, partial(cuts.only, "wall"), cuts.starred, cuts.unfit, cuts.hazards,
         cuts.pictured)),
    "guide": Content(
        _OWN | _DRAWN | _parts(
            "", machine=_SAW | _parts("plate"), shop=_ASK, blade=_BLADE, notices=_NOTICE,
            stages=_parts("title purpose local_rules", lines=_LINE, steps=_STEP), unknowns=_parts("label note needed_by")),
        _SIGNS | _ALOUD, (cuts.unfit, cuts.severe, cuts.waited, cuts.seen)),
    "commissioning": Content(
        _OWN | _parts("", machine=_HEAD, shop=_ASK, hazards=_LINE,
                      commissioning=_parts("title local_rules", steps=_LISTED | _parts("number record"))),
        _SIGNS, (_FIRST, cuts.commissioning)),
    "checks": Content(
        _OWN | _parts("", machine=_HEAD, shop=_ASK,
                      lists=_parts("title when", lines=_LINE, stages=_parts("local_rules", steps=_LISTED))),
        _SIGNS, (_FIRST, cuts.check_lists)),
    "notice": Content(
        _OWN | _parts("", machine=_SAW, shop=_parts("name ask viewing_distance"), notices=_NOTICE | _parts("line"),
                      more_notices=_parts("signal")),
        _SIGNS | _parts("", notices=_parts("id")), (cuts.severe,)),
    "out_of_service": Content(_STOP | _parts("", machine=_SAW, shop=_parts("name ask viewing_distance")), {}, (_FIRST,)),
    "blade_table": Content(
        _STOP | _parts("rack", machine=_HEAD, shop=_parts("name"), columns=_parts("table"),
                       jobs=_parts("name work best_name refused reason", cells=_parts("blade_name")),
                       blades=_parts("name section length back rack_place fits fitted verdict reasons advice", items=_CELL)),
        _parts("", jobs=_parts("best", cells=_parts("fits blade"))),
        (_FIRST, partial(cuts.next_best, 2, False), partial(cuts.only, "table"), cuts.in_short, cuts.starred)),
    "job_card": Content(
        _STOP | _parts("", machine=_HEAD, shop=_parts("name"), columns=_parts("card"),
                       jobs=_parts("name work best refused reason", cells=_parts("blade_name")),
                       blades=_parts("id name section rack_place fitted", items=_CELL | _parts("small"))),
        _parts("", jobs=_parts("", cells=_parts("fits blade on_this_saw"))),
        (_FIRST, partial(cuts.next_best, 3, True), cuts.taken, partial(cuts.only, "card"))),
    "tags": Content(
        _parts("", machine=_parts("name revision revised"), columns=_parts("tag"),
               blades=_parts("name section length back rack_place fits saws", items=_CELL)),
        _parts("", blades=_parts("id")), (cuts.fitting, partial(cuts.only, "tag"))),
    "worksheet": Content(_STOP | _parts("test_cut", machine=_HEAD, shop=_parts("name")), {}, (_FIRST,)),
    "check_record": Content(_STOP | _parts("checks", machine=_HEAD, shop=_ASK), {}, (_FIRST,)),
    "true_scale": Content(
        _parts("always", machine=_parts("name revision revised"), coils=_parts("name diameter text")), {}, (_FIRST,)),
    "numbers": Content(
        _STOP | _parts("", machine=_SAW | _parts("plate"), shop=_ASK, blade=_BLADE, unknowns=_parts("label note needed_by"),
                       numbers=_parts("group", items=_parts("label text small plus_minus status note"))),
        {}, (_FIRST, cuts.unfit, cuts.outside), standing=True),
}  # fmt: skip


def of(kind: str) -> Content:
    """Return what a kind of sheet prints; raise LookupError that says what to add when nobody has said it."""
    if kind not in CONTENTS:
        raise LookupError(f"CONTENTS in outputs/contents.py does not say what a sheet of the kind `{kind}` prints: add an entry")
    return CONTENTS[kind]


def cut(kind: str, view: MachineView) -> dict[str, Any]:
    """Return a whole view without what a kind of sheet leaves out of its lists."""
    found: dict[str, Any] = {**view}
    for each in of(kind).cuts:
        found = each(found)
    return found


def printed(kind: str, view: MachineView) -> dict[str, Any]:
    """Return what a kind of sheet prints of a view, as plain data."""
    return _taken(kind, view, of(kind).prints)


def given(kind: str, view: MachineView) -> dict[str, Any]:
    """Return what the layout of a kind is given: what it prints, and what it needs besides."""
    return _taken(kind, view, _both(of(kind).prints, of(kind).aside))


def _taken(kind: str, view: MachineView, mask: Mask | None) -> dict[str, Any]:
    # what is taken is a small part of a view: only that is walked once more for how its numbers stand
    taken = _select(cut(kind, view), mask)
    found: dict[str, Any] = taken if of(kind).standing else _plain(taken)
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


def _select(data: Any, mask: Mask | None) -> Any:
    if mask is None or data is None:
        return data
    if isinstance(data, Mapping):
        mask = dict.fromkeys(data, mask["*"]) if "*" in mask else mask
        return {name: _select(data[name], inside) for name, inside in mask.items() if name in data}
    return [_select(part, mask) for part in data]


def _both(one: Mask | None, other: Mask | None) -> Mask | None:
    """Return a mask of what either takes."""
    if one is None or other is None:
        return None
    return {
        name: _both(one[name], other[name]) if name in one and name in other else one.get(name, other.get(name))
        for name in (*one, *other)
    }
