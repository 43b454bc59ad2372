"""Pushing the free strand sideways: how far it goes, what push a deflection needs, what pull a deflection means.

The strand between the wheels is held like a clamped beam under tension. `flexural_rigidity` is E I about the thin axis.
Push at mid-span, square to the flat of the blade, weighed with a spring scale; guides away; machine isolated.
"""

import math

from sawside.calc import solve
from sawside.calc.limits import not_negative, positive, require


def bending_part(x: float) -> float:
    """Return the share of a string's deflection that is left when bending stiffness helps to hold the blade.

    Equation: 1 - tanh(x) / x, and its series x^2 / 3 - 2 x^4 / 15 + 17 x^6 / 315 for small x
    Takes: x: half (pinned) or a quarter (clamped) of the span over sqrt(E I / F) [1]
    Gives: [1], 0 for a beam without pull, 1 for a string
    Holds for: x from 0 up.
    Source: derived; the series avoids the difference of two nearly equal numbers.

    >>> round(bending_part(0.01), 10), round(bending_part(17.7), 4)
    (3.33320e-05, 0.9435)
    """
    not_negative(x=x)
    if x < 0.05:
        return x * x / 3 - 2 * x**4 / 15 + 17 * x**6 / 315
    return 1 - math.tanh(x) / x


def flexural_rigidity(body_width: float, blade_thickness: float, youngs_modulus: float) -> float:
    """Return the bending stiffness of the blade the easy way, flat.

    Equation: E I = E b t^3 / 12
    Takes: body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [N m2]
    Holds for: a thin blade; teeth left out.
    Source: beam theory, textbook knowledge.

    >>> round(flexural_rigidity(10e-3, 0.65e-3, 205e9), 5)
    0.04692
    """
    positive(body_width=body_width, blade_thickness=blade_thickness, youngs_modulus=youngs_modulus)
    return youngs_modulus * body_width * blade_thickness**3 / 12


def string_deflection(push: float, span: float, strand_force: float) -> float:
    """Return the deflection of a string without stiffness: too much for a blade, the limit for a long thin one.

    Equation: P L / (4 F)
    Takes: push [N], span [m], strand_force [N]
    Gives: [m]
    Holds for: small deflections; pull that does not change.
    Source: derived (balance of forces at the push).

    >>> round(1e3 * string_deflection(30.0, 0.600, 650.0), 2)
    6.92
    """
    positive(span=span, strand_force=strand_force)
    not_negative(push=push)
    return push * span / (4 * strand_force)


def pinned_deflection(push: float, span: float, strand_force: float, flexural_rigidity: float) -> float:
    """Return the deflection of a tensioned blade whose ends are free to turn.

    Equation: P L / (4 F) (1 - tanh u / u), u = (L / 2) sqrt(F / EI)
    Takes: push [N], span [m], strand_force [N], flexural_rigidity [N m2]
    Gives: [m]
    Holds for: small deflections; pull that does not change.
    Source: derived (tensioned beam; P L^3 / 48 EI without pull).

    >>> round(1e3 * pinned_deflection(30.0, 0.600, 650.0, 0.0469151), 3)
    6.727
    """
    positive(flexural_rigidity=flexural_rigidity)
    string = string_deflection(push, span, strand_force)
    return string * bending_part(span / 2 * math.sqrt(strand_force / flexural_rigidity))


def clamped_deflection(push: float, span: float, strand_force: float, flexural_rigidity: float) -> float:
    """Return the deflection of a tensioned blade whose ends cannot turn: the strand between two wheels.

    Equation: P L / (4 F) (1 - tanh(u/2) / (u/2)), u = (L / 2) sqrt(F / EI)
    Takes: push [N], span [m], strand_force [N], flexural_rigidity [N m2]
    Gives: [m]
    Holds for: small deflections; pull that does not change. Ends that move round the wheels: less than 1 %.
    Source: derived (tensioned beam; P L^3 / 192 EI without pull); checked by finite elements.

    >>> round(1e3 * clamped_deflection(30.0, 0.600, 650.0, 0.0469151), 3)
    6.531
    """
    positive(flexural_rigidity=flexural_rigidity)
    string = string_deflection(push, span, strand_force)
    return string * bending_part(span / 4 * math.sqrt(strand_force / flexural_rigidity))


def effective_span(span: float, strand_force: float, flexural_rigidity: float) -> float:
    """Return the length of plain string that gives way as much as the clamped blade.

    Equation: L - 4 sqrt(EI / F)
    Takes: span [m], strand_force [N], flexural_rigidity [N m2]
    Gives: [m]
    Holds for: span at least 16 sqrt(EI / F), where it is right to 0.1 %.
    Source: derived (`clamped_deflection` with tanh near 1).

    >>> round(1e3 * effective_span(0.600, 650.0, 0.0469151))
    566
    """
    positive(span=span, strand_force=strand_force, flexural_rigidity=flexural_rigidity)
    end = math.sqrt(flexural_rigidity / strand_force)
    require(span >= 16 * end, "span", span, f"at least 16 sqrt(EI / F) = {16 * end:g} m")
    return span - 4 * end


