"""Teeth at a stated scale: pitch and gullet from the side, kerf and set along the blade."""

import math
from dataclasses import dataclass

from sawside.families.wood_band_saw.figures.plate import LEFT, MIDDLE, RIGHT, Show, centred, compose
from sawside.figures.drawing import (
    CENTRE,
    HIDDEN,
    OUTLINE,
    SHADE,
    SOLID,
    THIN,
    TINT,
    Arrow,
    Dimension,
    Drawing,
    Line,
    Point,
    Polygon,
    Shape,
    rectangle,
    scale_for,
    scale_words,
)  # fmt: skip
from sawside.figures.labels import Note

TIPS = 14.0
#: Room for one pitch, for the gullet's depth, and for the kerf in the end view [mm].
PITCH_ROOM, GULLET_ROOM, KERF_ROOM = 22.0, 14.0, 12.0
BODY = 9.0
#: Left end of the blade in the picture [mm]; the gullet's dimension stands left of it.
EDGE = LEFT + 9.0


def tooth(
    tooth_pitch: float, gullet: float, blade_width: float, blade_thickness: float, kerf: float | None = None,
    tooth_form: str | None = None, *, show: Show,
) -> Drawing:  # fmt: skip
    """Return some teeth from the side, and the blade end on with its set, each view at a stated scale.

    Takes every length in [m]. Holds for: equal pitch; the outline of the teeth shows their form, not their angles.
    """
    scale = min(scale_for(tooth_pitch, PITCH_ROOM), scale_for(gullet, GULLET_ROOM))
    across = scale_for(kerf or 2 * blade_thickness, KERF_ROOM)
    pitch, depth = 1000 * scale * tooth_pitch, 1000 * scale * gullet
    end = _End(TIPS + depth + BODY + 14, 500 * across * blade_thickness, 500 * across * kerf if kerf else None, depth)
    one, deep = _pitch_measure(pitch), _gullet_measure(pitch, depth)
    left = [Note("Gullet depth", show(gullet, "small_length"), deep.middle)]
    right = [Note("Teeth", show(tooth_pitch, "pitch"), one.middle)]
    right.append(Note("Blade thickness", show(blade_thickness, "thickness"), (MIDDLE + end.half, end.foot - 2.5)))
    if kerf:
        reach = end.reach
        right.append(Note("Kerf", show(kerf, "thickness"), (MIDDLE + reach * 0.6, end.top + 2)))
        spot = (MIDDLE + (reach + end.half) / 2, end.root - end.tall * 0.8)
        right.append(Note("Set, each side", show((kerf - blade_thickness) / 2, "gap"), spot))
    form = f", {show(tooth_form, 'word')} teeth" if tooth_form else ""
    foot = (
        f"From the side {scale_words(scale)}{form}; end on {scale_words(across)} across. The blade is"
        f" {show(blade_width, 'blade_width')} wide; most of its body is left out."
    )
    picture = [*_side_view(pitch, depth, tooth_form or "regular"), one, deep, *_end_view(end)]
    says = "Teeth from the side and the blade end on"
    return compose("tooth", "Teeth of this blade", says, picture, end.foot + 3, left, right, (foot,))


def _pitch_measure(pitch: float) -> Dimension:
    ends = (_first_tip(pitch), _first_tip(pitch) + pitch)
    return Dimension((ends[0], TIPS - 4), (ends[1], TIPS - 4), tuple(((x, TIPS - 0.6), (x, TIPS - 5)) for x in ends))


def _gullet_measure(pitch: float, depth: float) -> Dimension:
    x, low = LEFT + 3.5, TIPS + depth
    ends = (((x - 1, TIPS), (_first_tip(pitch) - 0.6, TIPS)), ((x - 1, low), (EDGE - 0.6, low)))
    return Dimension((x, TIPS), (x, low), ends)


def _side_view(pitch: float, depth: float, form: str) -> list[Shape]:
    """Return the toothed edge with some body, broken off below, and the way the blade runs."""
    base = TIPS + depth + BODY
    broken = tuple((EDGE + (RIGHT - EDGE) * i / 40, base + 0.7 * math.sin(i * 0.8)) for i in range(41))
    return [
        Polygon((*_profile(pitch, depth, form), *reversed(broken)), OUTLINE, SHADE),
        Arrow(((RIGHT - 14, base + 5), (RIGHT - 2, base + 5))),
        centred(MIDDLE - 6, base + 5, "runs this way"),
    ]


