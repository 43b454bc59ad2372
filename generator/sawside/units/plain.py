"""A number and its unit apart, with enough figures to work on by hand: for formulas with numbers put in."""

from fractions import Fraction

from sawside.units.kinds import COMPUTED, KINDS
from sawside.units.names import WORDS, factor


def plain(value: float, kind: str) -> tuple[str, str]:
    """Return a value's digits (six figures) and its metric unit; an angle's degrees and a plain number's nothing included.

    >>> plain(0.000650, "thickness"), plain(850 / 60, "rotation"), plain(0.5, "ratio")
    (('0.65', 'mm'), ('850', 'rpm'), ('0.5', ''))
    """
    how = KINDS[kind]
    scale = how.metric[0]
    number = float(Fraction(value) / factor(scale.pint, COMPUTED.get(how.takes) or WORDS[how.takes][1]))
    return f"{number:.6g}", "mm" if kind == "pitch" else scale.unit
