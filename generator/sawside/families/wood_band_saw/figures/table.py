"""Table, square and stop bolt from the front; board, cut and fence from above."""

import math

from sawside.families.wood_band_saw.figures.plate import LEFT, MIDDLE, RIGHT, Show, compose
from sawside.figures.drawing import (
    BOLD,
    CENTRE,
    HATCH,
    HIDDEN,
    OUTLINE,
    SHADE,
    SOLID,
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
    Shape,
    rectangle,
)  # fmt: skip
from sawside.figures.labels import Note

#: Height of the table's surface and place of the stop bolt in the picture [mm]; the drift drawn instead of a real one.
SURFACE, BOLT, DRAWN_DRIFT = 40.0, MIDDLE + 21.0, math.radians(6.0)
#: What to do with each kind of fence once the drift is known.
FENCES = {
    "adjustable": "Set the fence to the same angle",
    "fixed": "This fence cannot be turned: track the blade again",
    "none": "No fence: clamp a straight board at the same angle",
}


def table_and_square(
    blade_width: float, square_tolerance: float | None = None, table_stop: bool | None = None,
    table_stop_arm: float | None = None, table_stop_pitch: float | None = None, *, show: Show,
) -> Drawing:  # fmt: skip
    """Return a square standing on the table against the flat of the blade, and the stop bolt below where there is one.

    Takes blade_width, table_stop_arm, table_stop_pitch [m], square_tolerance [rad]. One turn of the bolt tilts the
    table by atan(pitch / arm). Holds for: a bolt square to its arm. Not to scale.
    """
    picture = [*_table(), *_square(), *_trunnion()]
    left = [
        Note("Blade, tensioned, guides set back", show(blade_width, "blade_width"), (MIDDLE, 10.0)),
        Note("Tilt axis, locked", "", (MIDDLE - 1.4, SURFACE + 15)),
    ]
    right = [Note("Square on the body of the blade, between two teeth", "", (MIDDLE + 3, 16.0))]
    if square_tolerance is not None:
        right.append(Note("Square within", show(square_tolerance, "angle"), (MIDDLE + 0.6, 30.0)))
    if table_stop:
        picture += _stop()
        turn = _per_turn(table_stop_arm, table_stop_pitch, show)
        right.append(Note("Stop bolt: the table rests on it", turn, (BOLT, SURFACE + 14)))
    if table_stop and table_stop_arm:
        y = SURFACE + 29
        picture.append(Dimension((MIDDLE, y), (BOLT, y), (((BOLT, y - 7), (BOLT, y + 1)),)))
        left.append(Note("Stop bolt to tilt axis", show(table_stop_arm, "work_size"), (MIDDLE, y)))
    says = "Front view: a square stands on the table against the flat of the blade"
    foot = "Saw isolated. Look against the light: no light between square and blade from top to bottom. Not to scale."
    return compose("table_and_square", "Table square to the blade", says, picture, SURFACE + 34, left, right, (foot,))


def _table() -> list[Shape]:
    """Return the table cut through at the blade, and the blade upright in its slot."""
    return [
        Polygon(rectangle(LEFT + 2, SURFACE, MIDDLE - 1.5, SURFACE + 5), OUTLINE, HATCH),
        Polygon(rectangle(MIDDLE + 1.5, SURFACE, RIGHT - 2, SURFACE + 5), OUTLINE, HATCH),
        Line((MIDDLE, 4), (MIDDLE, SURFACE + 26), BOLD),
    ]


def _per_turn(arm: float | None, pitch: float | None, show: Show) -> str:
    """Return what one turn of the stop bolt does to the table's tilt, as far as known."""
    if arm and pitch:
        return f"one turn: {show(math.atan2(pitch, arm), 'angle')}"
    return f"one turn: {show(pitch, 'gap')}" if pitch else ""


def _square() -> list[Shape]:
    """Return a try square on the table: stock lying, tongue upright against the blade."""
    x = MIDDLE + 0.6
    return [
        Polygon(rectangle(x, 8, x + 5, SURFACE), OUTLINE, TINT),
        Polygon(rectangle(x + 5, SURFACE - 6, x + 24, SURFACE), OUTLINE, SHADE),
    ]


def _trunnion() -> list[Shape]:
    """Return the tilt axis below the table and the curved support it turns in."""
    centre = (MIDDLE, SURFACE + 15)
    return [
        Arc(centre, 12.0, 0.35, math.pi - 0.35, THIN),
        Arc(centre, 14.5, 0.35, math.pi - 0.35, THIN),
        Circle(centre, 1.4, OUTLINE, SOLID),
        Line((MIDDLE - 5, centre[1]), (MIDDLE + 5, centre[1]), CENTRE),
    ]