def _first_tip(pitch: float) -> float:
    """Return where the first whole tooth's tip stands [mm], clear of the dimension of the gullet."""
    return EDGE + 0.6 * pitch


#: Outline of one tooth from its tip to the next one's, in shares of pitch and depth; the teeth point and run right.
_FORMS: dict[str, tuple[Point, ...]] = {
    "regular": ((0.0, 0.0), (0.0, 0.55), (0.05, 0.8), (0.15, 0.95), (0.28, 1.0), (0.4, 0.9), (0.52, 0.72)),
    "skip": ((0.0, 0.0), (0.0, 0.7), (0.04, 0.9), (0.12, 1.0), (0.6, 1.0), (0.68, 0.95), (0.74, 0.85)),
    "hook": ((0.0, 0.0), (-0.09, 0.5), (-0.1, 0.72), (0.0, 0.93), (0.16, 1.0), (0.34, 0.93), (0.5, 0.72), (0.8, 0.14)),
}


def _profile(pitch: float, depth: float, form: str) -> tuple[Point, ...]:
    """Return the toothed edge between the columns, cut off where the picture ends."""
    first, points = _first_tip(pitch), []
    least, most = -math.ceil((first - EDGE) / pitch) - 1, math.ceil((RIGHT - first) / pitch) + 1
    for i in range(least, most):
        points += [(first + (i + x) * pitch, TIPS + y * depth) for x, y in _FORMS[form]]
    return _clipped(points)


def _clipped(points: list[Point]) -> tuple[Point, ...]:
    """Return the run between EDGE and RIGHT, its ends found on the pieces that cross them."""
    inside = [p for p in points if EDGE < p[0] < RIGHT]
    ends = []
    for edge in (EDGE, RIGHT):
        a, b = next((a, b) for a, b in zip(points, points[1:]) if a[0] <= edge < b[0])
        ends.append((edge, a[1] + (edge - a[0]) / (b[0] - a[0]) * (b[1] - a[1])))
    return (ends[0], *inside, ends[1])


@dataclass(frozen=True)
class _End:
    """The blade end on [mm]: top of the view, half the thickness, half the kerf (None: unknown), gullet depth drawn."""

    top: float
    half: float
    set_out: float | None
    depth: float

    @property
    def reach(self) -> float:
        """Return how far a tooth leans out from the middle; a usual lean when the kerf is not known."""
        return self.set_out or 1.7 * self.half

    @property
    def tall(self) -> float:
        """Return the height of the teeth in this view."""
        return max(5.0, min(self.depth, 12.0))

    @property
    def root(self) -> float:
        """Return where the teeth begin."""
        return self.top + 4 + self.tall

    @property
    def foot(self) -> float:
        """Return where the body is cut off."""
        return self.root + 7


def _end_view(end: _End) -> list[Shape]:
    """Return the blade end on, teeth up: body, teeth set both ways, thickness, and the kerf where it is known."""
    half, reach, root = end.half, end.reach, end.root
    inner = reach - min(2 * half, reach)
    right, left = (
        tuple((MIDDLE + way * x, y) for x, y in ((-half, root), (half, root), (reach, root - end.tall), (inner, root - end.tall)))
        for way in (1, -1)
    )
    shapes: list[Shape] = [
        Polygon(rectangle(MIDDLE - half, root, MIDDLE + half, end.foot), OUTLINE, SHADE),
        Polygon(right, HIDDEN, TINT),
        Polygon(left, THIN, SOLID),
        Line((MIDDLE, end.top), (MIDDLE, end.foot + 2), CENTRE),
        Dimension((MIDDLE - half, end.foot - 2.5), (MIDDLE + half, end.foot - 2.5)),
    ]
    if end.set_out:
        y, ends = end.top + 2, (MIDDLE - reach, MIDDLE + reach)
        lines = tuple(((x, root - end.tall - 0.4), (x, y - 1)) for x in ends)
        shapes.append(Dimension((ends[0], y), (ends[1], y), lines))
    return shapes
