"""What the live worksheets start from: this saw's numbers and its blades, as plain SI numbers for the page's script."""

import math

from sawside import guide
from sawside.guide import Known
from sawside.library import Library


def worksheet_data(library: Library, known: Known, by_blade: dict[str, Known], rows: list[dict]) -> dict:
    """Return the numbers of one machine's worksheets, with every blade on the rack that fits it; nothing without any."""
    wanted = library.family.shows.worksheets
    if wanted is None:
        return {}
    return {
        **{name: known.value(name) for name in wanted.machine},
        "fitted": next((row["id"] for row in rows if row["fitted"]), None),
        "blades": [_blade(library, row, by_blade[row["id"]]) for row in rows if row["fits"]],
    }


def _blade(library: Library, row: dict, known: Known) -> dict:
    numbers = {name: known.value(name) for name in library.family.shows.worksheets.blade}
    printer = guide.printer(library)
    return {"id": row["id"], "name": f"{row['name']}: {row['section']}", "limits": _limits(library, known, printer),
            "grades": _grades(library, known, printer), "limited": library.family.limited(known.value, printer), **numbers}


def _grades(library: Library, known: Known, printer) -> list[tuple[int, str]]:
    """Return grade and words of what no work changes: how a blade stands on its saw."""
    return [(grade.grade, grade.words) for grade in library.family.grades(_any_work(library, known), printer)
            if grade.name in library.family.shows.worksheets.grades]


def _any_work(library: Library, known: Known):
    """Return what gives a value of a blade on its saw, with a job that asks for nothing."""
    any_job = library.family.shows.worksheets.any_job
    return lambda name: any_job[name] if name in any_job else known.value(name)


def _limits(library: Library, known: Known, printer) -> list[tuple[float, str]]:
    """Return ratio (1 is just enough) and words of each limit of a blade on its saw that no work changes."""
    wanted = library.family.shows.worksheets
    found = library.family.margins(_any_work(library, known), known.judge(printer), printer)
    return [(margin.ratio, margin.words) for margin in found if margin.name in wanted.limits and math.isfinite(margin.ratio)]
