"""Does this blade fit this saw: a verdict, what forbids it and what to take care of, in words."""

import math
from collections.abc import Callable
from typing import Any

from sawside.calc.tables import SAME_SIZE
from sawside.families.family import Judgement, Printing

#: How much longer or shorter than the way round a blade may be when the take-up range is not known: one per cent.
LENGTH_SHARE = 0.01
FITS, CARE, CANNOT_TELL, NO = "fits", "fits, with care", "cannot tell if it fits", "does not fit"


def exact(name: str) -> float:
    """Return the doubt of a field or value that is taken as exact."""
    return 0.0


def judge(value: Callable[..., Any], printer: Printing, doubt: Callable[..., Any] = exact) -> Judgement:
    """Return the judgement of a blade on a saw: it fits, fits with care, does not fit, or nobody can tell.

    Takes: value(name) gives an SI value, a word, or None when unknown; doubt(name) its standard uncertainty in SI.
    """
    reasons = [line for rule in _REASONS if (line := rule(value, printer.text, doubt))]
    open_questions = [line for rule in _OPEN if (line := rule(value, printer.text, doubt))]
    advice = [line for rule in _ADVICE if (line := rule(value, printer.text)) and not any(line in reason for reason in reasons)]
    if reasons:
        return Judgement(False, NO, tuple(reasons), tuple(advice))
    verdict = CANNOT_TELL if open_questions else CARE if advice else FITS
    return Judgement(True, verdict, (), (*open_questions, *advice))


