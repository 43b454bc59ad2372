"""Pitch, radius, gullets, power, kerf and the printed tables against other ways to the same numbers.

Counting, drawing (shapely), searching, root finding (scipy), random trials (numpy) and the printed tables themselves.
"""

import math
from pathlib import Path

import numpy as np
import pint
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize
from shapely import affinity

from sawside.calc import feed, kerf, pitch, power, radius, tables
from sawside.calc.limits import OutsideMethod

# A busy machine must not fail a test by being slow, and every run tries the same examples.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")

INCH = 25.4e-3
UNITS = pint.UnitRegistry()

# --- What is checked where ------------------------------------------------------------------------------------------

#: Formula -> the test that computes it another way.
ORACLES = {
    "sawside.calc.pitch.teeth_in_work_least": "test_teeth_are_counted",
    "sawside.calc.pitch.teeth_in_work_most": "test_teeth_are_counted",
    "sawside.calc.pitch.pitch_fits": "test_pitch_range_by_scanning",
    "sawside.calc.pitch.pitch_range_words": "test_pitch_range_by_scanning",
    "sawside.calc.pitch.blades_for_heights": "test_blades_for_heights_by_stepping",
    "sawside.calc.pitch.height_splits": "test_blades_for_heights_by_stepping",
    "sawside.calc.pitch.backing_needed": "test_backing_brings_the_count_up",
    "sawside.calc.pitch.height_on_tilted_table": "test_tilted_table_drawn",
    "sawside.calc.radius.steering_angle": "test_steered_pose_by_search",
    "sawside.calc.radius.minimum_radius": "test_steered_radius_is_just_feasible",
    "sawside.calc.radius.widest_for_radius_and_kerf": "test_widest_blade_turns_the_radius_round",
    "sawside.calc.radius.finished_radii": "test_finished_edges_drawn",
    "sawside.calc.feed.feed_at_bite": "test_bite_counted_tooth_by_tooth",
    "sawside.calc.feed.gullet_fill": "test_gullet_fill_does_not_know_the_pitch",
    "sawside.calc.feed.tooth_mark_spacing": "test_scallops_drawn",
    "sawside.calc.feed.scallop_height": "test_scallops_drawn",
    "sawside.calc.feed.event_length_from_marks": "test_marks_counted",
    "sawside.calc.feed.vibration_frequency": "test_marks_counted",
    "sawside.calc.feed.mark_slope": "test_marks_counted",
    "sawside.calc.power.cutting_energy": "test_power_summed_over_teeth",
    "sawside.calc.power.cutting_power": "test_power_summed_over_teeth",
    "sawside.calc.power.main_force": "test_faster_band_pulls_less",
    "sawside.calc.power.energy_from_timed_cut": "test_timed_cuts_give_the_constants_back",
    "sawside.calc.power.constants_from_two_cuts": "test_timed_cuts_give_the_constants_back",
    "sawside.calc.power.governing_limit": "test_governing_limit_is_the_least",
    "sawside.calc.kerf.kerf_from_pieces": "test_kerf_of_simulated_cuts",
    "sawside.calc.kerf.kerf_doubt": "test_kerf_of_simulated_cuts",
    "sawside.calc.kerf.set_offset": "test_uneven_set_drawn",
    "sawside.calc.kerf.side_set": "test_uneven_set_drawn",
    "sawside.calc.kerf.boards_keeping_rest": "test_boards_cut_one_by_one",
    "sawside.calc.kerf.boards_using_all": "test_boards_cut_one_by_one",
    "sawside.calc.kerf.sawn_thickness": "test_sawn_thickness_leaves_few_thin_boards",
    "sawside.calc.tables.published_radius": "test_radius_tables_bracket_the_fit",
    "sawside.calc.tables.species": "test_hardness_in_two_printed_units",
    "sawside.calc.uncertainty.mean": "test_type_a_against_numpy",
    "sawside.calc.uncertainty.spread": "test_type_a_against_numpy",
    "sawside.calc.uncertainty.mean_doubt": "test_type_a_against_numpy",
    "sawside.calc.uncertainty.student_within": "test_student_against_scipy",
    "sawside.calc.uncertainty.normal_below": "test_student_against_scipy",
    "sawside.calc.uncertainty.line_fit": "test_thermometer_of_the_guide",
    "sawside.calc.uncertainty.line_at": "test_thermometer_of_the_guide",
    "sawside.calc.testcut.tilt_doubt": "test_corner_doubts_by_uncertainties",
    "sawside.calc.testcut.turned_cut_doubt": "test_corner_doubts_by_uncertainties",
    "sawside.calc.testcut.twist_matters": "test_twist_alarm_rate",
    "sawside.calc.testcut.turned_cut_tilt": "test_turned_cut_on_drawn_sections",
    "sawside.calc.testcut.probability_within": "test_verdict_risks",
    "sawside.calc.decision.decision_limits": "test_decision_limits_by_the_normal_distribution",
    "sawside.calc.testcut.smallest_error_seen": "test_verdict_risks",
    "sawside.calc.testcut.stop_bolt_turns": "test_stop_bolt_moves_the_table",
    "sawside.calc.testcut.drift_path": "test_drift_path_integrated",
    "sawside.calc.drift.drift_doubt": "test_drift_doubt_by_trials",
    "sawside.calc.drift.drift_from_cuts": "test_drift_interval_against_scipy",
    "sawside.calc.drift.drift_advice": "test_drift_advice_order",
    "sawside.calc.drift.tracking_share": "test_crown_slope_drawn",
    "sawside.calc.drift.straightedge_doubt": "test_straightedge_by_trials",
    "sawside.calc.drift.tooth_touch_error": "test_straightedge_by_trials",
    "sawside.calc.square.square_doubt": "test_squares_by_trials",
    "sawside.calc.square.angle_gauge_doubt": "test_gauge_by_rounded_readings",
    "sawside.calc.square.reversed_square_error": "test_reversed_square_drawn",
    "sawside.calc.square.board_error_from_fence_face": "test_leaning_fence_drawn",
    "sawside.calc.square.sag_slope": "test_sag_on_an_arc",
    "sawside.calc.records.individuals_limits": "test_individuals_of_the_handbook",
    "sawside.calc.records.rules_hit": "test_run_lengths_of_the_zone_rules",
    "sawside.calc.records.days_by_trend": "test_trend_against_scipy",
    "sawside.calc.records.wander": "test_wander_recovered",
    "sawside.calc.other_saws.slot_angle": "test_mitre_arithmetic_drawn",
    "sawside.calc.other_saws.heel": "test_mitre_arithmetic_drawn",
    "sawside.calc.other_saws.rim_run_out": "test_mitre_arithmetic_drawn",
    "sawside.calc.other_saws.five_cut_doubt": "test_five_cuts_on_a_polygon",
    "sawside.calc.other_saws.flip_error": "test_flipped_pieces_drawn",
    "sawside.calc.other_saws.frame_gap_angle": "test_frame_fails_to_close",
    "sawside.calc.other_saws.bevel_stop_error": "test_mitre_arithmetic_drawn",
    "sawside.calc.other_saws.circular_bite": "test_circular_chip_integrated",
    "sawside.calc.other_saws.circular_mean_chip": "test_circular_chip_integrated",
    "sawside.calc.choice.rank": "test_workshop_rankings",
    "sawside.calc.choice.beats": "test_beaten_by_is_plain_dominance",
    "sawside.calc.choice.fewest_blades": "test_fewest_blades_by_brute_force",
    "sawside.calc.choice.wanted": "test_wanted_blade_meets_the_criteria",
}

