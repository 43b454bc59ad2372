"""What to buy when no blade on the rack serves a job, and how few blades do all jobs: the criteria turned round."""

from collections.abc import Callable, Collection, Mapping
from typing import Any

from sawside.calc import choice, radius
from sawside.calc.limits import OutsideMethod
from sawside.calc.margins import SAME
from sawside.calc.tables import published_radius
from sawside.families.family import Printing
from sawside.families.wood_band_saw.margins import METAL_FASTEST, METALS, SHEETS, WIDTH_FOR


def what_to_buy(value: Callable[..., Any], printer: Printing) -> str:
    """Say what a blade for one job on one saw has to be, or why no blade can do.

    Takes: value(name) of a machine with any blade and the job; of the blade only its thickness counts, for the length.
    Gives: a sentence part.
    """
    refusal = _no_blade(value, printer.text)
    if refusal:
        return f"no blade can do it: {refusal}"
    try:
        ask = _asked(value)
    except OutsideMethod as error:
        return f"no blade can do it: the curve is too tight ({error})"
    if ask.width_least > ask.width_most * (1 + SAME):
        least, most = (printer.text(width, "blade_width") for width in (ask.width_least, ask.width_most))
        return f"no blade can do it: saw or straight cut ask for {least} of width or more, curve or saw for {most} or less"
    if ask.conflict:
        return f"no blade can do it: {ask.conflict}"
    text = printer.text
    parts = [_between(ask.width_least, ask.width_most, printer), _thin(ask, value, text), _pitch(ask, text)]
    parts += [_gullets(value, text), " or ".join(printer.word(back) for back in ask.backs), _long(value, text)]
    return "a blade " + "; ".join(part for part in parts if part)


def _no_blade(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    """Return why the saw itself cannot do the job: too low, or too fast for the material."""
    room, work, speed = value("cutting_height_max"), value("work_height_max"), value("band_speed")
    if work > room:
        return f"{text(work, 'work_size', 'up')} of work, and the saw takes {text(room, 'work_size', 'down')}"
    if value("material") in METALS and (speed is None or speed > METAL_FASTEST):
        return f"band machines for metal end at {text(METAL_FASTEST, 'speed', 'down')}, and this saw is made for wood"
    return ""


def _asked(value: Callable[..., Any]) -> choice.Wanted:
    """Return the bounds of the blade: straight cut, curve, papers and pull of the saw, wheels, teeth, material."""
    cut, material = value("cut"), value("material")
    backs = choice.backs_for(material)
    least = max(value(WIDTH_FOR[cut]) if cut in WIDTH_FOR else 0.0, value("blade_width_min") or radius.FIT_NARROWEST)
    most = [radius.FIT_WIDEST, *(w for w in (value("blade_width_max"), _pulled(value), _carried(value)) if w is not None)]
    if value("cut_radius") is not None:
        most.append(radius.widest_for_radius(value("cut_radius")))
    teeth_most = value("teeth_most") if material in METALS + SHEETS else None
    return choice.wanted(
        least,
        min(most),
        value("smaller_wheel"),
        value("thickness_ratio_least"),
        value("work_height_min"),
        value("work_height_max"),
        value("teeth_least"),
        teeth_most,
        backs,
    )


def _pulled(value: Callable[..., Any]) -> float | None:
    """Return the width of a thin enough blade that the saw pulls to the low end of its range; gullets left out."""
    limit, low = value("wheel_load_max"), value("target_stress_low")
    if limit is None or low is None:
        return None
    return float(limit / (2 * low * value("smaller_wheel") / value("thickness_ratio_good")))


def _carried(value: Callable[..., Any]) -> float:
    """Return the width that the tyre carries with no more overhang than is allowed; gullets left out."""
    tyre, allowed = value("tyre_width"), value("overhang_allowed")
    return float(min(tyre, tyre / 2 + allowed) if value("maker_tracking") == "gullet_centred" else tyre)


def _between(low: float, high: float, printer: Printing) -> str:
    least, most = printer.text(low, "blade_width", "up"), printer.text(high, "blade_width", "down")
    return f"{least} wide" if least == most else f"{least} to {most} wide"


def _thin(ask: choice.Wanted, value: Callable[..., Any], text: Callable[..., Any]) -> str:
    good = value("smaller_wheel") / value("thickness_ratio_good")
    most = text(ask.thickness_most, "thickness", "down")
    return f"{text(good, 'thickness', 'down')} thick or less, never over {most}"


def _pitch(ask: choice.Wanted, text: Callable[..., Any]) -> str:
    coarse = f"{text(ask.pitch_coarsest, 'pitch', 'down')} or finer"
    return coarse + (f", but not finer than {text(ask.pitch_finest, 'pitch', 'up')}" if ask.pitch_finest else "")


def _gullets(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    """Return how deep the gullets have to be for the wanted feed: gullet fill turned round."""
    feed, speed = value("feed_wanted"), value("band_speed")
    if feed is None or speed is None:
        return ""
    depth = feed * value("work_height_max") / (value("gullet_fill") * value("gullet_shape") * speed)
    return f"gullets {text(depth, 'small_length', 'up')} deep or more"


def _long(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    length = value("rated_blade_length") or value("loop_length")
    return f"{text(length, 'blade_length')} long" if length else ""


def fewest_words(able: Mapping[str, Collection[str]]) -> str:
    """Say how few blades do all jobs of a saw, and which jobs no blade does.

    Takes: able, job's name -> ids of the blades that do it, best first.

    >>> fewest_words({"rip": ["b13"], "curve": ["b6"], "re-saw": ["b19", "b13"], "log": []})
    '2 blades do 3 of 4 jobs: b13, b6. No blade on the rack does: log'
    >>> fewest_words({"log": []})
    'no blade on the rack does any of these jobs'
    """
    possible = {job: blades for job, blades in able.items() if blades}
    if not possible:
        return "no blade on the rack does any of these jobs"
    few = sorted(choice.fewest_blades(possible))
    left = [job for job in able if job not in possible]
    jobs = f"{len(possible)} of {len(able)} jobs" if left else "all jobs"
    words = f"{len(few)} blade{'s do' if len(few) > 1 else ' does'} {jobs}: {', '.join(few)}"
    return words + (f". No blade on the rack does: {', '.join(left)}" if left else "")


def sources_differ(value: Callable[..., Any], printer: Printing) -> tuple[str, ...]:
    """Return where printed sources disagree on one blade for one job: its width, its teeth, its tightest curve."""
    return tuple(line for rule in (_resaw, _teeth, _curve) if (line := rule(value, printer.text)))


def _resaw(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    if value("cut") not in ("resaw", "log"):
        return ""
    return (
        "sources differ on re-sawing: saw manuals take the widest blade the saw holds, a blade maker's page says a"
        " narrower one runs straighter, a magazine takes the widest that the saw can still tension"
    )


def _teeth(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    teeth = value("teeth_in_work_least")
    if teeth is None or not 2 <= teeth < 3:
        return ""
    return (
        "sources differ on teeth in the work: a textbook asks for 3, a US Navy course, about bands for metal, for 2;"
        f" here it is {text(teeth, 'ratio')}"
    )


def _curve(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    if value("cut_radius") is None:
        return ""
    try:
        low, high = (text(r, "radius") for r in published_radius(value("blade_width")))
    except OutsideMethod:
        return ""
    return f"three printed tables give {low} to {high} as the tightest curve of this width" if low != high else ""