def _stop() -> list[Shape]:
    """Return the stop bolt with its lock nut, its head against the table's underside."""
    x = BOLT
    thread = [Line((x - 1.2, SURFACE + 9 + i), (x + 1.2, SURFACE + 8.4 + i), THIN) for i in range(1, 12)]
    return [
        Polygon(rectangle(x - 2.2, SURFACE + 5, x + 2.2, SURFACE + 8), OUTLINE, SHADE),
        Polygon(rectangle(x - 1.2, SURFACE + 8, x + 1.2, SURFACE + 22), OUTLINE),
        *thread,
        Polygon(rectangle(x - 2.6, SURFACE + 16, x + 2.6, SURFACE + 18.4), OUTLINE, TINT),
    ]


def fence_drift(
    fence: str, fence_length: float | None = None, blade_width: float | None = None, mitre_slot: bool | None = None,
    *, show: Show,
) -> Drawing:  # fmt: skip
    """Return the drift cut from above: the line on the board, the board held as it cuts true, the fence to match.

    Takes fence_length, blade_width [m]. The angle drawn is an example, larger than most; how much one degree is over
    the fence is L tan 1 degree. Holds for: a steady drift.
    """
    angle = _ANGLE.at((_ANGLE.start + _ANGLE.end) / 2)
    left = [
        Note("Line scribed along the board", "", _turned(0.0, 20.0)),
        Note("Hold the board as it cuts true, draw a line along its edge: this is the drift", "", angle),
    ]
    right = [
        Note("Blade", show(blade_width, "blade_width") if blade_width else "", (MIDDLE, 27.0)),
        Note(FENCES[fence], "", (MIDDLE + 19.5, 46.0) if fence == "fixed" else _turned(19.5, 16.0)),
    ]
    if fence_length and fence == "adjustable":
        shift = show(fence_length * math.tan(math.radians(1.0)), "gap_wide")
        words = f"Over {show(fence_length, 'work_size')} of fence one degree is"
        right.append(Note(words, shift, _turned(19.5, 36.0)))
    if mitre_slot:
        left.append(Note("Mitre slot", "", (LEFT + 6, 62.0)))
    foot = (
        "Seen from above, you stand below. The angle is drawn larger than life. A dull or unevenly set blade drifts:"
        " put that right before the fence."
    )
    picture = [*_plan(fence, mitre_slot), *_board()]
    return compose("fence_drift", "Drift and fence", "Drift cut from above", picture, 81.0, left, right, (foot,))


def _turned(x: float, y: float) -> Point:
    """Return a point of the board, given square to it from the blade's front, turned by the drawn drift [mm]."""
    c, s = math.cos(DRAWN_DRIFT), math.sin(DRAWN_DRIFT)
    return MIDDLE + x * c - y * s, 30.0 + x * s + y * c


#: The drawn angle, between straight ahead and the board's line, in front of the blade.
_ANGLE = Arc((MIDDLE, 30.0), 27.0, math.pi / 2, math.pi / 2 + DRAWN_DRIFT)


def _plan(fence: str, slot: bool | None) -> list[Shape]:
    """Return the table from above with blade, fence and mitre slot."""
    shapes: list[Shape] = [Polygon(rectangle(LEFT, 4, RIGHT, 72), OUTLINE)]
    if slot:
        shapes.append(Polygon(rectangle(LEFT + 4, 4, LEFT + 8, 72), THIN, TINT))
    turn = DRAWN_DRIFT if fence != "fixed" else 0.0
    stroke = HIDDEN if fence == "none" else OUTLINE
    c, s = math.cos(turn), math.sin(turn)
    corners = ((17.0, -24.0), (22.0, -24.0), (22.0, 40.0), (17.0, 40.0))
    shapes.append(Polygon(tuple((MIDDLE + x * c - y * s, 30 + x * s + y * c) for x, y in corners), stroke, HATCH))
    return shapes


def _board() -> list[Shape]:
    """Return the board turned by the drift: its cut straight from the front end to the blade, the line going on."""
    corners = tuple(_turned(x, y) for x, y in ((-17.0, -20.0), (10.0, -20.0), (10.0, 36.0), (-17.0, 36.0)))
    teeth = ((MIDDLE - 0.9, 30.0), (MIDDLE + 0.9, 30.0), (MIDDLE, 32.0))
    return [
        Polygon(corners, OUTLINE, TINT),
        Line(_turned(0, -20), _turned(0, 36), CENTRE),
        Line(_turned(0, -20), _turned(0, 0), BOLD),
        Polygon(rectangle(MIDDLE - 0.7, 22.0, MIDDLE + 0.7, 30.0), OUTLINE, SOLID),
        Polygon(teeth, THIN, SOLID),
        Line((MIDDLE, 33.0), (MIDDLE, 64.0), THIN),
        _ANGLE,
        Arrow(((MIDDLE, 80), (MIDDLE, 74))),
    ]
