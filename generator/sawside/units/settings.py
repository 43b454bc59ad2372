"""What a person sets, as printed: the aim, the range that is good enough, and never a number past the range."""

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from sawside.units.kinds import FRACTION, KINDS, Scale
from sawside.units.names import WORDS, factor
from sawside.units.printing import NOISE, Shown, figures_step, rounded_steps, scaled, show, with_unit


@dataclass(frozen=True)
class Setting:
    """A setting as printed: its aim, the range that is good enough, and the aim in other units."""

    aim: str
    good: str
    beside: str


def show_setting(
    aim: float, low: float, high: float, kind: str, system: str, denominator: int = 32, both: bool = True,
    falling: bool = False,
) -> Setting:  # fmt: skip
    """Return a setting with the range in which it is good enough, in digits no finer than a reader can use.

    Takes: low <= aim <= high in SI; falling, whether a lower reading means more load. The range is rounded inwards, and no
    printed aim lies past its loaded end, in any unit.

    >>> show_setting(19.57, 17.6, 21.5, "push", "metric")
    Setting(aim='19.5 N', good='18 to 21.5 N', beside='2 kg, 4.4 lbf')
    >>> show_setting(13.8, 13.8, 13.9, "push", "metric", both=False)
    Setting(aim='13.8 N', good='13.8 to 13.9 N', beside='1.4 kg')
    """
    step = max((high - low) / 2, abs(aim) * _NARROW) / _STEPS
    for finer in range(_FINEST):
        how = _How(kind, system, denominator, step, bool(finer))
        ends = [_stepped(x, how, to) for x, to in ((low, "up"), (high, "down"))]
        first = _inside(aim, max(low, ends[0].si), min(high, ends[1].si), how)
        if ends[0].si <= first.si * (1 + 1e-9) and first.si <= ends[1].si * (1 + 1e-9):
            break
        step /= 2
    other = "metric" if system == "inch" else "inch"
    beside = [_in(aim, high, scale, step, kind) for scale in KINDS[kind].also if system == "metric"]
    bounds = (low, math.inf) if falling else (-math.inf, high)
    second = _inside(aim, *bounds, replace(how, system=other)).text if both else ""
    beside += [second] if second and second != first.text else []
    return Setting(first.text, _between(ends[0].text, ends[1].text), ", ".join(beside))


#: A range narrower than this share of its aim is no range that anybody reads; steps from an aim to an end of its range, at
#: least; and how often the digits are refined.
_NARROW, _STEPS, _FINEST = 1e-4, 3, 16


@dataclass(frozen=True)
class _How:
    """How one setting is printed: kind, system, finest fraction, wanted step in SI, whether finer than its kind's own step."""

    kind: str
    system: str
    denominator: int
    step: float
    finer: bool


def _inside(aim: float, low: float, high: float, how: _How) -> Shown:
    """Return an aim to the nearest step; to the one below or above where the nearest lies outside its range."""
    shown = _stepped(aim, how, "nearest")
    if shown.si > high:
        return _stepped(aim, how, "down")
    return shown if shown.si >= low else _stepped(aim, how, "up")


def _stepped(value: float, how: _How, rounding: str) -> Shown:
    """Return a value in the readable step (1, 2 or 5 and noughts) that is no coarser than the wanted one."""
    number, scale = scaled(Fraction(value), KINDS[how.kind], how.system)
    per = number / Fraction(value) if number else Fraction(1)
    wanted, fraction = Fraction(how.step) * per, scale.step == FRACTION
    if not number or (fraction and wanted >= Fraction(1, how.denominator)):
        return show(value, how.kind, how.system, how.denominator, rounding)
    # A ruler's fraction would be too coarse here: thousandths of an inch.
    finest = Fraction(0) if how.finer else Fraction("0.001" if fraction else scale.step)
    readable = max(finest, _readable(wanted))
    rounded = rounded_steps(number / readable, rounding) * readable
    decimal = replace(scale, step="0.001") if fraction else scale
    return Shown(with_unit(rounded, decimal), rounded == number, float(rounded / per))


def _readable(step: Fraction) -> Fraction:
    """Return the largest of 1, 2 or 5 and noughts that is not more than a step.

    >>> _readable(Fraction(63, 100)), _readable(Fraction(45)), _readable(Fraction(1))
    (Fraction(1, 2), Fraction(20, 1), Fraction(1, 1))
    """
    one = figures_step(step, 1)
    return max(size * one for size in (1, 2, 5) if size * one <= step * (1 + NOISE))


def _in(aim: float, high: float, scale: Scale, printed: float, kind: str) -> str:
    """Return an aim in one more unit of its kind."""
    number = Fraction(aim) / factor(scale.pint, WORDS[KINDS[kind].takes][1])
    per = number / Fraction(aim)
    step = max(Fraction(scale.step), _readable(Fraction(printed) * per))
    rounded = rounded_steps(number / step, "nearest") * step
    if rounded > Fraction(high) * per:
        rounded = rounded_steps(number / step, "down") * step
    return with_unit(rounded, scale)


def _between(low: str, high: str) -> str:
    """Return two printed numbers as a range, the unit once.

    >>> _between("18 N", "21 N"), _between("6.2", "6.8"), _between("about 1/4 in", "5/16 in"), _between("3 N", "3 N")
    ('18 to 21 N', '6.2 to 6.8', 'about 1/4 to 5/16 in', '3 N')
    """
    if low == high:
        return low
    unit = high.rpartition(" ")[2]
    same = not unit[:1].isdigit() and low.endswith(f" {unit}")
    return f"{low.removesuffix(f' {unit}') if same else low} to {high}"
