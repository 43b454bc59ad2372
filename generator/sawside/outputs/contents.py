"""What each kind of sheet prints, as data: the part of a machine's view it is given, and the short mark of that content.

A sheet is given what stands here for its kind and nothing else, so whatever it prints has its part in the mark. Two prints
with the same mark say the same, whatever paper, ink or version of this program made them.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

from sawside.outputs import paper as rules
from sawside.outputs.print_mark import mark_of

#: Name of a part of the view -> what is taken of it: everything (None) or, of a map and of each map in a list, these parts.
Mask = Mapping[str, "Mask | None"]
Cut = Callable[[dict], dict]


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


def _parts(names: str, **inside: Mask) -> Mask:
    """Return a mask of these parts as a whole and of those inside others."""
    return dict.fromkeys(names.split()) | inside


def _only(column: str, view: dict) -> dict:
    """Keep of each blade's numbers those of one list of columns, and of a blade that does not fit none."""
    wanted = view["columns"][column]

    def row(blade: dict) -> dict:
        return blade | {"items": [item for item in blade["items"] if blade["fits"] and item["name"] in wanted]}

    return view | {"blades": [row(blade) for blade in view["blades"]]}


def _starred(view: dict) -> dict:
    """Keep of what limits a blade's number that something does: the sheet prints a star."""
    def row(blade: dict) -> dict:
        return blade | {"items": [item | {"limited": "*" if item.get("limited") else ""} for item in blade["items"]]}

    return view | {"blades": [row(blade) for blade in view["blades"]]}


def _first_sentences(count: int, view: dict) -> dict:
    return view | {"always": view["always"][:count]}


def _fitting(view: dict) -> dict:
    """Keep the blades that fit; the sheets of the rack name every blade."""
    return view if view.get("rack") else view | {"blades": [row for row in view["blades"] if row["fits"]]}


def _hanging(view: dict) -> dict:
    """Keep the blades that fit and the one on the saw, of each either what speaks for it or what against it."""
    rows = [row for row in view["blades"] if row["fits"] or row["fitted"]]
    kept = [row | ({"reasons": []} if row["fits"] else {"verdict": ""} if row["reasons"] else {}) for row in rows]
    return view | {"blades": kept}


def _unfit(view: dict) -> dict:
    """Keep of the numbers to set none when the blade on the saw does not fit, and why not only then."""
    blade = view["blade"]
    if blade and blade["fits"]:
        return view | {"blade": blade | {"reasons": []}}
    return view | {"wall": view["wall"] | {"numbers": []}} if blade else view


def _severe(view: dict) -> dict:
    """Put the hazards in order, worst first."""
    return view | {"notices": rules.by_severity(view["notices"])}


#: How many hazards the wall sheet says in words. Of the others it says how many, and shows the signs of the running saw.
WALL_HAZARDS, WALL_SIGNS = 4, 5


def _hazards(view: dict) -> dict:
    """Keep the worst hazards in words and of the others the signs that are shown, all at the first of them."""
    every = rules.by_severity(view["wall"]["hazards"])
    rest = every[WALL_HAZARDS:]
    codes = dict.fromkeys(code for notice in rest if notice["machine_state"] != "isolated" for code in notice["signs"]
                          if code not in ("M009", "W001", "M002"))
    signs = [list(codes)[:WALL_SIGNS], *([] for _ in rest[1:])]
    silent = [{"signs": shown, "machine_state": "any", "avoid": []} for shown in signs[: len(rest)]]
    return view | {"wall": view["wall"] | {"hazards": every[:WALL_HAZARDS] + silent}}


def _next_best(count: int, nearest: bool, view: dict) -> dict:
    """Keep of a job's other blades the first few that would do, and what was refused or the reason, whichever is said."""
    def row(job: dict) -> dict:
        others = [cell for cell in job["cells"] if cell["fits"] and cell["blade"] != job["best"]]
        failed = job["cells"][:1] if nearest and not job["best"] and not job["refused"] else []
        return job | {"cells": failed + others[:count]} | ({"reason": ""} if job["refused"] else {})

    return view | {"jobs": [row(job) for job in view["jobs"]]}


