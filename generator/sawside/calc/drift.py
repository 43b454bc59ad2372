"""Drift of the blade, the direction of the fence, and what a straightedge on the blade can and cannot show."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sawside.calc.limits import finite, not_negative, positive, require
from sawside.calc.uncertainty import coverage_factor, mean, mean_doubt, spread

STEADY_FIRST = "cuts scatter: see to feed, tension, guides and dull teeth first, then repeat"
BLADE_FIRST = "drift is large: see to tracking, set and dull teeth first"
LEAVE_FENCE = "drift is not proved: leave the fence"
SET_FENCE = "set the fence to the drift"


def drift_angle(offset_start: float, offset_end: float, cut_length: float) -> float:
    """Return the direction in which the blade cuts straight, from how the edge of the held board lies on the table.

    phi = atan((y2 - y1) / L)
    Takes: offset_start y1, offset_end y2, from the mitre slot or the table's edge to the edge of the board, which was held
    still where the cut ran straight by itself, or to a pencil line drawn along it [m]; cut_length L between the two
    places [m]. Gives: angle against slot or table edge [rad], above 0 when the board's edge is farther off at the end.
    Holds for: a board edge parallel to the line that was cut. The distance from board edge to kerf says nothing: along a
    line parallel to the edge it stays the same whatever the drift. Source: geometry; derived.

    >>> math.degrees(drift_angle(50e-3, 55.2e-3, 300e-3))
    0.993
    """
    finite(offset_start=offset_start, offset_end=offset_end)
    positive(cut_length=cut_length)
    return math.atan2(offset_end - offset_start, cut_length)


def drift_doubt(offset_doubt: float, cut_length: float) -> float:
    """Return the standard uncertainty of one drift cut.

    u = sqrt(2) u_y / L
    Takes: offset_doubt u_y of each offset, cut_length L [m]. Gives: u [rad]. Holds for: small angles. Source: derived.

    >>> math.degrees(drift_doubt(0.25e-3, 300e-3))
    0.0675
    """
    not_negative(offset_doubt=offset_doubt)
    positive(cut_length=cut_length)
    return math.sqrt(2) * offset_doubt / cut_length


@dataclass(frozen=True)
class Drift:
    """Drift from repeated cuts: mean angle, its expanded doubt (95 %), scatter of one cut, how many cuts; all [rad]."""

    angle: float
    expanded_doubt: float
    scatter: float
    cuts: int


def drift_from_cuts(angles: Sequence[float]) -> Drift:
    """Return the drift of several cuts with a doubt that comes from the cuts themselves.

    mean +- t s / sqrt(n), t for 95 % and n - 1 degrees of freedom
    Takes: angles, one for each cut, three or more [rad]. Gives: Drift.
    Holds for: cuts made one after another with nothing changed. Source: JCGM 100:2008, 4.2 and G.3 (memory).

    >>> drift = drift_from_cuts([math.radians(a) for a in (0.95, 1.05, 0.9, 1.1, 1.0)])
    >>> math.degrees(drift.angle), math.degrees(drift.expanded_doubt)
    (1.00, 0.098)
    """
    require(len(angles) >= 3, "angles", len(angles), "three or more cuts")
    expanded = coverage_factor(0.95, len(angles) - 1) * mean_doubt(angles)
    return Drift(mean(angles), expanded, spread(angles), len(angles))


def drift_advice(drift: Drift, scatter_most: float, drift_most: float) -> str:
    """Say what to do about a drift, the first that applies: steady the cut, leave the fence, see to the blade, set it.

    s > scatter_most; |mean| <= U; |mean| > drift_most; else set the fence
    Takes: Drift; scatter_most, drift_most [rad], both chosen by the shop. Gives: words.
    Holds for: any limits above 0. Source: order derived; 0.3 and 2 degrees are assumed choices.
    Saws that are dull or badly set or tensioned come off at once: 29 CFR 1910.213(s)(1) (read).

    >>> cuts = drift_from_cuts([math.radians(a) for a in (1.0, 2.0, 0.2, 1.5)])
    >>> drift_advice(cuts, math.radians(0.3), math.radians(2))
    'cuts scatter: see to feed, tension, guides and dull teeth first, then repeat'
    """
    positive(scatter_most=scatter_most, drift_most=drift_most)
    if drift.scatter > scatter_most:
        return STEADY_FIRST
    if abs(drift.angle) <= drift.expanded_doubt:
        return LEAVE_FENCE
    return BLADE_FIRST if abs(drift.angle) > drift_most else SET_FENCE


def fence_shift(angle: float, fence_length: float) -> float:
    """Return how far to move one fixing of the fence to turn it by an angle.

    d = L tan(phi)
    Takes: angle [rad]; fence_length L between the fixings [m]. Gives: shift [m].
    Holds for: |phi| < 10 degrees; angle from drift cuts or a straightedge, never from taper. Source: geometry; derived.

    >>> fence_shift(math.radians(1.0), 300e-3) * 1e3
    5.236
    """
    require(abs(angle) < math.radians(10), "angle", angle, "within 10 degrees (0.175 rad)")
    positive(fence_length=fence_length)
    return fence_length * math.tan(angle)


def tracking_share(offset_on_tyre: float, crown_radius: float) -> float:
    """Return how far a crowned tyre turns a blade that runs beside the top of the crown.

    asin(x / R)
    Takes: offset_on_tyre x from the top of the crown [m]; crown_radius R of the crown's curve [m]. Gives: angle [rad].
    Holds for: |x| < R and a crown that is an arc. When moving the blade changes the drift by about this, tracking is
    the cause. A flat tyre turns nothing. Source: slope of an arc; derived.

    >>> math.degrees(tracking_share(3e-3, 500e-3))
    0.344
    """
    positive(crown_radius=crown_radius)
    require(abs(offset_on_tyre) < crown_radius, "offset_on_tyre", offset_on_tyre, "less than crown_radius")
    return math.asin(offset_on_tyre / crown_radius)


def straightedge_doubt(seat_error: float, contact: float, reading_doubt: float, distance: float) -> float:
    """Return the standard uncertainty of the angle between blade and fence taken with a straightedge on the blade.

    u^2 = (sqrt2 u_seat / contact)^2 + (sqrt2 u_read / distance)^2
    Takes: seat_error u_seat of each end of the contact, contact length on the blade's body, reading_doubt u_read,
    distance between the two readings [m]. Gives: u [rad].
    Holds for: independent errors. The contact term rules: a longer bar gains nothing, a wider blade does. A clamped bar
    also pulls the band aside, which is not in here. Source: derived.

    >>> math.degrees(straightedge_doubt(10e-6, 9.7e-3, 0.05e-3, 300e-3))
    0.0847
    """
    not_negative(seat_error=seat_error, reading_doubt=reading_doubt)
    positive(contact=contact, distance=distance)
    return math.sqrt(2) * math.hypot(seat_error / contact, reading_doubt / distance)


def tooth_touch_error(side_set: float, blade_width: float) -> float:
    """Return the error when the straightedge rests on a set tooth instead of the body.

    atan(s / w)
    Takes: side_set s of one tooth beyond the body's face, blade_width w [m]. Gives: angle [rad].
    Holds for: bar touching tooth and back. Source: geometry; derived.

    >>> math.degrees(tooth_touch_error(0.22e-3, 12.7e-3))
    0.992
    """
    not_negative(side_set=side_set)
    positive(blade_width=blade_width)
    return math.atan2(side_set, blade_width)
