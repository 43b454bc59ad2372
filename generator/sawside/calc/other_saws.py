"""Set-up arithmetic of circular saws and mitre work that shares the shop with a band saw."""

import math

from sawside.calc.limits import finite, not_negative, positive, require


def table_chord(blade_diameter: float, blade_above_table: float) -> float:
    """Return the length of a circular blade's chord at the table.

    2 sqrt(D e - e^2)
    Takes: blade_diameter D; blade_above_table e [m]. Gives: chord [m].
    Holds for: 0 < e < D. Source: geometry of a circle; derived.

    >>> table_chord(250e-3, 25e-3) * 1e3
    150.0
    """
    positive(blade_diameter=blade_diameter)
    require(0 < blade_above_table < blade_diameter, "blade_above_table", blade_above_table, "0 to the diameter")
    return 2 * math.sqrt(blade_diameter * blade_above_table - blade_above_table**2)


def slot_angle(gap_front: float, gap_rear: float, span: float) -> float:
    """Return the angle between blade and mitre slot from two gaps to one and the same tooth.

    atan((rear - front) / span)
    Takes: gap_front, gap_rear, span between the two places [m]. Gives: angle [rad], above 0 away at the rear.
    Holds for: the same tooth turned from front to rear, which removes run-out. Source: geometry; derived.

    >>> math.degrees(slot_angle(10.00e-3, 10.05e-3, 180e-3))
    0.0159
    """
    finite(gap_front=gap_front, gap_rear=gap_rear)
    positive(span=span)
    return math.atan2(gap_rear - gap_front, span)


def heel(chord: float, angle: float) -> float:
    """Return how far the rear of a circular blade stands out when blade and travel are not parallel.

    c tan(theta)
    Takes: chord c [m]; angle theta [rad]. Gives: heel [m]; it must stay under the side clearance of the teeth.
    Holds for: |theta| < 5 degrees. Source: geometry; derived.

    >>> heel(150e-3, math.radians(0.1)) * 1e3
    0.262
    """
    positive(chord=chord)
    require(abs(angle) < math.radians(5), "angle", angle, "within 5 degrees (0.087 rad)")
    return chord * math.tan(angle)


def knife_side_play(body_thickness: float, knife_thickness: float, kerf: float) -> float:
    """Return how far a riving knife may stand to either side.

    (k - knife) / 2, with body < knife < kerf
    Takes: body_thickness of the blade, knife_thickness, kerf [m]. Gives: play to each side [m]; a knife outside the
    range is refused. Holds for: circular saws with a knife. Source: EN 1870-1 as told in a tool manual and an
    encyclopedia (read second-hand).

    >>> knife_side_play(2.2e-3, 2.5e-3, 3.2e-3) * 1e3
    0.35
    """
    finite(kerf=kerf)
    positive(body_thickness=body_thickness)
    between = body_thickness < knife_thickness < kerf
    require(between, "knife_thickness", knife_thickness, "more than the body and less than the kerf")
    return (kerf - knife_thickness) / 2


#: Riving knife: gap to the teeth 3 to 8 mm (EN 1870-1, read second-hand in a saw manual).
KNIFE_GAP_LEAST, KNIFE_GAP_MOST = 3e-3, 8e-3


def knife_gap_fits(gap: float) -> bool:
    """Tell whether the gap between riving knife and teeth is within 3 to 8 mm.

    3 mm <= gap <= 8 mm
    Takes: gap [m]. Gives: yes or no. Holds for: circular saw benches. Source: EN 1870-1 in a saw manual (read
    second-hand); the manual of the saw at hand goes first.

    >>> knife_gap_fits(5e-3), knife_gap_fits(9e-3)
    (True, False)
    """
    positive(gap=gap)
    return KNIFE_GAP_LEAST * (1 - 1e-9) <= gap <= KNIFE_GAP_MOST * (1 + 1e-9)


def rim_run_out(flange_reading: float, blade_diameter: float, reading_diameter: float) -> float:
    """Return the side run-out at the rim that a flange's run-out causes.

    TIR D / d
    Takes: flange_reading, total dial reading; blade_diameter D; reading_diameter d where it was taken [m]. Gives: [m].
    Holds for: a flat, stiff blade. Source: similar triangles; derived.

    >>> rim_run_out(0.02e-3, 250e-3, 60e-3) * 1e3
    0.0833
    """
    not_negative(flange_reading=flange_reading)
    positive(blade_diameter=blade_diameter, reading_diameter=reading_diameter)
    return flange_reading * blade_diameter / reading_diameter


