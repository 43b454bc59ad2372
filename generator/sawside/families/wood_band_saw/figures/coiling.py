"""How a blade is folded for the rack, in the hands or with a foot on the floor, or how one is hung that must not be folded.

Three loops is the smallest number into which an untwisted loop can fold and lie flat.
"""

import math
from dataclasses import replace

from sawside.families.wood_band_saw.figures.plate import Cell, Show, listed, row, rows
from sawside.figures.drawing import (
    OUTLINE,
    SHADE,
    SOLID,
    THIN,
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
)  # fmt: skip
from sawside.figures.labels import Note
from sawside.figures.limbs import hand

#: Half the height kept for each picture [mm].
HALF = 15.0
#: How far the far edge of the band, with its teeth, stands behind the near one on paper [mm].
BEHIND = (1.5, -1.5)
RADIUS = 11.0


def coiling(blade_length: float, coil_diameter: float, coil_verdict: str | None = None, *, show: Show) -> Drawing:
    """Return two ways of folding a blade into three loops, each in three steps, or how to hang one that may not be folded.

    Takes blade_length, coil_diameter [m]. The curves: z = (1 - q) e^(it) + q e^(3it), one turn at q = 0, three at 1.
    Source: common practice, no source, for how it is held and turned.
    """
    if coil_verdict != "three_loops":
        return _hung(blade_length, coil_diameter, coil_verdict is not None, show)
    size = show(coil_diameter, "work_size")
    hands = (
        Cell((*_loop(0.0), *_teeth(), *_held(RADIUS)), Note("1 Loop upright, teeth away from you, thumbs up", ""), HALF),
        Cell((*_loop(0.5), *_held(0.62 * RADIUS), *_turned(RADIUS)), Note("2 Turn both wrists in; the top tips down", ""), HALF),
        Cell(_rings(9.5), Note("3 Let the hands cross; tie it", size), HALF),
    )
    foot = (
        Cell(
            (*_loop(0.0), *_teeth(), *_floor(), *_shoe(), *_over()), Note("1 Foot on the loop, teeth away, hand on top", ""), HALF
        ),
        Cell((*_loop(0.3), *_floor(), *_shoe(), *_once_round()), Note("2 Turn the top once round", ""), HALF),
        Cell((*_flat(), *_floor(), *_shoe(), *_lowered()), Note("3 Lower it into three loops; tie it", ""), HALF),
    )
    said = "two ways of folding a blade of " + show(blade_length, "blade_length")
    alt = f"{said}. In the hands: {listed([c.note for c in hands])} With a foot: {listed([c.note for c in foot])}"
    below = (
        f"A loop of {show(blade_length, 'blade_length')} becomes a coil {size} across. Gloves, goggles and shoes on; it can spring"
        " open. Keep fingers out from between the loops. Let somebody show you once.",
    )
    return rows("coiling", "Folding the blade", alt, (("In the hands", hands), ("With a foot", foot)), below)


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


def _at(share: float, t: float, radius: float = RADIUS) -> Point:
    """Return a point of the band between one turn (share 0) and three (share 1)."""
    return (
        radius * ((1 - share) * math.cos(t) + share * math.cos(3 * t)),
        radius * ((1 - share) * math.sin(t) + share * math.sin(3 * t)),
    )


def _loop(share: float) -> tuple[Shape, ...]:
    return (Polyline(tuple(_at(share, i * math.tau / 144) for i in range(145))),)


def _teeth() -> tuple[Shape, ...]:
    """Return the far edge of an open loop with its teeth, which point away from whoever holds it."""
    dx, dy = BEHIND
    far = Arc((dx, dy), RADIUS, math.radians(150), math.radians(390), THIN)
    shapes: list[Shape] = [far]
    for degrees in range(155, 390, 9):
        angle = math.radians(degrees)
        x, y = far.at(angle)
        tip = math.radians(degrees + 4)
        shapes.append(Line((x, y), (x + 1.5 * math.cos(tip), y + 1.5 * math.sin(tip)), THIN))
    return tuple(shapes)


