"""Two charts to read settings from: pitch for a thickness of work, and what a high guide costs."""

import math
from collections.abc import Callable

from sawside.calc import stiffness
from sawside.families.wood_band_saw.figures.plate import LEFT, RIGHT, ROOM, Show, compose
from sawside.figures import labels
from sawside.figures.drawing import (
    BOLD,
    CENTRE,
    HATCH,
    LEADING,
    NO_LINE,
    OUTLINE,
    SMALL_SIZE,
    SOLID,
    THIN,
    TINT,
    Circle,
    Dimension,
    Drawing,
    Label,
    Line,
    Point,
    Polygon,
    Polyline,
    Shape,
    Text,
)  # fmt: skip
from sawside.figures.labels import Note
from sawside.figures.lettering import width, wrap

#: Places a value on paper [mm].
Place = Callable[[float], float]
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
        (texts for texts in found if len(texts) >= 2), key=lambda texts: max(len(text) for _, text in texts), default=found[0]
    )


def _steps(most: float, series: tuple[float, ...]) -> tuple[float, ...]:
    """Return even steps from nought, the step taken from a series so that about four fit below `most` [m].

    >>> [round(1000 * value) for value in _steps(0.11, (0.02, 0.05, 0.1))]
    [20, 40, 60, 80, 100]
    """
    step = next((value for value in series if most / value <= 6), most)
    return tuple(step * i for i in range(1, int(most / step + 1e-9) + 1))


def _ticks(across: list[tuple[float, str]], up: list[tuple[float, str]], x: Place, y: Place) -> list[Shape]:
    """Return the frame of a chart with its tick marks and as many tick texts as have room."""
    shapes: list[Shape] = [Polyline(((LEFT, TOP), (LEFT, BASE), (RIGHT, BASE)), OUTLINE)]
    placed = [(x(value), text) for value, text in across]
    inside = [(at, text) for at, text in placed if at + width(text, SMALL_SIZE) / 2 <= RIGHT + 3]
    shapes += [Line((at, BASE), (at, BASE + 1.2), THIN) for at, _ in placed]
    shapes += [Text((at, BASE + 4.0), text, SMALL_SIZE, "middle") for at, text in labels.thin_out(inside, SMALL_SIZE)]
    last = BASE + 10.0
    for value, text in sorted(up, key=lambda entry: -y(entry[0])):
        at = y(value)
        shapes.append(Line((LEFT - 1.2, at), (LEFT, at), THIN))
        lines = wrap(text, LEFT - 2, SMALL_SIZE)
        tall = labels.height(lines, SMALL_SIZE)
        # the lowest ones stay clear of the texts below the chart
        if last - at > max(SMALL_SIZE * 1.5, tall) and at + tall / 2 < BASE + 4.0 - SMALL_SIZE * LEADING / 2:
            shapes.append(Label((LEFT - 2, at - tall / 2), lines, (), "end", SMALL_SIZE))
            last = at
    return shapes


def pitch_chart(
    tooth_pitch: float, teeth_least: float, teeth_most: float, cutting_height_max: float | None = None, *, show: Show,
) -> Drawing:  # fmt: skip
    """Return which pitch suits which thickness of work, with this blade's pitch marked; both scales logarithmic.

    Takes tooth_pitch, cutting_height_max [m], teeth_least, teeth_most [teeth in the work]. Permitted: from
    thickness / teeth_most to thickness / teeth_least. Holds for: teeth_least < teeth_most.
    """
    thin, thick = teeth_least * tooth_pitch, teeth_most * tooth_pitch
    x = _logarithmic(LEFT, RIGHT, thin / 4, thick * 2)
    y = _logarithmic(BASE, TOP, tooth_pitch / 5, tooth_pitch * 5)
    own, suits = y(tooth_pitch), f"{show(thin, 'work_size')} to {show(thick, 'work_size')}"
    pitch, teeth = show(tooth_pitch, "pitch"), f"{teeth_least:g} to {teeth_most:g} teeth in the work"
    ends = tuple(((x(work), own), (x(work), BASE)) for work in (thin, thick))
    picture: list[Shape] = [
        *(_face(x, y, tooth_pitch, (thin, thick), count) for count in (teeth_least, teeth_most)),
        *_ticks(_axis(thin / 4, thick * 2, "work_size", show, _ROUND_MM, _ROUND_IN),
                _axis(tooth_pitch / 5, tooth_pitch * 5, "pitch", show, _PITCH_MM, _PITCH_TPI), x, y),
        Dimension((x(thin), own + 4), (x(thick), own + 4), ends),
        Line((LEFT, own), (RIGHT, own), BOLD),
    ]  # fmt: skip
    right = [
        Note(f"Fewer than {teeth_least:g} teeth: rough, teeth break", "", (x(thin * 1.2), y(tooth_pitch * 2.6))),
        Note("This blade", pitch, (x(thick * 1.4), own)),
        Note(f"More than {teeth_most:g} teeth: clogs in thick work", "", (x(thick * 1.3), y(tooth_pitch / 3))),
    ]
    if cutting_height_max and thin / 4 < cutting_height_max < thick * 2:
        at = x(cutting_height_max)
        picture.append(Line((at, TOP), (at, BASE), CENTRE))
        right.append(Note("Tallest work of this saw", show(cutting_height_max, "work_size"), (at, TOP + 1)))
    says = f"Chart of tooth pitch against thickness of work, {pitch} suits work of {suits}, {teeth}"
    foot = f"This blade, {pitch}, suits work {suits} thick: {teeth}. Across: thickness of work. Up: pitch, coarser above."
    return compose("pitch_chart", "Pitch for the thickness of work", says, picture, BASE + 7, (), right, (foot,))


