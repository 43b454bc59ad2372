"""The edge of every formula: what it refuses at nothing, below nothing, without a finite number, and just outside its range.

Each formula's own example gives arguments that are inside; one argument at a time is then moved. `edges.txt` says what must
happen at nothing and below. The limits further down are those that each docstring states under "Holds for".
"""

import ast
import doctest
import importlib
import inspect
import math
import pkgutil
from pathlib import Path

import pytest

import sawside.calc
from sawside.calc.limits import OutsideMethod

ROWS = [
    tuple(part.strip() for part in line.split("|"))
    for line in (Path(__file__).parent / "edges.txt").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]
#: Formulas whose answer at infinity is meant: no limit, or every reading counted.
INFINITE = {"margins.margin.ratio", "uncertainty.coverage_factor.degrees", "uncertainty.student_within.degrees"}


def function(dotted: str):
    """Return a formula by `module.name`."""
    module, _, name = dotted.partition(".")
    return getattr(importlib.import_module(f"sawside.calc.{module}"), name)


def example(dotted: str) -> dict:
    """Return the arguments of the first call of a formula in its own examples."""
    formula = function(dotted)
    known = dict(vars(inspect.getmodule(formula)))
    signature = inspect.signature(formula)
    for piece in doctest.DocTestParser().get_examples(inspect.getdoc(formula)):
        for node in ast.walk(ast.parse(piece.source)):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == formula.__name__:
                values = [worked(a, known) for a in node.args]
                return dict(signature.bind(*values, **{k.arg: worked(k.value, known) for k in node.keywords}).arguments)
        exec(piece.source, known)  # our own examples
    raise AssertionError(f"{dotted} has no example that calls it")


def worked(node: ast.expr, known: dict):
    return eval(compile(ast.Expression(node), "example", "eval"), known)  # our own examples


def numbers(arguments: dict) -> dict:
    return {n: v for n, v in arguments.items() if isinstance(v, int | float) and not isinstance(v, bool)}


def refused(dotted: str, arguments: dict, **moved) -> bool:
    """Tell whether a formula refuses its arguments with some of them moved."""
    try:
        function(dotted)(**{**arguments, **moved})
    except OutsideMethod:
        return True
    return False


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_at_nothing_and_below(row):
    dotted, above_zero, zero_or_more, any_number = row
    arguments = example(dotted)
    named = above_zero.split() + zero_or_more.split() + any_number.split()
    assert sorted(named) == sorted(numbers(arguments)), "edges.txt names every number the formula takes"
    for name in named:
        nothing, step = type(arguments[name])(0), (abs(arguments[name]) or 1.0) / 1000
        below = -1 if isinstance(arguments[name], int) else -step
        assert refused(dotted, arguments, **{name: nothing}) == (name in above_zero.split()), f"{name} at nothing"
        assert refused(dotted, arguments, **{name: below}) == (name not in any_number.split()), f"{name} below nothing"


def every_number():
    for info in pkgutil.iter_modules(sawside.calc.__path__):
        module = importlib.import_module(f"sawside.calc.{info.name}")
        for name, formula in inspect.getmembers(module, inspect.isfunction):
            if formula.__module__ == module.__name__ and not name.startswith("_") and info.name != "limits":
                dotted = f"{info.name}.{name}"
                yield from ((dotted, argument) for argument in numbers(example(dotted)))


NUMBERS = list(every_number())


@pytest.mark.parametrize("pair", NUMBERS, ids=".".join)
def test_what_is_no_number_is_refused(pair):
    dotted, argument = pair
    name, arguments = f"{dotted}.{argument}", example(dotted)
    assert refused(dotted, arguments, **{argument: math.nan})
    assert name in INFINITE or refused(dotted, arguments, **{argument: math.inf})


def test_all_formulas_take_part():
    assert len(NUMBERS) > 550 and len(ROWS) > 240


