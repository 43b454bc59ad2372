"""Wheels: are they in one plane, do they run true, what do crown, eccentricity and heat do to the blade's stress.

Whether a saw's wheels must lie in one plane is the machine maker's word. Measured with the upper wheel tilted as it
stands when the blade tracks, machine isolated.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from sawside.calc.limits import not_negative, positive, require


class WheelPlane(NamedTuple):
    """A wheel's plane against the other wheel's: offset at its middle [m], slopes across and upwards [1]."""

    offset: float
    slope_across: float
    slope_up: float


class DialResult(NamedTuple):
    """A wheel's dial readings: eccentricity [m], angle of its high spot [rad], form error rms and total reading [m]."""

    eccentricity: float
    high_spot: float
    form: float
    total: float


def _finite(**values: float) -> None:
    """Refuse what is not a number."""
    for name, value in values.items():
        require(math.isfinite(value), name, value, "a number")


def coplanar_offset(gap_far: float, gap_near: float) -> float:
    """Return how far the other wheel lies back from the straightedge on the reference wheel: the thickness to pack.

    Equation: (z_far + z_near) / 2
    Takes: gap_far, gap_near: straightedge to the other wheel's far and near rim [m]
    Gives: [m], positive when the other wheel lies back
    Holds for: rims of equal width; else `crown_offset`.
    Source: derived.

    >>> round(1e3 * coplanar_offset(1.2e-3, 0.8e-3), 6)
    1.0
    """
    _finite(gap_far=gap_far, gap_near=gap_near)
    return (gap_far + gap_near) / 2


def coplanar_tilt(gap_far: float, gap_near: float, rim_span: float) -> float:
    """Return by what angle the other wheel is tilted against the reference wheel.

    Equation: atan((z_far - z_near) / s)
    Takes: gap_far, gap_near, rim_span: between the two places measured [m]
    Gives: [rad], positive when the far rim lies back
    Holds for: rim_span more than 0.
    Source: derived.

    >>> round(math.degrees(coplanar_tilt(1.2e-3, 0.8e-3, 0.340)), 3)
    0.067
    """
    _finite(gap_far=gap_far, gap_near=gap_near)
    positive(rim_span=rim_span)
    return math.atan((gap_far - gap_near) / rim_span)


def wheel_plane(readings: Sequence[tuple[float, float, float]]) -> WheelPlane:
    """Return the plane through three or more distances from a reference plane to a wheel's rim.

    Equation: least squares z = z0 + a x + b y
    Takes: readings: x across, y up from the wheel's middle, z from the reference plane, each [m]
    Gives: offset z0 [m], slopes a and b [1]; three readings exact
    Holds for: three or more places that do not lie on one line.
    Source: least squares, textbook knowledge; checked against numpy.linalg.lstsq.

    >>> plane = wheel_plane([(0.15, 0.0, 0.0011), (-0.15, 0.0, 0.0009), (0.0, 0.15, 0.00115)])
    >>> [round(1e3 * part, 3) for part in plane]
    [1.0, 0.667, 1.0]
    """
    count = len(readings)
    require(count >= 3, "number of readings", count, "at least 3")
    for x, y, z in readings:
        _finite(x=x, y=y, z=z)
    mean_x, mean_y, mean_z = (math.fsum(column) / count for column in zip(*readings, strict=True))
    away = [(x - mean_x, y - mean_y, z - mean_z) for x, y, z in readings]
    xx, yy, xy = (math.fsum(row[i] * row[j] for row in away) for i, j in ((0, 0), (1, 1), (0, 1)))
    xz, yz = (math.fsum(row[i] * row[2] for row in away) for i in (0, 1))
    spread = xx * yy - xy * xy
    on_line = spread / (xx + yy) ** 2 if xx + yy else 0.0
    require(on_line > 1e-4, "spread of the readings", on_line, "more than 0.0001: they lie on one line")
    a, b = (xz * yy - yz * xy) / spread, (yz * xx - xz * xy) / spread
    return WheelPlane(mean_z - a * mean_x - b * mean_y, a, b)


