"""What the live worksheets start from: this saw's numbers and its blades, as plain SI numbers for the page's script."""

from sawside.guide import Known
from sawside.library import Library

MACHINE = ("table_stop_arm", "table_stop_pitch", "fence_length", "cutting_height_max", "free_span", "gauge_length", "test_push",
           "youngs_modulus", "square_tolerance", "caliper_doubt", "teeth_least", "teeth_most", "straight_width")
BLADE = ("blade_width", "blade_thickness", "tooth_pitch", "kerf", "body_width", "body_area", "mass_per_length", "target_stress",
         "target_stress_low", "target_stress_high", "strand_force", "wheel_load")


def worksheet_data(library: Library, known: Known, by_blade: dict[str, Known], rows: list[dict]) -> dict:
    """Return the numbers of one machine's worksheets; a blade that does not fit is offered for choosing only."""
    named = {row["id"]: row for row in rows}
    blades = [_blade(named[blade_id], found) for blade_id, found in by_blade.items()]
    return {
        **{name: known.value(name) for name in MACHINE},
        "has_fence": known.value("fence") == "adjustable",
        "fitted": next((row["id"] for row in rows if row["fitted"]), None),
        "blades": [blade for blade in blades if blade["fits"]],
        "all_blades": blades,
    }


def _blade(row: dict, known: Known) -> dict:
    reason = row["reasons"][0] if row["reasons"] else "fits the saw"
    numbers = {name: known.value(name) for name in BLADE}
    return {"id": row["id"], "name": f"{row['name']}: {row['section']}", "fits": row["fits"], "reason": reason, **numbers}