#: Formula, what is moved first, the argument, a value it takes, a value it refuses: each pair lies close round the limit.
LIMITS = [
    ("band.driven_wheel_speed", {}, "belt_slip", 0.999, 1.0),
    ("band.thickness_ratio", {"blade_thickness": 1e-3}, "wheel_diameter", 0.10001, 0.1),
    ("band.bending_verdict", {"thickness_ratio_good": 500}, "thickness_ratio_least", 500, 500.1),
    ("band.body_width", {"blade_width": 0.013}, "gullet", 0.012999, 0.013),
    ("band.mass_per_length", {}, "tooth_zone_share", 1.0, 1.001),
    ("band.wheel_load_at_wrap", {}, "wrap_angle", 2 * math.pi, 2 * math.pi + 1e-9),
    ("band.stress_from_stretch", {"gauge_length": 0.1}, "stretch", 0.00099999, 0.001),
    ("bending.bending_ceiling_factor", {}, "poisson_ratio", 0.4999, 0.5),
    ("bending.bending_width_factor", {}, "blade_width", 2.45, 2.55),
    ("bending.bending_width_factor", {}, "blade_width", 0.9e-4, 0.7e-4),
    ("bending.thickest_blade", {"youngs_modulus": 202e9}, "allowed_stress", 1.9999e9, 2e9),
    ("bending.coil_smallest", {"youngs_modulus": 200e9}, "steel_yield", 3.9999e9, 4e9),
    ("drift.fence_shift", {}, "angle", math.radians(9.999), math.radians(10)),
    ("drift.fence_shift", {}, "angle", -math.radians(9.999), -math.radians(10)),
    ("drift.tracking_share", {"crown_radius": 0.25}, "offset_on_tyre", 0.2499, 0.25),
    ("drift.drift_from_cuts", {}, "angles", [0.01, 0.012, 0.011], [0.01, 0.012]),
    ("fatigue.surface_factor", {}, "steel_strength", 400e6, 399.9e6),
    ("fatigue.surface_factor", {}, "steel_strength", 2500e6, 2500.1e6),
    ("fatigue.endurance_limit", {}, "surface_factor", 1.0, 1.0001),
    ("fatigue.endurance_limit", {}, "reliability_factor", 1.0, 1.0001),
    ("fatigue.goodman_factor", {}, "notch_factor", 1.0, 0.9999),
    ("fatigue.equivalent_reversed_stress", {}, "notch_factor", 1.0, 0.9999),
    ("fatigue.equivalent_reversed_stress", {"steel_strength": 1400e6}, "stress_mean", 1399e6, 1400e6),
    ("fatigue.relative_cycles", {}, "slope", 5, 4.99),
    ("fatigue.relative_cycles", {}, "slope", 10, 10.01),
    ("fatigue.bends_per_hour", {}, "wheels", 2, 1),
    ("feed.gullet_area", {}, "gullet_shape", 1.0, 1.0001),
    ("feed.loose_fill", {}, "swelling", 1.0, 0.9999),
    ("feed.body_gullet_fill", {"blade_thickness": 0.64e-3}, "kerf", 0.64e-3, 0.6399e-3),
    ("feed.scallop_height", {}, "set_angle", math.radians(44.99), math.radians(45)),
    ("feed.speed_ratio", {"speed_low": 5.0}, "speed_high", 5.0, 4.999),
    ("geometry.loop_length", {"wheel_diameter_upper": 0.5, "wheel_diameter_lower": 0.3}, "centre_distance", 0.10001, 0.1),
    ("geometry.centre_distance_for_blade", {"wheel_diameter_upper": 0.35, "wheel_diameter_lower": 0.35, "blade_thickness": 0.0},
     "blade_length", 0.35 * math.pi + 1e-9, 0.35 * math.pi),
    ("geometry.take_up_gain", {}, "wrap_angle", 2 * math.pi, 2 * math.pi + 1e-9),
    ("geometry.take_up_gain", {}, "off_bisector", math.pi / 2, math.pi / 2 + 1e-9),
    ("geometry.take_up_gain", {}, "off_bisector", -math.pi / 2, -math.pi / 2 - 1e-9),
    ("geometry.loop_around_wheels", {}, "wheels", [(0, 0, 0.3), (0, 0.9, 0.3)], [(0, 0, 0.3)]),
    ("guides.guide_yaw", {"side_guide_contact": 8e-3, "blade_thickness": 0.6e-3}, "side_clearance", 3.71e-3, 3.712e-3),
    ("guides.gullet_line_blade_school", {"blade_width": 0.013}, "gullet", 0.01299, 0.013),
    ("guides.overhang_back", {"blade_width": 0.019}, "gullet", 0.01899, 0.019),
    ("guides.widest_on_tyre_gullet_school", {"tyre_width": 0.025}, "gullet", 0.0125, 0.012501),
    ("kerf.kerf_from_pieces", {"piece_widths": [0.02, 0.02]}, "width_before", 0.04001, 0.04),
    ("kerf.kerf_from_pieces", {}, "piece_widths", [0.02, 0.02], [0.02]),
    ("kerf.side_set", {"blade_thickness": 0.65e-3}, "kerf", 0.65e-3, 0.6499e-3),
    ("kerf.boards_keeping_rest", {"rest": 0.006}, "block_width", 0.006, 0.00599),
    ("kerf.sawn_thickness", {}, "shrinkage", 0.4999, 0.5),
    ("other_saws.table_chord", {"blade_diameter": 0.25}, "blade_above_table", 0.2499, 0.25),
    ("other_saws.heel", {}, "angle", math.radians(4.999), math.radians(5)),
    ("other_saws.frame_gap_angle", {}, "corners", 3, 2),
    ("other_saws.bevel_stop_error", {}, "stop_error", math.radians(44.99), math.radians(45)),
    ("other_saws.knife_side_play", {"body_thickness": 2e-3, "kerf": 3e-3}, "knife_thickness", 2.999e-3, 3e-3),
    ("other_saws.knife_side_play", {"body_thickness": 2e-3, "kerf": 3e-3}, "knife_thickness", 2.001e-3, 2e-3),
    ("pitch.tube_area", {"outer_diameter": 4.0}, "inner_diameter", 3.999, 4.0),
    ("pitch.height_on_tilted_table", {}, "table_tilt", math.radians(59.99), math.radians(60)),
    ("pitch.height_splits", {"work_height_min": 0.05}, "work_height_max", 0.05, 0.0499),
    ("pitch.pitch_compromise", {"teeth_least": 3}, "teeth_most", 3.001, 3),
    ("power.cutting_energy", {}, "bite", 10e-6, 9.99e-6),
    ("power.net_power", {"motor_power": 750.0}, "idle_power", 749.9, 750.0),
    ("power.net_power", {}, "drive_efficiency", 1.0, 1.0001),
    ("power.constants_from_two_cuts", {"bite_fine": 20e-6, "energy_fine": 70e6, "energy_coarse": 70e6}, "bite_coarse", 20.1e-6, 20e-6),
    ("power.constants_from_two_cuts", {"energy_coarse": 70e6}, "energy_fine", 70e6, 69.9e6),
    ("power.constants_from_two_cuts", {"bite_fine": 20e-6, "bite_coarse": 40e-6, "energy_coarse": 50e6}, "energy_fine", 99e6, 100e6),
    ("power.governing_limit", {}, "limits", {"gullet": 0.0}, {"gullet": -1e-9}),
    ("power.governing_limit", {}, "limits", {"gullet": 0.1}, {}),
    ("radius.radius_fit", {}, "blade_width", 3e-3, 2.99e-3),
    ("radius.radius_fit", {}, "blade_width", 32e-3, 32.01e-3),
    ("radius.minimum_radius_basis", {"blade_thickness": 0.65e-3}, "kerf", 0.651e-3, 0.65e-3),
    ("radius.widest_for_radius", {}, "radius", 3.55e-3, 3.53e-3),
    ("radius.finished_radii", {"radius": 0.05}, "kerf", 0.0999, 0.1),
    ("radius.radius_steered", {"blade_width": 0.013, "blade_thickness": 0.65e-3}, "kerf", 0.651e-3, 0.65e-3),
    ("radius.radius_steered", {"blade_thickness": 0.65e-3, "kerf": 1.1e-3}, "blade_width", 1.1e-3, 1.0999e-3),
    ("radius.widest_for_radius_and_kerf", {"blade_thickness": 0.65e-3, "kerf": 1.1e-3}, "radius", 1.2e-3, 0.2e-3),
    ("records.individuals_limits", {}, "readings", [1.0, 1.1], [1.0]),
    ("records.weighted_means", {}, "weight", 1.0, 1.0001),
    ("records.weighted_limit", {}, "weight", 1.0, 1.0001),
    ("records.staircase_interval", {"shortest": 10.0, "interval": 10.0}, "longest", 10.0, 9.99),
    ("square.board_error_from_fence_face", {}, "face_tilt", math.radians(44.99), math.radians(45)),
    ("square.sag_slope", {"span": 0.4}, "sag", 0.0399, 0.04),
    ("stiffness.torsion_constant", {"body_width": 1e-3}, "blade_thickness", 1e-3, 1.001e-3),
    ("stiffness.twist_rigidity", {}, "poisson_ratio", 0.4999, 0.5),
    ("stiffness.edge_slack_spread", {"guide_span": 0.15}, "work_height", 0.15, 0.1501),
    ("stiffness.buckling_load", {"body_width": 10e-3}, "guide_span", 0.08, 0.0799),
    ("stiffness.stiffness_left_floor", {"buckling_load": 100.0}, "feed_force", 100.0, 100.1),
    ("strand.effective_span", {"strand_force": 100.0, "flexural_rigidity": 0.01}, "span", 0.1600001, 0.1599),
    ("strand.push_for_deflection", {"span": 0.6}, "deflection", 0.03, 0.03001),
    ("strand.push_aside", {}, "free_span", 0.1, 0.0999),
    ("testcut.reading_height", {}, "cutting_height_max", 30e-3, 29.9e-3),
    ("setting.setting_stress", {}, "saw_stress_max", 70e6, 69.9e6),
    ("setting.setting_stress_to", {}, "saw_stress_max", 134e6, 133.9e6),
    ("setting.target_stress", {}, "body_width", 13e-3, 13.01e-3),
    ("strand.force_from_deflection", {"span": 0.6, "push": 30.0}, "deflection", 0.02999, 0.03),
    ("strand.deflection_at_push", {}, "test_push", 137.7, 137.9),
    ("records.wander", {"days": [0.0, 1.0]}, "errors", [0.0, 0.1], [0.0, 0.1, 0.2]),
    ("records.wander", {"errors": [0.0, 0.1]}, "days", [0.0, 1e-6], [0.0, 0.0]),
    ("records.wander", {"errors": [0.0, 0.1, 0.0]}, "days", [0.0, 1.0, 2.0], [0.0, 2.0, 1.0]),
    ("tables.metal_band_speed", {}, "dry_share", 0.3, 0.2999),
    ("tables.metal_band_speed", {}, "dry_share", 0.5, 0.5001),
    ("tables.metal_band_speed", {}, "work_height", 0.25 * 0.0254 * 1.009, 0.25 * 0.0254 * 1.011),
    ("tables.published_radius", {}, "blade_width", 0.5 * 0.0254 * 1.009, 0.5 * 0.0254 * 1.011),
    ("tables.strength_at_moisture", {"moisture": 12.0}, "intersection_moisture", 12.01, 12.0),
    ("tables.strength_at_moisture", {"intersection_moisture": 24.0}, "moisture", 24.0, 24.01),
    ("tables.square_error_limit", {}, "square_length", 0.04, 0.0399),
    ("tables.square_error_limit", {}, "square_length", 1.0, 1.001),
    ("tables.plate_flatness_limit", {}, "plate_length", 0.1, 0.0999),
    ("tables.plate_flatness_limit", {}, "plate_length", 2.5, 2.501),
    ("tables.noise_time", {}, "sound_level", 80, 79.9),
    ("tables.noise_time", {}, "sound_level", 115, 115.1),
    ("tension.load_from_strain", {}, "strain", 0.00999, 0.01),
    ("tension.fit_scale", {"wheel_loads": [1.0, 2.0]}, "readings", [1.0, 2.0], [1.0, 1.0]),
    ("tension.fit_scale", {"readings": [1.0, 2.0]}, "wheel_loads", [1.0, 1.1], [1.0, 1.0]),
    ("tension.fit_scale", {"readings": [1.0, 2.0]}, "wheel_loads", [1.0, 1.1], [1.0, 1.1, 1.2]),
    ("tension.fit_scale", {}, "readings", [1.0, 2.0, 3.0], []),
    ("testcut.height_needed", {}, "guard_share", 0.999, 1.0),
    ("testcut.stop_bolt_turns", {}, "tilt", math.radians(9.999), math.radians(10)),
    ("uncertainty.spread", {}, "readings", [1.0, 1.1], [1.0]),
    ("uncertainty.mean", {}, "readings", [1.0], []),
    ("uncertainty.effective_degrees", {"parts": [1.0]}, "degrees", [0.1], [0.0]),
    ("uncertainty.effective_degrees", {"parts": [1.0]}, "degrees", [3], [3, 4]),
    ("uncertainty.coverage_factor", {}, "probability", 0.999999, 1.0),
    ("uncertainty.coverage_factor", {}, "degrees", 1, 0.99),
    ("uncertainty.line_fit", {"y": [1.0, 2.0, 3.0]}, "x", [0, 1, 3], [2, 2, 2]),
    ("uncertainty.line_fit", {"y": [1.0, 2.0, 3.0]}, "x", [0, 1, 3], [0, 1]),
    ("vibration.pluck_note", {}, "pluck_frequency", 8.0, 7.99),
    ("vibration.pluck_note", {}, "pluck_frequency", 12544.0, 12544.1),
    ("vibration.running_frequency", {"wave_speed": 100.0}, "band_speed", 99.9, 100.0),
    ("vibration.running_strand_force", {"loop_compliance": 4e-5}, "tensioner_give", 1e-5, 1.001e-5),
    ("vibration.nearest_harmonic", {}, "most", 1, 0),
    ("wheels.tilt_lead", {}, "wheel_tilt", math.radians(5), math.radians(5.001)),
    ("wheels.crown_radius", {"half_width": 0.0125}, "crown_height", 0.0125, 0.012501),
    ("wheels.crown_stress", {"blade_length": 2.6}, "radius_difference", 0.002599, 0.002601),
    ("wheels.crown_stress", {"blade_length": 2.6}, "radius_difference", -0.002599, -0.002601),
    ("wheels.thermal_strain", {}, "warming", 300, 300.1),
    ("wheels.thermal_strain", {}, "warming", -300, -300.1),
    ("wheels.heat_stress", {}, "blade_strain", 0.004, 0.004001),
    ("wheels.heat_stress", {}, "frame_strain", -0.004, -0.004001),
    ("wheels.heat_stress", {}, "wheel_strain", 0.004, 0.004001),
    ("wheels.wheel_plane", {}, "readings", [(0, 0, 0), (1, 0, 0), (0, 1, 0)], [(0, 0, 0), (1, 0, 0)]),
    ("wheels.wheel_plane", {}, "readings", [(0, 0, 0), (1, 0, 0), (0, 1, 0)], [(0, 0, 0), (1, 0, 0), (2, 0.001, 0)]),
    ("wheels.eccentricity_from_dial", {}, "readings", [0, 0, 1, 0, 0], [0, 0, 1, 0]),
]  # fmt: skip


