"""The worksheets' formulas give the same numbers as Python, to 1e-9, on 1000 random inputs each, in a real browser."""

import json
import math
import random
from pathlib import Path

import pytest

from sawside.calc import band, decision, drift, strand, tension, testcut, uncertainty, vibration
from sawside.calc.limits import OutsideMethod

SCRIPT = Path(__file__).resolve().parents[2] / "site_templates" / "theme" / "assets" / "formulas.js"
COUNT = 1000

#: JavaScript name -> (Python twin, ranges of its arguments).
TWINS = {
    "bendingPart": (strand.bending_part, [(0, 30)]),
    "flexuralRigidity": (strand.flexural_rigidity, [(1e-3, 80e-3), (0.3e-3, 1.5e-3), (180e9, 220e9)]),
    "clampedDeflection": (strand.clamped_deflection, [(1, 100), (0.1, 2), (20, 5000), (1e-3, 5)]),
    "pushForDeflection": (strand.push_for_deflection, [(0, 0.02), (0.3, 2), (20, 5000), (1e-3, 5)]),
    "forceFromDeflection": (strand.force_from_deflection, [(1, 100), (0.5e-3, 20e-3), (0.2, 2), (1e-3, 1)]),
    "stressFromStretch": (band.stress_from_stretch, [(0, 1e-3), (0.05, 0.5), (180e9, 220e9)]),
    "clampedFrequency": (vibration.clamped_frequency, [(0.2, 2), (0, 5000), (0.01, 0.5), (1e-3, 5)]),
    "forceFromFrequency": (vibration.force_from_frequency, [(40, 400), (0.2, 1.5), (0.01, 0.5), (1e-3, 1)]),
    "cornerDoubt": (testcut.corner_doubt, [(0, 1e-4), (0, 1e-4), (1, 20), (0, 1e-4)]),
    "cutTilt": (testcut.cut_tilt, [(0.01, 0.1)] * 4 + [(0.01, 0.3)]),
    "cutTaper": (testcut.cut_taper, [(0.01, 0.1)] * 4 + [(0.01, 0.9)]),
    "cutTwist": (testcut.cut_twist, [(0.01, 0.1)] * 4),
    "twistMatters": (testcut.twist_matters, [(-1e-4, 1e-4), (0, 1e-4)]),
    "turnedCutTilt": (testcut.turned_cut_tilt, [(0.01, 0.1), (0.01, 0.1), (0.01, 0.3)]),
    "tiltDoubt": (testcut.tilt_doubt, [(0, 1e-4), (0.01, 0.3)]),
    "turnedCutDoubt": (testcut.turned_cut_doubt, [(0, 1e-4), (0.01, 0.3)]),
    "verdict": (decision.verdict, [(-0.3, 0.3), (0, 0.1), (0.01, 0.2)]),
    "decide": (decision.decide, [(0, 10), (2, 4), (5, 9), (0, 1.5)]),
    "stopBoltTurns": (testcut.stop_bolt_turns, [(-0.2, 0.2), (0.02, 0.4), (0.4e-3, 3e-3)]),
    "driftAngle": (drift.drift_angle, [(-0.1, 0.1), (-0.1, 0.1), (0.05, 1)]),
    "driftDoubt": (drift.drift_doubt, [(0, 1e-3), (0.05, 1)]),
    "fenceShift": (drift.fence_shift, [(-0.2, 0.2), (0.1, 1)]),
    "straightedgeDoubt": (drift.straightedge_doubt, [(0, 1e-4), (2e-3, 30e-3), (0, 1e-4), (0.1, 1)]),
    "note": (vibration.pluck_note, [(4, 14000)]),
}


def inputs(ranges, seed):
    source = random.Random(seed)
    return [[source.uniform(low, high) for low, high in ranges] for _ in range(COUNT)]


def in_browser(page, name, rows):
    """Return what the browser computes: a number, words, or {refused} for each row."""
    page.goto("about:blank")
    page.add_script_tag(path=SCRIPT)
    return page.evaluate(
        """([name, rows]) => rows.map((row) => {
            try { return sawside.formulas[name](...row); }
            catch (error) { if (error instanceof sawside.Refused) return {refused: error.message}; throw error; }
        })""", [name, rows])


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
    same("turnedCutLimit", rows, in_browser(page, "turnedCutLimit", rows), [in_python(testcut.turned_cut_limit, row) for row in rows])


def test_scale_fit_and_reading(page):
    source, rows = random.Random(5), []
    for _ in range(COUNT):
        marks = [source.uniform(0, 10) for _ in range(source.randint(2, 6))]
        rows.append([marks, [200 * m + source.gauss(300, 30) for m in marks], source.uniform(100, 2500)])
    page.goto("about:blank")
    page.add_script_tag(path=SCRIPT)
    got = page.evaluate(
        """(rows) => rows.map(([marks, loads, load]) => {
            try { const fit = sawside.formulas.fitScale(marks, loads);
                  return [fit.offset, fit.slope, fit.residual, sawside.formulas.scaleReading(fit, load)]; }
            catch (error) { if (error instanceof sawside.Refused) return null; throw error; }
        })""", rows)
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


@pytest.mark.parametrize("name", [name for name in TWINS if name not in ("note", "bendingPart", "flexuralRigidity", "clampedDeflection",
                                                                        "clampedFrequency", "cutTwist", "tiltDoubt", "turnedCutDoubt",
                                                                        "driftDoubt")])
def test_nonsense_is_refused_in_words(name, page):
    _, ranges = TWINS[name]
    good = [(low + high) / 2 for low, high in ranges]
    page.goto("about:blank")
    page.add_script_tag(path=SCRIPT)
    for place in range(len(good)):
        for bad in ("NaN", "Infinity", "-Infinity"):
            answer = page.evaluate(
                f"""() => {{ const row = {json.dumps(good)}; row[{place}] = {bad};
                    try {{ return sawside.formulas.{name}(...row); }}
                    catch (error) {{ return error instanceof sawside.Refused ? "refused" : String(error); }} }}""")
            assert answer == "refused", f"{name} with {bad} at {place} gives {answer}"


def test_guard_factor_is_the_same_everywhere():
    # One-sided 95 %: Student's t with infinite degrees of freedom, two-sided 90 %.
    assert decision.GUARD == pytest.approx(uncertainty.coverage_factor(0.90, math.inf), abs=1e-4)
    assert f"{decision.GUARD}" in SCRIPT.read_text(encoding="utf-8")
