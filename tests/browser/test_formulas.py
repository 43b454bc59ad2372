"""The worksheets' formulas, as they stand in the site's script, give what Python gives on 1000 random inputs each, in a browser."""

import json
import math
import random

import pytest

from sawside.calc import band, decision, drift, strand, tension, testcut, uncertainty, vibration
from sawside.calc.limits import OutsideMethod
from sawside.families import FAMILIES
from sawside.outputs import worksheet_data

SCRIPT = worksheet_data.script(FAMILIES[0])
COUNT = 1000

#: Name in the script -> (the function it was translated from, ranges of its arguments).
TWINS = {
    "flexural_rigidity": (strand.flexural_rigidity, [(1e-3, 80e-3), (0.3e-3, 1.5e-3), (180e9, 220e9)]),
    "force_from_deflection": (strand.force_from_deflection, [(1, 100), (0.5e-3, 20e-3), (0.2, 2), (1e-3, 1)]),
    "stress_from_stretch": (band.stress_from_stretch, [(0, 1e-3), (0.05, 0.5), (180e9, 220e9)]),
    "force_from_frequency": (vibration.force_from_frequency, [(40, 400), (0.2, 1.5), (0.01, 0.5), (1e-3, 1)]),
    "cut_tilt": (testcut.cut_tilt, [(0.01, 0.1)] * 4 + [(0.01, 0.3)]),
    "cut_taper": (testcut.cut_taper, [(0.01, 0.1)] * 4 + [(0.01, 0.9)]),
    "cut_twist": (testcut.cut_twist, [(0.01, 0.1)] * 4),
    "twist_matters": (testcut.twist_matters, [(-1e-4, 1e-4), (0, 1e-4)]),
    "turned_cut_tilt": (testcut.turned_cut_tilt, [(0.01, 0.1), (0.01, 0.1), (0.01, 0.3)]),
    "tilt_doubt": (testcut.tilt_doubt, [(0, 1e-4), (0.01, 0.3)]),
    "turned_cut_doubt": (testcut.turned_cut_doubt, [(0, 1e-4), (0.01, 0.3)]),
    "verdict": (decision.verdict, [(-0.3, 0.3), (0, 0.1), (0.01, 0.2)]),
    "decide": (decision.decide, [(0, 10), (2, 4), (5, 9), (0, 1.5)]),
    "stop_bolt_turns": (testcut.stop_bolt_turns, [(-0.2, 0.2), (0.02, 0.4), (0.4e-3, 3e-3)]),
    "drift_angle": (drift.drift_angle, [(-0.1, 0.1), (-0.1, 0.1), (0.05, 1)]),
    "drift_doubt": (drift.drift_doubt, [(0, 1e-3), (0.05, 1)]),
    "fence_shift": (drift.fence_shift, [(-0.2, 0.2), (0.1, 1)]),
    "straightedge_doubt": (drift.straightedge_doubt, [(0, 1e-4), (2e-3, 30e-3), (0, 1e-4), (0.1, 1)]),
    "pluck_note": (vibration.pluck_note, [(4, 14000)]),
}


def inputs(ranges, seed):
    source = random.Random(seed)
    return [[source.uniform(low, high) for low, high in ranges] for _ in range(COUNT)]


def in_browser(page, name, rows):
    """Return what the browser computes: a number, words, or {refused} for each row."""
    page.goto("about:blank")
    page.add_script_tag(content=SCRIPT)
    return page.evaluate(
        """([name, rows]) => rows.map((row) => {
            try { return sawside.formulas[name](...row); }
            catch (error) { if (error instanceof sawside.Refused) return {refused: error.message}; throw error; }
        })""",
        [name, rows],
    )


def in_python(function, row):
    try:
        return function(*row)
    except OutsideMethod:
        return None


