"""The tightest curve a band can follow: from its own kerf and body, or from a fit to published tables."""

import math

from sawside.calc.limits import OutsideMethod, positive, require

INCH = 25.4e-3

#: The fit stands on tables for blades from 1/8 to 1 1/4 in.
FIT_NARROWEST, FIT_WIDEST = 3e-3, 32e-3


def radius_steered(blade_width: float, blade_thickness: float, kerf: float) -> float:
    """Return the smallest radius of the kerf's middle line for a rigid band that the sawyer turns into the curve.

    e = sqrt(2 w^2 - 2 S) - w,  v = (e^2 + S) / D,  R = sqrt(v^2 + e^2),  D = k - t,  S = (k^2 - t^2) / 4
    Takes: blade_width w, tooth tip to back [m]; blade_thickness t, body [m]; kerf k [m]. Gives: radius [m].
    Holds for: t < k and a body that is rigid, square-backed and free to turn in the guides; front teeth cut the kerf
    at +-k/2. The outer back corner and the inner side touch the kerf walls at once; nearly 0.1716 w^2 / D. Wood that
    springs back and worn set lessen D. Source: derived; pose search and section geometry in the tests.

    >>> radius_steered(0.5 * 25.4e-3, 0.025 * 25.4e-3, 0.043 * 25.4e-3) / 25.4e-3
    2.399
    """
    room, half = _room(blade_width, blade_thickness, kerf)
    square_point = math.sqrt(2 * blade_width**2 - 2 * half) - blade_width
    aside = (square_point**2 + half) / room
    return math.hypot(aside, square_point)


def steering_angle(blade_width: float, blade_thickness: float, kerf: float) -> float:
    """Return how far the work has to be turned against the band to reach `radius_steered`.

    psi = atan(e / v), with e and v as in radius_steered
    Takes: blade_width, blade_thickness, kerf [m]. Gives: angle [rad].
    Holds for: as radius_steered. Source: derived.

    >>> math.degrees(steering_angle(0.5 * 25.4e-3, 0.025 * 25.4e-3, 0.043 * 25.4e-3))
    4.9
    """
    room, half = _room(blade_width, blade_thickness, kerf)
    square_point = math.sqrt(2 * blade_width**2 - 2 * half) - blade_width
    return math.atan2(square_point, (square_point**2 + half) / room)


def radius_tangent(blade_width: float, blade_thickness: float, kerf: float) -> float:
    """Return the smallest radius when the band is kept exactly along the curve at its teeth.

    R = (w^2 - S) / D
    Takes: blade_width, blade_thickness, kerf [m]. Gives: radius [m].
    Holds for: as radius_steered but no turning: about 5.8 times larger than what a sawyer reaches, and larger than
    every published table. Kept to show why it is not the one printed. Source: derived.

    >>> radius_tangent(0.5 * 25.4e-3, 0.025 * 25.4e-3, 0.043 * 25.4e-3) / 25.4e-3
    13.87
    """
    room, half = _room(blade_width, blade_thickness, kerf)
    return (blade_width**2 - half) / room


def radius_fit(blade_width: float) -> float:
    """Return the smallest radius by a fit to three published tables, when kerf and body are not measured.

    R = min(10 w^2, 8 w), both in inches
    Takes: blade_width w [m]. Gives: radius [m].
    Holds for: 3 to 32 mm (1/8 to 1 1/4 in); single table entries lie 25 % below to 17 % above it (root mean square
    8.6 %); technique and thick work may need more. Source: tables in two saw makers' manuals, names withheld, and a
    home-improvement article (read); 8 w is NAVEDTRA 14043 ch. 3 (read); the fit is derived.

    >>> radius_fit(0.5 * 25.4e-3) / 25.4e-3
    2.5
    """
    require(FIT_NARROWEST <= blade_width <= FIT_WIDEST, "blade_width", blade_width, "0.003 to 0.032 m for the fit")
    inches = blade_width / INCH
    return min(10 * inches**2, 8 * inches) * INCH


def minimum_radius(blade_width: float, blade_thickness: float, kerf: float | None = None) -> float:
    """Return the tightest curve to plan with: from the blade's own kerf when it is measured, else from the fit.

    R = radius_steered(w, t, k) or, without k, radius_fit(w)
    Takes: blade_width, blade_thickness [m]; kerf [m], left out when unknown. Gives: radius of the middle line [m].
    Holds for: as the two functions. Source: derived; tables read.

    >>> minimum_radius(12.7e-3, 0.635e-3) * 1e3
    63.5
    >>> minimum_radius(12.7e-3, 0.635e-3, 1.235e-3) * 1e3
    46.6
    """
    if kerf is None:
        positive(blade_thickness=blade_thickness)
        return radius_fit(blade_width)
    return radius_steered(blade_width, blade_thickness, kerf)


