"""The free strand: pushed sideways to read its tension, and plucked to hear it."""

import math

from sawside.families.wood_band_saw.figures.plate import MIDDLE, Show, compose
from sawside.figures.drawing import (
    BOLD,
    HATCH,
    HIDDEN,
    OUTLINE,
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
    rectangle,
    scale_for,
    scale_words,
)  # fmt: skip
from sawside.figures.labels import Note

#: The strand is drawn this long [mm], whatever it measures; its deflection gets its own scale.
SPAN, TOP, PUSH_ROOM = 84.0, 14.0, 10.0
WHEEL = 14.0


def deflection_test(
    free_span: float, setting_push: float, push_distance: float, test_push: float | None = None,
    setting_deflection: float | None = None, *, show: Show,
) -> Drawing:  # fmt: skip
    """Return the free strand pulled aside at its middle by a spring scale, and what the scale must read.

    Takes free_span, push_distance, setting_deflection [m], pushes [N]. Drawn at its own scale, said in the foot line.
    """
    scale, x, y = scale_for(push_distance, PUSH_ROOM), MIDDLE + 6.0, TOP + SPAN / 2
    aside = x - 1000 * scale * push_distance
    span, bent = _span(x, x + 20.0), ((x, TOP), (aside, y), (x, TOP + SPAN))
    measure = Dimension((aside, y + 9), (x, y + 9), (((aside, y + 2.2), (aside, y + 10)),))
    left = [
        Note("Pull square to the flat, half-way. It takes", show(setting_push, "push"), (aside - 18, y)),
        Note("to move it aside by", show(push_distance, "gap_wide"), (aside, y + 9)),
    ]
    if test_push is not None and setting_deflection is not None:
        left.append(Note(f"{show(test_push, 'force')} moves it by", show(setting_deflection, "gap_wide"), None))
    right = [
        Note("Free strand between the wheels", show(free_span, "blade_length"), span.middle),
        Note("Both wheels free to turn", "", (x + 6, TOP - 6)),
    ]
    strand = [Line((x, TOP), (x, TOP + SPAN), HIDDEN), Polyline(bent, BOLD), *_spring_scale((aside, y))]
    picture = [*_wheels(x), *strand, span, measure]
    says = "The free strand is pulled aside at its middle with a spring scale"
    foot = (
        f"Saw isolated. Sideways {scale_words(scale)}, the strand itself not to scale. Hold the rule against something"
        " that does not move."
    )
    return compose("deflection_test", "Weighed push at mid-strand", says, picture, TOP * 2 + SPAN, left, right, (foot,))


def _span(strand: float, x: float) -> Dimension:
    """Return the dimension of the free strand at x [mm]; its witness lines come from the strand's ends."""
    near, past = (strand + 1.5, x + 1.0) if x > strand else (strand - 3.0, x - 1.0)
    return Dimension((x, TOP), (x, TOP + SPAN), tuple(((near, y), (past, y)) for y in (TOP, TOP + SPAN)))


def _spring_scale(at: Point) -> list[Shape]:
    """Return a strap round the blade, and a spring scale hooked into it that is pulled to the left."""
    x, y = at
    coil = tuple((x - 9.0 - 0.55 * i, y + (1.0 if i % 2 else -1.0)) for i in range(13))
    return [
        Polygon(rectangle(x - 1.6, y - 1.8, x + 1.2, y + 1.8), THIN, TINT),
        Line((x - 1.6, y), (x - 7, y)),
        Polygon(rectangle(x - 18, y - 2.2, x - 7, y + 2.2), OUTLINE),
        Polyline(coil, THIN),
        Arrow(((x - 18, y), (x - 24.5, y)), BOLD),
    ]


def pluck_spot(free_span: float, setting_tone: float, pluck_note: str | None = None, *, show: Show) -> Drawing:
    """Return where to pluck the free strand and the lowest tone it should give.

    Takes free_span [m], setting_tone [Hz]. The swing is drawn larger than life. Holds for: the lowest tone.
    """
    swing = 5.0
    shape = [(MIDDLE + swing * math.sin(math.pi * i / 40), TOP + SPAN * i / 40) for i in range(41)]
    other = [(2 * MIDDLE - x, y) for x, y in shape]
    middle, far = TOP + SPAN / 2, MIDDLE - 18.0
    span = _span(MIDDLE, far)
    picture: list[Shape] = [
        *_wheels(MIDDLE),
        Line((MIDDLE, TOP), (MIDDLE, TOP + SPAN), BOLD),
        Polyline(tuple(shape), HIDDEN),
        Polyline(tuple(other), HIDDEN),
        span,
        Arrow(((MIDDLE - 13, middle), (MIDDLE - 1, middle))),
        *_phone((MIDDLE + 17, middle)),
    ]
    left = [
        Note("Free strand between the wheels", show(free_span, "blade_length"), (far, TOP + SPAN * 0.25)),
        Note("Pluck the flat here, half-way", "", (MIDDLE - 12, middle)),
    ]
    tone = show(setting_tone, "frequency")
    right = [Note("Lowest tone", tone + (f", {show(pluck_note, 'word')}" if pluck_note else ""), (MIDDLE + 20, middle))]
    says = "The free strand between the wheels is plucked at its middle"
    foot = (
        "Saw isolated, all guides clear of the blade. The swing is drawn larger than life. Take the lowest tone; hold"
        " tuner or telephone close to the middle of the strand."
    )
    return compose("pluck_spot", "Where to pluck", says, picture, TOP * 2 + SPAN, left, right, (foot,))


def _wheels(x: float) -> list[Shape]:
    """Return the edges of both wheels where the strand leaves them, on its right as in the view from the front."""
    shapes: list[Shape] = []
    for y, way in ((TOP, 1), (TOP + SPAN, -1)):
        centre = (x + WHEEL, y)
        start, end = math.pi - 0.5 * way, math.pi + 1.1 * way
        shapes += [
            Arc(centre, WHEEL - 0.6, start, end),
            Arc(centre, WHEEL * 0.85, start, end, THIN),
            Polyline(_on(Arc(centre, WHEEL, math.pi, end)), BOLD),
        ]
    return shapes


def _on(arc: Arc) -> tuple[Point, ...]:
    return tuple(arc.at(arc.start + (arc.end - arc.start) * i / 16) for i in range(17))


def _phone(at: Point) -> list[Shape]:
    """Return a telephone whose microphone listens to the strand, and three sound waves."""
    x, y = at
    waves = [Arc((x - 17, y), r, -0.5, 0.5, THIN) for r in (9.0, 11.0, 13.0)]
    return [Polygon(rectangle(x, y - 6, x + 6, y + 6), OUTLINE, HATCH), Circle((x + 3, y + 4.8), 0.5, THIN), *waves]
