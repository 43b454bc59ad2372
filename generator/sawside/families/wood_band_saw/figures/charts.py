"""Two charts to read settings from: pitch for a thickness of work, and what a high guide costs."""

import math
from collections.abc import Callable

from sawside.calc import stiffness
from sawside.families.wood_band_saw.figures.plate import LEFT, RIGHT, ROOM, Note, Show, compose, listed
from sawside.figures import labels
from sawside.figures.drawing import (
    BOLD, CENTRE, HATCH, NO_LINE, OUTLINE, SMALL_SIZE, SOLID, THIN, TINT, Circle, Dimension, Drawing, Line, Point, Polygon,
    Polyline, Shape, Text,
)  # fmt: skip

INCH = 25.4e-3
TOP, BASE = 5.0, 68.0

_ROUND_MM = tuple(m * 10.0**p / 1000 for p in range(-1, 5) for m in (1, 2, 5))
_ROUND_IN = tuple(INCH * 2.0**p for p in range(-6, 9))
_PITCH_MM = tuple(m * 10.0**p / 1000 for p in range(-1, 3) for m in (1, 1.5, 2, 3, 4, 6, 8))
_PITCH_TPI = tuple(INCH / n for n in (0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4, 6, 8, 10, 14, 18, 24, 32, 48, 64))


def _axis(low: float, high: float, kind: str, show: Show, *series: tuple[float, ...]) -> list[tuple[float, str]]:
    """Return round values between two limits and their texts, from the series that prints shortest in this shop."""
    found = [[(value, show(value, kind)) for value in values if low <= value <= high] for values in series]
    return min(
        (texts for texts in found if len(texts) >= 2),
        key=lambda texts: max(len(text) for _, text in texts),
        default=found[0],
    )


def _steps(most: float, series: tuple[float, ...]) -> tuple[float, ...]:
    """Return even steps from nought, the step taken from a series so that about four fit below `most` [m].

    >>> [round(1000 * value) for value in _steps(0.11, (0.02, 0.05, 0.1))]
    [20, 40, 60, 80, 100]
    """
    step = next((value for value in series if most / value <= 6), most)
    return tuple(step * i for i in range(1, int(most / step + 1e-9) + 1))


def _ticks(across: list[tuple[float, str]], up: list[tuple[float, str]], x: Callable, y: Callable) -> list[Shape]:
    """Return the frame of a chart with its tick marks and as many tick texts as have room."""
    shapes: list[Shape] = [Polyline(((LEFT, TOP), (LEFT, BASE), (RIGHT, BASE)), OUTLINE)]
    placed = [(x(value), text) for value, text in across]
    shapes += [Line((place, BASE), (place, BASE + 1.2), THIN) for place, _ in placed]
    inside = [(p, t) for p, t in placed if p + labels.width(t, SMALL_SIZE) / 2 <= RIGHT + 3]
    shapes += [
        Text((place, BASE + 3.4), text, SMALL_SIZE, "middle") for place, text in labels.thin_out(inside, SMALL_SIZE)
    ]
    last = BASE + 10.0
    for value, text in sorted(up, key=lambda entry: -y(entry[0])):
        place = y(value)
        shapes.append(Line((LEFT - 1.2, place), (LEFT, place), THIN))
        if last - place > SMALL_SIZE * 1.5:
            shapes.append(Text((LEFT - 2, place), text, SMALL_SIZE, "end"))
            last = place
    return shapes


def pitch_chart(
    tooth_pitch: float, teeth_least: float, teeth_most: float, cutting_height_max: float | None = None, *, show: Show
) -> Drawing:
    """Return which pitch suits which thickness of work, with this blade's pitch marked; both scales logarithmic.

    Takes tooth_pitch, cutting_height_max [m], teeth_least, teeth_most [teeth in the work]. Permitted: from
    thickness / teeth_most to thickness / teeth_least. Holds for: teeth_least < teeth_most.
    """
    thin, thick = teeth_least * tooth_pitch, teeth_most * tooth_pitch
    low, high = thin / 4, thick * 2
    fine, coarse = tooth_pitch / 5, tooth_pitch * 5

    def x(value: float) -> float:
        return LEFT + ROOM * math.log(value / low) / math.log(high / low)

    def y(value: float) -> float:
        return BASE - (BASE - TOP) * math.log(value / fine) / math.log(coarse / fine)

    rough, clog = _region(x, y, (low, high), (fine, coarse), teeth_least, teeth_most)
    across = _axis(low, high, "work_size", show, _ROUND_MM, _ROUND_IN)
    up = _axis(fine, coarse, "pitch", show, _PITCH_MM, _PITCH_TPI)
    own = y(tooth_pitch)
    span = Dimension((x(thin), own + 4), (x(thick), own + 4), tuple(((x(v), own), (x(v), BASE)) for v in (thin, thick)))
    picture: list[Shape] = [
        Polygon(rough, THIN, HATCH),
        Polygon(clog, THIN, TINT),
        *_ticks(across, up, x, y),
        span,
        Line((LEFT, own), (RIGHT, own), BOLD),
    ]
    right = [
        Note(
            f"Fewer than {teeth_least:g} teeth in the work: rough, teeth break",
            "",
            (x(thin * 1.2), y(tooth_pitch * 2.6)),
        ),
        Note("This blade", show(tooth_pitch, "pitch"), (x(thick * 1.4), y(tooth_pitch))),
        Note(f"More than {teeth_most:g} teeth: clogs in thick work", "", (x(thick * 1.3), y(tooth_pitch / 3))),
    ]
    if cutting_height_max and low < cutting_height_max < high:
        place = x(cutting_height_max)
        picture.append(Line((place, TOP), (place, BASE), CENTRE))
        right.append(Note("Tallest work of this saw", show(cutting_height_max, "work_size"), (place, TOP + 1)))
    suits = f"{show(thin, 'work_size')} to {show(thick, 'work_size')}"
    alt = "Chart of tooth pitch against thickness of work: " + listed(
        f"this blade's pitch {show(tooth_pitch, 'pitch')} suits work of {suits}",
        f"{teeth_least:g} to {teeth_most:g} teeth in the work",
    )
    foot = (
        f"This blade, {show(tooth_pitch, 'pitch')}, suits work {suits} thick: {teeth_least:g} to {teeth_most:g} teeth in the work."
        " Across: thickness of work. Up: pitch, coarser above.",
    )
    return compose("pitch_chart", "Pitch for the thickness of work", alt, picture, BASE + 6, (), right, foot)


