"""Uncertainty, test cut, drift, squares, records and mitre work against other ways to the same numbers.

scipy's Student law, numpy's least squares, the packages GTC and uncertainties, drawn sections (shapely), moving rigid
bodies, random trials with fixed seeds, and published examples, each named beside its check.
"""

import math

import GTC
import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, optimize, stats
from shapely import affinity
from shapely.ops import split
from uncertainties import ufloat, umath

from sawside.calc import decision, drift, other_saws, records, square, testcut, uncertainty
from sawside.calc.limits import OutsideMethod

# A busy machine must not fail a test by being slow, and every run tries the same examples.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")

DEGREE = math.pi / 180

# --- Uncertainty ----------------------------------------------------------------------------------------------------

#: NIST Technical Note 1297 (1994), Table B.1 (READ): degrees of freedom -> factors for these percentages.
PERCENT = (68.27, 90, 95, 95.45, 99, 99.73)
TABLE_B1 = {
    1: (1.84, 6.31, 12.71, 13.97, 63.66, 235.80),
    2: (1.32, 2.92, 4.30, 4.53, 9.92, 19.21),
    3: (1.20, 2.35, 3.18, 3.31, 5.84, 9.22),
    4: (1.14, 2.13, 2.78, 2.87, 4.60, 6.62),
    5: (1.11, 2.02, 2.57, 2.65, 4.03, 5.51),
    8: (1.07, 1.86, 2.31, 2.37, 3.36, 4.28),
    10: (1.05, 1.81, 2.23, 2.28, 3.17, 3.96),
    16: (1.03, 1.75, 2.12, 2.17, 2.92, 3.54),
    20: (1.03, 1.72, 2.09, 2.13, 2.85, 3.42),
    50: (1.01, 1.68, 2.01, 2.05, 2.68, 3.16),
    math.inf: (1.000, 1.645, 1.960, 2.000, 2.576, 3.000),
}


def test_student_table_of_the_technical_note():
    for degrees, printed in TABLE_B1.items():
        for percent, value in zip(PERCENT, printed, strict=True):
            # Printed from 1, 2 and 3 deviations exactly, so 68.27 and its like are themselves rounded.
            exact = {68.27: math.erf(1 / 2**0.5), 95.45: math.erf(2**0.5), 99.73: math.erf(3 / 2**0.5)}
            found = uncertainty.coverage_factor(exact.get(percent, percent / 100), degrees)
            assert found == pytest.approx(value, abs=0.00501), (degrees, percent)


@pytest.mark.parametrize("degrees", [1, 1.5, 2, 3, 4, 7.3, 16, 16.64, 40, 200, 5000])
def test_student_against_scipy(degrees):
    for probability in (1e-3, 0.1, 0.5, 0.9, 0.95, 0.99, 0.9999, 1 - 1e-9):
        expected = stats.t.ppf((1 + probability) / 2, degrees)
        assert uncertainty.coverage_factor(probability, degrees) == pytest.approx(expected, rel=1e-7)
    for factor in (0.0, 1e-3, 0.7, 2.0, 30.0):
        expected = stats.t.cdf(factor, degrees) - stats.t.cdf(-factor, degrees)
        assert uncertainty.student_within(factor, degrees) == pytest.approx(expected, rel=1e-10, abs=1e-15)
        assert uncertainty.normal_below(factor) == pytest.approx(stats.norm.cdf(factor), rel=1e-12)


@given(st.lists(st.floats(-1e3, 1e3), min_size=2, max_size=30))
def test_type_a_against_numpy(readings):
    assert uncertainty.mean(readings) == pytest.approx(np.mean(readings), abs=1e-9)
    assert uncertainty.spread(readings) == pytest.approx(np.std(readings, ddof=1), abs=1e-9)
    assert uncertainty.mean_doubt(readings) == pytest.approx(stats.sem(readings), abs=1e-9)


def test_end_gauge_of_the_guide():
    # JCGM 100:2008, H.1 (inputs READ-2nd): GTC is the second engine. Printed: 32 nm, 16, 93 nm at 99 percent.
    parts, degrees = (25, 5.8, 3.9, 6.7, 2.9, 16.675), (18, 24, 5, 8, 50, 2)
    total = sum((GTC.ureal(0, u, nu) for u, nu in zip(parts, degrees, strict=True)), GTC.ureal(0, 0))
    combined = uncertainty.combine(parts)
    freedom = uncertainty.effective_degrees(parts, degrees)
    assert combined == pytest.approx(GTC.uncertainty(total), rel=1e-12)
    assert freedom == pytest.approx(GTC.dof(total), rel=1e-12)
    assert round(combined) == 32 and math.floor(freedom) == 16
    assert round(combined * uncertainty.coverage_factor(0.99, math.floor(freedom))) == 93
    # The number is cut down, not rounded up: 17 degrees would promise less doubt than there is.
    assert combined * uncertainty.coverage_factor(0.99, 17) < 0.995 * combined * uncertainty.coverage_factor(0.99, 16)


def test_type_b_contributions_have_no_degrees():
    assert uncertainty.effective_degrees([1.0, 2.0], [4, math.inf]) == pytest.approx(25 / (1 / 4))
    assert uncertainty.effective_degrees([1.0], [math.inf]) == math.inf
    with pytest.raises(OutsideMethod):
        uncertainty.effective_degrees([1.0], [4, 5])


