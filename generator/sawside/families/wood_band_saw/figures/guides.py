"""Side guides and thrust bearing seen from above, cut through the blade: setback along it, gaps across it enlarged."""

import math

from sawside.families.wood_band_saw.figures.plate import MIDDLE, Note, Show, centred, compose, listed
from sawside.figures.drawing import (
    CENTRE, HATCH, HIDDEN, OUTLINE, SHADE, SOLID, THIN, TINT, Arrow, Circle, Dimension, Drawing, Line, Point, Polygon,
    Shape, rectangle, scale_for, scale_words,
)  # fmt: skip

#: Room for the blade's width, for a side gap, for the thrust gap and for the thickness [mm].
BLADE_ROOM, SIDE_ROOM, THRUST_ROOM, THICK_ROOM = 66.0, 4.0, 6.0, 5.0
#: Free above the blade's back for the bearing, and above the guides [mm].
ABOVE, OVER = 12.0, 3.0


def guides_from_above(blade_width: float, blade_thickness: float, gullet: float, guide_margin: float,
                      guide_setback: float, side_clearance: float, thrust_gap: float, side_guides: str,
                      side_guide_contact: float | None = None, *, show: Show) -> Drawing:
    """Return blade, side guides and thrust bearing from above, teeth towards the operator at the foot of the picture.

    Takes every length in [m]. Along the blade one scale holds; thickness, side clearance and thrust gap each have their
    own, larger one, and the foot line says them. Holds for: setback less than the blade's width.
    """
    along = scale_for(blade_width, BLADE_ROOM)
    thick, side, thrust = (scale_for(blade_thickness, THICK_ROOM), scale_for(side_clearance, SIDE_ROOM),
                           scale_for(thrust_gap, THRUST_ROOM))
    half = 500 * thick * blade_thickness
    away, gap = 1000 * thrust * thrust_gap, 1000 * side * side_clearance
    behind = 1000 * along * (blade_width - guide_setback)
    # a guide touches no more of the blade than lies behind its front edge
    touch = min(1000 * along * side_guide_contact, behind) if side_guide_contact else 0.55 * behind
    reach = max(touch, 2.0)
    back = max(away + ABOVE, reach - behind + OVER)
    tips, front = back + 1000 * along * blade_width, back + behind
    line, face = tips - 1000 * along * gullet, half + gap
    picture = _blade(half, back, line, tips)
    for way in (-1, 1):
        picture += _GUIDES[side_guides](way, face, front - reach, front)
    picture += _bearing(back - away)
    out = half + 13.5
    measures = [
        Dimension((MIDDLE + out, front), (MIDDLE + out, tips), (_across(half, out, tips), _across(face + 9, out, front))),
        Dimension((MIDDLE - out, front), (MIDDLE - out, line), (_across(-half, -out, line), _across(-face - 9, -out, front))),
        Dimension((MIDDLE - face, front + 2.2), (MIDDLE - half, front + 2.2)),
        Dimension((MIDDLE + half + 3, back - away), (MIDDLE + half + 3, back), (_across(half, half + 4, back),)),
    ]
    named = {"guide": (MIDDLE - face - 1.6, front - 0.4 * min(reach, 6.0)), "blade": (MIDDLE, back + 0.35 * (line - back))}
    return _told(picture + measures, measures, tips, named, (along, thick, side, thrust), side_guides, show,
                 (blade_width, blade_thickness, guide_setback, guide_margin, side_clearance, thrust_gap))


