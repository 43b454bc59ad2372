"""Doubt through the real value graph, against three tools that share nothing with it: the packages `uncertainties` and
GTC (first order, automatic derivatives) and Monte Carlo with numpy; and example H.1 of JCGM 100.

Each formula is written out here a second time, from the inputs to the output in one go, with a `maths` that is handed in: the
same text then runs on floats, on both packages' numbers and on arrays of random draws.
"""

import math
import types

import GTC
import numpy as np
import pytest
import uncertainties
from uncertainties import umath

from sawside import guide, values
from sawside.calc.uncertainty import coverage_factor, effective_degrees
from sawside.families.wood_band_saw import FAMILY
from sawside.model import Value, ValueSpec
from sawside.outputs import doubt
from sawside.values import Given

FLOATS = types.SimpleNamespace(sqrt=math.sqrt, asin=math.asin, atan=math.atan, tanh=math.tanh, sin=math.sin)
FIRST = types.SimpleNamespace(sqrt=umath.sqrt, asin=umath.asin, atan=umath.atan, tanh=umath.tanh, sin=umath.sin)
SECOND = types.SimpleNamespace(sqrt=GTC.sqrt, asin=GTC.asin, atan=GTC.atan, tanh=GTC.tanh, sin=GTC.sin)
ARRAYS = types.SimpleNamespace(sqrt=np.sqrt, asin=np.arcsin, atan=np.arctan, tanh=np.tanh, sin=np.sin)


# --- The formulas, written out again ----------------------------------------------------------------------------------


def way_round(x, maths):
    half = (x.wheel_diameter_upper - x.wheel_diameter_lower) / 2
    straight = 2 * maths.sqrt(x.centre_distance**2 - half**2)
    arcs = math.pi * (x.wheel_diameter_upper + x.wheel_diameter_lower) / 2 + 2 * half * maths.asin(half / x.centre_distance)
    return straight + arcs + math.pi * x.blade_thickness


def free_span(x, maths):
    half = (x.wheel_diameter_upper - x.wheel_diameter_lower) / 2
    return maths.sqrt(x.centre_distance**2 - half**2)


def body(x):
    return x.blade_width - x.gullet_depth


def pull(x):
    return x.stress * body(x) * x.blade_thickness * x.of_area


def mass(x):
    return x.steel_density * x.blade_thickness * (x.blade_width - x.gullet_depth * (1 - x.tooth_zone_share))


def stiffness_length(x, maths):
    """sqrt(E I / F): the length over which a clamped blade feels its own stiffness."""
    return maths.sqrt(x.youngs_modulus * x.blade_thickness**2 / (12 * x.stress * x.of_area))


def push(x, maths):
    span, end = free_span(x, maths), 4 * stiffness_length(x, maths)
    return x.of_push * 4 * pull(x) * x.push_distance / (span - end * maths.tanh(span / end))


def tone(x, maths):
    """Series for a stiff string with clamped ends (Morse; Fletcher: from memory), right to 6e-5 on strands this long."""
    span = free_span(x, maths)
    e = stiffness_length(x, maths) / span
    return x.of_tone * maths.sqrt(pull(x) / mass(x)) / (2 * span) * (1 + 2 * e + (4 + math.pi**2 / 2) * e**2)


def steered(x, maths):
    """Rigid band turned into its kerf: outer back corner and inner side touch the walls at once."""
    room, half = x.kerf - x.blade_thickness, (x.kerf**2 - x.blade_thickness**2) / 4
    e = maths.sqrt(2 * x.blade_width**2 - 2 * half) - x.blade_width
    return maths.sqrt(((e**2 + half) / room) ** 2 + e**2)


def edge_slack(x, maths):
    b, t, span = body(x), x.blade_thickness, guide_span(x)
    k = maths.sqrt(pull(x) * 12 / (x.youngs_modulus * t * b**3))
    return pull(x) * b / 3 * k / maths.tanh(k * span / 2)


def guide_span(x):
    return x.usual_work_height + x.guide_post_gap + x.lower_guide_below_table