def test_thermometer_of_the_guide():
    # JCGM 100:2008, H.3, data and results as in the documentation of GTC (READ-2nd).
    t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511]
    b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160]
    line = uncertainty.line_fit([x - 20 for x in t], b)
    assert (round(line.start, 4), round(line.start_doubt, 4)) == (-0.1712, 0.0029)
    assert (round(line.slope, 5), round(line.slope_doubt, 5)) == (0.00218, 0.00067)
    value, own, following = uncertainty.line_at(line, 10.0)
    assert (round(value, 4), round(own, 4)) == (-0.1494, 0.0041)
    assert line.scatter**2 * 9 == pytest.approx(0.000110096583109, rel=1e-9)
    fit = GTC.type_a.line_fit([x - 20 for x in t], b)
    at = fit.intercept + fit.slope * 10
    assert own == pytest.approx(GTC.uncertainty(at), rel=1e-9)
    assert following == pytest.approx(math.hypot(own, line.scatter))


# --- Test cut -------------------------------------------------------------------------------------------------------

READINGS = [  # four corners [mm], length, height; tilt and taper [degrees] by matrix least squares beforehand
    ((20.05, 20.00, 20.07, 20.02), 200, 50),
    ((20.00, 20.01, 20.10, 20.11), 300, 50),
    ((25.40, 25.30, 25.42, 25.31), 150, 50),
    ((10.00, 10.00, 10.10, 10.00), 250, 60),
]


@pytest.mark.parametrize("corners, length, height", READINGS)
def test_four_corners_by_least_squares(corners, length, height):
    # rows: front top, front bottom, back top, back bottom; plane t = a + b x + c y
    design = np.array([[1, 0, height], [1, 0, 0], [1, length, height], [1, length, 0]], float)
    (_, along, up), *_ = np.linalg.lstsq(design, np.array(corners), rcond=None)
    assert testcut.cut_tilt(*corners, height) == pytest.approx(math.atan(up))
    assert testcut.cut_taper(*corners, length) == pytest.approx(math.atan(along))
    residual = np.array(corners) - design @ np.linalg.lstsq(design, np.array(corners), rcond=None)[0]
    assert testcut.cut_twist(*corners) == pytest.approx(residual[0], abs=1e-12)
    assert np.abs(residual) == pytest.approx(abs(testcut.cut_twist(*corners)), abs=1e-9)


def test_corner_doubts_by_uncertainties():
    ft, fb, bt, bb = (ufloat(value, 0.0202) for value in (25.40, 25.30, 25.42, 25.31))
    tilt = umath.atan((ft + bt - fb - bb) / 2 / 50)
    taper = umath.atan((bt + bb - ft - fb) / 2 / 150)
    turned = umath.atan((ft - fb) / 2 / 50)
    assert testcut.tilt_doubt(0.0202, 50) == pytest.approx(tilt.std_dev, rel=1e-4)
    assert testcut.tilt_doubt(0.0202, 150) == pytest.approx(taper.std_dev, rel=1e-4)
    assert testcut.turned_cut_doubt(0.0202, 50) == pytest.approx(turned.std_dev, rel=1e-4)


def test_corner_doubt_by_rounded_readings():
    rng = np.random.default_rng(4)
    true = rng.uniform(19.9, 20.1, 100_000)
    reads = true[:, None] + rng.normal(0, 0.02, (100_000, 3))
    reads = np.round(reads / 0.01) * 0.01
    touch = rng.uniform(-0.02, 0.02, 100_000)
    measured = np.std(reads.mean(axis=1) + touch - true)
    # Rounding averages down over repeats too, so the formula may only be a little above.
    assert testcut.corner_doubt(0.01, 0.02, 3, 0.02) == pytest.approx(measured, rel=0.02)
    assert testcut.corner_doubt(0.01, 0.02, 1, 0.0) == pytest.approx(0.0202, abs=5e-5)


def test_twist_alarm_rate():
    rng = np.random.default_rng(5)
    alarms = [testcut.twist_matters(testcut.cut_twist(*row), 0.02) for row in 20 + rng.normal(0, 0.02, (20_000, 4))]
    assert np.mean(alarms) == pytest.approx(2 * stats.norm.sf(2), abs=0.005)
    assert testcut.twist_matters(testcut.cut_twist(10.00, 10.00, 10.10, 10.00), 0.0202)


def piece(corner):
    """Cross-section of a piece: bottom on y = 0, left side out of square by `corner`, 80 tall."""
    return shapely.Polygon([(0, 0), (300, 0), (300, 80), (80 * math.tan(corner), 80)])


def sawn(section, x, lean):
    """What is left of the blade's line, which leans from square to the table by `lean`."""
    line = shapely.LineString([(x - 500 * math.tan(lean), -500), (x + 500 * math.tan(lean), 500)])
    return min(split(section, line).geoms, key=lambda part: part.centroid.x)


def width_at(section, y):
    return section.intersection(shapely.LineString([(-900, y), (900, y)])).length


