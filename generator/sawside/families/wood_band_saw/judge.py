"""Does this blade fit this saw, and how far is it from each limit of a job: reasons in words, margins as ratios."""

from collections.abc import Callable

from sawside.calc import choice
from sawside.calc import margins as ratios
from sawside.calc.margins import Margin
from sawside.calc.tables import SPEED_WINDOWS
from sawside.families.family import Judgement

#: How much longer or shorter than the way round a blade may be when the take-up range is not known: one per cent.
LENGTH_SHARE = 0.01


def judge(value: Callable, printer) -> Judgement:
    """Return the judgement of a blade on a saw; `value(name)` gives an SI value, a word, or None when unknown."""
    reasons = [line for rule in _REASONS if (line := rule(value, printer.text))]
    advice = [line for rule in _ADVICE if (line := rule(value, printer.text))]
    if reasons:
        return Judgement(False, "does not fit", tuple(reasons), tuple(advice))
    return Judgement(True, "fits, with care" if advice else "fits", (), tuple(advice))


def _length(value: Callable, text: Callable) -> str:
    """Compare with the end of the take-up that is known, and with the way round where an end is not."""
    length, around = value("blade_length"), value("loop_length")
    low, high = value("blade_length_shortest"), value("blade_length_longest")
    if low is not None and length < low:
        return f"too short: this saw takes {text(low, 'blade_length', 'up')} or longer"
    if high is not None and length > high:
        return f"too long: this saw takes {text(high, 'blade_length', 'down')} or shorter"
    if around is None:
        return ""
    short = low is None and length < around * (1 - LENGTH_SHARE)
    long = high is None and length > around * (1 + LENGTH_SHARE)
    return f"{'too long' if long else 'too short'}: the way round is {text(around, 'blade_length')}" if short or long else ""


def _width(value: Callable, text: Callable) -> str:
    width, low, high = (value(n) for n in ("blade_width", "blade_width_min", "blade_width_max"))
    if high is not None and width > high * 1.001:
        return f"too wide: the maker of the saw allows {text(high, 'blade_width')}"
    if low is not None and width < low * 0.999:
        return f"too narrow: the maker of the saw asks for {text(low, 'blade_width')} or more"
    return ""


def _bending(value: Callable, text: Callable) -> str:
    ratio, least = value("thickness_ratio"), value("thickness_ratio_least")
    if ratio is not None and ratio < least:
        return (f"too thick for these wheels: wheel over thickness is {text(ratio, 'ratio_whole', 'down')},"
                f" at least {text(least, 'ratio_whole')} is wanted")
    return ""


def _tension(value: Callable, text: Callable) -> str:
    if value("tension_verdict") == "not_reached":
        return (f"cannot be tensioned: even {text(value('target_stress_low'), 'stress')} needs more than the saw can pull"
                f" ({text(value('wheel_load_max'), 'force', 'down')} on the wheel)")
    return ""


def _low_tension(value: Callable, text: Callable) -> str:
    if value("tension_verdict") == "low_end_only":
        return f"the saw can pull only the low end of its range, {text(value('target_stress_low'), 'stress')} and a little more"
    return ""


def _hard_bend(value: Callable, text: Callable) -> str:
    ratio, good = value("thickness_ratio"), value("thickness_ratio_good")
    least = value("thickness_ratio_least")
    if ratio is not None and least <= ratio < good:
        return f"bends hard on these wheels (wheel over thickness {text(ratio, 'ratio_whole', 'down')}): expect it to crack sooner"
    return ""


def _overhang(value: Callable, text: Callable) -> str:
    """Judge by the way of tracking the maker names; by both where none is known."""
    schools = {"gullet_centred": ("overhang_back_gullet_school", "gullets"),
               "blade_centred": ("overhang_back_blade_school", "blade")}
    named = schools.get(value("maker_tracking"))
    for name, school in (named,) if named else schools.values():
        back = value(name)
        if back is not None and back > 0.0005:
            return f"hangs {text(back, 'small_length', 'up')} over the back rim when tracked with the {school} in the middle"
    return ""


def _load_unknown(value: Callable, text: Callable) -> str:
    return "whether the saw can tension it is not known" if value("wheel_load_max") is None else ""


def _range_unknown(value: Callable, text: Callable) -> str:
    ends = (("blade_length_shortest", "shorter"), ("blade_length_longest", "longer"))
    missing = [word for name, word in ends if value(name) is None]
    if not missing:
        return ""
    return f"how much {' or '.join(missing)} a blade may be is not measured: its length was compared with the way round only"


_REASONS = (_length, _width, _bending, _tension)
_ADVICE = (_hard_bend, _low_tension, _overhang, _load_unknown, _range_unknown)


#: Materials for which too many teeth in the work clog and heat; for solid wood gullet and power decide instead.
METALS = ("aluminium", "steel")
SHEETS = ("plywood", "acrylic")
#: Fastest band of the whole range of metal machines [m/s], as published.
METAL_FASTEST = next(window.window[1] for window in SPEED_WINDOWS if window.work.startswith("metal machines"))
#: Margin of a blade back that is not usual for a material: a custom fails a blade, but any real limit that fails names it first.
NOT_USUAL = 0.9
#: Kind of cut -> the assumption that says how wide a blade must be to cut it straight.
WIDTH_FOR = {"resaw": "resaw_width", "log": "resaw_width", "rip": "straight_width"}


