"""Guides and the blade's place on the tyre: play, set-back behind the gullets, thrust gap, overhang."""

import math

from sawside.calc.limits import not_negative, positive, require


def guide_yaw(side_guide_contact: float, blade_thickness: float, side_clearance: float) -> float:
    """Return how far the blade can turn inside flat side guides.

    Equation: asin((t + 2 s) / sqrt(a^2 + t^2)) - atan(t / a), about 2 s / a
    Takes: side_guide_contact: a, along the blade's width; blade_thickness; side_clearance: s on each side [m]
    Gives: [rad]
    Holds for: t + 2 s less than sqrt(a^2 + t^2); block or disc guides. A roller touches along a line: no limit from it.
    Source: derived (rectangle turned between two parallel faces); checked with shapely.

    >>> round(math.degrees(guide_yaw(8e-3, 0.65e-3, 0.1e-3)), 2)
    1.43
    """
    positive(side_guide_contact=side_guide_contact, blade_thickness=blade_thickness)
    not_negative(side_clearance=side_clearance)
    room, diagonal = blade_thickness + 2 * side_clearance, math.hypot(side_guide_contact, blade_thickness)
    most = (diagonal - blade_thickness) / 2
    require(room < diagonal, "side_clearance", side_clearance, f"less than {most:g} m, or the blade turns round")
    return math.asin(room / diagonal) - math.atan(blade_thickness / side_guide_contact)


def tip_travel(side_clearance: float, guide_margin: float, gullet: float, guide_yaw: float) -> float:
    """Return how far a tooth tip can move sideways inside the guides.

    Equation: s + (m + g) sin(yaw)
    Takes: side_clearance, guide_margin: m, gullet: g [m], guide_yaw [rad]
    Gives: [m]
    Holds for: at the guide; half-way to the other guide the blade also twists (`stiffness.tip_stiffness`).
    Source: derived.

    >>> round(1e3 * tip_travel(0.1e-3, 1e-3, 3e-3, math.radians(1.43)), 2)
    0.2
    """
    not_negative(side_clearance=side_clearance, guide_margin=guide_margin, gullet=gullet, guide_yaw=guide_yaw)
    return side_clearance + (guide_margin + gullet) * math.sin(guide_yaw)


def guide_margin(thrust_gap: float, guide_extra_margin: float) -> float:
    """Return how far behind the gullet line the front of the side guides is set.

    Equation: m = thrust gap + extra
    Takes: thrust_gap, guide_extra_margin [m]
    Gives: [m]
    Holds for: an extra that covers bow, weld step and wheel wobble (`margin_needed`).
    Source: derived; an extra of 0.5 mm is Sawside's own choice. A saw manual sets the margin equal to the thrust gap,
        READ: nothing is left for weld and wobble.

    >>> round(1e3 * guide_margin(0.3e-3, 0.5e-3), 6)
    0.8
    """
    not_negative(thrust_gap=thrust_gap, guide_extra_margin=guide_extra_margin)
    return thrust_gap + guide_extra_margin


def margin_needed(thrust_gap: float, bow: float, weld_step: float, wobble: float) -> float:
    """Return the least set-back behind the gullet line: everything that can push the blade back at the guide.

    Equation: thrust gap + bow + weld step + wobble
    Takes: thrust_gap, bow (`stiffness.bow`), weld_step of the back edge, wobble (`wheels.wobble_travel`) [m]
    Gives: [m]
    Holds for: all four adding up, the worst case.
    Source: derived.

    >>> round(1e3 * margin_needed(0.3e-3, 0.17e-3, 0.1e-3, 0.05e-3), 6)
    0.62
    """
    not_negative(thrust_gap=thrust_gap, bow=bow, weld_step=weld_step, wobble=wobble)
    return thrust_gap + bow + weld_step + wobble


def guide_setback(gullet: float, guide_margin: float) -> float:
    """Return how far behind the tooth tips the front of the side guides is set.

    Equation: g + m
    Takes: gullet, guide_margin [m]
    Gives: [m]
    Holds for: gullet measured from the tips.
    Source: derived.

    >>> round(1e3 * guide_setback(3e-3, 0.8e-3), 6)
    3.8
    """
    not_negative(gullet=gullet, guide_margin=guide_margin)
    return gullet + guide_margin


