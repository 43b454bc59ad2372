"""One machine as plain printed data: what page layouts and sheet templates receive. Every number is words by now."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import asdict

from sawside import guide, local, occasions, selection, slots, values
from sawside.calc.limits import OutsideMethod
from sawside.families.family import MACHINE_NAMES, Shows
from sawside.figures import svg
from sawside.guide import Known
from sawside.library import Library
from sawside.model import ASSUMED, UNKNOWN, Guide, Missing, Record
from sawside.outputs import bench, doubt, occasion_view, working
from sawside.outputs.worksheet_data import worksheet_data
from sawside.printing import Printer


def machine_view(library: Library, machine: Record, going_on: str = "") -> dict:
    """Return everything that is printed about one machine, for the blade on it or for the one that is `going_on` (an id)."""
    printer = guide.printer(library)
    fitted = library.blade(going_on or machine.get("fitted_blade"))
    by_blade = {blade.id: guide.know(library, machine, blade) for blade in library.blades}
    rows = [blade_row(library, machine, blade, by_blade[blade.id], printer) for blade in library.blades]
    on_it = next((row for row in rows if fitted and row["id"] == fitted.id), None)
    # a blade that does not fit gets no number anywhere: the guide is made as if none were stated, with a warning
    unfit = bool(on_it) and not on_it["fits"]
    known = by_blade[fitted.id] if on_it and not unfit else guide.know(library, machine, None)
    made = guide.make(library, machine, known, fitted)
    shows = library.family.shows
    view = {
        "shop": _shop(library),
        "machine": _machine(library, machine),
        "numbers": _numbers(library, machine, known, printer),
        "unknowns": [
            item
            for item in _unknowns(known, library, printer)
            if not unfit or item["name"] not in {field.name for field in library.family.blade}
        ],
        "assumed": [asdict(printer.entry(e)) for e in known.entries.values() if e.status == ASSUMED],
        "blade": on_it,
        "blades": sorted(rows, key=lambda row: not row["fits"]),
        "jobs": (jobs := selection.job_rows(library, by_blade, printer)),
        "few_blades": selection.few_blades(library, jobs),
        "doubts": doubt.sentences(known, printer),
        **occasion_view.method(made),
        "lists": {name: occasion_view.listed(made, name) for name in occasions.OCCASIONS if name != occasions.METHOD},
        **_safety(library, machine, made),
        "drawings": _drawings(library, known, printer),
        "always": list(library.standing),
        "test_cut": bench.worksheet(known.value, printer),
        "coils": bench.coils(_coils(by_blade, rows), printer),
        "checks": [
            {"what": what, "limit": printer.in_text(known.item(name, printer)) if name else ""} for what, name in shows.checks
        ],
        **_placed(shows),
        "working": working.sections(library, known, printer),
        "worksheets": worksheet_data(library, known, by_blade, rows),
    }
    view["wall"] = _wall(library, view, known, printer)
    view["for_blade"] = {} if going_on else _for_blades(library, machine, view, by_blade, printer)
    return view


def _placed(shows: Shows) -> dict:
    """Return which numbers and drawings stand where."""
    columns = {"wall": shows.wall_columns, "table": shows.table_columns, "card": shows.card_numbers, "tag": shows.tag_numbers}
    return {
        "columns": {name: list(names) for name, names in columns.items()},
        "picture": shows.picture,
        "gauges": shows.gauges,
        "card_pictures": list(shows.card_pictures),
        "guide_pictures": list(shows.guide_pictures),
    }


def _for_blades(library: Library, machine: Record, view: dict, by_blade: dict[str, Known], printer: Printer) -> dict:
    """Return for each fitting blade, by its id, what method, card and wall sheet say when it is the one that goes on."""
    found = {}
    for row in (row for row in view["blades"] if row["fits"]):
        known = by_blade[row["id"]]
        made = guide.make(library, machine, known, library.blade(row["id"]))
        one = {
            "blade": row,
            **occasion_view.method(made),
            "drawings": _drawings(library, known, printer),
            "unknowns": _unknowns(known, library, printer),
        }
        found[row["id"]] = one | {"wall": _wall(library, view | one, known, printer)}
    return found


def _safety(library: Library, machine: Record, made: Guide) -> dict:
    """Return the grouped notices, worst first, all others, the rules that always hold, and whether nobody may use the saw."""
    return {
        "notices": [asdict(notice) for notice in made.notices if notice.group],
        "more_notices": [asdict(notice) for notice in made.notices if not notice.group],
        "local_rules": [occasion_view.rule(rule) for rule in local.rules_for(library.shop, machine)],
        "out_of_service": local.out_of_service(machine),
    }


def _coils(by_blade: dict[str, Known], rows: list[dict]) -> list[tuple[str, float]]:
    """Return name and coil diameter [m] of the blades that fit, where it is known."""
    found = [(row["name"], by_blade[row["id"]].value("coil_diameter")) for row in rows if row["fits"]]
    return [(name, diameter) for name, diameter in found if diameter is not None]


def _shop(library: Library) -> dict:
    record = library.shop.record
    return {
        "name": record.get("shop"),
        "paper": record.get("paper"),
        "site_address": record.get("site_address") or "",
        "ask": record.get("ask"),
        "local_rules": [occasion_view.rule(rule) for rule in record.get("local_rules") or () if not rule.saw and not rule.stage],
        "viewing_distance": record.get("viewing_distance") or 2.0,
        **_labels(record),
    }


def _labels(record: Record) -> dict:
    """Return the measures [mm] of the shop's label sheet, or nothing when it has not stated them all."""
    sizes = {"width": "label_width", "height": "label_height", "left": "label_left", "top": "label_top"}
    counts = {"columns": record.get("label_columns"), "rows": record.get("label_rows")}
    found = {name: record.get(field) for name, field in sizes.items()}
    if None in (*counts.values(), *found.values()):
        return {}
    gaps = {"gap_x": record.get("label_gap_across") or 0.0, "gap_y": record.get("label_gap_down") or 0.0}
    return {"labels": counts | {name: value * 1e3 for name, value in (found | gaps).items()} | {"lines": False}}


