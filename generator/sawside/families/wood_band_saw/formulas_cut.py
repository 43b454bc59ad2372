"""Guides, test piece and feed of a wood band saw: the general formulas with its parts and its assumptions put in.

Pure functions like those of `calc`, and documented like them; each calls one of them and adds no physics of its own.
"""

import math

from sawside.calc import drift, guides, power, stiffness, testcut, wheels
from sawside.calc.limits import OutsideMethod, not_negative

#: Part of the tolerance that the doubt of the calipers may use up.
GUARD_SHARE = 0.5


class NotForThisPart(OutsideMethod):
    """A method that does not suit the part the saw has, said in words."""

    def __init__(self, words: str) -> None:
        ValueError.__init__(self, words)
        self.name, self.value, self.must_be = words, math.nan, words


def guide_yaw(side_guides: str, side_guide_contact: float, blade_thickness: float, side_clearance: float) -> float:
    """Return how far the blade can turn inside the side guides.

    Equation: psi = asin((t + 2 s) / sqrt(a^2 + t^2)) - atan(t / a)
    Takes: side_guides (block, disc, roller), side_guide_contact: a, along the blade's width, blade_thickness: t,
        side_clearance: s on each side [m]
    Gives: [rad]
    Holds for: block or disc guides. A roller touches along a line and sets no limit by itself.
    Source: derived (rectangle turned between two parallel faces, `guides.guide_yaw`).

    >>> round(math.degrees(guide_yaw("block", 8e-3, 0.65e-3, 0.1e-3)), 2)
    1.43
    """
    if side_guides == "roller":
        raise NotForThisPart("a roller touches the blade along a line, so that it sets no limit to its turning")
    return guides.guide_yaw(side_guide_contact, blade_thickness, side_clearance)


def guide_margin_needed(
    thrust_gap: float, bow_at_slack: float, weld_step: float | None = None, lateral_run_out: float | None = None
) -> float:
    """Return how far behind the gullets the guides have to be at least: all that pushes the blade back at the guide.

    Equation: thrust gap + bow + weld step + wheel wobble / 2, each that is known
    Takes: thrust_gap, bow_at_slack, weld_step of the back edge, lateral_run_out: total dial reading [m], the last two
        or None for not measured
    Gives: [m], less than needed while weld or wheel are not measured
    Holds for: all of them adding up, the worst case.
    Source: derived (`guides.margin_needed`).

    >>> round(1e3 * guide_margin_needed(0.3e-3, 0.17e-3, 0.1e-3, 0.1e-3), 6)
    0.62
    >>> round(1e3 * guide_margin_needed(0.3e-3, 0.17e-3), 6)
    0.47
    """
    wobble = wheels.wobble_travel(lateral_run_out or 0.0)
    return guides.margin_needed(thrust_gap, bow_at_slack, weld_step or 0.0, wobble)


def guide_margin_verdict(guide_margin: float, guide_margin_needed: float) -> str:
    """Return whether the guides stay clear of the gullets when the blade is pushed back.

    Equation: set margin against needed margin
    Takes: guide_margin, guide_margin_needed [m]
    Gives: word: `margin_enough` or `margin_short`
    Holds for: as guide_margin_needed.
    Source: derived.

    >>> guide_margin_verdict(0.8e-3, 0.62e-3), guide_margin_verdict(0.3e-3, 0.62e-3)
    ('margin_enough', 'margin_short')
    """
    not_negative(guide_margin=guide_margin, guide_margin_needed=guide_margin_needed)
    return "margin_enough" if guide_margin >= guide_margin_needed else "margin_short"


def weld_verdict(side_clearance: float, weld_thickness_step: float | None = None) -> str:
    """Return whether the weld passes between the side guides.

    Equation: s against the weld's thickness less the blade's
    Takes: side_clearance: s on each side, weld_thickness_step [m], left out when not measured
    Gives: word: `weld_not_measured`, `weld_passes` or `weld_catches`
    Holds for: a weld that may be thicker on one side only. One as thick as both gaps together would knock on both guides; a
        weld one feels should be dressed, not given room.
    Source: one gap at most: common practice, no source.

    >>> weld_verdict(0.1e-3), weld_verdict(0.1e-3, 0.1e-3), weld_verdict(0.1e-3, 0.15e-3)
    ('weld_not_measured', 'weld_passes', 'weld_catches')
    """
    not_negative(side_clearance=side_clearance)
    if weld_thickness_step is None:
        return "weld_not_measured"
    return "weld_passes" if weld_thickness_step <= side_clearance else "weld_catches"