@pytest.mark.parametrize("table, corner", [(1e-3, 3e-3), (-2e-3, 4e-3), (0.0, 6e-3), (1.5e-3, -4e-3)])
def test_turned_cut_on_drawn_sections(table, corner):
    once = sawn(piece(corner), 200, table)
    readings = [width_at(once, y) for y in (60, 10, 60, 10)]
    # The one-cut test mixes the piece's own corner in, one to one: it does not show the table.
    assert testcut.cut_tilt(*readings, 50) == pytest.approx(table - corner, abs=1e-6)
    turned = affinity.scale(once, xfact=-1, origin=(0, 0))  # end for end, same face down: left and right change places
    twice = sawn(turned, -60, table)
    assert testcut.turned_cut_tilt(width_at(twice, 60), width_at(twice, 10), 50) == pytest.approx(table, abs=1e-6)


@pytest.mark.parametrize("yaw", [0.0, 0.1, 0.5, 2.0])
def test_taper_is_not_the_direction_of_the_fence(yaw):
    # A rigid piece slides along a straight fence that stands at an angle to the blade; the tooth is a fixed point.
    angle = yaw * DEGREE
    along = np.array([math.cos(angle), math.sin(angle)])
    tooth = np.array([120.0, 40.0])
    cut = []
    for way in np.linspace(0, 300, 61):  # the piece's own frame: x along its reference face, y into the piece
        origin = along * (way - 300)
        relative = tooth - origin
        cut.append((relative @ along, relative @ np.array([-along[1], along[0]])))
    thickness = [y for _, y in sorted(cut)]
    first, last = thickness[0], thickness[-1]
    assert testcut.cut_taper(first, first, last, last, 300) == pytest.approx(0, abs=1e-12)
    assert np.ptp([x for x, _ in cut]) == pytest.approx(300)


def test_verdict_words_for_the_four_sets():
    words = []
    for corners, _, height in READINGS:
        tilt, doubt = testcut.cut_tilt(*corners, height), testcut.tilt_doubt(0.0202, height)
        words.append(decision.verdict(tilt, doubt, 0.1 * DEGREE))
    assert words == ["accept", "accept", "cannot tell", "accept"]
    assert decision.verdict(0.3, 0.061, 0.1) == "adjust"  # far out is seen even by a coarse instrument
    assert decision.verdict(0.05, 0.061, 0.1) == "instrument too coarse"


def test_verdict_risks():
    rng = np.random.default_rng(6)
    doubt, tolerance = 0.02, 0.1
    reads = tolerance + rng.normal(0, doubt, 50_000)  # the truth lies on the limit
    words = [decision.verdict(x, doubt, tolerance) for x in reads]
    assert words.count("accept") / 50_000 == pytest.approx(0.05, abs=0.004)
    assert words.count("adjust") / 50_000 == pytest.approx(0.05, abs=0.004)
    truth = 0.09 + rng.normal(0, doubt, 200_000)
    assert testcut.probability_within(0.09, doubt, tolerance) == pytest.approx(np.mean(abs(truth) <= 0.1), abs=0.004)
    seen = testcut.smallest_error_seen(doubt) + rng.normal(0, doubt, 50_000)
    assert np.mean(seen > decision.GUARD * doubt) == pytest.approx(0.95, abs=0.004)


def test_decision_limits_by_the_normal_distribution():
    """A truth on the tolerance is accepted, and adjusted, with a chance of 5 % each (scipy's normal distribution)."""
    accept, adjust = decision.decision_limits(0.02, 0.1)
    chance = stats.norm(loc=0.1, scale=0.02)
    assert (chance.cdf(accept), chance.sf(adjust)) == pytest.approx((0.05, 0.05), abs=1e-5)
    assert decision.decision_limits(0.061, 0.1)[0] is None and decision.decision_limits(0.0, 0.1) == (0.1, 0.1)


@given(st.floats(-0.5, 0.5), st.floats(1e-3, 0.2), st.floats(0.02, 0.3))
def test_verdict_is_even_and_never_accepts_beyond_the_tolerance(error, doubt, tolerance):
    word = decision.verdict(error, doubt, tolerance)
    assert word == decision.verdict(-error, doubt, tolerance)
    if word == "accept":
        assert testcut.probability_within(error, doubt, tolerance) > 0.89
    if word == "adjust":
        assert testcut.probability_within(error, doubt, tolerance) < 0.06
    if 1.645 * doubt > tolerance:
        assert word != "accept"


@pytest.mark.parametrize("tolerance, gain, height", [(0.1, 1.0, 38), (0.05, 1.0, 76), (0.05, math.sqrt(2), 54)])
def test_piece_height_just_suffices(tolerance, gain, height):
    needed = testcut.height_needed(0.0202, tolerance * DEGREE, 0.5, gain)
    assert needed == pytest.approx(height, abs=0.7)
    doubt = testcut.tilt_doubt(0.0202, needed) / gain
    assert decision.verdict(0.499 * tolerance * DEGREE, doubt, tolerance * DEGREE) == "accept"
    assert decision.verdict(0.501 * tolerance * DEGREE, doubt, tolerance * DEGREE) == "cannot tell"


def test_stop_bolt_moves_the_table():
    arm, thread, turns = 90.0, 1.0, 0.4
    lever = affinity.translate(shapely.Point(arm, 0), yoff=turns * thread)
    angle = math.atan2(lever.y, lever.x)
    assert testcut.stop_bolt_turns(angle, arm, thread) == pytest.approx(turns)


def test_drift_path_integrated():
    angle, length = 1.0 * DEGREE, 50.0
    path = integrate.solve_ivp(lambda x, y: angle - y / length, (0, 300), [0.0], rtol=1e-10, atol=1e-14, dense_output=True)
    for x in (5.0, 50.0, 300.0):
        assert testcut.drift_path(angle, length, x) == pytest.approx(path.sol(x)[0], rel=1e-6)
    # End to end it shows a sixth of the drift here: taper is no measure of drift either.
    assert testcut.drift_path(angle, length, 300) / 300 < 0.2 * angle


