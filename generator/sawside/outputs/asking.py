"""What somebody asks for when sheets are to be made, told apart from what there is before anything is read or set."""

from collections.abc import Sequence

from sawside.errors import At, Fault, Faults
from sawside.kinds.sheet_kinds import BY_BLADE, EVERYDAY, KINDS, USUAL, no_paper, written
from sawside.kinds.view_types import MachineView
from sawside.suggest import meant


def wrong(kinds: Sequence[str], paper: str | None, blade: str | None = None) -> str:
    """Return in words what is wrong with the kinds of sheet, the paper and the blade asked for, or nothing.

    Takes: kinds, as they are called inside, or `all`; paper, a name from a kind's papers, or None for the shop's own; blade,
    the id of one that goes on.

    >>> wrong(["wal"], None), wrong(["wall"], "A4"), wrong(["notice"], None, "b6-6")
    ('there is no kind `wal`; did you mean `wall`?', '', '--blade is for the kinds card, wall, guide: not for notice')
    """
    unknown = next((kind for kind in kinds if kind not in (*KINDS, "all")), None)
    if unknown:
        return f"there is no kind `{unknown}`; " + meant(unknown, (*KINDS, "all"), f"kinds: {', '.join(map(written, KINDS))}, all")
    asked = ["wall"] if "all" in kinds and paper not in (None, *EVERYDAY) else [kind for kind in kinds if kind != "all"]
    other = next((kind for kind in asked if blade and kind not in BY_BLADE), None)
    if other:
        return f"--blade is for the kinds {', '.join(map(written, BY_BLADE))}: not for {written(other)}"
    what, hint = next((told for kind in asked if paper and (told := no_paper(kind, paper))[0]), ("", ""))
    return f"{what}: {hint}." if what else ""


def kinds_meant(kinds: Sequence[str], blade: str | None = None) -> list[str]:
    """Return kinds as they are called inside; `all` with a blade are those that can be about one, none at all is the usual kind.

    >>> kinds_meant(["Job-Card"]), kinds_meant(["all"], "b6-6"), kinds_meant([])
    (['job_card'], ['card', 'wall', 'guide'], ['card'])
    """
    found = [kind.lower().replace("-", "_") for kind in kinds] or [USUAL]
    return list(BY_BLADE) if blade and "all" in found and set(found) <= {"all", *BY_BLADE} else found


def known_blade(blade: str, ids: Sequence[str]) -> None:
    """Raise a fault that says which blades there are when no blade has this id."""
    if blade not in ids:
        hint = meant(blade, ids, "blades here: " + ", ".join(ids))
        raise Faults([Fault(At("blades.yaml"), f"there is no blade `{blade}`", hint)])


def not_on(view: MachineView, blade: str) -> str:
    """Return in words why a blade of the rack cannot go on a saw, or nothing when it can."""
    row = next(row for row in view["blades"] if row["id"] == blade)
    return "" if row["fits"] else "; ".join(row["reasons"]) or row["verdict"]


def refuse(view: MachineView, blade: str) -> Fault:
    """Return the fault that tells why nothing is printed for a blade that does not fit a saw, and which blades do."""
    fitting = [row["id"] for row in view["blades"] if row["fits"]]
    what = f"the blade `{blade}` does not fit `{view['machine']['id']}`: {not_on(view, blade)}"
    hint = "blades that fit: " + ", ".join(fitting) if fitting else "no blade of the rack fits"
    return Fault(At(view["machine"]["file"]), what, hint)
