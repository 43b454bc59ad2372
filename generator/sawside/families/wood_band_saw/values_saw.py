"""Values of wheels, blade section, tension and tracking. How to read an entry: see values.py."""

from dataclasses import replace

from sawside.calc import band, bending, geometry, guides, setting, strand, tension, vibration
from sawside.families.wood_band_saw import formulas
from sawside.model import ValueSpec as V

WHEELS, SECTION, TENSION, TRACK = "Wheels and length", "Blade section and bending", "Tension", "Tracking"

_BOTH = "wheel_diameter_upper + wheel_diameter_lower"
_HALF = "(wheel_diameter_upper - wheel_diameter_lower) / 2"
_WAY = (
    f"2 * sqrt(centre_distance**2 - ({_HALF})**2) + pi * (({_BOTH}) / 2 + blade_thickness)"
    f" + (wheel_diameter_upper - wheel_diameter_lower) * asin({_HALF} / centre_distance)"
)
#: A quarter of the span over the length in which the blade's own stiffness is felt, for a strand held at both wheels.
_STIFF = "(free_span / 4 * sqrt(12 * strand_force / (youngs_modulus * body_width * blade_thickness**3)))"
_GIVES = f"(1 - tanh({_STIFF}) / {_STIFF})"

#: A deeper gullet than estimated would let the guides touch the teeth.
GUESSED = ("gullet_basis", "estimated", "gullet depth estimated: measure it first")

#: How far push, deflection and tone may be off because the wheels hold the strand's ends neither quite fast nor quite
#: loose: half of what lies between a clamped and a hinged end for the blades here (`strand`: 3 % of the push).
_ENDS_HELD, _ENDS_HELD_TONE = 0.015, 0.01


def _setting(spec: V) -> tuple[V, V, V]:
    """Return a value that a person sets, and the same at both ends of the range that is good enough.

    The value takes the tension to set, as stress or as pull; the ends take the ends of its range.
    """
    stress = {"target_stress": "setting_stress"} if "target_stress" in spec.function.__code__.co_varnames else {}
    force = {} if stress else {"strand_force": "strand_force"}

    def end(word: str, rounding: str) -> V:
        takes = {argument: f"{name}_{word}" for argument, name in (stress | force).items()}
        return replace(
            spec,
            name=f"{spec.name}_{word}",
            label=f"{spec.label}, {word}",
            symbol=f"{spec.symbol}_{word}",
            takes={**spec.takes, **takes},
            rounding=rounding,
        )

    aim = replace(spec, takes={**spec.takes, **stress}, within=(f"{spec.name}_from", f"{spec.name}_to"))
    return aim, end("from", "up"), end("to", "down")


def _pull(end: str) -> tuple[V, ...]:
    """Return the pull in one strand at the tension set, or at one end of its range."""
    within = () if end else ("strand_force_from", "strand_force_to")
    rounding = {"": "nearest", "_from": "up", "_to": "down"}[end]
    return (
        V(
            f"strand_force{end}",
            f"Pull in one strand{end.replace('_', ', ')}",
            band.strand_force,
            "force",
            f"F{end}",
            takes={"target_stress": f"setting_stress{end}"},
            group=TENSION,
            rounding=rounding,
            within=within,
        ),
        V(
            f"wheel_load{end}",
            f"Load on the upper wheel{end.replace('_', ', ')}",
            band.wheel_load,
            "force",
            f"Q{end}",
            takes={"strand_force": f"strand_force{end}"},
            group=TENSION,
            rounding=rounding,
            within=() if end else ("wheel_load_from", "wheel_load_to"),
        ),
    )


