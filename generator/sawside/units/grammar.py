"""How a quantity is written in a shop, and what is refused with which advice.

A number is a decimal (`0.65`, `11.7e-6`), a fraction (`1/2`), a whole number and a fraction (`1 1/2`, `1-1/2`) or one
with a fraction sign (`1½`). A unit follows it. Feet and inches may stand together (`5 ft 3 1/2 in`). A doubt may follow
after `+/-`, with its own unit. Everything else is refused: a wrong guess ends up on a saw.
"""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from sawside.units import advice
from sawside.units.advice import FRACTION_SIGNS
from sawside.units.names import INCH, METRIC, NEITHER, UNITS, Unit, quantities_of, spelled, to_si
from sawside.units.refusal import NotUnderstood

LONGEST = 60
#: What is beyond these is a slip of the keyboard; it also keeps every sum below within the range of floats.
_LONGEST_EXPONENT = 2
_LEAST, _MOST = Fraction(1, 10**30), Fraction(10**30)

_SPACE = "[ \t\u00a0\u2009\u202f]"
_HYPHEN = "[-\u2010\u2011\u2013]"
_VALUE_OF_SIGN = {sign: Fraction(unicodedata.normalize("NFKC", sign).replace("\u2044", "/")) for sign in FRACTION_SIGNS}
_FRACTION = "(?P<above>[0-9]+)[/\u2044](?P<below>[0-9]+)"
#: Order matters: the longest way to read the beginning comes first.
_NUMBERS = (
    re.compile(f"(?P<whole>[0-9]+)(?:{_SPACE}+|{_HYPHEN}){_FRACTION}"),
    re.compile(f"(?:(?P<whole>[0-9]+)(?:{_SPACE}*|{_HYPHEN}))?(?P<vulgar>[{FRACTION_SIGNS}])"),
    re.compile(_FRACTION),
    re.compile("(?P<decimal>[0-9]+(?:\\.[0-9]+)?|\\.[0-9]+)(?:[eE](?P<exponent>[+-]?[0-9]+))?"),
)
_SIGN = re.compile("[+\u2212-]")
_FEET = re.compile(f"(?P<feet>[0-9]+){_SPACE}*(?:ft|foot|feet|['’′]){_SPACE}*(?=[0-9{FRACTION_SIGNS}])")
_DOUBT = re.compile("\\+/-|±")


@dataclass(frozen=True)
class Reading:
    """A quantity as read: SI value, its doubt in SI (None when none was written), and whose unit it was written in."""

    value: float
    plus_minus: float | None
    system: str


@dataclass(frozen=True)
class _Number:
    """The number a text begins with: its value, where it ends, whether a fraction was written, and one below 1."""

    value: Fraction
    end: int
    fraction: bool = False
    proper: bool = True


def read(text: str, takes: str) -> Reading:
    """Read one quantity as written in a shop into SI; raise NotUnderstood, with what to write instead, for all else.

    Takes: text as written; takes, what it must be: one of `UNITS`.
    Gives: m, N, Pa, rev/s, m/s, rad, W, N/m, kg/m3, 1/K, K, kg, s, J/m3 or a plain number; a tooth pitch in m.
    Holds for: texts up to 60 characters. The sign is understood; whether it makes sense is for the caller.

    >>> read("1 1/2 in", "length")
    Reading(value=0.0381, plus_minus=None, system='inch')
    >>> read("0.65 mm +/- 0.02 mm", "length")
    Reading(value=0.00065, plus_minus=2e-05, system='metric')
    >>> read("850 rpm", "rotation").value * 60
    850.0
    """
    start = len(text) - len(text.lstrip())
    body = text.strip()
    if len(body) > LONGEST:
        raise NotUnderstood(f"the text is longer than {LONGEST} characters", advice.example(takes), start, len(body))
    mark = _DOUBT.search(body)
    if not mark:
        value, unit = _amount(body, start, takes)
        return Reading(float(value), None, unit.system)
    return _with_doubt(body, mark, start, takes)


