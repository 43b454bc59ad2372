"""Plucking the blade: its tone and what pull a tone means, the moving band, and what can shake it.

Pitch tells stress almost directly: thickness drops out of a string's tone and width nearly so.
"""

import math

from sawside.calc import solve
from sawside.calc.limits import OutsideMethod, finite, not_negative, positive, require
from sawside.calc.strand import flexural_rigidity as _rigidity

NAMES_OF_NOTES = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")


def string_frequency(span: float, strand_force: float, mass_per_length: float) -> float:
    """Return the lowest tone of a string without stiffness: a little low for a blade.

    Equation: f = sqrt(F / mu) / (2 L)
    Takes: span [m], strand_force [N], mass_per_length [kg/m]
    Gives: [Hz]
    Holds for: small swings.
    Source: string equation, textbook knowledge.

    >>> round(string_frequency(0.600, 650.0, 58.67875e-3), 1)
    87.7
    """
    positive(span=span, strand_force=strand_force, mass_per_length=mass_per_length)
    return math.sqrt(strand_force / mass_per_length) / (2 * span)


def pinned_frequency(span: float, strand_force: float, mass_per_length: float, flexural_rigidity: float) -> float:
    """Return the lowest tone of a tensioned blade whose ends are free to turn.

    Equation: f_string sqrt(1 + pi^2 EI / (F L^2))
    Takes: span [m], strand_force [N], mass_per_length [kg/m], flexural_rigidity [N m2]
    Gives: [Hz]
    Holds for: small swings; exact for a thin beam.
    Source: derived; energy form of the stiff string on euphonics.org, 5.4.3, READ.

    >>> round(pinned_frequency(0.600, 650.0, 58.67875e-3, 0.0469151), 1)
    87.8
    """
    positive(flexural_rigidity=flexural_rigidity, span=span, strand_force=strand_force)
    stiff = 1 + math.pi**2 * flexural_rigidity / (strand_force * span**2)
    return string_frequency(span, strand_force, mass_per_length) * math.sqrt(stiff)


def clamped_frequency(span: float, strand_force: float, mass_per_length: float, flexural_rigidity: float) -> float:
    """Return the lowest tone of a tensioned blade whose ends cannot turn: the strand between two wheels.

    Equation: y tan y + x tanh x = 0 for y in (pi/2, pi), x^2 = y^2 + F L^2 / (4 EI); omega = 4 x y sqrt(EI / mu) / L^2
    Takes: span [m], strand_force [N] (0 allowed: a slack beam), mass_per_length [kg/m], flexural_rigidity [N m2]
    Gives: [Hz]
    Holds for: small swings; exact for a thin beam.
    Source: derived; checked by finite elements and with the slack clamped beam of the handbooks (y = 2.365).

    >>> round(clamped_frequency(0.600, 650.0, 58.67875e-3, 0.0469151), 1)
    90.4
    """
    positive(span=span, mass_per_length=mass_per_length, flexural_rigidity=flexural_rigidity)
    not_negative(strand_force=strand_force)
    pull = strand_force * span**2 / (4 * flexural_rigidity)

    def unbalanced(y: float) -> float:
        x = math.sqrt(y * y + pull)
        return y * math.sin(y) + x * math.tanh(x) * math.cos(y)

    y = solve.halve(unbalanced, math.pi / 2, math.pi, "strand_force")
    omega = 4 * y * math.sqrt(y * y + pull) * math.sqrt(flexural_rigidity / mass_per_length) / span**2
    return omega / (2 * math.pi)


def pluck_frequency(
    free_span: float, strand_force: float, mass_per_length: float, body_width: float, blade_thickness: float,
    youngs_modulus: float,
) -> float:  # fmt: skip
    """Return the tone of the free strand, plucked on the flat at mid-span, when its tension is right.

    Equation: clamped_frequency with E I = E b t^3 / 12
    Takes: free_span [m], strand_force [N], mass_per_length [kg/m], body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [Hz]
    Holds for: guides away, machine isolated, lowest tone taken. Below about 70 Hz small microphones hear it badly.
    Source: derived; checked by finite elements (tests/test_blade_oracles.py).

    >>> round(pluck_frequency(0.600, 650.0, 58.67875e-3, 10e-3, 0.65e-3, 205e9), 1)
    90.4
    """
    rigidity = _rigidity(body_width, blade_thickness, youngs_modulus)
    positive(strand_force=strand_force)
    return clamped_frequency(free_span, strand_force, mass_per_length, rigidity)