# --- Drift ----------------------------------------------------------------------------------------------------------


@given(st.floats(-4, 4), st.floats(20, 150))
def test_the_held_edge_shows_the_drift_and_the_kerf_does_not(drift_degrees, line_to_edge):
    """A simulated cut, in the table's frame: y to the rear along the slot, blade at the origin, wood moving to the rear.

    The blade parts the wood along its own direction, whatever the board is pointed at. Whoever feeds turns the board about
    the blade until the drawn line stays on the teeth. Then the distances are read as the worksheet asks for them.
    """
    phi = drift_degrees * DEGREE
    step = np.array([math.sin(phi), math.cos(phi)])  # what the wood does while the teeth cut 1 mm
    turned, corner = 0.0, np.array([-line_to_edge, -400.0])  # the board's straight edge starts along the slot
    trace = []
    for _ in range(700):
        corner = corner + step
        along = np.array([math.sin(turned), math.cos(turned)])
        across = np.array([along[1], -along[0]])
        off = -corner @ across - line_to_edge  # the blade's place beside the line, in the board
        turn = -0.02 * math.atan(off / 10) + 0.03 * (math.atan2(*step) - turned)  # eye on the line, and along the kerf
        rotation = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
        corner, turned = rotation @ corner, turned + turn
        along = np.array([math.sin(turned), math.cos(turned)])
        trace.append((-corner @ along, -corner @ np.array([along[1], -along[0]])))  # kerf in the board: along the edge, from it
    edge = [corner[0] + (y - corner[1]) * math.tan(turned) + 500 for y in (0.0, 300.0)]  # slot 500 beside the blade
    assert drift.drift_angle(*edge, 300) == pytest.approx(phi, abs=0.02 * DEGREE)
    (start, kerf_start), (end, kerf_end) = trace[-100], trace[-1]
    assert drift.drift_angle(kerf_start, kerf_end, abs(end - start)) == pytest.approx(0, abs=0.02 * DEGREE)
    # A fence that was parallel to the slot lies along the edge once its rear fixing has moved by the shift.
    shift = drift.fence_shift(drift.drift_angle(*edge, 300), 400)
    assert shift == pytest.approx(400 / 300 * (edge[1] - edge[0]), rel=1e-9, abs=1e-9)


def test_drift_doubt_by_trials():
    rng = np.random.default_rng(7)
    angles = [drift.drift_angle(50 + a, 55.2 + b, 300) for a, b in rng.normal(0, 0.25, (20_000, 2))]
    assert drift.drift_doubt(0.25, 300) == pytest.approx(np.std(angles), rel=0.02)


def test_drift_interval_against_scipy():
    cuts = [0.95, 1.05, 0.9, 1.1, 1.0]
    found = drift.drift_from_cuts(cuts)
    low, high = stats.t.interval(0.95, 4, loc=np.mean(cuts), scale=stats.sem(cuts))
    assert (found.angle - found.expanded_doubt, found.angle + found.expanded_doubt) == pytest.approx((low, high))
    with pytest.raises(OutsideMethod):
        drift.drift_from_cuts(cuts[:2])


@pytest.mark.parametrize(
    "cuts, word",
    [
        ([0.95, 1.05, 0.9, 1.1, 1.0], drift.SET_FENCE),
        ([1.0, 2.0, 0.2, 1.5], drift.STEADY_FIRST),
        ([0.1, -0.1, 0.05], drift.LEAVE_FENCE),
        ([2.4, 2.5, 2.6], drift.BLADE_FIRST),
        ([-1.0, -1.1, -0.9], drift.SET_FENCE),
    ],
)
def test_drift_advice_order(cuts, word):
    found = drift.drift_from_cuts([cut * DEGREE for cut in cuts])
    assert drift.drift_advice(found, 0.3 * DEGREE, 2 * DEGREE) == word


def test_crown_slope_drawn():
    def crown(x):
        return math.sqrt(500**2 - x * x)

    slope = (crown(3 + 1e-4) - crown(3 - 1e-4)) / 2e-4
    assert math.tan(drift.tracking_share(3, 500)) == pytest.approx(-slope, rel=1e-6)


def test_straightedge_by_trials():
    rng = np.random.default_rng(8)
    for contact, seat, reach in ((9.7, 0.010, 300), (22.0, 0.005, 300), (4.0, 0.020, 1000)):
        seats, reads = rng.normal(0, seat, (50_000, 2)), rng.normal(0, 0.05, (50_000, 2))
        angle = np.arctan((seats[:, 1] - seats[:, 0]) / contact) + np.arctan((reads[:, 1] - reads[:, 0]) / reach)
        assert drift.straightedge_doubt(seat, contact, 0.05, reach) == pytest.approx(np.std(angle), rel=0.02)
    touching = shapely.LineString([(0, 0.22), (12.7, 0)])  # tooth tip to the back
    (x0, y0), (x1, y1) = touching.coords
    assert drift.tooth_touch_error(0.22, 12.7) == pytest.approx(math.atan((y0 - y1) / (x1 - x0)))


