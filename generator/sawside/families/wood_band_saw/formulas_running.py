"""The running blade of a two-wheel saw: heat, run-out, bending and what shakes it, from the general formulas.

Pure functions like those of `calc`, and documented like them; each calls one of them and adds no physics of its own.
"""

from sawside.calc import fatigue, vibration, wheels
from sawside.calc.limits import positive

#: How far a tone may be from a multiple of what shakes the strand before it is worth a remark; which multiples count.
NEAR, MULTIPLES = 0.05, 6
#: Beyond this ratio bending fatigue no longer decides.
NO_LONGER = 100.0


def heat_loss(blade_length: float, steel_expansion: float, blade_warming: float, loop_rate: float, body_area: float) -> float:
    """Return the tension that is lost when the blade alone warms, on its tension spring.

    Equation: sigma = alpha dT L K / A
    Takes: blade_length [m], steel_expansion: alpha [1/K], blade_warming: dT [K], loop_rate: K [N/m], body_area: A [m2]
    Gives: [Pa]
    Holds for: frame and wheels that stay cold; a slide that moves freely.
    Source: derived (change of way round less change of blade, `wheels.heat_stress`).

    >>> round(heat_loss(2.6016, 11.7e-6, 20.0, 205e9 * 6.5e-6 / 2.6016, 6.5e-6) / 1e6)
    48
    """
    positive(loop_rate=loop_rate)
    strain = wheels.thermal_strain(steel_expansion, blade_warming)
    return -wheels.heat_stress(1.0, 0.0, 1.0, 0.0, blade_length, strain, 1 / loop_rate, body_area)


def heat_loss_rigid(youngs_modulus: float, steel_expansion: float, blade_warming: float) -> float:
    """Return the tension that is lost when the blade alone warms and nothing takes up the slack.

    Equation: sigma = E alpha dT
    Takes: youngs_modulus [Pa], steel_expansion: alpha [1/K], blade_warming: dT [K]
    Gives: [Pa]
    Holds for: a tension screw without a spring, or a spring that has gone solid; frame and wheels that stay cold.
    Source: derived (`heat_loss` with the blade's own stretch alone).

    >>> round(heat_loss_rigid(205e9, 11.7e-6, 20.0) / 1e6)
    48
    """
    positive(youngs_modulus=youngs_modulus)
    return youngs_modulus * wheels.thermal_strain(steel_expansion, blade_warming)


def edge_heat_loss(youngs_modulus: float, steel_expansion: float, blade_warming: float) -> float:
    """Return the tension that the gullet line loses when the teeth are hotter than the back. No spring makes it up.

    Equation: sigma = E alpha dT / 2
    Takes: youngs_modulus [Pa], steel_expansion: alpha [1/K], blade_warming: dT, teeth above back [K]
    Gives: [Pa]
    Holds for: temperature falling evenly from gullet line to back, a blade held straight.
    Source: derived (`wheels.edge_heat_stress`).

    >>> round(edge_heat_loss(205e9, 11.7e-6, 20.0) / 1e6)
    24
    """
    return -wheels.edge_heat_stress(youngs_modulus, steel_expansion, blade_warming)


def run_out_swing(radial_run_out: float, loop_rate: float, body_area: float) -> float:
    """Return how much the tension swings up and down once a turn because the upper wheel runs out.

    Equation: sigma = T K / A
    Takes: radial_run_out: T, total dial reading [m], loop_rate: K [N/m], body_area: A [m2]
    Gives: [Pa], to each side of the mean
    Holds for: slow turning, a slide that moves freely. A slide that sticks comes near a rigid screw, many times more.
    Source: derived (`wheels.run_out_stress`).

    >>> round(run_out_swing(0.2e-3, 14.57e3, 6.5e-6) / 1e6, 2)
    0.45
    """
    positive(loop_rate=loop_rate)
    return wheels.run_out_stress(radial_run_out, 1 / loop_rate, body_area)