def _region(x, y, across: tuple[float, float], up: tuple[float, float], least: float, most: float):
    """Return the faces with too few and with too many teeth, cut off at the edges of the chart."""
    (low, high), (fine, coarse) = across, up

    def along(teeth: float) -> list[Point]:
        values = [low * (high / low) ** (i / 80) for i in range(81)]
        return [(x(v), y(min(max(v / teeth, fine), coarse))) for v in values]

    return (*along(least), (x(high), TOP), (x(low), TOP)), (*along(most), (x(high), BASE), (x(low), BASE))


def height_chart(
    lower_guide_below_table: float,
    guide_post_gap: float,
    cutting_height_max: float,
    strand_force: float,
    body_width: float,
    blade_thickness: float,
    gullet: float,
    youngs_modulus: float,
    poisson_ratio: float,
    work_height_max: float | None = None,
    *,
    show: Show,
) -> Drawing:
    """Return how much of its sideways stiffness the blade keeps as the upper guides stand higher above the work.

    Takes lengths [m], strand_force [N], youngs_modulus [Pa]. 100 percent is the stiffness with the guides at
    guide_post_gap; without a job the work is taken a quarter as tall as the saw allows. Equation: stiffness.tip_stiffness.
    """
    work = (
        work_height_max
        if work_height_max and work_height_max < cutting_height_max - guide_post_gap
        else cutting_height_max / 4
    )
    most = max(cutting_height_max - work, 2 * guide_post_gap)

    def kept(gap: float) -> float:
        spans = [work + above + lower_guide_below_table for above in (gap, guide_post_gap)]
        high, close = (
            stiffness.tip_stiffness(s, strand_force, body_width, blade_thickness, gullet, youngs_modulus, poisson_ratio)
            for s in spans
        )
        return high / close

    def x(value: float) -> float:
        return LEFT + (ROOM - 4) * value / most

    def y(value: float) -> float:
        return BASE - (BASE - TOP - 6) * value

    curve = tuple((x(g), y(kept(g))) for g in (guide_post_gap + (most - guide_post_gap) * i / 60 for i in range(61)))
    across = _axis(0.0, most, "work_size", show, _steps(most, _ROUND_MM), _steps(most, _ROUND_IN))
    up = [(share, show(share, "percent")) for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
    picture: list[Shape] = [
        Polygon((*curve, (x(most), BASE), (x(guide_post_gap), BASE)), NO_LINE, TINT),
        *_ticks(across, up, x, y),
        Polyline(curve, BOLD),
    ]
    between = guide_post_gap + 0.1 if guide_post_gap + 0.1 < 0.8 * most else (guide_post_gap + most) / 2
    marks = [(guide_post_gap, "Guides set close"), (between, "Guides at"), (most, "Guides left all the way up")]
    right = [
        Note(words, f"{show(gap, 'work_size')}: {show(kept(gap), 'percent')}", (x(gap), y(kept(gap))))
        for gap, words in marks
    ]
    picture += [Circle(note.target, 0.9, THIN, SOLID) for note in right]
    alt = f"Chart of sideways stiffness against guide height above work {show(work, 'work_size')} tall: " + listed(
        right
    )
    foot = (
        f"Work {show(work, 'work_size')} tall. Across: guides above the work. Up: sideways stiffness at the teeth, as a share of"
        " what it is with the guides set close.",
    )
    return compose("height_chart", "Why the guides go down", alt, picture, BASE + 6, (), right, foot)
