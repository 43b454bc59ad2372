"""Which names the pages and sheets of a band saw show."""

from sawside.calc import band, decision, drift, strand, tension, testcut, vibration
from sawside.families.family import Shows, Worksheets
from sawside.families.wood_band_saw.margins import grades, margins, reason

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
             "test_push", "youngs_modulus", "square_tolerance", "caliper_doubt", "test_height", "teeth_least", "teeth_most",
             "straight_width", "resaw_width", "wheel_load_max", "thickness_ratio_least"),
    blade=("blade_width", "blade_thickness", "blade_back", "tooth_pitch", "tooth_form", "body_width", "body_area",
           "mass_per_length", "setting_stress", "setting_stress_from", "setting_stress_to", "setting_basis", "saw_stress_max",
           "blade_stress_max", "strand_force", "wheel_load", "screw_turns", "solid_spring_turns", "minimum_radius",
           "comfortable_radius", "thickness_ratio", "thickness_ratio_judged", "bending_verdict", "tension_verdict", "target_stress",
           "target_stress_low", "band_speed"),
    formulas=(
        strand.flexural_rigidity, strand.force_from_deflection, band.stress_from_stretch, vibration.force_from_frequency,
        vibration.pluck_note, testcut.cut_tilt, testcut.cut_taper, testcut.cut_twist, testcut.twist_matters, testcut.tilt_doubt,
        testcut.turned_cut_tilt, testcut.turned_cut_doubt, testcut.turned_cut_limit, testcut.stop_bolt_turns, decision.decide,
        decision.verdict, drift.drift_angle, drift.drift_doubt, drift.fence_shift, drift.straightedge_doubt, tension.fit_scale,
        tension.scale_reading,
    ),
    choosing=(margins, grades, reason),
    derived=("teeth_in_work_least", "teeth_in_work_most"),
    words=("blade_back", "tooth_form", "material"),
    kinds=("work_size", "teeth", "ratio", "ratio_whole", "radius", "force", "blade_width", "percent", "speed", "feed"),
)

SHOWS = Shows(
    wall_numbers=(
        ("setting_mark", ""), ("setting_push", ""), ("setting_tone", ""), ("setting_stretch", ""),
        ("gullet_line_gullet_school", 'not maker_tracking == "blade_centred"'),
        ("gullet_line_blade_school", 'not maker_tracking == "gullet_centred"'),
        ("guide_setback", ""), ("side_clearance", ""), ("thrust_gap", ""), ("guide_post_gap", ""),
    ),
    blade_numbers=(
        "blade_length", "setting_stress", "setting_basis", "published_stress", "strand_force", "wheel_load", "setting_mark",
        "tension_verdict", "setting_stretch", "setting_push", "setting_deflection", "setting_tone", "pluck_note", "guide_setback",
        "thickness_ratio", "bending_stress", "bending_verdict", "minimum_radius", "minimum_radius_basis", "gullet",
        "gullet_basis", "gullet_line_gullet_school", "gullet_line_blade_school", "overhang_back_gullet_school",
        "overhang_back_blade_school", "widest_blade", "coil_diameter", "coil_verdict", "centre_distance_for_blade",
    ),
    set_values=(
        "setting_stress", "setting_mark", "setting_push", "setting_stretch", "setting_tone",
        "guide_setback", "centre_distance_for_blade",
    ),
    checks=(
        ("Guards, doors, stop button, tyres and blade looked at", ""),
        ("Push at mid-strand", "setting_push"),
        ("Side guides: gap each side", "side_clearance"),
        ("Thrust bearing: gap", "thrust_gap"),
        ("Test cut, height as on its worksheet: top less bottom, at most", "square_accept"),
    ),
    wall_columns=("setting_push", "setting_mark", "setting_tone", "guide_setback"),
    table_columns=("setting_push", "setting_mark", "setting_stretch", "strand_force", "guide_setback", "minimum_radius"),
    card_numbers=("setting_push", "setting_mark", "setting_stretch", "guide_setback", "minimum_radius", "blade_length",
                  "setting_tone"),
    tag_numbers=("setting_push", "setting_mark", "guide_setback", "setting_stretch"),
    picture="saw_elevation",
    wall_picture="saw_parts",
    card_pictures=("deflection_test", "tooth"),
    guide_pictures=("coiling", "deflection_test", "blade_on_tyre", "guides_from_above", "fence_drift", "test_piece"),
    stops=STOPS,
    worksheets=WORKSHEETS,
    gauges=True,
)
