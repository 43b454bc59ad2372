"""The one rule by which a reading is judged against limits: accept, adjust, or say honestly that it cannot tell."""

from sawside.calc.limits import finite, not_negative, positive, require

ACCEPT, ADJUST, CANNOT_TELL = "accept", "adjust", "cannot tell"
TOO_COARSE = "instrument too coarse"

#: One-sided 95 %: the chance to accept what is just outside, or to adjust what is just inside, is 5 %.
GUARD = 1.6449


def decision_limits(doubt: float, tolerance: float) -> tuple[float | None, float]:
    """Return up to which measured error to accept (None: never), and above which to adjust.

    tol - g and tol + g, g = 1.645 u
    Takes: doubt u, tolerance, in one unit. Gives: the same unit; in between the measurement cannot tell.
    Holds for: normal errors; at the limit each wrong answer has a chance of 5 %. Source: decision rule after ISO
    14253-1 (summaries read) and JCGM 106:2012 (memory).

    >>> decision_limits(0.0231, 0.1), decision_limits(0.061, 0.1)
    ((0.062, 0.138), (None, 0.2))
    """
    not_negative(doubt=doubt)
    positive(tolerance=tolerance)
    guard = GUARD * doubt
    return (None if guard >= tolerance else tolerance - guard), tolerance + guard


def decide(reading: float, low: float, high: float, doubt: float) -> str:
    """Say whether to accept a reading between two limits, to adjust, or that the measurement cannot tell.

    g = 1.645 u; accept when low + g <= x <= high - g, adjust when x < low - g or x > high + g; nothing can be accepted
    when 2 g >= high - low
    Takes: reading x, limits low and high, doubt u of the reading, all in one unit. Gives: one of the four words of this
    module. Holds for: normal errors; at a limit each wrong answer has a chance of 5 %. Without doubt the limits decide alone.
    Source: as decision_limits.

    >>> decide(18.3, 18.0, 22.0, 0.5), decide(18.0, 18.0, 22.0, 0.0), decide(22.1, 18.0, 22.0, 0.0)
    ('cannot tell', 'accept', 'adjust')
    """
    finite(reading=reading, low=low, high=high)
    not_negative(doubt=doubt)
    require(high >= low, "high", high, f"at least the low limit {low:g}")
    guard = GUARD * doubt
    if reading < low - guard or reading > high + guard:
        return ADJUST
    if guard > 0 and 2 * guard >= high - low:
        return TOO_COARSE
    return ACCEPT if low + guard <= reading <= high - guard else CANNOT_TELL


def verdict(error: float, doubt: float, tolerance: float) -> str:
    """Say whether to accept an error that should be zero, to adjust, or that the measurement cannot tell.

    decide between -tolerance and +tolerance
    Takes: error x, doubt u, tolerance, all in one unit. Gives: one of the four words of this module.
    Holds for: as decide. Source: as decision_limits.

    >>> verdict(0.0573, 0.0231, 0.1), verdict(0.1203, 0.0231, 0.1), verdict(0.0, 0.061, 0.1)
    ('accept', 'cannot tell', 'instrument too coarse')
    """
    positive(tolerance=tolerance)
    return decide(error, -tolerance, tolerance, doubt)