def minimum_radius_basis(blade_thickness: float, kerf: float | None = None) -> str:
    """Return what the tightest curve rests on.

    Takes: blade_thickness [m]; kerf [m], left out when unknown. Gives: words.
    Holds for: as minimum_radius. Source: as minimum_radius.

    >>> minimum_radius_basis(0.635e-3)
    'fit to published tables, because the kerf is not measured'
    """
    positive(blade_thickness=blade_thickness)
    if kerf is None:
        return "fit to published tables, because the kerf is not measured"
    require(kerf > blade_thickness, "kerf", kerf, "more than blade_thickness")
    return "from this blade's width, kerf and body"


def comfortable_radius(blade_width: float) -> float:
    """Return the radius at which curves go easily: eight blade widths.

    R = 8 w
    Takes: blade_width w [m]. Gives: radius [m].
    Holds for: fast, easy work; the source calls it practical, not the true minimum. Source: NAVEDTRA 14043, Builder
    3 & 2, vol. 1, ch. 3, Band Saw (read): width about 1/8 of the radius, 4 in radius for a 1/2 in blade.

    >>> comfortable_radius(0.5)
    4.0
    """
    positive(blade_width=blade_width)
    return 8 * blade_width


def widest_for_radius(radius: float) -> float:
    """Return the widest blade for a curve by the fit, when kerf and body are not known.

    w = max(sqrt(R / 10), R / 8), in inches: the fit turned round
    Takes: radius of the middle line [m]. Gives: blade width [m].
    Holds for: where the answer lies between 3 and 32 mm. A wider curve is limited by the saw, not by the curve: the
    answer stops at 32 mm. Source: as radius_fit.

    >>> widest_for_radius(2.5 * 25.4e-3) / 25.4e-3
    0.5
    """
    positive(radius=radius)
    inches = radius / INCH
    width = max(math.sqrt(inches / 10), inches / 8) * INCH
    require(width >= FIT_NARROWEST, "radius", radius, "0.0035 m or more: no band is narrow enough")
    return min(width, FIT_WIDEST)


def widest_for_radius_and_kerf(radius: float, blade_thickness: float, kerf: float) -> float:
    """Return the widest rigid band of a given body and kerf that follows a curve.

    solves radius_steered(w, t, k) = R for w; nearly sqrt(R D / 0.1716)
    Takes: radius, blade_thickness, kerf [m]. Gives: width [m].
    Holds for: as radius_steered. Source: derived.

    >>> widest_for_radius_and_kerf(46.25e-3, 0.635e-3, 1.235e-3) * 1e3
    12.7
    """
    positive(radius=radius)
    low, high = kerf, max(radius, 2 * kerf)
    if radius_steered(low, blade_thickness, kerf) > radius:
        raise OutsideMethod("radius", radius, "large enough for a band at least as wide as its kerf")
    while radius_steered(high, blade_thickness, kerf) < radius:
        high *= 2
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if radius_steered(middle, blade_thickness, kerf) <= radius else (low, middle)
    return low


def finished_radii(radius: float, kerf: float) -> tuple[float, float]:
    """Return the radius left on the inside piece and on the outside piece.

    R - k/2 and R + k/2
    Takes: radius of the kerf's middle line, kerf [m]. Gives: inside piece, outside piece [m].
    Holds for: k/2 < R. Source: geometry; derived.

    >>> finished_radii(0.050, 0.001)
    (0.0495, 0.0505)
    """
    positive(radius=radius, kerf=kerf)
    require(kerf / 2 < radius, "kerf", kerf, "less than twice the radius")
    return radius - kerf / 2, radius + kerf / 2


def _room(blade_width: float, blade_thickness: float, kerf: float) -> tuple[float, float]:
    """Return the side room D = k - t and the half term S = (k^2 - t^2) / 4, refusing what the geometry excludes."""
    positive(blade_width=blade_width, blade_thickness=blade_thickness)
    require(kerf > blade_thickness, "kerf", kerf, "more than blade_thickness")
    half = (kerf**2 - blade_thickness**2) / 4
    require(blade_width >= kerf, "blade_width", blade_width, "at least the kerf")
    return kerf - blade_thickness, half
