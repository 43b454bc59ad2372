"""How each kind of number is printed, in both systems: unit and how fine. What a shop may set under `units:`."""

from dataclasses import dataclass
from math import inf

FRACTION = "fraction"


@dataclass(frozen=True)
class Scale:
    """One way to print: the unit as printed and as pint calls it, and how fine.

    `step` is the finest step in that unit, `fraction` for a ruler's fractions of an inch. `figures` rounds to so many
    significant figures, never finer than `step`. The scale is used for sizes below `below`, in its own unit.
    """

    unit: str
    pint: str
    step: str
    figures: int = 0
    below: float = inf
    one: str = ""


@dataclass(frozen=True)
class Kind:
    """One kind of printed number: what it is called, what it takes, and its scales in both systems, finest first.

    `also` are further units that instruments for it show, printed beside a setting in the metric system. A shop that does
    not name the kind prints it in the system of the kind it is `like`.
    """

    name: str
    label: str
    takes: str
    metric: tuple[Scale, ...]
    inch: tuple[Scale, ...]
    also: tuple[Scale, ...] = ()
    like: str = ""

    def scales(self, system: str) -> tuple[Scale, ...]:
        """Return the scales of `inch`, or the metric ones for `metric` and `none`."""
        if system not in ("metric", "inch", "none"):
            raise ValueError(f"no system of units is called {system!r}")
        return self.inch if system == "inch" else self.metric


#: What a kind takes -> its SI unit as pint calls it, for quantities that are computed and never written by hand.
COMPUTED = {"area": "meter**2", "mass_per_length": "kilogram/meter", "frequency": "1/second", "text": "dimensionless"}


def _mm(step: str, below: float = inf) -> Scale:
    return Scale("mm", "millimeter", step, below=below)


def _in(step: str = FRACTION) -> Scale:
    return Scale("in", "inch", step)


def _plain(step: str, unit: str = "", pint: str = "dimensionless", below: float = inf, one: str = "") -> tuple[Scale, ...]:
    return (Scale(unit, pint, step, below=below, one=one),)


_RULER, _CALIPER, _FEELER = (_in(),), (_in("0.001"),), (_mm("0.01"),)
#: A tape is read to the millimetre, thin work to a tenth.
_TAPE = (_mm("0.1", 20), _mm("1"))
_MPM, _FPM = ("m/min", "meter/minute"), ("ft/min", "foot/minute")
_RPM = _plain("1", "rpm", "turn/minute")
_ALL_RATIOS = _plain("0.01", below=10) + _plain("0.1")
_PUSH = (Scale("N", "newton", "0.1", 3),)
_POUNDS = (Scale("lbf", "force_pound", "0.1", 3),)
_NEWTON_PER_MM = (Scale("N/mm", "newton/millimeter", "0.01", 3),)
_POUND_PER_INCH = (Scale("lbf/in", "force_pound/inch", "0.1", 3),)
_MINUTES = (Scale("s", "second", "0.1", 3, 120), Scale("min", "minute", "1"))
_DEGREES = _plain("0.01", "°", "degree")

