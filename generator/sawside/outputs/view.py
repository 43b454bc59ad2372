"""One machine as plain printed data: what page layouts and sheet templates receive. Every number is words by now."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import asdict, replace
from typing import cast

from sawside import guide, local, occasions, selection, slots, values
from sawside.calc.limits import OutsideMethod
from sawside.families.family import MACHINE_NAMES, Shows
from sawside.figures import signs, svg
from sawside.guide import Known
from sawside.kinds.view_types import (
    AboutBlade,
    BladeRow,
    BladeWords,
    Check,
    DrawingData,
    JobRow,
    MachineView,
    NumberGroup,
    OutOfService,
    Placed,
    Safety,
    UnknownItem,
    Wall,
    WallStage,
)
from sawside.kinds.view_words import ItemData, NoticeData, StageData
from sawside.library import Library
from sawside.model import ASSUMED, UNKNOWN, Guide, Item, Missing, Record
from sawside.outputs import bench, doubt, occasion_view, view_heads, working
from sawside.outputs.worksheet_data import worksheet_data
from sawside.printing import Printer
from sawside.safety import Notice


def machine_view(library: Library, machine: Record, going_on: str = "") -> MachineView:
    """Return everything that is printed about one machine, for the blade on it or for the one that is `going_on` (an id)."""
    printer = guide.printer(library)
    fitted = library.blade(going_on or machine.get("fitted_blade"))
    by_blade = {blade.id: guide.know(library, machine, blade) for blade in library.blades}
    rows = [blade_row(library, machine, blade, by_blade[blade.id], printer) for blade in library.blades]
    on_it = next((row for row in rows if fitted and row["id"] == fitted.id), None)
    # a blade that does not fit gets no number anywhere: the guide is made as if none were stated, with a warning
    unfit = on_it is not None and not on_it["fits"]
    known = by_blade[fitted.id] if fitted and on_it and not unfit else guide.know(library, machine, None)
    made = guide.make(library, machine, known, fitted)
    blades = sorted(rows, key=lambda row: not row["fits"])
    unknowns = _unknowns(known, library, printer)
    if unfit:
        unknowns = [item for item in unknowns if item["name"] not in {field.name for field in library.family.blade}]
    one = about_blade(library, made, known, on_it, blades, unknowns, printer)
    jobs = selection.job_rows(library, by_blade, printer)
    found = signs_of(safety := _safety(library, machine, made))
    return {
        "shop": view_heads.shop(library),
        "machine": view_heads.machine(library, machine),
        "numbers": _numbers(library, machine, known, printer),
        "assumed": [item_data(printer.entry(e)) for e in known.entries.values() if e.status == ASSUMED],
        **one,
        "blades": blades,
        "jobs": cast(list[JobRow], jobs),
        "few_blades": selection.few_blades(library, jobs),
        "doubts": doubt.sentences(known, printer),
        "lists": {name: occasion_view.listed(made, name) for name in occasions.OCCASIONS if name != occasions.METHOD},
        **safety,
        "always": list(library.standing),
        "test_cut": bench.worksheet(known.value, printer),
        "coils": bench.coils(_coils(by_blade, rows), printer),
        "checks": _checks(library, known, printer),
        **_placed(library.family.shows),
        "working": working.sections(library, known, printer),
        "worksheets": worksheet_data(library, known, by_blade, rows),
        "for_blade": {} if going_on else _for_blades(library, machine, made, blades, by_blade, printer),
        "signs": {code: sign.title for code, sign in signs.SIGNS.items()},
        "sign_svgs": {code: svg.text(signs.draw(code)) for code in found},
        "listed": dict(library.prints),
    }


def item_data(item: Item) -> ItemData:
    """Return a printed item as plain data."""
    return cast(ItemData, asdict(item))


def signs_of(safety: Safety) -> list[str]:
    """Return the codes of the signs that a machine's notices show, in order."""
    return sorted({code for notice in safety["notices"] + safety["more_notices"] for code in notice["signs"]})


