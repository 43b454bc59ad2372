"""How a blade stands on one job: limits as ratios (1 is just enough), and how well it suits, in three grades."""

from collections.abc import Callable
from typing import Any

from sawside.calc import choice
from sawside.calc import margins as ratios
from sawside.calc.choice import GOOD, MIDDLING, POOR, Grade
from sawside.calc.margins import Margin
from sawside.calc.setting import GOOD_ENOUGH
from sawside.calc.tables import SAME_SIZE, SPEED_WINDOWS
from sawside.families.family import Judgement, Printing

#: Materials for which too many teeth in the work clog and heat; for solid wood gullet and power decide instead.
METALS = ("aluminium", "steel")
SHEETS = ("plywood", "acrylic")
#: Fastest band of the whole range of metal machines [m/s], as published.
METAL_FASTEST = next(window.window[1] for window in SPEED_WINDOWS if window.work.startswith("metal machines"))
#: Teeth in solid wood above which gullets pack and the cut heats, in the thickest work (as for metal and sheet:
#: `teeth_most`), and above which it is merely slow, at a middling thickness. Common practice, no source.
SLOW_TEETH = 12.0
#: Share of what the gullets can clear from which they count as half full, and as nearly full: our choice.
HALF_FULL, NEARLY_FULL = 0.6, 0.85
#: How many times its tightest curve a curve must be to be followed without forcing: our choice.
EASY_TURN = 1.3
#: Tooth forms that suit a cut along the grain or through tall work. Common practice, no source.
DEEP_FORMS = ("hook", "skip")
#: Margin of a blade back that is not usual for a material: a custom fails a blade, but any real limit that fails names it first.
NOT_USUAL = 0.9
#: Kind of cut -> the assumption that says how wide a blade must be to cut it straight.
WIDTH_FOR = {"resaw": "resaw_width", "log": "resaw_width", "rip": "straight_width"}


def margins(value: Callable[..., Any], judgement: Judgement, printer: Printing) -> list[Margin]:
    """Return how far one blade is from each limit of one job on one saw: ratio 1 is just enough, words say of what.

    Which criteria apply depends on the saw and the job only, so that every blade is measured by the same list.
    """
    text = printer.text
    found = [_fits(judgement), _height(value, text), _teeth_least(value, text), _bend(value, text)]
    if value("material") in METALS:
        found += [_speed(value, text), _back(value, printer)]
    if value("material") in METALS + SHEETS:
        found.append(_teeth_most(value, text))
    if value("cut_radius") is not None:
        found.append(_radius(value, text))
    if value("wheel_load_max") is not None:
        found.append(_pull(value, text))
    if value("cut") in WIDTH_FOR:
        found.append(_beam(value, text))
    if value("feed_wanted") is not None and value("band_speed") is not None:
        found.append(_gullet(value, text))
        if value("cutting_stress") is not None and value("motor_power") is not None:
            found.append(_power(value, text))
    return found


def _fits(judgement: Judgement) -> Margin:
    return Margin("fits", _always_or_never(judgement.fits), judgement.reasons[0] if judgement.reasons else "fits the saw")


def _always_or_never(holds: bool) -> float:
    """Return a margin that never binds when something holds, and one that always does when it does not."""
    return float("inf") if holds else 0.0


def _back(value: Callable[..., Any], printer: Printing) -> Margin:
    back, material = value("blade_back"), value("material")
    usual = back in choice.backs_for(material)
    words = f"{printer.word(back)}: {'usual' if usual else 'not usual'} for {printer.word(material)}"
    return Margin("back", float("inf") if usual else NOT_USUAL, words)


