"""The blade on the tyre: both ways of tracking, cut through the rim, front rims in line below each other."""

from sawside.families.wood_band_saw.figures.plate import MIDDLE, ROOM, Note, Show, centred, compose, listed
from sawside.figures.drawing import (
    CENTRE, HATCH, OUTLINE, SHADE, SMALL_SIZE, SOLID, THIN, Dimension, Drawing, Line, Point, Polygon, Shape, rectangle,
)  # fmt: skip

#: From one school's rim to the other's, the height of the rim, and the first rim's place [mm].
STEP, RIM, TOP = 36.0, 8.0, 16.0
NONE = "nothing over the rim"
#: Short enough for one line between the columns.
HEADINGS = {"gullet_centred": "Gullets in the middle", "blade_centred": "Blade in the middle"}


def blade_on_tyre(tyre_width: float, blade_width: float, gullet: float, gullet_line_gullet_school: float,
                  gullet_line_blade_school: float, overhang_front_gullet_school: float,
                  overhang_back_gullet_school: float, overhang_front_blade_school: float,
                  overhang_back_blade_school: float, tyre_shape: str | None = None, maker_tracking: str | None = None,
                  *, show: Show) -> Drawing:
    """Return a cut through the upper rim with the blade on it, once for each way of tracking, widths in one scale.

    Takes every length in [m]; a gullet line is its distance behind the front rim. Blade thickness and crown are not to
    scale. Holds for: any widths; what hangs over is body, the teeth in front of the gullet line are not counted.
    """
    schools = (
        ("gullet_centred", gullet_line_gullet_school, overhang_front_gullet_school, overhang_back_gullet_school),
        ("blade_centred", gullet_line_blade_school, overhang_front_blade_school, overhang_back_blade_school),
    )
    least = min(0.0, *(line - gullet for _, line, _, _ in schools))
    most = max(tyre_width, *(line - gullet + blade_width for _, line, _, _ in schools))
    scale = (ROOM - 4) / (1000 * (most - least))
    zero = MIDDLE - 1000 * scale * (most + least) / 2
    picture, left, right, told = [], [], [], []
    for i, (school, line, front, back) in enumerate(schools):
        y = TOP + i * STEP
        place = (zero + 1000 * scale * line, y)
        sizes = (1000 * scale * tyre_width, 1000 * scale * blade_width, 1000 * scale * gullet)
        picture += _rim(zero, y, sizes[0], tyre_shape) + _blade(place, sizes)
        picture += [centred(MIDDLE, y - 11.2, HEADINGS[school], strong=school == maker_tracking)]
        hangs = [Dimension((zero - 1000 * scale * front, y - 4), (zero, y - 4))] if front else []
        edge = zero + sizes[0]
        hangs += [Dimension((edge, y - 4), (edge + 1000 * scale * back, y - 4))] if back else []
        picture += hangs
        left.append(Note("Front", _hang(front, show), (zero, y + 1.5)))
        right.append(Note("Back", _hang(back, show), (edge, y + 1.5)))
        left.append(Note(*_line_words(line, show), (place[0], y - 1.8)))
        if school == maker_tracking:
            picture.append(centred(MIDDLE, y - 7.0, "the maker wants this", SMALL_SIZE))
        told.append(f"{HEADINGS[school].lower()}: front {_hang(front, show)}, back {_hang(back, show)}")
    right.append(Note("Tyre, rim to rim", show(tyre_width, "blade_width"), (zero + sizes[0] * 0.8, TOP + STEP + RIM - 1)))
    right.append(Note("Blade", show(blade_width, "blade_width"), (place[0] + 0.6 * (sizes[1] - sizes[2]), TOP - 0.7)))
    alt = listed(f"The upper wheel's rim cut through, front at the left, tyre {show(tyre_width, 'blade_width')}, blade "
                  f"{show(blade_width, 'blade_width')}", *told)
    shape = show(tyre_shape, "word") if tyre_shape else "shape not known, drawn flat"
    foot = (f"Widths in proportion; tyre {shape}; blade thickness and crown drawn larger than life. Front, where you stand,"
            " is at the left. The machine maker's way of tracking goes first.",)
    return compose("blade_on_tyre", "Where the blade runs on the tyre", alt, picture, TOP + STEP + RIM + 2, left, right, foot)


def _line_words(line: float, show: Show) -> tuple[str, str]:
    """Return how far the gullets lie behind the front rim, or before it when the blade hangs over in front."""
    return f"Gullets {'behind' if line >= 0 else 'in front of'} the front rim", show(abs(line), "small_length")


def _hang(length: float, show: Show) -> str:
    return f"{show(length, 'small_length')} over the rim" if length else NONE


def _rim(zero: float, y: float, wide: float, shape: str | None) -> list[Shape]:
    """Return the cut rim: its face bowed up when crowned, level otherwise, and the line through its middle."""
    rise = 1.2 if shape == "crowned" else 0.0
    face: list[Point] = [(zero + wide * i / 12, y + rise * ((i / 6 - 1) ** 2)) for i in range(13)]
    below = [(zero + wide, y + RIM), (zero, y + RIM)]
    middle = zero + wide / 2
    return [Polygon((*face, *below), OUTLINE, HATCH), Line((middle, y - 4.5), (middle, y + RIM + 2), CENTRE)]


def _blade(place: Point, sizes: tuple[float, float, float]) -> list[Shape]:
    """Return the blade lying on the rim: body shaded, teeth black in front of the gullet line."""
    (x, y), (_, wide, gullet) = place, sizes
    top = y - 1.5
    return [
        Polygon(rectangle(x, top, x + wide - gullet, y - 0.2), OUTLINE, SHADE),
        Polygon(((x, top), (x, y - 0.2), (x - gullet, (top + y - 0.2) / 2)), THIN, SOLID),
        Line((x, top - 3), (x, top), THIN),
    ]


