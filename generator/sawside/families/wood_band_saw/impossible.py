"""What no band saw and no blade can be, though each measure by itself may: faults across the fields of one record.

Geometry needs no source. The shares marked so are common practice, no source: wide enough for every saw we know of, and
narrow enough to catch a slipped digit or a wrong unit.
"""

import math
from collections.abc import Iterator

from sawside.families.family import Get
from sawside.model import Record

#: Throat over wheel diameter: the blade that comes back down stands one wheel behind the cutting one, in or before the
#: column. Common practice, no source.
THROAT = (0.5, 1.05)
#: How far the tension screw may move the wheel, over the centre distance now. Common practice, no source.
TRAVEL = 0.25
#: How far the maker's blade length may lie from the way round the wheels. Common practice, no source.
LENGTH = 0.2
#: The larger wheel over the smaller. Common practice, no source: wheels are alike.
WHEELS = 1.5
#: Fastest blade [m/s]. Common practice, no source: saws for wood run at 10 to 50 m/s.
FASTEST = 80.0
#: Gullet depth over tooth pitch: usually a third to a half. Common practice, no source.
DEEPEST = 0.8

Found = tuple[str, str, str]
_AGAIN = "measure both again; check the unit and the decimal point"


def impossible(record: Record) -> tuple[Found, ...]:
    """Return what cannot be about a machine or a blade: the field to point at, what is wrong, what to do."""
    if record.type == "blade":
        return tuple(_blade(record.get))
    return tuple(_machine(record.get)) if record.type == "machine" else ()


def _blade(get: Get) -> Iterator[Found]:
    depth, pitch = get("gullet_depth"), get("tooth_pitch")
    if depth and depth > DEEPEST * pitch:
        yield (
            "gullet_depth",
            f"`gullet_depth` is {depth / pitch:.1f} times the tooth pitch: no tooth stands on so deep a gullet",
            "measure both again: a gullet is usually a third to a half of the pitch deep",
        )


def _machine(get: Get) -> Iterator[Found]:
    upper, lower, centres = get("wheel_diameter_upper"), get("wheel_diameter_lower"), get("centre_distance")
    apart = (upper + lower) / 2
    for name in ("centre_distance", "centre_distance_min"):
        if get(name) and get(name) <= apart:
            yield name, f"with `{name}` the wheels would touch: half of both diameters is more", _AGAIN
            return
    yield from _wheels(get, upper, lower)
    yield from _travel(get, centres)
    yield from _room(get, centres)
    round_the_wheels = 2 * centres + math.pi * apart
    rated = get("rated_blade_length")
    if rated and abs(rated / round_the_wheels - 1) > LENGTH:
        yield (
            "rated_blade_length",
            "`rated_blade_length` is far from the way round the wheels, two centre distances and half of each wheel's way round",
            "copy it again, or measure the wheels and `centre_distance` again",
        )


def _wheels(get: Get, upper: float, lower: float) -> Iterator[Found]:
    if max(upper, lower) > WHEELS * min(upper, lower):
        yield "wheel_diameter_lower", f"one wheel is more than {WHEELS:g} times as large as the other", _AGAIN
    speed, throat = get("wheel_speed"), get("throat")
    if speed and math.pi * max(upper, lower) * speed > FASTEST:
        yield "wheel_speed", f"with `wheel_speed` the blade would run faster than {FASTEST:g} m/s", _AGAIN
    if throat and not THROAT[0] * lower <= throat <= THROAT[1] * lower:
        less = "less than half" if throat < lower else "more than"
        yield (
            "throat",
            f"`throat` is {less} the wheel's diameter: blade and column stand about one wheel apart",
            "measure on the table from the blade to the column; check the unit and the decimal point",
        )


def _travel(get: Get, centres: float) -> Iterator[Found]:
    for name in ("centre_distance_max", "centre_distance_min"):
        if get(name) and abs(get(name) - centres) > TRAVEL * centres:
            yield name, f"`{name}` is more than a quarter away from `centre_distance`: no tension screw goes so far", _AGAIN


def _room(get: Get, centres: float) -> Iterator[Found]:
    """The guides stand between the wheels: what they open and how far they lie below the table is less than the strand."""
    height, below = get("cutting_height_max"), get("lower_guide_below_table")
    if below >= centres / 2:
        yield "lower_guide_below_table", "`lower_guide_below_table` is more than half of the strand between the wheels", _AGAIN
    elif height + below >= centres:
        yield (
            "cutting_height_max",
            "the guides would open further than the strand between the wheels is long",
            "`cutting_height_max` and `lower_guide_below_table` together must be less than `centre_distance`: measure again",
        )