def _in_short(view: dict) -> dict:
    """Keep of a blade that does not fit its first reason and how many more there are; of one that fits no reason."""
    def row(blade: dict) -> dict:
        if blade["fits"]:
            return blade | {"reasons": []}
        reasons = [*blade["reasons"][:1], *("" for _ in blade["reasons"][1:])]
        return blade | {"reasons": reasons, "back": "", "rack_place": "", "verdict": "", "advice": [], "items": []}

    return view | {"blades": [row(blade) for blade in view["blades"]]}


def _taken(view: dict) -> dict:
    """Keep the blades that are the best for some job."""
    best = {job["best"] for job in view["jobs"]}
    return view | {"blades": [row for row in view["blades"] if row["id"] in best]}


def _seen(view: dict) -> dict:
    """Keep the drawings that a step shows, each as it is on paper."""
    shown = {step["figure"] for stage in view["stages"] for step in stage["steps"]}
    found = {name: {"paper": drawing.get("paper") or drawing["svg"], "title": drawing["title"], "alt": drawing["alt"]}
             for name, drawing in view["drawings"].items() if name in shown}
    return view | {"drawings": found}


def _pictured(view: dict) -> dict:
    """Keep the one drawing that the wall sheet shows, as it is on paper."""
    name = view["wall"].get("picture", "")
    found = {name: view["drawings"][name]} if name in view["drawings"] else {}
    return view | {"drawings": {name: {"paper": one.get("paper") or one["svg"], "alt": one["alt"]} for name, one in found.items()}}


_SAW = _parts("name place revision revised address")
_HEAD = _parts("name revision revised address")  # what a running head and foot print
_NUMBER = _parts("label text small good limited status note")
_CELL = _parts("name label text good limited status")
_NOTICE = _parts("signal hazard consequence avoid signs machine_state")
_ASK = _parts("name ask")
#: What a shop says itself about a saw: beside the hazards, and above everything where nobody may use it.
_OWN = {"local_rules": None, "out_of_service": None}
_STEP = _parts("number step key_points reason check sets figure record", sets=_NUMBER | _parts("plus_minus"), notices=_NOTICE)
#: Pictures of the signs and their names stand for the codes of the notices: they belong to the program, as the typeface does.
_SIGNS = _parts("signs sign_svgs")

