"""Kerf and set from cut pieces, and how many boards or veneers a block gives."""

import math

from sawside.calc.limits import not_negative, positive, require
from sawside.calc.uncertainty import mean


def kerf_from_pieces(width_before: float, piece_widths: list[float]) -> float:
    """Return the mean kerf from a piece measured before and its parts measured after.

    k = (W - sum W_i) / n, n cuts make n + 1 parts
    Takes: width_before W; piece_widths, two or more parts [m]. Gives: kerf [m].
    Holds for: all parts kept, no planing between. Includes what the blade vibrates; may be more than the tooth width.
    Source: geometry; derived.

    >>> kerf_from_pieces(50e-3, [15.6e-3, 15.7e-3, 16.5e-3]) * 1e3
    1.1
    """
    require(len(piece_widths) >= 2, "piece_widths", len(piece_widths), "two parts or more")
    lost = width_before - math.fsum(piece_widths)
    require(lost > 0, "width_before", width_before, "more than the parts together")
    return lost / (len(piece_widths) - 1)


def kerf_doubt(reading_doubt: float, cuts: int) -> float:
    """Return the standard uncertainty of `kerf_from_pieces`.

    u = u_c sqrt(n + 2) / n: n + 2 readings shared by n cuts
    Takes: reading_doubt u_c [m]; cuts n. Gives: u [m]. Holds for: independent readings. Source: derived.

    >>> kerf_doubt(0.0202e-3, 1) * 1e3, kerf_doubt(0.0202e-3, 4) * 1e3
    (0.0350, 0.0124)
    """
    not_negative(reading_doubt=reading_doubt)
    positive(cuts=cuts)
    return reading_doubt * math.sqrt(cuts + 2) / cuts


def side_set(kerf: float, blade_thickness: float) -> float:
    """Return how far teeth stand out on each side.

    s = (k - t) / 2
    Takes: kerf k, blade_thickness t [m]. Gives: set of one side [m].
    Holds for: k >= t, even set. Source: definition; derived.

    >>> side_set(1.1e-3, 0.65e-3) * 1e3
    0.225
    """
    positive(blade_thickness=blade_thickness)
    require(kerf >= blade_thickness, "kerf", kerf, "at least blade_thickness")
    return (kerf - blade_thickness) / 2


def set_offset(left_set: list[float], right_set: list[float]) -> float:
    """Return how far uneven set moves the cut to the left of the blade's middle.

    (mean left - mean right) / 2
    Takes: left_set, right_set of some teeth [m]. Gives: shift to the left [m].
    Holds for: any set above 0. Turning the blade inside out turns its sign, which tells set from tracking.
    Source: geometry; derived.

    >>> set_offset([0.25e-3, 0.24e-3], [0.20e-3, 0.21e-3]) * 1e3
    0.02
    """
    return (mean(left_set) - mean(right_set)) / 2


def boards_keeping_rest(
    block_width: float, board_thickness: float, cleanup: float, kerf: float, rejoint: float, rest: float
) -> int:
    """Return how many boards come off a block when the last part has to stay thick enough to hold.

    n = floor((W - r) / (T + c + k + j))
    Takes: block_width W, board_thickness T as sawn, cleanup c to plane off each, kerf k, rejoint j taken off the block
    before each next cut, rest r to keep [m]. Gives: count.
    Holds for: parallel cuts. Source: cut-by-cut count; derived.

    >>> boards_keeping_rest(50e-3, 3e-3, 1.0e-3, 1.1e-3, 0.0, 6e-3)
    8
    """
    step = _step(board_thickness, cleanup, kerf, rejoint)
    not_negative(rest=rest)
    require(block_width >= rest, "block_width", block_width, "at least the rest")
    return math.floor((block_width - rest) / step + 1e-9)


def boards_using_all(block_width: float, board_thickness: float, cleanup: float, kerf: float, rejoint: float) -> int:
    """Return how many boards a block gives when the last part is a board itself.

    n = floor((W + k + j) / (T + c + k + j)): one cut fewer than boards
    Takes: as boards_keeping_rest. Gives: count. Holds for: parallel cuts. Source: cut-by-cut count; derived.

    >>> boards_using_all(50e-3, 3e-3, 1.0e-3, 1.1e-3, 0.0)
    10
    """
    step = _step(board_thickness, cleanup, kerf, rejoint)
    positive(block_width=block_width)
    return math.floor((block_width + kerf + rejoint) / step + 1e-9)


def sawn_thickness(final_thickness: float, planing: float, shrinkage: float, safety_factor: float, sawing_spread: float) -> float:
    """Return the thickness to saw so that few boards end up too thin after drying and planing.

    T = (T_final + planing) / (1 - shrink) + z s
    Takes: final_thickness, planing off both faces [m]; shrinkage, share lost in drying [-]; safety_factor z of the
    normal law [-]; sawing_spread s, standard deviation of sawn thickness [m]. Gives: thickness [m].
    Holds for: 0 <= shrinkage < 0.5. Source: Brown, Quality Control in Lumber Manufacturing, 1982 (memory).

    >>> sawn_thickness(20e-3, 2e-3, 0.06, 1.645, 0.5e-3) * 1e3
    24.2
    """
    positive(final_thickness=final_thickness)
    not_negative(planing=planing, safety_factor=safety_factor, sawing_spread=sawing_spread)
    require(0 <= shrinkage < 0.5, "shrinkage", shrinkage, "0 or more and below 0.5")
    return (final_thickness + planing) / (1 - shrinkage) + safety_factor * sawing_spread


def _step(board_thickness: float, cleanup: float, kerf: float, rejoint: float) -> float:
    positive(board_thickness=board_thickness, kerf=kerf)
    not_negative(cleanup=cleanup, rejoint=rejoint)
    return board_thickness + cleanup + kerf + rejoint
