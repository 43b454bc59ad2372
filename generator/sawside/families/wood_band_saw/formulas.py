"""Wheels and tension of a two-wheel saw: the general formulas with its second wheel and its assumptions put in.

Pure functions like those of `calc`, and documented like them; each calls one of them and adds no physics of its own.
"""

import math

from sawside.calc import feed, strand, tension
from sawside.calc.limits import not_negative, positive, require
from sawside.calc.tables import SAME_SIZE, SPEED_WINDOWS, trade_thickness

#: Band speeds of saws for wood [m/s]: usual in shops (common practice, no source), and the fastest of sawmill bands as
#: tested (Moradpour et al., Drvna industrija, 2016, abstract READ).
SHOP_SPEEDS, MILL_SPEEDS = (
    next(window.window for window in SPEED_WINDOWS if window.work.startswith(work)) for work in ("wood, shop", "wood, sawmill")
)
#: What is slower than this part of the slowest usual speed is no band saw for wood, but a slip of the pen: our choice.
SLOW_SHARE = 0.5


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


def thickness_ratio_judged(smaller_wheel: float, blade_thickness: float) -> float:
    """Return wheel over thickness as it is judged: by the trade size, and with what two nominal sizes may differ.

    Equation: 1.03 D / t, t the trade size where one is within 3 %
    Takes: smaller_wheel: D, blade_thickness: t [m]
    Gives: [1]
    Holds for: sizes more than 0. So 0.5 mm and 0.020 in are one blade, and no blade is refused for its box's rounding.
    Source: Sawside's own choice.

    >>> round(thickness_ratio_judged(0.250, 0.5e-3)), round(thickness_ratio_judged(0.250, 0.508e-3))
    (507, 507)
    """
    positive(smaller_wheel=smaller_wheel)
    return (1 + SAME_SIZE) * smaller_wheel / trade_thickness(blade_thickness)


def speed_verdict(band_speed: float) -> str:
    """Return how a band speed compares with those of saws for wood.

    Equation: v against 13 to 25 m/s (usual in shops), 6.5 m/s (half of the least) and 40 m/s (the fastest of sawmills)
    Takes: band_speed [m/s]
    Gives: word: `usual`, `slow`, `fast`, `too_slow` or `too_fast`
    Holds for: saws for wood. A speed past either end is more likely a motor's speed written for the wheel's.
    Source: 13 to 25 m/s: common practice, no source; 40 m/s: Moradpour et al., Drvna industrija, 2016, doi
        10.5552/drind.2016.1433, abstract, READ; the half: Sawside's own choice.

    >>> [speed_verdict(speed) for speed in (14.7, 10.0, 30.0, 52.0, 4.0)]
    ['usual', 'slow', 'fast', 'too_fast', 'too_slow']
    """
    past = feed.speed_verdict(band_speed, SLOW_SHARE * SHOP_SPEEDS[0], MILL_SPEEDS[1])
    if past != "inside the window":
        return past.replace(" ", "_")
    shop = feed.speed_verdict(band_speed, *SHOP_SPEEDS)
    return {"inside the window": "usual", "too fast": "fast", "too slow": "slow"}[shop]


def drive_force(motor_power: float, drive_efficiency: float, band_speed: float) -> float:
    """Return the force at the teeth at which the motor gives its rated power.

    Equation: F = eta P / v
    Takes: motor_power: P, rated [W], drive_efficiency: eta [1], band_speed: v [m/s]
    Gives: [N]
    Holds for: the power on the plate. More is had for a short while: `stall_force`.
    Source: definition of power (`tension.drive_force`); the share is assumed.

    >>> round(drive_force(750.0, 0.8, 14.66))
    41
    """
    require(0 < drive_efficiency <= 1, "drive_efficiency", drive_efficiency, "more than 0 and at most 1")
    return tension.drive_force(drive_efficiency * motor_power, band_speed)


def stall_force(drive_force: float, pull_out_ratio: float) -> float:
    """Return the force at the teeth at which the motor stalls.

    Equation: F = r F_rated
    Takes: drive_force: F_rated [N], pull_out_ratio: r, pull-out torque over rated torque [1]
    Gives: [N]
    Holds for: an induction motor on full voltage.
    Source: definition; pull-out torque of two to three times the rated: study cards on induction motors, READ-2nd.

    >>> round(stall_force(41.0, 2.5))
    102
    """
    positive(drive_force=drive_force)
    require(pull_out_ratio >= 1, "pull_out_ratio", pull_out_ratio, "at least 1")
    return pull_out_ratio * drive_force


def grip_over_drive(slip_force: float, drive_force: float) -> float:
    """Return how many times a force of the motor at the teeth the lower tyre could pass on before the blade slips.

    Equation: F_slip / F_drive
    Takes: slip_force, drive_force (rated, or at stall) [N]
    Gives: [1], below 1 the blade slips before the motor gives that force
    Holds for: a clean tyre; friction is assumed.
    Source: derived.

    >>> round(grip_over_drive(571.0, 48.0), 1)
    11.9
    """
    positive(drive_force=drive_force)
    not_negative(slip_force=slip_force)
    return slip_force / drive_force


def held_wheel_share(
    push_distance: float, free_span: float, strand_force: float, body_width: float, blade_thickness: float,
    youngs_modulus: float,
) -> float:  # fmt: skip
    """Return by how much too high the weighed push reads when both wheels are held and the strand has to stretch.

    Equation: P_held / P - 1, P_held at F + E A 2 (d / S)^2
    Takes: push_distance: d, free_span: S [m], strand_force: F [N], body_width, blade_thickness [m], youngs_modulus: E [Pa]
    Gives: [1]
    Holds for: both wheels held still; a share of it with one wheel held.
    Source: derived (`strand.stiffened_push` with the stretch of the one strand).

    >>> round(held_wheel_share(5e-3, 0.600, 650.0, 10e-3, 0.65e-3, 205e9), 3)
    0.276
    """
    rigidity = strand.flexural_rigidity(body_width, blade_thickness, youngs_modulus)
    free = strand.push_for_deflection(push_distance, free_span, strand_force, rigidity)
    give = free_span / (youngs_modulus * body_width * blade_thickness)
    return strand.stiffened_push(push_distance, free_span, strand_force, rigidity, give) / free - 1


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
