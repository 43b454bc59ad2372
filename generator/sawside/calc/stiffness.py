"""How the blade stands up to the feed: tip stiffness, slack tooth edge, sideways buckling, bow, and the guides' height.

The guides hold position and twist; the blade may turn in them sideways, which is the safe side. Spans are from upper
to lower guide. A mechanical limit of the blade, never a recommendation how hard to push.
"""

import math

from sawside.calc import solve, strand
from sawside.calc.limits import not_negative, positive, require


def edgewise_rigidity(body_width: float, blade_thickness: float, youngs_modulus: float) -> float:
    """Return the bending stiffness of the blade the hard way, on edge.

    Equation: E I_x = E t b^3 / 12
    Takes: body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [N m2]
    Holds for: teeth left out.
    Source: beam theory, textbook knowledge.

    >>> round(edgewise_rigidity(10e-3, 0.65e-3, 205e9), 3)
    11.104
    """
    positive(body_width=body_width, blade_thickness=blade_thickness, youngs_modulus=youngs_modulus)
    return youngs_modulus * blade_thickness * body_width**3 / 12


def torsion_constant(body_width: float, blade_thickness: float) -> float:
    """Return the torsion constant of the body, a flat rectangle.

    Equation: J = b t^3 (1/3 - 0.21 (t/b) (1 - (t/b)^4 / 12))
    Takes: body_width, blade_thickness [m]
    Gives: [m4]
    Holds for: blade_thickness not above body_width.
    Source: handbook approximation, from memory; checked against the exact series.

    >>> round(1e12 * torsion_constant(10e-3, 0.65e-3), 4)
    0.8779
    """
    positive(body_width=body_width, blade_thickness=blade_thickness)
    slim = blade_thickness / body_width
    require(slim <= 1, "blade_thickness", blade_thickness, f"at most the body width {body_width:g}")
    return body_width * blade_thickness**3 * (1 / 3 - 0.21 * slim * (1 - slim**4 / 12))


def twist_rigidity(
    body_width: float, blade_thickness: float, strand_force: float, youngs_modulus: float, poisson_ratio: float
) -> float:
    """Return the resistance of the tensioned body against twist: elastic, plus what the pull adds.

    Equation: GJ_e = G J + F (b^2 + t^2) / 12, G = E / (2 (1 + nu))
    Takes: body_width, blade_thickness [m], strand_force [N], youngs_modulus [Pa], poisson_ratio [1]
    Gives: [N m2]
    Holds for: pull spread evenly over the body.
    Source: derived.

    >>> round(twist_rigidity(10e-3, 0.65e-3, 650.0, 205e9, 0.29), 4)
    0.0752
    """
    positive(youngs_modulus=youngs_modulus)
    not_negative(strand_force=strand_force)
    require(0 <= poisson_ratio < 0.5, "poisson_ratio", poisson_ratio, "from 0 to less than 0.5")
    shear = youngs_modulus / (2 * (1 + poisson_ratio))
    pull = strand_force * (body_width**2 + blade_thickness**2) / 12
    return shear * torsion_constant(body_width, blade_thickness) + pull


def guide_span(work_height: float, guide_post_gap: float, lower_guide_below_table: float) -> float:
    """Return the length of blade between upper and lower guide.

    Equation: S = work height + gap above the work + lower guide below the table
    Takes: work_height, guide_post_gap, lower_guide_below_table [m]
    Gives: [m]
    Holds for: an upper guide set down to the work.
    Source: derived.

    >>> round(1e3 * guide_span(0.050, 0.010, 0.045), 6)
    105.0
    """
    positive(work_height=work_height)
    not_negative(guide_post_gap=guide_post_gap, lower_guide_below_table=lower_guide_below_table)
    return work_height + guide_post_gap + lower_guide_below_table


def guide_span_100_mm_too_high(guide_span: float) -> float:
    """Return the span when the upper guide stands 100 mm higher than it should.

    Equation: S + 0.1 m
    Takes: guide_span [m]
    Gives: [m]
    Holds for: guide_span more than 0.
    Source: derived; 100 mm is an example for the guide, not a limit.

    >>> round(guide_span_100_mm_too_high(0.105), 6)
    0.205
    """
    positive(guide_span=guide_span)
    return guide_span + 0.1


def tip_stiffness(
    guide_span: float, strand_force: float, body_width: float, blade_thickness: float, gullet: float,
    youngs_modulus: float, poisson_ratio: float,
) -> float:  # fmt: skip
    """Return the sideways force per deflection at a tooth tip half-way between the guides.

    Equation: 1/k = (L / 4F) (1 - tanh u / u) + e^2 L / (4 GJ_e), u = (L / 2) sqrt(F / EI), e = b / 2 + g
    Takes: guide_span, body_width, blade_thickness, gullet [m], strand_force [N], youngs_modulus [Pa], poisson_ratio [1]
    Gives: [N/m]
    Holds for: guides that stop twist; the tooth's own bending left out. Falls nearly as 1 / span.
    Source: derived. That tip stiffness matters most for accuracy: B. Lehmann, UBC thesis 1993, abstract READ.

    >>> round(tip_stiffness(0.150, 650.0, 10e-3, 0.65e-3, 3e-3, 205e9, 0.29) / 1e3, 1)
    12.0
    """
    not_negative(gullet=gullet)
    rigidity = strand.flexural_rigidity(body_width, blade_thickness, youngs_modulus)
    twist = twist_rigidity(body_width, blade_thickness, strand_force, youngs_modulus, poisson_ratio)
    arm = body_width / 2 + gullet
    sideways = strand.pinned_deflection(1.0, guide_span, strand_force, rigidity)
    return 1 / (sideways + arm**2 * guide_span / (4 * twist))


