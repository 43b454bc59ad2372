"""The blade as a band: its section, speed, bending over the wheels, tension stress, force and stretch.

Works alone: `from sawside.calc import band` needs nothing but Python. SI in and out; rotation in turns per second.
Body means what lies behind the gullets; it carries the pull, and teeth help it by only 2 to 5 % (see `body_area`).
"""

import math
from typing import NamedTuple

from sawside.calc.limits import not_negative, positive, require

#: Pascals in one pound-force per square inch (0.45359237 kg x 9.80665 m/s2 over 25.4 mm squared; exact by definition).
PSI = 0.45359237 * 9.80665 / 0.0254**2

#: Gullet depth over tooth pitch when the gullet was not measured. Common practice, no source: 0.35 to 0.45, skip 0.28 to 0.38.
GULLET_SHARE = {"regular": 0.40, "hook": 0.40, "skip": 0.33}


class StressRange(NamedTuple):
    """Tension stress for one kind of blade back: as published in psi, and the range suggested here in Pa."""

    published_psi: str
    low: float
    high: float
    source: str
    mark: str


#: Tension stress by blade back. The published pages work with the full blade width; the body carries more than they say.
TARGET_STRESS = {
    "carbon_flexible_back": StressRange(
        "15 000 to 20 000", 70e6, 140e6, "a trade page on blade tension; a woodworking magazine, 2012", "READ; low end practice"
    ),
    "carbon_hard_back": StressRange("20 000 to 25 000", 120e6, 170e6, "trade, no source", "memory"),
    "bi_metal": StressRange(
        "more than carbon, 25 000 as example, never over 35 000", 140e6, 200e6, "a trade page on blade tension", "READ"
    ),
    "carbide_tipped": StressRange("25 000 to 30 000", 150e6, 205e6, "a woodworking magazine, 2012", "READ; low end practice"),
}


def smaller_wheel(wheel_diameter_upper: float, wheel_diameter_lower: float) -> float:
    """Return the diameter of the smaller wheel: the one that bends the blade most.

    Equation: D = min(D1, D2)
    Takes: wheel_diameter_upper, wheel_diameter_lower [m]
    Gives: [m]
    Holds for: diameters more than 0, both measured over the tyre.
    Source: derived (bending stress falls as the diameter grows).

    >>> smaller_wheel(0.350, 0.345)
    0.345
    """
    positive(wheel_diameter_upper=wheel_diameter_upper, wheel_diameter_lower=wheel_diameter_lower)
    return min(wheel_diameter_upper, wheel_diameter_lower)


def band_speed(wheel_speed: float, wheel_diameter_lower: float, blade_thickness: float) -> float:
    """Return how fast the blade runs, from the speed of the driven lower wheel.

    Equation: v = pi (D + t) n
    Takes: wheel_speed [rev/s], wheel_diameter_lower [m], blade_thickness [m]
    Gives: [m/s]
    Holds for: no slip between blade and tyre; the teeth run as fast as the middle of the thickness to one part in 1000.
    Source: derived (circumference of the middle of the blade's thickness, once a turn).

    >>> round(band_speed(850 / 60, 0.350, 0.65e-3), 3)
    15.606
    """
    positive(wheel_speed=wheel_speed, wheel_diameter_lower=wheel_diameter_lower, blade_thickness=blade_thickness)
    return math.pi * (wheel_diameter_lower + blade_thickness) * wheel_speed


def driven_wheel_speed(motor_speed: float, motor_pulley: float, wheel_pulley: float, belt_slip: float) -> float:
    """Return the speed of the wheel from motor speed and belt pulleys.

    Equation: n = n_motor (d_motor / d_wheel) (1 - s)
    Takes: motor_speed [rev/s], motor_pulley and wheel_pulley: pitch diameters [m], belt_slip [1]
    Gives: [rev/s]
    Holds for: belt_slip from 0 to less than 1; 0 to 0.02 is common practice, no source.
    Source: derived (belt speed is the same on both pulleys).

    >>> round(60 * driven_wheel_speed(1420 / 60, 0.075, 0.125, 0.0), 6)
    852.0
    """
    positive(motor_speed=motor_speed, motor_pulley=motor_pulley, wheel_pulley=wheel_pulley)
    require(0 <= belt_slip < 1, "belt_slip", belt_slip, "from 0 to less than 1")
    return motor_speed * motor_pulley / wheel_pulley * (1 - belt_slip)


def thickness_ratio(wheel_diameter: float, blade_thickness: float) -> float:
    """Return wheel diameter over blade thickness.

    Equation: D / t
    Takes: wheel_diameter (the smaller wheel), blade_thickness [m]
    Gives: [1]
    Holds for: more than 100; below that the blade is no thin strip.
    Source: common practice, no source; long-life mill practice asks for 1000, small saws run at 400 to 700.

    >>> round(thickness_ratio(0.350, 0.65e-3))
    538
    """
    positive(wheel_diameter=wheel_diameter, blade_thickness=blade_thickness)
    ratio = wheel_diameter / blade_thickness
    require(ratio > 100, "thickness_ratio", ratio, "more than 100 (wheel diameter over blade thickness)")
    return ratio


def bending_stress(wheel_diameter: float, blade_thickness: float, youngs_modulus: float) -> float:
    """Return the stress at the blade's surface from bending it round a wheel, tension not included.

    Equation: sigma_b = E t / (D + t)
    Takes: wheel_diameter [m], blade_thickness [m], youngs_modulus [Pa]
    Gives: [Pa]
    Holds for: an elastic blade, D / t more than 100. A wide blade is up to `bending_ceiling_factor` higher.
    Source: derived (surface strain of a strip bent to a circle).

    >>> round(bending_stress(0.350, 0.65e-3, 205e9) / 1e6)
    380
    """
    thickness_ratio(wheel_diameter, blade_thickness)
    positive(youngs_modulus=youngs_modulus)
    return youngs_modulus * blade_thickness / (wheel_diameter + blade_thickness)


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


