"""From an SI float to what stands on paper: rounded once, in one system, and where it matters towards the safe side."""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from sawside.units.kinds import COMPUTED, FRACTION, KINDS, Kind, Scale
from sawside.units.names import WORDS, factor

#: What a float carries from arithmetic, relative to the value: 13 mm that arrives as 12.9999999999 mm is 13 mm.
NOISE = Fraction(1, 10**9)
#: What is left of a difference of two equal sizes, in steps of printing: this is nothing.
_NOTHING = Fraction(1, 10**12)
#: How near to a fraction of an inch a length must be to be called that fraction [m].
_SAME_LENGTH = 1e-9
#: A pitch this near to a whole number of teeth per inch is that number: nobody measures a pitch closer.
_WHOLE_TPI = Fraction(5, 1000)
DENOMINATORS = (16, 32, 64)
ROUNDINGS = ("nearest", "down", "up")


@dataclass(frozen=True)
class Shown:
    """A number as printed, whether it says all there is to say (nothing was rounded away), and what it says in SI."""

    text: str
    exact: bool
    si: float


def show(
    value: float, kind: str, system: str, denominator: int = 32, rounding: str = "nearest", doubt: float | None = None
) -> Shown:
    """Return a value as printed in one system; `down` never prints more than the value, `up` never less.

    Takes: value in SI; kind, a name of KINDS; system metric or inch; denominator 16, 32 or 64; rounding nearest, down
    or up; doubt in SI: digits finer than those of the doubt are not printed.
    Holds for: finite values. Fractions of an inch that are rounded to the nearest are marked with "about".

    >>> show(0.0381, "blade_width", "inch").text, show(0.039, "blade_width", "inch").text
    ('1 1/2 in', 'about 1 17/32 in')
    >>> show(0.01268, "blade_width", "metric", rounding="down").text
    '12.6 mm'
    >>> show(0.0254 / 6, "pitch", "inch").text, show(0.0254 / 6, "pitch", "metric").text
    ('6 TPI', '4.23 mm pitch')
    """
    if kind == "word":
        return Shown(str(value), True, math.nan)
    _check(value, kind, denominator, rounding)
    if kind == "pitch" and system == "inch" and value > 0:
        return _teeth_per_inch(value, rounding)
    number, scale = scaled(Fraction(value), KINDS[kind], system)
    if kind == "pitch" and system == "inch":
        scale = Scale("in pitch", scale.pint, "0.001")
    if scale.step == FRACTION:
        return _fraction(value, number, scale, denominator, rounding)
    step = _step(number, scale)
    if doubt:
        step = max(step, figures_step(Fraction(abs(doubt)) * (number / Fraction(value)) if value else step, 2))
    rounded = rounded_steps(number / step, rounding) * step
    si = float(rounded) * (value / float(number)) if number else 0.0
    if not rounded and rounding == "nearest" and abs(number) > _NOTHING * step:
        return Shown(_under(step, number, scale), False, si)
    return Shown(with_unit(rounded, scale), abs(rounded - number) <= NOISE * abs(number), si)


def _check(value: float, kind: str, denominator: int, rounding: str) -> None:
    """Refuse to print what is no number, and a caller's slip in how to print it."""
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be printed as {kind}")
    if denominator not in DENOMINATORS:
        raise ValueError(f"a ruler has no {denominator} parts to an inch, only {DENOMINATORS}")
    if rounding not in ROUNDINGS:
        raise ValueError(f"no rounding is called {rounding!r}, only {ROUNDINGS}")


def show_pair(
    value: float, kind: str, system: str, denominator: int = 32, both: bool = True, rounding: str = "nearest",
    doubt: float | None = None,
) -> tuple[str, str]:  # fmt: skip
    """Return a value in its system and, if wanted and different, in the other one.

    The first is rounded to the safe side. The second is the nearest, marked "about" where it is a fraction: a whole step of
    a ruler to the safe side would be far off.

    >>> show_pair(0.013, "blade_width", "metric", 64)
    ('13 mm', 'about 33/64 in')
    >>> show_pair(0.0762, "blade_width", "inch", both=False), show_pair(14.0, "rotation", "metric")
    (('3 in', ''), ('840 rpm', ''))
    >>> show_pair(0.00485, "small_length", "metric", rounding="up")
    ('4.9 mm', 'about 3/16 in')
    >>> show_pair(13.87, "ratio", "metric", rounding="down")
    ('13.8', '')
    """
    main = show(value, kind, system, denominator, rounding, doubt).text
    if not both:
        return main, ""
    system = "metric" if system == "inch" else "inch"
    if show(value, kind, system, denominator, rounding, doubt).text == main:
        return main, ""  # a number without a unit, or with the same one in both systems
    return main, show(value, kind, system, denominator, doubt=doubt).text


def show_doubt(plus_minus: float | None, kind: str, system: str) -> str:
    """Return a doubt as printed: at most two figures, rounded up; nothing when there is none.

    Rounding: JCGM 100, 7.2.6 (two figures suffice; rounding up rather than to the nearest may be appropriate).

    >>> show_doubt(0.000311, "blade_width", "metric"), show_doubt(0.0003, "blade_width", "metric")
    ('± 0.32 mm', '± 0.3 mm')
    >>> show_doubt(None, "blade_width", "metric")
    ''
    """
    if not plus_minus or kind == "word":
        return ""
    if not math.isfinite(plus_minus):
        raise ValueError(f"{plus_minus} cannot be printed as a doubt of {kind}")
    number, scale = scaled(Fraction(abs(plus_minus)), KINDS[kind], system)
    if kind == "pitch" or scale.step == FRACTION:
        scale = Scale("in" if system == "inch" else "mm", scale.pint, "0.001")
    step = figures_step(number, 2)
    return f"± {with_unit(rounded_steps(number / step, 'up') * step, scale)}"