#: Formula -> why no number outside this project exists, and the test of its properties.
NO_PUBLISHED_EXAMPLE = {
    "sawside.calc.pitch.teeth_per_inch": "a definition; test_points_are_not_teeth",
    "sawside.calc.pitch.points_per_inch": "a custom without a source; test_points_are_not_teeth",
    "sawside.calc.radius.minimum_radius_basis": "words; test_radius_basis_follows_the_kerf",
    "sawside.calc.feed.body_gullet_fill": "a ratio of two widths; test_gullet_fill_does_not_know_the_pitch",
    "sawside.calc.feed.speed_ratio": "a definition; test_speed_ratio_is_one_inside",
    "sawside.calc.power.net_power": "a definition; test_timed_cuts_give_the_constants_back",
    "sawside.calc.power.governing_words": "words; test_governing_limit_is_the_least",
    "sawside.calc.records.staircase_interval": "factors are assumed; test_staircase_stays_between_its_ends",
    "sawside.calc.records.next_check": "a minimum; test_next_check_is_the_earliest",
    "sawside.calc.other_saws.knife_side_play": "an inequality; test_riving_knife_between_body_and_kerf",
    "sawside.calc.choice.backs_for": "trade custom; test_backs_are_known_words",
    "sawside.calc.margins.margin": "words; test_margin_words",
    "sawside.calc.margins.teeth_least_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.teeth_most_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.radius_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.feed_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.finish_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.width_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.bend_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.tension_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
    "sawside.calc.margins.beam_ratio": "a ratio; test_margins_agree_with_the_plain_comparison",
}

HERE = Path(__file__).parent
FILES = ("test_cutting_oracles.py", "test_metrology_oracles.py", "test_choice.py")


