"""Bite, gullet room, the marks a blade leaves and the window of band speed."""

import math

from sawside.calc.limits import not_negative, positive, require


def bite(feed_speed: float, band_speed: float, tooth_pitch: float) -> float:
    """Return how far the work advances from one tooth to the next.

    f = v_f p / v_b
    Takes: feed_speed v_f, band_speed v_b [m/s]; tooth_pitch p [m]. Gives: bite [m].
    Holds for: teeth that all cut; a raker set shares the work unevenly. Source: definition; derived.

    >>> bite(20 / 60, 25.0, 25e-3) * 1e3
    0.3333
    """
    not_negative(feed_speed=feed_speed)
    positive(band_speed=band_speed, tooth_pitch=tooth_pitch)
    return feed_speed * tooth_pitch / band_speed


def feed_at_bite(bite: float, band_speed: float, tooth_pitch: float) -> float:
    """Return the feed that gives a wanted bite: a limit for a fine finish, or the least at which teeth still cut.

    v_f = f v_b / p
    Takes: bite f [m]; band_speed v_b [m/s]; tooth_pitch p [m]. Gives: feed [m/s].
    Holds for: as bite. A bite below the edge radius, 5 to 15 micrometres in a metal-sawing paper (Sarwar, Haider and
    Persson, abstract read), rubs instead of cutting; for wood this is an analogy. Source: definition; derived.

    >>> feed_at_bite(0.1e-3, 15.0, 25.4e-3 / 3) * 60
    10.63
    """
    not_negative(bite=bite)
    positive(band_speed=band_speed, tooth_pitch=tooth_pitch)
    return bite * band_speed / tooth_pitch


def gullet_area(tooth_pitch: float, gullet_depth: float, gullet_shape: float) -> float:
    """Return the side area of one gullet.

    A = kappa p d
    Takes: tooth_pitch p, gullet_depth d [m]; gullet_shape kappa, share of the rectangle p d [-]. Gives: area [m2].
    Holds for: 0 < kappa <= 1; 1 / 1.75 for sawmill bands, 0.5 for triangles. Source: a blade maker's technical page on
    gullet capacity, name withheld (read).

    >>> gullet_area(25e-3, 8e-3, 1 / 1.75) * 1e6
    114.3
    """
    positive(tooth_pitch=tooth_pitch, gullet_depth=gullet_depth)
    require(0 < gullet_shape <= 1, "gullet_shape", gullet_shape, "more than 0 and at most 1")
    return gullet_shape * tooth_pitch * gullet_depth


def gullet_fill(feed_speed: float, band_speed: float, work_height: float, gullet_depth: float, gullet_shape: float) -> float:
    """Return how much solid wood one tooth takes, as a share of its gullet.

    G = f h / A = v_f h / (v_b kappa d): the pitch cancels, only the depth counts
    Takes: feed_speed, band_speed [m/s]; work_height h, gullet_depth d [m]; gullet_shape kappa [-]. Gives: share [-].
    Holds for: as gullet_area, solid wood before it swells to dust. Source: definition of both; derived.

    >>> gullet_fill(4.06 / 60, 15.0, 150e-3, 0.35 * 25.4e-3 / 3, 1 / 1.75)
    0.40
    """
    not_negative(feed_speed=feed_speed)
    positive(band_speed=band_speed, work_height=work_height)
    return feed_speed * work_height / (band_speed * gullet_area(1.0, gullet_depth, gullet_shape))


def feed_at_gullet_fill(
    gullet_fill_most: float, band_speed: float, work_height: float, gullet_depth: float, gullet_shape: float
) -> float:
    """Return the feed at which the gullets are as full as allowed.

    v_f = G kappa d v_b / h
    Takes: gullet_fill_most G [-]; band_speed [m/s]; work_height, gullet_depth [m]; gullet_shape [-]. Gives: feed [m/s].
    Holds for: as gullet_fill; G 0.4 keeps loose dust inside, sawmills use 0.5 to 0.75 of packed dust.
    Source: a blade maker's technical page, name withheld (read); derived.

    >>> feed_at_gullet_fill(0.40, 15.0, 150e-3, 0.35 * 25.4e-3 / 3, 1 / 1.75) * 60
    4.06
    """
    positive(gullet_fill_most=gullet_fill_most, work_height=work_height, band_speed=band_speed)
    return gullet_fill_most * gullet_area(1.0, gullet_depth, gullet_shape) * band_speed / work_height


def loose_fill(gullet_fill: float, swelling: float) -> float:
    """Return how full the gullet is once the wood has become loose dust.

    G_loose = G e
    Takes: gullet_fill G of solid wood [-]; swelling e, loose over solid volume [-]. Gives: share [-].
    Holds for: dust that leaves only by the gullet. Source: Briggs, Forest Products Measurements and Conversion
    Factors, ch. 7, Table 7-1: sawdust 2.50 (read).

    >>> loose_fill(0.40, 2.50)
    1.0
    """
    not_negative(gullet_fill=gullet_fill)
    require(swelling >= 1, "swelling", swelling, "1 or more")
    return gullet_fill * swelling