def push_for_deflection(deflection: float, span: float, strand_force: float, flexural_rigidity: float) -> float:
    """Return the push that moves the middle of the strand by a deflection, with a soft tension spring or free wheels.

    Equation: clamped_deflection solved for P
    Takes: deflection, span [m], strand_force [N], flexural_rigidity [N m2]
    Gives: [N]
    Holds for: deflection up to a twentieth of the span. Wheels held still need up to 40 % more (`stiffened_push`).
    Source: derived.

    >>> round(push_for_deflection(6e-3, 0.600, 650.0, 0.0469151), 1)
    27.6
    """
    not_negative(deflection=deflection)
    need = f"at most a twentieth of the span, {span / 20:g} m"
    require(deflection <= span / 20, "deflection", deflection, need)
    return deflection / clamped_deflection(1.0, span, strand_force, flexural_rigidity)


def stiffened_push(deflection: float, span: float, strand_force: float, flexural_rigidity: float, loop_compliance: float) -> float:
    """Return the push for a deflection when the deflection itself adds to the pull.

    Equation: dF = (2 d^2 / L) / c; P = push_for_deflection at F + dF, over sqrt(1 + (2 d / L)^2)
    Takes: deflection, span [m], strand_force [N], flexural_rigidity [N m2], loop_compliance: c [m/N]
    Gives: [N]
    Holds for: deflection up to a twentieth of the span. c is `tension.loop_compliance` of the loop when the wheels may
        turn, or span / (E A) of the one strand when both wheels are held still.
    Source: derived; checked with a two-bar energy model.

    >>> round(stiffened_push(6e-3, 0.600, 650.0, 0.0469151, 0.600 / (205e9 * 6.5e-6)), 1)
    38.5
    """
    positive(loop_compliance=loop_compliance, span=span)
    raised = strand_force + 2 * deflection**2 / span / loop_compliance
    push = push_for_deflection(deflection, span, raised, flexural_rigidity)
    return push / math.sqrt(1 + (2 * deflection / span) ** 2)


def force_from_deflection(push: float, deflection: float, span: float, flexural_rigidity: float) -> float:
    """Return the pull in the strand that a measured deflection under a measured push means.

    Equation: clamped_deflection(F) = d, solved by halving between no pull and the pull of a string
    Takes: push [N], deflection, span [m], flexural_rigidity [N m2]
    Gives: [N]
    Holds for: a deflection below the slack blade's, P L^3 / 192 EI, and below a twentieth of the span.
    Source: derived (deflection falls steadily with pull).

    >>> round(force_from_deflection(30.0, 6.531e-3, 0.600, 0.0469151))
    650
    """
    positive(push=push, deflection=deflection, span=span, flexural_rigidity=flexural_rigidity)
    slack = push * span**3 / (192 * flexural_rigidity)
    top = min(slack, span / 20)
    require(deflection < top, "deflection", deflection, f"less than {top:g} m (slack blade, or span / 20)")
    string = push * span / (4 * deflection)
    return solve.halve(
        lambda force: clamped_deflection(push, span, force, flexural_rigidity) - deflection,
        1e-9 * string, 4 * string, "deflection",
    )  # fmt: skip


def deflection_at_push(
    test_push: float, free_span: float, strand_force: float, body_width: float, blade_thickness: float,
    youngs_modulus: float,
) -> float:  # fmt: skip
    """Return how far the free strand should move under the test push when its tension is right.

    Equation: clamped_deflection with E I = E b t^3 / 12
    Takes: test_push [N], free_span [m], strand_force [N], body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [m]
    Holds for: deflection up to a twentieth of the span; guides away, wheels free to turn, machine isolated.
    Source: derived.

    >>> round(1e3 * deflection_at_push(30.0, 0.600, 650.0, 10e-3, 0.65e-3, 205e9), 2)
    6.53
    """
    rigidity = flexural_rigidity(body_width, blade_thickness, youngs_modulus)
    deflection = clamped_deflection(test_push, free_span, strand_force, rigidity)
    need = f"at most a twentieth of the span, {free_span / 20:g} m: push less"
    require(deflection <= free_span / 20, "deflection", deflection, need)
    return deflection


def push_aside(
    push_distance: float, free_span: float, strand_force: float, body_width: float, blade_thickness: float,
    youngs_modulus: float,
) -> float:  # fmt: skip
    """Return the push that moves the middle of the free strand aside by a distance when its tension is right.

    Equation: push_for_deflection with E I = E b t^3 / 12
    Takes: push_distance, free_span [m], strand_force [N], body_width, blade_thickness [m], youngs_modulus [Pa]
    Gives: [N]
    Holds for: a distance up to a twentieth of the span; guides away, wheels free to turn, machine isolated.
    Source: derived; Modern Cabinetmaking, ch. 23, p. 405 says 1/8 to 1/4 in, READ, and names no push.

    >>> round(push_aside(5e-3, 0.600, 650.0, 10e-3, 0.65e-3, 205e9), 1)
    23.0
    >>> round(push_aside(6.35e-3, 0.600, 650.0, 10e-3, 0.65e-3, 205e9), 1)
    29.2
    """
    rigidity = flexural_rigidity(body_width, blade_thickness, youngs_modulus)
    return push_for_deflection(push_distance, free_span, strand_force, rigidity)