def tip(x, maths):
    b, t, span = body(x), x.blade_thickness, guide_span(x)
    u = span / 2 / stiffness_length(x, maths)
    torsion = b * t**3 * (1 / 3 - 0.21 * t / b * (1 - (t / b) ** 4 / 12))
    twist = x.youngs_modulus / (2 + 2 * x.poisson_ratio) * torsion + pull(x) * (b**2 + t**2) / 12
    side = span / (4 * pull(x)) * (1 - maths.tanh(u) / u)
    return 1 / (side + (b / 2 + x.gullet_depth) ** 2 * span / (4 * twist))


def loop(x):
    stretch = x.blade_length / (x.youngs_modulus * body(x) * x.blade_thickness * x.of_area)
    return 1 / (stretch + 4 / x.tension_spring_rate + 4 / x.frame_stiffness)


def reserve(x, maths):
    bend = x.youngs_modulus * x.blade_thickness / (x.wheel_diameter_lower + x.blade_thickness)
    strength = x.steel_strength
    endurance = strength / 2 * 1.58 * (strength / 1e6) ** -0.085 * x.reliability_factor
    return 1 / (x.notch_factor * bend / 2 / endurance + (x.stress + bend / 2) / strength)


def yaw(x, maths):
    a, t, s = x.side_guide_contact, x.blade_thickness, x.side_clearance
    return maths.asin((t + 2 * s) / maths.sqrt(a**2 + t**2)) - maths.atan(t / a)


#: Value of the graph -> the same written out.
WRITTEN = {
    "loop_length": way_round,
    "free_span": free_span,
    "rated_length_gap": lambda x, m: x.rated_blade_length - way_round(x, m),
    "band_speed": lambda x, m: math.pi * (x.wheel_diameter_lower + x.blade_thickness) * x.wheel_speed,
    "wrap_angle_lower": lambda x, m: math.pi
    + 2 * m.asin((x.wheel_diameter_lower - x.wheel_diameter_upper) / 2 / x.centre_distance),
    "thickness_ratio": lambda x, m: x.wheel_diameter_lower / x.blade_thickness,
    "bending_stress": lambda x, m: x.youngs_modulus / (x.wheel_diameter_lower / x.blade_thickness + 1),
    "mass_per_length": lambda x, m: mass(x),
    "strand_force": lambda x, m: pull(x),
    "wheel_load": lambda x, m: 2 * pull(x),
    "widest_blade": lambda x, m: x.wheel_load_max / (2 * x.least * x.blade_thickness) + x.gullet_depth,
    "setting_stretch": lambda x, m: x.stress * x.gauge_length / x.youngs_modulus,
    "setting_push": push,
    "setting_tone": tone,
    "minimum_radius": steered,
    "coil_diameter": lambda x, m: x.blade_length / (3 * math.pi),
    "coil_smallest": lambda x, m: x.blade_thickness * (x.youngs_modulus / x.steel_yield - 1),
    "guide_setback": lambda x, m: x.gullet_depth + x.thrust_gap + x.guide_extra_margin,
    "tip_stiffness": tip,
    "edge_slack_floor": edge_slack,
    "guide_yaw": yaw,
    "tip_travel": lambda x, m: x.side_clearance
    + (x.thrust_gap + x.guide_extra_margin + x.gullet_depth) * m.sin(yaw(x, m)),
    "screw_turns": lambda x, m: pull(x) / (2 * loop(x) * x.tension_screw_pitch),
    "goodman_factor": reserve,
    "bends_per_hour": lambda x, m: 7200 * math.pi * (x.wheel_diameter_lower + x.blade_thickness) * x.wheel_speed
    / x.blade_length,
}  # fmt: skip

