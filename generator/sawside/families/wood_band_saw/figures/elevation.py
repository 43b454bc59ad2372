"""The whole saw seen from where the operator stands: wheels, strands, table, guides and the distances to measure."""

import math

from sawside.families.wood_band_saw.figures.plate import LEFT, RIGHT, Note, Show, compose, listed
from sawside.figures.drawing import (
    BOLD, EMPTY, HATCH, HIDDEN, OUTLINE, SHADE, THIN, TINT, Arc, Arrow, Circle, Dimension, Drawing, Line, Point, Polygon,
    Polyline, Shape, rectangle,
)  # fmt: skip

TALLEST = 118.0
#: Where the cutting strand stands [mm]: to its right the table's rest and the dimensions of the guides must find room.
STRAND = RIGHT - 14.0
#: The blade lies this far outside the wheel's circle, so that both can be seen [mm].
OFF = 0.8


def saw_elevation(wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float, loop_length: float,
                  free_span: float, cutting_height_max: float, lower_guide_below_table: float,
                  throat: float | None = None, *, show: Show) -> Drawing:
    """Return the saw seen from the front, all distances in one proportion, the cutting strand upright on the right.

    Takes every length in [m]. Holds when the centre distance is more than half the difference of the wheels.
    The height of the table is not measured: guides and table stand in the middle of the strand.
    """
    upper, lower = wheel_diameter_upper / 2, wheel_diameter_lower / 2
    span = math.sqrt(max(centre_distance**2 - (upper - lower) ** 2, 0.0))
    scale = min((STRAND - LEFT - 8) / (2 * max(upper, lower)), TALLEST / (span + upper + lower))
    r1, r2, s, right = upper * scale, lower * scale, span * scale, STRAND
    wheels = ((right - r1, r1 + 3), r1), ((right - r2, r1 + 3 + s), r2)
    (cu, _), (cl, _) = wheels
    far = tuple(_mirrored((right, y), cu, cl) for y in (cu[1], cl[1]))
    table = _table_height(cu[1], s, cutting_height_max * scale, lower_guide_below_table * scale)
    guide, below = table - cutting_height_max * scale, table + lower_guide_below_table * scale
    face = right - throat * scale if throat else min(far[0][0], far[1][0]) + 3.0
    picture: list[Shape] = [*_frame(wheels, face, far), *_wheels(wheels), *_band(wheels, right, far, table)]
    picture += [*_table(right, face, table), *_guides(right, guide, below, cu[1] + r1 * 0.45)]
    measures = _measures(wheels, right, far, (guide, table, below), face if throat else None)
    picture += measures
    spans, words = measures[0], "Free strand between the wheels: test the tension here"
    left = [Note(words, show(free_span, "blade_length"), spans.middle),
            Note("Wheel centres", show(centre_distance, "blade_length"), measures[1].middle)]
    if throat:
        left.append(Note("Throat", show(throat, "work_size"), _along(measures[6], 0.2)))
    kinds = [("Largest height under the guides", cutting_height_max, "work_size", measures[4].middle),
             ("Lower guides below table", lower_guide_below_table, "small_length", measures[5].middle),
             ("Upper wheel", wheel_diameter_upper, "wheel_size", _along(measures[2], 0.75)),
             ("Lower wheel", wheel_diameter_lower, "wheel_size", _along(measures[3], 0.75)),
             ("Way round the wheels", loop_length, "blade_length", (cu[0] + (r1 + OFF) * 0.6, cu[1] - (r1 + OFF) * 0.8))]
    notes = [Note(words, show(value, kind), target) for words, value, kind, target in kinds]
    notes.append(Note("Cutting strand, runs down", "", (right + 3.2, cu[1] + 5)))
    alt = "Front view of the saw, cutting strand on the right, free strand on the left: " + listed(left, notes)
    foot = ("Seen from where you stand. Wheels, centres and spans in proportion; the height of the table is not measured."
            " If the column of your saw is on the other side, read the picture in a mirror.",)
    return compose("saw_elevation", "Where to measure", alt, picture, cl[1] + r2 + 3, left, notes, foot)