def test_longer_straightedge_gains_nothing():
    short = drift.straightedge_doubt(10e-6, 9.7e-3, 0.05e-3, 0.3)
    assert drift.straightedge_doubt(10e-6, 9.7e-3, 0.05e-3, 1.0) > 0.98 * short
    assert drift.straightedge_doubt(10e-6, 19.4e-3, 0.05e-3, 0.3) < 0.55 * short


# --- Squares --------------------------------------------------------------------------------------------------------


def test_squares_by_trials():
    rng = np.random.default_rng(9)
    cases = ((0.02, 0.030, 100, 0.0119), (0.05, 0.030, 150, 0.0129), (0.02, 0.008, 150, 0.0048))
    for gap, error, height, degrees in cases:
        trials = np.arctan((rng.uniform(-gap, gap, 100_000) + rng.uniform(-error, error, 100_000)) / height)
        found = square.square_doubt(gap, error, height)
        assert found == pytest.approx(np.std(trials), rel=0.01)
        assert found / DEGREE == pytest.approx(degrees, abs=5e-5)


def test_gauge_by_rounded_readings():
    rng = np.random.default_rng(10)
    zero, angle = rng.uniform(-5, 5, 200_000), 90 + rng.uniform(-5, 5, 200_000)
    shown = np.round((angle + zero) / 0.1) * 0.1 - np.round(zero / 0.1) * 0.1
    assert square.angle_gauge_doubt(0.1, 0.0) == pytest.approx(np.std(shown - angle), rel=0.01)


def test_which_instrument_can_accept_a_tenth_of_a_degree():
    tolerance = 0.1 * DEGREE

    def word(doubt):
        return decision.verdict(0.0, doubt, tolerance)

    assert word(square.square_doubt(0.02e-3, 30e-6, 0.1)) == "accept"
    assert word(testcut.tilt_doubt(0.0202e-3, 50e-3)) == "accept"
    assert word(testcut.turned_cut_doubt(0.0202e-3, 50e-3)) == "accept"
    assert word(square.angle_gauge_doubt(0.1 * DEGREE, 0.0)) == "accept"
    assert word(square.angle_gauge_doubt(0.1 * DEGREE, 0.2 * DEGREE)) == "instrument too coarse"
    assert word(square.angle_gauge_doubt(0.05 * DEGREE, 0.1 * DEGREE)) == "instrument too coarse"


def test_reversed_square_drawn():
    own = 0.4 * DEGREE
    first = shapely.LineString([(0, 0), (150 * math.sin(own), 150 * math.cos(own))])
    second = affinity.scale(first, xfact=-1, origin=(0, 0))
    gap = first.coords[1][0] - second.coords[1][0]
    assert square.reversed_square_error(gap, first.coords[1][1]) == pytest.approx(own)


def test_leaning_fence_drawn():
    lean = 0.1 * DEGREE
    board = shapely.Polygon([(0, 0), (150 * math.tan(lean), 150), (30, 150), (30, 0)])
    assert square.board_error_from_fence_face(150, lean) == pytest.approx(width_at(board, 0.0) - width_at(board, 150.0))
    assert square.gap_angle(0.05, 100) / DEGREE == pytest.approx(0.029, abs=5e-4)


def test_sag_on_an_arc():
    points = [(-200.0, 0.0), (0.0, 0.2), (200.0, 0.0)]  # a table 400 long that sags by 0.2
    equations = np.array([[2 * x, 2 * y, 1] for x, y in points])
    a, b, c = np.linalg.solve(equations, np.array([x * x + y * y for x, y in points]))
    radius = math.sqrt(c + a * a + b * b)
    assert square.sag_slope(0.2, 400.0) == pytest.approx(math.asin(200 / radius), rel=1e-4)


# --- Records --------------------------------------------------------------------------------------------------------


def test_individuals_of_the_handbook():
    # NIST/SEMATECH e-Handbook 6.3.2.2: mean 50.81, mean range 1.8778, limits 55.8041, 45.8159 (READ-2nd; data memory).
    data = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
    limits = records.individuals_limits(data)
    assert np.mean(np.abs(np.diff(data))) == pytest.approx(1.8778, abs=5e-5)
    assert limits.middle == pytest.approx(50.81)
    assert (limits.upper, limits.lower) == pytest.approx((55.8041, 45.8159), abs=5e-4)
    assert limits.deviation == pytest.approx(1.8778 / 1.128, rel=1e-4)
    assert limits.range_upper == pytest.approx(3.267 * 1.8778, rel=1e-4)


def test_range_constants_by_trials():
    rng = np.random.default_rng(11)
    ranges = np.abs(np.diff(rng.normal(0, 1, (400_000, 2)), axis=1)).ravel()
    assert records.RANGE_TO_DEVIATION == pytest.approx(ranges.mean(), rel=0.01)
    assert records.RANGES == pytest.approx(1 + 3 * ranges.std() / ranges.mean(), rel=0.01)


def test_ewma_of_the_handbook():
    # NIST/SEMATECH e-Handbook 6.3.2.4 (limits READ-2nd; the twenty readings and means from memory).
    data = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
    printed = [
        50.60,
        49.52,
        50.56,
        50.18,
        50.16,
        49.21,
        49.75,
        49.85,
        50.26,
        50.33,
        50.11,
        49.36,
        49.52,
        50.05,
        49.38,
        49.92,
        50.73,
        51.23,
        51.94,
        51.99,
    ]
    assert records.weighted_means(data, 50.0, 0.3) == pytest.approx(printed, abs=0.0051)
    assert 50 + records.weighted_limit(2.0539, 0.3, 3, 1000) == pytest.approx(52.5884, abs=1e-4)