#: Machine, blade, doubts put in where the shop states none (in SI; with a value where it has none), values to compare. Varied
#: on purpose: four saws, nine blades, one doubt or many, small and large.
CASES = [
    ("bench-250", "a10-6", {}, ("loop_length", "setting_push", "setting_tone", "guide_setback", "widest_blade")),
    ("bench-250", "a6-6", {"gullet_depth": 0.1e-3, "blade_width": 0.1e-3, "youngs_modulus": 5e9}, ("tip_stiffness", "strand_force")),
    ("bench-250", "a13-3", {"kerf": 0.03e-3, "blade_thickness": 0.01e-3}, ("minimum_radius",)),
    ("bench-250", "a10-6", {"side_guide_contact": 0.5e-3, "side_clearance": 0.02e-3}, ("guide_yaw", "tip_travel")),
    ("lever-350", "b13-3", {}, ("minimum_radius", "wheel_load", "setting_push", "edge_slack_floor", "bends_per_hour")),
    ("lever-350", "b13-4", {"blade_length": 3e-3, "centre_distance": 2e-3}, ("coil_diameter", "free_span", "rated_length_gap")),
    ("lever-350", "b13-3", {"maker_stress": (110e6, 8e6), "gauge_length": 0.5e-3, "youngs_modulus": 4e9, "push_distance": 0.2e-3}, ("setting_stretch", "setting_tone")),
    ("block-450", "c19-3", {"tension_spring_rate": 6e3, "tension_screw_pitch": 0.02e-3}, ("screw_turns", "mass_per_length", "loop_length")),
    ("block-450", "c25-10", {"gullet_depth": 0.2e-3, "blade_thickness": 0.02e-3}, ("tip_stiffness", "setting_push")),
    ("block-450", "c25-2", {"steel_yield": 40e6, "blade_thickness": 0.03e-3}, ("coil_smallest",)),
    ("old-18-inch", "d13-4", {}, ("wrap_angle_lower", "thickness_ratio", "bending_stress", "band_speed", "strand_force", "tip_stiffness")),
    ("old-18-inch", "d19-3", {"steel_strength": (1200e6, 40e6), "notch_factor": 0.1, "blade_thickness": 0.02e-3}, ("goodman_factor",)),
    ("old-18-inch", "d19-3", {"blade_width": 0.3e-3, "tyre_width": 0.8e-3}, ("mass_per_length",)),
]  # fmt: skip
PAIRS = [(*case[:3], name) for case in CASES for name in case[3]]
DRAWS = 40_000


def inputs(shop, machine, blade, extra):
    """Return value and doubt of every input of a saw with a blade, with the case's own doubts put in."""
    record = next(m for m in shop.machines if m.id == machine)
    known = guide.know(shop, record, shop.blade(blade))
    given = {name: Given(e.value, e.plus_minus, e.status) for name, e in known.entries.items()}  # stated doubts only
    for field in FAMILY.machine + FAMILY.blade:
        given.setdefault(field.name, values.unknown())
    for name, put in extra.items():
        given[name] = Given(*put) if isinstance(put, tuple) else Given(given[name].value, put)
    return given


def written_out(name, given, make, maths):
    """Work out the written-out formula with every doubted input made by `make(value, doubt)`."""
    found = values.resolve(FAMILY.ordered, {n: Given(g.value) for n, g in given.items()})
    numbers = {n: make(g.value, g.plus_minus) if g.plus_minus else g.value for n, g in given.items()}
    if not given["gullet_depth"].value:
        numbers["gullet_depth"] = found["gullet"].value
    # What the methods themselves may be off by: area of the body, ends of the strand in push and in tone.
    x = types.SimpleNamespace(**numbers, of_area=make(1.0, 0.02), of_push=make(1.0, 0.015), of_tone=make(1.0, 0.01))
    x.least = found["target_stress_low"].value
    x.stress = stress_set(x, found, given["maker_stress"].value)
    return WRITTEN[name](x, maths)


def stress_set(x, found, maker):
    """The tension that is set: published or maker's stress over the full width, or what the saw may carry."""
    basis, published = found["setting_basis"].value, x.maker_stress if maker else found["published_stress"].value
    if basis == "limited_by_saw":
        return x.wheel_load_max / (1.1 * 2 * body(x) * x.blade_thickness * x.of_area)
    if basis == "limit_not_known":
        return 0.9 * published * x.blade_width / body(x) if maker else x.least
    return published * x.blade_width / body(x)


def case_id(case):
    return f"{case[0]}-{case[1]}-{case[3]}"