def test_every_test_named_above_exists():
    text = "\n".join((HERE / name).read_text(encoding="utf-8") for name in FILES)
    named = set(ORACLES.values()) | {reason.rsplit("; ", 1)[1] for reason in NO_PUBLISHED_EXAMPLE.values()}
    assert [name for name in sorted(named) if f"def {name}(" not in text] == []


# --- Pitch ----------------------------------------------------------------------------------------------------------


def count_teeth(height, tooth_pitch, phases=20_000):
    """Mean number of teeth at 0, p, 2p ... inside a height, over evenly spread positions of the blade."""
    shift = (np.arange(phases) + 0.5) / phases * tooth_pitch
    return float(np.mean(np.floor((height - shift) / tooth_pitch) + 1))


@pytest.mark.parametrize("height, tpi", [(19e-3, 6), (150e-3, 6), (12e-3, 14), (3e-3, 32), (75e-3, 3)])
def test_teeth_are_counted(height, tpi):
    counted = count_teeth(height, INCH / tpi)
    assert pitch.teeth_in_work_least(height, INCH / tpi) == pytest.approx(counted, rel=1e-3)
    assert pitch.teeth_in_work_most(height, INCH / tpi) == pytest.approx(counted, rel=1e-3)


@pytest.mark.parametrize("low, high", [(19e-3, 19e-3), (18e-3, 75e-3), (150e-3, 150e-3), (12e-3, 150e-3)])
def test_pitch_range_by_scanning(low, high):
    coarse, fine = pitch.pitch_coarsest(low, 3), pitch.pitch_finest(high, 24)
    scan = np.arange(0.3, 40, 0.01)
    allowed = [n for n in scan if low * n / INCH >= 3 and high * n / INCH <= 24]
    if not allowed:
        assert pitch.pitch_range_words(coarse, fine) == "no single pitch serves the whole range"
        assert not any(pitch.pitch_fits(INCH / n, coarse, fine) for n in scan)
        return
    assert pitch.pitch_range_words(coarse, fine) == "one pitch serves the whole range"
    assert INCH / coarse == pytest.approx(min(allowed), abs=0.0101)
    assert INCH / fine == pytest.approx(max(allowed), abs=0.0101)
    assert all(pitch.pitch_fits(INCH / n, coarse, fine) for n in allowed)


def test_compromise_by_minimax_search():
    def worst(n):
        return max(3 / (12e-3 * n / INCH), 150e-3 * n / INCH / 24)

    best = optimize.minimize_scalar(worst, bounds=(1, 30), method="bounded", options={"xatol": 1e-9}).x
    assert INCH / pitch.pitch_compromise(12e-3, 150e-3, 3, 24) == pytest.approx(best, rel=1e-6)


@given(low=st.floats(1e-3, 0.2), ratio=st.floats(1.0, 300.0))
def test_blades_for_heights_by_stepping(low, ratio):
    high, reach, blades = low * ratio, low * 8, 1
    while reach < high * (1 - 1e-8):  # each blade reaches from where it has 3 teeth to where it has 24
        reach, blades = reach * 8, blades + 1
    assert pitch.blades_for_heights(low, high, 3, 24) == blades
    ends = (low, *pitch.height_splits(low, high, blades), high)
    assert all(b / a <= 8 * (1 + 1e-9) for a, b in zip(ends, ends[1:]))


def test_three_to_one_hundred_and_fifty_millimetres_split_at_21():
    assert pitch.height_splits(3e-3, 150e-3, 2) == pytest.approx((21.2e-3,), abs=0.05e-3)


@given(count=st.integers(1, 40), tpi=st.integers(1, 32))
def test_whole_teeth_are_never_lost_to_rounding(count, tpi):
    for height in (count * INCH / tpi, count * (INCH / tpi), count / tpi * INCH):
        assert pitch.teeth_enough(pitch.teeth_in_work(height, INCH / tpi), count)
    assert not pitch.teeth_enough(pitch.teeth_in_work(0.999 * count * INCH / tpi, INCH / tpi), count)


def test_the_trap_is_real():
    assert 3 * 25.4 / 25.4 < 3 and pitch.teeth_enough(3 * 25.4 / 25.4, 3)


@given(height=st.floats(1e-3, 20e-3), tpi=st.integers(2, 24))
def test_backing_brings_the_count_up(height, tpi):
    backing = pitch.backing_needed(height, INCH / tpi, 3)
    assert pitch.teeth_enough((height + backing) / (INCH / tpi), 3)
    if backing:
        assert not pitch.teeth_enough((height + 0.99 * backing) / (INCH / tpi), 3 - 1e-12)


def test_points_are_not_teeth():
    # Common public mistake: to read points per inch as teeth per inch counts a third too many at 4 points.
    three_teeth = INCH / 3
    assert pitch.teeth_per_inch(three_teeth) == pytest.approx(3)
    assert pitch.points_per_inch(three_teeth) == pytest.approx(4)
    assert pitch.teeth_in_work(INCH, three_teeth) < 4 * 0.99


