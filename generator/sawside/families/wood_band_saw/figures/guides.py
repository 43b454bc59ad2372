"""Side guides and thrust bearing seen from above, cut through the blade: setback along it, gaps across it enlarged."""

import math
from dataclasses import dataclass

from sawside.families.wood_band_saw.figures.plate import MIDDLE, Show, centred, compose
from sawside.figures.drawing import (
    CENTRE,
    HATCH,
    HIDDEN,
    OUTLINE,
    SHADE,
    SOLID,
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
    rectangle,
    scale_for,
    scale_words,
)  # fmt: skip
from sawside.figures.labels import Note

#: Room for the blade's width, its thickness, a gap at the side, and the gap to the thrust bearing [mm].
ROOMS = (66.0, 5.0, 4.0, 6.0)
FOOT = (
    "Along the blade {}. Enlarged so that they can be seen: thickness {}, gap on each side {}, gap to the thrust"
    " bearing {}. Set with feeler gauges, never by this picture."
)
#: Free above the blade's back for the bearing, and above the guides [mm].
ABOVE, OVER = 12.0, 3.0


@dataclass(frozen=True)
class _Section:
    """Places on paper [mm]: y of back, guide front, gullets, tips and bearing; half widths; guide length."""

    back: float
    front: float
    line: float
    tips: float
    bearing: float
    half: float
    face: float
    reach: float


def guides_from_above(
    blade_width: float, blade_thickness: float, gullet: float, guide_margin: float, guide_setback: float,
    side_clearance: float, thrust_gap: float, side_guides: str, side_guide_contact: float | None = None, *, show: Show,
) -> Drawing:  # fmt: skip
    """Return blade, side guides and thrust bearing from above, teeth towards the operator at the foot of the picture.

    Takes every length in [m]. Along the blade one scale holds; thickness, side clearance and thrust gap each have their
    own, larger one, and the foot line says them. Holds for: setback less than the blade's width.
    """
    sizes = (blade_width, blade_thickness, side_clearance, thrust_gap)
    scales = tuple(map(scale_for, sizes, ROOMS))
    at = _section(sizes, scales, (gullet, guide_setback, side_guide_contact))
    setback, margin, gap, thrust = measures = _measures(at)
    left = [
        Note("Side guide behind the gullets", show(guide_margin, "gap"), margin.middle),
        Note("Gap on each side", show(side_clearance, "gap"), gap.middle),
        Note("Side guide", show(side_guides, "word"), (MIDDLE - at.face - 1.6, at.front - 0.4 * min(at.reach, 6.0))),
    ]
    blade = f"{show(blade_width, 'blade_width')}, {show(blade_thickness, 'thickness')} thick"
    right = [
        Note("Side guide behind the tooth tips", show(guide_setback, "small_length"), setback.middle),
        Note("Gap to the thrust bearing, not cutting", show(thrust_gap, "gap"), thrust.middle),
        Note("Blade", blade, (MIDDLE, at.back + 0.35 * (at.line - at.back))),
    ]
    sides = [shape for way in (-1, 1) for shape in _GUIDES[side_guides](way, at.face, at.front - at.reach, at.front)]
    picture = [*_blade(at), *sides, *_bearing(at.bearing), *measures]
    picture.append(centred(MIDDLE, at.tips + 10.5, "teeth"))
    foot = FOOT.format(*map(scale_words, scales))
    says = "Guides from above, teeth towards you"
    return compose("guides_from_above", "Guides from above, teeth towards you", says, picture, at.tips + 13, left, right, (foot,))


def _section(sizes: tuple[float, ...], scales: tuple[float, ...], along: tuple[float, float, float | None]) -> _Section:
    """Return the section on paper; `along` holds gullet, setback and, where known, the length the guide touches [m]."""
    width, thick, gap, thrust = (1000 * size * scale for size, scale in zip(sizes, scales, strict=True))
    gullet, setback, contact = (1000 * scales[0] * length if length else None for length in along)
    behind = width - (setback or 0.0)
    # a guide touches no more of the blade than lies behind its front edge
    reach = max(min(contact, behind) if contact else 0.55 * behind, 2.0)
    back = max(thrust + ABOVE, reach - behind + OVER)
    tips, half = back + width, thick / 2
    return _Section(back, back + behind, tips - (gullet or 0.0), tips, back - thrust, half, half + gap, reach)


