"""Wrong formulas: some are in print, some are easy mistakes. Each stands here beside the right one, with the gap.

If one of these tests fails, a formula of the project has become one of the wrong ones.
"""

import math

import numpy as np
import pytest

from sawside.calc import band, bending, geometry, stiffness, strand, vibration
from test_blade_oracles import EI, FORCE, MU, THICK, E, Strip

NU, BODY, GULLET, WIDE = 0.29, 10e-3, 3e-3, 13e-3


def test_a_bare_string_gives_way_too_much():
    # Mistake: P L / 4F for the deflection test. 6 % too much on a long span, a third on a guide span.
    for span, low, high in ((0.6, 0.055, 0.065), (0.15, 0.25, 0.40)):
        too_much = strand.string_deflection(1.0, span, FORCE) / strand.clamped_deflection(1.0, span, FORCE, EI) - 1
        assert low < too_much < high
        assert Strip(span, True).deflection(FORCE, EI) == pytest.approx(strand.clamped_deflection(1.0, span, FORCE, EI), rel=1e-5)


def test_pinned_ends_understate_the_wheels():
    # Mistake: the handbook's simply supported tie rod. The strand leaves the wheels at a fixed slope.
    assert strand.pinned_deflection(1.0, 0.6, FORCE, EI) > 1.02 * strand.clamped_deflection(1.0, 0.6, FORCE, EI)


def test_tone_without_stiffness_reads_the_stress_high():
    # Mistake: f = sqrt(F / mu) / 2L turned round. 6 % too much stress at 600 mm, more on shorter spans.
    for span, low, high in ((0.6, 1.055, 1.065), (0.3, 1.11, 1.16)):
        heard = vibration.clamped_frequency(span, FORCE, MU, EI)
        assert low < MU * (2 * span * heard) ** 2 / FORCE < high


def test_full_width_hides_a_third_of_the_stress():
    # In print: 312.5 lbf for a half-inch 0.025 in blade at 25 000 psi (trade page, READ). With 3 mm gullets: 32 700.
    pull = 312.5 * 4.4482216
    body = band.body_area(band.body_width(0.5 * 25.4e-3, 3e-3), 0.025 * 25.4e-3)
    assert pull / body / band.PSI == pytest.approx(32_700, rel=2e-3)
    assert pull / body > 1.3 * 25_000 * band.PSI


def test_one_strand_is_not_the_wheel_load():
    # Mistake: 312.5 lbf taken as the load on spring and frame. It is twice that.
    assert band.wheel_load(312.5) == 625.0


def test_one_sine_wave_overstates_buckling_by_a_quarter_to_a_half():
    # Mistake: the energy method with one sine for deflection and twist. The true shape has a kink under the load.
    for span in (0.1, 0.15, 0.3):
        twist = stiffness.twist_rigidity(BODY, THICK, FORCE, E, NU)
        arm, wave = BODY / 2 + GULLET, math.pi / span
        bend, turn = (EI * wave**4 + FORCE * wave**2) * span / 2, twist * wave**2 * span / 2
        couple = wave**2 * span**2 * (1 / 16 + 1 / (4 * math.pi**2))
        one_sine = min(p.real for p in np.roots([couple**2, bend * arm, -bend * turn]) if p.real > 0)
        elements = Strip(span, False, 60).buckling(FORCE, EI, twist, arm)
        assert 1.25 < one_sine / elements < 1.50
        right = stiffness.buckling_load(span, FORCE, BODY, THICK, GULLET, E, NU)
        assert one_sine > 1.25 * right


def test_a_crossed_belt_is_not_shorter_than_an_open_one():
    # In print: an encyclopaedia text and a maker's page have a minus sign: 1646.3 for 600, 300, 150 (READ).
    far, radii = 600.0, (150.0, 75.0)
    reach = math.asin(sum(radii) / far)
    printed = 2 * math.sqrt(far**2 - sum(radii) ** 2) + sum(radii) * (math.pi - 2 * reach)
    right = 2 * math.sqrt(far**2 - sum(radii) ** 2) + sum(radii) * (math.pi + 2 * reach)
    opened = 1e3 * geometry.loop_length(0.3, 0.15, 0.6, 0.0)
    assert printed == pytest.approx(1646.3, abs=0.1)
    assert printed < opened < right


def test_the_short_formula_never_overstates_the_length():
    # In print: 2C + pi (D + d) / 2 + (D - d)^2 / 4C. Never above the exact length, and off by 2 mm for steep belts.
    for large, small, apart in ((0.5, 0.1, 0.3), (0.3, 0.15, 0.6), (0.4, 0.4, 1.0)):
        short = 2 * apart + math.pi * (large + small) / 2 + (large - small) ** 2 / (4 * apart)
        exact = geometry.loop_length(large, small, apart, 0.0)
        assert short <= exact + 1e-12
    assert geometry.loop_length(0.5, 0.1, 0.3, 0.0) - (0.6 + 0.3 * math.pi + 0.16 / 1.2) > 2e-3


def test_thickness_belongs_in_the_length():
    # Mistake: the bare wheel circumference. Two millimetres short for a common blade.
    assert 1e3 * (geometry.loop_length(0.35, 0.35, 0.75, THICK) - geometry.loop_length(0.35, 0.35, 0.75, 0.0)) == pytest.approx(
        2.04, abs=0.01
    )


def test_tension_alone_forgets_most_of_the_stress():
    # Mistake: a scale read as "the stress in the blade". On the wheel it is three times as much or more.
    for wheel, thick in ((0.305, 0.635e-3), (0.356, 0.635e-3), (0.508, 0.9e-3)):
        assert (103e6 + band.bending_stress(wheel, thick, E)) / 103e6 > 3


def test_one_thousandth_of_the_wheel_is_one_stress_not_many():
    # Mistake: "thickness at most a thousandth of the wheel" as a limit for small saws. It is 205 MPa on any wheel.
    for wheel in (0.25, 0.35, 0.6):
        assert band.bending_stress(wheel, wheel / 1000, E) == pytest.approx(204.8e6, rel=1e-3)
    assert band.bending_stress(0.35, THICK, E) > 1.8 * 204.8e6


def test_plate_bending_is_too_high_for_a_narrow_blade():
    # Mistake: E / (1 - nu^2) for any blade. A 13 mm blade stands 0.6 % above the beam, not 9 %.
    assert bending.bending_width_factor(0.35, WIDE, THICK, NU) < 1.01 < bending.bending_ceiling_factor(NU)


def test_a_softer_steel_shifts_the_stretch_rule():
    # In print: 6000 psi per 0.001 in over 5 in. It needs 30e6 psi; 29e6 psi stretches 3.4 % more.
    inch = 25.4e-3
    more = band.gauge_stretch(6000 * band.PSI, 5 * inch, 29e6 * band.PSI) / (0.001 * inch)
    assert more == pytest.approx(1.0345, abs=1e-4)


def test_wheels_held_still_is_another_test():
    # Mistake: the push with both wheels locked. It needs two fifths more force for the same pull in the blade.
    still = strand.stiffened_push(6e-3, 0.6, FORCE, EI, 0.6 / (E * 6.5e-6))
    assert still / strand.push_for_deflection(6e-3, 0.6, FORCE, EI) == pytest.approx(1.40, abs=0.01)


def test_a_third_of_bt3_is_too_much_torsion_constant():
    # Mistake: J = b t^3 / 3. Four per cent too much for a 10 x 0.65 mm body.
    assert BODY * THICK**3 / 3 / stiffness.torsion_constant(BODY, THICK) == pytest.approx(1.043, abs=0.002)