def force_from_frequency(frequency: float, span: float, mass_per_length: float, flexural_rigidity: float) -> float:
    """Return the pull in the strand that a heard tone means.

    Equation: clamped_frequency(F) = f, solved by halving between no pull and the pull of a string
    Takes: frequency [Hz], span [m], mass_per_length [kg/m], flexural_rigidity [N m2]
    Gives: [N]
    Holds for: a tone above that of the slack blade. The pull is wrong by twice the relative error of tone and of span.
    Source: derived (the tone rises steadily with pull).

    >>> round(force_from_frequency(90.35326, 0.600, 58.67875e-3, 0.0469151))
    650
    """
    positive(frequency=frequency, span=span)
    slack = clamped_frequency(span, 0.0, mass_per_length, flexural_rigidity)
    require(frequency > slack, "frequency", frequency, f"more than the slack blade's {slack:g} Hz")
    string = mass_per_length * (2 * span * frequency) ** 2
    return solve.halve(
        lambda force: clamped_frequency(span, force, mass_per_length, flexural_rigidity) - frequency,
        0.0, string, "frequency",
    )  # fmt: skip


#: How far from a note [cents] a tuner's needle still stands at it steadily: common practice, no source.
NEAR_A_NOTE = 35


def pluck_note(pluck_frequency: float) -> str:
    """Return the nearest note of the scale, its octave and how many cents away the tone is; past 35 cents both neighbours.

    Equation: n = 69 + 12 log2(f / 440), note n mod 12, octave n div 12 - 1
    Takes: pluck_frequency [Hz]
    Gives: text
    Holds for: 8 to 12 544 Hz, the notes C-1 to G9.
    Source: A4 = 440 Hz, ISO 16, from memory; twelve equal steps to the octave.

    >>> pluck_note(440.0), pluck_note(90.35326), pluck_note(110.05)
    ('A4', 'between F2 and F#2', 'A2, 1 cent sharp')
    """
    require(8.0 <= pluck_frequency <= 12544.0, "pluck_frequency", pluck_frequency, "from 8 to 12544 Hz")
    exact = 69 + 12 * math.log2(pluck_frequency / 440)
    number = math.floor(exact + 0.5)
    cents = round(100 * (exact - number))
    if abs(cents) > NEAR_A_NOTE:
        return f"between {_note(math.floor(exact))} and {_note(math.floor(exact) + 1)}"
    name = _note(number)
    if cents == 0:
        return name
    return f"{name}, {abs(cents)} cent{'' if abs(cents) == 1 else 's'} {'sharp' if cents > 0 else 'flat'}"


def _note(number: int) -> str:
    return f"{NAMES_OF_NOTES[number % 12]}{number // 12 - 1}"


def torsion_frequency(span: float, steel_density: float, polar_inertia: float, twist_rigidity: float) -> float:
    """Return the lowest twisting tone of a blade between fixed ends: the higher tone one may hear by mistake.

    Equation: f = sqrt(GJ_e / (rho I_p)) / (2 L)
    Takes: span [m], steel_density [kg/m3], polar_inertia: b t (b^2 + t^2) / 12 [m4], twist_rigidity: GJ_e [N m2]
    Gives: [Hz]
    Holds for: teeth left out; ends held against twist.
    Source: derived (twisting wave); GJ_e is `stiffness.twist_rigidity`.

    >>> round(torsion_frequency(0.600, 7850, 5.4396e-11, 0.0752))
    350
    """
    positive(span=span, steel_density=steel_density, polar_inertia=polar_inertia, twist_rigidity=twist_rigidity)
    return math.sqrt(twist_rigidity / (steel_density * polar_inertia)) / (2 * span)


def wave_speed(strand_force: float, mass_per_length: float) -> float:
    """Return the speed of a sideways wave on the strand, the critical speed of the band.

    Equation: c = sqrt(F / mu)
    Takes: strand_force [N], mass_per_length [kg/m]
    Gives: [m/s]
    Holds for: a string.
    Source: string equation, textbook knowledge.

    >>> round(wave_speed(650.0, 58.67875e-3))
    105
    """
    positive(strand_force=strand_force, mass_per_length=mass_per_length)
    return math.sqrt(strand_force / mass_per_length)