def crown_offset(rim_offset: float, rim_width_other: float, rim_width_reference: float) -> float:
    """Return the offset of the crowns when the straightedge lay on rims of different width.

    Equation: rim offset + B_other / 2 - B_reference / 2
    Takes: rim_offset, rim_width_other, rim_width_reference [m]
    Gives: [m], positive when the other wheel's crown lies back
    Holds for: crowns in the middle of the rims.
    Source: derived.

    >>> round(1e3 * crown_offset(1.0e-3, 0.025, 0.027), 6)
    0.0
    """
    _finite(rim_offset=rim_offset)
    positive(rim_width_other=rim_width_other, rim_width_reference=rim_width_reference)
    return rim_offset + rim_width_other / 2 - rim_width_reference / 2


def strand_skew(offset: float, centre_distance: float) -> float:
    """Return how far the strands lean because the wheels are not in one plane.

    Equation: atan(offset / C)
    Takes: offset, centre_distance [m]
    Gives: [rad]
    Holds for: centre_distance more than 0.
    Source: derived.

    >>> round(math.degrees(strand_skew(1e-3, 0.750)), 2)
    0.08
    """
    _finite(offset=offset)
    positive(centre_distance=centre_distance)
    return math.atan(offset / centre_distance)


def tilt_lead(wheel_diameter: float, wheel_tilt: float) -> float:
    """Return how far a blade first moves across a tilted wheel per turn. Where it settles, no formula here says.

    Equation: pi D sin(tilt)
    Takes: wheel_diameter [m], wheel_tilt [rad]
    Gives: [m per turn]
    Holds for: the first moment after tilting, no slip; tilt within 5 degrees.
    Source: derived (the blade lays itself onto the wheel along a helix).

    >>> round(1e3 * tilt_lead(0.350, math.radians(0.1)), 1)
    1.9
    """
    positive(wheel_diameter=wheel_diameter)
    require(abs(wheel_tilt) <= math.radians(5), "wheel_tilt", wheel_tilt, "at most 5 degrees (0.087 rad)")
    return math.pi * wheel_diameter * math.sin(wheel_tilt)


def wobble_travel(lateral_run_out: float) -> float:
    """Return how far a wheel's side wobble moves the blade forth and back, at most, to each side.

    Equation: T / 2
    Takes: lateral_run_out: total dial reading on the rim's side, one turn [m]
    Gives: [m]
    Holds for: upper bound.
    Source: derived.

    >>> wobble_travel(0.0002)
    0.0001
    """
    not_negative(lateral_run_out=lateral_run_out)
    return lateral_run_out / 2


def eccentricity_from_dial(readings: Sequence[float]) -> DialResult:
    """Return a wheel's eccentricity from dial readings on its tyre, equally spaced round one turn.

    Equation: first harmonic: e = (2 / n) |sum r_k exp(-i 2 pi k / n)|; form = rms of what is left
    Takes: readings: from the same dial, the first at angle 0, outward positive [m]
    Gives: eccentricity [m], high_spot angle [rad], form rms [m], total reading [m]
    Holds for: five or more readings; eccentricity small against the radius.
    Source: Fourier sum, textbook knowledge; checked against numpy.fft.

    >>> result = eccentricity_from_dial([0.1e-3 * math.cos(2 * math.pi * k / 8 - 1.0) for k in range(8)])
    >>> round(1e3 * result.eccentricity, 6), round(result.high_spot, 6), round(1e3 * result.form, 6)
    (0.1, 1.0, 0.0)
    """
    count = len(readings)
    require(count >= 5, "number of readings", count, "at least 5")
    for reading in readings:
        _finite(reading=reading)
    angles = [2 * math.pi * k / count for k in range(count)]
    mean = math.fsum(readings) / count
    cosine = 2 / count * math.fsum(r * math.cos(q) for r, q in zip(readings, angles, strict=True))
    sine = 2 / count * math.fsum(r * math.sin(q) for r, q in zip(readings, angles, strict=True))
    left_over = [
        r - mean - cosine * math.cos(q) - sine * math.sin(q) for r, q in zip(readings, angles, strict=True)
    ]  # fmt: skip
    form = math.sqrt(math.fsum(part * part for part in left_over) / count)
    high_spot = math.atan2(sine, cosine) % (2 * math.pi)
    return DialResult(math.hypot(cosine, sine), high_spot, form, max(readings) - min(readings))


