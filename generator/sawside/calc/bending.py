"""More on bending the blade: across its width, the thickest blade a wheel takes, and coiling for the rack."""

import math

from sawside.calc import band
from sawside.calc.limits import positive, require


def bending_ceiling_factor(poisson_ratio: float) -> float:
    """Return by how much bending stress is higher at most, if the wheel presses the blade flat across its width.

    Equation: 1 / (1 - nu^2)
    Takes: poisson_ratio [1]
    Gives: [1]
    Holds for: 0 to less than 0.5.
    Source: plate theory, from memory.

    >>> round(bending_ceiling_factor(0.29), 3)
    1.092
    """
    require(0 <= poisson_ratio < 0.5, "poisson_ratio", poisson_ratio, "from 0 to less than 0.5")
    return 1 / (1 - poisson_ratio**2)


def bending_width_factor(wheel_diameter: float, blade_width: float, blade_thickness: float, poisson_ratio: float) -> float:
    """Return the bending moment of a blade with free edges over that of a narrow beam: between 1 and the ceiling.

    Equation: (1 - nu^2 f) / (1 - nu^2), f = (3/2) X / h + Y, X = (cosh h - cos h) / (sinh h + sin h),
        Y = sinh h sin h / (sinh h + sin h)^2, h = [3 (1 - nu^2)]^(1/4) w / sqrt(R t), R = (D + t) / 2
    Takes: wheel_diameter, blade_width, blade_thickness [m], poisson_ratio [1]
    Gives: [1]
    Holds for: edges free to lift, D / t more than 100, h up to 300.
    Source: terms after Ashwell 1950, from memory; form fixed by a boundary-value solution (test_blade_oracles.py).

    >>> round(bending_width_factor(0.350, 13e-3, 0.65e-3, 0.29), 3)
    1.006
    """
    band.thickness_ratio(wheel_diameter, blade_thickness)
    positive(blade_width=blade_width)
    ceiling = bending_ceiling_factor(poisson_ratio)
    radius = (wheel_diameter + blade_thickness) / 2
    h = (3 / ceiling) ** 0.25 * blade_width / math.sqrt(radius * blade_thickness)
    require(0.01 <= h <= 300, "blade_width", blade_width, "such that w / sqrt(R t) lies between about 0.01 and 230")
    both = math.sinh(h) + math.sin(h)
    f = 1.5 * (math.cosh(h) - math.cos(h)) / both / h + (math.sinh(h) / both) * (math.sin(h) / both)
    return ceiling * (1 - poisson_ratio**2 * f)


def thickest_blade(wheel_diameter: float, allowed_stress: float, youngs_modulus: float) -> float:
    """Return the blade thickness that gives an allowed bending stress on a wheel.

    Equation: t = D s / (E - s)
    Takes: wheel_diameter [m], allowed_stress [Pa], youngs_modulus [Pa]
    Gives: [m]
    Holds for: an allowed stress below one hundredth of Young's modulus.
    Source: derived (`band.bending_stress` solved for the thickness).

    >>> round(1e3 * thickest_blade(0.350, 300e6, 205e9), 2)
    0.51
    """
    positive(wheel_diameter=wheel_diameter, allowed_stress=allowed_stress, youngs_modulus=youngs_modulus)
    require(allowed_stress < youngs_modulus / 101, "allowed_stress", allowed_stress, "below E / 101")
    return wheel_diameter * allowed_stress / (youngs_modulus - allowed_stress)


def coil_diameter(blade_length: float) -> float:
    """Return the diameter of a blade folded into three loops.

    Equation: D_c = L / (3 pi)
    Takes: blade_length [m]
    Gives: [m]
    Holds for: three equal loops. An untwisted blade lies flat only in an odd number of loops.
    Source: derived (three circumferences); odd number from the link = twist + writhe theorem, from memory.

    >>> round(1e3 * coil_diameter(2.6))
    276
    """
    positive(blade_length=blade_length)
    return blade_length / (3 * math.pi)


def coil_stress(coil_diameter: float, blade_thickness: float, youngs_modulus: float) -> float:
    """Return the bending stress in the coiled blade.

    Equation: sigma = E t / D_c
    Takes: coil_diameter (middle of the thickness), blade_thickness [m], youngs_modulus [Pa]
    Gives: [Pa]
    Holds for: an elastic blade, resting in the coil. The tightest bend comes while folding, not after.
    Source: derived (surface strain of a strip bent to a circle).

    >>> round(coil_stress(0.276, 0.65e-3, 205e9) / 1e6)
    483
    """
    band.thickness_ratio(coil_diameter, blade_thickness)
    positive(youngs_modulus=youngs_modulus)
    return youngs_modulus * blade_thickness / coil_diameter


def coil_smallest(blade_thickness: float, youngs_modulus: float, steel_yield: float) -> float:
    """Return the inside diameter of the tightest bend that leaves no kink.

    Equation: d = t (E / sigma_y - 1)
    Takes: blade_thickness [m], youngs_modulus, steel_yield [Pa]
    Gives: [m]
    Holds for: a yield strength below a fiftieth of Young's modulus.
    Source: derived (surface strain reaches the yield strain).

    >>> round(1e3 * coil_smallest(0.65e-3, 205e9, 1200e6))
    110
    """
    positive(blade_thickness=blade_thickness, youngs_modulus=youngs_modulus, steel_yield=steel_yield)
    require(steel_yield < youngs_modulus / 50, "steel_yield", steel_yield, "below E / 50")
    return blade_thickness * (youngs_modulus / steel_yield - 1)


def coil_verdict(coil_diameter: float, coil_smallest: float) -> str:
    """Return whether the blade may be folded in three.

    Equation: three loops when D_c is at least 1.25 times the tightest bend
    Takes: coil_diameter, coil_smallest [m]
    Gives: word: `three_loops` or `hang_open`
    Holds for: the same blade in both arguments.
    Source: the factor 1.25 is Sawside's own choice, because folding bends tighter than the finished coil.

    >>> coil_verdict(0.276, 0.110), coil_verdict(0.149, 0.153)
    ('three_loops', 'hang_open')
    """
    positive(coil_diameter=coil_diameter, coil_smallest=coil_smallest)
    return "three_loops" if coil_diameter >= 1.25 * coil_smallest else "hang_open"
