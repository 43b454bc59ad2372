"""From a Drawing to SVG text: the same numbers give the same bytes, and no line of it needs anything from outside.

On screen the ink is `currentColor`, so a figure follows the page into its dark dress. Paper knows no CSS: give an ink.
"""

import hashlib
import math
from collections.abc import Callable, Iterable
from typing import Any
from xml.sax.saxutils import escape

from sawside.figures import drawing as d
from sawside.figures.drawing import Drawing, Point

FONT = "Inter, Arial, sans-serif"
#: Fill opacity of the tinted faces; both stay apart from bare paper and from each other in grey print.
TINTS = {d.TINT: 0.10, d.SHADE: 0.28, d.SOLID: 1.0}
HATCH_STEP = 1.7
#: From the middle of a line of lettering down to its base line, as a share of its size (half a capital height).
_BASE = 0.36


def text(drawing: Drawing, ink: str = "currentColor") -> str:
    """Return a drawing as one SVG element, without an XML declaration, ready to stand in a page or a file.

    Takes `ink`: the colour of lines and words that have none of their own.

    >>> tiny = Drawing("dot", "A dot", "One dot.", 10.0, 10.0, (d.Circle((5.0, 5.0), 2.0, fill=d.SOLID),))
    >>> print(text(tiny, ink="#111111"))  # doctest: +ELLIPSIS
    <svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="dot-... ...
    """
    body = "\n".join(line for shape in drawing.shapes for line in _shape(shape, ink))
    # two machines' figures of one name may meet in one page: the mark from the content keeps their ids apart
    mark = hashlib.sha256(f"{drawing.alt}\n{body}".encode()).hexdigest()[:8]
    name = f"{drawing.name.replace('_', '-')}-{mark}"
    w, h = _n(drawing.width_mm), _n(drawing.height_mm)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{name}-t {name}-d" '
        f'width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" font-family="{FONT}" '
        f'stroke-linejoin="round" fill="none">\n'
        f'<title id="{name}-t">{escape(drawing.title)}</title>\n<desc id="{name}-d">{escape(drawing.alt)}</desc>\n'
        f"{body}\n</svg>\n"
    )


def _n(value: float) -> str:
    """Return a length with at most three decimals and no negative nought."""
    shown = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _stroke(kind: str, ink: str, colour: str = "", width: float = 0.0, round_ends: bool = False) -> str:
    own, dashes = d.STROKES[kind]
    wide = width or own
    if not wide:
        return ""
    found = f' stroke="{colour or ink}" stroke-width="{_n(wide)}"'
    if dashes:
        found += f' stroke-dasharray="{" ".join(map(_n, dashes))}"'
    return found + (' stroke-linecap="round"' if round_ends else "")


def _fill(fill: str, ink: str) -> str:
    if fill in TINTS:
        share = TINTS[fill]
        return f' fill="{ink}"' + (f' fill-opacity="{share:g}"' if share < 1 else "")
    return f' fill="{fill}"' if fill.startswith("#") else ""


def _shape(shape: d.Shape, ink: str) -> list[str]:
    return _WRITERS[type(shape)](shape, ink)


def _line(s: d.Line, ink: str) -> list[str]:
    (a, b), (x, y) = s.start, s.end
    stroke = _stroke(s.stroke, ink, s.colour, s.width, s.round_ends)
    return [f'<line x1="{_n(a)}" y1="{_n(b)}" x2="{_n(x)}" y2="{_n(y)}"{stroke}/>']


def _polyline(s: d.Polyline, ink: str) -> list[str]:
    return [f'<polyline points="{_points(s.points)}"{_stroke(s.stroke, ink, s.colour, s.width, s.round_ends)}/>']


def _polygon(s: d.Polygon, ink: str) -> list[str]:
    lines = hatch(s.points, s.fill, ink)
    return [*lines, f'<polygon points="{_points(s.points)}"{_stroke(s.stroke, ink, s.colour, s.width)}{_fill(s.fill, ink)}/>']


def _circle(s: d.Circle, ink: str) -> list[str]:
    around = tuple(d.Arc(s.centre, s.radius, 0, 0).at(i * math.tau / 72) for i in range(72))
    stroke = _stroke(s.stroke, ink, s.colour, s.width)
    centre = f'cx="{_n(s.centre[0])}" cy="{_n(s.centre[1])}"'
    return [*hatch(around, s.fill, ink), f'<circle {centre} r="{_n(s.radius)}"{stroke}{_fill(s.fill, ink)}/>']


def _arc(s: d.Arc, ink: str) -> list[str]:
    (a, b), (x, y) = s.at(s.start), s.at(s.end)
    large, sweep = int(abs(s.end - s.start) > math.pi), int(s.end > s.start)
    path = f"M{_n(a)} {_n(b)}A{_n(s.radius)} {_n(s.radius)} 0 {large} {sweep} {_n(x)} {_n(y)}"
    return [f'<path d="{path}"{_stroke(s.stroke, ink, s.colour, s.width)}/>']


