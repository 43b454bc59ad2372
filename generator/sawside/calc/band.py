"""The blade as a band: its section, speed, bending over the wheels, tension stress, force and stretch.

Works alone: `from sawside.calc import band` needs nothing but Python. SI in and out; rotation in turns per second.
Body means what lies behind the gullets; it carries the pull, and teeth help it by only 2 to 5 % (see `body_area`).
"""

import math

from sawside.calc.limits import OutsideMethod, finite, not_negative, positive, require

#: Pascals in one pound-force per square inch (0.45359237 kg x 9.80665 m/s2 over one inch squared; exact).
PSI = 0.45359237 * 9.80665 / 0.0254**2

#: Gullet depth over tooth pitch when it was not measured. Common practice, no source: 0.35 to 0.45, skip 0.28 to 0.38.
GULLET_SHARE = {"regular": 0.40, "hook": 0.40, "skip": 0.33}


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
    Holds for: an elastic blade, D / t more than 100. A wide blade is up to 9 % higher (see bending.py).
    Source: derived (surface strain of a strip bent to a circle).

    >>> round(bending_stress(0.350, 0.65e-3, 205e9) / 1e6)
    380
    """
    thickness_ratio(wheel_diameter, blade_thickness)
    positive(youngs_modulus=youngs_modulus)
    return youngs_modulus * blade_thickness / (wheel_diameter + blade_thickness)


def bending_verdict(thickness_ratio: float, thickness_ratio_good: float, thickness_ratio_least: float) -> str:
    """Return how the blade takes the smaller wheel.

    Equation: good from thickness_ratio_good, too thick below thickness_ratio_least, tight between
    Takes: thickness_ratio, thickness_ratio_good, thickness_ratio_least [1]
    Gives: word: `good`, `tight` or `too_thick`
    Holds for: thickness_ratio_least not above thickness_ratio_good.
    Source: the two steps are Sawside's own choice (500 and 400 mean 409 and 511 MPa at E = 205 GPa).

    >>> bending_verdict(538, 500, 400), bending_verdict(450, 500, 400), bending_verdict(380, 500, 400)
    ('good', 'tight', 'too_thick')
    """
    finite(thickness_ratio_good=thickness_ratio_good)
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
    Takes: tooth_pitch [m], tooth_form (regular, hook, skip), gullet_depth [m], left out when not measured
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
    if tooth_form not in GULLET_SHARE:
        raise OutsideMethod("tooth_form", math.nan, f"one of {', '.join(GULLET_SHARE)}; it was {tooth_form}")
    return GULLET_SHARE[tooth_form] * tooth_pitch


def gullet_basis(gullet_depth: float | None = None) -> str:
    """Return where the gullet depth comes from.

    Equation: none
    Takes: gullet_depth [m], left out when not measured
    Gives: word: `measured` or `estimated`
    Holds for: always.
    Source: none needed.

    >>> gullet_basis(3.0e-3), gullet_basis()
    ('measured', 'estimated')
    """
    if gullet_depth is not None:
        not_negative(gullet_depth=gullet_depth)
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


def mass_per_length(
    blade_width: float, blade_thickness: float, gullet: float, steel_density: float, tooth_zone_share: float
) -> float:
    """Return the mass of one metre of blade, teeth included.

    Equation: mu = rho t (w - g (1 - phi))
    Takes: blade_width, blade_thickness, gullet [m], steel_density [kg/m3], tooth_zone_share: phi [1]
    Gives: [kg/m]
    Holds for: 0 <= gullet < blade_width, phi from 0 to 1 (0.5 for triangular teeth, assumed).
    Source: derived.

    >>> round(1e3 * mass_per_length(13e-3, 0.65e-3, 3e-3, 7850, 0.5), 2)
    58.68
    """
    positive(blade_thickness=blade_thickness, steel_density=steel_density)
    require(0 <= tooth_zone_share <= 1, "tooth_zone_share", tooth_zone_share, "from 0 to 1")
    return steel_density * blade_thickness * (body_width(blade_width, gullet) + gullet * tooth_zone_share)


def strand_force(target_stress: float, body_area: float) -> float:
    """Return the pull in one strand at a tension stress.

    Equation: F = sigma A
    Takes: target_stress [Pa], body_area [m2]
    Gives: [N]
    Holds for: stress counted over the body. Published tables count the full width: `setting.target_stress` turns theirs into
        this.
    Source: definition of stress; 1/2 x 0.025 in at 25 000 psi = 312.5 lbf on a trade page, READ.

    >>> strand_force(100e6, 6.5e-6)
    650.0
    """
    positive(target_stress=target_stress, body_area=body_area)
    return target_stress * body_area


def wheel_load(strand_force: float) -> float:
    """Return what the blade pulls on the upper wheel of a two-wheel saw: both strands.

    Equation: Q = 2 F
    Takes: strand_force [N]
    Gives: [N]
    Holds for: two wheels, strands nearly parallel; else `wheel_load_at_wrap`.
    Source: derived (balance of forces); a trade page gives 312.5 lbf a strand, 625 lbf both, READ.

    >>> wheel_load(650.0)
    1300.0
    """
    positive(strand_force=strand_force)
    return 2 * strand_force


def wheel_load_at_wrap(strand_force: float, wrap_angle: float) -> float:
    """Return what the blade pulls on a wheel that it wraps by any angle.

    Equation: Q = 2 F sin(theta / 2)
    Takes: strand_force [N], wrap_angle [rad]
    Gives: [N]
    Holds for: wrap above 0, up to a full turn; equal pull in both strands.
    Source: derived (balance of forces along the bisector).

    >>> round(wheel_load_at_wrap(650.0, math.pi / 2), 1)
    919.2
    """
    positive(strand_force=strand_force)
    require(0 < wrap_angle <= 2 * math.pi, "wrap_angle", wrap_angle, "more than 0, at most a full turn")
    return 2 * strand_force * math.sin(wrap_angle / 2)


def widest_blade(wheel_load_max: float, target_stress: float, blade_thickness: float, gullet: float) -> float:
    """Return the width of the widest blade that reaches a stress before the saw's load limit is reached.

    Equation: w = Q_max / (2 sigma t) + g
    Takes: wheel_load_max [N], target_stress [Pa], blade_thickness, gullet [m]
    Gives: [m]
    Holds for: two wheels; wheel_load_max from the maker or a known end of the tension device, never from overloading.
    Source: derived (`wheel_load` solved for the width).

    >>> round(1e3 * widest_blade(2000.0, 150e6, 0.65e-3, 3e-3), 1)
    13.3
    """
    positive(wheel_load_max=wheel_load_max, target_stress=target_stress, blade_thickness=blade_thickness)
    not_negative(gullet=gullet)
    return wheel_load_max / (2 * target_stress * blade_thickness) + gullet


def gauge_stretch(target_stress: float, gauge_length: float, youngs_modulus: float) -> float:
    """Return by how much a gauge length on the blade grows from just taut to a stress.

    Equation: dl = l sigma / E
    Takes: target_stress [Pa], gauge_length [m], youngs_modulus [Pa]
    Gives: [m]
    Holds for: elastic steel; a start from just taut, not slack. A 0.01 mm step on 127 mm is 16 MPa: repeat the reading.
    Source: Hooke's law; the trade rule 0.001 in over 5 in = 6000 psi agrees at E = 30e6 psi, READ-2nd.

    >>> round(1e6 * gauge_stretch(100e6, 0.127, 205e9), 1)
    62.0
    """
    positive(target_stress=target_stress, gauge_length=gauge_length, youngs_modulus=youngs_modulus)
    return gauge_length * target_stress / youngs_modulus


def stress_from_stretch(stretch: float, gauge_length: float, youngs_modulus: float) -> float:
    """Return the tension stress that a measured stretch of a gauge length means.

    Equation: sigma = E dl / l
    Takes: stretch, gauge_length [m], youngs_modulus [Pa]
    Gives: [Pa]
    Holds for: elastic steel (stretch below 1 % of the gauge length), a start from just taut.
    Source: Hooke's law.

    >>> round(stress_from_stretch(0.062e-3, 0.127, 205e9) / 1e6)
    100
    """
    positive(gauge_length=gauge_length, youngs_modulus=youngs_modulus)
    not_negative(stretch=stretch)
    require(stretch < 0.01 * gauge_length, "stretch", stretch, "below 1 % of the gauge length")
    return youngs_modulus * stretch / gauge_length