def _machine(library: Library, machine: Record) -> dict:
    address = library.shop.record.get("site_address") or ""
    page = f"{address.rstrip('/')}/machines/{machine.id}.html" if address else ""
    plate = machine.get("maker_plate")
    return {
        "id": machine.id,
        "slug": machine.id,
        "name": machine.get("name"),
        "also_called": machine.get("also_called") or "",
        "place": machine.get("place") or "",
        "plate": plate or "",
        "revision": machine.get("revision"),
        "revised": str(machine.get("revised")),
        "address": page,
        "file": machine.at.file,
    }


def _numbers(library: Library, machine: Record, known: Known, printer: Printer) -> list[dict]:
    """Return the machine's measured fields, then its computed values, in groups."""
    groups: dict[str, list[dict]] = defaultdict(list)
    for field in library.family.machine:
        if field.name not in MACHINE_NAMES:
            if field.name in machine.entries:
                groups[field.group or "Other"].append(asdict(known.item(field.name, printer)))
    shown = _shown(library, known) - _ends(library)
    for spec in library.family.values:
        if spec.name in shown:
            groups[f"{spec.group}, computed"].append(asdict(known.item(spec.name, printer)))
    return [{"group": group, "items": items} for group, items in groups.items()]


def _ends(library: Library) -> set[str]:
    """Return the values that are only the ends of another one's range: they are printed with it."""
    return {name for spec in library.family.values for name in spec.within}


def _shown(library: Library, known: Known) -> set[str]:
    """Return the names of fields and values worth printing: not those that wait only for what nobody is asked."""
    quiet = guide.unasked(library, known)
    waiting = {n: set(r.waits_for) for n, r in known.results.items() if isinstance(r, Missing) and r.waits_for}
    return {name for name in (*known.entries, *known.results) if not waiting.get(name, {name}) <= quiet}


def _unknowns(known: Known, library: Library, printer: Printer) -> list[dict]:
    """Return unknown fields worth measuring, most waited-for first, with the values that wait."""
    quiet = guide.unasked(library, known)
    table = values.waiting(known.results)
    labels = {spec.name: spec.title for spec in library.family.values}
    found = []
    unknown = [n for n, e in known.entries.items() if e.status == UNKNOWN]
    for name in (name for name in dict.fromkeys([*table, *unknown]) if name not in quiet):
        item = asdict(known.item(name, printer))
        item["needed_by"] = [labels[value] for value in table.get(name, ())]
        found.append(item)
    return found


def blade_row(library: Library, machine: Record, blade: Record, known: Known, printer: Printer) -> dict:
    """Return one blade on one machine: section, verdict with reasons in words, and its set values."""
    judgement = known.judge(printer)
    shown = _shown(library, known)
    return {
        "id": blade.id,
        "name": blade.id,
        **library.family.blade_words(blade, printer),
        "rack_place": blade.get("rack_place") or "",
        "fits": judgement.fits,
        "verdict": judgement.verdict,
        "reasons": list(judgement.reasons),
        "advice": list(judgement.advice),
        "items": [
            asdict(known.item(name, printer)) for name in library.family.shows.blade_numbers if name in shown and judgement.fits
        ],
        "fitted": machine.get("fitted_blade") == blade.id,
    }


def _drawings(library: Library, known: Known, printer: Printer) -> dict:
    """Return every figure whose numbers are known, as SVG for the screen and for paper."""
    found, show = {}, _show(library, known, printer)
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


def _show(library: Library, known: Known, printer: Printer) -> Callable:
    """Return how figures print a number: a setting as it is printed everywhere, any other as the shop prints its kind."""
    settings = {
        (known.value(spec.name), spec.kind): known.item(spec.name, printer).text
        for spec in library.family.values
        if spec.within and known.value(spec.name) is not None
    }
    return lambda value, kind, rounding="nearest": settings.get((value, kind)) or printer.text(value, kind, rounding)


def _wall(library: Library, view: dict, known: Known, printer: Printer) -> dict:
    """Return what the one-page sheet shows: big numbers, one line per step that has a summary, worst hazards first."""
    lines = [
        {
            "title": stage["title"],
            "states": stage["states"],
            "lines": [step["summary"] for step in stage["steps"] if step["summary"]],
        }
        for stage in view["stages"]
    ]
    shown, words = _shown(library, known), {name: known.value(name) for name in library.family.names}
    names = [name for name, when in library.family.shows.wall_numbers if slots.holds(when, words)]
    return {
        "numbers": [asdict(known.item(name, printer)) for name in names if name in shown],
        "steps": [line for line in lines if line["lines"]],
        "blades": [row for row in view["blades"] if row["fits"]],
        "hazards": view["notices"],
        "write_in": view["unknowns"],
        "picture": library.family.shows.wall_picture,
    }