def _checks(library: Library, known: Known, printer: Printer) -> list[Check]:
    return [
        {"what": what, "limit": printer.in_text(known.item(name, printer)) if name else ""}
        for what, name in library.family.shows.checks
    ]


def _placed(shows: Shows) -> Placed:
    """Return which numbers and drawings stand where."""
    return {
        "columns": {
            "wall": list(shows.wall_columns),
            "table": list(shows.table_columns),
            "card": list(shows.card_numbers),
            "tag": list(shows.tag_numbers),
        },
        "picture": shows.picture,
        "gauges": shows.gauges,
        "card_pictures": list(shows.card_pictures),
        "guide_pictures": list(shows.guide_pictures),
    }


def about_blade(
    library: Library,
    made: Guide,
    known: Known,
    on_it: BladeRow | None,
    blades: list[BladeRow],
    unknowns: list[UnknownItem],
    printer: Printer,
) -> AboutBlade:
    """Return the parts of a view that change when another blade goes on: method, card, drawings, unknowns and wall sheet."""
    method = occasion_view.method(made)
    notices = [notice_data(notice) for notice in made.notices if notice.group]
    return {
        "blade": on_it,
        **method,
        "drawings": _drawings(library, known, printer),
        "unknowns": unknowns,
        "wall": _wall(library, method["stages"], blades, notices, unknowns, known, printer),
    }


def notice_data(notice: Notice) -> NoticeData:
    """Return a notice as plain data."""
    return cast(NoticeData, asdict(notice))


def _for_blades(
    library: Library, machine: Record, made: Guide, blades: list[BladeRow], by_blade: dict[str, Known], printer: Printer
) -> dict[str, AboutBlade]:
    """Return for each fitting blade, by its id, what method, card and wall sheet say when it is the one that goes on."""
    found = {}
    for row in (row for row in blades if row["fits"]):
        known = by_blade[row["id"]]
        going = replace(guide.make(library, machine, known, library.blade(row["id"])), notices=made.notices)
        found[row["id"]] = about_blade(library, going, known, row, blades, _unknowns(known, library, printer), printer)
    return found


def _safety(library: Library, machine: Record, made: Guide) -> Safety:
    """Return the grouped notices, worst first, all others, the rules that always hold, and whether nobody may use the saw."""
    return {
        "notices": [notice_data(notice) for notice in made.notices if notice.group],
        "more_notices": [notice_data(notice) for notice in made.notices if not notice.group],
        "local_rules": [occasion_view.rule(rule) for rule in local.rules_for(library.shop, machine)],
        "out_of_service": cast(OutOfService, local.out_of_service(machine)),
    }


def _coils(by_blade: dict[str, Known], rows: list[BladeRow]) -> list[tuple[str, float]]:
    """Return name and coil diameter [m] of the blades that fit, where it is known."""
    found = [(row["name"], by_blade[row["id"]].value("coil_diameter")) for row in rows if row["fits"]]
    return [(name, diameter) for name, diameter in found if diameter is not None]


def _numbers(library: Library, machine: Record, known: Known, printer: Printer) -> list[NumberGroup]:
    """Return the machine's measured fields, then its computed values, in groups."""
    groups: dict[str, list[ItemData]] = defaultdict(list)
    for field in library.family.machine:
        if field.name not in MACHINE_NAMES:
            if field.name in machine.entries:
                groups[field.group or "Other"].append(item_data(known.item(field.name, printer)))
    shown = _shown(library, known) - _ends(library)
    for spec in library.family.values:
        if spec.name in shown:
            groups[f"{spec.group}, computed"].append(item_data(known.item(spec.name, printer)))
    return [{"group": group, "items": items} for group, items in groups.items()]


def _ends(library: Library) -> set[str]:
    """Return the values that are only the ends of another one's range: they are printed with it."""
    return {name for spec in library.family.values for name in spec.within}


