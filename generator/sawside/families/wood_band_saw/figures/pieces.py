"""Things held in the hand: the test piece with its four measuring corners, and the blade folded into three loops."""

import math

from sawside.families.wood_band_saw.figures.plate import MIDDLE, Cell, Note, Show, centred, compose, listed, row
from sawside.figures.drawing import (
    CENTRE, HATCH, OUTLINE, SHADE, THIN, TINT, Arc, Arrow, Circle, Dimension, Drawing, Line, Point, Polygon, Polyline, Shape,
)  # fmt: skip

#: The drawn piece: along the feed, up, and through its thickness [mm of paper].
LONG, TALL, THICK = 34.0, 22.0, 7.0
CORNERS = {"FT": (0, 1), "FB": (0, 0), "BT": (1, 1), "BB": (1, 0)}


def test_piece(cutting_height_max: float, square_tolerance: float | None = None, caliper_doubt: float | None = None,
               *, show: Show) -> Drawing:
    """Return a cut piece with the four corners where its thickness is measured, and the cut that shows the error twice.

    Takes cutting_height_max [m], square_tolerance [rad], caliper_doubt [m]. Not to scale, the tilt drawn larger than life.
    """
    picture = [*_block(), *_corner_marks(), *_turned_cut()]
    left = [Note("Front, towards you: top and bottom", "FT, FB", _iso(0.0, 0.0, 0.55)),
            Note("1 Cut a strip off", "", (MIDDLE - 24.0, 58.0)), Note("2 Turn it over, bottom up, same face to the fence", "", (MIDDLE - 4.0, 64.0))]
    right = [Note("Back, away from you: top and bottom", "BT, BB", _iso(1.0, 0.0, 0.45)),
             Note("3 Cut again: top minus bottom is twice the error", "", (MIDDLE + 20.0, 58.0))]
    if square_tolerance is not None:
        right.append(Note("Square within", show(square_tolerance, "angle")))
    if caliper_doubt is not None:
        right.append(Note("One caliper reading is good to", show(caliper_doubt, "gap")))
    alt = "A test piece with its thickness measured at four corners, front top, front bottom, back top and back bottom: " + listed(
        [f"{n.words[0].lower()}{n.words[1:]} {n.value}".strip() for n in (*left, *right)]
        + [f"the piece may be up to {show(cutting_height_max, 'work_size')} tall"])
    foot = (f"A tall piece shows more: up to {show(cutting_height_max, 'work_size')} goes under the guides. Measure at the same"
            " distance from each edge, every corner more than once. Tilt drawn larger than life.",)
    return compose("test_piece", "Test piece", alt, picture, 78.0, left, right, foot)


def _iso(along: float, through: float, up: float) -> Point:
    """Return where a point of the piece stands on paper; shares of its length, thickness and height, front left below."""
    x = MIDDLE - 15.0 + along * LONG * 0.78 + through * THICK * 0.9
    y = 42.0 - along * LONG * 0.36 + through * THICK * 0.45 - up * TALL
    return x, y


def _block() -> list[Shape]:
    """Return the piece standing on edge, its cut face hatched."""
    cut = (_iso(0, 1, 0), _iso(1, 1, 0), _iso(1, 1, 1), _iso(0, 1, 1))
    end = (_iso(0, 0, 0), _iso(0, 1, 0), _iso(0, 1, 1), _iso(0, 0, 1))
    top = (_iso(0, 0, 1), _iso(0, 1, 1), _iso(1, 1, 1), _iso(1, 0, 1))
    feed = (_iso(-0.62, 0.5, 0), _iso(-0.22, 0.5, 0))
    return [Polygon(cut, OUTLINE, HATCH), Polygon(end, OUTLINE, TINT), Polygon(top, OUTLINE, TINT), Arrow(feed)]


def _corner_marks() -> list[Shape]:
    """Return the measuring spots, one caliper's width in from each edge, and their letters on the cut face."""
    shapes: list[Shape] = []
    for name, (along, up) in CORNERS.items():
        spot = _iso(0.1 + 0.8 * along, 1, 0.12 + 0.76 * up)
        shapes.append(Circle(spot, 0.9, OUTLINE, SHADE))
        beside = _iso(0.27 + 0.46 * along, 1, 0.16 + 0.68 * up)
        # letters stand on a light ground, or the hatching runs through them
        shapes += [centred(beside[0], beside[1], name, strong=True)]
    return shapes