def _with_doubt(body: str, mark: re.Match[str], start: int, takes: str) -> Reading:
    """Read a value and its doubt, each with its own unit, on both sides of the mark."""
    first, second = body[: mark.start()].rstrip(), body[mark.end() :].lstrip()
    second_at = start + len(body) - len(second)
    if takes != "number":
        advice.check_both_units(first, second, start, second_at)
    value, unit = _amount(first, start, takes)
    if second[:1] not in tuple("0123456789." + FRACTION_SIGNS):
        raise advice.doubt(body[mark.start() :], start + mark.start())
    doubt, doubt_unit = _amount(second, second_at, takes)
    if doubt_unit.reciprocal:
        # p = 1/n, so to first order the doubt of p is p^2 times that of n; `doubt` holds 1/(doubt of n) here
        doubt = value * value / doubt
    return Reading(float(value), float(doubt), unit.system)


def _amount(text: str, at: int, takes: str) -> tuple[Fraction, Unit]:
    """Read a number with its unit into SI; `at` is where `text` stands in what was written."""
    skip = 1 if _SIGN.match(text) else 0
    feet = _FEET.match(text, skip)
    number = _number(text, feet.end() if feet else skip, at, takes)
    written = text[number.end :].strip()
    if feet and not written:
        raise NotUnderstood(f"`{text}` has no unit after its last number", f"write {text} in", at, len(text))
    unit = _unit(text, written, at, takes)
    _check_fraction(text, number, unit, written, at)
    value = number.value
    if feet:
        _check_inches(unit, value, text, at)
        value += 12 * int(feet["feet"])
    if unit.reciprocal and not value:
        raise NotUnderstood("there is no pitch with 0 teeth per inch", advice.example(takes), at, len(text))
    return to_si(-value if text[0] in ("-", "\u2212") else value, unit, takes), unit


def _number(text: str, start: int, at: int, takes: str) -> _Number:
    """Read the number at `start`: decimal, fraction, mixed or with a fraction sign."""
    found = next((found for pattern in _NUMBERS if (found := pattern.match(text, start))), None)
    if found is None:
        raise advice.no_number(text, at, takes)
    parts = found.groupdict()
    whole = int(parts.get("whole") or 0)
    if parts.get("vulgar"):
        return _Number(whole + _VALUE_OF_SIGN[parts["vulgar"]], found.end(), True)
    if parts.get("above"):
        above, below = int(parts["above"]), int(parts["below"])
        if not below:
            raise NotUnderstood(f"`{found[0]}` divides by 0", "write for example: 1 1/2 in", at + start, len(found[0]))
        return _Number(whole + Fraction(above, below), found.end(), True, 0 < above < below)
    short = len((parts["exponent"] or "").lstrip("+-")) <= _LONGEST_EXPONENT
    value = Fraction(found[0]) if short else Fraction(0)
    if not short or (value and not _LEAST <= value <= _MOST):
        raise NotUnderstood(f"`{found[0]}` is no size of anything here", advice.example(takes), at + start, len(found[0]))
    return _Number(value, found.end())


def _unit(text: str, written: str, at: int, takes: str) -> Unit:
    """Return the unit, or refuse: none, not known, or of another quantity."""
    name = spelled(written)
    if takes == "number" and not name:
        return Unit("dimensionless", NEITHER)
    if name in UNITS[takes]:
        return UNITS[takes][name]
    if quantities_of(name):
        raise advice.other_quantity(text, name, at, takes)
    raise advice.no_unit(text, written, at, takes)


def _check_fraction(text: str, number: _Number, unit: Unit, written: str, at: int) -> None:
    """Refuse a fraction with a metric unit, with teeth per inch, and one that no ruler shows."""
    if not number.fraction:
        return
    if unit.system == METRIC:
        raise advice.metric_fraction(text, number.value, written, at)
    if unit.reciprocal:
        raise advice.mixed_pitch(text, at)
    if not number.proper:
        raise advice.improper(text, number.value, written, at)


def _check_inches(unit: Unit, inches: Fraction, text: str, at: int) -> None:
    """After feet come inches, fewer than twelve of them."""
    if unit.system != INCH or unit.pint != "inch":
        raise NotUnderstood(
            f"`{text}` has feet and then something else than inches", "write for example: 5 ft 3 1/2 in", at, len(text)
        )
    if inches >= 12:
        raise NotUnderstood(
            f"`{text}` has feet and 12 or more inches",
            "write feet and fewer than 12 inches, or inches alone, for example: 5 ft 3 1/2 in or 63 1/2 in",
            at,
            len(text),
        )
