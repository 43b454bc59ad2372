"""Values of wheels, blade section, tension and tracking. How to read an entry: see values.py."""

from sawside.calc import band, bending, geometry, guides, strand, tension, vibration
from sawside.families.wood_band_saw import formulas
from sawside.model import ValueSpec as V

WHEELS, SECTION, TENSION, TRACK = "Wheels and length", "Blade section and bending", "Tension", "Tracking"

_BOTH = "wheel_diameter_upper + wheel_diameter_lower"
_HALF = "(wheel_diameter_upper - wheel_diameter_lower) / 2"
_WAY = (f"2 * sqrt(centre_distance**2 - ({_HALF})**2) + pi * (({_BOTH}) / 2 + blade_thickness)"
        f" + (wheel_diameter_upper - wheel_diameter_lower) * asin({_HALF} / centre_distance)")
#: A quarter of the span over the length in which the blade's own stiffness is felt, for a strand held at both wheels.
_STIFF = "(free_span / 4 * sqrt(12 * strand_force / (youngs_modulus * body_width * blade_thickness**3)))"
_GIVES = f"(1 - tanh({_STIFF}) / {_STIFF})"

#: A deeper gullet than estimated would let the guides touch the teeth.
GUESSED = ("gullet_basis", "estimated", "gullet depth estimated: measure it first")

