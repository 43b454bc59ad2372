"""Tooth pitch against the height of the work: how many teeth cut at once, and which pitches suit a range of heights."""

import math

from sawside.calc.limits import not_negative, positive, require

INCH = 25.4e-3

#: Counts that differ by less than this share are equal: 3 TPI in 25.4 mm is three teeth, whatever the last bit says.
SAME = 1e-9


def teeth_in_work(work_height: float, tooth_pitch: float) -> float:
    """Return how many teeth are inside the work at once, on average.

    z = h / p
    Takes: work_height h, length of blade inside the work [m]; tooth_pitch p [m]. Gives: teeth [-].
    Holds for: a straight cut; with a mixed pitch, p is its mean.
    Source: definition of pitch; derived. Divided as lengths, because tpi * mm / 25.4 loses the third tooth of 3 TPI.

    >>> teeth_in_work(19e-3, 25.4e-3 / 6)
    4.488
    """
    positive(work_height=work_height, tooth_pitch=tooth_pitch)
    return work_height / tooth_pitch


def teeth_in_work_least(work_height_min: float, tooth_pitch: float) -> float:
    """Return how many teeth are inside the thinnest work.

    z = h_min / p
    Takes: work_height_min [m]; tooth_pitch [m]. Gives: teeth [-].
    Holds for: as teeth_in_work. Source: definition of pitch; derived.

    >>> teeth_in_work_least(12e-3, 25.4e-3 / 6)
    2.835
    """
    positive(work_height_min=work_height_min)
    return teeth_in_work(work_height_min, tooth_pitch)


def teeth_in_work_most(work_height_max: float, tooth_pitch: float) -> float:
    """Return how many teeth are inside the thickest work.

    z = h_max / p
    Takes: work_height_max [m]; tooth_pitch [m]. Gives: teeth [-].
    Holds for: as teeth_in_work. Source: definition of pitch; derived.

    >>> teeth_in_work_most(150e-3, 25.4e-3 / 6)
    35.43
    """
    positive(work_height_max=work_height_max)
    return teeth_in_work(work_height_max, tooth_pitch)


def pitch_coarsest(work_height_min: float, teeth_least: float) -> float:
    """Return the longest pitch that still keeps enough teeth in the thinnest work.

    p = h_min / z_least
    Takes: work_height_min [m]; teeth_least, the rule's fewest teeth [-]. Gives: pitch [m].
    Holds for: straight cuts. The rule itself differs: 3 in a textbook and most makers' papers, 2 in a US Navy course.
    Source: Bacon, Introduction to Machining 1, sec. 7.4 (read); US Navy course 14119, band saw page (read).

    >>> pitch_coarsest(19e-3, 3) * 1e3
    6.333
    """
    positive(work_height_min=work_height_min, teeth_least=teeth_least)
    return work_height_min / teeth_least


def pitch_finest(work_height_max: float, teeth_most: float) -> float:
    """Return the shortest pitch that does not put more than the rule's teeth into the thickest work.

    p = h_max / z_most
    Takes: work_height_max [m]; teeth_most, the rule's most teeth [-]. Gives: pitch [m].
    Holds for: metal, plastics and thin sheet. In wood the upper bound is better replaced by gullet room and power.
    Source: trade rule of 24 teeth in a blade maker's article (read).

    >>> pitch_finest(75e-3, 24) * 1e3
    3.125
    """
    positive(work_height_max=work_height_max, teeth_most=teeth_most)
    return work_height_max / teeth_most


def teeth_enough(teeth_in_work: float, teeth_least: float) -> bool:
    """Tell whether the count reaches the rule, equal within rounding counted as reached.

    z >= z_least
    Takes: teeth_in_work [-]; teeth_least [-]. Gives: yes or no.
    Holds for: any rule. Source: three-tooth rule, Bacon sec. 7.4 (read); floor of two, US Navy course 14119 (read).

    >>> teeth_enough(3 * 25.4 / 25.4, 3)
    True
    """
    positive(teeth_in_work=teeth_in_work, teeth_least=teeth_least)
    return teeth_in_work >= teeth_least * (1 - SAME)


