"""Which names the pages and sheets of a band saw show."""

from sawside.families.family import Shows, Worksheets

STOPS = (
    ("Outside, doors closed", "Stand in front of the saw. Nothing is opened here.", ("Identity",)),
    ("Plate and papers", "The plate on the frame, the plate on the motor, the maker's manual.", ("Drive", "Blade limits")),
    ("Wheels", "Isolate the saw, then open the doors.", ("Wheels",)),
    ("Tension and tracking", "Still isolated. At the top of the saw.", ("Tension",)),
    ("Guides", "Still isolated. At the blade, above and below the table.", ("Cutting room", "Guides")),
    ("Table and fence", "Still isolated. On the table, under it, and along the fence.", ("Table and fence",)),
)

WORKSHEETS = Worksheets(
    machine=("table_stop_arm", "table_stop_pitch", "fence", "fence_length", "cutting_height_max", "free_span", "gauge_length",
             "test_push", "youngs_modulus", "square_tolerance", "caliper_doubt", "teeth_least", "teeth_most", "straight_width",
             "resaw_width"),
    blade=("blade_width", "blade_thickness", "tooth_pitch", "body_width", "body_area", "mass_per_length", "target_stress",
           "target_stress_low", "target_stress_high", "strand_force", "wheel_load", "screw_turns", "solid_spring_turns",
           "minimum_radius"),
    limits=("bend", "tension"),
    any_job={"material": "softwood", "cut": "crosscut", "work_height_min": 1.0, "work_height_max": 1.0,
             "teeth_in_work_least": 1.0, "teeth_in_work_most": 1.0, "cut_radius": None, "feed_wanted": None},
)

SHOWS = Shows(
    wall_numbers=(
        "push_for_5_mm", "free_span", "gauge_stretch", "pluck_frequency", "guide_setback", "side_clearance", "thrust_gap",
        "guide_post_gap",
    ),
    blade_numbers=(
        "blade_length", "target_stress", "strand_force", "wheel_load", "scale_setting", "tension_verdict", "gauge_stretch",
        "push_for_5_mm", "push_for_quarter_inch", "deflection_at_push", "pluck_frequency", "pluck_note", "guide_setback",
        "thickness_ratio", "bending_stress", "bending_verdict", "minimum_radius", "minimum_radius_basis", "gullet",
        "gullet_basis", "gullet_line_gullet_school", "gullet_line_blade_school", "overhang_back_gullet_school",
        "overhang_back_blade_school", "widest_blade", "coil_diameter", "coil_verdict", "centre_distance_for_blade",
    ),
    set_values=(
        "target_stress", "scale_setting", "push_for_5_mm", "push_for_quarter_inch", "gauge_stretch", "pluck_frequency",
        "guide_setback", "centre_distance_for_blade",
    ),
    checks=(
        ("Guards, doors, stop button, tyres and blade looked at", ""),
        ("Push at mid-strand for 5 mm", "push_for_5_mm"),
        ("Side guides: gap each side", "side_clearance"),
        ("Thrust bearing: gap", "thrust_gap"),
        ("Table off square by test cut, at most", "square_tolerance"),
    ),
    wall_columns=("push_for_5_mm", "scale_setting", "gauge_stretch", "guide_setback", "strand_force"),
    table_columns=("push_for_5_mm", "scale_setting", "gauge_stretch", "strand_force", "guide_setback", "minimum_radius"),
    card_numbers=("push_for_5_mm", "scale_setting", "gauge_stretch", "guide_setback", "minimum_radius", "blade_length",
                  "pluck_frequency"),
    tag_numbers=("push_for_5_mm", "scale_setting", "guide_setback", "gauge_stretch"),
    picture="saw_elevation",
    stops=STOPS,
    worksheets=WORKSHEETS,
    gauges=True,
)
