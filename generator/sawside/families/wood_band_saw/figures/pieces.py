"""The test piece with its four measuring corners, and the cut that shows the error twice."""

import math

from sawside.families.wood_band_saw.figures.plate import MIDDLE, Show, centred, compose
from sawside.figures.drawing import (
    OUTLINE,
    SHADE,
    THIN,
    TINT,
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Line,
    Point,
    Polygon,
    Shape,
)  # fmt: skip
from sawside.figures.labels import Note

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
            tuple((second + 5 * math.cos(a), top - 3.5 + 1.6 * math.sin(a)) for a in (0.3 + i * 0.24 for i in range(23))), THIN, 2.0
        ),
        Polygon(((third - 5 - lean, top), (third + 5 + lean, top), (third + 5, foot), (third - 5, foot)), OUTLINE, TINT),
        Dimension((third - 5 - lean, top - 2.5), (third + 5 + lean, top - 2.5)),
        Dimension((third - 5, foot + 2.5), (third + 5, foot + 2.5)),
        *(Line((x - 8.5, foot + 0.6), (x + 9.5, foot + 0.6), THIN) for x in (first, second, third)),
    ]
    return shapes + [centred(x, top + 6.0, str(i), strong=True) for i, x in enumerate((first, second, third), 1)]
