"""How band saw people name a blade and a job."""

from typing import Any

from sawside.families.family import Printing
from sawside.model import Record

#: Widths that band blades are sold in, in inches: (sixteenths) as written.
TRADE_WIDTHS = {
    2: "1/8",
    3: "3/16",
    4: "1/4",
    6: "3/8",
    8: "1/2",
    10: "5/8",
    12: "3/4",
    14: "7/8",
    16: "1",
    20: "1 1/4",
    24: "1 1/2",
    32: "2",
}
#: A metric blade is called by an inch width when it is this near to it [m].
NEAR = 0.6e-3


def blade_words(blade: Record, printer: Printing) -> dict[str, Any]:
    """Return a blade as the trade says it: width x thickness and pitch, length, back, and how else it is written."""
    width = printer.text(blade.get("blade_width"), "blade_width")
    thickness = printer.text(blade.get("blade_thickness"), "thickness")
    return {
        "section": f"{width} x {thickness}, {printer.text(blade.get('tooth_pitch'), 'pitch')}",
        "length": printer.text(blade.get("blade_length"), "blade_length"),
        "back": printer.word(blade.get("blade_back")),
        "also_written": also_written(blade.get("blade_width"), blade.get("tooth_pitch")),
    }


def also_written(blade_width: float, tooth_pitch: float) -> list[str]:
    """Return how people write a blade: width in inches or millimetres, an x, teeth to the inch.

    Takes: blade_width, tooth_pitch [m]. Holds for: any blade; the inch name is left out where no trade width is near.

    >>> also_written(12.7e-3, 25.4e-3 / 6), also_written(0.013, 25.4e-3 / 6), also_written(0.02, 0.01)
    (['1/2 x 6', '13 x 6', '12.7 x 6'], ['1/2 x 6', '13 x 6'], ['20 x 2.5'])
    """
    teeth = f"{round(25.4e-3 / tooth_pitch, 1):g}"
    sixteenth = min(TRADE_WIDTHS, key=lambda n: abs(n * 25.4e-3 / 16 - blade_width))
    near = abs(sixteenth * 25.4e-3 / 16 - blade_width) <= NEAR
    widths = [TRADE_WIDTHS[sixteenth]] if near else []
    widths += [f"{round(blade_width * 1e3)}", f"{round(blade_width * 1e3, 1):g}"]
    return [f"{width} x {teeth}" for width in dict.fromkeys(widths)]


def job_words(job: Record, printer: Printing) -> str:
    """Return a job's work in a few words: material, thickness, tightest curve."""
    low, high = (printer.text(job.get(n), "work_size") for n in ("work_height_min", "work_height_max"))
    size = low if low == high else f"{low} to {high}"
    radius = job.get("cut_radius")
    return f"{printer.word(job.get('material'))}, {size}" + (f", radius {printer.text(radius, 'radius')}" if radius else "")