def bending_width_factor(
    wheel_diameter: float, blade_width: float, blade_thickness: float, poisson_ratio: float
) -> float:
    """Return the bending moment of a blade with free edges over that of a narrow beam: between 1 and the ceiling.

    Equation: (1 - nu^2 f) / (1 - nu^2), f = (3/2) X / h + Y, X = (cosh h - cos h) / (sinh h + sin h),
        Y = sinh h sin h / (sinh h + sin h)^2, h = [3 (1 - nu^2)]^(1/4) w / sqrt(R t), R = (D + t) / 2
    Takes: wheel_diameter, blade_width, blade_thickness [m], poisson_ratio [1]
    Gives: [1]
    Holds for: edges free to lift, D / t more than 100, h up to 300.
    Source: terms after Ashwell 1950, from memory; form fixed by a boundary-value solution (tests/test_blade_oracles.py).

    >>> round(bending_width_factor(0.350, 13e-3, 0.65e-3, 0.29), 3)
    1.006
    """
    thickness_ratio(wheel_diameter, blade_thickness)
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
    Source: derived (`bending_stress` solved for the thickness).

    >>> round(1e3 * thickest_blade(0.350, 300e6, 205e9), 2)
    0.51
    """
    positive(wheel_diameter=wheel_diameter, allowed_stress=allowed_stress, youngs_modulus=youngs_modulus)
    require(allowed_stress < youngs_modulus / 101, "allowed_stress", allowed_stress, "below E / 101")
    return wheel_diameter * allowed_stress / (youngs_modulus - allowed_stress)


def bending_verdict(thickness_ratio: float, thickness_ratio_good: float, thickness_ratio_least: float) -> str:
    """Return `good`, `tight` or `too_thick`: how the blade takes the smaller wheel.

    Equation: good from thickness_ratio_good, too thick below thickness_ratio_least, tight between
    Takes: thickness_ratio, thickness_ratio_good, thickness_ratio_least [1]
    Gives: word
    Holds for: thickness_ratio_least not above thickness_ratio_good.
    Source: the two steps are Sawside's own choice (500 and 400 mean 409 and 511 MPa at E = 205 GPa).

    >>> bending_verdict(538, 500, 400), bending_verdict(450, 500, 400), bending_verdict(380, 500, 400)
    ('good', 'tight', 'too_thick')
    """
    positive(thickness_ratio=thickness_ratio, thickness_ratio_least=thickness_ratio_least)
    require(
        thickness_ratio_least <= thickness_ratio_good, "thickness_ratio_least", thickness_ratio_least,
        f"at most {thickness_ratio_good:g}",
    )  # fmt: skip
    if thickness_ratio >= thickness_ratio_good:
        return "good"
    return "tight" if thickness_ratio >= thickness_ratio_least else "too_thick"


def gullet(tooth_pitch: float, tooth_form: str, gullet_depth: float | None = None) -> float:
    """Return the gullet depth: as measured, or estimated from pitch and tooth form when it was not measured.

    Equation: g = measured, or c p with c = 0.40 (regular, hook) or 0.33 (skip)
    Takes: tooth_pitch [m], tooth_form (regular, hook, skip), gullet_depth [m] or None for not measured
    Gives: [m]
    Holds for: the three tooth forms. The estimate is poor: measure the gullet. `gullet_basis` says which it is.
    Source: the factors are common practice, no source.

    >>> gullet(8.0e-3, "regular", 3.0e-3), gullet(8.0e-3, "regular")
    (0.003, 0.0032)
    """
    positive(tooth_pitch=tooth_pitch)
    if gullet_depth is not None:
        not_negative(gullet_depth=gullet_depth)
        return gullet_depth
    require(tooth_form in GULLET_SHARE, "tooth_form", 0, "one of " + ", ".join(GULLET_SHARE))
    return GULLET_SHARE[tooth_form] * tooth_pitch


def gullet_basis(gullet_depth: float | None = None) -> str:
    """Return `measured` or `estimated`: where the gullet depth comes from.

    Equation: none
    Takes: gullet_depth [m] or None for not measured
    Gives: word
    Holds for: always.
    Source: none needed.

    >>> gullet_basis(3.0e-3), gullet_basis()
    ('measured', 'estimated')
    """
    return "estimated" if gullet_depth is None else "measured"


def body_width(blade_width: float, gullet: float) -> float:
    """Return the width of the blade behind the gullets.

    Equation: b = w - g
    Takes: blade_width, gullet [m]
    Gives: [m]
    Holds for: 0 <= gullet < blade_width.
    Source: derived.

    >>> round(1e3 * body_width(13e-3, 3e-3), 6)
    10.0
    """
    positive(blade_width=blade_width)
    require(0 <= gullet < blade_width, "gullet", gullet, f"from 0 to less than the blade width {blade_width:g}")
    return blade_width - gullet


def body_area(body_width: float, blade_thickness: float) -> float:
    """Return the cross-section that carries the pull.

    Equation: A = b t
    Takes: body_width, blade_thickness [m]
    Gives: [m2]
    Holds for: axial stiffness is 2 to 5 % higher than this says, because the teeth help a little.
    Source: derived; plane-stress finite elements of a toothed strip, derived.

    >>> round(1e6 * body_area(10e-3, 0.65e-3), 6)
    6.5
    """
    positive(body_width=body_width, blade_thickness=blade_thickness)
    return body_width * blade_thickness