def _turned_cut() -> list[Shape]:
    """Return three end views: the first cut, the strip turned bottom up, the second cut."""
    top, foot, lean = 50.0, 68.0, 2.2
    shapes: list[Shape] = []
    x = MIDDLE - 24.0
    shapes += [Polygon(((x - 6, top), (x + 2 + lean, top), (x + 2, foot), (x - 6, foot)), OUTLINE, TINT),
               Line((x + 3.2 + lean, top - 2), (x + 2.4, foot + 2), CENTRE)]
    x = MIDDLE - 2.0
    shapes += [Polygon(((x - 6, top), (x + 2, top), (x + 2 + lean, foot), (x - 6, foot)), OUTLINE, TINT),
               Arrow(_arc_points((x - 1.5, (top + foot) / 2), 5.0, -2.4, 2.0), head=2.4)]
    x = MIDDLE + 20.0
    shapes += [Polygon(((x - 4, top), (x + 2 - lean, top), (x + 2 + lean, foot), (x - 4 , foot)), OUTLINE, TINT),
               Dimension((x - 4, top - 2.5), (x + 2 - lean, top - 2.5)), Dimension((x - 4, foot + 2.5), (x + 2 + lean, foot + 2.5))]
    for number, x in enumerate((MIDDLE - 26.0, MIDDLE - 4.0, MIDDLE + 18.5), 1):
        shapes.append(centred(x, foot + 7.5, str(number), strong=True))
    return shapes


def _arc_points(centre: Point, radius: float, start: float, end: float) -> tuple[Point, ...]:
    arc = Arc(centre, radius, start, end)
    return tuple(arc.at(start + (end - start) * i / 20) for i in range(21))


def coiling(blade_length: float, coil_diameter: float, coil_verdict: str | None = None, *, show: Show) -> Drawing:
    """Return three steps of folding a blade into three loops, or how to hang one that must not be folded.

    Takes blade_length, coil_diameter [m]. The curves are z = (1 - q) e^(it) + q e^(3it): one turn at q = 0, three at q = 1.
    """
    if coil_verdict == "hang_open":
        return _hung(blade_length, coil_diameter, show)
    size = show(coil_diameter, "work_size")
    cells = (Cell(_loop(0.0, 15.0), Note("1 Foot on the loop, teeth away from you, hands at the sides", "")),
             Cell(_loop(0.55, 15.0), Note("2 Turn both hands the same way, let the top come down", "")),
             Cell(_rings(11.0), Note("3 Three loops lie together; tie them in two places", size)))
    alt = f"Folding a blade of {show(blade_length, 'blade_length')} in three steps: " + listed(
        f"{c.note.words} {c.note.value}".strip() for c in cells)
    foot = (f"A loop of {show(blade_length, 'blade_length')} becomes a coil {size} across. Wear gloves and eye protection; the"
            " blade can spring open. Practise with somebody who can.",)
    return row("coiling", "Folding the blade", alt, cells, foot)


def _hung(blade_length: float, coil_diameter: float, show: Show) -> Drawing:
    """Return the open loop on two pegs: a blade too thick for its length would stay bent in a coil."""
    points = tuple((17.0 * math.cos(i * math.tau / 60), 15.0 * math.sin(i * math.tau / 60)) for i in range(61))
    pegs = tuple(Circle((x, -11.2), 1.6, OUTLINE, SHADE) for x in (-7.0, 7.0))
    size = show(coil_diameter, "work_size")
    cells = (Cell((Polyline(points), *pegs), Note("Hang this blade open on two pegs, teeth covered", show(blade_length, "blade_length"))),
             Cell((*_rings(11.0), Line((-14, -14), (14, 14), OUTLINE), Line((-14, 14), (14, -14), OUTLINE)),
                  Note("Do not fold it in three: it would stay bent", size)))
    alt = (f"A blade of {show(blade_length, 'blade_length')} hangs open on two pegs. Do not fold it: a coil of {size} would bend it"
           " for good.")
    foot = ("Wear gloves and eye protection when you carry it; get a second person for a long one.",)
    return row("coiling", "Storing the blade", alt, cells, foot)


def _loop(share: float, radius: float) -> tuple[Shape, ...]:
    """Return the band between one turn (share 0) and three (share 1), with arrows where the hands turn it."""
    points = []
    for i in range(145):
        t = i * math.tau / 144
        points.append((radius * ((1 - share) * math.cos(t) + share * math.cos(3 * t)),
                       radius * ((1 - share) * math.sin(t) + share * math.sin(3 * t))))
    turns = tuple(Arrow(_arc_points((side * (radius + 0.5), 0), 3.0, 2.2 * side, -2.2 * side), THIN, 2.0) for side in (-1, 1))
    return (Polyline(tuple(points)), *turns)


def _rings(radius: float) -> tuple[Shape, ...]:
    """Return three loops that belong to one closed band, a little apart so that they can be counted, and their diameter."""
    points = []
    for i in range(217):
        t = i * 3 * math.tau / 216
        r = radius + 0.9 * math.cos(t / 3) * 1.4
        points.append((r * math.cos(t), r * math.sin(t)))
    measure = Dimension((-radius, radius + 4), (radius, radius + 4), (((-radius, 3), (-radius, radius + 5)), ((radius, 3), (radius, radius + 5))))
    return Polyline(tuple(points)), measure