@pytest.mark.parametrize("case", LIMITS, ids=lambda case: f"{case[0]}.{case[2]}.{case[4]!s:.12}")
def test_just_inside_and_just_outside(case):
    dotted, first, name, inside, outside = case
    arguments = {**example(dotted), **first}
    assert not refused(dotted, arguments, **{name: inside}), f"{name} = {inside} lies inside"
    assert refused(dotted, arguments, **{name: outside}), f"{name} = {outside} lies outside"


def test_wheels_closer_than_their_radii_are_no_nested_wheels():
    from sawside.calc.geometry import loop_around_wheels, loop_length

    near = loop_around_wheels([(0.0, 0.0, 0.35), (0.2, 0.0, 0.30)], 0.0)
    assert near.length == pytest.approx(loop_length(0.35, 0.30, 0.2, 0.0), rel=1e-12)
    with pytest.raises(OutsideMethod, match="distance between wheels"):
        loop_around_wheels([(0.0, 0.0, 0.35), (0.02, 0.0, 0.30)], 0.0)


def test_tension_verdict_steps_at_its_limits():
    from sawside.calc.tension import tension_verdict

    high, low, blade = 105e6, 70e6, 180e6
    assert tension_verdict(high, low, blade, 1.1 * high) == "reached"
    assert tension_verdict(high, low, blade, 1.1 * high * 0.9999) == "low_end_only"
    assert tension_verdict(high, low, blade, low) == "low_end_only"
    assert tension_verdict(high, low, blade, low * 0.9999) == "not_reached"
    assert tension_verdict(high, low, low * 0.9999) == "not_reached" and tension_verdict(high, low, low) == "limit_not_known"
    assert tension_verdict(low, low, blade, 1.1 * low) == "reached"
    for bad in (
        (0.0, low, blade, 1.0),
        (high, 0.0, blade, 1.0),
        (high, low, 0.0, 1.0),
        (high, low, blade, 0.0),
        (low, high, blade, 1.0),
    ):
        with pytest.raises(OutsideMethod):
            tension_verdict(*bad)