def bends_per_hour(band_speed: float, blade_length: float) -> float:
    """Return how often an hour each spot of the blade is bent over a wheel. A number of bends, not of life.

    Equation: 3600 s/h (v / L) 2 wheels
    Takes: band_speed [m/s], blade_length [m]
    Gives: [1] bends in an hour
    Holds for: two wheels.
    Source: derived.

    >>> round(bends_per_hour(15.606, 2.6016))
    43190
    """
    return fatigue.bends_per_hour(band_speed, blade_length, 2)


def bending_compared(
    target_stress: float, bending_stress: float, thickness_ratio_good: float, youngs_modulus: float,
    steel_strength: float, notch_factor: float,
) -> str:  # fmt: skip
    """Return how many times the bends of a good blade this one stands, in words. Comparison only, never hours of life.

    Equation: (s_good / s)^m, s = K_f (sigma_b / 2) / (1 - (sigma + sigma_b / 2) / R_m), m = 8, and 5 to 10 as the band
    Takes: target_stress, bending_stress [Pa], thickness_ratio_good [1], youngs_modulus, steel_strength [Pa],
        notch_factor [1]
    Gives: words
    Holds for: a good blade being one at the same tension whose wheel over thickness is thickness_ratio_good.
    Source: Goodman and Basquin lines: equation sheet of a mechanical design course, READ; slopes 5 to 10, textbook
        knowledge.

    >>> bending_compared(100e6, 409e6, 500.0, 205e9, 1400e6, 1.4)
    'about as many bends as a blade that is thin enough'
    >>> bending_compared(100e6, 500e6, 500.0, 205e9, 1400e6, 1.4)
    '0.1 times the bends of a blade that is thin enough (0.09 to 0.3)'
    """
    positive(thickness_ratio_good=thickness_ratio_good, youngs_modulus=youngs_modulus)
    good = youngs_modulus / (thickness_ratio_good + 1)
    reference, here = (_reversed(target_stress, bend, notch_factor, steel_strength) for bend in (good, bending_stress))
    middle, *band = (fatigue.relative_cycles(reference, here, slope) for slope in (8, 5, 10))
    if middle > NO_LONGER:
        return "no longer limited by bending fatigue"
    low, high = map(_rough, sorted(band))
    if low == high == "1":
        return "about as many bends as a blade that is thin enough"
    between = f" ({low} to {high})" if low != high else ""
    return f"{_rough(middle)} times the bends of a blade that is thin enough{between}"


def _rough(ratio: float) -> str:
    """Return a ratio with one figure below ten and two above: more would claim what fatigue does not keep.

    >>> _rough(0.0933), _rough(2.4), _rough(31.2)
    ('0.09', '2', '31')
    """
    return f"{ratio:.0f}" if ratio >= 1 else f"{ratio:.1g}"


def _reversed(target_stress: float, bending_stress: float, notch_factor: float, steel_strength: float) -> float:
    """Return the fully reversed stress that is as hard on the blade as tension and bending together."""
    swing = fatigue.stress_amplitude(bending_stress)
    mean = fatigue.stress_mean(target_stress, bending_stress)
    return fatigue.equivalent_reversed_stress(swing, mean, notch_factor, steel_strength)


def harmonic_advice(running_frequency: float, wheel_speed: float, weld_frequency: float) -> str:
    """Return whether the running strand's tone lies on a multiple of the wheels' turning or of the weld's coming by.

    Equation: |f / (k f_0) - 1| at most 5 % for k up to 6
    Takes: running_frequency [Hz], wheel_speed [rev/s], weld_frequency [Hz]
    Gives: words
    Holds for: the strand that runs free; guides damp it. Advice only.
    Source: derived; 5 % and 6 multiples are Sawside's own choice.

    >>> harmonic_advice(85.8, 850 / 60, 6.0)
    'near 6 times the turning of the wheel'
    >>> harmonic_advice(92.0, 850 / 60, 6.0)
    'clear of the wheel and of the weld'
    """
    for words, shaking in (("the turning of the wheel", wheel_speed), ("the coming by of the weld", weld_frequency)):
        number, away = vibration.nearest_harmonic(running_frequency, shaking, MULTIPLES)
        if abs(away) <= NEAR:
            return f"near {number} times {words}" if number > 1 else f"near {words}"
    return "clear of the wheel and of the weld"
