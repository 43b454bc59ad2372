"""Everything that is published: pages and printable files, made in memory from one checked library."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from sawside.errors import Fault, Faults
from sawside.kinds import contents, print_mark
from sawside.kinds import sheet_kinds as kinds
from sawside.kinds.view_types import MachineView, SheetFile, SheetList
from sawside.library import Library
from sawside.model import Page, Sheet
from sawside.outputs import layouts, prints, rack, sheets
from sawside.outputs.view import machine_view
from sawside.outputs.worksheet_data import script


@dataclass(frozen=True)
class Published:
    """A whole site before it is written: pages, printable files, and the machines' views they came from."""

    pages: tuple[Page, ...]
    files: tuple[Sheet, ...]
    views: tuple[MachineView, ...]


def views(library: Library, progress: Callable[..., Any] = iter) -> list[MachineView]:
    """Return the printed view of every machine."""
    return [machine_view(library, machine) for machine in progress(library.machines)]


#: Kinds of sheet that are also made once for the whole rack.
RACK_KINDS = ("tags", "blade_table")


def rack_sheets(made: Sequence[MachineView]) -> list[Sheet]:
    """Return the sheets of the whole rack, named rack-KIND.pdf."""
    whole, paper = rack.view(made), made[0]["shop"]["paper"]
    done = [(kind, sheets.make(kind, whole, usual_paper(kind, paper), date=prints.date_of(kind, whole))) for kind in RACK_KINDS]
    return [Sheet(kinds.file_name("rack", kind), sheet.data, sheet.preview) for kind, sheet in done]


def printed(
    made: list[MachineView],
    chosen: Sequence[str],
    paper: str = "",
    ink: str = "colour",
    progress: Callable[..., Any] = iter,
    today: str = "",
) -> list[Sheet]:
    """Return the sheets of these kinds for every view, named MACHINE-KIND.pdf (the wall sheet MACHINE.pdf), and where the view
    is of a blade that goes on, MACHINE-KIND-BLADE.pdf.

    Without `chosen` every kind that is offered for a view. A print bears the date it has in the list of prints, one that is
    not in it `today`. A kind that is not laid out for the paper is made on the first
    one it is laid out for. Raises Faults with everything that does not fit its page.
    """
    done: list[Sheet] = []
    faults: list[Fault] = []
    for view, kind in progress(wanted(made, chosen)):
        try:
            date = prints.date_of(kind, view) or today
            sheet = sheets.make(kind, view, paper_of(kind, paper, view, bool(chosen)), ink, date)
            done.append(Sheet(_file(view, kind), sheet.data, sheet.preview))
        except Faults as found:
            faults += found.faults
    if faults:
        raise Faults(faults)
    return done


def _file(view: MachineView, kind: str) -> str:
    """Return the file of a sheet; the card of the blade on the saw is the saw's own."""
    blade, on_it = contents.about(kind, view), view["blade"]
    return kinds.file_name(view["machine"]["id"], kind, "" if on_it and on_it["fitted"] else blade)


def offered(view: MachineView, asked: bool = False) -> tuple[str, ...]:
    """Return the kinds of sheet a machine can have: without a test cut no worksheet for one, without a blade no tags.

    Takes: asked, whether those count that are made only when somebody asks for them by name.
    """
    if view.get("rack"):
        return RACK_KINDS
    return tuple(
        name
        for name, kind in kinds.KINDS.items()
        if (asked or not kind.asked) and not set(kind.lacks(contents.cut(name, view))) - kinds.ESSENTIAL
    )


def going_on(view: MachineView, blade: str) -> MachineView:
    """Return a saw's view for a fitting blade that goes on: what card, guide and wall sheet print is about that one."""
    return {**view, **view["for_blade"][blade], "for_blade": {}}


def by_blade(view: MachineView, kind: str) -> list[MachineView]:
    """Return a saw's view for each blade that a kind of sheet is made for: the one on the saw first, then every other."""
    mine = view.get("blade")
    others = [row for row in view.get("for_blade", {}) if not mine or row != mine["id"]] if kinds.KINDS[kind].by_blade else []
    return [view, *(going_on(view, blade) for blade in others)]


def hung(view: MachineView) -> list[tuple[MachineView, str]]:
    """Return every sheet that may hang at a saw, as pairs of view and kind: of the cards one for each blade that fits."""
    return [(one, kind) for kind in offered(view) for one in (by_blade(view, kind) if kind == "card" else [view])]


def answered(view: MachineView) -> list[tuple[MachineView, str]]:
    """Return every sheet that can be printed of a saw: also what is made only when asked for, for a blade or by its name."""
    if view.get("rack"):
        return hung(view)
    return [(one, kind) for kind in offered(view, asked=True) for one in by_blade(view, kind)]