def test_mean_width_of_a_drawn_tube():
    tube = shapely.Point(0, 0).buffer(2, quad_segs=400).difference(shapely.Point(0, 0).buffer(1.5, quad_segs=400))
    chords = [tube.intersection(shapely.LineString([(x, -3), (x, 3)])).length for x in np.linspace(-2, 2, 4001)]
    assert pitch.tube_area(4, 3) == pytest.approx(tube.area, rel=1e-4)
    assert pitch.mean_width(pitch.tube_area(4, 3), 4) == pytest.approx(np.trapezoid(chords, dx=4 / 4000) / 4, rel=1e-3)


def test_tilted_table_drawn():
    board = affinity.rotate(shapely.box(-200, 0, 200, 20), 37, origin=(0, 0))
    assert pitch.height_on_tilted_table(20, math.radians(37)) == pytest.approx(
        board.intersection(shapely.LineString([(0, -99), (0, 99)])).length
    )


# --- Radius ---------------------------------------------------------------------------------------------------------


def body_fits(width, thickness, cut, middle, behind):
    """Whether the body stays inside the ring its own front teeth cut, tips at x = 0, centre at (-behind, aside)."""
    aside = math.sqrt(middle**2 - behind**2)
    outer, inner = math.hypot(behind, aside + cut / 2), math.hypot(behind, aside - cut / 2)
    x = np.linspace(-width, 0, 801)
    near = np.hypot(x + behind, aside - thickness / 2)
    far = np.hypot(x + behind, aside + thickness / 2)
    return near.min() >= inner * (1 - 1e-12) and far.max() <= outer * (1 + 1e-12)


BANDS = [(w * INCH, 0.025 * INCH, 0.043 * INCH) for w in (1 / 8, 1 / 4, 3 / 8, 1 / 2, 3 / 4, 1.0)] + [
    (12.7e-3, 0.65e-3, 0.95e-3),
    (12.7e-3, 0.65e-3, 1.25e-3),
    (20e-3, 0.8e-3, 1.5e-3),
]


@pytest.mark.parametrize("width, thickness, cut", BANDS)
def test_steered_radius_is_just_feasible(width, thickness, cut):
    limit = radius.minimum_radius(width, thickness, cut)
    assert limit == radius.radius_steered(width, thickness, cut)

    def any_pose(middle):
        return any(body_fits(width, thickness, cut, middle, e) for e in np.linspace(0, min(width, middle), 1201))

    assert any_pose(limit * 1.01)
    assert not any_pose(limit * 0.97)


@pytest.mark.parametrize("width, thickness, cut", BANDS[1:5])
def test_steered_pose_by_search(width, thickness, cut):
    def least(behind):  # smallest middle-line radius for one pose, by bisection on the drawing
        low, high = max(behind, 1e-3), 2.0
        for _ in range(50):
            middle = (low + high) / 2
            low, high = (low, middle) if body_fits(width, thickness, cut, middle, behind) else (middle, high)
        return high

    best = optimize.minimize_scalar(least, bounds=(0.3 * width, 0.5 * width), method="bounded", options={"xatol": 1e-8})
    assert radius.radius_steered(width, thickness, cut) == pytest.approx(best.fun, rel=1e-3)
    assert radius.steering_angle(width, thickness, cut) == pytest.approx(math.asin(best.x / best.fun), rel=1e-3)
    assert radius.radius_tangent(width, thickness, cut) == pytest.approx(least(0.0), rel=1e-3)


def test_body_inside_the_drawn_kerf():
    width, thickness, cut = 12.7, 0.635, 1.092

    def inside(middle):
        behind = (math.sqrt(2) - 1) * width
        aside = math.sqrt(middle**2 - behind**2)
        centre = shapely.Point(-behind, aside)
        ring = centre.buffer(math.hypot(behind, aside + cut / 2), quad_segs=20_000).difference(
            centre.buffer(math.hypot(behind, aside - cut / 2), quad_segs=20_000)
        )
        return ring.buffer(1e-6).contains(shapely.box(-width, -thickness / 2, 0, thickness / 2))

    limit = radius.radius_steered(width * 1e-3, thickness * 1e-3, cut * 1e-3) * 1e3
    assert inside(limit * 1.01) and not inside(limit * 0.97)


def test_naive_chord_radius_cannot_be_cut():
    # Wrong public formula: a chord between two arcs, w^2 / 8D - t/2. The front teeth cut the kerf: no yaw reaches it.
    width, thickness, cut = 0.5 * INCH, 0.025 * INCH, 0.043 * INCH
    naive = width**2 / (8 * (cut - thickness)) - thickness / 2
    assert not any(body_fits(width, thickness, cut, naive, e) for e in np.linspace(-width, width, 3001))


