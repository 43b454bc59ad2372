"""Every value computed for a wood band saw: one visible tuple, each entry a pure function wired by argument name.

What a formula takes, where it holds and where it comes from stands in its docstring; here stands how it prints.
`equation` is given where the value is one closed expression; a value found by bisection has none.
"""

from sawside.calc import band, bending, feed, geometry, guides, pitch, radius, stiffness, strand, tension, vibration
from sawside.model import ValueSpec as V

WHEELS, SECTION, TENSION, TRACK = "Wheels and length", "Blade section and bending", "Tension", "Tracking"
GUIDES, STORE, JOB = "Guides", "Coiling", "Teeth and curves"

_BOTH = "wheel_diameter_upper + wheel_diameter_lower"
_HALF = "(wheel_diameter_upper - wheel_diameter_lower) / 2"
_WAY = (f"2 * sqrt(centre_distance**2 - ({_HALF})**2) + pi * (({_BOTH}) / 2 + blade_thickness)"
        f" + (wheel_diameter_upper - wheel_diameter_lower) * asin({_HALF} / centre_distance)")

VALUES = (
    V("loop_length", "Way round the wheels", geometry.loop_length, "blade_length", "L", group=WHEELS, equation=_WAY),
    V("free_span", "Free strand between the wheels", geometry.free_span, "blade_length", "S", group=WHEELS,
      equation=f"sqrt(centre_distance**2 - ({_HALF})**2)"),
    V("blade_length_shortest", "Shortest blade that goes on", geometry.blade_length_shortest, "blade_length", "L_min",
      group=WHEELS, rounding="up", equation=_WAY.replace("centre_distance", "centre_distance_min") + " + loop_slack"),
    V("blade_length_longest", "Longest blade that can be tensioned", geometry.blade_length_longest, "blade_length", "L_max",
      group=WHEELS, rounding="down",
      equation=f"({_WAY.replace('centre_distance', 'centre_distance_max')}) / (1 + target_stress / youngs_modulus)"),
    V("rated_length_gap", "Maker's length minus way round", geometry.rated_length_gap, "blade_length", "dL", group=WHEELS,
      equation="rated_blade_length - loop_length"),
    V("centre_distance_for_blade", "Centre distance for this blade", geometry.centre_distance_for_blade, "blade_length",
      "C_b", group=WHEELS),
    V("band_speed", "Band speed", band.band_speed, "speed", "v", group=WHEELS,
      equation="pi * (wheel_diameter_lower + blade_thickness) * wheel_speed"),
    V("smaller_wheel", "Smaller wheel", band.smaller_wheel, "wheel_size", "D", group=WHEELS,
      equation="min(wheel_diameter_upper, wheel_diameter_lower)"),

    V("thickness_ratio", "Wheel over thickness", band.thickness_ratio, "ratio_whole", "D/t",
      takes={"wheel_diameter": "smaller_wheel"}, group=SECTION, rounding="down", equation="wheel_diameter / blade_thickness"),
    V("bending_stress", "Bending stress on the smaller wheel", band.bending_stress, "stress", "sigma_b",
      takes={"wheel_diameter": "smaller_wheel"}, group=SECTION,
      equation="youngs_modulus * blade_thickness / (wheel_diameter + blade_thickness)"),
    V("bending_verdict", "Thickness for these wheels", band.bending_verdict, "word", group=SECTION),
    V("gullet", "Gullet depth used", band.gullet, "small_length", "g", group=SECTION),
    V("gullet_basis", "Gullet depth comes from", band.gullet_basis, "word", group=SECTION),
    V("body_width", "Body width", band.body_width, "small_length", "b", group=SECTION, equation="blade_width - gullet"),
    V("body_area", "Body area", band.body_area, "area", "A", group=SECTION, equation="body_width * blade_thickness"),
    V("mass_per_length", "Mass per length", band.mass_per_length, "mass_per_length", "mu", group=SECTION,
      equation="steel_density * blade_thickness * (blade_width - gullet * (1 - tooth_zone_share))"),

    V("target_stress_low", "Tension stress, from", band.target_stress_low, "stress", "sigma_low", group=TENSION),
    V("target_stress_high", "Tension stress, to", band.target_stress_high, "stress", "sigma_high", group=TENSION,
      rounding="down"),
    V("target_stress", "Tension stress aimed at", band.target_stress, "stress", "sigma", group=TENSION),
    V("strand_force", "Pull in one strand", band.strand_force, "force", "F", group=TENSION,
      equation="target_stress * body_area"),
    V("wheel_load", "Load on the upper wheel", band.wheel_load, "force", "Q", group=TENSION, equation="2 * strand_force"),
    V("widest_blade", "Widest blade the saw can tension so", band.widest_blade, "blade_width", "w_max", group=TENSION,
      rounding="down", equation="wheel_load_max / (2 * target_stress * blade_thickness) + gullet"),
    V("tension_verdict", "Can the saw tension it", tension.tension_verdict, "word", group=TENSION),
    V("gauge_stretch", "Stretch over the gauge length", band.gauge_stretch, "stretch", "dl", group=TENSION,
      equation="gauge_length * target_stress / youngs_modulus"),
    V("push_for_5_mm", "Push at mid-strand for 5 mm", strand.push_for_5_mm, "force", "P_5", group=TENSION),
    V("push_for_quarter_inch", "Push at mid-strand for 1/4 in", strand.push_for_quarter_inch, "force", "P_q", group=TENSION),
    V("deflection_at_push", "Deflection at the test push", strand.deflection_at_push, "gap_wide", "delta", group=TENSION),
    V("pluck_frequency", "Tone of the plucked strand", vibration.pluck_frequency, "frequency", "f", group=TENSION),
    V("pluck_note", "Nearest note", vibration.pluck_note, "word", group=TENSION),

    V("gullet_line_gullet_school", "Gullets behind the front rim, gullets in the middle", guides.gullet_line_gullet_school,
      "small_length", "x_g", group=TRACK, equation="tyre_width / 2"),
    V("gullet_line_blade_school", "Gullets behind the front rim, blade in the middle", guides.gullet_line_blade_school,
      "small_length", "x_b", group=TRACK, equation="tyre_width / 2 - blade_width / 2 + gullet"),
    V("overhang_front_gullet_school", "Over the front rim, gullets in the middle", guides.overhang_front, "small_length",
      takes={"gullet_line": "gullet_line_gullet_school"}, group=TRACK, equation="max(0, gullet - gullet_line)"),
    V("overhang_back_gullet_school", "Over the back rim, gullets in the middle", guides.overhang_back, "small_length",
      takes={"gullet_line": "gullet_line_gullet_school"}, group=TRACK,
      equation="max(0, blade_width - gullet - (tyre_width - gullet_line))"),
    V("overhang_front_blade_school", "Over the front rim, blade in the middle", guides.overhang_front, "small_length",
      takes={"gullet_line": "gullet_line_blade_school"}, group=TRACK, equation="max(0, gullet - gullet_line)"),
    V("overhang_back_blade_school", "Over the back rim, blade in the middle", guides.overhang_back, "small_length",
      takes={"gullet_line": "gullet_line_blade_school"}, group=TRACK,
      equation="max(0, blade_width - gullet - (tyre_width - gullet_line))"),

    V("guide_margin", "Side guides behind the gullets", guides.guide_margin, "gap", "m", group=GUIDES, rounding="up",
      equation="thrust_gap + guide_extra_margin"),
    V("guide_setback", "Side guides behind the tooth tips", guides.guide_setback, "small_length", "s", group=GUIDES,
      rounding="up", equation="gullet + guide_margin"),
    V("guide_span", "Between upper and lower guides", stiffness.guide_span, "work_size", "L_g",
      takes={"work_height": "usual_work_height"}, group=GUIDES,
      equation="work_height + guide_post_gap + lower_guide_below_table"),
    V("guide_span_100_mm_too_high", "The same, guides 100 mm too high", stiffness.guide_span_100_mm_too_high, "work_size",
      "L_h", group=GUIDES),
    V("tip_stiffness", "Side stiffness at the teeth", stiffness.tip_stiffness, "stiffness", "k", group=GUIDES),
    V("tip_stiffness_100_mm_too_high", "The same, guides 100 mm too high", stiffness.tip_stiffness_100_mm_too_high,
      "stiffness", "k_h", group=GUIDES),
    V("stiffness_lost", "Stiffness lost with the guides 100 mm too high", stiffness.stiffness_lost, "percent", "q",
      group=GUIDES, equation="1 - tip_stiffness_100_mm_too_high / tip_stiffness"),

    V("coil_diameter", "Diameter of the three loops", bending.coil_diameter, "work_size", "D_c", group=STORE,
      equation="blade_length / (3 * pi)"),
    V("coil_stress", "Stress in the coil", bending.coil_stress, "stress", "sigma_c", group=STORE,
      equation="youngs_modulus * blade_thickness / coil_diameter"),
    V("coil_smallest", "Smallest bend before it stays bent", bending.coil_smallest, "work_size", "D_y", group=STORE,
      rounding="up", equation="blade_thickness * (youngs_modulus / steel_yield - 1)"),
    V("coil_verdict", "May it be folded in three", bending.coil_verdict, "word", group=STORE),

    V("minimum_radius", "Tightest curve", radius.minimum_radius, "radius", "R", group=JOB, rounding="up"),
    V("minimum_radius_basis", "Tightest curve comes from", radius.minimum_radius_basis, "word", group=JOB),
    V("teeth_in_work_least", "Teeth in the thinnest work", pitch.teeth_in_work_least, "ratio", "z_min", group=JOB,
      equation="work_height_min / tooth_pitch"),
    V("teeth_in_work_most", "Teeth in the thickest work", pitch.teeth_in_work_most, "ratio", "z_max", group=JOB,
      equation="work_height_max / tooth_pitch"),
    V("pitch_coarsest", "Coarsest pitch", pitch.pitch_coarsest, "pitch", "p_max", group=JOB,
      equation="work_height_min / teeth_least"),
    V("pitch_finest", "Finest pitch for sheet and metal", pitch.pitch_finest, "pitch", "p_min", group=JOB,
      equation="work_height_max / teeth_most"),
    V("feed_by_gullet", "Feed the gullets can clear", feed.feed_at_gullet_fill, "feed", "v_f",
      takes={"gullet_fill_most": "gullet_fill", "work_height": "work_height_max", "gullet_depth": "gullet"},
      group=JOB, rounding="down"),
)