def test_equal_within_rounding_counts_as_reached_and_no_more():
    from sawside.calc import choice, pitch
    from sawside.calc.margins import Margin

    p = 25.4e-3 / 6
    assert pitch.pitch_fits(p, p, p / 2) and pitch.pitch_fits(p, 2 * p, p)
    assert not pitch.pitch_fits(p * (1 + 1e-6), p, p / 2) and not pitch.pitch_fits(p * (1 - 1e-6), 2 * p, p)
    assert pitch.teeth_enough(3.0, 3.0) and not pitch.teeth_enough(3.0 * (1 - 1e-6), 3.0)
    assert pitch.pitch_range_words(p, p) == "one pitch serves the whole range"
    assert pitch.pitch_range_words(p, p * (1 + 1e-6)) == "no single pitch serves the whole range"
    # Heights whose ratio is exactly the one that a blade covers need one blade, a hair more needs two.
    assert pitch.blades_for_heights(10e-3, 80e-3, 3, 24) == 1 and pitch.blades_for_heights(10e-3, 80.001e-3, 3, 24) == 2
    assert Margin("x", 1.0, "").met and not Margin("x", 1 - 1e-6, "").met
    same = choice.wanted(10e-3, 10e-3, 0.35, 400, 24e-3, 24e-3 * 8, 3, 24, ())
    assert same.conflict == ""
    assert choice.wanted(10.0001e-3, 10e-3, 0.35, 400, 24e-3, 24e-3, 3, 24, ()).conflict.startswith("the curve or the saw")
    assert choice.wanted(9e-3, 10e-3, 0.35, 400, 24e-3, 24.01e-3 * 8, 3, 24, ()).conflict.startswith("the heights differ")