def pitch_fits(tooth_pitch: float, pitch_coarsest: float, pitch_finest: float) -> bool:
    """Tell whether a pitch lies between the finest and the coarsest allowed, both ends included.

    p_finest <= p <= p_coarsest
    Takes: tooth_pitch, pitch_coarsest, pitch_finest [m]. Gives: yes or no (always no when the range is empty).
    Holds for: any two limits. Source: definition; derived.

    >>> pitch_fits(25.4e-3 / 6, 18e-3 / 3, 75e-3 / 24)
    True
    """
    positive(tooth_pitch=tooth_pitch, pitch_coarsest=pitch_coarsest, pitch_finest=pitch_finest)
    return pitch_finest * (1 - SAME) <= tooth_pitch <= pitch_coarsest * (1 + SAME)


def pitch_range_words(pitch_coarsest: float, pitch_finest: float) -> str:
    """Say whether one pitch can serve the whole range of heights.

    empty when p_finest > p_coarsest
    Takes: pitch_coarsest, pitch_finest [m]. Gives: words.
    Holds for: any two limits. Source: definition; derived.

    >>> pitch_range_words(12e-3 / 3, 150e-3 / 24)
    'no single pitch serves the whole range'
    """
    positive(pitch_coarsest=pitch_coarsest, pitch_finest=pitch_finest)
    empty = pitch_finest > pitch_coarsest * (1 + SAME)
    return "no single pitch serves the whole range" if empty else "one pitch serves the whole range"


def pitch_compromise(work_height_min: float, work_height_max: float, teeth_least: float, teeth_most: float) -> float:
    """Return the one pitch that misses both rules by the same ratio when no pitch keeps both.

    p = sqrt(h_min h_max / (z_least z_most))
    Takes: work heights [m]; teeth_least, teeth_most [-]. Gives: pitch [m].
    Holds for: h_min <= h_max and z_least < z_most. Source: equal ratios at both ends; derived.

    >>> 25.4e-3 / pitch_compromise(12e-3, 150e-3, 3, 24)
    5.08
    """
    _heights(work_height_min, work_height_max)
    _teeth(teeth_least, teeth_most)
    return math.sqrt(work_height_min * work_height_max / (teeth_least * teeth_most))


def blades_for_heights(work_height_min: float, work_height_max: float, teeth_least: float, teeth_most: float) -> int:
    """Return how many blades of different pitch a range of heights needs.

    n = ceil(ln(h_max / h_min) / ln(z_most / z_least)), at least 1
    Takes: work heights [m]; teeth_least, teeth_most [-]. Gives: count.
    Holds for: h_min <= h_max and z_least < z_most. Source: each blade covers a ratio z_most / z_least; derived.

    >>> blades_for_heights(3e-3, 150e-3, 3, 24)
    2
    """
    _heights(work_height_min, work_height_max)
    _teeth(teeth_least, teeth_most)
    ratio = math.log(work_height_max / work_height_min) / math.log(teeth_most / teeth_least)
    return max(1, math.ceil(ratio - SAME))


def height_splits(work_height_min: float, work_height_max: float, blades: int) -> tuple[float, ...]:
    """Return the work heights at which to change from one blade to the next.

    h_i = h_min (h_max / h_min)^(i / n), i = 1 .. n - 1
    Takes: work heights [m]; blades n. Gives: heights [m], none for one blade.
    Holds for: h_min <= h_max. Source: equal ratio for every blade; derived.

    >>> [round(height * 1e3, 1) for height in height_splits(3e-3, 150e-3, 2)]
    [21.2]
    """
    _heights(work_height_min, work_height_max)
    positive(blades=blades)
    ratio = work_height_max / work_height_min
    return tuple(work_height_min * ratio ** (i / blades) for i in range(1, blades))


