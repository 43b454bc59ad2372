"""Blade choice: order without weights, dominance, what to buy, fewest blades; brute force and workshop judgement."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sawside.calc import choice, feed, margins, pitch, power, radius
from sawside.calc.limits import OutsideMethod
from sawside.calc.margins import Margin

# A busy machine must not fail a test by being slow, and every run tries the same examples.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")

INCH = 25.4e-3

# --- Three jobs on one invented saw, each answer known from shop practice (common practice, no source) --------------

#: name -> width [in], teeth per inch, thickness [in], total set [in]
RACK = {
    "1/8 14": (1 / 8, 14, 0.025, 0.018),
    "1/4 6": (1 / 4, 6, 0.025, 0.018),
    "3/8 4": (3 / 8, 4, 0.025, 0.018),
    "1/2 6": (1 / 2, 6, 0.025, 0.018),
    "1/2 4": (1 / 2, 4, 0.025, 0.018),
    "1/2 3": (1 / 2, 3, 0.025, 0.018),
    "3/4 3": (3 / 4, 3, 0.032, 0.022),
}
WHEELS, BAND, NET_POWER, STRAIN_FORCE, WIDEST, GULLETS = 356e-3, 15.0, 500.0, 1600.0, 19.1e-3, 0.40
WOOD = {"oak": (40e6, 1200.0), "pine": (25e6, 700.0)}
#: Width that cuts straight [m] and stress needed [Pa] by kind of cut; all assumed for this example.
STRAIGHT, STRESS = {"rip": 9.5e-3, "resaw": 12.7e-3, "curve": 0.0}, {"curve": 60e6, "rip": 80e6, "resaw": 100e6}
PINE_RIP = ("rip", "pine", 19e-3 + 0.05e-3, 50e-3, None, 2 / 60)
OAK_CURVE = ("curve", "oak", 19e-3 + 0.05e-3, 38e-3, 65e-3, None)
OAK_RESAW = ("resaw", "oak", 150e-3, 150e-3, None, 1 / 60)
TIGHT_CURVE = ("curve", "pine", 12e-3, 12e-3, 12e-3, None)


def blade_margins(blade, job):
    """All criteria of one blade in one job, from the public formulas; a criterion the job does not ask is left out."""
    width_in, tpi, thick_in, set_in = RACK[blade]
    width, thick, cut, tooth = width_in * INCH, thick_in * INCH, (thick_in + set_in) * INCH, INCH / tpi
    kind, wood, low, high, tight, wanted = job
    teeth = pitch.teeth_in_work_least(low, tooth)
    load = 2 * STRESS[kind] * (width - 0.35 * tooth) * thick  # both strands, body without the gullets
    found = [
        margins.margin("teeth_least", margins.teeth_least_ratio(teeth, 3)),
        margins.margin("width", margins.width_ratio(width, WIDEST)),
        margins.margin("bend", margins.bend_ratio(WHEELS, thick, 430)),
        margins.margin("tension", margins.tension_ratio(STRAIN_FORCE, load)),
    ]
    if tight:
        found.append(margins.margin("radius", margins.radius_ratio(tight, radius.minimum_radius(width, thick, cut))))
    if STRAIGHT[kind]:
        found.append(margins.margin("beam", margins.beam_ratio(width, STRAIGHT[kind])))
    if wanted:
        roomy = feed.feed_at_gullet_fill(GULLETS, BAND, high, 0.35 * tooth, 1 / 1.75)
        strong = power.feed_at_power(NET_POWER, BAND, high, cut, tooth, *WOOD[wood])
        found.append(margins.margin("gullet", margins.feed_ratio(roomy, wanted)))
        found.append(margins.margin("power", margins.feed_ratio(strong, wanted)))
    return found


def blade_grades(blade, job):
    """What practice looks at beyond the limits, from plain rules: teeth in the work, and the comfortable radius of 8 widths."""
    width_in, tpi, _, _ = RACK[blade]
    low, high, tight = job[2], job[3], job[4]
    teeth = math.sqrt(low * high) * tpi / INCH
    fine = 2 if high * tpi / INCH > 24 * 1.03 else 1 if teeth > 12 * 1.03 else 0
    turn = 0 if not tight or tight >= 8 * width_in * INCH / 1.03 else 1
    return [choice.Grade("teeth", fine, f"{teeth:.0f} teeth"), choice.Grade("turn", turn, "")]


def ranked(**jobs):
    table = {blade: {name: blade_margins(blade, job) for name, job in jobs.items()} for blade in RACK}
    marks = {blade: {name: blade_grades(blade, job) for name, job in jobs.items()} for blade in RACK}
    return choice.rank(table, marks, {blade: RACK[blade][0] * INCH for blade in RACK})


def test_workshop_rankings():
    # Tall oak: a wide band with few teeth, but not wider than a small saw can tension (Popular Woodworking 128,
    # June 2002, p. 61, READ: a 14 in saw cannot tension 3/4 in, use 3/8 to 1/2).
    # Tight curve in thin pine: narrow and fine. Mixed work: half-inch.
    tall = ranked(resaw=OAK_RESAW)
    assert tall[0].blade == "1/2 3" and tall[0].fits
    wide = next(r for r in tall if r.blade == "3/4 3")
    assert not wide.fits and "tension" in {m.name for m in blade_margins("3/4 3", OAK_RESAW) if not m.met}
    tight = ranked(curve=TIGHT_CURVE)
    assert tight[0].blade == "1/8 14" and tight[0].fits
    assert [r.blade for r in tight if r.fits] == ["1/8 14"]
    mixed = ranked(rip=PINE_RIP, curve=OAK_CURVE)
    assert mixed[0].blade in ("1/2 6", "1/2 4", "3/8 4") and mixed[0].fits
    assert {r.blade for r in mixed if not r.fits} >= {"1/8 14", "1/4 6", "1/2 3", "3/4 3"}


def test_exactly_three_teeth_pass():
    # 4 TPI in 19.05 mm is three teeth; the last bit of a float must not throw the blade out.
    margin = next(m for m in blade_margins("1/2 4", PINE_RIP) if m.name == "teeth_least")
    assert margin.ratio == pytest.approx(1) and margin.met
    assert Margin("x", 1 - 1e-12, "").met and not Margin("x", 1 - 1e-6, "").met


# --- Order ----------------------------------------------------------------------------------------------------------

TENTHS = st.sampled_from([0.0, 0.5, 0.9, 1.0, 1.1, 1.5, 2.0, 3.0])
RATIOS = st.one_of(TENTHS, st.integers(0, 5000).map(lambda n: n / 1000))


@st.composite
def tables(draw):
    blades = [f"b{i}" for i in range(draw(st.integers(1, 5)))]
    jobs = {f"j{i}": draw(st.integers(1, 3)) for i in range(draw(st.integers(1, 3)))}
    return {blade: {job: [Margin(f"c{i}", draw(RATIOS), "words") for i in range(n)] for job, n in jobs.items()} for blade in blades}


MARKS = st.sampled_from([choice.GOOD, choice.MIDDLING, choice.POOR])


def graded(draw, table):
    """Grades of the same shape for every blade of a table."""
    shape = {job: draw(st.integers(0, 3)) for job in next(iter(table.values()))}
    return {
        blade: {job: [choice.Grade(f"g{i}", draw(MARKS), "words") for i in range(n)] for job, n in shape.items()} for blade in table
    }


def better(one, other, marks, others):
    """The stated rules, written out as plain comparisons: 1 when `one` is better, -1 worse, 0 alike but for the width."""

    def jobs_failed(jobs):
        return sum(any(m.ratio < 1 - 1e-9 for m in found) for found in jobs.values())

    def criteria_failed(jobs):
        return sum(m.ratio < 1 - 1e-9 for found in jobs.values() for m in found)

    for count in (jobs_failed, criteria_failed):
        if count(one) != count(other):
            return 1 if count(one) < count(other) else -1
    if criteria_failed(one):
        ladders = [sorted(m.ratio for found in jobs.values() for m in found) for jobs in (one, other)]
        for a, b in zip(*ladders):
            if abs(a - b) > 2e-9:
                return 1 if a > b else -1
        return 0
    worst = [sorted((g.grade for found in jobs.values() for g in found), reverse=True) for jobs in (marks, others)]
    return 0 if worst[0] == worst[1] else 1 if worst[0] < worst[1] else -1


@given(st.data(), tables(), st.lists(st.sampled_from([6e-3, 6.1e-3, 10e-3, 13e-3]), min_size=5, max_size=5))
@settings(max_examples=200)
def test_order_is_the_stated_one(data, table, sizes):
    marks, widths = graded(data.draw, table), dict(zip(table, sizes))
    found = choice.rank(table, marks, widths)
    assert {r.blade for r in found} == set(table) and found[0].place == 1
    for number, (before, after) in enumerate(zip(found, found[1:]), 2):
        way = better(table[before.blade], table[after.blade], marks[before.blade], marks[after.blade])
        assert way > 0 or (way == 0 and widths[before.blade] >= widths[after.blade])
        # A shared place: graded alike, both fit, and one nominal width.
        alike = way == 0 and after.fits and widths[after.blade] >= 0.97 * widths[found[before.place - 1].blade]
        assert after.place == (before.place if alike else number)
    for one in found:
        assert set(one.equal_to) == {r.blade for r in found if r.place == one.place} - {one.blade}


@given(tables())
def test_beaten_by_is_plain_dominance(table):
    widths = dict.fromkeys(table, 10.0)
    found = {r.blade: r for r in choice.rank(table, {b: {} for b in table}, widths)}
    for blade, place in found.items():
        for other in table:
            pairs = [(m.ratio, n.ratio) for j in table[blade] for m, n in zip(table[other][j], table[blade][j])]
            dominated = all(a >= b * (1 - 1e-9) for a, b in pairs) and any(a > b * (1 + 1e-9) for a, b in pairs)
            assert (other in place.beaten_by) == (dominated and other != blade)


@given(st.data(), tables(), st.randoms(use_true_random=False))
def test_order_does_not_depend_on_the_order_of_the_file(data, table, random):
    marks, widths = graded(data.draw, table), dict.fromkeys(table, 10.0)
    shuffled = list(table)
    random.shuffle(shuffled)
    again = choice.rank({blade: table[blade] for blade in shuffled}, marks, widths)
    assert [r.blade for r in again] == [r.blade for r in choice.rank(table, marks, widths)]


@given(st.data(), tables())
def test_binding_is_the_least_margin_and_worst_the_worst_grade(data, table):
    marks = graded(data.draw, table)
    for r in choice.rank(table, marks, dict.fromkeys(table, 10.0)):
        assert r.binding.ratio == min(m.ratio for found in table[r.blade].values() for m in found)
        assert r.binding in table[r.blade][r.binding_job]
        assert r.fits == (r.criteria_failed == 0)
        every = [g.grade for found in marks[r.blade].values() for g in found]
        assert (r.worst.grade if r.worst else None) == max(every, default=None)


def test_no_average_can_buy_off_a_failure():
    # A weighted sum would take the blade that is superb at four things and cannot do the fifth.
    table = {
        "superb": {"job": [Margin(str(i), 50.0, "") for i in range(4)] + [Margin("4", 0.99, "")]},
        "plain": {"job": [Margin(str(i), 1.01, "") for i in range(5)]},
    }
    assert choice.rank(table, {"superb": {}, "plain": {}}, {"superb": 19.0, "plain": 6.0})[0].blade == "plain"


def test_three_tenths_of_a_millimetre_decide_nothing():
    limits = {"a": {"rip": [Margin("x", 2.0, "")]}, "b": {"rip": [Margin("x", 1.1, "")]}}
    found = choice.rank(limits, {"a": {}, "b": {}}, {"a": 12.7e-3, "b": 13.0e-3})
    assert [(r.place, r.equal_to) for r in found] == [(1, ("a",)), (1, ("b",))]
    found = choice.rank(limits, {"a": {}, "b": {}}, {"a": 10e-3, "b": 13.0e-3})
    assert [(r.blade, r.place) for r in found] == [("b", 1), ("a", 2)]


def test_uneven_tables_are_refused():
    for table in (
        {},
        {"a": {}},
        {"a": {"rip": []}},
        {"a": {"rip": [Margin("x", 1, "")]}, "b": {"rip": [Margin("y", 1, "")]}},
        {"a": {"rip": [Margin("x", 1, "")]}, "b": {"curve": [Margin("x", 1, "")]}},
    ):
        with pytest.raises(OutsideMethod):
            choice.rank(table, {"a": {}, "b": {}}, {"a": 1.0, "b": 1.0})


# --- Margins --------------------------------------------------------------------------------------------------------


@given(st.floats(1e-4, 1e3), st.floats(1e-4, 1e3))
def test_margins_agree_with_the_plain_comparison(need, have):
    for good in (
        lambda: margins.teeth_least_ratio(have, need),
        lambda: margins.teeth_most_ratio(need, have),
        lambda: margins.radius_ratio(have, need),
        lambda: margins.feed_ratio(have, need),
        lambda: margins.finish_ratio(have, need),
        lambda: margins.width_ratio(need, have),
        lambda: margins.bend_ratio(have, 1.0, need),
        lambda: margins.tension_ratio(have, need),
        lambda: margins.beam_ratio(have, need),
    ):
        ratio = good()
        assert ratio == pytest.approx(have / need)
        if abs(have / need - 1) > 1e-6:
            assert (ratio >= 1) == (have >= need)


@pytest.mark.parametrize("name", sorted(margins.WORDS))
def test_margin_words(name):
    good, bad = margins.margin(name, 1.0), margins.margin(name, 0.5)
    assert (good.words, bad.words) == margins.WORDS[name] and good.words != bad.words
    assert good.met and not bad.met and margins.margin(name, math.inf).met
    for ratio in (-0.1, math.nan):
        with pytest.raises(OutsideMethod):
            margins.margin(name, ratio)


# --- What to buy ----------------------------------------------------------------------------------------------------


@given(
    st.floats(3e-3, 40e-3),
    st.floats(3e-3, 40e-3),
    st.floats(0.2, 1.0),
    st.floats(3e-3, 0.2),
    st.floats(1.0, 20.0),
    st.floats(1.0, 2.0),
    st.floats(0.0, 1.0),
)
def test_wanted_blade_meets_the_criteria(least, most, wheel, low, spread, thinner, between):
    high = low * spread
    ask = choice.wanted(least, most, wheel, 430, low, high, 3, 24, ("bi_metal",))
    possible = least <= most * (1 + 1e-9) and high / 24 <= low / 3 * (1 + 1e-9)
    assert (ask.conflict == "") == possible
    if not possible:
        return
    tooth = ask.pitch_finest + between * (ask.pitch_coarsest - ask.pitch_finest)
    width = ask.width_least + between * (ask.width_most - ask.width_least)
    ratios = [
        margins.teeth_least_ratio(low / tooth, 3),
        margins.teeth_most_ratio(high / tooth, 24),
        margins.bend_ratio(wheel, ask.thickness_most / thinner, 430),
        margins.width_ratio(width, most),
        margins.beam_ratio(width, least),
    ]
    assert all(Margin("x", ratio, "").met for ratio in ratios)


def test_wood_has_no_finest_pitch():
    assert choice.wanted(6e-3, 12e-3, 0.356, 430, 3e-3, 0.3, 3, None, ()).pitch_finest == 0.0


def test_backs_are_known_words():
    backs = {"carbon_flexible_back", "carbon_hard_back", "bi_metal", "carbide_tipped"}
    for material in choice.BACKS_FOR:
        assert choice.backs_for(material) and set(choice.backs_for(material)) <= backs
    with pytest.raises(OutsideMethod):
        choice.backs_for("granite")


# --- Fewest blades --------------------------------------------------------------------------------------------------


@given(st.dictionaries(st.sampled_from("abcdefg"), st.sets(st.sampled_from("uvwxyz"), min_size=1), max_size=7))
@settings(max_examples=200)
def test_fewest_blades_by_brute_force(able):
    found = choice.fewest_blades({job: sorted(blades) for job, blades in able.items()})
    assert all(set(found) & blades for blades in able.values()) and len(set(found)) == len(found)
    smaller = itertools.combinations("uvwxyz", max(0, len(found) - 1))
    if found:
        assert not any(all(set(few) & blades for blades in able.values()) for few in smaller)


def test_greedy_would_take_one_blade_too_many():
    able = {"1": "ac", "2": "ac", "3": "ad", "4": "ad", "5": "bc", "6": "bd"}
    assert len(choice.fewest_blades(able)) == 2
    with pytest.raises(OutsideMethod):
        choice.fewest_blades({"curve": []})


# --- What the trade would choose: ten rankings on the invented rack (common practice, no source, unless one is named) ---

#: job, saw -> the first blades in order, then blades that must come behind them or be out.
TRADE = [
    # Tall oak on a 350 mm saw: 1/2 in 3 TPI hook; a magazine takes the widest that the saw can still tension (READ).
    ("resaw-oak", "lever-350", ["b13-3", "b13-4"], ["b13-6"]),
    # The same on a big saw: wide, few teeth, before a finer one.
    ("resaw-oak", "block-450", ["c25-2"], ["c19-3", "c13-4"]),
    # R 80 mm in 60 mm hardwood: 10 mm with 4 to 6 TPI goes easily (width an eighth of the radius, US Navy Builder 3&2, READ).
    ("gentle-curves", "lever-350", ["b10-6"], ["b10-14", "b13-3", "b13-6"]),
    ("gentle-curves", "old-18-inch", ["d10-4"], ["d13-4", "d19-3"]),
    ("gentle-curves", "bench-250", ["a10-6"], ["a3-14", "a13-3"]),
    # Tight curves in thin ply: the narrowest with fine teeth, and nothing else.
    ("tight-curves-ply", "bench-250", ["a3-14"], ["a6-6", "a10-6"]),
    # 100 mm of green log: few teeth and deep gullets, not the 1/4 in blade of 24 teeth.
    ("bowl-blanks", "lever-350", ["b13-3"], ["b6-6", "b10-6"]),
    ("bowl-blanks", "block-450", ["c13-4"], ["c6-6"]),
    # Thick hardwood along the grain: hook and few teeth before a fine regular blade.
    ("rip-hardwood", "lever-350", ["b13-3", "b13-4"], ["b13-6", "b10-14"]),
    # Acrylic sheet: fine teeth (14 TPI) only.
    ("acrylic", "lever-350", ["b10-14"], ["b6-6", "b13-6"]),
    # Logs of 250 mm: 2 TPI.
    ("log-cradle", "block-450", ["c25-2"], ["c13-4", "c16-3"]),
]


@pytest.mark.parametrize(("job", "saw", "first", "behind"), TRADE, ids=[f"{job} on {saw}" for job, saw, _, _ in TRADE])
def test_the_trade_would_choose_so(shop, job, saw, first, behind):
    from sawside import guide, selection

    machine = next(m for m in shop.machines if m.id == saw)
    printer = guide.printer(shop)
    rows = selection.job_rows(shop, {b.id: guide.know(shop, machine, b) for b in shop.blades}, printer)
    cells = next(row for row in rows if row["id"] == job)["cells"]
    order = [cell["blade"] for cell in cells if cell["fits"]]
    assert order[: len(first)] == first
    ahead = {cell["blade"] for cell in cells if cell["fits"] and cell["rank"] <= len(first)}
    assert not ahead & set(behind)
    # The reason of the first is made of facts of the work, not of a margin that never decides.
    assert "teeth in the work" in cells[0]["reason"] and "wheel over thickness" not in cells[0]["reason"]
