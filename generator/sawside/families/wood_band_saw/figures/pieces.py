"""Things held in the hand: the test piece with its four measuring corners, and the blade folded into three loops."""

import math

from sawside.families.wood_band_saw.figures.plate import MIDDLE, Cell, Note, Show, centred, compose, listed, row
from sawside.figures.drawing import (
    OUTLINE, SHADE, THIN, TINT, Arc, Arrow, Circle, Dimension, Drawing, Line, Point, Polygon, Polyline, Shape,
)  # fmt: skip

#: The drawn piece: along the feed, up, and through its thickness [mm of paper].
LONG, TALL, THICK = 40.0, 29.0, 7.0
#: Each corner: along the feed (front, the end cut first, is the far one), and up.
CORNERS = {"FT": (1, 1), "FB": (1, 0), "BT": (0, 1), "BB": (0, 0)}


def test_piece(
    cutting_height_max: float, square_tolerance: float | None = None, caliper_doubt: float | None = None, *, show: Show
) -> Drawing:
    """Return a cut piece with the four corners where its thickness is measured, and the cut that shows the error twice.

    Takes cutting_height_max [m], square_tolerance [rad], caliper_doubt [m]. Not to scale, the tilt is
    drawn larger than life.
    """
    picture = [*_block(), *_corner_marks(), *_turned_cut()]
    left = [
        Note("Back, cut last: top and bottom", "BT, BB", _iso(0.0, 0.0, 0.55)),
        Note("1 Cut a thin slice off", "", (MIDDLE - 25.0, 78.0)),
        Note("2 Turn end for end, same face down", "", (MIDDLE - 3.0, 79.0)),
    ]
    right = [
        Note("Front, cut first: top and bottom", "FT, FB", _iso(1.0, 1.0, 0.4)),
        Note("3 Cut the other side: top minus bottom shows the table's error twice", "", (MIDDLE + 23.0, 76.0)),
    ]
    if square_tolerance is not None:
        right.append(Note("Square within", show(square_tolerance, "angle")))
    if caliper_doubt is not None:
        right.append(Note("One caliper reading is good to", show(caliper_doubt, "gap")))
    tallest = show(cutting_height_max, "work_size")
    says = "A test piece with its thickness measured at four corners, front (cut first) and back, top and bottom"
    foot = (
        f"A taller piece shows a smaller tilt; at most {tallest} goes under the guides. Measure at the same distance"
        " from each edge, every corner more than once. Tilt drawn larger than life."
    )
    return compose("test_piece", "Test piece", f"{says}, at most {tallest} tall", picture, 88.0, left, right, (foot,))


def _iso(along: float, through: float, up: float) -> Point:
    """Return where a point of the piece stands on paper; shares of length, thickness and height from the near foot."""
    x = MIDDLE - 15.0 + along * LONG * 0.78 + through * THICK * 0.9
    y = 50.0 - along * LONG * 0.36 + through * THICK * 0.45 - up * TALL
    return x, y


def _block() -> list[Shape]:
    """Return the piece standing on edge, its cut face bare, the way it was fed."""
    cut = (_iso(0, 1, 0), _iso(1, 1, 0), _iso(1, 1, 1), _iso(0, 1, 1))
    end = (_iso(0, 0, 0), _iso(0, 1, 0), _iso(0, 1, 1), _iso(0, 0, 1))
    top = (_iso(0, 0, 1), _iso(0, 1, 1), _iso(1, 1, 1), _iso(1, 0, 1))
    feed = (_iso(-0.62, 0.5, 0), _iso(-0.22, 0.5, 0))
    return [Polygon(cut, OUTLINE), Polygon(end, OUTLINE, TINT), Polygon(top, OUTLINE, TINT), Arrow(feed)]


def _corner_marks() -> list[Shape]:
    """Return the measuring spots, one caliper's width in from each edge, and their letters on the cut face."""
    shapes: list[Shape] = []
    for name, (along, up) in CORNERS.items():
        spot = _iso(0.1 + 0.8 * along, 1, 0.12 + 0.76 * up)
        shapes.append(Circle(spot, 0.9, OUTLINE, SHADE))
        beside = _iso(0.27 + 0.46 * along, 1, 0.16 + 0.68 * up)
        shapes += [centred(beside[0], beside[1], name, strong=True)]
    return shapes


