"""The tension device: turns of the screw, what gives way, its scale, and whether the wheel can slip.

`tensioner_give` is what the upper wheel's support gives way per load: 1 / spring rate + 1 / frame stiffness [m/N],
0 for a rigid screw.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from sawside.calc.limits import not_negative, positive, require
from sawside.calc.setting import GOOD_ENOUGH


class ScaleFit(NamedTuple):
    """The line wheel load = offset + slope x reading, what it leaves over, and the readings it was made from.

    offset [N], slope [N per mark], residual [N] (None with two readings: no estimate of error), lowest, highest [marks]
    """

    offset: float
    slope: float
    residual: float | None
    lowest: float
    highest: float


def tensioner_give(spring_rate: float, frame_stiffness: float) -> float:
    """Return how far the wheel's support gives way per load, spring and frame one after the other.

    Equation: 1 / k_t + 1 / k_f
    Takes: spring_rate, frame_stiffness [N/m]
    Gives: [m/N]
    Holds for: both more than 0; a spring in line with the slide.
    Source: springs in series, textbook knowledge.

    >>> round(1e6 * tensioner_give(60e3, 600e3), 2)
    18.33
    """
    positive(spring_rate=spring_rate, frame_stiffness=frame_stiffness)
    return 1 / spring_rate + 1 / frame_stiffness


def loop_compliance(blade_length: float, body_area: float, youngs_modulus: float, tensioner_give: float) -> float:
    """Return how much the loop lengthens per newton of pull: the blade itself and the tension device together.

    Equation: c = L / (E A) + 4 g
    Takes: blade_length [m], body_area [m2], youngs_modulus [Pa], tensioner_give: g [m/N]
    Gives: [m/N]
    Holds for: two wheels (load 2 F, loop grows by twice the wheel's travel, hence 4).
    Source: derived.

    >>> round(1e6 * loop_compliance(2.6016, 6.5e-6, 205e9, 1 / 60e3), 2)
    68.62
    """
    positive(blade_length=blade_length, body_area=body_area, youngs_modulus=youngs_modulus)
    not_negative(tensioner_give=tensioner_give)
    return blade_length / (youngs_modulus * body_area) + 4 * tensioner_give


def blade_rate_at_wheel(blade_length: float, body_area: float, youngs_modulus: float) -> float:
    """Return the blade as a spring felt at the upper wheel.

    Equation: K_b = 4 E A / L
    Takes: blade_length [m], body_area [m2], youngs_modulus [Pa]
    Gives: [N/m]
    Holds for: two wheels.
    Source: derived.

    >>> round(blade_rate_at_wheel(2.6016, 6.5e-6, 205e9) / 1e3)
    2049
    """
    positive(blade_length=blade_length, body_area=body_area, youngs_modulus=youngs_modulus)
    return 4 * youngs_modulus * body_area / blade_length


def screw_turns(strand_force: float, loop_compliance: float, tension_screw_pitch: float) -> float:
    """Return the turns of the tension screw from just taut to the wanted pull.

    Equation: N = F c / (2 P)
    Takes: strand_force [N], loop_compliance: c [m/N], tension_screw_pitch: P, travel per turn [m]
    Gives: [1] turns
    Holds for: two wheels, a spring that has not gone solid, start from just taut.
    Source: derived (the screw takes up half of the loop's lengthening).

    >>> round(screw_turns(650.0, 6.8619e-5, 1.5e-3), 2)
    14.87
    """
    positive(strand_force=strand_force, loop_compliance=loop_compliance, tension_screw_pitch=tension_screw_pitch)
    return strand_force * loop_compliance / (2 * tension_screw_pitch)


def solid_spring_turns(blade_length: float, target_stress: float, youngs_modulus: float, tension_screw_pitch: float) -> float:
    """Return the turns from slack to a stress when the spring has gone solid: often less than one, a risk of overload.

    Equation: N = L sigma / (2 E P)
    Takes: blade_length [m], target_stress, youngs_modulus [Pa], tension_screw_pitch: P [m]
    Gives: [1] turns
    Holds for: two wheels, a stiff frame.
    Source: derived (`screw_turns` with the blade's own stretch alone).

    >>> round(solid_spring_turns(2.6016, 100e6, 205e9, 1.5e-3), 2)
    0.42
    """
    positive(blade_length=blade_length, target_stress=target_stress, youngs_modulus=youngs_modulus)
    positive(tension_screw_pitch=tension_screw_pitch)
    return blade_length * target_stress / (2 * youngs_modulus * tension_screw_pitch)


def load_from_strain(strain: float, body_area: float, youngs_modulus: float) -> float:
    """Return the load on the wheel from a strain measured on the blade: one point of a scale's calibration.

    Equation: Q = 2 E eps A
    Takes: strain: stretch over gauge length [1], body_area [m2], youngs_modulus [Pa]
    Gives: [N]
    Holds for: two wheels, elastic steel (strain below 1 %).
    Source: Hooke's law.

    >>> round(load_from_strain(100e6 / 205e9, 6.5e-6, 205e9))
    1300
    """
    positive(body_area=body_area, youngs_modulus=youngs_modulus)
    require(0 <= strain < 0.01, "strain", strain, "from 0 to less than 1 %")
    return 2 * youngs_modulus * strain * body_area


def fit_scale(readings: Sequence[float], wheel_loads: Sequence[float]) -> ScaleFit:
    """Return the straight line through readings of the saw's tension scale and the wheel loads they were taken at.

    Equation: least squares Q = a + b r; residual s = sqrt(sum of squares / (n - 2))
    Takes: readings [marks of the scale], wheel_loads [N], in the same order
    Gives: offset [N], slope [N per mark], residual [N] or None, lowest and highest reading
    Holds for: two or more different readings. Two give no estimate of error.
    Source: least squares, textbook knowledge; checked against numpy.polyfit.

    >>> fit = fit_scale([1.0, 2.0, 3.0], [400.0, 700.0, 1000.0])
    >>> round(fit.offset, 6), round(fit.slope, 6), round(fit.residual, 6)
    (100.0, 300.0, 0.0)
    """
    count = len(readings)
    require(count >= 2, "number of readings", count, "at least 2")
    require(len(wheel_loads) == count, "number of wheel loads", len(wheel_loads), f"{count}, as many as readings")
    lowest, highest = min(readings), max(readings)
    require(highest > lowest, "highest reading", highest, f"more than the lowest, {lowest:g}")
    mean_r, mean_q = math.fsum(readings) / count, math.fsum(wheel_loads) / count
    pairs = [(r - mean_r, q - mean_q) for r, q in zip(readings, wheel_loads, strict=True)]
    slope = math.fsum(r * q for r, q in pairs) / math.fsum(r * r for r, _ in pairs)
    require(slope > 0, "slope of the scale", slope, "more than 0: more pull must read higher")
    left_over = math.fsum((q - slope * r) ** 2 for r, q in pairs)
    residual = math.sqrt(left_over / (count - 2)) if count > 2 else None
    return ScaleFit(mean_q - slope * mean_r, slope, residual, lowest, highest)


def scale_reading(fit: ScaleFit, target_stress: float, body_area: float) -> float:
    """Return what the scale should read for another blade. A scale shows pull, not stress.

    Equation: r = (2 sigma A - a) / b
    Takes: fit (offset, slope, residual, lowest, highest), target_stress [Pa], body_area [m2]
    Gives: [marks of the scale]
    Holds for: a reading at most a fifth of the measured range beyond its ends (our choice); one above the highest mark has
        to be marked as such where it is printed (`setting.highest_scale_basis`).
    Source: derived; "scale shows force, not stress": a web article on calibrating band saw tension, READ.

    >>> scale_reading(ScaleFit(100.0, 300.0, None, 1.0, 4.0), 100e6, 6.5e-6)
    4.0
    """
    offset, slope, _, lowest, highest = fit
    positive(target_stress=target_stress, body_area=body_area, slope=slope)
    reading = (2 * target_stress * body_area - offset) / slope
    beyond = 0.2 * (highest - lowest)
    require(
        lowest - beyond <= reading <= highest + beyond, "reading", reading,
        f"from {lowest - beyond:g} to {highest + beyond:g}, a fifth beyond what was measured",
    )  # fmt: skip
    return reading


def drive_force(power: float, band_speed: float) -> float:
    """Return the force at the teeth that uses up a power; half of it is added to the tight strand, half taken off.

    Equation: F_c = P / v
    Takes: power [W], band_speed [m/s]
    Gives: [N]
    Holds for: losses left out.
    Source: definition of power.

    >>> round(drive_force(750.0, 15.606))
    48
    """
    positive(power=power, band_speed=band_speed)
    return power / band_speed


def slip_force(strand_force: float, wrap_angle: float, friction: float) -> float:
    """Return the greatest force the wheel can pass to the blade before the blade slips on the tyre.

    Equation: 2 F (e^(mu theta) - 1) / (e^(mu theta) + 1) = 2 F tanh(mu theta / 2)
    Takes: strand_force at rest [N], wrap_angle [rad], friction: mu [1]
    Gives: [N]
    Holds for: the sum of both strands' pull stays 2 F; friction of 0.3 is assumed, no source.
    Source: belt friction, textbook knowledge; checked by integrating along the wrap.

    >>> round(slip_force(650.0, math.pi, 0.3))
    571
    """
    positive(strand_force=strand_force, wrap_angle=wrap_angle, friction=friction)
    return 2 * strand_force * math.tanh(friction * wrap_angle / 2)


def tension_verdict(
    target_stress: float, target_stress_low: float, blade_stress_max: float, saw_stress_max: float | None = None
) -> str:
    """Return whether the saw can strain this blade enough.

    Equation: limit / 1.1 against sigma, limit against sigma_low; limit = min(sigma_blade, sigma_saw)
    Takes: target_stress, target_stress_low, blade_stress_max [Pa], saw_stress_max [Pa], left out when not known
    Gives: word: `reached`, `low_end_only`, `not_reached` or `limit_not_known`
    Holds for: target_stress_low not above target_stress. A tenth of the limit is kept free, as `setting.setting_stress` does.
    Source: derived; the tenth is Sawside's own choice.

    >>> tension_verdict(105e6, 70e6, 180e6, 116e6), tension_verdict(105e6, 70e6, 180e6, 110e6)
    ('reached', 'low_end_only')
    >>> tension_verdict(105e6, 70e6, 180e6, 69e6), tension_verdict(105e6, 70e6, 180e6)
    ('not_reached', 'limit_not_known')
    """
    positive(target_stress=target_stress, target_stress_low=target_stress_low, blade_stress_max=blade_stress_max)
    require(target_stress_low <= target_stress, "target_stress_low", target_stress_low, f"at most {target_stress:g}")
    if blade_stress_max < target_stress_low:
        return "not_reached"
    if saw_stress_max is None:
        return "limit_not_known"
    positive(saw_stress_max=saw_stress_max)
    limit = min(blade_stress_max, saw_stress_max)
    if limit >= (1 + GOOD_ENOUGH) * target_stress:
        return "reached"
    return "low_end_only" if limit >= target_stress_low else "not_reached"