def tip_stiffness_100_mm_too_high(
    guide_span_100_mm_too_high: float, strand_force: float, body_width: float, blade_thickness: float, gullet: float,
    youngs_modulus: float, poisson_ratio: float,
) -> float:  # fmt: skip
    """Return the tip stiffness when the upper guide stands 100 mm too high.

    Equation: tip_stiffness at the longer span
    Takes: guide_span_100_mm_too_high, body_width, blade_thickness, gullet [m], strand_force [N], youngs_modulus [Pa],
        poisson_ratio [1]
    Gives: [N/m]
    Holds for: as `tip_stiffness`.
    Source: derived.

    >>> round(tip_stiffness_100_mm_too_high(0.195, 650.0, 10e-3, 0.65e-3, 3e-3, 205e9, 0.29) / 1e3, 1)
    9.1
    """
    return tip_stiffness(
        guide_span_100_mm_too_high, strand_force, body_width, blade_thickness, gullet, youngs_modulus, poisson_ratio
    )


def stiffness_lost(tip_stiffness: float, tip_stiffness_100_mm_too_high: float) -> float:
    """Return the share of tip stiffness that a guide 100 mm too high costs.

    Equation: 1 - k_high / k
    Takes: tip_stiffness, tip_stiffness_100_mm_too_high [N/m]
    Gives: [1]
    Holds for: the same blade and pull in both.
    Source: derived.

    >>> round(stiffness_lost(18.6e3, 9.1e3), 2)
    0.51
    """
    positive(tip_stiffness=tip_stiffness, tip_stiffness_100_mm_too_high=tip_stiffness_100_mm_too_high)
    return 1 - tip_stiffness_100_mm_too_high / tip_stiffness


def _slack_parts(
    guide_span: float, strand_force: float, body_width: float, blade_thickness: float, youngs_modulus: float
) -> tuple[float, float]:
    """Return the edge's slack moment [N m] and the rate k = sqrt(F / E I_x) [1/m]."""
    positive(guide_span=guide_span, strand_force=strand_force)
    rigidity = edgewise_rigidity(body_width, blade_thickness, youngs_modulus)
    return strand_force * body_width / 6, math.sqrt(strand_force / rigidity)


def edge_slack_floor(
    guide_span: float, strand_force: float, body_width: float, blade_thickness: float, youngs_modulus: float
) -> float:
    """Return the feed force at mid-span that takes the pull off the gullet line, blade free to turn in the guides.

    Equation: P = sigma Z 2k / tanh(k L / 2), sigma Z = F b / 6, k = sqrt(F / E I_x)
    Takes: guide_span [m], strand_force [N], body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [N]
    Holds for: a feed force at one point, back of the blade resting on both thrust bearings.
    Source: derived (tensioned beam on edge).

    >>> round(edge_slack_floor(0.150, 650.0, 10e-3, 0.65e-3, 205e9))
    32
    """
    moment, k = _slack_parts(guide_span, strand_force, body_width, blade_thickness, youngs_modulus)
    return moment * 2 * k / math.tanh(k * guide_span / 2)


def edge_slack_ceiling(
    guide_span: float, strand_force: float, body_width: float, blade_thickness: float, youngs_modulus: float
) -> float:
    """Return the feed force that takes the tension off the gullet line when the guides hold the blade straight.

    Equation: P = sigma Z 2k / tanh(k L / 4), sigma Z = F b / 6, k = sqrt(F / E I_x)
    Takes: guide_span [m], strand_force [N], body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [N]
    Holds for: a feed force at one point, ends that cannot turn.
    Source: derived (tensioned beam on edge, clamped).

    >>> round(edge_slack_ceiling(0.150, 650.0, 10e-3, 0.65e-3, 205e9))
    59
    """
    moment, k = _slack_parts(guide_span, strand_force, body_width, blade_thickness, youngs_modulus)
    return moment * 2 * k / math.tanh(k * guide_span / 4)


def edge_slack_spread(guide_span: float, work_height: float, strand_force: float, body_width: float) -> float:
    """Return the feed force that takes the tension off the gullet line when it is spread over the height of the cut.

    Equation: P = 4 sigma Z / (L - h / 2), sigma Z = F b / 6
    Takes: guide_span, work_height [m], strand_force [N], body_width [m]
    Gives: [N]
    Holds for: work in the middle of the span, not higher than it; stiffening by the pull left out (low side).
    Source: derived (simply supported beam with a spread load).

    >>> round(edge_slack_spread(0.150, 0.050, 650.0, 10e-3))
    35
    """
    positive(strand_force=strand_force, body_width=body_width, guide_span=guide_span)
    require(0 <= work_height <= guide_span, "work_height", work_height, f"from 0 to the guide span {guide_span:g}")
    return 4 * strand_force * body_width / 6 / (guide_span - work_height / 2)


