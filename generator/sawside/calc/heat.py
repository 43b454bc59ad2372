"""Crown and heat: what uneven radii and warming do to the blade's stress."""

import math

from sawside.calc.limits import positive, require


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
    Takes: centre_distance, wheel_diameter, blade_length [m]; frame_strain, wheel_strain, blade_strain (`thermal_strain`) [1];
        loop_compliance: c [m/N], body_area [m2]
    Gives: [Pa], negative when tension is lost
    Holds for: two equal wheels, strains below 0.4 %.
    Source: derived (change of way round less change of blade).

    >>> round(heat_stress(0.75, 0.0, 0.35, 0.0, 2.6016, 234e-6, 2.6016 / (205e9 * 6.5e-6), 6.5e-6) / 1e6)
    -48
    """
    positive(centre_distance=centre_distance, wheel_diameter=wheel_diameter, blade_length=blade_length)
    positive(loop_compliance=loop_compliance, body_area=body_area)
    for name, strain in (("frame_strain", frame_strain), ("wheel_strain", wheel_strain), ("blade_strain", blade_strain)):
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