def wanted(made: list[MachineView], chosen: Sequence[str]) -> list[tuple[MachineView, str]]:
    """Return each view with each kind of sheet asked for; without any with every kind that is offered for it."""
    return [(view, kind) for view in made for kind in chosen or offered(view)]


def bound(made: list[MachineView], chosen: Sequence[str], paper: str = "", ink: str = "colour", today: str = "") -> Sheet:
    """Return the sheets of these kinds for every view as one PDF with an outline."""
    return bound_pairs(wanted(made, chosen), paper, ink, bool(chosen), today)


def bound_pairs(
    pairs: Sequence[tuple[MachineView, str]], paper: str = "", ink: str = "colour", named: bool = False, today: str = ""
) -> Sheet:
    """Return sheets as one PDF, in the order of these pairs of view and kind."""
    orders = [
        sheets.Order(kind, view, paper_of(kind, paper, view, named), prints.date_of(kind, view) or today) for view, kind in pairs
    ]
    return sheets.combine(orders, ink)


def paper_for(kind: str, paper: str) -> str:
    """Return the paper a kind is made on: the one asked for if it is laid out for that, else the first it is laid out for."""
    papers = kinds.KINDS[kind].papers
    return paper if paper in papers else papers[0]


def usual_paper(kind: str, paper: str) -> str:
    """Return the paper a kind is made on in a shop that prints on `paper`.

    A notice is read from far off and its letters are as tall as that asks for: on half a page there is no room for them.
    Labels come on whole pages.

    >>> usual_paper("notice", "A5"), usual_paper("notice", "Letter"), usual_paper("guide", "A5")
    ('A4', 'Letter', 'A5')
    """
    return "A4" if kind in ("notice", "out_of_service", "tags") and paper.startswith("A5") else paper_for(kind, paper)


def paper_of(kind: str, asked: str, view: MachineView, named: bool) -> str:
    """Return the paper a kind is made on; only a kind asked for by name comes on half a page against custom."""
    return paper_for(kind, asked) if asked and named else usual_paper(kind, asked or view["shop"]["paper"])


def sheets_of(made: list[MachineView], progress: Callable[..., Any] = iter) -> list[Sheet]:
    """Return every sheet of every machine and of the rack; raise Faults when one cannot be made.

    There is a card for each blade that fits a saw; the one of the blade on the saw has two names, so that a link to it stays.
    """
    done = printed(made, (), progress=progress)
    others = [one for view in made if "card" in offered(view) for one in by_blade(view, "card")[1:]]
    saws = [(view["machine"]["id"], contents.about("card", view)) for view in made]
    own = {kinds.file_name(saw, "card"): kinds.file_name(saw, "card", blade) for saw, blade in saws}
    done += [Sheet(own[sheet.path], sheet.data, sheet.preview) for sheet in done if own.get(sheet.path, sheet.path) != sheet.path]
    return done + printed(others, ("card",), progress=progress) + rack_sheets(made)


def publish(library: Library, progress: Callable[..., Any] = iter) -> Published:
    """Return the site's pages and files; raise Faults when a sheet cannot be made."""
    made = views(library, progress)
    return complete(library, made, sheets_of(made, progress))


def complete(library: Library, made: list[MachineView], done: Sequence[Sheet]) -> Published:
    """Return what is published of the machines' views and the sheets made from them."""
    papers = [Sheet(f"sheets/{sheet.path}", sheet.data) for sheet in done]
    papers += [Sheet(f"sheets/{sheet.path.removesuffix('.pdf')}.png", sheet.preview) for sheet in done]
    pictures = {code: picture for view in made for code, picture in view["sign_svgs"].items()}
    signs_drawn = [Sheet(f"assets/signs/{code}.svg", text.encode()) for code, text in sorted(pictures.items())]
    formulas = [Sheet("assets/formulas.js", script(library.family).encode())] if library.family.shows.worksheets else []
    return Published(tuple(layouts.pages(library, made, contact(made))), (*papers, *signs_drawn, *formulas), tuple(made))


def contact(made: list[MachineView]) -> list[SheetList]:
    """Return what the page of all sheets lists: each machine with each kind's title, file and mark, and what it answers."""
    return [_contact(rack.view(made), ", every blade")] + [_contact(view) for view in made]


def _contact(view: MachineView, more: str = "") -> SheetList:
    files: list[SheetFile] = [
        {
            "title": kinds.title(kind, contents.about(kind, one)) + more,
            "paper": usual_paper(kind, view["shop"]["paper"]),
            "file": _file(one, kind),
            "mark": print_mark.spoken(contents.fingerprint(kind, one)),
        }
        for one, kind in hung(view)
    ]
    return {"machine": view["machine"], "files": files, "answers": prints.answers(view, answered(view))}
