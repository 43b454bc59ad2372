"""The unit names that may be written, and the one place where pint turns "number + unit name" into SI.

Everything is kept as an exact fraction until the very end, so that 1 1/2 in is the float nearest to 0.0381 and not the
last of a row of rounded products. pint sees nothing but the expressions of this file.
"""

import functools
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

METRIC, INCH, NEITHER = "metric", "inch", "none"


@dataclass(frozen=True)
class Unit:
    """One way to write a unit: what pint calls it, whose system it belongs to, and 1/length for teeth per inch."""

    pint: str
    system: str
    reciprocal: bool = False


#: What a quantity is called -> how a message names it, the SI unit it is read into (as pint calls it), and an example.
WORDS = {
    "length": ("a length", "meter", "25 mm or 1 in"),
    "pitch": ("a tooth pitch", "meter", "6 tpi or 4.2 mm pitch"),
    "force": ("a force", "newton", "30 N or 7 lbf"),
    "stress": ("a stress", "pascal", "103 MPa or 15000 psi"),
    "rotation": ("a speed of rotation", "turn/second", "850 rpm"),
    "speed": ("a speed", "meter/second", "15 m/s or 3000 ft/min"),
    "angle": ("an angle", "radian", "0.1 deg"),
    "power": ("a power", "watt", "750 W or 1 hp"),
    "spring_rate": ("a spring rate", "newton/meter", "40 N/mm or 230 lbf/in"),
    "density": ("a density", "kilogram/meter**3", "7850 kg/m3 or 0.284 lb/in3"),
    "per_temperature": ("an expansion per degree", "1/kelvin", "11.7e-6 /K"),
    "temperature_difference": ("a temperature difference", "kelvin", "20 K or 36 degF"),
    "mass": ("a mass", "kilogram", "2 kg or 4.4 lb"),
    "time": ("a time", "second", "30 s"),
    "pressure_work": ("a cutting energy per volume", "pascal", "40 J/cm3"),
    "force_per_width": ("a force per width", "newton/meter", "12 N/mm or 70 lbf/in"),
    "number": ("a plain number", "dimensionless", "0.4"),
}

_LENGTHS = (
    (METRIC, "millimeter", "mm"),
    (METRIC, "centimeter", "cm"),
    (METRIC, "meter", "m"),
    (METRIC, "micrometer", "um", "µm", "μm"),
    (INCH, "inch", "in", "inch", "inches", '"', "”", "″"),
    (INCH, "foot", "ft", "foot", "feet", "'", "’", "′"),
    (INCH, "thou", "thou"),
)
_STRESSES = (
    (METRIC, "pascal", "Pa"),
    (METRIC, "kilopascal", "kPa"),
    (METRIC, "megapascal", "MPa"),
    (METRIC, "gigapascal", "GPa"),
    (METRIC, "newton/millimeter**2", "N/mm2"),
    (METRIC, "force_kilogram/millimeter**2", "kgf/mm2"),
    (INCH, "psi", "psi", "PSI", "lbf/in2"),
    (INCH, "ksi", "ksi"),
    (INCH, "megapsi", "Mpsi"),
)
_PER_LENGTH = (
    (METRIC, "newton/meter", "N/m"),
    (METRIC, "newton/millimeter", "N/mm"),
    (METRIC, "kilonewton/meter", "kN/m"),
    (INCH, "force_pound/inch", "lbf/in"),
)
_PER_LENGTH_OF_TEETH = ((INCH, "1/inch", "tpi", "TPI", "teeth/in", "teeth/inch", "teeth per inch"),)
_TABLE = {
    "length": _LENGTHS,
    "force": (
        (METRIC, "newton", "N"),
        (METRIC, "kilonewton", "kN"),
        # A spring or luggage scale shows kg or lb; where a force is asked, that is the pull of so many.
        (METRIC, "force_kilogram", "kgf", "kg"),
        (INCH, "force_pound", "lbf", "lb"),
    ),
    "stress": _STRESSES,
    "rotation": (
        (NEITHER, "turn/minute", "rpm", "RPM", "rev/min", "r/min", "1/min", "/min", "min-1"),
        (NEITHER, "turn/second", "rev/s", "r/s"),
    ),
    "speed": (
        (METRIC, "meter/second", "m/s"),
        (METRIC, "meter/minute", "m/min"),
        (METRIC, "millimeter/second", "mm/s"),
        (METRIC, "millimeter/minute", "mm/min"),
        (INCH, "foot/minute", "ft/min", "fpm", "FPM"),
        (INCH, "foot/second", "ft/s"),
        (INCH, "inch/minute", "in/min"),
        (INCH, "inch/second", "in/s"),
    ),
    "angle": ((NEITHER, "degree", "deg", "°", "degree", "degrees"), (NEITHER, "radian", "rad"), (NEITHER, "milliradian", "mrad")),
    "power": ((METRIC, "watt", "W"), (METRIC, "kilowatt", "kW"), (INCH, "horsepower", "hp", "HP")),
    "spring_rate": _PER_LENGTH,
    "density": (
        (METRIC, "kilogram/meter**3", "kg/m3"),
        (METRIC, "gram/centimeter**3", "g/cm3"),
        (INCH, "pound/inch**3", "lb/in3"),
        (INCH, "pound/foot**3", "lb/ft3"),
    ),
    "per_temperature": (
        (METRIC, "1/kelvin", "/K", "1/K", "per K"),
        (METRIC, "micrometer/meter/kelvin", "µm/m per K"),
        (INCH, "microinch/inch/delta_degree_Fahrenheit", "µin/in per °F"),
        (METRIC, "1/delta_degree_Celsius", "/°C", "1/°C", "/degC", "1/degC"),
        (INCH, "1/delta_degree_Fahrenheit", "/°F", "1/°F", "/degF", "1/degF"),
    ),
    "temperature_difference": (
        (METRIC, "kelvin", "K"),
        (METRIC, "delta_degree_Celsius", "°C", "degC"),
        (INCH, "delta_degree_Fahrenheit", "°F", "degF"),
    ),
    "mass": ((METRIC, "kilogram", "kg"), (METRIC, "gram", "g"), (INCH, "pound", "lb"), (INCH, "ounce", "oz")),
    "time": ((NEITHER, "second", "s"), (NEITHER, "minute", "min"), (NEITHER, "hour", "h"), (NEITHER, "millisecond", "ms")),
    "pressure_work": (
        (METRIC, "joule/meter**3", "J/m3"),
        (METRIC, "joule/centimeter**3", "J/cm3"),
        (METRIC, "joule/millimeter**3", "J/mm3"),
        (INCH, "inch*force_pound/inch**3", "in-lbf/in3"),
    )
    + _STRESSES,
    "force_per_width": _PER_LENGTH,
    "number": ((NEITHER, "percent", "%"),),
}


