"""Paper: one Typst document per sheet, made from the printed view. Nothing is written to disk here.

The bytes depend on the view, the paper and the ink alone: shipped fonts only, a date from the machine's revision.
"""

import datetime
import io
import json
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import segno
import typst

from sawside import units
from sawside.errors import At, Fault, Faults
from sawside.files import data_folder
from sawside.kinds import contents, print_mark
from sawside.kinds.sheet_kinds import KINDS, file_name, no_paper, title
from sawside.kinds.view_types import MachineView
from sawside.model import Sheet
from sawside.outputs import paper as rules
from sawside.outputs import typeface

#: What to write where a sheet lacks a part of the view that one line in a file gives.
_ADVICE = {
    "out_of_service": "the saw is in service; otherwise write `out_of_service: broken guard` into its file",
    "jobs": "write what you cut into jobs.yaml",
    "blades": "write a blade that fits the saw into blades.yaml",
}


@dataclass(frozen=True)
class Order:
    """One sheet wanted: its kind, the machine's view, the paper, and the date of the print, empty where nobody knows it."""

    kind: str
    view: MachineView
    paper: str
    date: str = ""


def make(kind: str, view: MachineView, paper: str, ink: str = "colour", date: str = "") -> Sheet:
    """Return one sheet as PDF; raise Faults when it cannot be printed as it should be."""
    blade = contents.about(kind, view)
    name = file_name(view["machine"]["slug"], kind, blade)
    return combine([Order(kind, view, paper, date)], ink, name, f"{view['machine']['name']}: {title(kind, blade)}")


def combine(orders: Sequence[Order], ink: str = "colour", path: str = "sheets/all.pdf", named: str = "All sheets") -> Sheet:
    """Return several sheets as one PDF with an outline; raise Faults with everything that is wrong with any of them."""
    faults = [fault for order in orders for fault in _refused(order)]
    if faults:
        raise Faults(faults)
    parts = [_part(number, order, ink) for number, order in enumerate(orders)]
    data = {
        "title": named,
        "author": orders[0].view["shop"]["name"],
        "language": orders[0].view["shop"].get("language", "en"),
        "ink": ink,
        "palette": rules.PALETTE,
        "papers": rules.PAPERS,
        "together": units.PATTERN,
        "font": {"cap": typeface.shipped().cap_share},
        "parts": parts,
    }
    return Sheet(path, *_typeset(data, orders))


def _refused(order: Order) -> list[Fault]:
    """Return what forbids a sheet before it is set."""
    kind, view = KINDS[order.kind], order.view
    at = At(view["machine"].get("file") or f"machine {view['machine']['id']}")
    # only what is printed here is looked at: the whole view is, once, before anything is made
    faults = rules.check_notices(view) + rules.check_text(contents.given(order.kind, view) | {"machine": view["machine"]})
    what, hint = no_paper(order.kind, order.paper)
    if what:
        faults.append(Fault(at, what, hint))
    faults += [
        Fault(at, f"the {kind.title.lower()} needs `{name}` and there is none", _ADVICE.get(name, ""))
        for name in kind.lacks(contents.cut(order.kind, view))
    ]
    return faults


def _part(number: int, order: Order, ink: str) -> dict[str, Any]:
    """Return the data of one sheet: what its kind prints of the view, signs in its ink, its mark, the code of its page."""
    view = {"signs": {}, "sign_svgs": {}} | contents.given(order.kind, order.view)
    mark = contents.fingerprint(order.kind, order.view)
    if ink == "grey":
        view["sign_svgs"] = {code: rules.grey(picture) for code, picture in view["sign_svgs"].items()}
    return {
        "number": number,
        "kind": order.kind,
        "title": KINDS[order.kind].title,
        "paper": order.paper,
        "view": view,
        "print": {"mark": print_mark.spoken(mark), "date": order.date},
        "qr": _code(answer(order.kind, order.view["machine"]["address"], mark)),
        "letters": rules.letters(order.view["shop"].get("viewing_distance", 2.0)),
        "labels": order.view["shop"].get("labels") or rules.labels(order.paper),
        "dates": rules.weeks(order.view["machine"]["revised"]),
        "coils": view.get("coils", []),
    }