SAW = (
    V("loop_length", "Way round the wheels", geometry.loop_length, "blade_length", "L", group=WHEELS, equation=_WAY),
    V("free_span", "Free strand between the wheels", geometry.free_span, "blade_length", "S", group=WHEELS,
      equation=f"sqrt(centre_distance**2 - ({_HALF})**2)"),
    V("blade_length_shortest", "Shortest blade that goes on", geometry.blade_length_shortest, "blade_length", "L_min",
      group=WHEELS, rounding="up", equation=_WAY.replace("centre_distance", "centre_distance_min") + " + loop_slack"),
    V("blade_length_longest", "Longest blade that can be tensioned", geometry.blade_length_longest, "blade_length",
      "L_max",
      group=WHEELS, rounding="down",
      equation=f"({_WAY.replace('centre_distance', 'centre_distance_max')}) / (1 + target_stress / youngs_modulus)"),
    V("rated_length_gap", "Maker's length minus way round", geometry.rated_length_gap, "blade_length", "DeltaL",
      group=WHEELS, equation="rated_blade_length - loop_length"),
    V("centre_distance_for_blade", "Centre distance for this blade", geometry.centre_distance_for_blade, "blade_length",
      "C_b", group=WHEELS),
    V("band_speed", "Band speed", band.band_speed, "speed", "v", group=WHEELS,
      equation="pi * (wheel_diameter_lower + blade_thickness) * wheel_speed"),
    V("smaller_wheel", "Smaller wheel", band.smaller_wheel, "wheel_size", "D", group=WHEELS,
      equation="min(wheel_diameter_upper, wheel_diameter_lower)"),
    V("wrap_angle_lower", "Wrap of the blade on the lower wheel", formulas.wrap_angle_lower, "angle", "theta_2",
      group=WHEELS,
      equation="pi + 2 * asin((wheel_diameter_lower - wheel_diameter_upper) / (2 * centre_distance))"),

    V("thickness_ratio", "Wheel over thickness", band.thickness_ratio, "ratio_whole", "D/t",
      takes={"wheel_diameter": "smaller_wheel"}, group=SECTION, rounding="down",
      equation="wheel_diameter / blade_thickness"),
    V("bending_stress", "Bending stress on the smaller wheel", band.bending_stress, "stress", "sigma_b",
      takes={"wheel_diameter": "smaller_wheel"}, group=SECTION,
      equation="youngs_modulus * blade_thickness / (wheel_diameter + blade_thickness)"),
    V("bending_verdict", "Thickness for these wheels", band.bending_verdict, "word", group=SECTION),
    V("gullet", "Gullet depth used", band.gullet, "small_length", "g", group=SECTION, guessed=GUESSED),
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
    V("wheel_load", "Load on the upper wheel", band.wheel_load, "force", "Q", group=TENSION,
      equation="2 * strand_force"),
    V("widest_blade", "Widest blade the saw can tension so", band.widest_blade, "blade_width", "w_max", group=TENSION,
      rounding="down", equation="wheel_load_max / (2 * target_stress * blade_thickness) + gullet"),
    V("tension_verdict", "Can the saw tension it", tension.tension_verdict, "word", group=TENSION),
    V("gauge_stretch", "Stretch over the gauge length", band.gauge_stretch, "stretch", "Deltal", group=TENSION,
      equation="gauge_length * target_stress / youngs_modulus"),
    V("push_for_5_mm", "Push at mid-strand for 5 mm", strand.push_for_5_mm, "force", "P_5", group=TENSION,
      equation=f"4 * strand_force * mm(5) / (free_span * {_GIVES})"),
    V("push_for_quarter_inch", "Push at mid-strand for 1/4 in", strand.push_for_quarter_inch, "force", "P_q",
      group=TENSION,
      equation=f"4 * strand_force * mm(6.35) / (free_span * {_GIVES})"),
    V("deflection_at_push", "Deflection at the test push", strand.deflection_at_push, "gap_wide", "delta",
      group=TENSION,
      equation=f"test_push * free_span / (4 * strand_force) * {_GIVES}"),
    V("pluck_frequency", "Tone of the plucked strand", vibration.pluck_frequency, "frequency", "f", group=TENSION),
    V("pluck_note", "Nearest note", vibration.pluck_note, "word", group=TENSION),
    V("scale_setting", "Mark on the saw's tension scale", formulas.scale_setting, "scale_mark", "M", group=TENSION,
      equation="scale_mark_low + (2 * target_stress * body_area - scale_load_low) * (scale_mark_high - scale_mark_low)"
      " / (scale_load_high - scale_load_low)"),
    V("loop_rate", "Pull for each stretch of the loop", formulas.loop_rate, "spring_rate", "K", group=TENSION,
      equation="1 / (blade_length / (youngs_modulus * body_area) + 4 / tension_spring_rate + 4 / frame_stiffness)"),
    V("screw_turns", "Turns of the tension screw from just taut", formulas.screw_turns, "turns", "N", group=TENSION,
      equation="strand_force / (2 * loop_rate * tension_screw_pitch)"),
    V("solid_spring_turns", "The same, when the spring has gone solid", tension.solid_spring_turns, "turns", "N_s",
      group=TENSION, rounding="down",
      equation="blade_length * target_stress / (2 * youngs_modulus * tension_screw_pitch)"),
    V("drive_force", "Force at the teeth that stalls the motor", tension.drive_force, "force", "F_d",
      takes={"power": "motor_power"}, group=TENSION, equation="power / band_speed"),
    V("slip_force", "Force at the teeth at which the blade slips", tension.slip_force, "force", "F_s",
      takes={"wrap_angle": "wrap_angle_lower", "friction": "tyre_friction"}, group=TENSION, rounding="down",
      equation="2 * strand_force * tanh(friction * wrap_angle / 2)"),
    V("grip_over_drive", "Slip force over the motor's force", formulas.grip_over_drive, "ratio", "q_s", group=TENSION,
      rounding="down", equation="slip_force / drive_force"),

    V("gullet_line_gullet_school", "Gullets behind the front rim, gullets in the middle",
      guides.gullet_line_gullet_school,
      "small_length", "x_g", group=TRACK, equation="tyre_width / 2"),
    V("gullet_line_blade_school", "Gullets behind the front rim, blade in the middle", guides.gullet_line_blade_school,
      "small_length", "x_b", group=TRACK, equation="tyre_width / 2 - blade_width / 2 + gullet"),
    V("overhang_front_gullet_school", "Over the front rim, gullets in the middle", guides.overhang_front,
      "small_length",
      "o_fg", takes={"gullet_line": "gullet_line_gullet_school"}, group=TRACK, rounding="up",
      equation="max(0, gullet - gullet_line)"),
    V("overhang_back_gullet_school", "Over the back rim, gullets in the middle", guides.overhang_back, "small_length",
      "o_bg", takes={"gullet_line": "gullet_line_gullet_school"}, group=TRACK, rounding="up",
      equation="max(0, blade_width - gullet - (tyre_width - gullet_line))"),
    V("overhang_front_blade_school", "Over the front rim, blade in the middle", guides.overhang_front, "small_length",
      "o_fb", takes={"gullet_line": "gullet_line_blade_school"}, group=TRACK, rounding="up",
      equation="max(0, gullet - gullet_line)"),
    V("overhang_back_blade_school", "Over the back rim, blade in the middle", guides.overhang_back, "small_length",
      "o_bb", takes={"gullet_line": "gullet_line_blade_school"}, group=TRACK, rounding="up",
      equation="max(0, blade_width - gullet - (tyre_width - gullet_line))"),

    V("coil_diameter", "Diameter of the three loops", bending.coil_diameter, "work_size", "D_c", group="Coiling",
      equation="blade_length / (3 * pi)"),
    V("coil_stress", "Stress in the coil", bending.coil_stress, "stress", "sigma_c", group="Coiling",
      equation="youngs_modulus * blade_thickness / coil_diameter"),
    V("coil_smallest", "Smallest bend before it stays bent", bending.coil_smallest, "work_size", "D_y", group="Coiling",
      rounding="up", equation="blade_thickness * (youngs_modulus / steel_yield - 1)"),
    V("coil_verdict", "May it be folded in three", bending.coil_verdict, "word", group="Coiling"),
)
