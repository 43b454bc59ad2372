"""The drawing model: lines, faces, words and dimensions in millimetres of paper, origin top left, y downwards.

A figure is made of these and nothing else; `svg.text` writes them down, `labels` keeps the words apart.
Line kinds follow technical drawing (ISO 128, from memory): outline thick, dimension and leader thin, hidden edges
dashed, centre lines dash-dotted. Faces differ by hatching and tint, not by colour alone, so that grey print is enough.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

Point = tuple[float, float]

OUTLINE, THIN, BOLD, HIDDEN, CENTRE, NO_LINE = "outline", "thin", "bold", "hidden", "centre", "none"
#: Stroke width [mm] and dash pattern [mm] of each line kind.
STROKES: Mapping[str, tuple[float, tuple[float, ...]]] = {
    OUTLINE: (0.5, ()),
    BOLD: (0.9, ()),
    THIN: (0.25, ()),
    HIDDEN: (0.3, (1.6, 1.0)),
    CENTRE: (0.25, (4.0, 1.0, 0.6, 1.0)),
    NO_LINE: (0.0, ()),
}

EMPTY, TINT, SHADE, SOLID, HATCH, CROSSHATCH = "empty", "tint", "shade", "solid", "hatch", "crosshatch"

LABEL_SIZE = 4.0
SMALL_SIZE = 3.95
#: Smallest lettering a drawing may carry [mm]: 9 pt where a figure of 128 mm fills the 130 mm of an A5 page.
#: `labels.overlaps` reports anything below.
LEAST_SIZE = 3.95
#: A line of lettering takes this many times its size.
LEADING = 1.25
ARROW = 2.2


@dataclass(frozen=True)
class Line:
    """A straight line from start to end [mm]."""

    start: Point
    end: Point
    stroke: str = OUTLINE
    colour: str = ""
    width: float = 0.0
    round_ends: bool = False


@dataclass(frozen=True)
class Polyline:
    """A run of straight pieces [mm]; `width` > 0 overrides the line kind's own."""

    points: tuple[Point, ...]
    stroke: str = OUTLINE
    colour: str = ""
    width: float = 0.0
    round_ends: bool = False


@dataclass(frozen=True)
class Polygon:
    """A closed face [mm] with a fill: a pattern name in ink, or a colour."""

    points: tuple[Point, ...]
    stroke: str = OUTLINE
    fill: str = EMPTY
    colour: str = ""
    width: float = 0.0


@dataclass(frozen=True)
class Circle:
    """A full circle: centre and radius [mm]."""

    centre: Point
    radius: float
    stroke: str = OUTLINE
    fill: str = EMPTY
    colour: str = ""
    width: float = 0.0


@dataclass(frozen=True)
class Arc:
    """Part of a circle: centre, radius [mm], from one angle to another [rad], x towards y (clockwise on paper)."""

    centre: Point
    radius: float
    start: float
    end: float
    stroke: str = OUTLINE
    colour: str = ""
    width: float = 0.0

    def at(self, angle: float) -> Point:
        """Return the point of the arc's circle at an angle [rad].

        >>> Arc((10.0, 10.0), 5.0, 0.0, 1.0).at(0.0)
        (15.0, 10.0)
        """
        return self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle)


@dataclass(frozen=True)
class Text:
    """One line of words: `at` [mm] is the middle of the line's height, at its `anchor` (start, middle, end)."""

    at: Point
    text: str
    size: float = LABEL_SIZE
    anchor: str = "start"
    strong: bool = False


@dataclass(frozen=True)
class Label:
    """A block of lines, the last `strong` of them bold, whose leader runs by `via` to the thing it names [mm].

    `at` is the top corner of the block on the side of its `anchor`.
    """

    at: Point
    lines: tuple[str, ...]
    leader: tuple[Point, ...] = ()
    anchor: str = "start"
    size: float = LABEL_SIZE
    strong: int = 0


@dataclass(frozen=True)
class Dimension:
    """A distance between two points [mm]: a thin line with arrows at both ends, and witness lines to what is measured.

    `witness` holds line pieces; what the distance is called stands in a Label that points at the line.
    Where the distance is too short for two arrows between the ends, they point inwards from outside.
    """

    start: Point
    end: Point
    witness: tuple[tuple[Point, Point], ...] = ()

    @property
    def length(self) -> float:
        """Return the drawn distance [mm].

        >>> Dimension((0.0, 0.0), (3.0, 4.0)).length
        5.0
        """
        return math.dist(self.start, self.end)

    @property
    def middle(self) -> Point:
        """Return the middle of the dimension line [mm]."""
        return (self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2

    @property
    def arrows_outside(self) -> bool:
        """Whether two arrows do not fit between the ends."""
        return self.length < 2.4 * ARROW


@dataclass(frozen=True)
class Arrow:
    """An arrow along a run of points [mm], its head at the last one: a push, a turn, a way of running."""

    points: tuple[Point, ...]
    stroke: str = OUTLINE
    head: float = 3.0


Shape = Line | Polyline | Polygon | Circle | Arc | Text | Label | Dimension | Arrow


@dataclass(frozen=True)
class Drawing:
    """A finished figure: its name, its title, what it tells those who cannot see it, its size [mm], its shapes."""

    name: str
    title: str
    alt: str
    width_mm: float
    height_mm: float
    shapes: tuple[Shape, ...]

    def of(self, kind: type) -> tuple[Any, ...]:
        """Return the shapes of one kind, in drawing order."""
        return tuple(shape for shape in self.shapes if isinstance(shape, kind))


def rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    """Return the four corners of an upright rectangle [mm], clockwise on paper.

    >>> rectangle(0, 0, 2, 1)
    ((0, 0), (2, 0), (2, 1), (0, 1))
    """
    return (left, top), (right, top), (right, bottom), (left, bottom)


def scale_for(length: float, room: float) -> float:
    """Return the largest preferred scale at which a length [m] fits into some room [mm].

    Preferred: 1, 2 or 5 times a power of ten, enlarged or reduced (ISO 5455, from memory).

    >>> scale_for(0.013, 60.0), scale_for(0.1, 60.0), scale_for(0.0001, 3.0)
    (2.0, 0.5, 20.0)
    """
    wanted = room / (1000 * length)
    power = math.floor(math.log10(wanted))
    # 1e-9: a length that fits exactly must not lose its scale to the last bit
    return max(m * 10.0**p for p in (power - 1, power, power + 1) for m in (1, 2, 5) if m * 10.0**p <= wanted * (1 + 1e-9))


def scale_words(scale: float) -> str:
    """Return a scale as drawings state it.

    >>> scale_words(2.0), scale_words(0.05), scale_words(1.0)
    ('2:1', '1:20', '1:1')
    """
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:g}"


def moved(shape: Shape, right: float, down: float) -> Shape:
    """Return a shape moved on the paper [mm], with everything that belongs to it.

    >>> moved(Circle((1.0, 1.0), 0.5), 2.0, 0.0).centre
    (3.0, 1.0)
    """
    return replace(shape, **{f.name: _moved(getattr(shape, f.name), right, down) for f in fields(shape)})


def _moved(value: Any, right: float, down: float) -> Any:
    if not isinstance(value, tuple) or not value or isinstance(value[0], str):
        return value
    if isinstance(value[0], (int, float)):
        return value[0] + right, value[1] + down
    return tuple(_moved(part, right, down) for part in value)
