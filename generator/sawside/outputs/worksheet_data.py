"""What the live worksheets start from: this saw's numbers and its blades, as plain SI numbers for the page's script."""

import math

from sawside import guide
from sawside.guide import Known
from sawside.library import Library

MACHINE = ("table_stop_arm", "table_stop_pitch", "fence_length", "cutting_height_max", "free_span", "gauge_length", "test_push",
           "youngs_modulus", "square_tolerance", "caliper_doubt", "teeth_least", "teeth_most", "straight_width", "resaw_width")
BLADE = ("blade_width", "blade_thickness", "tooth_pitch", "body_width", "body_area", "mass_per_length", "target_stress",
         "target_stress_low", "target_stress_high", "strand_force", "wheel_load", "screw_turns", "solid_spring_turns",
         "minimum_radius")
#: Limits that do not change with the work: taken from the judge as they are, so that the page has no second opinion.
LIMITS = ("bend", "tension")
#: A job that asks for nothing, to read those limits with.
ANY_JOB = {"material": "softwood", "cut": "crosscut", "work_height_min": 1.0, "work_height_max": 1.0, "teeth_in_work_least": 1.0,
           "teeth_in_work_most": 1.0, "cut_radius": None, "feed_wanted": None}


def worksheet_data(library: Library, known: Known, by_blade: dict[str, Known], rows: list[dict]) -> dict:
    """Return the numbers of one machine's worksheets, with every blade on the rack that fits it."""
    return {
        **{name: known.value(name) for name in MACHINE},
        "has_fence": known.value("fence") == "adjustable",
        "fitted": next((row["id"] for row in rows if row["fitted"]), None),
        "blades": [_blade(library, row, by_blade[row["id"]]) for row in rows if row["fits"]],
    }


def _blade(library: Library, row: dict, known: Known) -> dict:
    numbers = {name: known.value(name) for name in BLADE}
    return {"id": row["id"], "name": f"{row['name']}: {row['section']}", "limits": _limits(library, known), **numbers}


def _limits(library: Library, known: Known) -> list[tuple[float, str]]:
    """Return ratio (1 is just enough) and words of each limit of a blade on its saw that no work changes."""
    def value(name):
        return ANY_JOB[name] if name in ANY_JOB else known.value(name)

    printer = guide.printer(library)
    found = library.family.margins(value, library.family.judge(known.value, printer), printer)
    return [(margin.ratio, margin.words) for margin in found if margin.name in LIMITS and math.isfinite(margin.ratio)]
