"""Teeth at a stated scale: pitch and gullet from the side, kerf and set along the blade."""

import math

from sawside.families.wood_band_saw.figures.plate import LEFT, MIDDLE, RIGHT, Note, Show, centred, compose, listed
from sawside.figures.drawing import (
    CENTRE, HIDDEN, OUTLINE, SHADE, SOLID, THIN, TINT, Arrow, Dimension, Drawing, Line, Point, Polygon, Shape,
    rectangle, scale_for, scale_words,
)  # fmt: skip

TIPS = 14.0
#: Room for one pitch, for the gullet's depth, and for the kerf in the end view [mm].
PITCH_ROOM, GULLET_ROOM, KERF_ROOM = 22.0, 14.0, 12.0
BODY = 9.0
#: Left end of the blade in the picture [mm]; the gullet's dimension stands left of it.
EDGE = LEFT + 9.0


def tooth(
    tooth_pitch: float,
    gullet: float,
    blade_width: float,
    blade_thickness: float,
    kerf: float | None = None,
    tooth_form: str | None = None,
    *,
    show: Show,
) -> Drawing:
    """Return some teeth from the side, and the blade end on with its set, each view at a stated scale.

    Takes every length in [m]. Holds for: equal pitch; the outline of the teeth shows their form, not their angles.
    """
    scale = min(scale_for(tooth_pitch, PITCH_ROOM), scale_for(gullet, GULLET_ROOM))
    pitch, depth = 1000 * scale * tooth_pitch, 1000 * scale * gullet
    across = scale_for(kerf or 2 * blade_thickness, KERF_ROOM)
    run = _profile(pitch, depth, tooth_form or "regular")
    base = TIPS + depth + BODY
    broken = tuple((EDGE + (RIGHT - EDGE) * i / 40, base + 0.7 * math.sin(i * 0.8)) for i in range(41))
    body = (*run, *reversed(broken))
    first = _first_tip(pitch)
    measure = Dimension(
        (first, TIPS - 4),
        (first + pitch, TIPS - 4),
        tuple(((x, TIPS - 0.6), (x, TIPS - 5)) for x in (first, first + pitch)),
    )
    x, low = LEFT + 3.5, TIPS + depth
    deep = Dimension((x, TIPS), (x, low), (((x - 1, TIPS), (first - 0.6, TIPS)), ((x - 1, low), (EDGE - 0.6, low))))
    picture: list[Shape] = [
        Polygon(body, OUTLINE, SHADE),
        measure,
        deep,
        Arrow(((RIGHT - 14, base + 5), (RIGHT - 2, base + 5))),
    ]
    right = [Note("Tooth pitch", show(tooth_pitch, "pitch"), measure.middle)]
    left = [Note("Gullet depth", show(gullet, "small_length"), deep.middle)]
    end, notes = _end_view(base + 14, across, blade_thickness, kerf, depth, show)
    picture += [*end, centred(MIDDLE - 6, base + 5, "runs this way")]
    alt = "Teeth from the side and the blade end on: " + listed(right, left, notes)
    form = f", {show(tooth_form, 'word')} teeth" if tooth_form else ""
    foot = (
        f"From the side {scale_words(scale)}{form}; end on {scale_words(across)} across. The blade is "
        f"{show(blade_width, 'blade_width')} wide; most of its body is left out.",
    )
    return compose("tooth", "Teeth of this blade", alt, picture, base + 14 + depth + 12, left, right + notes, foot)


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


def _end_view(top: float, scale: float, thickness: float, kerf: float | None, depth: float, show: Show):
    """Return the blade end on, teeth up: body, teeth set both ways, and what is measured on it."""
    half = 500 * scale * thickness
    reach = 500 * scale * kerf if kerf else half * 1.7
    tall = max(5.0, min(depth, 12.0))
    root, foot = top + 4 + tall, top + 4 + tall + 7
    tips = [
        (
            (MIDDLE - way * half, root),
            (MIDDLE + way * half, root),
            (MIDDLE + way * reach, root - tall),
            (MIDDLE + way * (reach - min(2 * half, reach)), root - tall),
        )
        for way in (-1, 1)
    ]
    thick = Dimension((MIDDLE - half, foot - 2.5), (MIDDLE + half, foot - 2.5))
    shapes: list[Shape] = [
        Polygon(rectangle(MIDDLE - half, root, MIDDLE + half, foot), OUTLINE, SHADE),
        Polygon(tips[1], HIDDEN, TINT),
        Polygon(tips[0], THIN, SOLID),
        Line((MIDDLE, top), (MIDDLE, foot + 2), CENTRE),
        thick,
    ]
    notes = [Note("Blade thickness", show(thickness, "thickness"), (MIDDLE + half, foot - 2.5))]
    if kerf:
        wide = Dimension(
            (MIDDLE - reach, top + 2),
            (MIDDLE + reach, top + 2),
            tuple(((MIDDLE + w * reach, root - tall - 0.4), (MIDDLE + w * reach, top + 1)) for w in (-1, 1)),
        )
        shapes.append(wide)
        notes.append(Note("Kerf", show(kerf, "thickness"), (MIDDLE + reach * 0.6, top + 2)))
        notes.append(
            Note(
                "Set, each side", show((kerf - thickness) / 2, "gap"), (MIDDLE + (reach + half) / 2, root - tall * 0.8)
            )
        )
    return shapes, notes
