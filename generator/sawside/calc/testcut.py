"""The test cut: what four caliper readings say of table and cut, how far to trust them, and what to move.

Readings are named front or back (front: the end that was cut first) and top or bottom, as the piece lay on the table.
"""

import math

from sawside.calc.decision import GUARD, decision_limits
from sawside.calc.limits import OutsideMethod, finite, not_negative, positive, require
from sawside.calc.uncertainty import combine, normal_below, rectangular, resolution


def corner_doubt(step: float, reading_spread: float, readings: int, contact_error: float) -> float:
    """Return the standard uncertainty of one corner's thickness.

    u^2 = d^2 / 12 + s^2 / n + a^2 / 3
    Takes: step d of the calipers; reading_spread s of one reading on wood; readings n at each corner; contact_error a,
    the limit of how the jaws touch [all m]. Gives: u [m].
    Holds for: differences of corners, where zero and scale errors cancel. s on wood has to be measured: ten readings
    at one corner. Source: JCGM 100:2008, 4.2.3 and 4.3.7 (memory); derived.

    >>> corner_doubt(0.01e-3, 0.02e-3, 1, 0.0) * 1e3
    0.0202
    """
    positive(readings=readings)
    not_negative(reading_spread=reading_spread)
    return combine((resolution(step), reading_spread / math.sqrt(readings), rectangular(contact_error)))


def cut_tilt(front_top: float, front_bottom: float, back_top: float, back_bottom: float, caliper_height: float) -> float:
    """Return the angle between the cut face and the face it was measured from, seen along the cut.

    tilt = atan(((FT + BT) - (FB + BB)) / (2 H)), above 0 when the piece is thicker at the top
    Takes: four thicknesses [m]; caliper_height H between the upper and lower touching points [m]. Gives: angle [rad].
    Holds for: differences small beside H. It is table error minus the piece's own corner error: for the table alone
    use a piece proved square, or turned_cut_tilt. Source: plane through four points; derived.

    >>> math.degrees(cut_tilt(20.05e-3, 20.00e-3, 20.07e-3, 20.02e-3, 50e-3))
    0.0573
    """
    _corners(front_top, front_bottom, back_top, back_bottom)
    positive(caliper_height=caliper_height)
    return math.atan2((front_top + back_top - front_bottom - back_bottom) / 2, caliper_height)


def cut_taper(front_top: float, front_bottom: float, back_top: float, back_bottom: float, caliper_length: float) -> float:
    """Return the angle between the cut face and the face it was measured from, seen from above.

    taper = atan(((BT + BB) - (FT + FB)) / (2 L)), above 0 when the piece is thicker at the back
    Takes: four thicknesses [m]; caliper_length L between front and back touching points [m]. Gives: angle [rad].
    Holds for: differences small beside L. It is NOT the direction of the fence: a piece that slides along a straight
    fence comes out parallel whatever the fence's direction. Taper tells of a blade that wanders in, a piece that left
    the fence, a fence that gives, or a crooked face. Source: plane through four points; sliding piece; derived.

    >>> math.degrees(cut_taper(20.05e-3, 20.00e-3, 20.07e-3, 20.02e-3, 200e-3))
    0.0057
    """
    _corners(front_top, front_bottom, back_top, back_bottom)
    positive(caliper_length=caliper_length)
    return math.atan2((back_top + back_bottom - front_top - front_bottom) / 2, caliper_length)


def cut_twist(front_top: float, front_bottom: float, back_top: float, back_bottom: float) -> float:
    """Return how far the corners stand off a plane.

    q = (FT - FB - BT + BB) / 4
    Takes: four thicknesses [m]. Gives: distance of each corner from the best plane [m], signs alternating.
    Holds for: any readings. Source: residual of the plane through four points; derived.

    >>> cut_twist(10.00e-3, 10.00e-3, 10.10e-3, 10.00e-3) * 1e3
    -0.025
    """
    _corners(front_top, front_bottom, back_top, back_bottom)
    return (front_top - front_bottom - back_top + back_bottom) / 4