def _told(picture, measures, tips, named, scales, kind, show, sizes) -> Drawing:
    width, thickness, setback, margin, clearance, gap = sizes
    left = [Note("Side guide behind the gullets", show(margin, "gap"), measures[1].middle),
            Note("Gap on each side", show(clearance, "gap"), measures[2].middle),
            Note(f"Side guide: {show(kind, 'word')}", "", named["guide"])]
    right = [Note("Side guide behind the tooth tips", show(setback, "small_length"), measures[0].middle),
             Note("Gap to the thrust bearing, not cutting", show(gap, "gap"), measures[3].middle),
             Note("Blade", f"{show(width, 'blade_width')}, {show(thickness, 'thickness')} thick", named["blade"])]
    alt = f"Guides from above, teeth towards you, {show(kind, 'word')} side guides: " + listed(right, left[:2])
    along, thick, side, thrust = map(scale_words, scales)
    foot = (f"Along the blade {along}. Enlarged so that they can be seen: thickness {thick}, gap on each side {side},"
            f" gap to the thrust bearing {thrust}. Set with feeler gauges, never by this picture.",)
    picture = [*picture, centred(MIDDLE, tips + 9.5, "teeth, towards you")]
    return compose("guides_from_above", "Guides from above", alt, picture, tips + 12, left, right, foot)


def _across(start: float, end: float, y: float) -> tuple[Point, Point]:
    """Return a witness line at the height y [mm] between two distances from the middle of the blade."""
    away = math.copysign(1.0, end)
    return (MIDDLE + start + 0.6 * away, y), (MIDDLE + end + away, y)


def _blade(half: float, back: float, line: float, tips: float) -> list[Shape]:
    """Return the cut blade: body shaded, one tooth set left and one right of it, black."""
    teeth = [((MIDDLE - way * half, line), (MIDDLE + way * half, line), (MIDDLE + way * half * 1.7, tips), (MIDDLE + way * half * 0.4, tips))
             for way in (-1, 1)]
    return [Polygon(rectangle(MIDDLE - half, back, MIDDLE + half, line), OUTLINE, SHADE),
            Polygon(teeth[1], THIN, TINT), Polygon(teeth[0], THIN, SOLID),
            Arrow(((MIDDLE, tips + 7), (MIDDLE, tips + 1.2)))]


def _side(way: int, near: float, far: float, top: float, bottom: float) -> tuple[Point, ...]:
    a, b = sorted((MIDDLE + way * near, MIDDLE + way * far))
    return rectangle(a, top, b, bottom)


def _block(way: int, face: float, top: float, bottom: float) -> list[Shape]:
    """Return a block held in its holder by a screw."""
    middle = (top + bottom) / 2
    return [Polygon(_side(way, face, face + 9, top, bottom), OUTLINE, HATCH),
            Polygon(_side(way, face + 9, face + 11.5, middle - 1.3, middle + 1.3), OUTLINE, TINT)]


def _roller(way: int, face: float, top: float, bottom: float) -> list[Shape]:
    """Return a roller: its axle runs front to back, its rim touches the blade."""
    axle = MIDDLE + way * (face + 4.5)
    return [Polygon(_side(way, face, face + 9, top, bottom), OUTLINE, TINT),
            Polygon(_side(way, face + 3, face + 6, bottom, bottom + 1.5), OUTLINE, SHADE),
            Line((axle, top - 2), (axle, bottom + 3), CENTRE)]


def _disc(way: int, face: float, top: float, bottom: float) -> list[Shape]:
    """Return a disc on edge: its flat face touches the blade, its shaft runs sideways."""
    middle = (top + bottom) / 2
    return [Polygon(_side(way, face, face + 2.4, top, bottom), OUTLINE, TINT),
            Polygon(_side(way, face + 2.4, face + 11.5, middle - 1.5, middle + 1.5), OUTLINE, SHADE),
            Line((MIDDLE + way * (face - 0.2), middle), (MIDDLE + way * (face + 13), middle), CENTRE)]


_GUIDES = {"block": _block, "roller": _roller, "disc": _disc}


def _bearing(face: float) -> list[Shape]:
    """Return the thrust bearing behind the blade's back, its axle across."""
    return [Polygon(rectangle(MIDDLE - 7, face - 9, MIDDLE + 7, face), OUTLINE, HATCH),
            Circle((MIDDLE, face - 4.5), 1.4, THIN, SHADE),
            Line((MIDDLE - 10, face - 4.5), (MIDDLE + 10, face - 4.5), CENTRE),
            Line((MIDDLE, face - 9), (MIDDLE, face - 11), HIDDEN)]
