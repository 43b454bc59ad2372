"""The whole saw seen from where the operator stands: wheels, strands, table, guides and the distances to measure."""

import math
from dataclasses import dataclass

from sawside.families.wood_band_saw.figures.plate import LEFT, RIGHT, Frame, Show, compose
from sawside.figures.drawing import (
    BOLD,
    EMPTY,
    HATCH,
    HIDDEN,
    OUTLINE,
    SHADE,
    THIN,
    TINT,
    Arc,
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Line,
    Point,
    Polygon,
    Polyline,
    Shape,
    moved,
    rectangle,
)  # fmt: skip
from sawside.figures.labels import Note

TALLEST = 118.0
#: Where the cutting strand stands [mm]: to its right the table's rest and the dimensions of the guides must find room.
STRAND = RIGHT - 14.0
#: The blade lies this far outside the wheel's circle, so that both can be seen [mm].
OFF = 0.8
FOOT = (
    "Seen from where you stand. Wheels, centres and spans in proportion; the height of the table is not measured."
    " If the column of your saw is on the other side, read the picture in a mirror.",
)
#: The saw with its parts named stands in a column of a wall sheet: narrower and lower, the picture moved over to the left.
PARTS, PARTS_TALLEST, PARTS_LEFT, PARTS_OVER = Frame(100.0, 24.5, 75.5, 24.0), 88.0, 44.0, -19.5
#: Room above and below the table, as shares of the free strand, where nobody measured them.
USUAL_ROOM = 0.3, 0.06


@dataclass(frozen=True)
class _Saw:
    """Where things stand on paper [mm]: both wheels, the far ends of the free strand, guides, table and column."""

    upper: tuple[Point, float]
    lower: tuple[Point, float]
    far: tuple[Point, Point]
    guide: float
    table: float
    below: float
    face: float


def saw_elevation(
    wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float, loop_length: float,
    free_span: float, cutting_height_max: float, lower_guide_below_table: float, throat: float | None = None,
    *, show: Show,
) -> Drawing:  # fmt: skip
    """Return the saw seen from the front, all distances in one proportion, the cutting strand upright on the right.

    Takes every length in [m]. Holds when the centre distance is more than half the difference of the wheels.
    The height of the table is not measured: guides and table stand in the middle of the strand.
    """
    radii = wheel_diameter_upper / 2, wheel_diameter_lower / 2
    saw = _placed(radii, centre_distance, (cutting_height_max, lower_guide_below_table), throat)
    strand, centres, upper, lower, height, below, *rest = measures = _measures(saw, throat is not None)
    left = [
        Note("Free strand between the wheels: test the tension here", show(free_span, "blade_length"), strand.middle),
        Note("Wheel centres", show(centre_distance, "blade_length"), centres.middle),
        *(Note("Throat", show(throat, "work_size"), _along(measure, 0.2)) for measure in rest),
    ]
    (x, y), r = saw.upper[0], saw.upper[1] + OFF
    right = [
        Note("Largest height under the guides", show(cutting_height_max, "work_size"), height.middle),
        Note("Lower guides below table", show(lower_guide_below_table, "small_length"), below.middle),
        Note("Upper wheel", show(wheel_diameter_upper, "wheel_size"), _along(upper, 0.75)),
        Note("Lower wheel", show(wheel_diameter_lower, "wheel_size"), _along(lower, 0.75)),
        Note("Way round the wheels", show(loop_length, "blade_length"), (x + r * 0.6, y - r * 0.8)),
        Note("Cutting strand, runs down", "", (STRAND + 3.2, y + 5)),
    ]
    picture = [*_frame(saw), *_wheels(saw), *_band(saw), *_table(saw), *_guides(saw), *measures]
    says = "Front view of the saw, cutting strand on the right, free strand on the left"
    foot = saw.lower[0][1] + saw.lower[1] + 3
    return compose("saw_elevation", "Where to measure", says, picture, foot, left, right, FOOT)