def answer(kind: str, address: str, mark: str) -> str:
    """Return where a print's code leads: the place on its page that says whether it is current; nothing without an address.

    The mark stands behind `#`, which no server is told.

    >>> answer("job_card", "https://saws.example.org/machines/a.html", "7K4M2QXD")
    'https://saws.example.org/machines/a.html#print-job-card-7K4M2QXD'
    """
    return address and f"{address}#print-{kind.replace('_', '-')}-{mark}"


def _code(address: str) -> str:
    """Return the QR code of an address as SVG, or nothing. Error correction M: a code that gets dirty still reads."""
    if not address:
        return ""
    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(out, kind="svg", border=2, svgclass=None, lineclass=None)
    return out.getvalue().decode("utf-8")


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(typeface.folder())])


#: How fine the small picture of a sheet's first page is, in dots per inch.
PREVIEW_DPI = 36


def _typeset(data: dict[str, Any], orders: Sequence[Order]) -> tuple[bytes, bytes]:
    """Set the document, ask it how much room each block had, and return the PDF and its first page as PNG, or raise Faults.

    The layout is done once: the compiler keeps it between the questions and the two exports.
    """
    folder = data_folder("site_templates") / "sheets"
    inputs = {"data": json.dumps(data, ensure_ascii=False, sort_keys=True)}
    compiler = typst.Compiler(
        input=str(folder / "main.typ"), root=str(folder), font_paths=_fonts(), ignore_system_fonts=True, sys_inputs=inputs
    )
    try:
        rooms = json.loads(compiler.query("<room>", field="value"))
    except typst.TypstError as error:
        error.add_note("A layout that misses a key: what a sheet is given stands in KINDS of kinds/sheet_kinds.py.")
        raise
    edges = json.loads(compiler.query("<edge>", field="value"))
    faults = [fault for number, order in enumerate(orders) for fault in _overfull(number, order, rooms, edges)]
    if faults:
        raise Faults(faults)
    pdf = compiler.compile(format="pdf", pdf_standards=["ua-1"], timestamp=_date(orders))
    pictures = compiler.compile(format="png", ppi=PREVIEW_DPI)
    return _first(pdf), _first(pictures)


def _first(made: bytes | list[bytes] | None) -> bytes:
    """Return what was compiled, of several pages the first."""
    assert made  # without a file to write to the compiler gives the bytes
    return made if isinstance(made, bytes) else made[0]


def _overfull(number: int, order: Order, rooms: list[dict[str, Any]], edges: list[dict[str, Any]]) -> list[Fault]:
    """Return the faults of one sheet that is larger than its paper."""
    kind = KINDS[order.kind]
    mine = [room for room in rooms if room["part"] == number]
    found = rules.check_room(order.view, kind.title, order.paper, mine, rules.is_larger(order.paper, kind.papers))
    pages = [edge["page"] for edge in edges if edge["part"] == number]
    most = {"A5": kind.most_halves, "A5 on A4": (kind.most_halves + 1) // 2}.get(order.paper, kind.most_pages)
    if most and not found and pages[-1] - pages[0] >= most:
        at = At(order.view["machine"].get("file") or f"machine {order.view['machine']['id']}")
        room = {1: "one page", 2: "two pages"}.get(most, f"{most} pages")
        what = f"{kind.title} of `{order.view['machine']['id']}` runs over {room} of {order.paper}"
        return [Fault(at, what, "shorten its texts")]
    return found


def _date(orders: Sequence[Order]) -> datetime.datetime:
    """Return the latest revision date among the machines, at noon UTC, so that equal input gives equal bytes."""
    days = [datetime.date.fromisoformat(order.view["machine"]["revised"]) for order in orders]
    return datetime.datetime.combine(max(days), datetime.time(12), datetime.UTC)
