"""Fatigue of the blade over the wheels, for comparing two set-ups only.

No function here gives hours of life, and none can be made from these: the scatter of fatigue is far larger than any
difference a person would read out of such a number. What stands up is a ratio and its order of magnitude.
"""

from sawside.calc.limits import not_negative, positive, require


def surface_factor(steel_strength: float) -> float:
    """Return how much a ground surface lowers the endurance limit.

    Equation: k_a = 1.58 R_m^-0.085, R_m in MPa
    Takes: steel_strength: R_m [Pa]
    Gives: [1]
    Holds for: 400 to 2500 MPa.
    Source: equation sheet of a mechanical design course (after Shigley), READ.

    >>> round(surface_factor(1400e6), 3)
    0.854
    """
    require(400e6 <= steel_strength <= 2500e6, "steel_strength", steel_strength, "from 400e6 to 2500e6 Pa")
    return 1.58 * (steel_strength / 1e6) ** -0.085


def endurance_limit(steel_strength: float, surface_factor: float, reliability_factor: float) -> float:
    """Return the endurance limit of the blade back under reversed bending.

    Equation: S_e = min(0.5 R_m, 700 MPa) k_a k_e
    Takes: steel_strength: R_m [Pa], surface_factor: k_a, reliability_factor: k_e [1] (0.868 for 95 %)
    Gives: [Pa]
    Holds for: steel; factors above 0, at most 1.
    Source: equation sheet of a mechanical design course (0.504 R_m), READ; 0.5, cap and 0.868 Shigley, from memory.

    >>> round(endurance_limit(1400e6, 0.854, 0.868) / 1e6)
    519
    """
    positive(steel_strength=steel_strength)
    require(0 < surface_factor <= 1, "surface_factor", surface_factor, "more than 0, at most 1")
    require(0 < reliability_factor <= 1, "reliability_factor", reliability_factor, "more than 0, at most 1")
    return min(0.5 * steel_strength, 700e6) * surface_factor * reliability_factor


def stress_amplitude(bending_stress: float) -> float:
    """Return the alternating part of the stress at the outer surface, once a wheel.

    Equation: sigma_a = sigma_b / 2
    Takes: bending_stress [Pa]
    Gives: [Pa]
    Holds for: straight between the wheels.
    Source: derived.

    >>> stress_amplitude(380e6) / 1e6
    190.0
    """
    not_negative(bending_stress=bending_stress)
    return bending_stress / 2


def stress_mean(target_stress: float, bending_stress: float) -> float:
    """Return the steady part of the stress at the outer surface.

    Equation: sigma_m = sigma_t + sigma_b / 2
    Takes: target_stress, bending_stress [Pa]
    Gives: [Pa]
    Holds for: inertia stress left out (2 MPa at 16 m/s).
    Source: derived.

    >>> stress_mean(100e6, 380e6) / 1e6
    290.0
    """
    not_negative(target_stress=target_stress, bending_stress=bending_stress)
    return target_stress + bending_stress / 2


def stress_peak(target_stress: float, bending_stress: float, inertia_stress: float) -> float:
    """Return the highest stress at the outer surface, on the wheel.

    Equation: sigma_t + sigma_b + rho v^2
    Takes: target_stress, bending_stress, inertia_stress [Pa] (0 on rigid centres)
    Gives: [Pa]
    Holds for: body stress; at the gullet's root tension is about 2.4 times higher (finite elements, one tooth shape).
    Source: derived.

    >>> stress_peak(100e6, 380e6, 2e6) / 1e6
    482.0
    """
    not_negative(target_stress=target_stress, bending_stress=bending_stress, inertia_stress=inertia_stress)
    return target_stress + bending_stress + inertia_stress


