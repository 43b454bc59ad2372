"""The kinds of sheet there are, each told once: its title, its papers, what it needs, and what it prints of a view.

A sheet is given what stands here for its kind and nothing else, so whatever it prints has its part in the mark. The layout of a
kind is site_templates/sheets/KIND.typ.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from sawside.kinds import cuts
from sawside.kinds import masks as m

#: What tells a sheet of a saw from its others: its kind, and the id of the blade it is about or nothing.
Leaf = tuple[str, str]
#: Takes a view and gives one without what a kind leaves out.
Cut = Callable[[dict[str, Any]], dict[str, Any]]


@dataclass(frozen=True)
class SheetKind:
    """One kind of sheet: its title, the papers it is laid out for, how many pages it may take, what it needs.

    The most pages are given for a whole page and for A5, where a sheet of one page takes both sides of a leaf; 0 is any.
    `by_blade`: a blade that fits the saw may be named, and the sheet is then about that one going on. `asked`: it is made only
    when somebody asks for it by name. `prints` is what it prints of a view, `aside` what its layout needs besides without printing
    it. `cuts` are made first: each takes a view and gives one without what this kind leaves out. `standing` says whether
    the sheet tells measured numbers from computed ones.
    """

    title: str
    papers: tuple[str, ...]
    most_pages: int
    most_halves: int
    needs: tuple[str, ...]
    prints: m.Mask
    aside: m.Mask = field(default_factory=dict)
    cuts: tuple[Cut, ...] = ()
    standing: bool = False
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

_FIRST = partial(cuts.first_sentences, 1)

#: Kind -> what it is; the first is made when nobody says which.
KINDS = {
    "card": SheetKind(
        "Blade-change card",
        WHOLE,
        2,
        0,
        ("card", "notices"),
        prints=m.OWN
        | m.UNDRAWN
        | m.parts(
            "", machine=m.SAW, shop=m.ASK, blade=m.BLADE, notices=m.LINE, card=m.parts("title", lines=m.parts("number state text"))
        ),
        aside=m.SIGNS | m.ALOUD | m.parts("", card=m.parts("", lines=m.parts("runs"))),
        cuts=(_FIRST, cuts.unfit, cuts.severe, cuts.one_line, cuts.carded),
        by_blade=True,
    ),
    "wall": SheetKind(
        "Wall sheet",
        EVERYDAY,
        1,
        2,
        ("wall", "notices"),
        prints=m.OWN
        | m.UNDRAWN
        | m.parts(
            "",
            machine=m.SAW,
            shop=m.ASK,
            blade=m.BLADE,
            columns=m.parts("wall"),
            blades=m.parts("name section fits fitted verdict reasons", items=m.parts("name label text limited status")),
            wall=m.parts("", numbers=m.NUMBER, steps=None, write_in=m.parts("label"), hazards=m.NOTICE),
        ),
        aside=m.SIGNS | m.ALOUD | m.parts("", wall=m.parts("picture")),
        cuts=(
            partial(cuts.first_sentences, 2),
            cuts.hanging,
            partial(cuts.only, "wall"),
            cuts.starred,
            cuts.unfit,
            cuts.hazards,
            cuts.pictured,
        ),
        by_blade=True,
    ),
    "guide": SheetKind(
        "Set-up guide",
        EVERYDAY,
        0,
        0,
        ("stages",),
        prints=m.OWN
        | m.DRAWN
        | m.parts(
            "",
            machine=m.SAW | m.parts("plate"),
            shop=m.ASK,
            blade=m.BLADE,
            notices=m.NOTICE,
            stages=m.parts("title purpose local_rules", lines=m.LINE, steps=m.STEP),
            unknowns=m.parts("label note needed_by"),
        ),
        aside=m.SIGNS | m.ALOUD,
        cuts=(cuts.unfit, cuts.severe, cuts.waited, cuts.seen),
        by_blade=True,
    ),
    "commissioning": SheetKind(
        "Commissioning",
        WHOLE,
        0,
        0,
        ("commissioning",),
        prints=m.OWN
        | m.parts(
            "",
            machine=m.HEAD,
            shop=m.ASK,
            hazards=m.LINE,
            commissioning=m.parts("title local_rules", steps=m.LISTED | m.parts("number record")),
        ),
        aside=m.SIGNS,
        cuts=(_FIRST, cuts.commissioning),
    ),
    "checks": SheetKind(
        "Check lists",
        WHOLE,
        0,
        0,
        ("lists",),
        prints=m.OWN
        | m.parts(
            "", machine=m.HEAD, shop=m.ASK, lists=m.parts("title when", lines=m.LINE, stages=m.parts("local_rules", steps=m.LISTED))
        ),
        aside=m.SIGNS,
        cuts=(_FIRST, cuts.check_lists),
    ),
    "notice": SheetKind(
        "Safety notice",
        (*EVERYDAY, "A3"),
        1,
        2,
        ("notices",),
        prints=m.OWN
        | m.parts(
            "",
            machine=m.SAW,
            shop=m.parts("name ask viewing_distance"),
            notices=m.NOTICE | m.parts("line"),
            more_notices=m.parts("signal"),
        ),
        aside=m.SIGNS | m.parts("", notices=m.parts("id")),
        cuts=(cuts.severe,),
    ),
    "out_of_service": SheetKind(
        "Out of service",
        (*FULL, "A3"),
        1,
        1,
        ("out_of_service",),
        prints=m.STOP | m.parts("", machine=m.SAW, shop=m.parts("name ask viewing_distance")),
        cuts=(_FIRST,),
    ),
    "blade_table": SheetKind(
        "Blade table",
        EVERYDAY,
        0,
        0,
        ("blades",),
        prints=m.STOP
        | m.parts(
            "rack",
            machine=m.HEAD,
            shop=m.parts("name"),
            columns=m.parts("table"),
            jobs=m.parts("name work best_name refused reason", cells=m.parts("blade_name")),
            blades=m.parts("name section length back rack_place fits fitted verdict reasons advice", items=m.CELL),
        ),
        aside=m.parts("", jobs=m.parts("best", cells=m.parts("fits blade"))),
        cuts=(_FIRST, partial(cuts.next_best, 2, False), partial(cuts.only, "table"), cuts.in_short, cuts.starred),
    ),
    "job_card": SheetKind(
        "Job cards",
        EVERYDAY,
        0,
        0,
        ("jobs",),
        prints=m.STOP
        | m.parts(
            "",
            machine=m.HEAD,
            shop=m.parts("name"),
            columns=m.parts("card"),
            jobs=m.parts("name work best refused reason", cells=m.parts("blade_name")),
            blades=m.parts("id name section rack_place fitted", items=m.CELL | m.parts("small")),
        ),
        aside=m.parts("", jobs=m.parts("", cells=m.parts("fits blade on_this_saw"))),
        cuts=(_FIRST, partial(cuts.next_best, 3, True), cuts.taken, partial(cuts.only, "card")),
    ),
    "tags": SheetKind(
        "Blade tags",
        FULL,
        0,
        0,
        ("blades",),
        prints=m.parts(
            "",
            machine=m.parts("name revision revised"),
            columns=m.parts("tag"),
            blades=m.parts("name section length back rack_place fits saws", items=m.CELL),
        ),
        aside=m.parts("", blades=m.parts("id")),
        cuts=(cuts.fitting, partial(cuts.only, "tag")),
    ),
    "worksheet": SheetKind(
        "Test-cut worksheet",
        EVERYDAY,
        1,
        2,
        ("test_cut",),
        prints=m.STOP | m.parts("test_cut", machine=m.HEAD, shop=m.parts("name")),
        cuts=(_FIRST,),
    ),
    "check_record": SheetKind(
        "Record of checks",
        EVERYDAY,
        0,
        0,
        ("checks",),
        prints=m.STOP | m.parts("checks", machine=m.HEAD, shop=m.ASK),
        cuts=(_FIRST,),
    ),
    "true_scale": SheetKind(
        "True-scale gauges",
        FULL,
        1,
        2,
        ("gauges",),
        prints=m.parts("always", machine=m.parts("name revision revised"), coils=m.parts("name diameter text")),
        cuts=(_FIRST,),
    ),
    "numbers": SheetKind(
        "Numbers",
        WHOLE,
        0,
        0,
        ("numbers",),
        prints=m.STOP
        | m.parts(
            "",
            machine=m.SAW | m.parts("plate"),
            shop=m.ASK,
            blade=m.BLADE,
            unknowns=m.parts("label note needed_by"),
            numbers=m.parts("group", items=m.parts("label text small plus_minus status note")),
        ),
        cuts=(_FIRST, cuts.unfit, cuts.outside),
        asked=True,
        standing=True,
    ),
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
    return owner + (f"-{written(kind)}-{blade}" if blade else ending(kind)) + ".pdf"


def ending(kind: str) -> str:
    """Return what the name of a sheet's file adds to the id of its saw: nothing for the wall sheet."""
    return "" if kind == "wall" else f"-{written(kind)}"


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