def _length(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    """Compare with the end of the take-up that is known, and with the way round where an end is not."""
    beyond = _beyond_length(value)
    return beyond[1](text) if beyond and beyond[0] > _length_doubt(value, doubt) else ""


def _length_open(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    """Say that a length past its limit by less than its doubt cannot be judged on paper."""
    beyond = _beyond_length(value)
    if not beyond or beyond[0] > _length_doubt(value, doubt):
        return ""
    return (
        f"{beyond[1](text)}, but the measures are no better than {text(_length_doubt(value, doubt), 'blade_length', 'up')}:"
        " try it slack, by hand, before you trust it"
    )


def _beyond_length(value: Callable[..., Any]) -> tuple[float, Callable[..., Any]] | None:
    """Return by how much a blade's length lies past its limit [m], and how that is said; None when it does not."""
    length, around = value("blade_length"), value("loop_length")
    low, high = value("blade_length_shortest"), value("blade_length_longest")
    if low is not None and length < low:
        return low - length, lambda text: f"too short: this saw takes {text(low, 'blade_length', 'up')} or longer"
    if high is not None and length > high:
        return length - high, lambda text: f"too long: this saw takes {text(high, 'blade_length', 'down')} or shorter"
    if around is None:
        return None
    over = length - around * (1 + LENGTH_SHARE) if high is None else 0.0
    under = around * (1 - LENGTH_SHARE) - length if low is None else 0.0
    if max(over, under) <= 0:
        return None
    word = "too long" if over > 0 else "too short"
    return max(over, under), lambda text: f"{word}: the way round is {text(around, 'blade_length')}"


def _length_doubt(value: Callable[..., Any], doubt: Callable[..., Any]) -> float:
    """Return the doubt of a comparison of a blade's length with its limits [m]."""
    limit = max(
        (doubt(name) for name in ("blade_length_shortest", "blade_length_longest") if value(name) is not None),
        default=doubt("loop_length"),
    )
    return math.hypot(doubt("blade_length"), limit)


def _width(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    width, low, high = (value(n) for n in ("blade_width", "blade_width_min", "blade_width_max"))
    if high is not None and width > high * (1 + SAME_SIZE):
        return f"too wide: the maker of the saw allows {text(high, 'blade_width')}"
    if low is not None and width < low * (1 - SAME_SIZE):
        return f"too narrow: the maker of the saw asks for {text(low, 'blade_width')} or more"
    return ""


def _tyre(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    width, tyre = value("blade_width"), value("tyre_width")
    if tyre is not None and width > tyre * (1 + SAME_SIZE):
        return f"too wide: the tyre is {text(tyre, 'blade_width')} wide"
    return ""


def _hangs_over(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    """Refuse a blade that hangs over too far whichever of the ways of tracking it is allowed is taken."""
    allowed, over = value("overhang_allowed"), _overhangs(value)
    if over and min(back for back, _ in over) > allowed:
        return f"{_overhang(value, text)}; {text(allowed, 'small_length')} is allowed"
    return ""


def _bending(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    if value("bending_verdict") != "too_thick":
        return ""
    return (
        f"too thick for these wheels: wheel over thickness is {text(value('thickness_ratio'), 'ratio_whole', 'down')},"
        f" at least {text(value('thickness_ratio_least'), 'ratio_whole')} is wanted"
    )


def _tension(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    if value("tension_verdict") != "not_reached":
        return ""
    load = 2 * value("target_stress_low") * value("body_area")
    limit = value("wheel_load_max")
    if limit is None or load <= limit:
        return f"cannot be tensioned: bent round these wheels its steel has no room left for {text(load, 'force')} of tension"
    return (
        f"cannot be tensioned: even the least that serves needs {text(load, 'force', 'up')} on the wheel,"
        f" and the saw may carry {text(limit, 'force', 'down')}"
    )


def _speed(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    verdict, speed = value("speed_verdict"), value("band_speed")
    if verdict not in ("too_fast", "too_slow"):
        return ""
    why = "faster than any saw for wood runs" if verdict == "too_fast" else "far slower than saws for wood run"
    return (
        f"not to be run: the band would run at {text(speed, 'speed')}, {why}; look whether `wheel_speed` is the speed of"
        " the wheel, not of the motor"
    )


def _low_tension(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    if value("tension_verdict") != "low_end_only":
        return ""
    return f"{_limited(value, text)}: set it to {text(value('setting_stress'), 'stress')} in the body"


def _hard_bend(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    if value("bending_verdict") != "tight":
        return ""
    ratio, good = (text(value(name), "ratio_whole", "down") for name in ("thickness_ratio", "thickness_ratio_good"))
    return f"bends hard on these wheels (wheel over thickness {ratio}, good from {good}): expect it to crack sooner"


def _overhangs(value: Callable[..., Any]) -> list[tuple[float, str]]:
    """Return how far the blade hangs over the back rim [m] by the way of tracking the maker names; by both without one."""
    schools = {
        "gullet_centred": ("overhang_back_gullet_school", "gullets"),
        "blade_centred": ("overhang_back_blade_school", "blade"),
    }
    named = schools.get(value("maker_tracking"))
    found = [(value(name), school) for name, school in ((named,) if named else schools.values())]
    return [(back, school) for back, school in found if back is not None]


def _overhang(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    for back, school in _overhangs(value):
        if back > 0.0005:
            return f"hangs {text(back, 'small_length', 'up')} over the back rim when tracked with the {school} in the middle"
    return ""


def _unusual_speed(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    verdict = value("speed_verdict")
    if verdict not in ("slow", "fast"):
        return ""
    how = "slower" if verdict == "slow" else "faster"
    return f"the band runs {how} than is usual for wood, {text(value('band_speed'), 'speed')}"


def _load_unknown(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    """Where the maker at least allows the width, an unknown load calls for care; where nobody does, nobody can tell."""
    if value("wheel_load_max") is None and value("blade_width_max") is not None:
        return f"settings are {_limited(value, text)}"
    return ""


def _load_open(value: Callable[..., Any], text: Callable[..., Any], doubt: Callable[..., Any]) -> str:
    if value("wheel_load_max") is None and value("blade_width_max") is None:
        return f"what the saw may carry is not known, nor what width its maker allows: settings are {_limited(value, text)}"
    return ""


def limited(value: Callable[..., Any], printer: Printing) -> str:
    """Say why the settings of a blade stay below what is aimed at; nothing where they do not."""
    return _limited(value, printer.text)


def _limited(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    basis = value("setting_basis")
    if basis == "limited_by_saw":
        return f"limited by the saw: {text(value('wheel_load_max'), 'force', 'down')} on the wheel at most"
    if basis == "limited_by_blade":
        return f"limited by the blade on these wheels: {text(value('blade_stress_max'), 'stress', 'down')} at most"
    if basis == "limit_not_known":
        return "the least that serves, because the saw's largest load is not known"
    return ""


def _range_unknown(value: Callable[..., Any], text: Callable[..., Any]) -> str:
    ends = (("blade_length_shortest", "shorter"), ("blade_length_longest", "longer"))
    missing = [word for name, word in ends if value(name) is None]
    if not missing:
        return ""
    return f"how much {' or '.join(missing)} a blade may be is not measured: its length was compared with the way round only"


_REASONS = (_length, _width, _tyre, _hangs_over, _bending, _tension, _speed)
_OPEN = (_length_open, _load_open)
_ADVICE = (_hard_bend, _low_tension, _overhang, _unusual_speed, _load_unknown, _range_unknown)
