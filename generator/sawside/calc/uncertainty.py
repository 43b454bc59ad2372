"""How far a measured number can be trusted: the working tools of the guide to uncertainty (JCGM 100)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sawside.calc.limits import finite, not_negative, positive, require


def combine(parts: Sequence[float]) -> float:
    """Return the combined standard uncertainty of independent contributions.

    u = sqrt(u1^2 + u2^2 + ...)
    Takes: parts, each already in the unit of the result. Gives: u, same unit.
    Holds for: independent contributions, first order. Source: JCGM 100:2008, 5.1.2, eq. 10 (memory).

    >>> combine([25, 5.8, 3.9, 6.7, 2.9, 16.7])
    31.8
    """
    for part in parts:
        require(True, "part", part, "finite")
    return math.sqrt(math.fsum(part * part for part in parts))


def rectangular(half_width: float) -> float:
    """Return the standard uncertainty of a value known only to lie within +- a limit.

    u = a / sqrt(3)
    Takes: half_width a. Gives: u, same unit.
    Holds for: every value inside equally likely. Source: JCGM 100:2008, 4.3.7 (memory).

    >>> rectangular(0.02)
    0.01155
    """
    not_negative(half_width=half_width)
    return half_width / math.sqrt(3)


def resolution(step: float) -> float:
    """Return the standard uncertainty of rounding to an instrument's step.

    u = d / sqrt(12)
    Takes: step d. Gives: u, same unit.
    Holds for: a quantity that wanders over more than one step. Source: JCGM 100:2008, F.2.2.1 (memory).

    >>> resolution(0.01)
    0.002887
    """
    not_negative(step=step)
    return step / math.sqrt(12)


def mean(readings: Sequence[float]) -> float:
    """Return the arithmetic mean.

    x = sum(x_i) / n
    Takes: readings, one or more. Gives: mean, same unit.
    Holds for: any readings. Source: JCGM 100:2008, 4.2.1 (memory).

    >>> mean([0.95, 1.05, 0.9, 1.1, 1.0])
    1.0
    """
    positive(readings=len(readings))
    return math.fsum(readings) / len(readings)


def spread(readings: Sequence[float]) -> float:
    """Return the standard deviation of single readings.

    s = sqrt(sum((x_i - x)^2) / (n - 1))
    Takes: readings, two or more. Gives: s, same unit. Holds for: repeats of one thing. Source: JCGM 100:2008, 4.2.2
    (memory).

    >>> spread([0.95, 1.05, 0.9, 1.1, 1.0])
    0.0791
    """
    require(len(readings) >= 2, "readings", len(readings), "two or more")
    middle = mean(readings)
    return math.sqrt(math.fsum((reading - middle) ** 2 for reading in readings) / (len(readings) - 1))


def mean_doubt(readings: Sequence[float]) -> float:
    """Return the standard uncertainty of the mean of repeats.

    u = s / sqrt(n)
    Takes: readings, two or more. Gives: u, same unit. Holds for: independent repeats. Source: JCGM 100:2008, 4.2.3
    (memory).

    >>> mean_doubt([0.95, 1.05, 0.9, 1.1, 1.0])
    0.0354
    """
    return spread(readings) / math.sqrt(len(readings))


def effective_degrees(parts: Sequence[float], degrees: Sequence[float]) -> float:
    """Return the degrees of freedom that belong to a combined uncertainty (Welch and Satterthwaite).

    nu = u^4 / sum(u_i^4 / nu_i)
    Takes: parts u_i in the unit of the result; degrees nu_i, math.inf for a type B one. Gives: nu, not rounded.
    Holds for: independent contributions. To pick a coverage factor, nu is cut down to a whole number, not rounded.
    Source: JCGM 100:2008, G.4.1, eq. G.2b (memory).

    >>> effective_degrees([25, 9.7, 2.9, 16.6], [18, 25.6, 50, 2])
    16.7
    """
    require(len(parts) == len(degrees) and len(parts) > 0, "degrees", len(degrees), "one for each part")
    for nu in degrees:
        require(nu > 0, "degrees", 1.0 if math.isinf(nu) else nu, "more than 0")
    total = combine(parts)
    below = math.fsum(part**4 / nu for part, nu in zip(parts, degrees, strict=True))
    return total**4 / below if below else math.inf


def coverage_factor(probability: float, degrees: float) -> float:
    """Return k so that +- k u holds the value with the given probability (Student's t, two-sided).

    P(|T| <= k) = probability, T with nu degrees of freedom
    Takes: probability, 0 to 1 [-]; degrees nu, math.inf for the normal law. Gives: k [-].
    Holds for: nu >= 1, probability below 1 - 1e-12. Source: JCGM 100:2008, G.3 and Table G.2 (memory); NIST TN 1297
    (1994), Table B.1 (read) prints the same table.

    >>> coverage_factor(0.99, 16)
    2.921
    >>> coverage_factor(0.95, math.inf)
    1.960
    """
    require(0 < probability < 1 - 1e-12, "probability", probability, "between 0 and 1")
    require(degrees >= 1, "degrees", 1.0 if math.isinf(degrees) else degrees, "1 or more")
    low, high = 0.0, 1.0
    while student_within(high, degrees) < probability:
        low, high = high, high * 2
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if student_within(middle, degrees) < probability else (low, middle)
    return (low + high) / 2


def student_within(factor: float, degrees: float) -> float:
    """Return the probability that a Student variable lies within +- a factor.

    P(|T| <= k) = 1 - I_x(nu/2, 1/2), x = nu / (nu + k^2); erf(k / sqrt 2) for nu = infinity
    Takes: factor k [-]; degrees nu. Gives: probability [-].
    Holds for: k >= 0, nu >= 1. Source: handbook of mathematical functions, 26.7.1 and 26.5 (memory).

    >>> student_within(2.120, 16)
    0.950
    """
    require(degrees >= 1, "degrees", 1.0 if math.isinf(degrees) else degrees, "1 or more")
    not_negative(factor=factor)
    if math.isinf(degrees):
        return math.erf(factor / math.sqrt(2))
    if factor == 0:
        return 0.0
    share = factor * factor / (degrees + factor * factor)
    # The fraction converges fast only below the mean of the beta law: take the side that does.
    if share < 1.5 / (degrees / 2 + 2.5):
        return _beta_share(0.5, degrees / 2, share)
    return 1 - _beta_share(degrees / 2, 0.5, degrees / (degrees + factor * factor))


def normal_below(factor: float) -> float:
    """Return the probability that a normal variable lies below its mean plus a factor times its deviation.

    Phi(z) = erfc(-z / sqrt 2) / 2
    Takes: factor z [-]. Gives: probability [-]. Holds for: any z. Source: definition of the normal law.

    >>> normal_below(1.645)
    0.950
    """
    require(True, "factor", factor, "finite")
    return math.erfc(-factor / math.sqrt(2)) / 2


@dataclass(frozen=True)
class Line:
    """A straight line fitted to readings: value at x = 0, slope, their doubts, scatter, and what a forecast needs."""

    start: float
    slope: float
    start_doubt: float
    slope_doubt: float
    scatter: float
    count: int
    x_mean: float
    x_squares: float


def line_fit(x: Sequence[float], y: Sequence[float]) -> Line:
    """Return the least-squares line through readings.

    b = Sxy / Sxx, a = mean y - b mean x, s = sqrt(sum of squared residuals / (n - 2))
    Takes: x, y of the same count, three or more, x not all equal. Gives: Line.
    Holds for: doubt in y only, the same for every reading. Source: JCGM 100:2008, H.3 (read second-hand).

    >>> line = line_fit([0, 1, 2, 3], [1.0, 3.1, 4.9, 7.0])
    >>> line.start, line.slope
    (1.03, 1.98)
    """
    require(len(x) == len(y) and len(x) >= 3, "y", len(y), "as many as x, three or more")
    x_mean, y_mean = mean(x), mean(y)
    squares = math.fsum((one - x_mean) ** 2 for one in x)
    require(squares > 0, "x", x[0], "not all the same")
    slope = math.fsum((one - x_mean) * (two - y_mean) for one, two in zip(x, y, strict=True)) / squares
    start = y_mean - slope * x_mean
    residuals = math.fsum((two - start - slope * one) ** 2 for one, two in zip(x, y, strict=True))
    scatter = math.sqrt(residuals / (len(x) - 2))
    at_zero = scatter * math.sqrt(1 / len(x) + x_mean**2 / squares)
    return Line(start, slope, at_zero, scatter / math.sqrt(squares), scatter, len(x), x_mean, squares)


def line_at(line: Line, x: float) -> tuple[float, float, float]:
    """Return the line's value, its own doubt there, and the doubt of one further reading there.

    y = a + b x,  u = s sqrt(1/n + (x - mean x)^2 / Sxx),  u_next = sqrt(u^2 + s^2)
    Takes: Line; x. Gives: value, doubt of the line, doubt of a next reading.
    Holds for: as line_fit; beyond the readings only as far as the line stays straight. Source: JCGM 100:2008, H.3.4
    (read second-hand) for u; the next reading adds its own scatter, derived.

    >>> line_at(line_fit([0, 1, 2, 3], [1.0, 3.1, 4.9, 7.0]), 4.0)[0]
    8.95
    """
    finite(x=x)
    own = line.scatter * math.sqrt(1 / line.count + (x - line.x_mean) ** 2 / line.x_squares)
    return line.start + line.slope * x, own, math.hypot(own, line.scatter)


def _beta_share(a: float, b: float, x: float) -> float:
    """Return the regularised incomplete beta function I_x(a, b) by its continued fraction (Lentz's way)."""
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x))
    tiny = 1e-300
    upper, lower = 1.0, 1 - (a + b) * x / (a + 1)
    lower = 1 / (lower or tiny)
    value = lower
    for m in range(1, 500):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            lower = 1 / ((1 + term * lower) or tiny)
            upper = (1 + term / upper) or tiny
            change = upper * lower
            value *= change
        if abs(change - 1) < 1e-15:
            break
    return front * value / a