def test_tangent_formula_is_far_above_every_table():
    # Wrong public formula: w^2 / D. With the side room that the tables themselves imply it is 4 to 7 times too large.
    for row in tables.RADIUS_TABLES:
        if 3 / 16 <= row.width_in <= 3 / 4:
            tangent = radius.radius_tangent(row.width, 0.025 * INCH, 0.042 * INCH)
            assert 4 < tangent / row.radius < 8
    ratio = radius.radius_tangent(*BANDS[3]) / radius.radius_steered(*BANDS[3])
    assert ratio == pytest.approx(5.8, abs=0.1)


def test_radius_tables_bracket_the_fit():
    # Three independent printed tables (READ): two saw makers' manuals, names withheld, and a home-improvement article.
    errors = []
    for row in tables.RADIUS_TABLES:
        least, most = tables.published_radius(row.width)
        assert least <= row.radius <= most
        errors.append(radius.radius_fit(row.width) / row.radius - 1)
        if 3 / 16 <= row.width_in <= 3 / 4:
            assert least / 1.12 <= radius.radius_fit(row.width) <= most * 1.12
    assert -0.17 <= min(errors) and max(errors) <= 0.2501
    assert math.sqrt(np.mean(np.square(errors))) == pytest.approx(0.086, abs=0.015)
    with pytest.raises(OutsideMethod):
        tables.published_radius(0.45 * INCH)


def test_trade_magazine_agrees_on_two_points():
    # READ: 3/4 in -> 5 1/2 in, 3/16 in -> 5/16 in.
    assert radius.radius_fit(0.75 * INCH) / INCH == pytest.approx(5.5, rel=0.03)
    assert radius.radius_fit(0.1875 * INCH) / INCH == pytest.approx(5 / 16, rel=0.13)


def test_navy_rule_is_the_comfortable_one():
    # NAVEDTRA 14043 (READ) calls 8 w practical, not the true minimum: no table may ask for more.
    for row in tables.RADIUS_TABLES:
        assert radius.comfortable_radius(row.width) >= row.radius
    assert all(radius.radius_fit(w * INCH) <= 8 * w * INCH * (1 + 1e-12) for w in np.linspace(0.125, 1.25, 50))


@given(width=st.floats(3.1e-3, 31e-3), extra=st.floats(0.2e-3, 1.0e-3))
def test_widest_blade_turns_the_radius_round(width, extra):
    assert radius.widest_for_radius(radius.radius_fit(width)) == pytest.approx(width, rel=1e-9)
    cut = 0.6e-3 + extra
    middle = radius.radius_steered(width, 0.6e-3, cut)
    assert radius.widest_for_radius_and_kerf(middle, 0.6e-3, cut) == pytest.approx(width, rel=1e-6)


@given(width=st.floats(4e-3, 30e-3), extra=st.floats(0.2e-3, 1.0e-3), more=st.floats(1.01, 2.0))
def test_radius_grows_with_width_and_falls_with_kerf(width, extra, more):
    base = radius.radius_steered(width, 0.6e-3, 0.6e-3 + extra)
    assert radius.radius_steered(width * more, 0.6e-3, 0.6e-3 + extra) > base
    assert radius.radius_steered(width, 0.6e-3, 0.6e-3 + extra * more) < base
    assert base == pytest.approx((3 - 2 * math.sqrt(2)) * width**2 / extra, rel=0.25)


def test_radius_basis_follows_the_kerf():
    assert "fit" in radius.minimum_radius_basis(0.65e-3)
    assert "this blade's" in radius.minimum_radius_basis(0.65e-3, 1.1e-3)
    assert radius.minimum_radius(12.7e-3, 0.65e-3) == radius.radius_fit(12.7e-3)
    with pytest.raises(OutsideMethod):
        radius.minimum_radius_basis(0.65e-3, 0.65e-3)


def test_finished_edges_drawn():
    arc = shapely.LineString([(50 * math.cos(a), 50 * math.sin(a)) for a in np.linspace(0, math.pi, 2000)])
    slot = arc.buffer(0.5, quad_segs=64)
    inside, outside = radius.finished_radii(50, 1.0)
    assert slot.distance(shapely.Point(0, 0)) == pytest.approx(inside, abs=1e-3)
    assert slot.bounds[3] == pytest.approx(outside, abs=1e-3)


# --- Feed, gullets, marks -------------------------------------------------------------------------------------------


def test_bite_counted_tooth_by_tooth():
    speed, band, tooth = 3 / 60, 15.0, INCH / 3
    teeth = sum(1 for _ in np.arange(0.0, band, tooth))  # teeth that pass a point in one second
    assert feed.bite(speed, band, tooth) == pytest.approx(speed / teeth, rel=1e-3)
    assert feed.feed_at_bite(speed / teeth, band, tooth) == pytest.approx(speed, rel=1e-3)