def running_frequency(span: float, wave_speed: float, band_speed: float) -> float:
    """Return the lowest tone of the running band.

    Equation: f = (c^2 - v^2) / (2 L c)
    Takes: span [m], wave_speed, band_speed [m/s]
    Gives: [Hz]
    Holds for: band_speed below wave_speed, the critical speed; a string.
    Source: Mote 1965 and Ulsoy, Mote, Szymani 1978, from memory; checked with a 12-mode eigenvalue problem.

    >>> round(running_frequency(0.600, 105.25, 15.606), 1)
    85.8
    """
    positive(span=span, wave_speed=wave_speed)
    not_negative(band_speed=band_speed)
    require(band_speed < wave_speed, "band_speed", band_speed, f"below the critical speed {wave_speed:g} m/s")
    return (wave_speed**2 - band_speed**2) / (2 * span * wave_speed)


def running_strand_force(
    strand_force: float, mass_per_length: float, band_speed: float, loop_compliance: float, tensioner_give: float
) -> float:
    """Return the pull in the strand while running: inertia adds to it when the tension device gives way.

    Equation: F + k mu v^2, k = 4 g / c, where c holds 4 g and the stretch of the blade
    Takes: strand_force [N], mass_per_length [kg/m], band_speed [m/s], loop_compliance: c [m/N], tensioner_give: g [m/N]
    Gives: [N]
    Holds for: c at least 4 g. k is 0 on rigid centres and 1 on a soft spring.
    Source: derived.

    >>> round(running_strand_force(650.0, 58.67875e-3, 15.606, 6.8619e-5, 1.66667e-5), 1)
    663.9
    """
    positive(strand_force=strand_force, mass_per_length=mass_per_length, loop_compliance=loop_compliance)
    not_negative(band_speed=band_speed, tensioner_give=tensioner_give)
    share = 4 * tensioner_give / loop_compliance
    require(share <= 1, "tensioner_give", tensioner_give, "at most a quarter of loop_compliance")
    return strand_force + share * mass_per_length * band_speed**2


def inertia_stress(steel_density: float, band_speed: float) -> float:
    """Return the stress that running round the wheels adds to a blade on a spring or weight tensioner.

    Equation: rho v^2
    Takes: steel_density [kg/m3], band_speed [m/s]
    Gives: [Pa]
    Holds for: a tension device that gives way freely.
    Source: derived (hoop stress of a running belt, textbook knowledge).

    >>> round(inertia_stress(7850, 15.606) / 1e6, 1)
    1.9
    """
    positive(steel_density=steel_density)
    not_negative(band_speed=band_speed)
    return steel_density * band_speed**2


def weld_frequency(band_speed: float, blade_length: float) -> float:
    """Return how often a second the weld comes by.

    Equation: v / L
    Takes: band_speed [m/s], blade_length [m]
    Gives: [Hz]
    Holds for: one weld.
    Source: derived. The band resonates when the weld's period is a whole number of natural periods: Wang and Mote,
        J. Sound Vib. 115(2), 1987, abstract READ.

    >>> round(weld_frequency(15.606, 2.6016), 1)
    6.0
    """
    positive(band_speed=band_speed, blade_length=blade_length)
    return band_speed / blade_length


def tooth_frequency(band_speed: float, tooth_pitch: float) -> float:
    """Return how many teeth a second come by.

    Equation: v / p
    Takes: band_speed [m/s], tooth_pitch [m]
    Gives: [Hz]
    Holds for: even pitch.
    Source: derived.

    >>> round(tooth_frequency(15.606, 25.4e-3 / 3))
    1843
    """
    positive(band_speed=band_speed, tooth_pitch=tooth_pitch)
    return band_speed / tooth_pitch


def nearest_harmonic(frequency: float, exciting_frequency: float, most: int) -> tuple[int, float]:
    """Return which multiple of an exciting frequency lies nearest to a tone, and how far away in relative terms.

    Equation: k with the least |f / (k f0) - 1|, 1 <= k <= most
    Takes: frequency, exciting_frequency [Hz], most [whole number]
    Gives: k, f / (k f0) - 1 [1]
    Holds for: most at least 1. Within 5 % for k up to 6 is worth a remark (our choice); guides damp it.
    Source: derived.

    >>> number, away = nearest_harmonic(85.8, 850 / 60, 6)
    >>> number, round(away, 3)
    (6, 0.009)
    """
    finite(most=most)
    positive(frequency=frequency, exciting_frequency=exciting_frequency)
    if most < 1:
        raise OutsideMethod("most", most, "at least 1")
    number = min(range(1, most + 1), key=lambda k: abs(frequency / (k * exciting_frequency) - 1))
    return number, frequency / (number * exciting_frequency) - 1