@pytest.mark.parametrize("count", [1, 3, 20])
def test_weighted_limit_from_the_weights(count):
    weights = 0.2 * 0.8 ** np.arange(count)
    assert records.weighted_limit(1.5, 0.2, 3.0, count) == pytest.approx(3 * 1.5 * math.sqrt(np.sum(weights**2)))


def run_length(rules):
    """Mean number of checks to the first alarm, in control, by solving the chain of all histories that matter."""
    zones = {z: stats.norm.cdf(b) - stats.norm.cdf(a) for z, a, b in ((0.5, 0, 1), (1.5, 1, 2), (2.5, 2, 3))}
    chances = {sign * z: p for z, p in zones.items() for sign in (1, -1)}

    def shorten(history):  # four readings back, and how long the latest side has run, up to seven
        run = 0
        for zone in reversed(history):
            if zone * history[-1] <= 0:
                break
            run += 1
        return (0.5 * math.copysign(1, history[-1]),) * max(0, min(run, 7) - 4) + tuple(history[-4:])

    states, links, todo = {(): 0}, [], [()]
    while todo:
        state = todo.pop()
        for zone, chance in chances.items():
            if set(records.rules_hit([*state, zone], 0.0, 1.0)) & rules:
                continue
            following = shorten([*state, zone])
            if following not in states:
                states[following] = len(states)
                todo.append(following)
            links.append((states[state], states[following], chance))
    matrix = np.eye(len(states))
    for here, there, chance in links:
        matrix[here, there] -= chance
    return np.linalg.solve(matrix, np.ones(len(states)))[0]


@pytest.mark.parametrize(
    "rules, published",
    # Champ and Woodall, Technometrics 29, 1987, pp. 393-399, in-control average run lengths (memory).
    [({1}, 370.40), ({1, 2}, 225.44), ({1, 3}, 166.05), ({1, 4}, 152.73), ({1, 2, 3, 4}, 91.75)],
)
def test_run_lengths_of_the_zone_rules(rules, published):
    assert run_length(rules) == pytest.approx(published, abs=0.01)


@pytest.mark.parametrize(
    "readings, rules",
    [
        ([3.1], (1,)),
        ([-3.1], (1,)),
        ([2.1, 0.0, 2.1], (2,)),
        ([2.1, 0.0, -2.1], ()),
        ([2.1, 0.0, 0.0, 2.1], ()),
        ([1.1, 1.1, 0.0, 1.1, 1.1], (3,)),
        ([1.1, 1.1, 0.0, 0.0, 1.1, 1.1], ()),
        ([0.1] * 8, (4,)),
        ([0.1] * 7, ()),
        ([-0.1] * 8, (4,)),
        ([0.1] * 4 + [-0.1] + [0.1] * 4, ()),
        ([], ()),
        ([3.1, 0.0], ()),
    ],
)
def test_each_zone_rule_alone(readings, rules):
    assert records.rules_hit(readings, 0.0, 1.0) == rules


def test_trend_against_scipy():
    days, errors = [0, 30, 60, 90, 120], [0.010, 0.018, 0.032, 0.039, 0.050]
    fit = stats.linregress(days, errors)
    residuals = np.array(errors) - fit.intercept - fit.slope * np.array(days)
    scatter = math.sqrt(np.sum(residuals**2) / 3)

    def gap(day):
        own = scatter * math.sqrt(1 + 1 / 5 + (day - 60) ** 2 / np.sum((np.array(days) - 60.0) ** 2))
        return abs(fit.intercept + fit.slope * day) + stats.t.ppf(0.975, 3) * own - 0.1

    expected = optimize.brentq(gap, 120, 485) - 120

    def ahead(readings, low=-0.1, high=0.1):
        return records.days_by_trend(days, readings, low, high, 0.95, 365)

    assert ahead(errors) == pytest.approx(expected, rel=1e-6)
    assert ahead([2 * e for e in errors]) == 0.0
    assert ahead([0.0] * 5) == 365
    assert ahead([-e for e in errors]) == pytest.approx(ahead(errors))
    # About any nominal value: 30 less the same errors, with limits a tenth around it, takes as long as from zero.
    assert ahead([30 - e for e in errors], 29.9, 30.1) == pytest.approx(ahead(errors))
    # A push that falls from 30 N towards 27 N: the line and its band by scipy.
    pushes = [30.0, 29.4, 29.1, 28.5, 28.1]
    push = stats.linregress(days, pushes)
    left = np.array(pushes) - push.intercept - push.slope * np.array(days)
    band = math.sqrt(np.sum(left**2) / 3)

    def low_edge(day):
        return push.intercept + push.slope * day - stats.t.ppf(0.975, 3) * band * math.sqrt(1 + 1 / 5 + (day - 60) ** 2 / 9000) - 27

    assert (
        ahead(pushes, 27.0, 33.0) == pytest.approx(optimize.brentq(low_edge, 120, 485) - 120, rel=1e-6)
        and ahead(pushes, 27, 33) > 0
    )