def backing_needed(work_height: float, tooth_pitch: float, teeth_least: float) -> float:
    """Return how much scrap under thin work makes up the missing teeth.

    b = max(0, z_least p - h)
    Takes: work_height h [m]; tooth_pitch p [m]; teeth_least [-]. Gives: thickness of the backing [m].
    Holds for: backing of about the same hardness, held tight to the work. Source: definition of pitch; derived.

    >>> backing_needed(6e-3, 25.4e-3 / 6, 3) * 1e3
    6.7
    """
    positive(work_height=work_height, tooth_pitch=tooth_pitch, teeth_least=teeth_least)
    return max(0.0, teeth_least * tooth_pitch - work_height)


def tube_area(outer_diameter: float, inner_diameter: float) -> float:
    """Return the metal in the cross-section of a round tube.

    A = pi (D^2 - d^2) / 4
    Takes: outer_diameter D, inner_diameter d [m]. Gives: area [m2].
    Holds for: 0 <= d < D. Source: geometry; derived.

    >>> tube_area(4.0, 3.0)
    5.498
    """
    positive(outer_diameter=outer_diameter)
    require(0 <= inner_diameter < outer_diameter, "inner_diameter", inner_diameter, "0 or more and less than outside")
    return math.pi * (outer_diameter**2 - inner_diameter**2) / 4


def mean_width(area: float, feed_stroke: float) -> float:
    """Return the mean length of blade in a section whose height changes along the cut.

    h = A / s
    Takes: area A of the section [m2]; feed_stroke s, the way the blade goes through it [m]. Gives: height [m].
    Holds for: any section; the greatest height still has to be looked at for the gullets.
    Source: a saw maker's manual, name withheld (read), which prints 1.38 in for a 4 in tube with a 3 in hole.

    >>> mean_width(tube_area(4.0, 3.0), 4.0)
    1.374
    """
    positive(area=area, feed_stroke=feed_stroke)
    return area / feed_stroke


def height_on_tilted_table(work_height: float, table_tilt: float) -> float:
    """Return the length of blade in flat work lying on a tilted table.

    h = t / cos(beta)
    Takes: work_height t [m]; table_tilt beta from square [rad]. Gives: length of blade in the work [m].
    Holds for: |beta| < 60 degrees. Source: geometry; derived.

    >>> height_on_tilted_table(20e-3, math.radians(45)) * 1e3
    28.28
    """
    positive(work_height=work_height)
    require(abs(table_tilt) < math.radians(60), "table_tilt", table_tilt, "less than 60 degrees (1.047 rad)")
    return work_height / math.cos(table_tilt)


def teeth_per_inch(tooth_pitch: float) -> float:
    """Return teeth per inch from the pitch.

    N = 25.4 mm / p
    Takes: tooth_pitch p [m]. Gives: teeth per inch [-].
    Holds for: any pitch. Source: definition of the inch, 25.4 mm.

    >>> teeth_per_inch(8.4667e-3)
    3.0
    """
    positive(tooth_pitch=tooth_pitch)
    return INCH / tooth_pitch


def points_per_inch(tooth_pitch: float) -> float:
    """Return points per inch, which counts the tooth at both ends of the inch: one more than teeth per inch.

    PPI = 25.4 mm / p + 1
    Takes: tooth_pitch p [m]. Gives: points per inch [-].
    Holds for: even pitch. Source: hand-saw custom, common practice, no source.

    >>> points_per_inch(25.4e-3 / 4)
    5.0
    """
    return teeth_per_inch(tooth_pitch) + 1


def _heights(least: float, most: float) -> None:
    positive(work_height_min=least)
    require(most >= least, "work_height_max", most, "work_height_min or more")


def _teeth(least: float, most: float) -> None:
    not_negative(teeth_least=least)
    require(0 < least < most, "teeth_most", most, "more than teeth_least")
