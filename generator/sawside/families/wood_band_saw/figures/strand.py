"""The free strand: pushed sideways to read its tension, and plucked to hear it."""

import math

from sawside.families.wood_band_saw.figures.plate import MIDDLE, Note, Show, compose, listed
from sawside.figures.drawing import (
    BOLD, HATCH, HIDDEN, OUTLINE, SHADE, THIN, Arc, Arrow, Circle, Dimension, Drawing, Line, Point, Polygon, Polyline, Shape,
    rectangle, scale_for, scale_words,
)  # fmt: skip

#: The strand is drawn this long [mm], whatever it measures; its deflection gets its own scale.
SPAN, TOP, PUSH_ROOM = 84.0, 14.0, 14.0
WHEEL = 14.0


def deflection_test(free_span: float, test_push: float, deflection_at_push: float, push_for_5_mm: float | None = None,
                    push_for_quarter_inch: float | None = None, *, show: Show) -> Drawing:
    """Return the free strand with a weighed push at its middle and how far it must give way.

    Takes free_span, deflection_at_push [m], pushes [N]. The deflection is drawn at its own scale, said in the foot line.
    """
    scale = scale_for(deflection_at_push, PUSH_ROOM)
    give = 1000 * scale * deflection_at_push
    middle = TOP + SPAN / 2
    bent = (MIDDLE, TOP), (MIDDLE + give, middle), (MIDDLE, TOP + SPAN)
    far = MIDDLE - 18.0
    span = Dimension((far, TOP), (far, TOP + SPAN), tuple(((MIDDLE - 3, y), (far - 1, y)) for y in (TOP, TOP + SPAN)))
    measure = Dimension((MIDDLE, middle + 7), (MIDDLE + give, middle + 7), (((MIDDLE + give, middle + 0.8), (MIDDLE + give, middle + 8)),))
    picture: list[Shape] = [*_wheels(), Line((MIDDLE, TOP), (MIDDLE, TOP + SPAN), HIDDEN), Polyline(bent, BOLD), span, measure,
                            Arrow(((MIDDLE - 9, middle), (MIDDLE - 0.8, middle)), BOLD),
                            Polygon(rectangle(MIDDLE - 14.5, middle - 2, MIDDLE - 9, middle + 2), OUTLINE, SHADE)]
    left = [Note("Free strand between the wheels", show(free_span, "blade_length"), (far, TOP + SPAN * 0.25)),
            Note("Push, weighed with a spring scale", show(test_push, "force"), (MIDDLE - 14.5, middle))]
    right = [Note("Gives way by", show(deflection_at_push, "gap_wide"), measure.end)]
    others = [(push_for_5_mm, "Or push for 5 mm"), (push_for_quarter_inch, "Or push for 1/4 in")]
    right += [Note(words, show(push, "force"), None) for push, words in others if push is not None]
    alt = "The free strand between the wheels is pushed sideways at its middle: " + listed(
        f"{n.words[0].lower()}{n.words[1:]} {n.value}" for n in (*left, *right))
    foot = (f"Saw isolated, covers open. Deflection drawn {scale_words(scale)}; the strand is not to scale. Push on the flat"
            " of the blade, half-way between the wheels, and read with a rule.",)
    return compose("deflection_test", "Deflection test", alt, picture, TOP * 2 + SPAN, left, right, foot)


def pluck_spot(free_span: float, pluck_frequency: float, pluck_note: str | None = None, *, show: Show) -> Drawing:
    """Return where to pluck the free strand and the lowest tone it should give.

    Takes free_span [m], pluck_frequency [Hz]. The swing is drawn larger than life. Holds for: the lowest tone.
    """
    swing = 5.0
    shape = [(MIDDLE + swing * math.sin(math.pi * i / 40), TOP + SPAN * i / 40) for i in range(41)]
    other = [(2 * MIDDLE - x, y) for x, y in shape]
    middle, far = TOP + SPAN / 2, MIDDLE - 18.0
    span = Dimension((far, TOP), (far, TOP + SPAN), tuple(((MIDDLE - 3, y), (far - 1, y)) for y in (TOP, TOP + SPAN)))
    picture: list[Shape] = [*_wheels(), Line((MIDDLE, TOP), (MIDDLE, TOP + SPAN), BOLD), Polyline(tuple(shape), HIDDEN),
                            Polyline(tuple(other), HIDDEN), span, Arrow(((MIDDLE - 13, middle), (MIDDLE - 1, middle))),
                            *_phone((MIDDLE + 17, middle))]
    left = [Note("Free strand between the wheels", show(free_span, "blade_length"), (far, TOP + SPAN * 0.25)),
            Note("Pluck the flat here, half-way", "", (MIDDLE - 12, middle))]
    tone = show(pluck_frequency, "frequency")
    right = [Note("Lowest tone", tone + (f", {show(pluck_note, 'word')}" if pluck_note else ""), (MIDDLE + 20, middle))]
    alt = "The free strand between the wheels is plucked at its middle: " + listed(
        f"{n.words[0].lower()}{n.words[1:]} {n.value}".strip() for n in (*left, *right))
    foot = ("Saw isolated, covers open, guides off the blade. The swing is drawn larger than life. Take the lowest tone; hold"
            " the telephone close to the middle of the strand.",)
    return compose("pluck_spot", "Where to pluck", alt, picture, TOP * 2 + SPAN, left, right, foot)


def _wheels() -> list[Shape]:
    """Return the edges of both wheels where the strand leaves them, on its right as in the view from the front."""
    shapes: list[Shape] = []
    for y, way in ((TOP, 1), (TOP + SPAN, -1)):
        centre = (MIDDLE + WHEEL, y)
        start, end = math.pi - 0.5 * way, math.pi + 1.1 * way
        shapes += [Arc(centre, WHEEL - 0.6, start, end), Arc(centre, WHEEL * 0.85, start, end, THIN),
                   Polyline(_on(Arc(centre, WHEEL, math.pi, end)), BOLD)]
    return shapes


def _on(arc: Arc) -> tuple[Point, ...]:
    return tuple(arc.at(arc.start + (arc.end - arc.start) * i / 16) for i in range(17))


def _phone(at: Point) -> list[Shape]:
    """Return a telephone whose microphone listens to the strand, and three sound waves."""
    x, y = at
    waves = [Arc((x - 17, y), r, -0.5, 0.5, THIN) for r in (9.0, 11.0, 13.0)]
    return [Polygon(rectangle(x, y - 6, x + 6, y + 6), OUTLINE, HATCH), Circle((x + 3, y + 4.8), 0.5, THIN), *waves]
