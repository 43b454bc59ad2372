"""Printed data for the sheets that are used at the saw: the test-cut worksheet and the true-scale sheet."""

import math

from sawside.calc import testcut
from sawside.calc.limits import OutsideMethod
from sawside.families.family import Get
from sawside.kinds.view_types import Coil, HeightLimits, TestCut
from sawside.printing import Printer

#: Differences of the look-up table [m], our choice: from what calipers just show to what nobody needs a table for.
DIFFERENCES = tuple(step * 1e-3 for step in (0.05, 0.10, 0.15, 0.20, 0.30, 0.40, 0.50, 0.75, 1.0))
#: Heights between the readings for which the sheet prints the limits [m]; the one to aim at is among them.
HEIGHTS = tuple(step * 1e-3 for step in (40, 50, 75, 100))


def worksheet(value: Get, printer: Printer) -> TestCut:
    """Return the printed data of the test-cut worksheet; `value` gives a field or value in SI, None when unknown.

    Returns nothing for a family that has no height of a test piece.
    """
    doubt, tolerance, height = value("caliper_doubt"), value("square_tolerance"), value("test_height")
    if doubt is None or tolerance is None or height is None:
        return {}
    room = max(height, (value("cutting_height_max") or 0.0) - testcut.ROOM_ABOVE)
    arm, pitch = value("table_stop_arm"), value("table_stop_pitch")
    stop = value("table_stop") is not False
    angles = {d: math.atan2(d / 2, height) for d in DIFFERENCES}  # the error shows twice
    return {
        "height": printer.text(height, "work_size"),
        "tolerance": printer.text(tolerance, "angle"),
        "caliper_doubt": printer.text(doubt, "gap"),
        "limits": [_limits(doubt, tolerance, h, printer) for h in sorted({height, *HEIGHTS}) if h <= room],
        "rows": [
            {
                "difference": printer.text(d, "gap"),
                "angle": printer.text(angle, "angle"),
                "turns": _turns(testcut.stop_bolt_turns(angle, arm, pitch)) if arm is not None and pitch is not None else "",
            }
            for d, angle in angles.items()
        ],
        "stop": stop,
        "needs": [
            printer.label(name) for name, found in (("table_stop_arm", arm), ("table_stop_pitch", pitch)) if found is None and stop
        ],
        "advice": list(ADVICE),
    }


def _limits(doubt: float, tolerance: float, height: float, printer: Printer) -> HeightLimits:
    """Return one height between the readings with its two printed limits; no accepting when the calipers are too coarse."""
    try:
        accept = printer.text(testcut.turned_cut_limit(doubt, tolerance, height, "accept"), "gap", "down")
    except OutsideMethod:
        accept = ""
    adjust = printer.text(testcut.turned_cut_limit(doubt, tolerance, height, "adjust"), "gap", "up")
    return {"height": printer.text(height, "work_size"), "accept": accept, "adjust": adjust}


ADVICE = (
    "d above 0: the piece is thicker at the top; there the blade stands further from it. Isolate the saw before you touch"
    " the table. Move half of what is needed, cut both sides again, read again: that shows the direction, too.",
    "The same face lay on the table both times, so the piece's own corner drops out and the error of the table shows twice."
    " The angle beside takes that into account.",
)


def _turns(turns: float) -> str:
    """Return turns in eighths, the finest that is turned by hand.

    >>> _turns(0.2), _turns(1.5), _turns(0.01)
    ('1/4', '1 1/2', 'under 1/8')
    """
    eighths = round(turns * 8)
    if eighths == 0:
        return "under 1/8"
    whole, rest = divmod(eighths, 8)
    divisor = math.gcd(rest, 8)
    part = f"{rest // divisor}/{8 // divisor}" if rest else ""
    return " ".join(text for text in (str(whole) if whole else "", part) if text)


def coils(blades: list[tuple[str, float]], printer: Printer) -> list[Coil]:
    """Return name, diameter [mm] and printed diameter of each blade's coil; takes pairs of name and diameter [m]."""
    return [{"name": name, "diameter": diameter * 1e3, "text": printer.text(diameter, "work_size")} for name, diameter in blades]
