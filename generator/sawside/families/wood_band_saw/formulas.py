"""Wheels and tension of a two-wheel saw: the general formulas with its second wheel and its assumptions put in.

Pure functions like those of `calc`, and documented like them; each calls one of them and adds no physics of its own.
"""

import math

from sawside.calc import tension
from sawside.calc.limits import not_negative, positive, require


def wrap_angle_lower(wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float) -> float:
    """Return the angle over which the blade lies on the lower, driven wheel.

    Equation: theta = pi + 2 asin((D2 - D1) / (2 C))
    Takes: wheel_diameter_upper, wheel_diameter_lower, centre_distance [m]
    Gives: [rad]
    Holds for: two wheels; C more than |D1 - D2| / 2.
    Source: derived (the strands lean by asin(d / C)).

    >>> round(math.degrees(wrap_angle_lower(0.350, 0.340, 0.750)), 2)
    179.24
    """
    positive(wheel_diameter_upper=wheel_diameter_upper, wheel_diameter_lower=wheel_diameter_lower)
    difference = (wheel_diameter_lower - wheel_diameter_upper) / 2
    least = abs(difference)
    require(centre_distance > least, "centre_distance", centre_distance, f"more than {least:g} m")
    return math.pi + 2 * math.asin(difference / centre_distance)


def grip_over_drive(slip_force: float, drive_force: float) -> float:
    """Return how many times the motor's force at the teeth the lower tyre could pass on before the blade slips.

    Equation: F_slip / F_drive
    Takes: slip_force, drive_force [N]
    Gives: [1], below 1 the blade slips before the motor stalls
    Holds for: a clean tyre; friction is assumed.
    Source: derived.

    >>> round(grip_over_drive(571.0, 48.0), 1)
    11.9
    """
    positive(drive_force=drive_force)
    not_negative(slip_force=slip_force)
    return slip_force / drive_force


def loop_rate(
    blade_length: float, body_area: float, youngs_modulus: float, tension_spring_rate: float, frame_stiffness: float
) -> float:
    """Return the pull in the strand for each length by which the loop is stretched, spring and frame included.

    Equation: K = 1 / (L / (E A) + 4 / k_t + 4 / k_f)
    Takes: blade_length [m], body_area [m2], youngs_modulus [Pa], tension_spring_rate, frame_stiffness [N/m]
    Gives: [N/m]
    Holds for: two wheels, a spring that has not gone solid.
    Source: derived (`tension.loop_compliance` turned round).

    >>> round(loop_rate(2.6016, 6.5e-6, 205e9, 60e3, 1e12) / 1e3, 2)
    14.57
    """
    give = tension.tensioner_give(tension_spring_rate, frame_stiffness)
    return 1 / tension.loop_compliance(blade_length, body_area, youngs_modulus, give)


def screw_turns(strand_force: float, loop_rate: float, tension_screw_pitch: float) -> float:
    """Return the turns of the tension screw from just taut to the wanted pull.

    Equation: N = F / (2 K P)
    Takes: strand_force [N], loop_rate: K [N/m], tension_screw_pitch: P, travel per turn [m]
    Gives: [1] turns
    Holds for: two wheels, a spring that has not gone solid, start from just taut. Prove the setting by the push.
    Source: derived (the screw takes up half of the loop's lengthening).

    >>> round(screw_turns(650.0, 1 / 6.8619e-5, 1.5e-3), 2)
    14.87
    """
    positive(loop_rate=loop_rate)
    return tension.screw_turns(strand_force, 1 / loop_rate, tension_screw_pitch)


def scale_setting(
    target_stress: float, body_area: float, scale_mark_low: float, scale_load_low: float, scale_mark_high: float,
    scale_load_high: float,
) -> float:  # fmt: skip
    """Return the mark of the saw's tension scale for this blade, from two marks whose load was measured.

    Equation: mark = m1 + (2 sigma A - Q1) (m2 - m1) / (Q2 - Q1)
    Takes: target_stress [Pa], body_area [m2], scale_mark_low: m1, scale_mark_high: m2 [marks], scale_load_low: Q1,
        scale_load_high: Q2 [N]
    Gives: mark [-]
    Holds for: marks at most a fifth of the measured range beyond its ends; a straight scale, which two do not prove.
    Source: derived (`tension.scale_reading`); that a scale shows pull, not stress: a web article on calibrating band
        saw tension, READ.

    >>> round(scale_setting(105e6, 6.5e-6, 2.0, 600.0, 5.0, 1500.0), 6)
    4.55
    """
    marks, loads = (scale_mark_low, scale_mark_high), (scale_load_low, scale_load_high)
    return tension.scale_reading(tension.fit_scale(marks, loads), target_stress, body_area)
