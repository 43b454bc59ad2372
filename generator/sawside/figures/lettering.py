"""How wide words become, whatever font the reader has, and how they break into lines."""

import re

from sawside.figures.drawing import LABEL_SIZE

#: Advance of each character in units of the lettering size: the widest of Inter, a face of Arial's widths, and DejaVu
#: Sans (what a bare Linux falls back to), measured in their font files and rounded up, so that a word is never wider
#: on screen or paper than reckoned here. Characters not named take WIDEST.
_WIDTHS = (
    (0.32, " ',.Iijl\u00b7\u00a0"),
    (0.36, ":;|"),
    (0.42, "!()/[\\]frt"),
    (0.50, '"-`\u00b2\u00b3\u00b0'),
    (0.56, "*?_sz\u2013"),
    (0.62, "FJLacekovxy"),
    (0.66, "$0123456789Tbdghnpqu{}"),
    (0.70, "ABEKPSVXYZ"),
    (0.78, "&CDGHNRU"),
    (0.86, "#+<=>OQ^w~\u00b1\u00d7\u00f7\u2191\u2193"),
    (1.00, "%MWm\u00bd\u00bc\u00be\u2014\u2192\u2190"),
)
WIDEST = 1.1
#: Bold lettering in the widest of those faces against plain lettering.
STRONGER = 1.15
_WIDTH = {character: width for width, characters in _WIDTHS for character in characters}


def width(text: str, size: float = LABEL_SIZE, strong: bool = False) -> float:
    """Return how wide a line of words may become [mm]; a bound from above for the fonts named in `svg`.

    >>> width("13 mm", 3.2) < width("about 13 mm", 3.2)
    True
    """
    return size * sum(_WIDTH.get(character, WIDEST) for character in text) * (STRONGER if strong else 1.0)


def wrap(text: str, room: float, size: float = LABEL_SIZE, strong: bool = False) -> tuple[str, ...]:
    """Return words broken into lines no wider than `room` [mm]; a single word wider than that is cut.

    >>> wrap("about 102 7/16 in", 22.0, 3.2)
    ('about', '102\xa07/16\xa0in')
    """
    lines: list[str] = []
    # a number keeps its fraction and its unit beside it
    for word in re.sub(r"(?<=\d) (?=\S)", "\u00a0", text).split(" "):
        for piece in _pieces(word, room, size, strong):
            if lines and width(f"{lines[-1]} {piece}", size, strong) <= room:
                lines[-1] += f" {piece}"
            else:
                lines.append(piece)
    return tuple(lines)


def _pieces(word: str, room: float, size: float, strong: bool) -> list[str]:
    pieces = [""]
    for character in word:
        if pieces[-1] and width(pieces[-1] + character, size, strong) > room:
            pieces.append("")
        pieces[-1] += character
    return pieces