def scaled(value: Fraction, kind: Kind, system: str) -> tuple[Fraction, Scale]:
    """Return a value in the unit it is printed in, and that unit's scale."""
    si = COMPUTED.get(kind.takes) or WORDS[kind.takes][1]
    scales = kind.scales(system)
    for scale in scales:
        number = value / factor(scale.pint, si)
        if abs(number) < scale.below:
            break
    return number, scale


def scales(kind: str, system: str) -> list[dict[str, Any]]:
    """Return how a kind of number is printed in a system, as plain data for a script: for each scale its unit, the size of that
    unit in SI, the finest step (0: fractions of an inch), the figures, and below which number it is used.

    >>> scales("percent", "metric")
    [{'unit': '%', 'one': '', 'size': 0.01, 'step': 1.0, 'figures': 0, 'below': None}]
    """
    takes = KINDS[kind].takes
    si = COMPUTED.get(takes) or WORDS[takes][1]
    return [
        {
            "unit": scale.unit,
            "one": scale.one,
            "size": float(factor(scale.pint, si)),
            "step": 0.0 if scale.step == FRACTION else float(Fraction(scale.step)),
            "figures": scale.figures,
            "below": None if scale.below == math.inf else float(scale.below),
        }
        for scale in KINDS[kind].scales(system)
    ]


def _step(number: Fraction, scale: Scale) -> Fraction:
    """Return the step to round to: the scale's own, or coarser when only so many figures are wanted."""
    step = Fraction(scale.step)
    return max(step, figures_step(number, scale.figures)) if scale.figures and number else step


def figures_step(number: Fraction, figures: int) -> Fraction:
    """Return the step that leaves so many significant figures.

    >>> figures_step(Fraction(1234), 3), figures_step(Fraction(9999999999, 10**10), 2)
    (Fraction(10, 1), Fraction(1, 10))
    """
    size = abs(number) * (1 + NOISE)
    power = math.floor(math.log10(size))
    return Fraction(10) ** (power - figures + 1)


def rounded_steps(steps: Fraction, rounding: str) -> int:
    """Round a number of steps; what lies within the noise of a float of a whole or half step counts as being there."""
    half = Fraction(round(steps * 2), 2)
    if abs(steps - half) <= max(_NOTHING, NOISE * abs(steps)):
        steps = half
    if rounding == "down":
        return math.floor(steps)
    if rounding == "up":
        return math.ceil(steps)
    away = math.floor(abs(steps) + Fraction(1, 2))
    return away if steps > 0 else -away


def _fraction(value: float, inches: Fraction, scale: Scale, denominator: int, rounding: str) -> Shown:
    """Return inches as a ruler shows them; "about" only where nearest was asked and something was rounded away."""
    rounded = Fraction(rounded_steps(inches * denominator, rounding), denominator)
    si = float(rounded) * 0.0254
    exact = abs(si - value) <= _SAME_LENGTH
    if not rounded and not exact and rounding == "nearest":
        return Shown(_under(Fraction(1, denominator), inches, scale), False, si)
    text = with_unit(rounded, scale)
    return Shown(text if exact or rounding != "nearest" else f"about {text}", exact, si)


def _teeth_per_inch(pitch: float, rounding: str) -> Shown:
    """Return a pitch as the trade says it; the finer the pitch the more teeth, so the safe side turns round."""
    teeth = factor("inch", "meter") / Fraction(pitch)
    whole = rounded_steps(teeth, "nearest")
    near = whole and abs(teeth - whole) <= (_WHOLE_TPI if rounding == "nearest" else NOISE) * teeth
    turned = {"nearest": "nearest", "down": "up", "up": "down"}[rounding]
    shown = Fraction(whole) if near else Fraction(rounded_steps(teeth * 10, turned), 10)
    if not shown:
        return Shown("under 0.1 TPI", False, math.inf)
    return Shown(with_unit(shown, KINDS["pitch"].inch[0]), abs(shown - teeth) <= NOISE * teeth, 0.0254 / float(shown))


def _under(step: Fraction, number: Fraction, scale: Scale) -> str:
    """Return words for what is not nothing but too small to be shown."""
    return f"under {with_unit(step, scale)}" if number > 0 else f"about {with_unit(Fraction(0), scale)}"


def with_unit(number: Fraction, scale: Scale) -> str:
    """Return a rounded number with its unit, without zeros that say nothing."""
    text = _ruler(number) if scale.step == FRACTION else _decimal(number)
    unit = scale.one if scale.one and number == 1 else scale.unit
    return text + ("" if unit in ("", "°") else " ") + unit


def _ruler(number: Fraction) -> str:
    """Return inches as a whole number and a fraction.

    >>> _ruler(Fraction(-3, 2)), _ruler(Fraction(2)), _ruler(Fraction(0))
    ('-1 1/2', '2', '0')
    """
    whole, part = divmod(abs(number), 1)
    words = " ".join(str(n) for n in (whole, part) if n) or "0"
    return f"-{words}" if number < 0 else words


def _decimal(number: Fraction) -> str:
    """Return a fraction whose denominator is made of tens as a decimal, exactly.

    >>> _decimal(Fraction(-13, 20)), _decimal(Fraction(1200)), _decimal(Fraction(0))
    ('-0.65', '1200', '0')
    """
    places = 0
    while (number * 10**places).denominator != 1:
        places += 1
    digits = str(abs(int(number * 10**places))).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{text}" if number < 0 else text