@pytest.fixture(scope="module")
def graph(shop):
    """The graph's own answer for a case; each case's values are resolved once."""
    kept = {}

    def answer(machine, blade, extra, name):
        key = (machine, blade, tuple(extra))
        if key not in kept:
            given = inputs(shop, machine, blade, extra)
            kept[key] = given, values.resolve(FAMILY.ordered, given)
        given, found = kept[key]
        assert isinstance(found[name], Value), found[name]
        return given, found[name]

    return answer


def test_there_are_enough_varied_cases():
    assert len(PAIRS) >= 30 and len({(m, b) for m, b, _, _ in PAIRS}) >= 9 and len({n for *_, n in PAIRS}) >= 20
    assert set(WRITTEN) == {n for *_, n in PAIRS}


@pytest.mark.parametrize("case", PAIRS, ids=map(case_id, PAIRS))
def test_the_written_out_formula_is_the_graphs(case, graph):
    given, result = graph(*case)
    room = 1e-4 if case[3] == "setting_tone" else 1e-9
    assert written_out(case[3], given, lambda value, _: value, FLOATS) == pytest.approx(result.value, rel=room, abs=1e-12)


@pytest.mark.parametrize("case", PAIRS, ids=map(case_id, PAIRS))
def test_doubt_equals_two_first_order_packages(case, graph):
    given, result = graph(*case)
    first = written_out(case[3], given, uncertainties.ufloat, FIRST).std_dev
    second = GTC.uncertainty(written_out(case[3], given, GTC.ureal, SECOND))
    assert first == pytest.approx(second, rel=1e-9), "the oracles agree with each other"
    assert result.plus_minus == pytest.approx(first, rel=1e-3)


@pytest.mark.parametrize("case", PAIRS, ids=map(case_id, PAIRS))
def test_doubt_equals_monte_carlo_within_five_per_cent(case, graph):
    given, result = graph(*case)
    dice = np.random.default_rng(20260314)
    draws = written_out(case[3], given, lambda value, u: dice.normal(value, u, DRAWS), ARRAYS)
    assert result.plus_minus == pytest.approx(float(np.std(draws, ddof=1)), rel=0.05)


def test_contributions_equal_those_of_uncertainties(graph):
    given, result = graph("old-18-inch", "d13-4", {}, "tip_stiffness")
    numbers = {}

    def make(value, u):
        return numbers.setdefault((value, u) if value == 1.0 else value, uncertainties.ufloat(value, u))

    parts = written_out("tip_stiffness", given, make, FIRST).error_components()
    by_name = {n: abs(parts.get(numbers.get(g.value), 0.0)) for n, g in given.items() if g.plus_minus}
    for name, part in by_name.items():
        assert abs(result.doubt.get(name, 0.0)) == pytest.approx(part, rel=1e-3, abs=1e-9 * result.value)
    area = abs(parts.get(numbers[1.0, 0.02], 0.0))
    assert abs(result.doubt["body_area"]) == pytest.approx(area, rel=1e-3)
    assert sum(p**2 for p in by_name.values()) + area**2 == pytest.approx(result.plus_minus**2, rel=2e-3)


def test_the_known_limit_of_first_order_two_equal_wheels(shop):
    # The smaller of two equally wide, equally doubted wheels: first order says u / sqrt(2); the deviation of the least of
    # two normal draws is u sqrt(1 - 1/pi) (order statistics), 17 % more. Thickness outweighs it in every value built on it.
    given = inputs(shop, "lever-350", "b13-3", {})
    found = values.resolve(FAMILY.ordered, given)
    u = given["wheel_diameter_upper"].plus_minus
    assert found["smaller_wheel"].plus_minus == pytest.approx(u / math.sqrt(2), rel=1e-6)
    both = np.random.default_rng(7).normal(0.35, u, (2, DRAWS)).min(axis=0)
    assert float(both.std()) == pytest.approx(u * math.sqrt(1 - 1 / math.pi), rel=0.02)
    wheels = sum(found["bending_stress"].doubt[n] ** 2 for n in ("wheel_diameter_upper", "wheel_diameter_lower"))
    assert wheels < 0.01 * found["bending_stress"].plus_minus ** 2