@given(tpi=st.floats(1, 14), depth=st.floats(0.5e-3, 10e-3), speed=st.floats(0.001, 0.2))
def test_gullet_fill_does_not_know_the_pitch(tpi, depth, speed):
    tooth = INCH / tpi
    chip = feed.bite(speed, 15.0, tooth) * 0.15
    fill = feed.gullet_fill(speed, 15.0, 0.15, depth, tables.GULLET_SHAPE)
    assert fill == pytest.approx(chip / feed.gullet_area(tooth, depth, tables.GULLET_SHAPE))
    assert feed.feed_at_gullet_fill(fill, 15.0, 0.15, depth, tables.GULLET_SHAPE) == pytest.approx(speed)
    assert feed.body_gullet_fill(fill, 1.1e-3, 0.65e-3) == pytest.approx(chip * 1.1 / (tooth * depth / 1.75 * 0.65))


def test_gullet_shape_lies_between_drawn_profiles():
    triangle = shapely.Polygon([(0, 1), (0.5, 0), (1, 1)]).area
    flat = shapely.Polygon([(0, 1), (0.1, 0), (0.72, 0), (1, 1)]).area
    assert triangle < tables.GULLET_SHAPE < flat


def test_scallops_drawn():
    size, repeat, angle = 40e-6, 3, math.radians(7)
    spacing = feed.tooth_mark_spacing(size, repeat)
    x = np.linspace(0, 10 * spacing, 20_001)
    tips = np.arange(0, 12) * spacing
    # Material left above the deepest line by a tooth whose side leans away behind its corner; the lowest tooth wins.
    left = np.where(tips[:, None] >= x, (tips[:, None] - x) * math.tan(angle), np.inf).min(axis=0)
    assert feed.scallop_height(size, repeat, angle) == pytest.approx(left.max(), rel=1e-2)
    assert np.sum(np.diff(left) > spacing * math.tan(angle) / 2) == pytest.approx(10, abs=1)


def test_marks_counted():
    speed, band, length = 0.05, 15.0, 2.667
    passes = np.arange(1, 30) * length / band  # times at which the weld goes by
    marks = passes * speed
    assert np.diff(marks) == pytest.approx(feed.event_mark_spacing(speed, band, length))
    assert feed.event_length_from_marks(marks[1] - marks[0], speed, band) == pytest.approx(length)
    assert feed.vibration_frequency(marks[1] - marks[0], speed) == pytest.approx(1 / (passes[1] - passes[0]))
    assert math.tan(feed.mark_slope(speed, band)) == pytest.approx(speed / band)


@given(speed=st.floats(0.1, 60))
def test_speed_ratio_is_one_inside(speed):
    ratio = feed.speed_ratio(speed, 13, 25)
    assert (ratio == 1) == (13 <= speed <= 25)
    assert (ratio > 1) == (speed > 25)
    assert feed.speed_verdict(speed, 13, 25) == ("too slow" if speed < 13 else "too fast" if speed > 25 else "inside the window")


# --- Power ----------------------------------------------------------------------------------------------------------

OAK = {"cutting_stress": 40e6, "rubbing_force": 1200.0}
SAW = {"band_speed": 15.0, "work_height": 0.15, "kerf": 1.1e-3, "tooth_pitch": INCH / 3}


def test_power_summed_over_teeth():
    speed = 1.36 / 60
    size = feed.bite(speed, 15.0, INCH / 3)
    force = (OAK["cutting_stress"] * size + OAK["rubbing_force"]) * 1.1e-3  # one tooth
    teeth = count_teeth(0.15, INCH / 3)
    assert power.cutting_power(speed, **SAW, **OAK) == pytest.approx(force * teeth * 15.0, rel=1e-3)
    volume_rate = 0.15 * 1.1e-3 * speed
    assert power.cutting_energy(size, **OAK) == pytest.approx(force * teeth * 15.0 / volume_rate, rel=1e-3)


@given(net=st.floats(10, 3000), tpi=st.floats(1.3, 14))
@settings(max_examples=50)
def test_feed_at_power_is_the_root(net, tpi):
    saw = SAW | {"tooth_pitch": INCH / tpi}
    speed = power.feed_at_power(net, **saw, **OAK)
    if power.cutting_power(0.0, **saw, **OAK) >= net:
        assert speed == 0
        return
    root = optimize.brentq(lambda v: power.cutting_power(v, **saw, **OAK) - net, 0, 100)
    assert speed == pytest.approx(root, rel=1e-6)


