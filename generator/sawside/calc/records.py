"""The record of checks: control limits, warning rules, and when to check again.

An error here is any checked number that should be zero, for example the tilt of the table, in one unit throughout.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sawside.calc.decision import ACCEPT, ADJUST, CANNOT_TELL, GUARD, TOO_COARSE
from sawside.calc.limits import OutsideMethod, finite, not_negative, positive, require
from sawside.calc.uncertainty import coverage_factor, line_at, line_fit, mean

#: d2 and D4 for ranges of two readings: a mean range over d2 is a deviation (NIST handbook 6.3.2.2, d2 = 1.128, READ-2nd;
#: ISO 7870-2, memory).
RANGE_TO_DEVIATION, RANGES = 1.128, 3.267

RULE_WORDS = {
    1: "one check beyond three deviations",
    2: "two of three checks beyond two deviations on one side",
    3: "four of five checks beyond one deviation on one side",
    4: "eight checks in a row on one side",
}


@dataclass(frozen=True)
class Limits:
    """The lines of a chart of single readings: middle, lower, upper, the most two neighbours may differ, and the deviation."""

    middle: float
    lower: float
    upper: float
    range_upper: float
    deviation: float


def individuals_limits(readings: Sequence[float]) -> Limits:
    """Return the control limits of a chart of single readings.

    middle +- 3 s, s = mean range of neighbours / 1.128; range limit 3.267 mean range
    Takes: readings in order of time, two or more. Gives: Limits, same unit.
    Holds for: readings free of trend; 20 or more for limits to rely on. Source: NIST/SEMATECH handbook 6.3.2.2 (read
    second-hand); ISO 7870-2 (memory).

    >>> limits = individuals_limits([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
    >>> limits.middle, limits.upper, limits.lower
    (50.81, 55.8, 45.8)
    """
    require(len(readings) >= 2, "readings", len(readings), "two or more")
    middle = mean(readings)
    step = mean([abs(b - a) for a, b in zip(readings, readings[1:])])
    deviation = step / RANGE_TO_DEVIATION
    return Limits(middle, middle - 3 * deviation, middle + 3 * deviation, RANGES * step, deviation)


def weighted_means(readings: Sequence[float], start: float, weight: float) -> tuple[float, ...]:
    """Return the exponentially weighted moving average after each reading.

    z_i = w x_i + (1 - w) z_(i-1), z_0 = start
    Takes: readings; start; weight w, above 0 and at most 1 [-]. Gives: one value for each reading.
    Holds for: any readings. Source: NIST/SEMATECH handbook 6.3.2.4 (read second-hand).

    >>> [round(z, 2) for z in weighted_means([52.0, 47.0, 53.0], 50.0, 0.3)]
    [50.6, 49.52, 50.56]
    """
    finite(start=start)
    require(0 < weight <= 1, "weight", weight, "more than 0 and at most 1")
    values, latest = [], start
    for reading in readings:
        latest = weight * reading + (1 - weight) * latest
        values.append(latest)
    return tuple(values)


def weighted_limit(deviation: float, weight: float, width: float, count: int) -> float:
    """Return how far the weighted mean may lie from the middle after some readings.

    L s sqrt(w / (2 - w) (1 - (1 - w)^(2 i)))
    Takes: deviation s of one reading; weight w [-]; width L in deviations [-]; count i. Gives: half width, unit of s.
    Holds for: independent readings. Source: NIST/SEMATECH handbook 6.3.2.4 prints the limit for many readings
    (read second-hand); the start-up factor (memory).

    >>> weighted_limit(2.0539, 0.3, 3.0, 1000)
    2.5884
    """
    not_negative(deviation=deviation)
    positive(width=width, count=count)
    require(0 < weight <= 1, "weight", weight, "more than 0 and at most 1")
    return width * deviation * math.sqrt(weight / (2 - weight) * (1 - (1 - weight) ** (2 * count)))


def rules_hit(readings: Sequence[float], middle: float, deviation: float) -> tuple[int, ...]:
    """Return which warning rules the latest reading sets off; RULE_WORDS says them.

    1: beyond 3 s; 2: two of three beyond 2 s; 3: four of five beyond 1 s; 4: eight in a row on one side
    Takes: readings in order; middle; deviation s above 0. Gives: rule numbers.
    Holds for: independent readings. All four together raise a false alarm about every 92 checks, rule 1 alone about
    every 370: for a monthly check use rule 1 and the trend. Source: Western Electric zone rules, as in two statistics
    manuals (read); the 1956 handbook itself (memory).

    >>> rules_hit([0.1, 2.5, 0.2, 2.4], 0.0, 1.0)
    (2,)
    """
    finite(middle=middle)
    positive(deviation=deviation)
    scores = [(reading - middle) / deviation for reading in readings]
    found = {1} if scores and abs(scores[-1]) > 3 else set()
    for side in (1, -1):
        same = [side * score for score in scores]
        if not same or same[-1] <= 0:
            continue
        if same[-1] > 2 and sum(score > 2 for score in same[-3:]) >= 2:
            found.add(2)
        if same[-1] > 1 and sum(score > 1 for score in same[-5:]) >= 4:
            found.add(3)
        if len(same) >= 8 and all(score > 0 for score in same[-8:]):
            found.add(4)
    return tuple(sorted(found))


def days_by_trend(
    days: Sequence[float], readings: Sequence[float], low: float, high: float, probability: float, longest: float
) -> float:
    """Return how many days after the last check the trend may reach a limit.

    first t with a + b t + k s_next(t) = high or a + b t - k s_next(t) = low; k from Student's t with n - 2 degrees of freedom
    Takes: days and readings of the checks, three or more; low and high limit, about the nominal value (for an error that
    should be zero: minus and plus the tolerance); probability of the band +- k s [-]; longest, the most days to look ahead.
    Gives: days, 0 when reached already, at most `longest`.
    Holds for: a reading that moves evenly since the last adjustment. Source: line fit, JCGM 100:2008, H.3 (read
    second-hand); derived.

    >>> days_by_trend([0, 30, 60, 90, 120], [0.01, 0.018, 0.032, 0.039, 0.05], -0.1, 0.1, 0.95, 365)
    114.2
    >>> days_by_trend([0, 30, 60, 90, 120], [30.0, 29.5, 29.1, 28.6, 28.0], 27.0, 33.0, 0.95, 365)
    46.4
    """
    positive(longest=longest)
    finite(low=low, high=high)
    require(high > low, "high", high, f"more than the low limit {low:g}")
    line, factor = line_fit(days, readings), coverage_factor(probability, len(days) - 2)

    def outside(day: float) -> bool:
        value, _, following = line_at(line, day)
        return value + factor * following >= high or value - factor * following <= low

    last = max(days)
    if outside(last):
        return 0.0
    if not outside(last + longest):
        return longest
    return _first(lambda later: outside(last + later), longest)


def _first(true_from: Callable[[float], bool], high: float) -> float:
    """Return where a condition turns true for good. The band round a line is convex, so it leaves a limit only once."""
    low = 0.0
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (low, middle) if true_from(middle) else (middle, high)
    return low


def days_by_walk(error: float, doubt: float, tolerance: float, wander_per_root_day: float) -> float:
    """Return how many days an error that wanders without direction stays inside the tolerance.

    t = (((tol - |y|) / 1.645)^2 - u^2) / s_w^2, at least 0
    Takes: error y at the last check, its doubt u, tolerance, one unit; wander_per_root_day s_w, that unit per root of a
    day, above 0. Gives: days; the chance to be outside by then is 5 %.
    Holds for: independent daily steps. Source: variance of a random walk; derived.

    >>> days_by_walk(0.02, 0.014, 0.1, 0.004)
    135.6
    """
    finite(error=error)
    not_negative(doubt=doubt)
    positive(tolerance=tolerance, wander_per_root_day=wander_per_root_day)
    room = max(0.0, tolerance - abs(error)) / GUARD
    return max(0.0, (room**2 - doubt**2) / wander_per_root_day**2)


def wander(days: Sequence[float], errors: Sequence[float], doubt: float) -> float:
    """Return the wander per root of a day from a record, the doubt of the checks taken out.

    s_w^2 = max(0, (sum d_i^2 - 2 n u^2) / sum t_i), d_i and t_i the steps between neighbours
    Takes: days in rising order, errors, two or more; doubt u of one check. Gives: unit of the errors per root day.
    Holds for: no trend, no adjustment between. Source: variance of differences; derived.

    >>> wander([0, 25, 50, 75], [0.00, 0.02, 0.00, 0.02], 0.0)
    0.004
    """
    require(len(days) == len(errors) and len(days) >= 2, "errors", len(errors), "as many as days, two or more")
    not_negative(doubt=doubt)
    steps = [b - a for a, b in zip(errors, errors[1:])]
    for earlier, later in zip(days, days[1:]):
        require(later > earlier, "days", later, "in rising order")
    squares = math.fsum(step * step for step in steps) - 2 * len(steps) * doubt**2
    return math.sqrt(max(0.0, squares) / (days[-1] - days[0]))


def staircase_interval(interval: float, latest_verdict: str, shortest: float, longest: float) -> float:
    """Return the next interval when the record is too short for a trend: longer after a pass, shorter after a fault.

    x 1.5 accepted, x 0.7 cannot tell or instrument too coarse, x 0.5 adjusted; kept between shortest and longest
    Takes: interval just run; latest_verdict, a word of decision.verdict; shortest, longest [days]. Gives: days.
    Holds for: 0 < shortest <= longest. Source: the staircase method is in the list of ILAC-G24 / OIML D 10, 2007 and
    2022 (contents read); the three factors are assumed.

    >>> staircase_interval(30, "accept", 7, 180)
    45.0
    """
    positive(interval=interval, shortest=shortest)
    require(longest >= shortest, "longest", longest, "shortest or more")
    if latest_verdict not in STAIRS:
        raise OutsideMethod("latest_verdict", math.nan, "one of " + ", ".join(STAIRS))
    return min(max(interval * STAIRS[latest_verdict], shortest), longest)


STAIRS = {ACCEPT: 1.5, CANNOT_TELL: 0.7, TOO_COARSE: 0.7, ADJUST: 0.5}


@dataclass(frozen=True)
class Due:
    """When to check next: days from the last check, and why."""

    days: float
    reason: str


def next_check(by_trend: float, by_walk: float, rules: Sequence[int], longest: float) -> Due:
    """Return the earliest of the dates the record gives, and the reason.

    now when a rule is hit; else min(trend, walk, longest)
    Takes: by_trend, by_walk, longest [days]; rules from rules_hit. Gives: Due.
    Holds for: five records or more since the last adjustment; fewer: staircase_interval. Source: derived.

    >>> next_check(116.0, 135.6, (), 180.0)
    Due(days=116.0, reason='the trend reaches the tolerance')
    """
    not_negative(by_trend=by_trend, by_walk=by_walk)
    positive(longest=longest)
    if rules:
        return Due(0.0, RULE_WORDS[min(rules)])
    choices = (
        (by_trend, "the trend reaches the tolerance"),
        (by_walk, "the error may have wandered to the tolerance"),
        (longest, "the longest interval the shop allows"),
    )
    return Due(*min(choices, key=lambda pair: pair[0]))