def buckling_load(
    guide_span: float, strand_force: float, body_width: float, blade_thickness: float, gullet: float,
    youngs_modulus: float, poisson_ratio: float,
) -> float:  # fmt: skip
    """Return the feed force at mid-span that makes the tensioned blade give way sideways.

    Equation: P = 4 s sqrt(F GJ_e) / L (1 + 2.5 / (k L)), k = sqrt(F / EI), e = b/2 + g,
        1 / atanh(s) = s + e sqrt(F / GJ_e)
    Takes: guide_span, body_width, blade_thickness, gullet [m], strand_force [N], youngs_modulus [Pa], poisson_ratio [1]
    Gives: [N]
    Holds for: L >= 8 b and k L >= 8, 70 to 150 MPa; there from 2.5 % below to 4.5 % above beam finite elements.
        Shorter spans run high and are refused.
    Source: derived; the 2.5 is fitted to beam finite elements. A one-sine estimate is 20 to 50 % too high.

    >>> round(buckling_load(0.150, 650.0, 10e-3, 0.65e-3, 3e-3, 205e9, 0.29))
    133
    """
    positive(guide_span=guide_span, strand_force=strand_force)
    not_negative(gullet=gullet)
    twist = twist_rigidity(body_width, blade_thickness, strand_force, youngs_modulus, poisson_ratio)
    rigidity = strand.flexural_rigidity(body_width, blade_thickness, youngs_modulus)
    least = 8 * max(body_width, math.sqrt(rigidity / strand_force))
    require(guide_span >= least, "guide_span", guide_span, f"at least {least:g} m for this blade and pull")
    eta = (body_width / 2 + gullet) * math.sqrt(strand_force / twist)
    s = solve.halve(lambda s: (s + eta) * math.atanh(s) - 1, 1e-9, 1 - 1e-12, "gullet")
    end = 1 + 2.5 / (guide_span * math.sqrt(strand_force / rigidity))
    return 4 * s * math.sqrt(strand_force * twist) / guide_span * end


def stiffness_left(feed_force: float, buckling_load: float) -> float:
    """Return the share of tip stiffness that is left under a feed force.

    Equation: 1 - 0.7 x - 0.3 x^2, x = P / P_cr
    Takes: feed_force, buckling_load [N]
    Gives: [1]
    Holds for: x from 0 to 1; within 9 % of plate finite elements, two blades. `stiffness_left_floor` is the safe side.
    Source: derived, fitted to plate finite elements.

    >>> stiffness_left(50.0, 100.0)
    0.575
    """
    share = 1 - stiffness_left_floor(feed_force, buckling_load)
    return 1 - 0.7 * share - 0.3 * share**2


def stiffness_left_floor(feed_force: float, buckling_load: float) -> float:
    """Return the least share of tip stiffness that is left under a feed force.

    Equation: 1 - x, x = P / P_cr
    Takes: feed_force, buckling_load [N]
    Gives: [1]
    Holds for: x from 0 to 1.
    Source: derived.

    >>> stiffness_left_floor(50.0, 100.0)
    0.5
    """
    positive(buckling_load=buckling_load)
    require(0 <= feed_force <= buckling_load, "feed_force", feed_force, f"from 0 to buckling at {buckling_load:g}")
    return 1 - feed_force / buckling_load


def bow(
    feed_force: float, guide_span: float, strand_force: float, body_width: float, blade_thickness: float,
    youngs_modulus: float,
) -> float:  # fmt: skip
    """Return how far a feed force bows the blade back between the thrust bearings.

    Equation: P L / (4 F) (1 - tanh u / u), u = (L / 2) sqrt(F / E I_x)
    Takes: feed_force [N], guide_span [m], strand_force [N], body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [m]
    Holds for: a feed force at mid-span, back resting on both thrust bearings; shear left out.
    Source: derived (tensioned beam on edge).

    >>> round(1e3 * bow(30.0, 0.150, 650.0, 10e-3, 0.65e-3, 205e9), 2)
    0.17
    """
    rigidity = edgewise_rigidity(body_width, blade_thickness, youngs_modulus)
    return strand.pinned_deflection(feed_force, guide_span, strand_force, rigidity)


def feed_limit(edge_slack_floor: float, buckling_load: float) -> float:
    """Return the feed force beyond which the blade no longer stands as it should.

    Equation: min(P_slack, P_cr / 2)
    Takes: edge_slack_floor, buckling_load [N]
    Gives: [N]
    Holds for: a mechanical limit of the blade; no advice to push that hard.
    Source: Sawside's own choice of the two limits.

    >>> feed_limit(32.0, 133.0)
    32.0
    """
    positive(edge_slack_floor=edge_slack_floor, buckling_load=buckling_load)
    return min(edge_slack_floor, buckling_load / 2)
