"""Band saws for wood: what is measured, what is computed, how a blade is judged, and what is drawn."""

from sawside import values as graph
from sawside.families.family import Family
from sawside.families.wood_band_saw import buying, figures, record
from sawside.families.wood_band_saw.judge import judge, margins
from sawside.families.wood_band_saw.values import VALUES
from sawside.families.wood_band_saw.words import WORDS

_FIELDS = record.MACHINE + record.BLADE + record.JOB + record.ASSUMPTIONS

FAMILY = Family(
    key="wood_band_saw",
    title="Band saws for wood",
    machine=record.MACHINE,
    blade=record.BLADE,
    job=record.JOB,
    assumptions=record.ASSUMPTIONS,
    values=VALUES,
    ordered=graph.order(VALUES, {field.name for field in _FIELDS}),
    words=WORDS,
    judge=judge,
    margins=margins,
    what_to_buy=buying.what_to_buy,
    few_blades=buying.fewest_words,
    sources_differ=buying.sources_differ,
    figures=figures.FIGURES,
    checks=(
        ("Guards, doors, stop button, tyres and blade looked at", ""),
        ("Push at mid-strand for 5 mm", "push_for_5_mm"),
        ("Side guides: gap each side", "side_clearance"),
        ("Thrust bearing: gap", "thrust_gap"),
        ("Table off square by test cut, at most", "square_tolerance"),
    ),
    set_values=(
        "target_stress", "push_for_5_mm", "push_for_quarter_inch", "gauge_stretch", "pluck_frequency", "guide_setback",
        "centre_distance_for_blade",
    ),
    wall_numbers=(
        "push_for_5_mm", "free_span", "gauge_stretch", "pluck_frequency", "guide_setback", "side_clearance", "thrust_gap",
        "guide_post_gap",
    ),
    blade_numbers=(
        "blade_length", "target_stress", "strand_force", "wheel_load", "scale_setting", "tension_verdict", "gauge_stretch",
        "push_for_5_mm",
        "push_for_quarter_inch", "deflection_at_push", "pluck_frequency", "pluck_note", "guide_setback", "thickness_ratio",
        "bending_stress", "bending_verdict", "minimum_radius", "minimum_radius_basis", "gullet", "gullet_basis",
        "gullet_line_gullet_school", "gullet_line_blade_school", "overhang_back_gullet_school", "overhang_back_blade_school",
        "widest_blade", "coil_diameter", "coil_verdict", "centre_distance_for_blade",
    ),
)