def goodman_factor(
    stress_amplitude: float, stress_mean: float, notch_factor: float, endurance_limit: float, steel_strength: float
) -> float:
    """Return by what factor the whole stress cycle could grow before the Goodman line is reached.

    Equation: 1 / n = K_f sigma_a / S_e + sigma_m / R_m
    Takes: stress_amplitude, stress_mean [Pa], notch_factor: K_f [1], endurance_limit, steel_strength [Pa]
    Gives: [1], below 1 the model expects cracks in the end
    Holds for: tension in the mean. K_f = 1.4 for gullet and weld is assumed.
    Source: Goodman line; equation sheet of a mechanical design course, READ.

    >>> round(goodman_factor(190e6, 290e6, 1.4, 519e6, 1400e6), 2)
    1.39
    """
    positive(stress_amplitude=stress_amplitude, endurance_limit=endurance_limit, steel_strength=steel_strength)
    not_negative(stress_mean=stress_mean)
    require(notch_factor >= 1, "notch_factor", notch_factor, "1 or more")
    return 1 / (notch_factor * stress_amplitude / endurance_limit + stress_mean / steel_strength)


def equivalent_reversed_stress(stress_amplitude: float, stress_mean: float, notch_factor: float, steel_strength: float) -> float:
    """Return the fully reversed stress that is as hard on the blade as the real cycle.

    Equation: s_r = K_f sigma_a / (1 - sigma_m / R_m)
    Takes: stress_amplitude, stress_mean [Pa], notch_factor: K_f [1], steel_strength: R_m [Pa]
    Gives: [Pa]
    Holds for: 0 <= stress_mean < steel_strength.
    Source: Goodman line, textbook knowledge.

    >>> round(equivalent_reversed_stress(190e6, 290e6, 1.4, 1400e6) / 1e6, 1)
    335.5
    """
    positive(stress_amplitude=stress_amplitude, steel_strength=steel_strength)
    require(notch_factor >= 1, "notch_factor", notch_factor, "1 or more")
    require(0 <= stress_mean < steel_strength, "stress_mean", stress_mean, f"from 0 to below {steel_strength:g}")
    return notch_factor * stress_amplitude / (1 - stress_mean / steel_strength)


def relative_cycles(reversed_stress_reference: float, reversed_stress: float, slope: float) -> float:
    """Return how many times as many wheel passes a blade stands as a reference blade. Comparison only.

    Equation: (s_ref / s_r)^m
    Takes: reversed_stress_reference, reversed_stress [Pa], slope: m [1], 8 in the middle, 5 to 10 as the band
    Gives: [1]
    Holds for: m from 5 to 10; print above 100 as "no longer limited by bending fatigue".
    Source: Basquin line through two points; equation sheet of a mechanical design course, READ.

    >>> round(relative_cycles(335e6, 247e6, 8), 1)
    11.4
    """
    positive(reversed_stress_reference=reversed_stress_reference, reversed_stress=reversed_stress)
    require(5 <= slope <= 10, "slope", slope, "from 5 to 10")
    return (reversed_stress_reference / reversed_stress) ** slope


def relative_running_time(
    relative_cycles: float, blade_length: float, band_speed: float, blade_length_reference: float,
    band_speed_reference: float,
) -> float:  # fmt: skip
    """Return how many times as long a blade runs as a reference blade. Comparison only.

    Equation: N / N_ref (L / v) / (L_ref / v_ref)
    Takes: relative_cycles [1], blade_length, blade_length_reference [m], band_speed, band_speed_reference [m/s]
    Gives: [1]
    Holds for: the same number of wheels.
    Source: derived (a longer or slower blade meets a wheel less often).

    >>> relative_running_time(11.0, 2.6, 15.0, 2.6, 15.0)
    11.0
    """
    positive(relative_cycles=relative_cycles, blade_length=blade_length, band_speed=band_speed)
    positive(blade_length_reference=blade_length_reference, band_speed_reference=band_speed_reference)
    return relative_cycles * (blade_length / band_speed) / (blade_length_reference / band_speed_reference)


def bends_per_hour(band_speed: float, blade_length: float, wheels: int) -> float:
    """Return how often an hour each spot of the blade is bent.

    Equation: 3600 (v / L) wheels
    Takes: band_speed [m/s], blade_length [m], wheels [whole number]
    Gives: [1/h]
    Holds for: two or more wheels. A number of bends, not of life.
    Source: derived.

    >>> round(bends_per_hour(15.606, 2.6016, 2))
    43190
    """
    positive(band_speed=band_speed, blade_length=blade_length)
    require(wheels >= 2, "wheels", wheels, "2 or more")
    return 3600 * band_speed / blade_length * wheels