def tilt_doubt(corner_doubt: float, caliper_height: float) -> float:
    """Return the standard uncertainty of `cut_tilt`; with the length instead of the height, that of `cut_taper`.

    u = u_c / H: each of the four corners carries a weight of one half
    Takes: corner_doubt u_c, caliper_height H [m]. Gives: u [rad]. Holds for: small angles. Source: derived.

    >>> math.degrees(tilt_doubt(0.0202e-3, 50e-3))
    0.0231
    """
    not_negative(corner_doubt=corner_doubt)
    positive(caliper_height=caliper_height)
    return corner_doubt / caliper_height


def twist_matters(twist: float, corner_doubt: float) -> bool:
    """Tell whether the corners stand off a plane by more than chance: measure again before moving anything.

    |q| > 2 u_q, u_q = u_c / 2
    Takes: twist q, corner_doubt u_c [m]. Gives: yes or no. Holds for: independent readings. Source: derived.

    >>> twist_matters(-0.025e-3, 0.0202e-3)
    True
    """
    finite(twist=twist)
    not_negative(corner_doubt=corner_doubt)
    return abs(twist) > corner_doubt


def turned_cut_tilt(top: float, bottom: float, caliper_height: float) -> float:
    """Return the table error alone, from a piece ripped on one side, turned end for end, and ripped on the other.

    tilt = atan((top - bottom) / (2 H))
    Takes: top, bottom thickness [m]; caliper_height H [m]. Gives: angle between blade and square to the table [rad].
    Holds for: the same face down both times: the piece's own corner error cancels and the table error shows twice.
    Source: section geometry; derived.

    >>> math.degrees(turned_cut_tilt(50.20e-3, 50.03e-3, 50e-3))
    0.0974
    """
    positive(top=top, bottom=bottom, caliper_height=caliper_height)
    return math.atan2((top - bottom) / 2, caliper_height)


def turned_cut_doubt(corner_doubt: float, caliper_height: float) -> float:
    """Return the standard uncertainty of `turned_cut_tilt`.

    u = sqrt(2) u_c / (2 H)
    Takes: corner_doubt u_c, caliper_height H [m]. Gives: u [rad]. Holds for: small angles. Source: derived.

    >>> math.degrees(turned_cut_doubt(0.0202e-3, 50e-3))
    0.0164
    """
    return tilt_doubt(corner_doubt, caliper_height) / math.sqrt(2)


def probability_within(error: float, doubt: float, tolerance: float) -> float:
    """Return the probability that the true error lies within the tolerance.

    P = Phi((tol - x) / u) - Phi((-tol - x) / u)
    Takes: error x, doubt u above 0, tolerance, one unit. Gives: probability [-].
    Holds for: normal errors and no earlier knowledge. Source: JCGM 106:2012, 7 (memory).

    >>> probability_within(0.0573, 0.0231, 0.1)
    0.968
    """
    positive(doubt=doubt, tolerance=tolerance)
    return normal_below((tolerance - error) / doubt) - normal_below((-tolerance - error) / doubt)


def height_needed(corner_doubt: float, tolerance: float, guard_share: float, gain: float) -> float:
    """Return how tall the test piece has to be between the caliper's touching points.

    H = 1.645 u_c / (gain * share * tol)
    Takes: corner_doubt u_c [m]; tolerance [rad]; guard_share, part of the tolerance the doubt may use up [-]; gain:
    1 for four corners, sqrt(2) for the turned cut [-]. Gives: height [m].
    Holds for: small angles. Source: decision.verdict turned round; derived.

    >>> height_needed(0.0202e-3, math.radians(0.1), 0.5, 1.0) * 1e3
    38.1
    """
    positive(corner_doubt=corner_doubt, tolerance=tolerance, gain=gain)
    require(0 < guard_share < 1, "guard_share", guard_share, "between 0 and 1")
    return GUARD * corner_doubt / (gain * guard_share * tolerance)


#: Least height between the readings on a test piece, the step it grows by, and what the room under the guides must leave
#: over it [m]; our choice.
LEAST_HEIGHT, HEIGHT_STEP, ROOM_ABOVE = 40e-3, 5e-3, 20e-3