# --- JCGM 100:2008, H.1, end-gauge calibration (inputs read second-hand in the documentation and tests of two packages) --


def end_gauge():
    """The length of an end gauge in nm, wired as values of a graph."""

    def difference(observed, comparator_random, comparator_systematic):
        return observed + comparator_random + comparator_systematic

    def temperature(mean_deviation, cyclic):
        return mean_deviation + cyclic

    def length(standard, difference, expansion_difference, temperature, expansion, temperature_difference):
        return standard + difference - standard * (expansion_difference * temperature + expansion * temperature_difference)

    specs = (ValueSpec("length", "length", length, "ratio"), ValueSpec("difference", "d", difference, "ratio"),
             ValueSpec("temperature", "theta", temperature, "ratio"))  # fmt: skip
    given = {
        "standard": Given(50_000_623.0, 25.0), "observed": Given(215.0, 5.8), "comparator_random": Given(0.0, 3.9),
        "comparator_systematic": Given(0.0, 6.7), "expansion": Given(11.5e-6, 1.2e-6), "mean_deviation": Given(-0.1, 0.2),
        "cyclic": Given(0.0, 0.35), "expansion_difference": Given(0.0, 0.58e-6), "temperature_difference": Given(0.0, 0.029),
    }  # fmt: skip
    return values.resolve(values.order(specs, given), given)["length"]


def test_end_gauge_of_the_guide_to_uncertainty():
    result = end_gauge()
    assert result.value == pytest.approx(50_000_838.0, abs=0.5)
    parts = {name: abs(part) for name, part in result.doubt.items()}
    wanted = {"standard": 25.0, "observed": 5.8, "comparator_random": 3.9, "comparator_systematic": 6.7,
              "expansion_difference": 2.9, "temperature_difference": 16.7}  # fmt: skip
    assert {name: round(part, 1) for name, part in parts.items() if part > 0.05} == wanted
    assert round(result.plus_minus, 1) == 31.7 and round(result.plus_minus) == 32
    # What the packages GTC and metrolopy print for it (read second-hand): 31.705090502 nm.
    assert result.plus_minus == pytest.approx(31.705090502, rel=1e-6)


def test_end_gauge_degrees_of_freedom():
    result = end_gauge()
    degrees = {"standard": 18, "observed": 24, "comparator_random": 5, "comparator_systematic": 8, "expansion_difference": 50,
               "temperature_difference": 2}  # fmt: skip
    names = [name for name in degrees if abs(result.doubt.get(name, 0.0)) > 1e-6]
    nu = effective_degrees([result.doubt[n] for n in names], [degrees[n] for n in names])
    assert round(nu, 1) == 16.6 and math.floor(nu) == 16
    # GTC's own 16.644609148 (read second-hand) adds up the same six; the printed way lumps three of them to 25.6 degrees.
    assert nu == pytest.approx(16.644609148, rel=1e-6)
    factor = coverage_factor(0.99, math.floor(nu))
    assert round(factor, 2) == 2.92 and round(factor * result.plus_minus) == 93


def test_end_gauge_with_the_rounded_contribution_is_not_31_705():
    # Printed contributions give 31.7 either way; 31.705 needs the unrounded 16.675 nm of the temperature difference.
    rounded = math.sqrt(25**2 + 5.8**2 + 3.9**2 + 6.7**2 + 2.9**2 + 16.6**2)
    assert round(rounded, 1) == 31.7 and abs(rounded - 31.705) > 0.03
    exact = math.sqrt(25**2 + 5.8**2 + 3.9**2 + 6.7**2 + 2.9**2 + 16.675**2)
    assert exact == pytest.approx(31.705, abs=0.001)