def _units() -> dict[str, dict[str, Unit]]:
    """Spread the table: quantity -> written name -> unit. A pitch is a length, said so or not, or teeth per inch."""
    found = {
        takes: {name: Unit(expression, system) for system, expression, *names in rows for name in names}
        for takes, rows in _TABLE.items()
    }
    lengths = found["length"]
    found["pitch"] = (
        {name: Unit(expression, system, True) for system, expression, *names in _PER_LENGTH_OF_TEETH for name in names}
        | lengths
        | {f"{name} pitch": unit for name, unit in lengths.items()}
    )
    return {takes: found[takes] for takes in WORDS}


#: quantity -> the names its unit may be written with -> the unit.
UNITS = _units()


def spelled(written: str) -> str:
    """Return a unit as it stands in the table: one space at most, none round a slash, plain powers.

    >>> spelled("N / mm²"), spelled("mm^2"), spelled("in  pitch")
    ('N/mm2', 'mm2', 'in pitch')
    """
    plain = " ".join(written.split()).replace(" /", "/").replace("/ ", "/")
    return plain.replace("²", "2").replace("³", "3").replace("^2", "2").replace("^3", "3")


def quantities_of(name: str) -> tuple[str, ...]:
    """Return the quantities a unit name can stand for, none for an unknown name; a mass before its pull.

    >>> quantities_of("N/mm"), quantities_of("kg"), quantities_of("furlong")
    (('spring_rate', 'force_per_width'), ('mass', 'force'), ())
    """
    found = tuple(takes for takes, units in UNITS.items() if name in units)
    return found[::-1] if found == ("force", "mass") else found


def to_si(number: Fraction, unit: Unit, takes: str) -> Fraction:
    """Return a number with a unit in SI, exactly (angles to the 50 digits of pi that pint holds).

    Source: the sizes of the units are those of pint's table; tests hold them against NIST SP 811.

    >>> float(to_si(Fraction(3, 2), UNITS["length"]["in"], "length"))
    0.0381
    """
    if unit.reciprocal:
        return 1 / (number * factor(unit.pint, "1/meter"))
    return number * factor(unit.pint, WORDS[takes][1])


@functools.cache
def factor(expression: str, si: str) -> Fraction:
    """Return how many of the SI unit one of the other is; both as pint calls them.

    >>> factor("inch", "meter")
    Fraction(127, 5000)
    """
    return Fraction(_registry().Quantity(Fraction(1), expression).to(si).magnitude)


@functools.cache
def _registry() -> Any:
    """Return the one registry. Made on first use: it takes longer than all the rest of a command that reads nothing."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)