#: Refusals that name a computed limit: formula, what is moved first, the argument, a value outside, the limit they must name.
NAMED = [
    ("guides.guide_yaw", {"side_guide_contact": 8e-3, "blade_thickness": 0.6e-3}, "side_clearance", 4e-3,
     (math.hypot(8e-3, 0.6e-3) - 0.6e-3) / 2),
    ("strand.effective_span", {"strand_force": 100.0, "flexural_rigidity": 0.01}, "span", 0.1, 0.16),
    ("strand.push_for_deflection", {"span": 0.6}, "deflection", 0.1, 0.03),
    ("strand.deflection_at_push", {"free_span": 0.6}, "test_push", 200.0, 0.03),
    ("strand.force_from_deflection", {"span": 0.6, "push": 30.0, "flexural_rigidity": 0.05}, "deflection", 0.05, 0.03),
    ("strand.force_from_deflection", {"span": 0.6, "push": 1.0, "flexural_rigidity": 0.05}, "deflection", 0.05,
     0.6**3 / (192 * 0.05)),
    ("stiffness.buckling_load", {"body_width": 10e-3}, "guide_span", 0.05, 0.08),
    ("geometry.loop_length", {"wheel_diameter_upper": 0.5, "wheel_diameter_lower": 0.3}, "centre_distance", 0.05, 0.1),
    ("geometry.centre_distance_for_blade", {"wheel_diameter_upper": 0.35, "wheel_diameter_lower": 0.30, "blade_thickness": 1e-3},
     "blade_length", 1.0, math.pi * 0.351),
    ("tension.scale_reading", {"target_stress": 100e6, "body_area": 6.5e-6}, "fit", (100.0, 300.0, None, 1.0, 2.0), 2.2),
    ("wheels.run_out_stress_with_slide_mass", {"spring_rate": 60e3, "blade_rate": 40e3, "slide_mass": 10.0}, "wheel_speed", 50.0,
     0.8 * 100 / (2 * math.pi)),
]  # fmt: skip