def thrust_closing_force(strand_force: float, thrust_gap: float, span_one_side: float, span_other_side: float) -> float:
    """Return the feed force that closes the thrust gap at a guide: a few newtons, so in a cut the blade rests there.

    Equation: F gap (1 / a + 1 / b)
    Takes: strand_force [N], thrust_gap, span_one_side, span_other_side: to the next points that hold the blade [m]
    Gives: [N]
    Holds for: a gap small against the spans; stiffness on edge left out.
    Source: derived (string pushed aside at one point).

    >>> round(thrust_closing_force(650.0, 0.4e-3, 0.150, 0.450), 1)
    2.3
    """
    positive(strand_force=strand_force, span_one_side=span_one_side, span_other_side=span_other_side)
    not_negative(thrust_gap=thrust_gap)
    return strand_force * thrust_gap * (1 / span_one_side + 1 / span_other_side)


def gullet_line_gullet_school(tyre_width: float) -> float:
    """Return where the gullet line runs when gullets are centred on the tyre, behind the tyre's front rim.

    Equation: x = B / 2
    Takes: tyre_width [m]
    Gives: [m]
    Holds for: the machine maker's instruction goes first.
    Source: common practice, no source (one of two schools).

    >>> gullet_line_gullet_school(0.025)
    0.0125
    """
    positive(tyre_width=tyre_width)
    return tyre_width / 2


def gullet_line_blade_school(tyre_width: float, blade_width: float, gullet: float) -> float:
    """Return where the gullet line runs when the whole blade is centred on the tyre, behind the tyre's front rim.

    Equation: x = B / 2 - w / 2 + g
    Takes: tyre_width, blade_width, gullet [m]
    Gives: [m], negative when it lies in front of the rim
    Holds for: the machine maker's instruction goes first.
    Source: common practice, no source (the other school).

    >>> round(1e3 * gullet_line_blade_school(0.025, 0.013, 0.003), 6)
    9.0
    """
    positive(tyre_width=tyre_width, blade_width=blade_width)
    require(0 <= gullet < blade_width, "gullet", gullet, f"from 0 to less than the blade width {blade_width:g}")
    return tyre_width / 2 - blade_width / 2 + gullet


def overhang_front(gullet_line: float, gullet: float) -> float:
    """Return how far the tooth tips stand in front of the tyre.

    Equation: max(0, g - x)
    Takes: gullet_line: x, behind the front rim; gullet: g [m]
    Gives: [m]
    Holds for: x may be negative.
    Source: derived.

    >>> round(1e3 * overhang_front(0.001, 0.003), 6)
    2.0
    """
    not_negative(gullet=gullet)
    require(math.isfinite(gullet_line), "gullet_line", gullet_line, "a length")
    return max(0.0, gullet - gullet_line)


def overhang_back(gullet_line: float, blade_width: float, gullet: float, tyre_width: float) -> float:
    """Return how far the back of the blade stands behind the tyre.

    Equation: max(0, (w - g) - (B - x))
    Takes: gullet_line: x, behind the front rim; blade_width, gullet, tyre_width [m]
    Gives: [m]
    Holds for: 0 <= g < w.
    Source: derived.

    >>> round(1e3 * overhang_back(0.0125, 0.019, 0.004, 0.025), 6)
    2.5
    """
    positive(blade_width=blade_width, tyre_width=tyre_width)
    require(0 <= gullet < blade_width, "gullet", gullet, f"from 0 to less than the blade width {blade_width:g}")
    require(math.isfinite(gullet_line), "gullet_line", gullet_line, "a length")
    return max(0.0, (blade_width - gullet) - (tyre_width - gullet_line))


def widest_on_tyre_gullet_school(tyre_width: float, gullet: float) -> float:
    """Return the width of the widest blade that does not hang off the tyre with its gullets centred.

    Equation: B / 2 + g
    Takes: tyre_width, gullet [m]
    Gives: [m]
    Holds for: g at most B / 2, so that the teeth stay on the tyre.
    Source: derived (`overhang_back` is 0).

    >>> round(1e3 * widest_on_tyre_gullet_school(0.025, 0.004), 6)
    16.5
    """
    positive(tyre_width=tyre_width)
    require(0 <= gullet <= tyre_width / 2, "gullet", gullet, f"from 0 to half the tyre width, {tyre_width / 2:g}")
    return tyre_width / 2 + gullet


def widest_on_tyre_blade_school(tyre_width: float) -> float:
    """Return the width of the widest blade that does not hang off the tyre when the whole blade is centred.

    Equation: B
    Takes: tyre_width [m]
    Gives: [m]
    Holds for: tyre_width more than 0.
    Source: derived.

    >>> widest_on_tyre_blade_school(0.025)
    0.025
    """
    positive(tyre_width=tyre_width)
    return tyre_width