@given(st.floats(20, 40), st.floats(0.02, 0.2), st.integers(0, 1000))
def test_a_push_that_falls_towards_its_lower_limit(nominal, fall, seed):
    """About a nominal that is not zero, and against scipy's line: first day on which a reading may pass the lower limit."""
    days = np.array([0.0, 7.0, 14.0, 21.0, 28.0, 35.0])
    readings = nominal * (1 - fall / 35 * days * 0.5 + np.random.default_rng(seed).normal(0, 0.002, 6))
    fit = stats.linregress(days, readings)
    scatter = math.sqrt(np.sum((readings - fit.intercept - fit.slope * days) ** 2) / 4)

    def room(day):
        own = scatter * math.sqrt(1 + 1 / 6 + (day - days.mean()) ** 2 / np.sum((days - days.mean()) ** 2))
        return fit.intercept + fit.slope * day - stats.t.ppf(0.95, 4) * own - 0.75 * nominal

    found = records.days_by_trend(list(days), list(readings), 0.75 * nominal, 1.25 * nominal, 0.90, 400)
    assert found == pytest.approx(optimize.brentq(room, 35, 435) - 35 if room(435) < 0 else 400, rel=1e-6)
    assert found > 0


def test_two_sided_decision_is_two_one_sided_ones():
    rng = np.random.default_rng(21)
    for x, low, width, u in rng.uniform((0, 0, 0.5, 0), (10, 5, 5, 1), (2000, 4)):
        high, g = low + width, decision.GUARD * u
        word = decision.decide(x, low, high, u)
        assert (word == "adjust") == (x < low - g or x > high + g)
        assert (word == "accept") == (low + g <= x <= high - g and 2 * g < width)
    # At a limit each wrong answer has a chance of 5 %: draw readings of a true value that lies on the limit.
    drawn = [decision.decide(x, 0.0, 10.0, 0.4) for x in rng.normal(10.0, 0.4, 20_000)]
    assert drawn.count("accept") / 20_000 == pytest.approx(0.05, abs=0.006)
    assert drawn.count("adjust") / 20_000 == pytest.approx(0.05, abs=0.006)


def test_reading_height_fits_the_saw():
    for needed, room in ((10e-3, 0.2), (41e-3, 0.2), (90e-3, 0.2), (90e-3, 0.06), (90e-3, 0.03)):
        height = testcut.reading_height(needed, room)
        assert height <= max(room - 20e-3, 5e-3) + 1e-12 and round(height * 1e3, 9) % 5 == 0
        assert height >= min(needed, room - 25e-3) - 1e-12


def test_walk_by_trials():
    rng = np.random.default_rng(12)
    days = records.days_by_walk(0.02, 0.014, 0.1, 0.004)
    start = 0.02 + rng.normal(0, 0.014, 100_000)
    end = start + rng.normal(0, 0.004 * math.sqrt(days), 100_000)
    assert np.mean(end > 0.1) == pytest.approx(0.05, abs=0.003)
    assert records.days_by_walk(0.1, 0.014, 0.1, 0.004) == 0.0
    assert records.days_by_walk(0.0, 0.2, 0.1, 0.004) == 0.0


def test_wander_recovered():
    rng = np.random.default_rng(13)
    days = np.cumsum(rng.integers(5, 30, 4000))
    truth = np.cumsum(rng.normal(0, 0.004, days[-1] + 1))[days]
    errors = truth + rng.normal(0, 0.01, 4000)
    assert records.wander(list(map(float, days)), list(errors), 0.01) == pytest.approx(0.004, rel=0.06)


@given(st.floats(1, 400), st.sampled_from(sorted(records.STAIRS)))
def test_staircase_stays_between_its_ends(interval, word):
    following = records.staircase_interval(interval, word, 7, 180)
    assert 7 <= following <= 180
    if 14 <= interval <= 120:
        assert (following > interval) == (word == "accept")
    with pytest.raises(OutsideMethod):
        records.staircase_interval(interval, "perhaps", 7, 180)


@given(st.floats(0, 500), st.floats(0, 500), st.floats(1, 500))
def test_next_check_is_the_earliest(trend, walk, longest):
    due = records.next_check(trend, walk, (), longest)
    assert due.days == min(trend, walk, longest) and due.reason
    assert records.next_check(trend, walk, (3, 4), longest) == records.Due(0.0, records.RULE_WORDS[3])


# --- Other saws -----------------------------------------------------------------------------------------------------


def test_chord_drawn():
    blade = shapely.Point(0, -100).buffer(125, quad_segs=2000)
    assert other_saws.table_chord(250, 25) == pytest.approx(width_at(blade, 0.0), rel=1e-5)


def panel_cut(panel, error):
    """Cut 5 off the right side, blade at 90 degrees + error to the fence (y = 0); lay the new edge on the fence."""
    panel = affinity.translate(panel, xoff=-max(x for x, y in panel.exterior.coords if y < 50) + 5)
    line = shapely.LineString([(999 * math.tan(error), -999), (-999 * math.tan(error), 999)])
    kept, off = sorted(split(panel, line).geoms, key=lambda part: part.centroid.x)
    return affinity.rotate(kept, -math.degrees(math.pi / 2 + error), origin=(0, 0)), off


