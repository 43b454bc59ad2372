"""Finding where a rising or falling function passes through zero, by halving the interval.

Halving is slow and cannot go wrong: it needs two ends of opposite sign and nothing else.
"""

from collections.abc import Callable

from sawside.calc.limits import OutsideMethod, finite


def halve(function: Callable[[float], float], low: float, high: float, name: str) -> float:
    """Return the argument between two ends at which a continuous function is zero.

    Equation: halve [low, high], keep the half whose ends differ in sign, until the floats touch
    Takes: function (one float to one float); low, high [any unit]; name (of what is looked for, for the refusal)
    Gives: [unit of low and high]
    Holds for: a continuous function with opposite signs at the two ends.
    Source: bisection, common numerical practice; checked against scipy.optimize.brentq.

    >>> round(halve(lambda side: side * side - 2.0, 0.0, 2.0, "side"), 9)
    1.414213562
    """
    finite(low=low, high=high)
    at_low, at_high = function(low), function(high)
    if at_low == 0.0:
        return low
    if at_high == 0.0:
        return high
    if (at_low > 0.0) == (at_high > 0.0):
        raise OutsideMethod(name, low, f"between {low:g} and {high:g}, but there is no answer there")
    for _ in range(200):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if (function(middle) > 0.0) == (at_low > 0.0):
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