def saw_parts(
    wheel_diameter_upper: float, wheel_diameter_lower: float, centre_distance: float, free_span: float,
    cutting_height_max: float | None = None, lower_guide_below_table: float | None = None, throat: float | None = None,
    *, show: Show,
) -> Drawing:  # fmt: skip
    """Return the saw seen from the front with each of its parts named once, narrow enough for a column of a sheet.

    Takes every length in [m]. Holds when the centre distance is more than half the difference of the wheels. Where the
    room above or below the table is not known, guides are drawn where they usually are.
    """
    radii = wheel_diameter_upper / 2, wheel_diameter_lower / 2
    room = cutting_height_max or USUAL_ROOM[0] * free_span, lower_guide_below_table or USUAL_ROOM[1] * free_span
    saw = _placed(radii, centre_distance, room, throat, PARTS_TALLEST, PARTS_LEFT)
    shapes = (*_frame(saw), *_wheels(saw), *_band(saw), *_table(saw), *_guides(saw))
    picture = [moved(shape, PARTS_OVER, 0.0) for shape in shapes]
    (ux, uy), (lx, ly), far = saw.upper[0], saw.lower[0], saw.far
    middle = (far[0][0] + far[1][0]) / 2, (far[0][1] + far[1][1]) / 2
    left = [
        ("Door", "", (ux - saw.upper[1] - 1.5, uy - saw.upper[1] * 0.7)),
        ("Upper wheel", "", (ux - saw.upper[1] * 0.5, uy - saw.upper[1] * 0.2)),
        ("Free strand: test half-way", show(free_span, "blade_length"), middle),
        ("Column", "", (saw.face - 1.5, saw.table + 0.5 * (ly - saw.table))),
        ("Lower wheel", "", (lx - saw.lower[1] * 0.5, ly + saw.lower[1] * 0.3)),
    ]
    right = [
        ("Cutting strand", "", (STRAND + OFF, uy + 4.0)),
        ("Guide post, guard", "", (STRAND - 3.4, min(saw.guide - 2.0, uy + saw.upper[1] * 0.8))),
        ("Upper guides", "", (STRAND + 2.6, saw.guide - 1.2)),
        ("Table", "", (STRAND + 9.0, saw.table + 1.1)),
        ("Lower guides", "", (STRAND + 2.6, saw.below + 1.2)),
    ]
    lefts, rights = ([Note(words, value, (x + PARTS_OVER, y)) for words, value, (x, y) in notes] for notes in (left, right))
    foot = saw.lower[0][1] + saw.lower[1] + 3
    says = "Front view of the saw with its parts named"
    return compose("saw_parts", "The parts of this saw", says, picture, foot, lefts, rights, (), PARTS)


def _placed(
    radii: tuple[float, float], centres: float, room: tuple[float, float], throat: float | None,
    tallest: float = TALLEST, left: float = LEFT,
) -> _Saw:  # fmt: skip
    """Return the saw on paper; takes radii, centre distance, the room above and below the table [m], the free paper [mm]."""
    span = math.sqrt(max(centres**2 - (radii[0] - radii[1]) ** 2, 0.0))
    scale = min((STRAND - left - 8) / (2 * max(radii)), tallest / (span + sum(radii)))
    (r1, r2), s, (above, below) = (scale * r for r in radii), scale * span, (scale * length for length in room)
    upper, lower = ((STRAND - r1, r1 + 3), r1), ((STRAND - r2, r1 + 3 + s), r2)
    far = tuple(_mirrored((STRAND, centre[1]), upper[0], lower[0]) for centre, _ in (upper, lower))
    table = upper[0][1] + (s - above - below) / 2 + above
    face = STRAND - throat * scale if throat else min(x for x, _ in far) + 3.0
    return _Saw(upper, lower, (far[0], far[1]), table - above, table, table + below, face)