def _words(s: d.Text, ink: str) -> list[str]:
    weight = ' font-weight="600"' if s.strong else ""
    place = f'x="{_n(s.at[0])}" y="{_n(s.at[1] + _BASE * s.size)}" font-size="{_n(s.size)}" text-anchor="{s.anchor}"'
    return [f'<text {place}{weight} fill="{ink}">{escape(s.text)}</text>']


def _label(s: d.Label, ink: str) -> list[str]:
    found, plain, step = [], len(s.lines) - s.strong, s.size * d.LEADING
    for i, line in enumerate(s.lines):
        at = (s.at[0], s.at[1] + (i + 0.5) * step)
        found += _words(d.Text(at, line, s.size, s.anchor, i >= plain), ink)
    if s.leader:
        found.append(f'<polyline points="{_points(s.leader)}"{_stroke(d.THIN, ink)}/>')
        found.append(f'<circle cx="{_n(s.leader[-1][0])}" cy="{_n(s.leader[-1][1])}" r="0.55" fill="{ink}"/>')
    return found


def _head(tip: Point, angle: float, length: float, ink: str) -> str:
    """Return a filled arrowhead whose tip points along `angle` [rad]."""
    wing = [(tip[0] - length * math.cos(angle + turn), tip[1] - length * math.sin(angle + turn)) for turn in (0.26, -0.26)]
    return f'<polygon points="{_points((tip, *wing))}" fill="{ink}"/>'


def _dimension(s: d.Dimension, ink: str) -> list[str]:
    (a, b), (x, y) = s.start, s.end
    angle = math.atan2(y - b, x - a)
    reach = d.ARROW * 1.8 if s.arrows_outside else 0.0
    flip = math.pi if s.arrows_outside else 0.0
    ends = ((a - reach * math.cos(angle), b - reach * math.sin(angle)), (x + reach * math.cos(angle), y + reach * math.sin(angle)))
    found = [line for pair in s.witness for line in _line(d.Line(*pair, stroke=d.THIN), ink)]
    found += _line(d.Line(*ends, stroke=d.THIN), ink)
    found += [_head(s.start, angle + math.pi + flip, d.ARROW, ink), _head(s.end, angle + flip, d.ARROW, ink)]
    return found


def _arrow(s: d.Arrow, ink: str) -> list[str]:
    (a, b), (x, y) = s.points[-2], s.points[-1]
    angle = math.atan2(y - b, x - a)
    # the line ends inside its head, not in front of it
    neck = (x - 0.8 * s.head * math.cos(angle), y - 0.8 * s.head * math.sin(angle))
    return [f'<polyline points="{_points((*s.points[:-1], neck))}"{_stroke(s.stroke, ink)}/>', _head((x, y), angle, s.head, ink)]


_WRITERS: dict[type[d.Shape], Callable[[Any, str], list[str]]] = {
    d.Line: _line,
    d.Polyline: _polyline,
    d.Polygon: _polygon,
    d.Circle: _circle,
    d.Arc: _arc,
    d.Text: _words,
    d.Label: _label,
    d.Dimension: _dimension,
    d.Arrow: _arrow,
}


def hatch(points: tuple[Point, ...], fill: str, ink: str) -> list[str]:
    """Return the hatch lines of a face as one path: a pattern would need an id that two figures could share.

    Holds for simple closed faces [mm]; lines rise to the right at 45 degrees, the second set of a crosshatch falls.
    """
    turns = {d.HATCH: (1,), d.CROSSHATCH: (1, -1)}.get(fill, ())
    pieces = [piece for way in turns for piece in _cuts(points, way)]
    if not pieces:
        return []
    path = "".join(f"M{_n(a)} {_n(b)}L{_n(x)} {_n(y)}" for (a, b), (x, y) in pieces)
    return [f'<path d="{path}" stroke="{ink}" stroke-width="0.18"/>']


def _cuts(points: tuple[Point, ...], way: int) -> list[tuple[Point, Point]]:
    """Return where the lines x + way * y = k * step run inside a face, between crossings taken in pairs."""
    step = HATCH_STEP * math.sqrt(2)
    heights = [x + way * y for x, y in points]
    found: list[tuple[Point, Point]] = []
    for k in range(math.ceil(min(heights) / step), math.floor(max(heights) / step) + 1):
        level, crossings = k * step + 1e-7, []
        for (p, u), (q, v) in zip(zip(points, heights), zip(points[1:] + points[:1], heights[1:] + heights[:1])):
            if (u < level) != (v < level):
                share = (level - u) / (v - u)
                crossings.append((p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])))
        crossings.sort()
        found += zip(crossings[::2], crossings[1::2])
    return found