_ALL = (
    Kind("wheel_size", "wheel diameters", "length", (_mm("1"),), _RULER),
    Kind("blade_length", "blade lengths and centre distances", "length", (_mm("1"),), _RULER),
    Kind("blade_width", "blade and tyre widths", "length", (_mm("0.1"),), _RULER),
    Kind("thickness", "blade thickness and kerf", "length", _FEELER, _CALIPER),
    Kind("gap", "gaps set with a feeler gauge, and screw pitches", "length", _FEELER, _CALIPER),
    Kind("gap_wide", "gaps and deflections set with a ruler", "length", (_mm("0.1"),), _RULER),
    Kind("small_length", "gullets, overhangs and guide positions", "length", (_mm("0.1"),), _RULER),
    Kind("work_size", "sizes of work, table and fence", "length", _TAPE, _RULER),
    Kind("stretch", "stretch over the gauge length", "length", (_mm("0.001"),), (_in("0.0001"),)),
    Kind("radius", "radius of curves", "length", _TAPE, _RULER),
    Kind("pitch", "tooth pitch", "pitch", (Scale("mm pitch", "millimeter", "0.01"),), (Scale("TPI", "inch", "0.1"),)),
    Kind(
        "feed",
        "feed of the work",
        "speed",
        (Scale(*_MPM, "0.01", 0, 1), Scale(*_MPM, "0.1")),
        (Scale(*_FPM, "0.1", 0, 10), Scale(*_FPM, "1")),
    ),
    Kind("speed", "band speed", "speed", (Scale("m/s", "meter/second", "0.1"),), (Scale(*_FPM, "10"),)),
    Kind("rotation", "speed of rotation", "rotation", _RPM, _RPM),
    Kind("force", "forces", "force", _PUSH, _POUNDS),
    Kind(
        "push",
        "pushes weighed with a spring or luggage scale",
        "force",
        _PUSH,
        _POUNDS,
        (Scale("kg", "force_kilogram", "0.1"),),
        like="force",
    ),
    Kind("stress", "stresses", "stress", (Scale("MPa", "megapascal", "1"),), (Scale("psi", "psi", "100"),)),
    Kind("modulus", "Young's modulus", "stress", (Scale("GPa", "gigapascal", "1"),), (Scale("Mpsi", "megapsi", "0.1"),)),
    Kind("area", "section areas", "area", (Scale("mm²", "millimeter**2", "0.01"),), (Scale("in²", "inch**2", "0.0001"),)),
    Kind(
        "mass_per_length",
        "mass per length",
        "mass_per_length",
        (Scale("g/m", "gram/meter", "0.1", 3),),
        (Scale("lb/ft", "pound/foot", "0.0001", 3),),
    ),
    Kind("stiffness", "stiffness at the teeth", "spring_rate", _NEWTON_PER_MM, _POUND_PER_INCH),
    Kind("spring_rate", "spring rates", "spring_rate", _NEWTON_PER_MM, _POUND_PER_INCH),
    Kind("force_per_width", "cutting force per width", "force_per_width", _NEWTON_PER_MM, _POUND_PER_INCH),
    Kind(
        "power",
        "power",
        "power",
        (Scale("W", "watt", "1", 3, 1000), Scale("kW", "kilowatt", "0.01", 3)),
        (Scale("hp", "horsepower", "0.01", 3),),
    ),
    Kind("frequency", "tones", "frequency", *2 * ((Scale("Hz", "1/second", "0.1", 4),),)),
    Kind("angle", "angles", "angle", _DEGREES, _DEGREES),
    Kind("ratio", "ratios", "number", _ALL_RATIOS, _ALL_RATIOS),
    Kind("teeth", "teeth in the work", "number", *2 * (_plain("0.1", below=5) + _plain("1"),)),
    Kind("ratio_whole", "ratios as whole numbers", "number", *2 * (_plain("1"),)),
    Kind("scale_mark", "marks of a saw's tension scale", "number", *2 * (_plain("0.1"),)),
    Kind("percent", "shares in per cent", "number", *2 * (_plain("1", "%", "percent"),)),
    Kind("count", "counts", "number", *2 * (_plain("1"),)),
    Kind("count_large", "counts of thousands", "number", *2 * ((Scale("", "dimensionless", "1", 3),),)),
    Kind("turns", "turns of a screw", "number", *2 * (_plain("0.05", "turns", one="turn"),)),
    Kind(
        "density", "densities", "density", (Scale("kg/m³", "kilogram/meter**3", "1"),), (Scale("lb/in³", "pound/inch**3", "0.001"),)
    ),
    Kind(
        "expansion",
        "expansion per degree",
        "per_temperature",
        (Scale("µm/m per K", "micrometer/meter/kelvin", "0.1"),),
        (Scale("µin/in per °F", "microinch/inch/delta_degree_Fahrenheit", "0.1"),),
    ),
    Kind(
        "cutting_energy",
        "cutting energy per volume",
        "pressure_work",
        (Scale("J/cm³", "joule/centimeter**3", "0.1", 3),),
        (Scale("in-lbf/in³", "inch*force_pound/inch**3", "1", 3),),
    ),
    Kind("time", "times", "time", _MINUTES, _MINUTES),
    Kind(
        "temperature_difference",
        "temperature differences",
        "temperature_difference",
        (Scale("K", "kelvin", "0.1"),),
        (Scale("°F", "delta_degree_Fahrenheit", "0.1"),),
    ),
    Kind(
        "mass",
        "masses",
        "mass",
        (Scale("g", "gram", "1", 3, 1000), Scale("kg", "kilogram", "0.01", 3)),
        (Scale("lb", "pound", "0.01", 3),),
    ),
    Kind("word", "words", "text", _plain("1"), _plain("1")),
)

#: Kind of number -> how it is printed.
KINDS = {kind.name: kind for kind in _ALL}
