"""Words in a drawing: how wide they are, how they break, and where they stand so that none covers another."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sawside.figures.drawing import (
    LABEL_SIZE,
    LEADING,
    LEAST_SIZE,
    Arc,
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Label,
    Line,
    Point,
    Polygon,
    Polyline,
    Shape,
    Text,
)  # fmt: skip
from sawside.figures.lettering import width, wrap

#: Gap kept between two labels and between a label and the edge [mm].
CLEAR = 1.2


@dataclass(frozen=True)
class Note:
    """What a label is to say and what it names: words, a value (bold, on lines of its own), the point named [mm]."""

    words: str
    value: str
    target: Point | None = None


@dataclass(frozen=True)
class Box:
    """An upright box on paper [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    def covers(self, other: "Box") -> bool:
        """Whether two boxes share some area; touching edges do not count.

        >>> Box(0, 0, 2, 2).covers(Box(1, 1, 3, 3)), Box(0, 0, 2, 2).covers(Box(2, 0, 3, 3))
        (True, False)
        """
        # a millionth of a millimetre is the last bit of a sum, not an overlap
        wide = min(self.right, other.right) - max(self.left, other.left)
        tall = min(self.bottom, other.bottom) - max(self.top, other.top)
        return min(wide, tall) > 1e-6


def block(note: Note, room: float, size: float = LABEL_SIZE) -> tuple[tuple[str, ...], int]:
    """Return the lines of a note within `room` [mm] and how many of the last ones are the value."""
    value = wrap(note.value, room, size, strong=True)
    return wrap(note.words, room, size) + value, len(value)


def height(lines: Sequence[str], size: float = LABEL_SIZE) -> float:
    """Return the height of a block of lines [mm].

    >>> height(("one", "two"), 3.2)
    8.0
    """
    return len(lines) * size * LEADING


def column_height(notes: Iterable[Note], room: float, size: float = LABEL_SIZE) -> float:
    """Return the height a column of notes needs [mm]."""
    return sum(height(block(note, room, size)[0], size) + CLEAR for note in notes) + CLEAR


def column(
    notes: Iterable[Note], side: str, edge: float, room: float, top: float, bottom: float, size: float = LABEL_SIZE
) -> tuple[Label, ...]:
    """Return labels stacked in a column, each as near to the height of what it names as the others allow.

    `side` left: words end at x = `edge`, leaders run right; right: words begin at `edge`, leaders run left.
    Takes `edge`, `room` (width of the column), `top`, `bottom` [mm]. Holds when `column_height` fits between them.
    """
    wanted = sorted(((n, *block(n, room, size)) for n in notes), key=lambda entry: _height_of(entry[0], bottom))
    heights = [height(lines, size) for _, lines, _ in wanted]
    tops = _spread([_height_of(n, bottom) - h / 2 for (n, _, _), h in zip(wanted, heights)], heights, top, bottom)
    made = []
    for (note, lines, strong), y, tall in zip(wanted, tops, heights):
        made.append(
            Label(
                (edge, y), lines, _leader(note.target, side, edge, y + tall / 2), "end" if side == "left" else "start", size, strong
            )
        )
    return tuple(made)


def _height_of(note: Note, bottom: float) -> float:
    return note.target[1] if note.target else bottom


def _leader(target: Point | None, side: str, edge: float, middle: float) -> tuple[Point, ...]:
    if target is None:
        return ()
    away = 1 if side == "left" else -1
    return (edge + away * 0.8, middle), (edge + away * 3.0, middle), target


def _spread(wanted: list[float], heights: list[float], top: float, bottom: float) -> list[float]:
    """Return tops that keep the order and the gaps: pushed down from above, then up again from below."""
    tops, least = [], top + CLEAR
    for y, tall in zip(wanted, heights):
        tops.append(max(y, least))
        least = tops[-1] + tall + CLEAR
    most = bottom - CLEAR
    for i in reversed(range(len(tops))):
        tops[i] = min(tops[i], most - heights[i])
        most = tops[i] - CLEAR
    return tops


def thin_out(places: Sequence[tuple[float, str]], size: float, gap: float = 1.5) -> list[tuple[float, str]]:
    """Return the texts that can stand in a row centred on their places [mm] without touching, from the first on.

    >>> thin_out([(0.0, "10"), (2.0, "20"), (20.0, "30")], 3.0)
    [(0.0, '10'), (20.0, '30')]
    """
    kept: list[tuple[float, str]] = []
    for place, text in places:
        if not kept or place - width(text, size) / 2 > kept[-1][0] + width(kept[-1][1], size) / 2 + gap:
            kept.append((place, text))
    return kept


def box(shape: Text | Label) -> Box:
    """Return the box the words of a text or label may fill [mm]."""
    if isinstance(shape, Text):
        return _box(shape.at[0], shape.at[1] - shape.size * LEADING / 2, [(shape.text, shape.strong)], shape.size, shape.anchor)
    plain = len(shape.lines) - shape.strong
    return _box(shape.at[0], shape.at[1], [(line, i >= plain) for i, line in enumerate(shape.lines)], shape.size, shape.anchor)


def _box(x: float, top: float, lines: Sequence[tuple[str, bool]], size: float, anchor: str) -> Box:
    wide = max((width(line, size, strong) for line, strong in lines), default=0.0)
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return Box(left, top, left + wide, top + height([line for line, _ in lines], size))


def words(drawing: Drawing) -> tuple[Text | Label, ...]:
    """Return everything in a drawing that is read."""
    return tuple(shape for shape in drawing.shapes if isinstance(shape, (Text, Label)))


def overlaps(drawing: Drawing) -> list[str]:
    """Return what is wrong with the words of a drawing: covered, outside, too small, or struck through by a leader."""
    found = words(drawing)
    boxes = [(box(shape), _reads(shape)) for shape in found]
    page = Box(0.0, 0.0, drawing.width_mm, drawing.height_mm)
    wrong = [f"smaller than {LEAST_SIZE} mm: {_reads(shape)}" for shape in found if shape.size < LEAST_SIZE]
    for i, (one, text) in enumerate(boxes):
        if one.left < page.left or one.top < page.top or one.right > page.right or one.bottom > page.bottom:
            wrong.append(f"outside: {text}")
        wrong += [f"overlap: {text} / {other}" for two, other in boxes[i + 1 :] if one.covers(two)]
        wrong += [
            f"struck through: {text} by the leader of {_reads(label)}"
            for label in found
            if isinstance(label, Label) and _reads(label) != text and _crosses(label.leader, one)
        ]
    return wrong


def _reads(shape: Text | Label) -> str:
    return shape.text if isinstance(shape, Text) else " ".join(shape.lines)


def _crosses(run: Sequence[Point], area: Box) -> bool:
    """Whether a run of points enters a box, looked at every quarter millimetre near it."""
    for start, end in zip(run, run[1:]):
        if max(start[0], end[0]) <= area.left or min(start[0], end[0]) >= area.right:
            continue
        if max(start[1], end[1]) <= area.top or min(start[1], end[1]) >= area.bottom:
            continue
        count = max(1, math.ceil(math.dist(start, end) / 0.25))
        for i in range(count + 1):
            x, y = (a + (b - a) * i / count for a, b in zip(start, end))
            if area.left < x < area.right and area.top < y < area.bottom:
                return True
    return False


def struck(drawing: Drawing) -> list[str]:
    """Return the words that a line or an edge of the picture runs through."""
    runs = [run for shape in drawing.shapes for run in _runs(shape)]
    return [_reads(shape) for shape in words(drawing) if any(_crosses(run, box(shape)) for run in runs)]


def _runs(shape: Shape) -> list[tuple[Point, ...]]:
    """Return the lines a shape is seen by, as runs of points; hatching and leaders are looked at elsewhere."""
    match shape:
        case Polygon(points=points):
            return [(*points, points[0])]
        case Polyline(points=points) | Arrow(points=points):
            return [points]
        case Line(start=start, end=end):
            return [(start, end)]
        case Dimension(start=start, end=end, witness=witness):
            return [(start, end), *witness]
        case Circle(centre=centre, radius=radius):
            return [_round(Arc(centre, radius, 0.0, math.tau))]
        case Arc():
            return [_round(shape)]
    return []


def _round(arc: Arc) -> tuple[Point, ...]:
    return tuple(arc.at(arc.start + (arc.end - arc.start) * i / 48) for i in range(49))
