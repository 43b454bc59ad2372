"""What the pictures of the safety signs are put together from: limbs, faces, hands and gloves, round-ended and filled [mm]."""

import math
from collections.abc import Callable, Iterable

from sawside.figures.drawing import NO_LINE, OUTLINE, Arc, Circle, Point, Polygon, Polyline, Shape

X = Y = 26.25
Picture = Callable[[str, str], list[Shape]]


def placed(points: Iterable[Point], at: Point, size: float = 1.0, turn: float = 0.0, flip: bool = False) -> tuple[Point, ...]:
    """Return points scaled, mirrored left to right, turned [rad, clockwise] and moved to a place [mm]."""
    c, s, way = math.cos(turn), math.sin(turn), -size if flip else size
    return tuple((at[0] + way * x * c - size * y * s, at[1] + way * x * s + size * y * c) for x, y in points)


def limb(points: Iterable[Point], width: float, colour: str) -> Polyline:
    """Return a run of straight pieces with round ends."""
    return Polyline(tuple(points), OUTLINE, colour, width, round_ends=True)


def face(points: Iterable[Point], colour: str, soft: float = 0.6) -> Polygon:
    """Return a filled face whose corners are rounded by a line of its own colour, `soft` wide [mm]."""
    return Polygon(tuple(points), OUTLINE, colour, colour, soft)


def spot(at: Point, radius: float, colour: str) -> Circle:
    """Return a filled disc."""
    return Circle(at, radius, NO_LINE, colour)


def oval(at: Point, wide: float, tall: float) -> tuple[Point, ...]:
    """Return the outline of an ellipse."""
    return tuple((at[0] + wide * math.cos(i * math.tau / 40), at[1] + tall * math.sin(i * math.tau / 40)) for i in range(40))


def curve(at: Point, radius: float, start: float, end: float) -> tuple[Point, ...]:
    """Return points along an arc."""
    arc = Arc(at, radius, start, end)
    return tuple(arc.at(start + (end - start) * i / 24) for i in range(25))


#: A right hand seen from its back, fingers up: fingers from root to tip, then thumb and palm [mm].
_FINGERS = (((-4.6, 0.0), (-5.4, -9.0)), ((-1.5, -1.0), (-1.7, -12.0)), ((1.6, -1.0), (2.2, -11.3)), ((4.5, 0.5), (6.0, -8.0)))
_THUMB = ((-3.5, 8.0), (-8.3, 3.0), (-9.8, -1.8))
_PALM = ((-5.6, -0.5), (5.4, -0.5), (5.6, 6.0), (4.2, 11.0), (-3.8, 11.0), (-5.6, 6.0))


def hand(at: Point, size: float, turn: float, flip: bool, colour: str, thick: float = 2.7) -> list[Shape]:
    """Return an open hand; `thick` is the width of a finger before scaling, a glove's are wider [mm]."""
    limbs = [*_FINGERS, _THUMB]
    return [
        *(limb(placed(points, at, size, turn, flip), thick * size, colour) for points in limbs),
        face(placed(_PALM, at, size, turn, flip), colour, 1.2 * size),
    ]


def glove(at: Point, size: float, turn: float, flip: bool, colour: str) -> list[Shape]:
    """Return a glove: a hand with thick fingers and a flared cuff set off by a gap."""
    cuff = ((-4.8, 13.2), (4.8, 13.2), (6.0, 18.0), (-6.0, 18.0))
    return [*hand(at, size, turn, flip, colour, 3.1), face(placed(cuff, at, size, turn, flip), colour, 1.0 * size)]