def body_gullet_fill(gullet_fill: float, kerf: float, blade_thickness: float) -> float:
    """Return the fill when only the space between the body's faces is counted.

    G k / t: the cut is as wide as the kerf, the gullet only as the body
    Takes: gullet_fill [-]; kerf k, blade_thickness t [m]. Gives: share [-].
    Holds for: k >= t; above 1 the dust rides in the side clearance. Source: geometry; derived.

    >>> body_gullet_fill(0.40, 1.1e-3, 0.64e-3)
    0.69
    """
    not_negative(gullet_fill=gullet_fill)
    positive(blade_thickness=blade_thickness)
    require(kerf >= blade_thickness, "kerf", kerf, "at least blade_thickness")
    return gullet_fill * kerf / blade_thickness


def tooth_mark_spacing(bite: float, set_repeat: int) -> float:
    """Return the distance between marks of teeth set to the same side.

    s = m f
    Takes: bite f [m]; set_repeat m, teeth after which the set repeats (2 left-right, 3 with a raker). Gives: [m].
    Holds for: even set. Marks one can see are wider: weld, one high tooth, vibration. Source: counting; derived.

    >>> 25.4e-3 / tooth_mark_spacing(38.2e-6, 2)
    332.5
    """
    not_negative(bite=bite)
    positive(set_repeat=set_repeat)
    return set_repeat * bite


def scallop_height(bite: float, set_repeat: int, set_angle: float) -> float:
    """Return the depth of the ridges that teeth leave on the cut face.

    a = m f tan(phi)
    Takes: bite f [m]; set_repeat m; set_angle phi of the tooth's side [rad]. Gives: depth [m].
    Holds for: sharp corners all in one line, no vibration: a lower bound. Source: outline of drawn teeth; derived.

    >>> scallop_height(38.2e-6, 2, math.radians(7)) * 1e6
    9.4
    """
    require(0 <= set_angle < math.radians(45), "set_angle", set_angle, "0 to 45 degrees (0.785 rad)")
    return tooth_mark_spacing(bite, set_repeat) * math.tan(set_angle)


def event_mark_spacing(feed_speed: float, band_speed: float, event_length: float) -> float:
    """Return the distance between marks of something that comes once per band, or once per turn of a wheel.

    s = v_f L / v_b
    Takes: feed_speed, band_speed [m/s]; event_length L, band length or wheel circumference [m]. Gives: spacing [m].
    Holds for: steady feed. Measured spacing tells which part to look at. Source: counting; derived.

    >>> event_mark_spacing(0.050, 15.0, 2.667) * 1e3
    8.89
    """
    not_negative(feed_speed=feed_speed)
    positive(band_speed=band_speed, event_length=event_length)
    return feed_speed * event_length / band_speed


def event_length_from_marks(mark_spacing: float, feed_speed: float, band_speed: float) -> float:
    """Return the length of band that passes between two marks: compare it with the band and the wheel.

    L = s v_b / v_f
    Takes: mark_spacing s [m]; feed_speed, band_speed [m/s]. Gives: length [m].
    Holds for: steady feed. Source: event_mark_spacing turned round; derived.

    >>> event_length_from_marks(8.89e-3, 0.050, 15.0)
    2.667
    """
    positive(mark_spacing=mark_spacing, feed_speed=feed_speed, band_speed=band_speed)
    return mark_spacing * band_speed / feed_speed


def vibration_frequency(mark_spacing: float, feed_speed: float) -> float:
    """Return the frequency of a vibration that leaves evenly spaced marks.

    F = v_f / s
    Takes: mark_spacing s [m]; feed_speed [m/s]. Gives: frequency [1/s].
    Holds for: steady feed. Source: counting; derived.

    >>> vibration_frequency(1e-3, 0.050)
    50.0
    """
    positive(mark_spacing=mark_spacing, feed_speed=feed_speed)
    return feed_speed / mark_spacing


def mark_slope(feed_speed: float, band_speed: float) -> float:
    """Return how far tooth marks lean from the line of the blade.

    atan(v_f / v_b)
    Takes: feed_speed, band_speed [m/s]. Gives: angle [rad].
    Holds for: steady feed. Source: two motions at right angles; derived.

    >>> math.degrees(mark_slope(0.050, 15.0))
    0.19
    """
    not_negative(feed_speed=feed_speed)
    positive(band_speed=band_speed)
    return math.atan2(feed_speed, band_speed)


def speed_ratio(band_speed: float, speed_low: float, speed_high: float) -> float:
    """Return how far a band speed is outside its window: 1 inside, below 1 too slow, above 1 too fast.

    v / low when v < low;  v / high when v > high;  1 between
    Takes: band_speed, speed_low, speed_high [m/s]. Gives: ratio [-].
    Holds for: 0 < low <= high. Source: definition; windows in tables.SPEED_WINDOWS.

    >>> speed_ratio(15.0, 0.254, 7.62)
    1.97
    """
    positive(band_speed=band_speed, speed_low=speed_low)
    require(speed_high >= speed_low, "speed_high", speed_high, "speed_low or more")
    return band_speed / min(max(band_speed, speed_low), speed_high)


def speed_verdict(band_speed: float, speed_low: float, speed_high: float) -> str:
    """Say whether a band speed is inside its window.

    Takes: band_speed, speed_low, speed_high [m/s]. Gives: words.
    Holds for: as speed_ratio. Source: as speed_ratio.

    >>> speed_verdict(15.0, 0.254, 7.62)
    'too fast'
    """
    ratio = speed_ratio(band_speed, speed_low, speed_high)
    return "inside the window" if ratio == 1 else "too fast" if ratio > 1 else "too slow"
