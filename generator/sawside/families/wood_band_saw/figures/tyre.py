"""The blade on the tyre: both ways of tracking, cut through the rim, front rims in line below each other."""

from dataclasses import dataclass

from sawside.families.wood_band_saw.figures.plate import MIDDLE, ROOM, Show, centred, compose
from sawside.figures.drawing import (
    CENTRE,
    HATCH,
    OUTLINE,
    SHADE,
    SMALL_SIZE,
    SOLID,
    THIN,
    Dimension,
    Drawing,
    Line,
    Point,
    Polygon,
    Shape,
    rectangle,
)  # fmt: skip
from sawside.figures.labels import Note

#: From one school's rim to the other's, the height of the rim, and the first rim's place [mm].
STEP, RIM, TOP = 47.0, 8.0, 20.0
NONE = "nothing over the rim"
#: Short enough for one line between the columns.
HEADINGS = {"gullet_centred": "Gullets in the middle", "blade_centred": "Blade in the middle"}


@dataclass(frozen=True)
class _School:
    """One way of tracking: gullets behind the front rim, and what hangs over in front and at the back [m]."""

    name: str
    line: float
    front: float
    back: float


def blade_on_tyre(
    tyre_width: float, blade_width: float, gullet: float, gullet_line_gullet_school: float,
    gullet_line_blade_school: float, overhang_front_gullet_school: float, overhang_back_gullet_school: float,
    overhang_front_blade_school: float, overhang_back_blade_school: float, tyre_shape: str | None = None,
    maker_tracking: str | None = None, *, show: Show,
) -> Drawing:  # fmt: skip
    """Return a cut through the upper rim with the blade on it, once for each way of tracking, widths in one scale.

    Takes every length in [m]; a gullet line is its distance behind the front rim. Blade thickness and crown are not to
    scale. Holds for: any widths; what hangs over is body, the teeth in front of the gullet line are not counted.
    """
    schools = (
        _School("gullet_centred", gullet_line_gullet_school, overhang_front_gullet_school, overhang_back_gullet_school),
        _School("blade_centred", gullet_line_blade_school, overhang_front_blade_school, overhang_back_blade_school),
    )
    least = min(0.0, *(s.line - gullet for s in schools))
    most = max(tyre_width, *(s.line - gullet + blade_width for s in schools))
    scale = (ROOM - 4) / (most - least)
    zero = MIDDLE - scale * (most + least) / 2
    edge, picture, left, right = zero + scale * tyre_width, [], [], []
    for i, school in enumerate(schools):
        y, x = TOP + i * STEP, zero + scale * school.line
        picture += [*_heading(school.name, y, maker_tracking), *_rim(zero, y, edge - zero, tyre_shape)]
        picture += [*_blade((x, y), scale * blade_width, scale * gullet), *_overhangs(school, scale, zero, edge, y - 4)]
        left += [Note("Front", _hang(school.front, show), (zero, y + 1.5)), _gullets(school, (x, y - 1.8), show)]
        right.append(Note("Back", _hang(school.back, show), (edge, y + 1.5)))
    body = zero + scale * (schools[0].line + 0.6 * (blade_width - gullet))
    right.append(Note("Blade", show(blade_width, "blade_width"), (body, TOP - 0.7)))
    right.append(Note("Tyre, rim to rim", show(tyre_width, "blade_width"), (zero + 0.8 * (edge - zero), TOP + STEP + 7)))
    says = "The upper wheel's rim cut through, front at the left, " + ", ".join(_says(s, show) for s in schools)
    title, foot = "Where the blade runs on the tyre", _foot(tyre_shape, show)
    return compose("blade_on_tyre", title, says, picture, TOP + STEP + 24, left, right, foot)


def _says(school: _School, show: Show) -> str:
    return f"{HEADINGS[school.name].lower()}: front {_hang(school.front, show)}, back {_hang(school.back, show)}"


def _foot(tyre_shape: str | None, show: Show) -> tuple[str]:
    shape = show(tyre_shape, "word") if tyre_shape else "shape not known, drawn flat"
    return (
        f"Widths in proportion; tyre {shape}; blade thickness and crown drawn larger than life. Front, where you stand,"
        " is at the left. The machine maker's way of tracking goes first.",
    )


def _gullets(school: _School, target: Point, show: Show) -> Note:
    """Return how far the gullets lie behind the front rim, or before it when the blade hangs over in front."""
    side = "behind" if school.line >= 0 else "in front of"
    return Note(f"Gullets {side} the front rim", show(abs(school.line), "small_length"), target)


def _hang(length: float, show: Show) -> str:
    return f"{show(length, 'small_length')} over the rim" if length else NONE


def _heading(name: str, y: float, wanted: str | None) -> list[Shape]:
    """Return the heading of a school, clear of the leaders; the one the machine's maker wants is bold and says so."""
    found: list[Shape] = [centred(MIDDLE, y - 14.0, HEADINGS[name], strong=name == wanted)]
    return [*found, centred(MIDDLE, y - 9.0, "the maker wants this", SMALL_SIZE)] if name == wanted else found


def _overhangs(school: _School, scale: float, zero: float, edge: float, y: float) -> list[Shape]:
    front, back = scale * school.front, scale * school.back
    ends = [(zero - front, zero)] * bool(front) + [(edge, edge + back)] * bool(back)
    return [Dimension((a, y), (b, y)) for a, b in ends]


def _rim(zero: float, y: float, wide: float, shape: str | None) -> list[Shape]:
    """Return the cut rim: its face bowed up when crowned, level otherwise, and the line through its middle."""
    rise = 1.2 if shape == "crowned" else 0.0
    face: list[Point] = [(zero + wide * i / 12, y + rise * ((i / 6 - 1) ** 2)) for i in range(13)]
    below = [(zero + wide, y + RIM), (zero, y + RIM)]
    middle = zero + wide / 2
    return [Polygon((*face, *below), OUTLINE, HATCH), Line((middle, y - 4.5), (middle, y + RIM + 2), CENTRE)]


def _blade(place: Point, wide: float, gullet: float) -> list[Shape]:
    """Return the blade lying on the rim: body shaded, teeth black in front of the gullet line at `place` [mm]."""
    (x, y), top = place, place[1] - 1.5
    return [
        Polygon(rectangle(x, top, x + wide - gullet, y - 0.2), OUTLINE, SHADE),
        Polygon(((x, top), (x, y - 0.2), (x - gullet, (top + y - 0.2) / 2)), THIN, SOLID),
        Line((x, top - 3), (x, top), THIN),
    ]
