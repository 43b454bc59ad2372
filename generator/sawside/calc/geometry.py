"""How long a blade the wheels take: loop length, free span, and what a change of centre distance does.

Diameters are over the tyre at its highest line. A blade is cut from flat strip, so its length is that of the middle of
its thickness: half a thickness outside the tyre.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from sawside.calc import solve
from sawside.calc.limits import OutsideMethod, not_negative, positive, require


class LoopAroundWheels(NamedTuple):
    """Length of a blade round any number of wheels [m], and the angle each wheel is wrapped by [rad]."""

    length: float
    wraps: tuple[float, ...]


def _half_difference(wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float) -> float:
    """Refuse wheels that lie inside one another; return the difference of the radii."""
    positive(wheel_diameter_upper=wheel_diameter_upper, wheel_diameter_lower=wheel_diameter_lower, centre_distance=centre_distance)
    difference = (wheel_diameter_upper - wheel_diameter_lower) / 2
    need = f"more than half the difference of the wheel diameters, {abs(difference):g} m"
    require(centre_distance > abs(difference), "centre_distance", centre_distance, need)
    return difference


def loop_length(wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float, blade_thickness: float) -> float:
    """Return the length of blade that two wheels take at a centre distance.

    Equation: L = 2 sqrt(C^2 - d^2) + pi (r1 + r2) + 2 d asin(d / C), d = r1 - r2, r = (D + t) / 2
    Takes: wheel_diameter_upper, wheel_diameter_lower, centre_distance, blade_thickness [m]
    Gives: [m]
    Holds for: C more than |D1 - D2| / 2; taut straight strands, tyre not squeezed.
    Source: Encyclopaedia Britannica, 11th ed., Mechanics, sec. 59, eq. 32B, READ; equal wheels: US Navy, Builder 3&2,
        vol. 1, READ.

    >>> round(1e3 * loop_length(0.350, 0.350, 0.750, 0.65e-3), 3)
    2601.599
    """
    d = _half_difference(wheel_diameter_upper, wheel_diameter_lower, centre_distance)
    not_negative(blade_thickness=blade_thickness)
    around = math.pi * ((wheel_diameter_upper + wheel_diameter_lower) / 2 + blade_thickness)
    return 2 * math.sqrt(centre_distance**2 - d**2) + around + 2 * d * math.asin(d / centre_distance)


def free_span(wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float) -> float:
    """Return the length of straight blade between the wheels: what hangs free when the guides are away.

    Equation: S = sqrt(C^2 - ((D1 - D2) / 2)^2)
    Takes: wheel_diameter_upper, wheel_diameter_lower, centre_distance [m]
    Gives: [m]
    Holds for: C more than |D1 - D2| / 2; both guides moved away from the blade.
    Source: derived (common tangent of two circles).

    >>> free_span(0.350, 0.350, 0.750)
    0.75
    """
    d = _half_difference(wheel_diameter_upper, wheel_diameter_lower, centre_distance)
    return math.sqrt(centre_distance**2 - d**2)


def length_per_centre_distance(wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float) -> float:
    """Return how much longer the loop gets per length that the wheels move apart.

    Equation: dL/dC = 2 sqrt(1 - ((D1 - D2) / 2C)^2)
    Takes: wheel_diameter_upper, wheel_diameter_lower, centre_distance [m]
    Gives: [1]
    Holds for: C more than |D1 - D2| / 2. Exactly 2 for equal wheels.
    Source: derived; a US Navy course says length may vary within twice the tension range, READ.

    >>> length_per_centre_distance(0.350, 0.350, 0.750)
    2.0
    """
    d = _half_difference(wheel_diameter_upper, wheel_diameter_lower, centre_distance)
    return 2 * math.sqrt(1 - (d / centre_distance) ** 2)


def centre_distance_for_blade(
    blade_length: float, wheel_diameter_upper: float, wheel_diameter_lower: float, blade_thickness: float
) -> float:
    """Return the centre distance at which a blade of a given length sits taut on two wheels.

    Equation: loop_length(C) = L, solved by halving
    Takes: blade_length, wheel_diameter_upper, wheel_diameter_lower, blade_thickness [m]
    Gives: [m]
    Holds for: a blade longer than the way once round the larger wheel.
    Source: derived (`loop_length` grows steadily with C).

    >>> round(1e3 * centre_distance_for_blade(2.601599, 0.350, 0.350, 0.65e-3), 2)
    750.0
    """
    positive(blade_length=blade_length, wheel_diameter_upper=wheel_diameter_upper)
    positive(wheel_diameter_lower=wheel_diameter_lower)
    not_negative(blade_thickness=blade_thickness)
    around_larger = math.pi * (max(wheel_diameter_upper, wheel_diameter_lower) + blade_thickness)
    need = f"more than once round the larger wheel, {around_larger:g} m"
    require(blade_length > around_larger, "blade_length", blade_length, need)
    if wheel_diameter_upper == wheel_diameter_lower:
        return (blade_length - around_larger) / 2
    low = abs(wheel_diameter_upper - wheel_diameter_lower) / 2 * (1 + 1e-12)

    def too_long(centre_distance: float) -> float:
        return loop_length(wheel_diameter_upper, wheel_diameter_lower, centre_distance, blade_thickness) - blade_length

    return solve.halve(too_long, low, blade_length / 2, "blade_length")


def blade_length_shortest(
    wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance_min: float, blade_thickness: float, loop_slack: float
) -> float:
    """Return the shortest blade that can still be slipped over the wheels.

    Equation: L(C_min) + slack
    Takes: wheel_diameter_upper, wheel_diameter_lower, centre_distance_min, blade_thickness, loop_slack [m]
    Gives: [m], slack blade
    Holds for: C_min more than |D1 - D2| / 2.
    Source: derived; 10 mm of slack is common practice, no source.

    >>> round(1e3 * blade_length_shortest(0.350, 0.350, 0.735, 0.65e-3, 0.010), 1)
    2581.6
    """
    not_negative(loop_slack=loop_slack)
    return loop_length(wheel_diameter_upper, wheel_diameter_lower, centre_distance_min, blade_thickness) + loop_slack


def blade_length_longest(
    wheel_diameter_upper: float,
    wheel_diameter_lower: float,
    centre_distance_max: float,
    blade_thickness: float,
    target_stress: float,
    youngs_modulus: float,
) -> float:
    """Return the longest blade that reaches its tension before the wheel is at the end of its travel.

    Equation: L(C_max) / (1 + sigma / E)
    Takes: wheel_diameter_upper, wheel_diameter_lower, centre_distance_max, blade_thickness [m],
        target_stress, youngs_modulus [Pa]
    Gives: [m], slack blade
    Holds for: a screw that moves the wheel itself. Travel that a tension spring or the frame uses up is not counted.
    Source: derived (the blade is stretched by L sigma / E).

    >>> round(1e3 * blade_length_longest(0.350, 0.350, 0.765, 0.65e-3, 150e6, 205e9), 1)
    2629.7
    """
    not_negative(target_stress=target_stress)
    positive(youngs_modulus=youngs_modulus)
    taut = loop_length(wheel_diameter_upper, wheel_diameter_lower, centre_distance_max, blade_thickness)
    return taut / (1 + target_stress / youngs_modulus)


def rated_length_gap(rated_blade_length: float, loop_length: float) -> float:
    """Return how far the blade length in the maker's papers is from the length the wheels take now.

    Equation: L_rated - L
    Takes: rated_blade_length, loop_length [m]
    Gives: [m], positive when the papers say longer
    Holds for: both more than 0.
    Source: derived.

    >>> round(1e3 * rated_length_gap(2.600, 2.601599), 3)
    -1.599
    """
    positive(rated_blade_length=rated_blade_length, loop_length=loop_length)
    return rated_blade_length - loop_length


def loop_stretch(loop_length: float, target_stress: float, youngs_modulus: float) -> float:
    """Return by how much the whole blade grows from slack to a stress.

    Equation: dL = L sigma / E
    Takes: loop_length [m], target_stress, youngs_modulus [Pa]
    Gives: [m]; on two wheels half of it is travel of the wheel
    Holds for: elastic steel.
    Source: Hooke's law.

    >>> round(1e3 * loop_stretch(2.600, 100e6, 205e9), 2)
    1.27
    """
    positive(loop_length=loop_length, youngs_modulus=youngs_modulus)
    not_negative(target_stress=target_stress)
    return loop_length * target_stress / youngs_modulus


def crown_correction(crown_height: float) -> float:
    """Return what to add to the loop length when both diameters were measured at the tyre's edge, not on its crown.

    Equation: 2 pi h
    Takes: crown_height: crown above edge, on the radius [m]
    Gives: [m]
    Holds for: two wheels with the same crown.
    Source: derived (both half turns lie h further out).

    >>> round(1e3 * crown_correction(0.5e-3), 2)
    3.14
    """
    not_negative(crown_height=crown_height)
    return 2 * math.pi * crown_height


def take_up_gain(wrap_angle: float, off_bisector: float) -> float:
    """Return how much longer the loop gets per length that a tension wheel moves.

    Equation: dL/ds = 2 sin(theta / 2) cos(a)
    Takes: wrap_angle of that wheel; off_bisector: its path against the bisector of its two strands [rad]
    Gives: [1]
    Holds for: small moves; wrap above 0, up to a full turn; off_bisector up to a right angle either way.
    Source: derived; checked against a shifted wheel (tests/test_blade_oracles.py).

    >>> round(take_up_gain(math.pi, 0.0), 9)
    2.0
    """
    require(0 < wrap_angle <= 2 * math.pi, "wrap_angle", wrap_angle, "more than 0, at most a full turn")
    require(abs(off_bisector) <= math.pi / 2, "off_bisector", off_bisector, "at most a right angle")
    return 2 * math.sin(wrap_angle / 2) * math.cos(off_bisector)


def loop_around_wheels(wheels: Sequence[tuple[float, float, float]], blade_thickness: float) -> LoopAroundWheels:
    """Return the blade length and each wheel's wrap for any number of wheels inside the loop.

    Equation: L = integral over a turn of max_i (x_i cos q + y_i sin q + r_i) dq, r = (D + t) / 2 (Cauchy)
    Takes: wheels: x, y of the centre and diameter of each [m]; blade_thickness [m]
    Gives: length [m], wraps [rad] in the order given; they add up to a full turn
    Holds for: two or more wheels, each touched by the blade from inside. A wheel that touches nothing is refused,
        an idler that presses from outside is not covered.
    Source: support function of a convex curve, from memory; checked against a convex hull (test_blade_oracles.py).

    >>> loop = loop_around_wheels([(0.0, 0.0, 0.3), (0.05, 0.9, 0.3), (-0.55, 0.35, 0.2)], 0.0)
    >>> round(1e3 * loop.length, 3), [round(math.degrees(wrap)) for wrap in loop.wraps]
    (3221.536, [124, 139, 97])
    """
    not_negative(blade_thickness=blade_thickness)
    require(len(wheels) >= 2, "number of wheels", len(wheels), "at least 2")
    for _, _, diameter in wheels:
        positive(wheel_diameter=diameter)
    circles = [(x, y, (diameter + blade_thickness) / 2) for x, y, diameter in wheels]
    cuts = _angles_of_equal_reach(circles)
    wraps, length = [0.0] * len(circles), 0.0
    for start, end in zip(cuts, [*cuts[1:], cuts[0] + 2 * math.pi], strict=True):
        middle = (start + end) / 2
        reach = [x * math.cos(middle) + y * math.sin(middle) + r for x, y, r in circles]
        x, y, r = circles[outermost := reach.index(max(reach))]
        wraps[outermost] += end - start
        length += x * (math.sin(end) - math.sin(start)) - y * (math.cos(end) - math.cos(start)) + r * (end - start)
    for number, wrap in enumerate(wraps, 1):
        require(wrap > 1e-9, f"wrap of wheel {number}", wrap, "more than 0: the blade does not touch this wheel")
    return LoopAroundWheels(length, tuple(wraps))


def _angles_of_equal_reach(circles: list[tuple[float, float, float]]) -> list[float]:
    """Return, sorted within a turn, the directions in which two circles reach equally far."""
    angles = set()
    for first, (x1, y1, r1) in enumerate(circles):
        for x2, y2, r2 in circles[first + 1 :]:
            apart = math.hypot(x2 - x1, y2 - y1)
            if apart <= abs(r1 - r2):
                raise OutsideMethod("distance between wheels", apart, f"more than {abs(r1 - r2):g} m")
            towards, half = math.atan2(y2 - y1, x2 - x1), math.acos((r1 - r2) / apart)
            angles |= {(towards + half) % (2 * math.pi), (towards - half) % (2 * math.pi)}
    return sorted(angles)