def bow_at_slack(
    edge_slack_floor: float, guide_span: float, strand_force: float, body_width: float, blade_thickness: float,
    youngs_modulus: float,
) -> float:  # fmt: skip
    """Return how far the blade bows back between the thrust bearings when the feed takes the pull off its teeth.

    Equation: P L / (4 F) (1 - tanh u / u), u = (L / 2) sqrt(F / E I_x), P = edge_slack_floor
    Takes: edge_slack_floor [N], guide_span [m], strand_force [N], body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [m]
    Holds for: a feed force at mid-span, back resting on both thrust bearings; shear left out.
    Source: derived (tensioned beam on edge, `stiffness.bow`).

    >>> round(1e3 * bow_at_slack(32.0, 0.150, 650.0, 10e-3, 0.65e-3, 205e9), 2)
    0.18
    """
    return stiffness.bow(edge_slack_floor, guide_span, strand_force, body_width, blade_thickness, youngs_modulus)


def piece_height(caliper_doubt: float, square_tolerance: float) -> float:
    """Return how tall the test piece has to be between the caliper's touching points, for four corners read once.

    Equation: H = 1.645 u / (tolerance / 2)
    Takes: caliper_doubt: u [m], square_tolerance [rad]
    Gives: [m]
    Holds for: small angles; calipers whose doubt may use up half of the tolerance, our choice.
    Source: derived (`testcut.height_needed`); the half is Sawside's own choice.

    >>> round(1e3 * piece_height(0.0202e-3, math.radians(0.1)), 1)
    38.1
    """
    return testcut.height_needed(caliper_doubt, square_tolerance, GUARD_SHARE, 1.0)


def piece_height_turned(caliper_doubt: float, square_tolerance: float) -> float:
    """Return how tall a piece that is turned end for end and cut twice has to be between the touching points.

    Equation: H = 1.645 u / (sqrt(2) tolerance / 2)
    Takes: caliper_doubt: u [m], square_tolerance [rad]
    Gives: [m]
    Holds for: small angles; calipers whose doubt may use up half of the tolerance, our choice.
    Source: derived (`testcut.height_needed`, the error shows twice); the half is Sawside's own choice.

    >>> round(1e3 * piece_height_turned(0.0202e-3, math.radians(0.1)), 1)
    26.9
    """
    return testcut.height_needed(caliper_doubt, square_tolerance, GUARD_SHARE, math.sqrt(2))


def test_height(piece_height_turned: float, cutting_height_max: float) -> float:
    """Return the height to take between the upper and the lower readings on the test piece, on this saw.

    Equation: the height needed, at least 40 mm, in steps of 5 mm, at most the room under the guides less 20 mm
    Takes: piece_height_turned, cutting_height_max [m]
    Gives: [m]
    Holds for: saws with 30 mm of room or more under the guides.
    Source: Sawside's own choice (`testcut.reading_height`).

    >>> round(1e3 * test_height(40.4e-3, 200e-3))
    45
    """
    return testcut.reading_height(piece_height_turned, cutting_height_max)


def square_accept(caliper_doubt: float, square_tolerance: float, test_height: float) -> float:
    """Return the difference of thickness, top against bottom, up to which a turned test cut is accepted.

    Equation: d = 2 H tan(tolerance - g), g = 1.645 u / (2 H)
    Takes: caliper_doubt: u of one reading [m], square_tolerance [rad], test_height: H [m]
    Gives: [m]
    Holds for: top and bottom each the mean of two readings; calipers that can prove the tolerance at all.
    Source: decision rule after ISO 14253-1, summaries READ, and JCGM 106:2012, memory (`testcut.turned_cut_limit`).

    >>> round(1e3 * square_accept(0.03e-3, math.radians(0.1), 45e-3), 3)
    0.108
    """
    return testcut.turned_cut_limit(caliper_doubt, square_tolerance, test_height, "accept")