def margins(value: Callable, judgement: Judgement, printer) -> list[Margin]:
    """Return how far one blade is from each limit of one job on one saw: ratio 1 is just enough, words say of what.

    Which criteria apply depends on the saw and the job only, so that every blade is measured by the same list.
    """
    text = printer.text
    found = [_fits(judgement), _back(value, printer), _height(value, text), _teeth_least(value, text), _bend(value, text)]
    if value("material") in METALS:
        found.append(_speed(value, text))
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


def _back(value: Callable, printer) -> Margin:
    back, material = value("blade_back"), value("material")
    usual = back in choice.backs_for(material)
    words = f"{printer.word(back)}: {'usual' if usual else 'not usual'} for {printer.word(material)}"
    return Margin("back", float("inf") if usual else NOT_USUAL, words)


def _speed(value: Callable, text: Callable) -> Margin:
    """Refuse metal on a wood saw: the whole range of metal band machines ends far below its band speed."""
    speed = value("band_speed")
    if speed is None:
        return Margin("speed", 0.0, "metal, and the band speed of this saw is not known")
    return Margin("speed", METAL_FASTEST / speed,
                  f"metal on a saw that runs at {text(speed, 'speed')}; band machines for metal end at"
                  f" {text(METAL_FASTEST, 'speed', 'down')}")


def _height(value: Callable, text: Callable) -> Margin:
    room, work = value("cutting_height_max"), value("work_height_max")
    return Margin("height", room / work, f"{text(room, 'work_size', 'down')} under the guides for"
                                         f" {text(work, 'work_size', 'up')} of work")


def _teeth_least(value: Callable, text: Callable) -> Margin:
    teeth, least = value("teeth_in_work_least"), value("teeth_least")
    return Margin("teeth_least", ratios.teeth_least_ratio(teeth, least),
                  f"{text(teeth, 'ratio')} teeth in the thinnest work, at least {text(least, 'ratio')} wanted")


def _teeth_most(value: Callable, text: Callable) -> Margin:
    teeth, most = value("teeth_in_work_most"), value("teeth_most")
    return Margin("teeth_most", ratios.teeth_most_ratio(teeth, most),
                  f"{text(teeth, 'ratio')} teeth in the thickest work, at most {text(most, 'ratio_whole')} wanted")


def _radius(value: Callable, text: Callable) -> Margin:
    wanted, least = value("cut_radius"), value("minimum_radius")
    if least is None:
        return Margin("radius", 0.0, "its tightest curve is outside the method")
    return Margin("radius", ratios.radius_ratio(wanted, least),
                  f"turns a radius of {text(least, 'radius', 'up')}, {text(wanted, 'radius')} wanted")


def _bend(value: Callable, text: Callable) -> Margin:
    ratio, least = value("thickness_ratio"), value("thickness_ratio_least")
    if ratio is None:
        return Margin("bend", 0.0, "its bending over the wheels is outside the method")
    return Margin("bend", ratio / least,
                  f"wheel over thickness {text(ratio, 'ratio_whole', 'down')}, at least {text(least, 'ratio_whole')} wanted")


def _pull(value: Callable, text: Callable) -> Margin:
    """Compare the saw's pull with the low end of the blade's range: less than that is no tension at all."""
    limit, area, low = value("wheel_load_max"), value("body_area"), value("target_stress_low")
    if area is None:
        return Margin("tension", 0.0, "its tension is outside the method")
    load = 2 * low * area
    return Margin("tension", ratios.tension_ratio(limit, load),
                  f"needs {text(load, 'force', 'up')} on the wheel or more, the saw gives {text(limit, 'force', 'down')}")


def _beam(value: Callable, text: Callable) -> Margin:
    width, least = value("blade_width"), value(WIDTH_FOR[value("cut")])
    return Margin("beam", ratios.beam_ratio(width, least),
                  f"{text(width, 'blade_width')} wide, {text(least, 'blade_width')} wanted for a straight cut")


def _gullet(value: Callable, text: Callable) -> Margin:
    feed, possible = value("feed_wanted"), value("feed_by_gullet")
    if possible is None:
        return Margin("gullet", 0.0, "its gullets are outside the method")
    return Margin("gullet", ratios.feed_ratio(possible, feed),
                  f"gullets clear {text(possible, 'feed', 'down')}, {text(feed, 'feed')} wanted")


def _power(value: Callable, text: Callable) -> Margin:
    """Compare feeds by power only where this wood's constants come from the shop's own timed cuts."""
    feed, possible = value("feed_wanted"), value("feed_by_power")
    if possible is None:
        return Margin("power", 0.0, "what power it takes is not known: kerf or the saw's idle power is not measured")
    return Margin("power", ratios.feed_ratio(possible, feed),
                  f"power allows {text(possible, 'feed', 'down')}, {text(feed, 'feed')} wanted")