def test_faster_band_pulls_less():
    # Direction READ: Moradpour et al., Drvna industrija 2016, abstract: more speed for the same feed, less main force.
    forces = [power.main_force(power.cutting_power(20 / 60, **(SAW | {"band_speed": v}), **OAK), v) for v in (20, 30, 40)]
    assert forces[0] > forces[1] > forces[2]


def test_timed_cuts_give_the_constants_back():
    saw = {"kerf": 1.1e-3, "work_height": 0.15}
    found = []
    for speed in (0.8 / 60, 2.4 / 60):
        loaded = power.cutting_power(speed, **SAW, **OAK) / 0.8 + 150.0
        assert power.net_power(loaded, 150.0, 0.8) == pytest.approx(power.cutting_power(speed, **SAW, **OAK))
        energy = power.energy_from_timed_cut(loaded, 150.0, 0.8, **saw, feed_speed=speed)
        found += [feed.bite(speed, 15.0, INCH / 3), energy]
    assert power.constants_from_two_cuts(*found) == pytest.approx((40e6, 1200.0))


def test_governing_limit_is_the_least():
    pine = {"gullet": 4.06, "power": 4.30, "finish": 10.6}
    oak = pine | {"power": 1.36}
    for limits, name in ((pine, "gullet"), (oak, "power")):
        found = power.governing_limit(limits)
        assert (found.name, found.feed_speed) == (name, min(limits.values()))
        assert dict(found.others) == {k: v for k, v in limits.items() if k != name}
        assert power.governing_words(found).startswith(name)
    with pytest.raises(OutsideMethod):
        power.governing_limit({})


# --- Kerf and yield -------------------------------------------------------------------------------------------------


def test_kerf_of_simulated_cuts():
    rng = np.random.default_rng(1)
    for cuts in (1, 4):
        true = np.full(cuts + 1, 10e-3)
        whole = true.sum() + cuts * 1.1e-3
        read = rng.normal(0, 0.02e-3, (20_000, cuts + 2))
        kerfs = [kerf.kerf_from_pieces(whole + row[0], list(true + row[1:])) for row in read]
        assert np.mean(kerfs) == pytest.approx(1.1e-3, abs=1e-6)
        assert np.std(kerfs) == pytest.approx(kerf.kerf_doubt(0.02e-3, cuts), rel=0.02)


def test_uneven_set_drawn():
    left, right, body = 0.25, 0.19, 0.65
    teeth = shapely.box(-body / 2 - left, 0, body / 2 + right, 1)
    assert -teeth.centroid.x == pytest.approx(kerf.set_offset([left] * 3, [right] * 3))
    cut = teeth.bounds[2] - teeth.bounds[0]
    assert kerf.side_set(cut, body) == pytest.approx((left + right) / 2)


def test_boards_cut_one_by_one():
    rng = np.random.default_rng(2)
    for _ in range(1500):
        block = rng.integers(20, 300)
        board, clean, cut, rejoint, rest = rng.integers([2, 0, 1, 0, 3], [30, 3, 4, 2, 20])
        if rest > block:
            continue
        left, boards = block, 0
        while left - (board + clean + cut + rejoint) >= rest:
            left, boards = left - (board + clean + cut + rejoint), boards + 1
        metres = [value * 1e-4 for value in (block, board, clean, cut, rejoint, rest)]
        assert kerf.boards_keeping_rest(*metres) == boards
        left, boards = block, 0
        while left >= board + clean:
            left, boards = left - (board + clean + cut + rejoint), boards + 1
        assert kerf.boards_using_all(*metres[:-1]) == boards


def test_sawn_thickness_leaves_few_thin_boards():
    rng = np.random.default_rng(3)
    sawn = rng.normal(kerf.sawn_thickness(20.0, 2.0, 0.06, 1.6449, 0.5), 0.5, 100_000)
    # The allowance is added to the green thickness, so a thin board is one below the green target.
    assert np.mean(sawn < (20.0 + 2.0) / 0.94) == pytest.approx(0.05, abs=0.003)


# --- Printed tables -------------------------------------------------------------------------------------------------

#: DIN 875, squareness [um] by length [mm], grades 00, 0, 1, 2, printed in a metrology dealer's lexicon (READ-2nd).
SQUARES = {
    75: (3, 7, 14, 28),
    100: (3, 7, 15, 30),
    150: (4, 8, 18, 35),
    200: (4, 9, 20, 40),
    250: (5, 10, 23, 45),
    300: (5, 11, 25, 50),
    500: (7, 15, 35, 70),
    1000: (12, 25, 60, 120),
}


def test_squares_as_printed():
    for length, printed in SQUARES.items():
        exact = [tables.square_error_limit(grade, length * 1e-3) * 1e6 for grade in tables.SQUARE_GRADES]
        assert tuple(math.ceil(value - 1e-9) for value in exact) == printed
    # The extract's 750 mm row prints 43 and 85 in grades 1 and 2, which the formula does not give: not used, said so.
    assert tables.square_error_limit("grade 1", 0.75) * 1e6 == pytest.approx(47.5)


