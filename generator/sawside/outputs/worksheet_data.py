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
    return {"id": row["id"], "name": f"{row['name']}: {row['section']}", "limits": _limits(library, known), **numbers}


def _limits(library: Library, known: Known) -> list[tuple[float, str]]:
    """Return ratio (1 is just enough) and words of each limit of a blade on its saw that no work changes."""
    wanted = library.family.shows.worksheets

    def value(name):
        return wanted.any_job[name] if name in wanted.any_job else known.value(name)

    printer = guide.printer(library)
    found = library.family.margins(value, library.family.judge(known.value, printer), printer)
    return [(margin.ratio, margin.words) for margin in found if margin.name in wanted.limits and math.isfinite(margin.ratio)]