def _turned_cut() -> list[Shape]:
    """Return three end views: the first cut, the piece turned end for end, the cut on the other side."""
    top, foot, lean = 62.0, 82.0, 2.2
    first, second, third = MIDDLE - 23.0, MIDDLE - 1.0, MIDDLE + 21.0
    shapes: list[Shape] = [
        Polygon(((first - 6, top), (first + 4 + lean, top), (first + 4, foot), (first - 6, foot)), OUTLINE, TINT),
        Polygon(((first + 5.4 + lean, top), (first + 7 + lean, top), (first + 7, foot), (first + 5.4, foot)), THIN),
        Polygon(((second - 4 - lean, top), (second + 6, top), (second + 6, foot), (second - 4, foot)), OUTLINE, TINT),
        Arrow(
            tuple(
                (second + 5 * math.cos(a), top - 3.5 + 1.6 * math.sin(a)) for a in (0.3 + i * 0.24 for i in range(23))
            ),
            THIN,
            2.0,
        ),
        Polygon(
            ((third - 5 - lean, top), (third + 5 + lean, top), (third + 5, foot), (third - 5, foot)), OUTLINE, TINT
        ),
        Dimension((third - 5 - lean, top - 2.5), (third + 5 + lean, top - 2.5)),
        Dimension((third - 5, foot + 2.5), (third + 5, foot + 2.5)),
        *(Line((x - 8.5, foot + 0.6), (x + 9.5, foot + 0.6), THIN) for x in (first, second, third)),
    ]
    return shapes + [centred(x, top + 6.0, str(i), strong=True) for i, x in enumerate((first, second, third), 1)]


def _arc_points(centre: Point, radius: float, start: float, end: float) -> tuple[Point, ...]:
    arc = Arc(centre, radius, start, end)
    return tuple(arc.at(start + (end - start) * i / 20) for i in range(21))


def coiling(blade_length: float, coil_diameter: float, coil_verdict: str | None = None, *, show: Show) -> Drawing:
    """Return three steps of folding a blade into three loops, or how to hang one that must not, or may not, be folded.

    Takes blade_length, coil_diameter [m]. The curves: z = (1 - q) e^(it) + q e^(3it), one turn at q = 0, three at 1.
    Source: common practice, no source, for how it is held and turned.
    """
    if coil_verdict != "three_loops":
        return _hung(blade_length, coil_diameter, coil_verdict is not None, show)
    size = show(coil_diameter, "work_size")
    cells = (
        Cell(_loop(0.0, 15.0), Note("1 Teeth away from you, grip both sides, thumbs up", "")),
        Cell(_loop(0.55, 15.0), Note("2 Turn both wrists: the top tips away and down", "")),
        Cell(_rings(11.0), Note("3 Let the hands cross; tie the three loops in three places", size)),
    )
    alt = f"Folding a blade of {show(blade_length, 'blade_length')} in three steps: " + listed([c.note for c in cells])
    foot = (
        f"A loop of {show(blade_length, 'blade_length')} becomes a coil {size} across. Wear gloves and eye protection;"
        " the blade can spring open. Let somebody show you once.",
    )
    return row("coiling", "Folding the blade", alt, cells, foot)


def _hung(blade_length: float, coil_diameter: float, known: bool, show: Show) -> Drawing:
    """Return the open loop on two pegs, and the coil it must not be folded to, or may not be for all that is known."""
    loop = tuple((17.0 * math.cos(i * math.tau / 60), 15.0 * math.sin(i * math.tau / 60)) for i in range(61))
    pegs = tuple(Circle((x, -11.2), 1.6, OUTLINE, SHADE) for x in (-7.0, 7.0))
    crossed = Line((-14, -14), (14, 14)), Line((-14, 14), (14, -14))
    length, size = show(blade_length, "blade_length"), show(coil_diameter, "work_size")
    why = "it would stay bent" if known else "it is not known whether it would stay bent"
    cells = (
        Cell((Polyline(loop), *pegs), Note("Hang this blade open on two pegs, teeth covered", length)),
        Cell((*_rings(11.0), *crossed), Note(f"Do not fold it in three: {why}", size)),
    )
    alt = f"A blade of {length} hangs open on two pegs. Do not fold it to a coil of {size}: {why}."
    foot = "Wear gloves and eye protection when you carry it; get a second person for a long one."
    return row("coiling", "Storing the blade", alt, cells, (foot,))


def _loop(share: float, radius: float) -> tuple[Shape, ...]:
    """Return the band between one turn (share 0) and three (share 1), with arrows where the hands turn it."""
    points = []
    for i in range(145):
        t = i * math.tau / 144
        points.append(
            (
                radius * ((1 - share) * math.cos(t) + share * math.cos(3 * t)),
                radius * ((1 - share) * math.sin(t) + share * math.sin(3 * t)),
            )
        )
    turns = tuple(
        Arrow(_arc_points((side * (radius + 3.2), 0), 2.2, 2.6 * side, -2.6 * side), THIN, 2.0) for side in (-1, 1)
    )
    return (Polyline(tuple(points)), *turns)


def _rings(radius: float) -> tuple[Shape, ...]:
    """Return the three loops of one closed band, a little apart so that they can be counted, and their diameter."""
    points = []
    for i in range(217):
        t = i * 3 * math.tau / 216
        r = radius + 0.9 * math.cos(t / 3) * 1.4
        points.append((r * math.cos(t), r * math.sin(t)))
    measure = Dimension(
        (-radius, radius + 4),
        (radius, radius + 4),
        (((-radius, 3), (-radius, radius + 5)), ((radius, 3), (radius, radius + 5))),
    )
    return Polyline(tuple(points)), measure