def five_cut_error(strip_first: float, strip_last: float, strip_length: float) -> float:
    """Return how far a crosscut is from square, from the strip of the fifth cut round a panel.

    eps = atan((A - B) / L) / 4: each new edge stands at 90 degrees + eps to the one before
    Takes: strip_first A, strip_last B, widths at the two ends; strip_length L between those two places [m]. Gives:
    angle [rad]. Holds for: panel always turned the same way, never flipped. Source: sum of four equal corners; derived.

    >>> math.degrees(five_cut_error(25.40e-3, 25.20e-3, 300e-3))
    0.00955
    """
    positive(strip_first=strip_first, strip_last=strip_last, strip_length=strip_length)
    return math.atan2(strip_first - strip_last, strip_length) / 4


def five_cut_doubt(reading_doubt: float, strip_length: float) -> float:
    """Return the standard uncertainty of `five_cut_error`.

    u = sqrt(2) u_c / (4 L)
    Takes: reading_doubt u_c, strip_length L [m]. Gives: u [rad]. Holds for: small angles. Source: derived.

    >>> math.degrees(five_cut_doubt(0.0202e-3, 300e-3))
    0.00136
    """
    not_negative(reading_doubt=reading_doubt)
    positive(strip_length=strip_length)
    return math.sqrt(2) * reading_doubt / (4 * strip_length)


def flip_error(gap: float, board_width: float) -> float:
    """Return how far a crosscut is from square, from the gap of two pieces with one flipped.

    eps = atan(gap / W) / 2
    Takes: gap at the open end; board_width W [m]. Gives: angle [rad].
    Holds for: both pieces against one straight edge. Source: the error shows twice; derived.

    >>> math.degrees(flip_error(0.4e-3, 150e-3))
    0.0764
    """
    not_negative(gap=gap)
    positive(board_width=board_width)
    return math.atan2(gap, board_width) / 2


def frame_gap_angle(corners: int, mitre_error: float) -> float:
    """Return the angle by which a frame fails to close.

    2 n eps
    Takes: corners n; mitre_error eps of each cut [rad]. Gives: angle [rad].
    Holds for: the same error on all 2 n cuts. Source: sum of angles; derived.

    >>> math.degrees(frame_gap_angle(4, math.radians(0.1)))
    0.8
    """
    finite(mitre_error=mitre_error)
    require(corners >= 3, "corners", corners, "three or more")
    return 2 * corners * mitre_error


def bevel_stop_error(board_thickness: float, stop_error: float) -> float:
    """Return the difference of width between the two faces of a board cut with the blade off square.

    h tan(eps)
    Takes: board_thickness h [m]; stop_error eps [rad]. Gives: difference [m].
    Holds for: |eps| < 45 degrees. Source: geometry; derived.

    >>> bevel_stop_error(19e-3, math.radians(0.2)) * 1e3
    0.0663
    """
    positive(board_thickness=board_thickness)
    require(abs(stop_error) < math.radians(45), "stop_error", stop_error, "within 45 degrees (0.785 rad)")
    return board_thickness * math.tan(stop_error)


def rim_speed(blade_diameter: float, rotation: float) -> float:
    """Return the speed of a circular blade's teeth; it must stay under the marked maximum.

    pi D n
    Takes: blade_diameter D [m]; rotation n [rev/s]. Gives: speed [m/s].
    Holds for: any blade. Source: definition; derived.

    >>> rim_speed(250e-3, 4500 / 60)
    58.9
    """
    positive(blade_diameter=blade_diameter, rotation=rotation)
    return math.pi * blade_diameter * rotation


def circular_bite(feed_speed: float, rotation: float, teeth: int) -> float:
    """Return the feed for each tooth of a circular blade.

    v_f / (n z)
    Takes: feed_speed [m/s]; rotation n [rev/s]; teeth z. Gives: feed per tooth [m].
    Holds for: teeth that all cut. Source: definition; derived.

    >>> circular_bite(5 / 60, 4500 / 60, 40) * 1e6
    27.8
    """
    not_negative(feed_speed=feed_speed)
    positive(rotation=rotation, teeth=teeth)
    return feed_speed / (rotation * teeth)


def circular_mean_chip(circular_bite: float, work_height: float, blade_radius: float, arc_angle: float) -> float:
    """Return the mean thickness of chip of a circular blade.

    f h / (R da)
    Takes: circular_bite f; work_height h; blade_radius R [m]; arc_angle da of the blade inside the work [rad]. Gives:
    [m]. Holds for: rip feed, straight. Source: area of the chip over the arc's length; derived.

    >>> circular_mean_chip(27.8e-6, 20e-3, 125e-3, 0.35) * 1e6
    12.7
    """
    not_negative(circular_bite=circular_bite)
    positive(work_height=work_height, blade_radius=blade_radius, arc_angle=arc_angle)
    return circular_bite * work_height / (blade_radius * arc_angle)
