"""Squares, angle gauges, gaps and faces: how well an instrument shows squareness, and what a gap means as an angle."""

import math

from sawside.calc.limits import finite, positive, require
from sawside.calc.uncertainty import rectangular, resolution


def gap_angle(gap: float, gap_distance: float) -> float:
    """Return the angle that a gap stands for.

    atan(g / H)
    Takes: gap g; gap_distance H from the touching point to where the gap is read [m]. Gives: angle [rad].
    Holds for: square against blade, fence face out of upright, insert step under half a base.
    Source: geometry; derived.

    >>> math.degrees(gap_angle(0.05e-3, 100e-3))
    0.0286
    """
    positive(gap_distance=gap_distance)
    require(True, "gap", gap, "finite")
    return math.atan2(gap, gap_distance)


def square_doubt(gap_limit: float, square_error: float, blade_seen: float) -> float:
    """Return the standard uncertainty of squareness judged with a square and a gap of light or a feeler.

    u = sqrt((g^2 + t^2) / 3) / H
    Takes: gap_limit g, within which the gap is judged; square_error t, the square's own limit over that length;
    blade_seen H, length of blade against the square [m]. Gives: u [rad].
    Holds for: blade body between teeth, guides up, running tension. 2 micrometres of light show with an ideal knife
    edge (encyclopedia, read); 20 to 50 against a band on a shop floor, common practice, no source. Source: derived.

    >>> math.degrees(square_doubt(0.02e-3, 30e-6, 100e-3))
    0.0119
    """
    positive(blade_seen=blade_seen)
    return math.hypot(rectangular(gap_limit), rectangular(square_error)) / blade_seen


def angle_gauge_doubt(step: float, gauge_error: float) -> float:
    """Return the standard uncertainty of an angle gauge zeroed on the table and read on the blade.

    u^2 = 2 step^2 / 12 + 2 error^2 / 3
    Takes: step of the display; gauge_error, the maker's +- limit of each reading, 0 for rounding alone [rad]. Gives: u.
    Holds for: two readings. The limit dominates: a gauge good to 0.2 degrees can never accept 0.1. Source: derived.

    >>> math.degrees(angle_gauge_doubt(math.radians(0.1), 0.0))
    0.0408
    """
    return math.sqrt(2) * math.hypot(resolution(step), rectangular(gauge_error))


def reversed_square_error(gap_between_lines: float, line_length: float) -> float:
    """Return a square's own error from the line drawn along it, then drawn again with the square turned over.

    eps = atan(g / (2 L))
    Takes: gap_between_lines g at the far end, line_length L [m]. Gives: error of the square [rad].
    Holds for: both lines from one point of a straight edge. Source: the error shows twice; derived.

    >>> math.degrees(reversed_square_error(0.2e-3, 150e-3))
    0.0382
    """
    finite(gap_between_lines=gap_between_lines)
    positive(line_length=line_length)
    return math.atan2(gap_between_lines / 2, line_length)


def board_error_from_fence_face(board_height: float, face_tilt: float) -> float:
    """Return the thickness error over a board's height when it registers on a fence face that leans.

    d = H tan(theta)
    Takes: board_height H [m]; face_tilt theta [rad]. Gives: difference of thickness [m].
    Holds for: tall work held to the fence rather than flat on the table. Source: geometry; derived.

    >>> board_error_from_fence_face(150e-3, math.radians(0.1)) * 1e3
    0.262
    """
    positive(board_height=board_height)
    require(abs(face_tilt) < math.radians(45), "face_tilt", face_tilt, "within 45 degrees (0.785 rad)")
    return board_height * math.tan(face_tilt)


def sag_slope(sag: float, span: float) -> float:
    """Return the steepest slope of a table that sags or bows evenly.

    4 f / L
    Takes: sag f in the middle, span L [m]. Gives: slope at the ends of the span [rad].
    Holds for: a shallow arc, f below a tenth of L. 0.2 mm over 400 mm is as much as the usual tolerance of square, so
    flatness counts close to the blade. Source: slope of an arc; derived.

    >>> math.degrees(sag_slope(0.2e-3, 400e-3))
    0.1146
    """
    positive(span=span)
    require(abs(sag) < span / 10, "sag", sag, "less than a tenth of the span")
    return 4 * sag / span