def run_out_stress(radial_run_out: float, loop_compliance: float, body_area: float) -> float:
    """Return how much the tension stress swings up and down, once a turn, on a wheel that runs out.

    Equation: T / (c A)
    Takes: radial_run_out: total dial reading (twice the eccentricity) [m], loop_compliance: c [m/N], body_area [m2]
    Gives: [Pa], to each side of the mean
    Holds for: slow turning, a slide without friction. A rigid screw has c = L / (E A); friction lies between the two.
    Source: derived (the loop's length swings by T / 2 at each strand).

    >>> round(run_out_stress(0.2e-3, 2.6016 / (205e9 * 6.5e-6), 6.5e-6) / 1e6, 1)
    15.8
    """
    positive(loop_compliance=loop_compliance, body_area=body_area)
    not_negative(radial_run_out=radial_run_out)
    return radial_run_out / (loop_compliance * body_area)


def run_out_stress_with_slide_mass(
    radial_run_out: float, spring_rate: float, blade_rate: float, slide_mass: float, wheel_speed: float,
    body_area: float,
) -> float:  # fmt: skip
    """Return the swing of the tension stress on a wheel that runs out, with the mass of wheel and slide counted.

    Equation: K_b / (2 A) (T / 2) |k_t - m w^2| / |k_t + K_b - m w^2|, w = 2 pi n
    Takes: radial_run_out [m], spring_rate: k_t, blade_rate: K_b (`tension.blade_rate_at_wheel`) [N/m], slide_mass [kg],
        wheel_speed [rev/s], body_area [m2]
    Gives: [Pa], to each side of the mean
    Holds for: no friction, turning at most 0.8 times as fast as the slide swings on spring and blade.
    Source: derived (one mass between two springs).

    >>> round(run_out_stress_with_slide_mass(0.2e-3, 60e3, 2.0487e6, 5.0, 850 / 60, 6.5e-6) / 1e6, 2)
    0.16
    """
    positive(spring_rate=spring_rate, blade_rate=blade_rate, slide_mass=slide_mass, body_area=body_area)
    not_negative(radial_run_out=radial_run_out, wheel_speed=wheel_speed)
    fastest = 0.8 * slide_resonance(spring_rate + blade_rate, slide_mass)
    require(wheel_speed <= fastest, "wheel_speed", wheel_speed, f"at most {fastest:g} rev/s, below resonance")
    inertia = slide_mass * (2 * math.pi * wheel_speed) ** 2
    extension = radial_run_out / 2 * abs(spring_rate - inertia) / (spring_rate + blade_rate - inertia)
    return extension * blade_rate / (2 * body_area)


def slide_resonance(rate: float, slide_mass: float) -> float:
    """Return the frequency at which wheel and slide swing on a spring.

    Equation: sqrt(k / m) / (2 pi)
    Takes: rate: spring alone, or spring plus `tension.blade_rate_at_wheel` [N/m], slide_mass [kg]
    Gives: [Hz]
    Holds for: no friction.
    Source: mass on a spring, textbook knowledge.

    >>> round(slide_resonance(60e3, 5.0), 1), round(slide_resonance(60e3 + 2.0487e6, 5.0))
    (17.4, 103)
    """
    positive(rate=rate, slide_mass=slide_mass)
    return math.sqrt(rate / slide_mass) / (2 * math.pi)


def eccentricity_force(eccentricity: float, loop_compliance: float) -> float:
    """Return how much the pull in a strand swings up and down on an eccentric wheel.

    Equation: 2 e / c, which is 2 E A e / L on rigid centres
    Takes: eccentricity: e, half the total run-out [m], loop_compliance: c [m/N]
    Gives: [N], to each side of the mean
    Holds for: slow turning, a slide without friction.
    Source: derived.

    >>> round(eccentricity_force(0.1e-3, 2.667 / (205e9 * 12.7e-3 * 0.635e-3)))
    124
    """
    positive(loop_compliance=loop_compliance)
    not_negative(eccentricity=eccentricity)
    return 2 * eccentricity / loop_compliance