SAW = (
    V("loop_length", "Way round the wheels", geometry.loop_length, "blade_length", "L", group=WHEELS, equation=_WAY),
    V(
        "free_span",
        "Free strand between the wheels",
        geometry.free_span,
        "blade_length",
        "S",
        group=WHEELS,
        equation=f"sqrt(centre_distance**2 - ({_HALF})**2)",
    ),
    V(
        "blade_length_shortest",
        "Shortest blade that goes on",
        geometry.blade_length_shortest,
        "blade_length",
        "L_min",
        group=WHEELS,
        rounding="up",
        equation=_WAY.replace("centre_distance", "centre_distance_min") + " + loop_slack",
    ),
    V(
        "blade_length_longest",
        "Longest blade that can be tensioned",
        geometry.blade_length_longest,
        "blade_length",
        "L_max",
        group=WHEELS,
        rounding="down",
        equation=f"({_WAY.replace('centre_distance', 'centre_distance_max')}) / (1 + target_stress / youngs_modulus)",
    ),
    V("rated_length_gap", "Maker's length minus way round", geometry.rated_length_gap, "blade_length", "DeltaL", group=WHEELS),
    V(
        "centre_distance_for_blade",
        "Centre distance for this blade",
        geometry.centre_distance_for_blade,
        "blade_length",
        "C_b",
        group=WHEELS,
    ),
    V("band_speed", "Band speed", band.band_speed, "speed", "v", group=WHEELS),
    V("speed_verdict", "Band speed for wood", formulas.speed_verdict, "word", group=WHEELS),
    V("smaller_wheel", "Smaller wheel", band.smaller_wheel, "wheel_size", "D", group=WHEELS),
    V("wrap_angle_lower", "Wrap of the blade on the lower wheel", formulas.wrap_angle_lower, "angle", "theta_2", group=WHEELS),
    V(
        "thickness_ratio",
        "Wheel diameter over blade thickness",
        band.thickness_ratio,
        "ratio_whole",
        "D/t",
        takes={"wheel_diameter": "smaller_wheel"},
        group=SECTION,
        rounding="down",
    ),
    V(
        "bending_stress",
        "Bending stress on the smaller wheel",
        band.bending_stress,
        "stress",
        "sigma_b",
        takes={"wheel_diameter": "smaller_wheel"},
        group=SECTION,
    ),
    V(
        "thickness_ratio_judged",
        "Wheel diameter over blade thickness, by trade size",
        formulas.thickness_ratio_judged,
        "ratio_whole",
        "D/t_n",
        group=SECTION,
        rounding="down",
    ),
    V(
        "bending_verdict",
        "Thickness for these wheels",
        band.bending_verdict,
        "word",
        group=SECTION,
        takes={"thickness_ratio": "thickness_ratio_judged"},
    ),
    V(
        "gullet",
        "Gullet depth used",
        band.gullet,
        "small_length",
        "g",
        group=SECTION,
        guessed=GUESSED,
        method_doubt=0.12,
        method_when="gullet_depth",
    ),
    V("gullet_basis", "How the gullet depth is known", band.gullet_basis, "word", group=SECTION),
    V("body_width", "Body width", band.body_width, "small_length", "b", group=SECTION),
    V("body_area", "Body area", band.body_area, "area", "A", group=SECTION, method_doubt=0.02),
    V("mass_per_length", "Mass per length", band.mass_per_length, "mass_per_length", "mu", group=SECTION),
    V(
        "published_stress",
        "Tension stress as published, over the full width",
        setting.published_stress,
        "stress",
        "sigma_w",
        group=TENSION,
    ),
    V(
        "target_stress_low",
        "Least tension stress that serves, in the body",
        setting.target_stress_low,
        "stress",
        "sigma_low",
        group=TENSION,
        rounding="up",
    ),
    V(
        "target_stress_high",
        "Highest tension stress, in the body",
        setting.target_stress_high,
        "stress",
        "sigma_high",
        group=TENSION,
        rounding="down",
    ),
    V(
        "target_stress",
        "Tension stress to aim at if the saw allows it, in the body",
        setting.target_stress,
        "stress",
        "sigma_t",
        group=TENSION,
    ),
    V(
        "saw_stress_max",
        "Stress at the saw's largest load",
        setting.stress_at_load,
        "stress",
        "sigma_Q",
        group=TENSION,
        rounding="down",
    ),
    V(
        "blade_stress_max",
        "Highest tension stress for the blade on these wheels",
        setting.blade_stress_max,
        "stress",
        "sigma_max",
        group=TENSION,
        rounding="down",
    ),
    V(
        "setting_stress",
        "Tension stress set",
        setting.setting_stress,
        "stress",
        "sigma",
        group=TENSION,
        within=("setting_stress_from", "setting_stress_to"),
    ),
    V(
        "setting_stress_from",
        "Tension stress set, from",
        setting.setting_stress_from,
        "stress",
        "sigma_from",
        group=TENSION,
        rounding="up",
    ),
    V(
        "setting_stress_to",
        "Tension stress set, to",
        setting.setting_stress_to,
        "stress",
        "sigma_to",
        group=TENSION,
        rounding="down",
    ),
    V("setting_basis", "What the tension set rests on", setting.setting_basis, "word", group=TENSION),
    *_pull(""),
    *_pull("_from"),
    *_pull("_to"),
    V(
        "widest_blade",
        "Widest blade of this thickness that the saw can still tension",
        band.widest_blade,
        "blade_width",
        "w_max",
        takes={"target_stress": "target_stress_low"},
        group=TENSION,
        rounding="down",
    ),
    V("tension_verdict", "Can the saw tension this blade", tension.tension_verdict, "word", group=TENSION),
    *_setting(
        V(
            "setting_stretch",
            "Stretch over {}",
            band.gauge_stretch,
            "stretch",
            "Deltal",
            group=TENSION,
            label_of=("gauge_length", "the gauge length"),
        )
    ),
    *_setting(
        V(
            "setting_push",
            "Push at mid-strand for {}",
            strand.push_aside,
            "push",
            "P_a",
            group=TENSION,
            equation=f"4 * strand_force * push_distance / (free_span * {_GIVES})",
            label_of=("push_distance", "the push distance"),
            method_doubt=_ENDS_HELD,
        )
    ),
    V(
        "held_wheel_share",
        "How much too high the push reads, both wheels held",
        formulas.held_wheel_share,
        "percent",
        "q_h",
        group=TENSION,
    ),
    *_setting(
        V(
            "setting_deflection",
            "Deflection at a push of {}",
            strand.deflection_at_push,
            "gap_wide",
            "delta",
            group=TENSION,
            equation=f"test_push * free_span / (4 * strand_force) * {_GIVES}",
            label_of=("test_push", "the test push"),
            method_doubt=_ENDS_HELD,
        )
    ),
    *_setting(
        V(
            "setting_tone",
            "Tone of the plucked strand",
            vibration.pluck_frequency,
            "frequency",
            "f",
            group=TENSION,
            method_doubt=_ENDS_HELD_TONE,
        )
    ),
    V("pluck_note", "Nearest note", vibration.pluck_note, "word", takes={"pluck_frequency": "setting_tone"}, group=TENSION),
    *_setting(
        V(
            "setting_mark",
            "Mark on the saw's tension scale",
            formulas.scale_setting,
            "scale_mark",
            "M",
            group=TENSION,
            equation="scale_mark_low + (2 * target_stress * body_area - scale_load_low)"
            " * (scale_mark_high - scale_mark_low) / (scale_load_high - scale_load_low)",
            guessed=("scale_basis", "beyond", "above the highest mark that was compared with a load"),
        )
    ),
    V(
        "scale_basis",
        "Is the mark within those compared with a load",
        setting.highest_scale_basis,
        "word",
        group=TENSION,
        takes={"scale_setting": "setting_mark"},
    ),
    V("loop_rate", "Pull per length the loop is stretched", formulas.loop_rate, "spring_rate", "K", group=TENSION),
    V(
        "screw_turns",
        "Turns of the tension screw from just taut",
        formulas.screw_turns,
        "turns",
        "N",
        group=TENSION,
        rounding="down",
    ),
    V(
        "solid_spring_turns",
        "Turns of the tension screw, spring gone solid",
        tension.solid_spring_turns,
        "turns",
        "N_s",
        takes={"target_stress": "setting_stress"},
        group=TENSION,
        rounding="down",
    ),
    V("drive_force", "Force at the teeth at rated power", formulas.drive_force, "force", "F_d", group=TENSION),
    V("stall_force", "Force at the teeth that stalls the motor", formulas.stall_force, "force", "F_st", group=TENSION),
    V(
        "slip_force",
        "Force at the teeth at which the blade slips",
        tension.slip_force,
        "force",
        "F_s",
        takes={"wrap_angle": "wrap_angle_lower", "friction": "tyre_friction"},
        group=TENSION,
        rounding="down",
    ),
    V(
        "grip_over_drive",
        "Slip force over the force at rated power",
        formulas.grip_over_drive,
        "ratio",
        "q_s",
        group=TENSION,
        rounding="down",
    ),
    V(
        "grip_over_stall",
        "Slip force over the force that stalls the motor",
        formulas.grip_over_drive,
        "ratio",
        "q_st",
        takes={"drive_force": "stall_force"},
        group=TENSION,
        rounding="down",
    ),
    V(
        "gullet_line_gullet_school",
        "Gullets behind front rim, gullets centred",
        guides.gullet_line_gullet_school,
        "small_length",
        "x_g",
        group=TRACK,
    ),
    V(
        "gullet_line_blade_school",
        "Gullets behind front rim, blade centred",
        guides.gullet_line_blade_school,
        "small_length",
        "x_b",
        group=TRACK,
    ),
    V(
        "overhang_front_gullet_school",
        "Blade over the front rim, gullets centred",
        guides.overhang_front,
        "small_length",
        "o_fg",
        takes={"gullet_line": "gullet_line_gullet_school"},
        group=TRACK,
        rounding="up",
    ),
    V(
        "overhang_back_gullet_school",
        "Blade over the back rim, gullets centred",
        guides.overhang_back,
        "small_length",
        "o_bg",
        takes={"gullet_line": "gullet_line_gullet_school"},
        group=TRACK,
        rounding="up",
    ),
    V(
        "overhang_front_blade_school",
        "Blade over the front rim, blade centred",
        guides.overhang_front,
        "small_length",
        "o_fb",
        takes={"gullet_line": "gullet_line_blade_school"},
        group=TRACK,
        rounding="up",
    ),
    V(
        "overhang_back_blade_school",
        "Blade over the back rim, blade centred",
        guides.overhang_back,
        "small_length",
        "o_bb",
        takes={"gullet_line": "gullet_line_blade_school"},
        group=TRACK,
        rounding="up",
    ),
    V("coil_diameter", "Diameter of the three loops", bending.coil_diameter, "work_size", "D_c", group="Coiling"),
    V("coil_stress", "Stress in the coil", bending.coil_stress, "stress", "sigma_c", group="Coiling"),
    V(
        "coil_smallest",
        "Smallest bend before it stays bent",
        bending.coil_smallest,
        "work_size",
        "D_y",
        group="Coiling",
        rounding="up",
    ),
    V("coil_verdict", "May this blade be folded in three", bending.coil_verdict, "word", group="Coiling"),
)