def _logarithmic(start: float, end: float, low: float, high: float) -> Place:
    """Return the function that places a value on a logarithmic axis running from start to end [mm]."""
    return lambda value: start + (end - start) * math.log(value / low) / math.log(high / low)


def _face(x: Place, y: Place, pitch: float, works: tuple[float, float], teeth: float) -> Polygon:
    """Return the face beyond a count of teeth: too few above the line (the lesser count), too many below it."""
    (thin, thick), few = works, teeth * pitch <= works[0]
    low, high = thin / 4, thick * 2
    run = [low * (high / low) ** (i / 80) for i in range(81)]
    edge = [(x(work), y(min(max(work / teeth, pitch / 5), pitch * 5))) for work in run]
    return Polygon((*edge, (RIGHT, TOP if few else BASE), (LEFT, TOP if few else BASE)), THIN, HATCH if few else TINT)


def height_chart(
    lower_guide_below_table: float, guide_post_gap: float, cutting_height_max: float, strand_force: float,
    body_width: float, blade_thickness: float, gullet: float, youngs_modulus: float, poisson_ratio: float,
    work_height_max: float | None = None, *, show: Show,
) -> Drawing:  # fmt: skip
    """Return how much of its sideways stiffness the blade keeps as the upper guides stand higher above the work.

    Takes lengths [m], strand_force [N], youngs_modulus [Pa]. 100 percent is the stiffness with the guides at
    guide_post_gap; without a job the work is taken a quarter as tall as the saw allows.
    Equation: stiffness.tip_stiffness. Holds for: as tip_stiffness, which raises OutsideMethod elsewhere.
    """
    gap, work = guide_post_gap, _work(cutting_height_max - guide_post_gap, cutting_height_max / 4, work_height_max)
    most = max(cutting_height_max - work, 2 * gap)

    def stiff(above: float) -> float:
        span = stiffness.guide_span(work, above, lower_guide_below_table)
        section = (strand_force, body_width, blade_thickness, gullet, youngs_modulus, poisson_ratio)
        return stiffness.tip_stiffness(span, *section)

    def at(above: float) -> Point:
        return LEFT + (ROOM - 4) * above / most, BASE - (BASE - TOP - 6) * stiff(above) / stiff(gap)

    between = gap + 0.1 if gap + 0.1 < 0.8 * most else (gap + most) / 2
    right = [
        Note(words, f"{show(above, 'work_size')}: {show(stiff(above) / stiff(gap), 'percent')}", at(above))
        for above, words in ((gap, "Guides set close"), (between, "Guides at"), (most, "Guides left all the way up"))
    ]
    curve = tuple(at(gap + (most - gap) * i / 60) for i in range(61))
    picture = [
        *_under(curve),
        *_percent_axes(most, show),
        *(Circle(note.target, 0.9, THIN, SOLID) for note in right if note.target),
    ]
    tall = f"{show(work, 'work_size')} tall"
    says = f"Chart of sideways stiffness against guide height above work {tall}"
    foot = (
        f"Work {tall}. Across: guides above the work. Up: sideways stiffness at the teeth, as a share of what it is"
        " with the guides set close."
    )
    return compose("height_chart", "Why the guides go down", says, picture, BASE + 7, (), right, (foot,))


def _work(most: float, usual: float, job: float | None) -> float:
    """Return the height of work to draw for: the job's where the guides can still be set close above it [m]."""
    return job if job and job < most else usual


def _under(curve: tuple[Point, ...]) -> list[Shape]:
    """Return a curve and the tinted face below it."""
    return [Polygon((*curve, (curve[-1][0], BASE), (curve[0][0], BASE)), NO_LINE, TINT), Polyline(curve, BOLD)]


def _percent_axes(most: float, show: Show) -> list[Shape]:
    """Return even axes: lengths from nought to `most` [m] across, quarters of the whole up."""
    across = _axis(0.0, most, "work_size", show, _steps(most, _ROUND_MM), _steps(most, _ROUND_IN))
    up = [(share, show(share, "percent")) for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
    return _ticks(across, up, lambda v: LEFT + (ROOM - 4) * v / most, lambda share: BASE - (BASE - TOP - 6) * share)