def _shown(library: Library, known: Known) -> set[str]:
    """Return the names of fields and values worth printing: not those that wait only for what nobody is asked."""
    quiet = guide.unasked(library, known)
    waiting = {n: set(r.waits_for) for n, r in known.results.items() if isinstance(r, Missing) and r.waits_for}
    return {name for name in (*known.entries, *known.results) if not waiting.get(name, {name}) <= quiet}


def _unknowns(known: Known, library: Library, printer: Printer) -> list[UnknownItem]:
    """Return unknown fields worth measuring, most waited-for first, with the values that wait."""
    quiet = guide.unasked(library, known)
    table = values.waiting(known.results)
    labels = {spec.name: spec.title for spec in library.family.values}
    found: list[UnknownItem] = []
    unknown = [n for n, e in known.entries.items() if e.status == UNKNOWN]
    for name in (name for name in dict.fromkeys([*table, *unknown]) if name not in quiet):
        item = item_data(known.item(name, printer))
        found.append({**item, "needed_by": [labels[value] for value in table.get(name, ())]})
    return found


def blade_row(library: Library, machine: Record, blade: Record, known: Known, printer: Printer) -> BladeRow:
    """Return one blade on one machine: section, verdict with reasons in words, and its set values."""
    judgement = known.judge(printer)
    shown = _shown(library, known)
    return {
        "id": blade.id,
        "name": blade.id,
        **cast(BladeWords, library.family.blade_words(blade, printer)),
        "rack_place": blade.get("rack_place") or "",
        "fits": judgement.fits,
        "verdict": judgement.verdict,
        "reasons": list(judgement.reasons),
        "advice": list(judgement.advice),
        "items": [
            item_data(known.item(name, printer)) for name in library.family.shows.blade_numbers if name in shown and judgement.fits
        ],
        "fitted": machine.get("fitted_blade") == blade.id,
    }


def _drawings(library: Library, known: Known, printer: Printer) -> dict[str, DrawingData]:
    """Return every figure whose numbers are known, as SVG for the screen and for paper."""
    found: dict[str, DrawingData] = {}
    show = _show(library, known, printer)
    for figure in library.family.figures:
        arguments = {argument: known.value(name) for argument, name in figure.needs.items()}
        if any(value is None for argument, value in arguments.items() if argument not in figure.optional):
            continue
        try:
            drawing = figure.function(**arguments, show=show)
        except OutsideMethod:
            continue  # the page says why the number is missing; a figure of it would be made up
        found[figure.name] = {
            "svg": svg.text(drawing),
            "paper": svg.text(drawing, ink="#111111"),
            "title": drawing.title,
            "alt": drawing.alt,
        }
    return found


def _show(library: Library, known: Known, printer: Printer) -> Callable[..., str]:
    """Return how figures print a number: a setting as it is printed everywhere, any other as the shop prints its kind."""
    settings = {
        (known.value(spec.name), spec.kind): known.item(spec.name, printer).text
        for spec in library.family.values
        if spec.within and known.value(spec.name) is not None
    }
    return lambda value, kind, rounding="nearest": settings.get((value, kind)) or printer.text(value, kind, rounding)


def _wall(
    library: Library,
    stages: list[StageData],
    blades: list[BladeRow],
    notices: list[NoticeData],
    unknowns: list[UnknownItem],
    known: Known,
    printer: Printer,
) -> Wall:
    """Return what the one-page sheet shows: big numbers, one line per step that has a summary, worst hazards first."""
    lines: list[WallStage] = [
        {
            "title": stage["title"],
            "states": stage["states"],
            "lines": [step["summary"] for step in stage["steps"] if step["summary"]],
        }
        for stage in stages
    ]
    shown, words = _shown(library, known), {name: known.value(name) for name in library.family.names}
    names = [name for name, when in library.family.shows.wall_numbers if slots.holds(when, words)]
    return {
        "numbers": [item_data(known.item(name, printer)) for name in names if name in shown],
        "steps": [line for line in lines if line["lines"]],
        "blades": [row for row in blades if row["fits"]],
        "hazards": notices,
        "write_in": unknowns,
        "picture": library.family.shows.wall_picture,
    }