def same(name, rows, got, expected):
    numbers = 0
    for row, js, py in zip(rows, got, expected, strict=True):
        if py is None:
            assert isinstance(js, dict), f"{name}{row}: Python refuses, the browser says {js}"
        elif isinstance(py, str | bool):
            assert js == py, f"{name}{row}"
            numbers += 1
        else:
            assert not isinstance(js, dict), f"{name}{row}: the browser refuses, Python says {py}"
            assert math.isclose(js, py, rel_tol=1e-9, abs_tol=1e-15), f"{name}{row}: {js} {py}"
            numbers += 1
    assert numbers > COUNT / 4, f"{name}: only {numbers} of {COUNT} inputs were inside the method"


@pytest.mark.parametrize("name", TWINS)
def test_same_as_python(name, page):
    function, ranges = TWINS[name]
    rows = inputs(ranges, name)
    same(name, rows, in_browser(page, name, rows), [in_python(function, row) for row in rows])


@pytest.mark.parametrize("side", ["accept", "adjust"])
def test_limits_of_the_turned_cut(page, side):
    rows = [[*row, side] for row in inputs([(0, 1e-4), (5e-4, 5e-3), (0.01, 0.3)], side)]
    same(
        "turned_cut_limit",
        rows,
        in_browser(page, "turned_cut_limit", rows),
        [in_python(testcut.turned_cut_limit, row) for row in rows],
    )


def test_scale_fit_and_reading(page):
    source, rows = random.Random(5), []
    for _ in range(COUNT):
        marks = [source.uniform(0, 10) for _ in range(source.randint(2, 6))]
        rows.append([marks, [200 * m + source.gauss(300, 30) for m in marks], source.uniform(100, 2500)])
    page.goto("about:blank")
    page.add_script_tag(content=SCRIPT)
    got = page.evaluate(
        """(rows) => rows.map(([marks, loads, load]) => {
            try { const fit = sawside.formulas.fit_scale(marks, loads);
                  return [fit.offset, fit.slope, fit.residual, sawside.formulas.scale_reading(fit, load / 2, 1)]; }
            catch (error) { if (error instanceof sawside.Refused) return null; throw error; }
        })""",
        rows,
    )
    read = 0
    for (marks, loads, load), js in zip(rows, got, strict=True):
        try:
            fit = tension.fit_scale(marks, loads)
            py = [fit.offset, fit.slope, fit.residual, tension.scale_reading(fit, load / 2, 1.0)]
        except OutsideMethod:
            assert js is None
            continue
        read += 1
        for one, two in zip(js, py, strict=True):
            assert (one is None) == (two is None)
            assert one is None or math.isclose(one, two, rel_tol=1e-9, abs_tol=1e-9)
    assert read > COUNT / 4


#: These take what others have looked at: on their own they pass on what is no number.
TRUSTING = {"flexural_rigidity", "cut_twist", "tilt_doubt", "turned_cut_doubt", "drift_doubt"}


@pytest.mark.parametrize("name", [name for name in TWINS if name not in TRUSTING | {"pluck_note"}])
def test_nonsense_is_refused_in_words(name, page):
    _, ranges = TWINS[name]
    good = [(low + high) / 2 for low, high in ranges]
    page.goto("about:blank")
    page.add_script_tag(content=SCRIPT)
    for place in range(len(good)):
        for bad in ("NaN", "Infinity", "-Infinity"):
            answer = page.evaluate(
                f"""() => {{ const row = {json.dumps(good)}; row[{place}] = {bad};
                    try {{ return sawside.formulas.{name}(...row); }}
                    catch (error) {{ return error instanceof sawside.Refused ? "refused" : String(error); }} }}"""
            )
            assert answer == "refused", f"{name} with {bad} at {place} gives {answer}"


def test_guard_factor_is_the_same_everywhere():
    # One-sided 95 %: Student's t with infinite degrees of freedom, two-sided 90 %.
    assert decision.GUARD == pytest.approx(uncertainty.coverage_factor(0.90, math.inf), abs=1e-4)
    assert f"{decision.GUARD}" in SCRIPT