def test_end_gauge_with_gtc_itself():
    one, two = GTC.ureal(50_000_623, 25, 18), GTC.ureal(215, 5.8, 24) + GTC.ureal(0, 3.9, 5) + GTC.ureal(0, 6.7, 8)
    warm = GTC.ureal(-0.1, 0.2) + GTC.ureal(0, 0.35)
    whole = one + two - one * (GTC.ureal(0, 0.58e-6, 50) * warm + GTC.ureal(11.5e-6, 1.2e-6) * GTC.ureal(0, 0.029, 2))
    assert end_gauge().plus_minus == pytest.approx(GTC.uncertainty(whole), rel=1e-6)
    assert GTC.dof(whole) == pytest.approx(16.644609148, rel=1e-6)


# --- In words ---------------------------------------------------------------------------------------------------------


def test_the_input_to_measure_better_is_named(shop):
    record = next(m for m in shop.machines if m.id == "lever-350")
    known, printer = guide.know(shop, record, shop.blade("b13-3")), guide.printer(shop)
    found = doubt.most_doubtful(known, printer, FAMILY.shows.blade_numbers)
    assert found[0]["label"] == "Blade thickness" and "Calipers" in found[0]["measure"]
    said = doubt.sentences(known, printer, ("thickness_ratio",), most=1)
    assert said == [
        'Measure "Blade thickness" better (0.65 mm ± 0.02 mm): from it comes '
        'all of the doubt of "Wheel diameter over blade thickness" (538 ± 17).'
    ]
    # By hand: the aim is a stress over the full width, so the pull goes with w t, and stiffness adds a little: (0.02 / 0.65) is
    # by far the largest, then the push distance (0.25 / 5), which the shop has not stated and so counts with its usual doubt.
    result = known.results["setting_push"]
    share = result.doubt["blade_thickness"] / result.value
    assert share == pytest.approx(0.02 / 0.65, rel=0.05)
    assert result.doubt["push_distance"] / result.value == pytest.approx(0.25 / 5, rel=0.01)


def test_what_a_shop_does_not_state_has_its_usual_doubt(shop):
    """Every measured field and every assumption that can be off says by how much, and a stated +/- goes before it."""
    exact = {
        "blade_width_min",
        "blade_width_max",
        "wheel_load_max",
        "work_height_min",
        "work_height_max",
        "cut_radius",
        "feed_wanted",
        "usual_work_height",
        "guide_extra_margin",
        "thickness_ratio_good",
        "thickness_ratio_least",
        "teeth_least",
        "teeth_most",
        "square_tolerance",
        "caliper_doubt",
        "straight_width",
        "resaw_width",
        "overhang_allowed",
        "blade_warming",
        "reliability_factor",
    }  # limits, choices and examples: exact because somebody set them
    assert {f.name for f in FAMILY.fields if f.is_quantity and not (f.doubt or f.doubt_share)} == exact
    record = next(m for m in shop.machines if m.id == "lever-350")
    known = guide.know(shop, record, shop.blade("b10-6"))
    assert known.doubt("blade_thickness") == pytest.approx(0.03 * 0.65e-3)  # not stated: the trade's 3 %
    assert known.doubt("wheel_diameter_upper") == pytest.approx(1e-3)  # stated
    assert known.doubt("youngs_modulus") == pytest.approx(0.025 * 205e9)
    # No setting is printed as if it were known to a thousandth.
    for name in ("strand_force", "setting_push", "setting_tone", "setting_stretch", "setting_deflection"):
        result = known.results[name]
        assert result.plus_minus > 0.01 * result.value, name


def test_no_doubt_no_words(shop):
    record = next(m for m in shop.machines if m.id == "bench-250")
    known, printer = guide.know(shop, record, shop.blade("x16-4")), guide.printer(shop)
    assert doubt.words(known.results["setting_stretch"], printer) == ""
    assert doubt.words(known.results["buckling_load"], printer) == "" or known.results["buckling_load"].doubt
    names = [entry["name"] for entry in doubt.most_doubtful(known, printer)]
    assert names and all(known.doubt(name) for name in names)


def test_share_words_follow_the_square():
    assert [doubt.share_words(s) for s in (1.0, 0.95, 0.8, 0.6, 0.5, 0.35, 0.26)] == [
        "all", "nearly all", "most", "more than half", "half", "about a third", "the largest part"]  # fmt: skip