def test_plates_as_printed():
    # DIN 876 in two dealers' copies (READ).
    for length, printed in {500: (6, 15, 30, 60), 1000: (8, 20, 40, 80)}.items():
        exact = [tables.plate_flatness_limit(grade, length * 1e-3) * 1e6 for grade in tables.PLATE_GRADES]
        assert exact == pytest.approx(printed)


def test_noise_as_printed():
    # 29 CFR 1910.95 Table G-16 (READ): whole and half hours, so entries between powers of two are rounded ones.
    for hours, level in tables.NOISE_TABLE:
        assert tables.noise_time(level) / 3600 == pytest.approx(hours, rel=0.02)


def test_hardness_in_two_printed_units():
    # Wood Handbook FPL-GTR-282, 2021, Table 5-3a [N] against 5-3b [lbf], both READ-2nd in separate transcriptions.
    both = [s for s in tables.SPECIES if s.hardness_lbf is not None and s.hardness_n is not None]
    assert len(both) >= 14
    for wood in both:
        newtons = (wood.hardness_lbf * UNITS.lbf).to("N").magnitude
        assert newtons == pytest.approx(wood.hardness_n, abs=50)
        assert tables.side_hardness(wood.name) == pytest.approx(newtons)
    # A university table after the handbook (READ) prints these three.
    for name, gravity, newtons in (
        ("Douglas-fir, coast", 0.48, 3200),
        ("western larch", 0.52, 3700),
        ("Engelmann spruce", 0.35, 1750),
    ):
        assert (tables.species(name).gravity, tables.species(name).hardness_n) == (gravity, newtons)
    with pytest.raises(OutsideMethod):
        tables.species("plastic")


def test_letters_as_printed():
    # ANSI Z535 9.2.3 as quoted by a supplier (READ-2nd), favourable light: ft -> in. Its 5 ft entry is a misprint.
    for feet, inches in {8: 0.32, 10: 0.40, 15: 0.60, 20: 0.80, 30: 1.20, 40: 1.60}.items():
        distance = (feet * UNITS.feet).to("m").magnitude
        assert tables.letter_height(distance, tables.MESSAGE_DISTANCE) / INCH == pytest.approx(inches)


def test_speed_windows_convert():
    navy = tables.SPEED_WINDOWS[0]
    low, high = (UNITS.Quantity([navy.low, navy.high], "ft/min")).to("m/s").magnitude
    assert navy.window == pytest.approx((low, high))
    assert {window.mark for window in tables.SPEED_WINDOWS} <= {"read", "practice"}


def test_carbon_bands_run_at_half_speed_and_dry_ones_slower():
    # Machinery's Handbook, 31st ed., p. 1245 (READ): carbon-steel band -50 %, dry -30 to -50 %.
    wet = tables.metal_band_speed(2.0, 4 * INCH, False, 0.0)
    assert tables.metal_band_speed(2.0, 4 * INCH, True, 0.0) == pytest.approx(wet / 2)
    assert tables.metal_band_speed(2.0, 4 * INCH, False, 0.4) == pytest.approx(0.6 * wet)
    for refused in ((4 * INCH, 0.1), (3 * INCH, 0.0)):
        with pytest.raises(OutsideMethod):
            tables.metal_band_speed(2.0, refused[0], False, refused[1])


# --- Refusals -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "call",
    [
        lambda: pitch.teeth_in_work(0.0, 1e-3),
        lambda: pitch.teeth_in_work(math.nan, 1e-3),
        lambda: pitch.pitch_compromise(0.1, 0.05, 3, 24),
        lambda: pitch.pitch_compromise(0.05, 0.1, 24, 3),
        lambda: pitch.tube_area(1.0, 1.0),
        lambda: radius.radius_fit(2e-3),
        lambda: radius.radius_fit(40e-3),
        lambda: radius.minimum_radius(12e-3, 0.65e-3, 0.65e-3),
        lambda: radius.widest_for_radius(1e-3),
        lambda: feed.gullet_area(1e-2, 1e-3, 1.2),
        lambda: power.cutting_energy(5e-6, 40e6, 1200),
        lambda: power.net_power(100.0, 100.0, 0.8),
        lambda: power.net_power(100.0, 10.0, 1.1),
        lambda: kerf.side_set(0.6e-3, 0.65e-3),
        lambda: kerf.kerf_from_pieces(0.02, [0.01, 0.01]),
        lambda: tables.noise_time(130),
        lambda: tables.square_error_limit("grade 9", 0.1),
    ],
)
def test_out_of_range_is_refused(call):
    with pytest.raises(OutsideMethod):
        call()
