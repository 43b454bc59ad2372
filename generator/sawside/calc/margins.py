"""Margins: how a blade stands on a job, one number for each criterion, 1 or more is good enough.

Each function returns a ratio made so that more is better; `margin` puts the words to it.
"""

import math
from dataclasses import dataclass

from sawside.calc.limits import OutsideMethod, not_negative, positive, require

#: Two numbers closer than this share are equal: 3 teeth by measurement are 3 teeth.
SAME = 1e-9

#: Criterion -> words when it is met, words when it is not.
WORDS = {
    "teeth_least": ("enough teeth in the thinnest work", "too few teeth in the thinnest work"),
    "teeth_most": ("not too many teeth in the thickest work", "too many teeth in the thickest work"),
    "radius": ("follows the curve", "too wide for the curve"),
    "gullet": ("gullets carry the dust at the wanted feed", "gullets too small for the wanted feed"),
    "power": ("power is enough for the wanted feed", "too little power for the wanted feed"),
    "finish": ("bite fine enough for the finish", "bite too coarse for the finish"),
    "width": ("not wider than the saw takes", "wider than the saw takes"),
    "bend": ("thin enough for the wheels", "too thick for the wheels"),
    "tension": ("the saw can tension it", "the saw cannot tension it enough"),
    "beam": ("wide enough to cut straight", "too narrow to cut straight"),
    "length": ("fits the saw's take-up", "does not fit the saw's take-up"),
}


@dataclass(frozen=True)
class Margin:
    """One criterion: its name, how good it is (1 is just enough), and that in words."""

    name: str
    ratio: float
    words: str

    @property
    def met(self) -> bool:
        """Tell whether the criterion is met, equal within rounding counted as met."""
        return self.ratio >= 1 - SAME


def margin(name: str, ratio: float) -> Margin:
    """Return a criterion with the words that suit its ratio.

    met when ratio >= 1
    Takes: name, one of WORDS; ratio, 0 or more, infinite allowed [-]. Gives: Margin.
    Holds for: the names in WORDS. Source: definition; derived.

    >>> margin("radius", 0.58)
    Margin(name='radius', ratio=0.58, words='too wide for the curve')
    """
    if name not in WORDS:
        raise OutsideMethod("name", math.nan, "one of " + ", ".join(WORDS))
    require(ratio >= 0, "ratio", 1.0 if ratio == math.inf else ratio, "0 or more")
    good, bad = WORDS[name]
    return Margin(name, ratio, good if ratio >= 1 - SAME else bad)


def teeth_least_ratio(teeth_in_work_least: float, teeth_least: float) -> float:
    """Return the margin of teeth in the thinnest work.

    z / z_least
    Takes: teeth_in_work_least, teeth_least [-]. Gives: ratio. Holds for: both above 0. Source: three-tooth rule, see
    pitch.pitch_coarsest.

    >>> teeth_least_ratio(4.488, 3)
    1.496
    """
    positive(teeth_in_work_least=teeth_in_work_least, teeth_least=teeth_least)
    return teeth_in_work_least / teeth_least


def teeth_most_ratio(teeth_in_work_most: float, teeth_most: float) -> float:
    """Return the margin of teeth in the thickest work; not used for wood, where gullet and power take its place.

    z_most / z
    Takes: teeth_in_work_most, teeth_most [-]. Gives: ratio. Holds for: both above 0. Source: see pitch.pitch_finest.

    >>> teeth_most_ratio(35.43, 24)
    0.677
    """
    positive(teeth_in_work_most=teeth_in_work_most, teeth_most=teeth_most)
    return teeth_most / teeth_in_work_most


def radius_ratio(cut_radius: float, minimum_radius: float) -> float:
    """Return the margin of the tightest curve.

    R_job / R_blade
    Takes: cut_radius, minimum_radius [m]. Gives: ratio. Holds for: both above 0. Source: see radius.minimum_radius.

    >>> radius_ratio(65e-3, 60.9e-3)
    1.067
    """
    positive(cut_radius=cut_radius, minimum_radius=minimum_radius)
    return cut_radius / minimum_radius


def feed_ratio(feed_possible: float, feed_wanted: float) -> float:
    """Return the margin of feed; for gullet and power alike.

    v_possible / v_wanted
    Takes: feed_possible, 0 when rubbing takes all the power; feed_wanted [m/s]. Gives: ratio. Holds for: wanted above
    0. Source: see feed.feed_at_gullet_fill and power.feed_at_power.

    >>> feed_ratio(4.06 / 60, 1.0 / 60)
    4.06
    """
    not_negative(feed_possible=feed_possible)
    positive(feed_wanted=feed_wanted)
    return feed_possible / feed_wanted


def finish_ratio(bite_most: float, bite: float) -> float:
    """Return the margin of finish.

    f_most / f
    Takes: bite_most, bite [m]. Gives: ratio. Holds for: both above 0. Source: see feed.bite.

    >>> finish_ratio(0.1e-3, 38e-6)
    2.63
    """
    positive(bite_most=bite_most, bite=bite)
    return bite_most / bite


def width_ratio(blade_width: float, blade_width_max: float) -> float:
    """Return the margin of the width the saw takes.

    w_max / w
    Takes: blade_width, blade_width_max [m]. Gives: ratio. Holds for: both above 0. Source: the saw's papers.

    >>> width_ratio(13e-3, 19e-3)
    1.46
    """
    positive(blade_width=blade_width, blade_width_max=blade_width_max)
    return blade_width_max / blade_width


def bend_ratio(wheel_diameter: float, blade_thickness: float, thickness_ratio_least: float) -> float:
    """Return the margin of bending over the smaller wheel.

    (D / t) / (D / t)_least
    Takes: wheel_diameter, blade_thickness [m]; thickness_ratio_least [-]. Gives: ratio. Holds for: all above 0.
    Source: bending stress grows with t / D; the least ratio is the shop's choice (assumed).

    >>> bend_ratio(356e-3, 0.635e-3, 430)
    1.304
    """
    positive(wheel_diameter=wheel_diameter, blade_thickness=blade_thickness, thickness_ratio_least=thickness_ratio_least)
    return wheel_diameter / blade_thickness / thickness_ratio_least


def tension_ratio(wheel_load_max: float, wheel_load_needed: float) -> float:
    """Return the margin of tension.

    load the saw can give / load the blade needs
    Takes: wheel_load_max, wheel_load_needed [N]. Gives: ratio. Holds for: both above 0. Source: force on two strands.

    >>> tension_ratio(1600.0, 1290.0)
    1.24
    """
    positive(wheel_load_max=wheel_load_max, wheel_load_needed=wheel_load_needed)
    return wheel_load_max / wheel_load_needed


def beam_ratio(blade_width: float, width_needed: float) -> float:
    """Return the margin of width for straight and re-saw cuts.

    w / w_needed
    Takes: blade_width, width_needed [m]. Gives: ratio. Holds for: both above 0. Source: width_needed is the shop's
    choice (assumed); sources disagree whether wide or narrow bands cut straighter, so the tension margin counts too.

    >>> beam_ratio(12.7e-3, 12.7e-3)
    1.0
    """
    positive(blade_width=blade_width, width_needed=width_needed)
    return blade_width / width_needed
