"""What stays on one line: a number with its fraction and its unit, wherever pages and sheets break their lines."""

import re

from sawside.units.kinds import KINDS

#: Every unit that is printed after a space, longest first so that `N/mm` is not taken for `N`.
_PRINTED = tuple(
    sorted(
        {unit for kind in KINDS.values() for scale in (*kind.metric, *kind.inch, *kind.also) for unit in (scale.unit, scale.one)}
        - {"", "%", "\u00b0"},
        key=lambda unit: (-len(unit), unit),
    )
)
#: A number, its fraction and its unit. Plain enough for the typesetter of the sheets, which takes the same expression.
PATTERN = r"[0-9][0-9.,]*(?:(?: [0-9]+)?/[0-9]+)? (?:(?:" + "|".join(_PRINTED) + r")\b|%)|[0-9]+ [0-9]+/[0-9]+"
_TOGETHER = re.compile(PATTERN)


def together(text: str) -> str:
    """Return a text whose numbers cannot be parted from their units at the end of a line.

    >>> together("set it to 145 MPa, about 102 1/16 in, 14 TPI").replace("\u00a0", "_")
    'set it to 145_MPa, about 102_1/16_in, 14_TPI'
    >>> together("a gap of 3/8 in").replace("\u00a0", "_")
    'a gap of 3/8_in'
    >>> together("3 turns in 2 saws").replace("\u00a0", "_")
    '3_turns in 2 saws'
    """
    return _TOGETHER.sub(lambda found: found[0].replace(" ", "\u00a0"), text)