#: Kind of sheet -> what it prints. Each kind of `outputs/sheets.py` has one entry.
CONTENTS = {
    "wall": Content(
        _parts("always", **_OWN, drawings=None, machine=_SAW, shop=_ASK,
               blade=_parts("name section fits reasons"), columns=_parts("wall"),
               blades=_parts("name section fits fitted verdict reasons", items=_parts("name label text limited status")),
               wall=_parts("", numbers=_NUMBER, steps=None, write_in=_parts("label"), hazards=_NOTICE)),
        _SIGNS | _parts("", wall=_parts("picture")),
        (partial(_first_sentences, 2), _hanging, partial(_only, "wall"), _starred, _unfit, _hazards, _pictured)),
    "wall_back": Content(
        _parts("", machine=_SAW, shop=_parts("name ask"), always=None,
               stages=_parts("title machine_state", steps=_parts("number step"))),
        {}, (partial(_first_sentences, 1),)),
    "guide": Content(
        _parts("always", **_OWN, machine=_SAW | _parts("plate"), shop=_ASK,
               blade=_parts("name section fits reasons"), notices=_NOTICE,
               stages=_parts("title purpose machine_state local_rules", notices=_NOTICE, steps=_STEP), drawings=None,
               unknowns=_parts("label note needed_by"), numbers=_parts("group", items=_NUMBER | _parts("plus_minus"))),
        _SIGNS, (_unfit, _severe, _seen), standing=True),
    "notice": Content(
        _parts("always", **_OWN, machine=_SAW, shop=_parts("name ask viewing_distance"), notices=_NOTICE | _parts("line"),
               more_notices=_parts("signal")),
        _SIGNS | _parts("", notices=_parts("id")), (_severe,)),
    "out_of_service": Content(
        _parts("always out_of_service", machine=_SAW, shop=_parts("name ask viewing_distance")),
        {}, (partial(_first_sentences, 1),)),
    "blade_table": Content(
        _parts("always rack", machine=_HEAD, shop=_parts("name"), columns=_parts("table"),
               jobs=_parts("name work best_name refused reason", cells=_parts("blade_name")),
               blades=_parts("name section length back rack_place fits fitted verdict reasons advice", items=_CELL)),
        _parts("", jobs=_parts("best", cells=_parts("fits blade"))),
        (partial(_first_sentences, 1), partial(_next_best, 2, False), partial(_only, "table"), _in_short, _starred)),
    "job_card": Content(
        _parts("always", machine=_HEAD, shop=_parts("name"), columns=_parts("card"),
               jobs=_parts("name work best refused reason", cells=_parts("blade_name")),
               blades=_parts("id name section rack_place fitted", items=_CELL | _parts("small"))),
        _parts("", jobs=_parts("", cells=_parts("fits blade on_this_saw"))),
        (partial(_first_sentences, 1), partial(_next_best, 3, True), _taken, partial(_only, "card"))),
    "tags": Content(
        _parts("", machine=_parts("name revision revised"), columns=_parts("tag"),
               blades=_parts("name section length back rack_place fits saws", items=_CELL)),
        _parts("", blades=_parts("id")), (_fitting, partial(_only, "tag"))),
    "worksheet": Content(_parts("always test_cut", machine=_HEAD, shop=_parts("name")), {}, (partial(_first_sentences, 1),)),
    "check_record": Content(_parts("always checks", machine=_HEAD, shop=_parts("name ask")), {}, (partial(_first_sentences, 1),)),
    "true_scale": Content(
        _parts("always", machine=_parts("name revision revised"), coils=_parts("name diameter text")),
        {}, (partial(_first_sentences, 1),)),
}  # fmt: skip


def of(kind: str) -> Content:
    """Return what a kind of sheet prints; raise LookupError that says what to add when nobody has said it."""
    if kind not in CONTENTS:
        raise LookupError(f"CONTENTS in outputs/contents.py does not say what a sheet of the kind `{kind}` prints: add an entry")
    return CONTENTS[kind]


def cut(kind: str, view: dict) -> dict:
    """Return a whole view without what a kind of sheet leaves out of its lists."""
    content = of(kind)
    for each in content.cuts:
        view = each(view)
    return view if content.standing else _plain(view)


def printed(kind: str, view: dict) -> dict:
    """Return what a kind of sheet prints of a view, as plain data."""
    return _select(cut(kind, view), of(kind).prints)


def given(kind: str, view: dict) -> dict:
    """Return what the layout of a kind is given: what it prints, and what it needs besides."""
    content = of(kind)
    return _select(cut(kind, view), _both(content.prints, content.aside))


def fingerprint(kind: str, view: dict) -> str:
    """Return the mark of what a kind of sheet prints of a view: SHA-256 of its content as text, the first 40 bits of it."""
    return mark_of([kind, printed(kind, view)])


def _plain(data):
    """Return data in which a measured number stands as a computed one does."""
    if isinstance(data, Mapping):
        plain = {name: _plain(part) for name, part in data.items() if name != "working"}
        return plain | {"status": "computed"} if plain.get("status") == "measured" else plain
    return [_plain(part) for part in data] if isinstance(data, (list, tuple)) else data


def _select(data, mask: Mask | None):
    if mask is None or data is None:
        return data
    if isinstance(data, Mapping):
        return {name: _select(data[name], inside) for name, inside in mask.items() if name in data}
    return [_select(part, mask) for part in data]


def _both(one: Mask | None, other: Mask | None) -> Mask | None:
    """Return a mask of what either takes."""
    if one is None or other is None:
        return None
    return {name: _both(one[name], other[name]) if name in one and name in other else one.get(name, other.get(name))
            for name in (*one, *other)}