def crown_radius(half_width: float, crown_height: float) -> float:
    """Return the radius of a tyre's crown.

    Equation: (b^2 + c^2) / (2 c)
    Takes: half_width: b, of the tyre; crown_height: c, middle above edge [m]
    Gives: [m]
    Holds for: a circular crown, c at most b.
    Source: chord and height of an arc, textbook knowledge.

    >>> round(1e3 * crown_radius(12.5e-3, 0.3e-3), 1)
    260.6
    """
    positive(half_width=half_width, crown_height=crown_height)
    require(crown_height <= half_width, "crown_height", crown_height, f"at most the half width {half_width:g}")
    return (half_width**2 + crown_height**2) / (2 * crown_height)


def crown_stress(radius_difference: float, blade_length: float, youngs_modulus: float) -> float:
    """Return the difference in stress between two lines of the blade that run on different radii of both wheels.

    Equation: 2 pi E dr / L
    Takes: radius_difference: dr, blade_length [m], youngs_modulus [Pa]
    Gives: [Pa]
    Holds for: upper bound: the blade lies on the crown everywhere and the tyre does not give.
    Source: derived (the two loops differ in length by 2 pi dr).

    >>> round(crown_stress(0.1e-3, 2.6, 205e9) / 1e6)
    50
    """
    positive(blade_length=blade_length, youngs_modulus=youngs_modulus)
    require(abs(radius_difference) < 0.001 * blade_length, "radius_difference", radius_difference, "below L / 1000")
    return 2 * math.pi * youngs_modulus * radius_difference / blade_length


def thermal_strain(expansion: float, warming: float) -> float:
    """Return how much a part grows when it warms, in relative terms.

    Equation: alpha dT
    Takes: expansion [1/K], warming [K]
    Gives: [1]
    Holds for: warming within 300 K.
    Source: textbook knowledge; steel 11.7e-6 /K from memory.

    >>> round(1e6 * thermal_strain(11.7e-6, 20.0))
    234
    """
    positive(expansion=expansion)
    require(abs(warming) <= 300, "warming", warming, "at most 300 K")
    return expansion * warming


def heat_stress(
    centre_distance: float, frame_strain: float, wheel_diameter: float, wheel_strain: float, blade_length: float,
    blade_strain: float, loop_compliance: float, body_area: float,
) -> float:  # fmt: skip
    """Return the change of tension stress when frame, wheels and blade warm differently.

    Equation: (2 C e_f + pi D e_w - L e_b) / (c A), e = alpha dT
    Takes: centre_distance, wheel_diameter, blade_length [m]; frame_strain, wheel_strain, blade_strain [1]
        (`thermal_strain`); loop_compliance: c [m/N], body_area [m2]
    Gives: [Pa], negative when tension is lost
    Holds for: two equal wheels, strains below 0.4 %.
    Source: derived (change of way round less change of blade).

    >>> round(heat_stress(0.75, 0.0, 0.35, 0.0, 2.6016, 234e-6, 2.6016 / (205e9 * 6.5e-6), 6.5e-6) / 1e6)
    -48
    """
    positive(centre_distance=centre_distance, wheel_diameter=wheel_diameter, blade_length=blade_length)
    positive(loop_compliance=loop_compliance, body_area=body_area)
    strains = {"frame_strain": frame_strain, "wheel_strain": wheel_strain, "blade_strain": blade_strain}
    for name, strain in strains.items():
        require(abs(strain) <= 0.004, name, strain, "at most 0.004")
    way_round = 2 * centre_distance * frame_strain + math.pi * wheel_diameter * wheel_strain
    return (way_round - blade_length * blade_strain) / (loop_compliance * body_area)


def edge_heat_stress(youngs_modulus: float, expansion: float, edge_warming: float) -> float:
    """Return the stress at the gullet line when the tooth edge is hotter than the back. No tension spring makes it up.

    Equation: -E alpha dT / 2
    Takes: youngs_modulus [Pa], expansion [1/K], edge_warming: edge above back [K]
    Gives: [Pa], negative when tension is lost
    Holds for: temperature falling evenly from gullet line to back, blade held straight.
    Source: derived.

    >>> round(edge_heat_stress(205e9, 11.7e-6, 20.0) / 1e6)
    -24
    """
    positive(youngs_modulus=youngs_modulus)
    return -youngs_modulus * thermal_strain(expansion, edge_warming) / 2