def _speed(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    """Refuse metal on a wood saw: the whole range of metal band machines ends far below its band speed."""
    speed = value("band_speed")
    if speed is None:
        return Margin("speed", 0.0, "metal, and the band speed of this saw is not known")
    return Margin(
        "speed",
        METAL_FASTEST / speed,
        f"metal on a saw that runs at {text(speed, 'speed')}; band machines for metal end at"
        f" {text(METAL_FASTEST, 'speed', 'down')}",
    )


def _height(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    room, work = value("cutting_height_max"), value("work_height_max")
    return Margin(
        "height", room / work, f"{text(room, 'work_size', 'down')} under the guides for {text(work, 'work_size', 'up')} of work"
    )


def _nominal(ratio: float) -> float:
    """Return a margin by which nominal sizes are judged: what two of them may differ is no refusal (2.99 teeth are 3)."""
    return max(ratio, 1.0) if ratio * (1 + SAME_SIZE) >= 1 else ratio


def _teeth_least(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    teeth, least = value("teeth_in_work_least"), value("teeth_least")
    return Margin(
        "teeth_least",
        _nominal(ratios.teeth_least_ratio(teeth, least)),
        f"{text(teeth, 'teeth')} teeth in the thinnest work, at least {text(least, 'ratio')} wanted",
    )


def _teeth_most(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    teeth, most = value("teeth_in_work_most"), value("teeth_most")
    return Margin(
        "teeth_most",
        _nominal(ratios.teeth_most_ratio(teeth, most)),
        f"{text(teeth, 'teeth')} teeth in the thickest work, at most {text(most, 'ratio_whole')} wanted",
    )


def _radius(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    wanted, least = value("cut_radius"), value("minimum_radius")
    if least is None:
        return Margin("radius", 0.0, "its tightest curve is outside the method")
    return Margin(
        "radius",
        ratios.radius_ratio(wanted, least),
        f"turns a radius of {text(least, 'radius', 'up')}, {text(wanted, 'radius')} wanted",
    )


def _bend(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    ratio, least = value("thickness_ratio_judged"), value("thickness_ratio_least")
    if ratio is None:
        return Margin("bend", 0.0, "its bending over the wheels is outside the method")
    return Margin(
        "bend",
        ratio / least,
        f"wheel over thickness {text(value('thickness_ratio'), 'ratio_whole', 'down')},"
        f" at least {text(least, 'ratio_whole')} wanted",
    )


def _pull(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    """Compare the saw's pull with the low end of the blade's range: less than that is no tension at all."""
    limit, area, low = value("wheel_load_max"), value("body_area"), value("target_stress_low")
    if area is None:
        return Margin("tension", 0.0, "its tension is outside the method")
    load = 2 * low * area
    return Margin(
        "tension",
        ratios.tension_ratio(limit, load),
        f"needs {text(load, 'force', 'up')} on the wheel or more, the saw gives {text(limit, 'force', 'down')}",
    )


def _beam(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    width, least = value("blade_width"), value(WIDTH_FOR[value("cut")])
    return Margin(
        "beam",
        _nominal(ratios.beam_ratio(width, least)),
        f"{text(width, 'blade_width')} wide, {text(least, 'blade_width')} wanted for a straight cut",
    )


def _gullet(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    feed, possible = value("feed_wanted"), value("feed_by_gullet")
    if possible is None:
        return Margin("gullet", 0.0, "its gullets are outside the method")
    return Margin(
        "gullet", ratios.feed_ratio(possible, feed), f"gullets clear {text(possible, 'feed', 'down')}, {text(feed, 'feed')} wanted"
    )


def _power(value: Callable[..., Any], text: Callable[..., Any]) -> Margin:
    """Compare feeds by power only where this wood's constants come from the shop's own timed cuts."""
    feed, possible = value("feed_wanted"), value("feed_by_power")
    if possible is None:
        return Margin("power", 0.0, "what power it takes is not known: kerf or the saw's idle power is not measured")
    return Margin(
        "power", ratios.feed_ratio(possible, feed), f"power allows {text(possible, 'feed', 'down')}, {text(feed, 'feed')} wanted"
    )


def grades(value: Callable[..., Any], printer: Printing) -> list[Grade]:
    """Return how well a blade that keeps to all limits suits a job: what a practitioner looks at, each good, middling or poor.

    The same list for every blade of a saw and a job.
    """
    text = printer.text
    found = [_tension_grade(value, text), _bend_grade(value, text), _back_grade(value, printer)]
    if value("material") not in METALS + SHEETS:
        found += [_fine_grade(value, text), _form_grade(value, printer)]
        if value("feed_wanted") is not None and value("band_speed") is not None:
            found.append(_full_grade(value, text))
    if value("cut_radius") is not None:
        found.append(_turn_grade(value, text))
    return found


def _tension_grade(value: Callable[..., Any], text: Callable[..., Any]) -> Grade:
    """Grade the tension: middling where the saw reaches less than nine tenths of what is aimed at, or nobody knows."""
    if value("tension_verdict") == "limit_not_known":
        return Grade("tension", MIDDLING, "how far the saw may tension it is not known")
    if value("setting_stress") is None:
        return Grade("tension", POOR, "the saw cannot tension it")
    reached = value("setting_stress") / value("target_stress")
    good = reached >= 1 - GOOD_ENOUGH
    words = "" if good else f"the saw reaches {text(reached, 'percent', 'down')} of the tension to aim at"
    return Grade("tension", GOOD if good else MIDDLING, words)


def _back_grade(value: Callable[..., Any], printer: Printing) -> Grade:
    usual = value("blade_back") in choice.backs_for(value("material"))
    words = "" if usual else f"{printer.word(value('blade_back'))} is not usual for {printer.word(value('material'))}"
    return Grade("back", GOOD if usual else MIDDLING, words)


def _bend_grade(value: Callable[..., Any], text: Callable[..., Any]) -> Grade:
    good = value("bending_verdict") == "good"
    return Grade("bend", GOOD if good else MIDDLING, "" if good else "bends hard on these wheels")


def _fine_grade(value: Callable[..., Any], text: Callable[..., Any]) -> Grade:
    """Grade teeth in solid wood: too many pack their gullets in the thickest work, many are slow at a middling one."""
    most, least = value("teeth_in_work_most"), value("teeth_in_work_least")
    words = f"{text(most, 'teeth')} teeth in the thickest work"
    if most > value("teeth_most") * (1 + SAME_SIZE):
        return Grade("teeth", POOR, f"too fine: {words}, more than {text(value('teeth_most'), 'ratio_whole')} clog and heat")
    slow = (most * least) ** 0.5 > SLOW_TEETH * (1 + SAME_SIZE)
    return Grade("teeth", MIDDLING if slow else GOOD, f"fine for this work: {words}" if slow else "")


def _form_grade(value: Callable[..., Any], printer: Printing) -> Grade:
    """Grade the tooth form: along the grain and in tall work hook or skip, across the grain no hook."""
    form, along = value("tooth_form"), value("cut") in WIDTH_FOR
    suits = form in DEEP_FORMS if along else value("cut") != "crosscut" or form != "hook"
    words = f"{printer.word(form)} teeth are slower here than hook or skip" if along else "hook teeth tear across the grain"
    return Grade("form", GOOD if suits else MIDDLING, "" if suits else words)


def _full_grade(value: Callable[..., Any], text: Callable[..., Any]) -> Grade:
    possible, wanted = value("feed_by_gullet"), value("feed_wanted")
    if possible is None:
        return Grade("gullet", POOR, "its gullets are outside the method")
    used = wanted / possible
    grade = GOOD if used <= HALF_FULL else MIDDLING if used <= NEARLY_FULL else POOR
    return Grade("gullet", grade, f"its gullets are {text(used, 'percent')} full at {text(wanted, 'feed')}" if grade else "")


def _turn_grade(value: Callable[..., Any], text: Callable[..., Any]) -> Grade:
    """Grade a curve: good from the comfortable radius of the blade, poor where it only just turns."""
    wanted, easy, least = value("cut_radius"), value("comfortable_radius"), value("minimum_radius")
    if wanted >= easy / (1 + SAME_SIZE):
        return Grade("turn", GOOD, "")
    if least is not None and wanted >= EASY_TURN * least:
        return Grade("turn", MIDDLING, f"goes easily only from {text(easy, 'radius', 'up')}")
    return Grade("turn", POOR, "only just turns this curve")


def reason(value: Callable[..., Any], printer: Printing) -> str:
    """Say why a blade suits a job: the facts that decide it, as a practitioner would name them."""
    text = printer.text
    low, high = (text(value(name), "teeth") for name in ("teeth_in_work_least", "teeth_in_work_most"))
    parts = [f"{low} teeth in the work" if low == high else f"{low} to {high} teeth in the work"]
    possible, wanted, radius = value("feed_by_gullet"), value("feed_wanted"), value("cut_radius")
    if possible is not None and wanted is not None:
        parts.append(f"gullets {text(wanted / possible, 'percent')} full at {text(wanted, 'feed')}")
    if radius is not None and value("minimum_radius") is not None:
        parts.append(
            f"turns {text(value('minimum_radius'), 'radius', 'up')}, easily from"
            f" {text(value('comfortable_radius'), 'radius', 'up')}, {text(radius, 'radius')} wanted"
        )
    if value("cut") in WIDTH_FOR:
        parts.append(
            f"{text(value('blade_width'), 'blade_width')} wide, {text(value(WIDTH_FOR[value('cut')]), 'blade_width')}"
            " or more wanted for a straight cut"
        )
    held = [grade.words for grade in grades(value, printer) if grade.name in ("tension", "bend", "back") and grade.grade]
    return "; ".join([", ".join(parts), *held])


def separates(one: Callable[..., Any], other: Callable[..., Any], printer: Printing) -> str:
    """Say what would separate two blades that share a place."""
    mine, yours = one("tooth_pitch"), other("tooth_pitch")
    if mine is None or yours is None or abs(mine / yours - 1) <= SAME_SIZE:
        return "take the sharper one"
    return "the coarser one cuts faster, the finer one smoother"