def _mirrored(point: Point, start: Point, end: Point) -> Point:
    """Return a point mirrored in the line through two others: where the other strand leaves the wheel."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / (dx * dx + dy * dy)
    foot = (start[0] + share * dx, start[1] + share * dy)
    return 2 * foot[0] - point[0], 2 * foot[1] - point[1]


def _table_height(top: float, span: float, room: float, below: float) -> float:
    return top + (span - room - below) / 2 + room


def _along(measure: Dimension, share: float) -> Point:
    (a, b), (x, y) = measure.start, measure.end
    return a + share * (x - a), b + share * (y - b)


def _wheels(wheels) -> list[Shape]:
    shapes: list[Shape] = []
    for centre, radius in wheels:
        shapes += [Circle(centre, radius), Circle(centre, radius * 0.9, THIN), Circle(centre, radius * 0.12, OUTLINE, SHADE)]
        for i in range(6):
            spoke = Arc(centre, radius * 0.9, 0, 0).at(math.pi / 6 + i * math.pi / 3)
            hub = Arc(centre, radius * 0.12, 0, 0).at(math.pi / 6 + i * math.pi / 3)
            shapes.append(Line(hub, spoke, THIN))
    return shapes


def _band(wheels, right: float, far: tuple[Point, Point], table: float) -> list[Shape]:
    """Return the blade as one closed run, a little outside the wheels, with the way it runs."""
    (cu, r1), (cl, r2) = wheels
    turn = math.atan2(far[0][1] - cu[1], far[0][0] - cu[0])
    turn = turn if turn < 0 else turn - math.tau
    up = [Arc(cu, r1 + OFF, 0, 0).at(turn * i / 60) for i in range(61)]
    down = [Arc(cl, r2 + OFF, 0, 0).at(turn - (math.tau + turn) * i / 60) for i in range(61)]
    return [Polyline((*up, *down, up[0]), BOLD),
            Arrow(((right + 3.2, cu[1] + 1), (right + 3.2, cu[1] + 9)), head=2.6)]


def _frame(wheels, face: float, far) -> list[Shape]:
    """Return the closed wheel covers and the column, dashed, because they hide what is drawn."""
    (cu, r1), (cl, r2) = wheels
    back = min(far[0][0], far[1][0], face) - 2.5
    cover = [rectangle(c[0] - r - 2.5, c[1] - r - 2.5, c[0] + r + 2.5, c[1] + r * 0.45) for c, r in wheels[:1]]
    cover += [rectangle(cl[0] - r2 - 2.5, cl[1] - r2 * 0.45, cl[0] + r2 + 2.5, cl[1] + r2 + 2.5)]
    column = rectangle(back, cu[1] + r1 * 0.45, face, cl[1] - r2 * 0.45)
    return [Polygon(column, HIDDEN, TINT), *(Polygon(c, HIDDEN, EMPTY) for c in cover)]


def _table(right: float, face: float, table: float) -> list[Shape]:
    thick = 2.2
    left_part = rectangle(min(face + 0.8, right - 4), table, right - 0.9, table + thick)
    right_part = rectangle(right + 2.4, table, right + 13, table + thick)
    return [Polygon(left_part, OUTLINE, HATCH), Polygon(right_part, OUTLINE, HATCH)]


def _guides(right: float, guide: float, below: float, top: float) -> list[Shape]:
    """Return the upper guides on their post and the lower guides, one block left and right of the strand."""
    x = right + OFF
    shapes: list[Shape] = []
    for y, away in ((guide, -1), (below, 1)):
        for side in (-1, 1):
            a, b = sorted((x + side * 0.7, x + side * 2.6))
            shapes.append(Polygon(rectangle(a, min(y, y + away * 2.4), b, max(y, y + away * 2.4)), OUTLINE, SHADE))
    post = rectangle(x - 5.2, min(top, guide - 5), x - 3.4, guide - 0.4)
    return [*shapes, Polygon(post, OUTLINE, TINT), Line((x - 3.4, guide - 1.2), (x - 2.6, guide - 1.2))]


def _measures(wheels, right: float, far, heights, face: float | None) -> list[Dimension]:
    """Return the dimensions: free strand, centres, upper and lower wheel, height, lower guides, throat where known."""
    (cu, r1), (cl, r2) = wheels
    guide, table, below = heights
    nx, ny = (far[1][1] - far[0][1]), -(far[1][0] - far[0][0])
    size = math.hypot(nx, ny) or 1.0
    shift = [(p[0] - 5.0 * nx / size, p[1] - 5.0 * ny / size) for p in far]
    x = right + 9.0
    found = [
        Dimension(shift[0], shift[1], tuple((p, q) for p, q in zip(far, shift))),
        Dimension(cu, cl),
        Dimension((cu[0] - r1, cu[1]), (cu[0] + r1, cu[1])),
        Dimension((cl[0] - r2, cl[1]), (cl[0] + r2, cl[1])),
        Dimension((x, guide), (x, table), (((right + 4, guide), (x + 1, guide)),)),
        Dimension((x, table), (x, below), (((right + 4, below), (x + 1, below)),)),
    ]
    if face is not None:
        found.append(Dimension((face, table - 3), (right + OFF, table - 3)))
    return found