def _mirrored(point: Point, start: Point, end: Point) -> Point:
    """Return a point mirrored in the line through two others: where the other strand leaves the wheel."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / (dx * dx + dy * dy)
    foot = (start[0] + share * dx, start[1] + share * dy)
    return 2 * foot[0] - point[0], 2 * foot[1] - point[1]


def _along(measure: Dimension, share: float) -> Point:
    (a, b), (x, y) = measure.start, measure.end
    return a + share * (x - a), b + share * (y - b)


def _wheels(saw: _Saw) -> list[Shape]:
    """Return both wheels with rim, hub and six spokes."""
    shapes: list[Shape] = []
    for centre, radius in (saw.upper, saw.lower):
        rim, hub = Arc(centre, radius * 0.9, 0, 0), Arc(centre, radius * 0.12, 0, 0)
        turns = [math.pi / 6 + i * math.pi / 3 for i in range(6)]
        shapes += [Circle(centre, radius), Circle(centre, rim.radius, THIN), Circle(centre, hub.radius, OUTLINE, SHADE)]
        shapes += [Line(hub.at(turn), rim.at(turn), THIN) for turn in turns]
    return shapes


def _band(saw: _Saw) -> list[Shape]:
    """Return the blade as one closed run, a little outside the wheels, with the way it runs."""
    (cu, r1), (cl, r2) = saw.upper, saw.lower
    turn = math.atan2(saw.far[0][1] - cu[1], saw.far[0][0] - cu[0])
    turn = turn if turn < 0 else turn - math.tau
    up = [Arc(cu, r1 + OFF, 0, 0).at(turn * i / 60) for i in range(61)]
    down = [Arc(cl, r2 + OFF, 0, 0).at(turn - (math.tau + turn) * i / 60) for i in range(61)]
    running = Arrow(((STRAND + 3.2, cu[1] + 1), (STRAND + 3.2, cu[1] + 9)), head=2.6)
    return [Polyline((*up, *down, up[0]), BOLD), running]


def _frame(saw: _Saw) -> list[Shape]:
    """Return the wheel covers and the column, dashed, because they hide what is drawn."""
    ((ux, uy), r1), ((lx, ly), r2) = saw.upper, saw.lower
    top, foot = uy + r1 * 0.45, ly - r2 * 0.45
    back = min(*(x for x, _ in saw.far), saw.face) - 2.5
    return [
        Polygon(rectangle(back, top, saw.face, foot), HIDDEN, TINT),
        Polygon(rectangle(ux - r1 - 2.5, uy - r1 - 2.5, ux + r1 + 2.5, top), HIDDEN, EMPTY),
        Polygon(rectangle(lx - r2 - 2.5, foot, lx + r2 + 2.5, ly + r2 + 2.5), HIDDEN, EMPTY),
    ]


def _table(saw: _Saw) -> list[Shape]:
    y, thick = saw.table, 2.2
    return [
        Polygon(rectangle(min(saw.face + 0.8, STRAND - 4), y, STRAND - 0.9, y + thick), OUTLINE, HATCH),
        Polygon(rectangle(STRAND + 2.4, y, STRAND + 13, y + thick), OUTLINE, HATCH),
    ]


def _guides(saw: _Saw) -> list[Shape]:
    """Return the upper guides on their post and the lower guides, one block left and right of the strand."""
    x, shapes = STRAND + OFF, []
    for y, away in ((saw.guide, -2.4), (saw.below, 2.4)):
        for a, b in ((-2.6, -0.7), (0.7, 2.6)):
            shapes.append(Polygon(rectangle(x + a, min(y, y + away), x + b, max(y, y + away)), OUTLINE, SHADE))
    top = min(saw.upper[0][1] + saw.upper[1] * 0.45, saw.guide - 5)
    post = rectangle(x - 5.2, top, x - 3.4, saw.guide - 0.4)
    return [*shapes, Polygon(post, OUTLINE, TINT), Line((x - 3.4, saw.guide - 1.2), (x - 2.6, saw.guide - 1.2))]


def _measures(saw: _Saw, throat: bool) -> list[Dimension]:
    """Return the dimensions: free strand, centres, upper and lower wheel, height, lower guides, throat where known."""
    cu, cl = saw.upper[0], saw.lower[0]
    (ax, ay), (bx, by) = saw.far
    size = math.dist(*saw.far)
    away = [(x - 5.0 * (by - ay) / size, y + 5.0 * (bx - ax) / size) for x, y in saw.far]
    x, near = STRAND + 9.0, STRAND + 4.0
    found = [
        Dimension(away[0], away[1], ((saw.far[0], away[0]), (saw.far[1], away[1]))),
        Dimension(cu, cl),
        *(Dimension((c[0] - r, c[1]), (c[0] + r, c[1])) for c, r in (saw.upper, saw.lower)),
        Dimension((x, saw.guide), (x, saw.table), (((near, saw.guide), (x + 1, saw.guide)),)),
        Dimension((x, saw.table), (x, saw.below), (((near, saw.below), (x + 1, saw.below)),)),
    ]
    return [*found, Dimension((saw.face, saw.table - 3), (STRAND, saw.table - 3))] if throat else found