def square_adjust(caliper_doubt: float, square_tolerance: float, test_height: float) -> float:
    """Return the difference of thickness, top against bottom, above which a turned test cut says: adjust the table.

    Equation: d = 2 H tan(tolerance + g), g = 1.645 u / (2 H)
    Takes: caliper_doubt: u of one reading [m], square_tolerance [rad], test_height: H [m]
    Gives: [m]
    Holds for: top and bottom each the mean of two readings.
    Source: decision rule after ISO 14253-1, summaries READ, and JCGM 106:2012, memory (`testcut.turned_cut_limit`).

    >>> round(1e3 * square_adjust(0.03e-3, math.radians(0.1), 45e-3), 3)
    0.206
    """
    return testcut.turned_cut_limit(caliper_doubt, square_tolerance, test_height, "adjust")


def stop_turns_per_tenth(table_stop_arm: float, table_stop_pitch: float) -> float:
    """Return the turns of the table's stop bolt that tilt the table by a tenth of a degree.

    Equation: N = a tan(0.1 degree) / P
    Takes: table_stop_arm: a, tilt axis to bolt [m], table_stop_pitch: P, travel per turn [m]
    Gives: [1] turns
    Holds for: a bolt square to its arm. Which way: turn half of it, cut again.
    Source: derived (lever, `testcut.stop_bolt_turns`).

    >>> round(stop_turns_per_tenth(90e-3, 1e-3), 3)
    0.157
    """
    return testcut.stop_bolt_turns(math.radians(0.1), table_stop_arm, table_stop_pitch)


def fence_shift_per_degree(fence_length: float) -> float:
    """Return how far the far fixing of the fence moves for one degree.

    Equation: d = l tan(1 degree)
    Takes: fence_length: l, between the fixings [m]
    Gives: [m]
    Holds for: a fence that turns about its near fixing.
    Source: derived (geometry, `drift.fence_shift`).

    >>> round(1e3 * fence_shift_per_degree(0.300), 2)
    5.24
    """
    return drift.fence_shift(math.radians(1.0), fence_length)


def feed_by_power(
    motor_power: float, idle_power: float, drive_efficiency: float, band_speed: float, work_height_max: float,
    kerf: float, tooth_pitch: float, cutting_stress: float, rubbing_force: float,
) -> float:  # fmt: skip
    """Return the feed that uses up the motor's power, with the two constants of this wood from this saw's timed cuts.

    Equation: v_f = max(0, eta (P_motor - P_idle) / (k h) - F_0 v / p) / K
    Takes: motor_power, idle_power [W], drive_efficiency: eta [1], band_speed: v [m/s], work_height_max: h, kerf: k,
        tooth_pitch: p [m], cutting_stress: K [Pa], rubbing_force: F_0 [N/m]
    Gives: [m/s]
    Holds for: constants found by two timed cuts with a power meter; published ones fit other saws and other wood.
    Source: derived (`power.feed_at_power`).

    >>> round(60 * feed_by_power(775.0, 150.0, 0.8, 15.0, 150e-3, 1.1e-3, 25.4e-3 / 3, 40e6, 1200.0), 2)
    1.36
    """
    left = power.net_power(motor_power, idle_power, drive_efficiency)
    return power.feed_at_power(left, band_speed, work_height_max, kerf, tooth_pitch, cutting_stress, rubbing_force)


def feed_governed_by(feed_by_gullet: float, feed_by_power: float) -> str:
    """Return which limit allows the least feed, and what would raise it.

    Equation: the smaller of the feeds
    Takes: feed_by_gullet, feed_by_power [m/s]
    Gives: words
    Holds for: as the two feeds.
    Source: derived (`power.governing_limit`).

    >>> feed_governed_by(0.068, 0.023)
    'power governs: fewer or sharper teeth in the work, or a thinner kerf, cut faster'
    """
    return power.governing_words(power.governing_limit({"gullet": feed_by_gullet, "power": feed_by_power}))