@pytest.mark.parametrize("case", NAMED, ids=lambda case: f"{case[0]}.{case[2]}")
def test_a_refusal_names_the_limit(case):
    dotted, first, name, outside, limit = case
    with pytest.raises(OutsideMethod) as refusal:
        function(dotted)(**{**example(dotted), **first, name: outside})
    assert f"{limit:g}" in refusal.value.must_be


def test_one_error_alone_does_not_wander():
    with pytest.raises(OutsideMethod):
        function("records.wander")([0.0], [0.1], 0.0)


def test_deviation_of_a_chart_is_the_mean_range_over_d2():
    # d2 = 1.128 for ranges of two readings (ISO 7870-2, from memory; NIST handbook 6.3.2.2).
    readings = [49.6, 47.6, 49.9, 51.3, 47.8]
    ranges = [abs(b - a) for a, b in zip(readings, readings[1:])]
    found = function("records.individuals_limits")(readings)
    assert found.deviation == pytest.approx(sum(ranges) / len(ranges) / 1.128, rel=1e-3)


def test_push_of_a_limp_blade_held_at_both_wheels_is_that_of_two_bars():
    # Without stiffness the strand is two straight bars: pull F + E A times their strain, twice its part across.
    span, deflection, pull, stretch = 0.6, 0.03, 650.0, 205e9 * 6.5e-6
    half = math.hypot(span / 2, deflection)
    exact = 2 * (pull + stretch * (half - span / 2) / (span / 2)) * deflection / half
    found = function("strand.stiffened_push")(deflection, span, pull, 1e-9, span / stretch)
    assert found == pytest.approx(exact, rel=3e-3)


