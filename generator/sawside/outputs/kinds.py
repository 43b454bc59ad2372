"""The kinds of sheet there are, told once: what each is called, the papers it is laid out for, and what it needs."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

#: What tells a sheet of a saw from its others: its kind, and the id of the blade it is about or nothing.
Leaf = tuple[str, str]


@dataclass(frozen=True)
class SheetKind:
    """One kind of sheet: its title, the papers it is laid out for, how many pages it may take, what it needs.

    The most pages are given for a whole page and for A5, where a sheet of one page takes both sides of a leaf; 0 is any.
    `by_blade`: a blade that fits the saw may be named, and the sheet is then about that one going on. `asked`: it is made only
    when somebody asks for it by name.
    """

    title: str
    papers: tuple[str, ...]
    most_pages: int
    most_halves: int
    needs: tuple[str, ...]
    by_blade: bool = False
    asked: bool = False

    def lacks(self, view: Mapping[str, Any]) -> tuple[str, ...]:
        """Return which parts of the view this sheet needs and does not get."""
        return tuple(name for name in self.needs if not view.get(name))


#: Without these nothing is printed at all. A sheet that lacks another part is not offered for that saw.
ESSENTIAL = frozenset(("wall", "notices", "stages"))

#: What a shop prints on. A pair of half pages is left out where the whole page serves better: a grid of labels, gauges.
WHOLE = ("A4", "Letter")
FULL = (*WHOLE, "A5")
EVERYDAY = (*FULL, "A5 on A4")

#: Kind -> what it is, the first is made when nobody says which. The layout of a kind is site_templates/sheets/<kind>.typ.
KINDS = {
    "card": SheetKind("Blade-change card", WHOLE, 2, 0, ("card", "notices"), by_blade=True),
    "wall": SheetKind("Wall sheet", EVERYDAY, 1, 2, ("wall", "notices"), by_blade=True),
    "guide": SheetKind("Set-up guide", EVERYDAY, 0, 0, ("stages",), by_blade=True),
    "commissioning": SheetKind("Commissioning", WHOLE, 0, 0, ("commissioning",)),
    "checks": SheetKind("Check lists", WHOLE, 0, 0, ("lists",)),
    "notice": SheetKind("Safety notice", (*EVERYDAY, "A3"), 1, 2, ("notices",)),
    "out_of_service": SheetKind("Out of service", (*FULL, "A3"), 1, 1, ("out_of_service",)),
    "blade_table": SheetKind("Blade table", EVERYDAY, 0, 0, ("blades",)),
    "job_card": SheetKind("Job cards", EVERYDAY, 0, 0, ("jobs",)),
    "tags": SheetKind("Blade tags", FULL, 0, 0, ("blades",)),
    "worksheet": SheetKind("Test-cut worksheet", EVERYDAY, 1, 2, ("test_cut",)),
    "check_record": SheetKind("Record of checks", EVERYDAY, 0, 0, ("checks",)),
    "true_scale": SheetKind("True-scale gauges", FULL, 1, 2, ("gauges",)),
    "numbers": SheetKind("Numbers", WHOLE, 0, 0, ("numbers",), asked=True),
}
USUAL = next(iter(KINDS))
#: The kinds that can be about a blade that goes on, and those that are made only when asked for.
BY_BLADE = tuple(name for name, kind in KINDS.items() if kind.by_blade)
ASKED = tuple(name for name, kind in KINDS.items() if kind.asked)


def written(kind: str) -> str:
    """Return a kind as somebody writes it at the command line.

    >>> written("job_card")
    'job-card'
    """
    return kind.replace("_", "-")


def title(kind: str, blade: str = "") -> str:
    """Return what a kind of sheet is called, and for which blade it is; one that is no longer made by its key.

    >>> title("card", "b13-4"), title("wall"), title("gone_kind")
    ('Blade-change card, blade b13-4', 'Wall sheet', 'Gone kind')
    """
    name = KINDS[kind].title if kind in KINDS else kind.replace("_", " ").capitalize()
    return name + f", blade {blade}" * bool(blade)


def file_name(owner: str, kind: str, blade: str = "") -> str:
    """Return the name of a sheet's file.

    >>> file_name("bench-250", "wall"), file_name("bench-250", "job_card"), file_name("bench-250", "card", "b6-4")
    ('bench-250.pdf', 'bench-250-job-card.pdf', 'bench-250-card-b6-4.pdf')
    """
    ending = "" if kind == "wall" and not blade else f"-{written(kind)}"
    return owner + ending + f"-{blade}" * bool(blade) + ".pdf"


def no_paper(kind: str, paper: str) -> tuple[str, str]:
    """Return what is wrong when a kind of sheet is asked for on a paper it is not laid out for, and what to do; else nothing.

    >>> no_paper("guide", "A3")
    ('there is no set-up guide on A3', 'choose A4, Letter, A5, A5 on A4. On A3 there is --kind notice, out-of-service')
    """
    if paper in KINDS[kind].papers:
        return "", ""
    others = ", ".join(written(name) for name, one in KINDS.items() if paper in one.papers)
    hint = "choose " + ", ".join(KINDS[kind].papers) + f". On {paper} there is --kind {others}" * bool(others)
    return f"there is no {KINDS[kind].title.lower()} on {paper}", hint