def _measures(at: _Section) -> tuple[Dimension, ...]:
    """Return the dimensions: guide behind the tips, guide behind the gullets, gap at the side, gap to the bearing."""
    out, half, face = at.half + 13.5, at.half, at.face
    ends = (_across(half, out, at.tips), _across(face + 9, out, at.front))
    others = (_across(-half, -out, at.line), _across(-face - 9, -out, at.front))
    return (
        Dimension((MIDDLE + out, at.front), (MIDDLE + out, at.tips), ends),
        Dimension((MIDDLE - out, at.front), (MIDDLE - out, at.line), others),
        Dimension((MIDDLE - face, at.front + 2.2), (MIDDLE - half, at.front + 2.2)),
        Dimension((MIDDLE + half + 3, at.bearing), (MIDDLE + half + 3, at.back), (_across(half, half + 4, at.back),)),
    )


def _across(start: float, end: float, y: float) -> tuple[Point, Point]:
    """Return a witness line at the height y [mm] between two distances from the middle of the blade."""
    away = math.copysign(1.0, end)
    return (MIDDLE + start + 0.6 * away, y), (MIDDLE + end + away, y)


def _blade(at: _Section) -> list[Shape]:
    """Return the cut blade: body shaded, one tooth set right and one left of it, black; and the way the work comes."""
    half, line, tips = at.half, at.line, at.tips
    right, left = (
        tuple((MIDDLE + way * x * half, y) for x, y in ((-1, line), (1, line), (1.7, tips), (0.4, tips))) for way in (1, -1)
    )
    return [
        Polygon(rectangle(MIDDLE - half, at.back, MIDDLE + half, line), OUTLINE, SHADE),
        Polygon(right, THIN, TINT),
        Polygon(left, THIN, SOLID),
        Arrow(((MIDDLE, tips + 7), (MIDDLE, tips + 1.2))),
    ]


def _side(way: int, near: float, far: float, top: float, bottom: float) -> tuple[Point, ...]:
    a, b = sorted((MIDDLE + way * near, MIDDLE + way * far))
    return rectangle(a, top, b, bottom)


def _block(way: int, face: float, top: float, bottom: float) -> list[Shape]:
    """Return a block held in its holder by a screw."""
    middle = (top + bottom) / 2
    return [
        Polygon(_side(way, face, face + 9, top, bottom), OUTLINE, HATCH),
        Polygon(_side(way, face + 9, face + 11.5, middle - 1.3, middle + 1.3), OUTLINE, TINT),
    ]


def _roller(way: int, face: float, top: float, bottom: float) -> list[Shape]:
    """Return a roller: its axle runs front to back, its rim touches the blade."""
    axle = MIDDLE + way * (face + 4.5)
    return [
        Polygon(_side(way, face, face + 9, top, bottom), OUTLINE, TINT),
        Polygon(_side(way, face + 3, face + 6, bottom, bottom + 1.5), OUTLINE, SHADE),
        Line((axle, top - 2), (axle, bottom + 3), CENTRE),
    ]


def _disc(way: int, face: float, top: float, bottom: float) -> list[Shape]:
    """Return a disc on edge: its flat face touches the blade, its shaft runs sideways."""
    middle = (top + bottom) / 2
    return [
        Polygon(_side(way, face, face + 2.4, top, bottom), OUTLINE, TINT),
        Polygon(_side(way, face + 2.4, face + 11.5, middle - 1.5, middle + 1.5), OUTLINE, SHADE),
        Line((MIDDLE + way * (face - 0.2), middle), (MIDDLE + way * (face + 13), middle), CENTRE),
    ]


_GUIDES = {"block": _block, "roller": _roller, "disc": _disc}


def _bearing(face: float) -> list[Shape]:
    """Return the thrust bearing behind the blade's back, its axle across."""
    return [
        Polygon(rectangle(MIDDLE - 7, face - 9, MIDDLE + 7, face), OUTLINE, HATCH),
        Circle((MIDDLE, face - 4.5), 1.4, THIN, SHADE),
        Line((MIDDLE - 10, face - 4.5), (MIDDLE + 10, face - 4.5), CENTRE),
        Line((MIDDLE, face - 9), (MIDDLE, face - 11), HIDDEN),
    ]