def test_published_radii_are_those_of_the_three_tables():
    # Minimum radius by width, in inches, written down again from the three tables (read); least and greatest of each.
    from sawside.calc.tables import published_radius

    for width, least, most in ((1 / 8, 1 / 8, 3 / 16), (3 / 16, 5 / 16, 3 / 8), (1 / 4, 5 / 8, 5 / 8), (3 / 8, 5 / 4, 3 / 2),
                               (1 / 2, 5 / 2, 5 / 2), (5 / 8, 15 / 4, 4), (3 / 4, 11 / 2, 11 / 2), (1, 7, 61 / 8),
                               (5 / 4, 79 / 8, 79 / 8)):  # fmt: skip
        assert [r / 0.0254 for r in published_radius(width * 0.0254)] == pytest.approx([least, most], rel=1e-12)


def test_small_steps_that_a_changed_sign_would_miss():
    from sawside.calc import decision, records, strand, tension, vibration

    assert decision.verdict(0.0, 1.0, decision.GUARD) == decision.TOO_COARSE and set(records.RULE_WORDS) == {1, 2, 3, 4}
    # A blade that hardly pulls: half a newton comes back from its own tone and from its own deflection.
    tone = vibration.clamped_frequency(0.6, 0.5, 0.05, 0.05)
    assert vibration.force_from_frequency(tone, 0.6, 0.05, 0.05) == pytest.approx(0.5, rel=1e-6)
    moved = strand.clamped_deflection(0.5, 0.6, 0.5, 0.05)
    assert strand.force_from_deflection(0.5, moved, 0.6, 0.05) == pytest.approx(0.5, rel=1e-6)
    # A fifth of the readings' range beyond both ends, and no further.
    fit, area = tension.ScaleFit(100.0, 300.0, None, 3.0, 4.0), 6.5e-6
    for mark, inside in ((2.801, True), (2.799, False), (4.199, True), (4.201, False)):
        stress = (300.0 * mark + 100.0) / 2 / area
        if inside:
            assert tension.scale_reading(fit, stress, area) == pytest.approx(mark)
        else:
            with pytest.raises(OutsideMethod):
                tension.scale_reading(fit, stress, area)


def test_staircase_of_intervals():
    # The three factors are Sawside's own choice: longer by half after a pass, 0.7 when it cannot tell, half after a fault.
    from sawside.calc.records import staircase_interval

    words = ("accept", "cannot tell", "instrument too coarse", "adjust")
    assert [staircase_interval(40, word, 7, 180) for word in words] == [60.0, 28.0, 28.0, 20.0]
    assert staircase_interval(150, "accept", 7, 180) == 180 and staircase_interval(10, "adjust", 7, 180) == 7
    with pytest.raises(OutsideMethod):
        staircase_interval(40, "perhaps", 7, 180)


def test_a_line_through_readings_close_together_is_still_a_line():
    # The spread of x is what must not be nothing, however small it is.
    line = function("uncertainty.line_fit")([0.0, 0.1, 0.2], [1.0, 1.2, 1.4])
    assert line.slope == pytest.approx(2.0) and line.start == pytest.approx(1.0)