def _hand(at: Point, size: float, turn: float, flip: bool) -> tuple[Shape, ...]:
    """Return a hand in the figure's ink."""
    shapes = hand(at, size, turn, flip, "")
    return tuple(replace(part, fill=SOLID, colour="") if isinstance(part, Polygon) else part for part in shapes)


def _held(out: float) -> tuple[Shape, ...]:
    """Return both hands at the sides of the loop, thumbs up."""
    return (*_hand((-out, 1.0), 0.42, math.pi / 2, False), *_hand((out, 1.0), 0.42, -math.pi / 2, True))


def _turned(radius: float) -> tuple[Shape, ...]:
    """Return arrows at both sides: the wrists turn inwards."""
    return tuple(Arrow(_arc_points((side * (radius + 2.5), -1.0), 3.0, 2.4 * side, -2.4 * side), THIN, 2.0) for side in (-1, 1))


def _floor() -> tuple[Shape, ...]:
    low = RADIUS + 0.6
    hatch = tuple(Line((x, low), (x - 1.6, low + 1.8), THIN) for x in range(-16, 18, 4))
    return (Line((-18.0, low), (18.0, low)), *hatch)


def _shoe() -> tuple[Shape, ...]:
    """Return a shoe with a piece of leg, from the side, its sole on the lowest part of the loop."""
    x, y = -1.5, RADIUS - 0.4
    outline = (
        (x - 6, y),
        (x + 7, y),
        (x + 7.4, y - 1.6),
        (x + 4.5, y - 3.2),
        (x + 1, y - 4.2),
        (x + 0.4, y - 11),
        (x - 4.6, y - 11),
        (x - 5, y - 4),
        (x - 6, y - 2),
    )
    return (Polygon(outline, OUTLINE, SHADE),)


def _over() -> tuple[Shape, ...]:
    return _hand((1.0, -RADIUS - 0.6), 0.36, math.pi, False)


def _once_round() -> tuple[Shape, ...]:
    """Return the hand on top and an arrow once round the upright: as a ring seen from the side."""
    ring = tuple((6.0 * math.cos(t), -RADIUS + 1.0 + 2.0 * math.sin(t)) for t in (0.3 + i * 5.6 / 30 for i in range(31)))
    return (*_hand((1.0, -RADIUS - 1.6), 0.34, math.pi, False), Arrow(ring, THIN, 2.0))


def _flat() -> tuple[Shape, ...]:
    """Return three loops that lie nearly flat on the floor, seen from the side."""
    rings = []
    for i in range(217):
        t = i * 3 * math.tau / 216
        wide = 12.0 + 1.2 * math.cos(t / 3)
        rings.append((wide * math.cos(t), RADIUS - 3.4 + 2.6 * math.sin(t) + 0.9 * math.sin(t / 3)))
    return (Polyline(tuple(rings)),)


def _lowered() -> tuple[Shape, ...]:
    return (*_hand((9.5, -2.0), 0.42, math.pi, False), Arrow(((9.5, -13.0), (9.5, -7.5)), THIN, 2.0))


def _arc_points(centre: Point, radius: float, start: float, end: float) -> tuple[Point, ...]:
    arc = Arc(centre, radius, start, end)
    return tuple(arc.at(start + (end - start) * i / 20) for i in range(21))


def _rings(radius: float) -> tuple[Shape, ...]:
    """Return the three loops of one closed band, a little apart so that they can be counted, and their diameter."""
    points = []
    for i in range(217):
        t = i * 3 * math.tau / 216
        r = radius + 0.9 * math.cos(t / 3) * 1.4
        points.append((r * math.cos(t), r * math.sin(t)))
    measure = Dimension(
        (-radius, radius + 4), (radius, radius + 4), (((-radius, 3), (-radius, radius + 5)), ((radius, 3), (radius, radius + 5)))
    )
    return Polyline(tuple(points)), measure