@pytest.mark.parametrize("error", [0.5e-3, -1e-3, 2e-3])
def test_five_cuts_on_a_polygon(error):
    panel = shapely.Polygon([(0, 0), (400, 0), (403, 398), (-2, 402)])
    for _ in range(4):
        panel, _ = panel_cut(panel, error)
    _, strip = panel_cut(panel, error)
    low, high = width_at(strip, 20.0), width_at(strip, 320.0)
    found = other_saws.five_cut_error(high, low, 300.0)
    assert found == pytest.approx(error, rel=2e-3)
    reading = umath.atan((ufloat(high, 0.0202) - ufloat(low, 0.0202)) / 300) / 4
    assert other_saws.five_cut_doubt(0.0202, 300) == pytest.approx(reading.std_dev, rel=1e-4)


def test_flipped_pieces_drawn():
    error = 0.3 * DEGREE
    left = shapely.Polygon([(-100, 0), (0, 0), (-150 * math.tan(error), 150), (-100, 150)])
    right = affinity.scale(left, xfact=-1, origin=(0, 0))  # the other half, flipped over, ends touching at the fence
    line = shapely.LineString([(-99, 149.999), (99, 149.999)])
    gap = line.length - line.intersection(left.union(right)).length
    assert other_saws.flip_error(gap - (198 - line.length), 150) == pytest.approx(error, rel=1e-3)


def test_frame_fails_to_close():
    heading = 0.0
    for _ in range(4):
        heading += math.pi / 2 + 2 * 0.1 * DEGREE  # each corner is made of two cuts
    assert other_saws.frame_gap_angle(4, 0.1 * DEGREE) == pytest.approx(heading - 2 * math.pi)


def test_mitre_arithmetic_drawn():
    theta = 0.1 * DEGREE
    blade = affinity.rotate(shapely.LineString([(0, 0), (180, 0)]), math.degrees(theta), origin=(0, 0))
    (x0, y0), (x1, y1) = blade.coords
    assert other_saws.slot_angle(10 + y0, 10 + y1, x1 - x0) == pytest.approx(theta)
    assert other_saws.heel(x1 - x0, theta) == pytest.approx(y1 - y0)
    board = shapely.Polygon([(0, 0), (19 * math.tan(theta), 19), (50, 19), (50, 0)])
    assert other_saws.bevel_stop_error(19, theta) == pytest.approx(width_at(board, 0.0) - width_at(board, 19.0))
    wobble = 0.02 / 60  # the plane of a flange that reads 0.02 over 60
    disc = affinity.rotate(shapely.LineString([(-125, 0), (125, 0)]), math.degrees(math.atan(wobble)))
    assert other_saws.rim_run_out(0.02, 250, 60) == pytest.approx(disc.bounds[3] - disc.bounds[1], rel=1e-6)


def test_riving_knife_between_body_and_kerf():
    assert other_saws.knife_side_play(2.2, 2.5, 3.2) == pytest.approx(0.35)
    for knife in (2.0, 2.2, 3.2, 3.5):
        with pytest.raises(OutsideMethod):
            other_saws.knife_side_play(2.2, knife, 3.2)
    assert not other_saws.knife_gap_fits(2.9e-3) and other_saws.knife_gap_fits(3e-3) and other_saws.knife_gap_fits(8e-3)


def test_circular_chip_integrated():
    radius, height, depth_top = 125.0, 20.0, 10.0
    upper, lower = math.acos(depth_top / radius), math.acos((depth_top + height) / radius)
    bite = other_saws.circular_bite(5 / 60, 4500 / 60, 40)
    assert bite == pytest.approx(5 / (4500 * 40))
    # Thickness of the chip along the arc is the feed times the sine of the angle from the vertical to the feed line.
    mean_chip = integrate.quad(lambda a: bite * math.sin(a), lower, upper)[0] / (upper - lower)
    assert other_saws.circular_mean_chip(bite, height, radius, upper - lower) == pytest.approx(mean_chip)


@settings(max_examples=30)
@given(st.floats(0.05, 0.5), st.floats(5, 100))
def test_rim_speed_by_steps(diameter, rotation):
    angle = np.linspace(0, 2 * math.pi, 20_001)
    way = np.sum(np.hypot(np.diff(diameter / 2 * np.cos(angle)), np.diff(diameter / 2 * np.sin(angle))))
    assert other_saws.rim_speed(diameter, rotation) == pytest.approx(way * rotation, rel=1e-6)


@pytest.mark.parametrize(
    "call",
    [
        lambda: uncertainty.coverage_factor(1.0, 5),
        lambda: uncertainty.coverage_factor(0.95, 0.5),
        lambda: uncertainty.line_fit([1, 1, 1], [1, 2, 3]),
        lambda: uncertainty.spread([1.0]),
        lambda: testcut.cut_tilt(0.0, 20, 20, 20, 50),
        lambda: testcut.cut_tilt(math.nan, 20, 20, 20, 50),
        lambda: decision.verdict(math.nan, 0.01, 0.1),
        lambda: testcut.height_needed(0.02, 0.001, 1.0, 1.0),
        lambda: drift.fence_shift(0.5, 0.3),
        lambda: drift.tracking_share(600.0, 500.0),
        lambda: square.sag_slope(50.0, 400.0),
        lambda: records.weighted_means([1.0], 0.0, 1.5),
        lambda: records.wander([0, 0], [1.0, 2.0], 0.0),
        lambda: other_saws.table_chord(0.25, 0.3),
        lambda: other_saws.frame_gap_angle(2, 0.001),
    ],
)
def test_out_of_range_is_refused(call):
    with pytest.raises(OutsideMethod):
        call()