def reading_height(height_needed: float, cutting_height_max: float) -> float:
    """Return the height to ask for between the upper and the lower readings on a test piece, sized to the saw.

    needed, at least 40 mm, in steps of 5 mm, never more than the room under the guides less 20 mm
    Takes: height_needed, cutting_height_max [m]. Gives: [m]. Holds for: saws with 30 mm of room or more under the guides.
    Source: Sawside's own choice.

    >>> reading_height(31.2e-3, 200e-3) * 1e3, reading_height(94.3e-3, 200e-3) * 1e3, reading_height(94.3e-3, 60e-3) * 1e3
    (40.0, 95.0, 40.0)
    """
    positive(height_needed=height_needed)
    require(cutting_height_max >= 30e-3, "cutting_height_max", cutting_height_max, "at least 0.03 m")
    steps = math.ceil(round(height_needed / HEIGHT_STEP, 6))
    room = math.floor(round((cutting_height_max - ROOM_ABOVE) / HEIGHT_STEP, 6))
    return min(max(LEAST_HEIGHT, steps * HEIGHT_STEP), max(1, room) * HEIGHT_STEP)


def turned_cut_limit(caliper_doubt: float, tolerance: float, caliper_height: float, side: str) -> float:
    """Return the difference of thickness up to which a turned test cut is accepted, or above which the table is adjusted.

    d = 2 H tan(tol - g) for accept, 2 H tan(tol + g) for adjust; g = 1.645 u_c / (2 H), u_c of two readings each
    Takes: caliper_doubt of one reading [m]; tolerance [rad]; caliper_height H [m]; side: accept or adjust. Gives: [m].
    Holds for: top and bottom each the mean of two readings, one near each end of the piece. Calipers too coarse to accept
    anything are outside the method. Source: decision.decision_limits with turned_cut_doubt; derived.

    >>> turned_cut_limit(0.03e-3, math.radians(0.1), 50e-3, "accept") * 1e3
    0.125
    >>> turned_cut_limit(0.03e-3, math.radians(0.1), 50e-3, "adjust") * 1e3
    0.224
    """
    doubt = turned_cut_doubt(caliper_doubt / math.sqrt(2), caliper_height)
    accept, adjust = decision_limits(doubt, tolerance)
    if side == "adjust":
        return 2 * caliper_height * math.tan(adjust)
    if accept is None:
        raise OutsideMethod("caliper_doubt", caliper_doubt, "less: no reading with these calipers could prove the tolerance")
    return 2 * caliper_height * math.tan(accept)


def smallest_error_seen(doubt: float) -> float:
    """Return the smallest error that is found with 95 % chance while a true zero raises an alarm in 5 %.

    2 * 1.645 u
    Takes: doubt u. Gives: error, same unit. Holds for: normal errors. Source: derived.

    >>> smallest_error_seen(0.0231)
    0.0760
    """
    not_negative(doubt=doubt)
    return 2 * GUARD * doubt


def stop_bolt_turns(tilt: float, table_stop_arm: float, table_stop_pitch: float) -> float:
    """Return how far to turn the table's stop bolt to take out a tilt.

    n = a tan(tilt) / P
    Takes: tilt [rad]; table_stop_arm a, square from tilt axis to bolt [m]; table_stop_pitch P [m]. Gives: turns [-].
    Holds for: small angles, bolt square to the arm. Which way is the machine's geometry: turn half, test again.
    Source: lever; derived.

    >>> stop_bolt_turns(math.radians(0.1), 90e-3, 1e-3)
    0.157
    """
    positive(table_stop_arm=table_stop_arm, table_stop_pitch=table_stop_pitch)
    require(abs(tilt) < math.radians(10), "tilt", tilt, "within 10 degrees (0.175 rad)")
    return table_stop_arm * math.tan(tilt) / table_stop_pitch


def drift_path(angle: float, steering_length: float, distance: float) -> float:
    """Return how far a drifting blade has wandered off after some distance of cut along a fence.

    d = theta l (1 - exp(-x / l))
    Takes: angle theta [rad]; steering_length l of blade and wood, to be fitted from four stations or more; distance x
    [m]. Gives: offset [m]. Holds for: small angles; the blade turns its error back in proportion to its offset. The
    curve flattens, so end-to-end taper says little of theta. Source: derived; no published l is known.

    >>> drift_path(math.radians(1.0), 50e-3, 300e-3) * 1e3
    0.870
    """
    finite(angle=angle)
    positive(steering_length=steering_length)
    not_negative(distance=distance)
    return angle * steering_length * -math.expm1(-distance / steering_length)


def _corners(*thicknesses: float) -> None:
    for thickness in thicknesses:
        require(thickness > 0, "thickness", thickness, "more than 0")
