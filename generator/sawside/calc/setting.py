"""The one tension a blade is set to on a saw: what is aimed at, or less where saw or blade take no more.

A setting has an aim and a range that is good enough. Neither goes past what the saw's wheels, spring and axle or the blade
itself may take. Stress is counted in the body behind the gullets, load on the upper wheel of a two-wheel saw.
"""

import math
from typing import NamedTuple

from sawside.calc.band import PSI
from sawside.calc.limits import OutsideMethod, finite, positive, require

#: How far from its aim a setting still counts as right, as a share of the pull: our choice, a tenth.
GOOD_ENOUGH = 0.10


class StressRange(NamedTuple):
    """Tension stress for one kind of blade back: the published range, counted over the full width, and the least that serves.

    published_low, published_high [Pa] over the full width; least [Pa] in the body behind the gullets
    """

    published_psi: str
    published_low: float
    published_high: float
    least: float
    source: str
    mark: str


#: Tension stress by blade back. The pages that print a range work out the force with the full blade width, teeth and all
#: (12.7 x 0.635 mm at 25 000 psi is 312.5 lbf a strand there), so the ranges are counted over the full width here too.
#: The least that still serves is counted in the body; it is common practice, no source.
TARGET_STRESS = {
    "carbon_flexible_back": StressRange(
        "15 000 to 20 000", 15e3 * PSI, 20e3 * PSI, 70e6,
        "a trade page on blade tension; a woodworking magazine, 2012",
        "READ; least common practice",
    ),
    "carbon_hard_back": StressRange("20 000 to 25 000", 20e3 * PSI, 25e3 * PSI, 120e6, "trade, no source", "memory"),
    "bi_metal": StressRange(
        "25 000 to 30 000", 25e3 * PSI, 30e3 * PSI, 140e6,
        "a woodworking magazine, 2012; a trade page on blade tension: 25 000 as example, never over 35 000",
        "READ; least common practice",
    ),
    "carbide_tipped": StressRange(
        "25 000 to 30 000", 25e3 * PSI, 30e3 * PSI, 150e6, "a woodworking magazine, 2012",
        "READ; least common practice",
    ),
}  # fmt: skip

#: How far from the blade maker's value a tension still counts as right: our choice, a tenth.
MAKER_SHARE = 0.10


def published_stress(blade_back: str, maker_stress: float | None = None) -> float:
    """Return the tension stress to aim at as makers and magazines count it: over the full width of the blade.

    Equation: maker's value, or the low end of the published range for the blade back
    Takes: blade_back (one of TARGET_STRESS), maker_stress [Pa], left out when not stated
    Gives: [Pa], pull in one strand over full width times thickness
    Holds for: the four blade backs of the table.
    Source: TARGET_STRESS, each row with its source and mark. Taking the low end is Sawside's own choice: it is enough by
        those who publish it, and loads axle, spring and weld least.

    >>> published_stress("bi_metal", 172e6) / 1e6, round(published_stress("carbon_flexible_back") / 1e6, 1)
    (172.0, 103.4)
    """
    if maker_stress is not None:
        positive(maker_stress=maker_stress)
        return maker_stress
    return _stress_range(blade_back).published_low


def _stress_range(blade_back: str) -> StressRange:
    if blade_back not in TARGET_STRESS:
        raise OutsideMethod("blade_back", math.nan, f"one of {', '.join(TARGET_STRESS)}; it was {blade_back}")
    return TARGET_STRESS[blade_back]


def target_stress(published_stress: float, blade_width: float, body_width: float) -> float:
    """Return the same tension counted where it is carried: in the body behind the gullets.

    Equation: sigma = sigma_full w / b
    Takes: published_stress over the full width [Pa], blade_width: w, body_width: b [m]
    Gives: [Pa]
    Holds for: body_width not above blade_width.
    Source: derived (the same pull on the smaller section).

    >>> round(target_stress(100e6, 13e-3, 10e-3) / 1e6)
    130
    """
    positive(published_stress=published_stress, blade_width=blade_width, body_width=body_width)
    require(body_width <= blade_width, "body_width", body_width, f"at most the blade width {blade_width:g}")
    return published_stress * blade_width / body_width


def target_stress_low(blade_back: str, blade_width: float, body_width: float, maker_stress: float | None = None) -> float:
    """Return the least tension stress in the body that still serves; a tenth under the blade maker's value where there is one.

    Equation: 0.9 maker's value w / b, or `least` of TARGET_STRESS by blade back
    Takes: blade_back (one of TARGET_STRESS), blade_width: w, body_width: b [m], maker_stress [Pa], left out when not stated
    Gives: [Pa]
    Holds for: the four blade backs of the table.
    Source: TARGET_STRESS, each row with its source and mark; the tenth is Sawside's own choice.

    >>> target_stress_low("bi_metal", 13e-3, 10e-3) / 1e6, round(target_stress_low("bi_metal", 13e-3, 10e-3, 100e6) / 1e6)
    (140.0, 117)
    """
    if maker_stress is not None:
        positive(maker_stress=maker_stress)
        return target_stress((1 - MAKER_SHARE) * maker_stress, blade_width, body_width)
    positive(blade_width=blade_width, body_width=body_width)
    return _stress_range(blade_back).least


def target_stress_high(blade_back: str, blade_width: float, body_width: float, maker_stress: float | None = None) -> float:
    """Return the highest tension stress in the body; a tenth over the blade maker's value where there is one.

    Equation: 1.1 maker's value w / b, or the high end of the published range w / b
    Takes: blade_back (one of TARGET_STRESS), blade_width: w, body_width: b [m], maker_stress [Pa], left out when not stated
    Gives: [Pa]
    Holds for: the four blade backs of the table.
    Source: TARGET_STRESS, each row with its source and mark; the tenth is Sawside's own choice.

    >>> round(target_stress_high("carbon_flexible_back", 13e-3, 10e-3) / 1e6)
    179
    """
    if maker_stress is not None:
        positive(maker_stress=maker_stress)
        return target_stress((1 + MAKER_SHARE) * maker_stress, blade_width, body_width)
    return target_stress(_stress_range(blade_back).published_high, blade_width, body_width)


def stress_at_load(wheel_load_max: float, body_area: float) -> float:
    """Return the stress in the blade at the largest load the saw may carry.

    Equation: sigma = Q_max / (2 A)
    Takes: wheel_load_max: Q_max [N], body_area: A [m2]
    Gives: [Pa]
    Holds for: two wheels, strands nearly parallel.
    Source: derived (`band.wheel_load` turned round).

    >>> round(stress_at_load(1100.0, 6.0e-6) / 1e6, 1)
    91.7
    """
    positive(wheel_load_max=wheel_load_max, body_area=body_area)
    return wheel_load_max / (2 * body_area)


def blade_stress_max(target_stress_high: float, steel_yield: float, bending_stress: float) -> float:
    """Return the highest tension stress for the blade: the end of its range, or what bending leaves of its yield strength.

    Equation: min(sigma_high, R_e - sigma_b)
    Takes: target_stress_high, steel_yield: R_e, bending_stress: sigma_b on the smaller wheel [Pa]
    Gives: [Pa]
    Holds for: steel_yield more than bending_stress.
    Source: derived (tension and bending add up at the surface).

    >>> blade_stress_max(179e6, 1200e6, 380e6) / 1e6, blade_stress_max(179e6, 500e6, 380e6) / 1e6
    (179.0, 120.0)
    """
    positive(target_stress_high=target_stress_high, steel_yield=steel_yield, bending_stress=bending_stress)
    require(steel_yield > bending_stress, "steel_yield", steel_yield, f"more than the bending stress {bending_stress:g}")
    return min(target_stress_high, steel_yield - bending_stress)


def setting_stress(
    target_stress: float, target_stress_low: float, blade_stress_max: float, saw_stress_max: float | None = None
) -> float:
    """Return the tension stress to set: the aim, or less where saw or blade allow less.

    Where one of them limits it, the setting lies a tenth below the limit, so that a setting at the upper end of good
    enough still keeps to it; but not below the least that serves. Where the saw's limit is not known, the least is set.

    Equation: min(sigma, max(sigma_low, limit / 1.1)), limit = min(sigma_blade, sigma_saw); sigma_low without sigma_saw
    Takes: target_stress, target_stress_low, blade_stress_max [Pa], saw_stress_max [Pa], left out when not known
    Gives: [Pa]
    Holds for: a limit not below target_stress_low: else the saw cannot tension the blade.
    Source: derived; the tenth is Sawside's own choice.

    >>> round(setting_stress(134e6, 70e6, 179e6, 140e6) / 1e6, 1)
    127.3
    >>> setting_stress(134e6, 70e6, 179e6, 200e6) / 1e6, setting_stress(134e6, 70e6, 179e6, 75e6) / 1e6
    (134.0, 70.0)
    """
    positive(target_stress=target_stress, target_stress_low=target_stress_low, blade_stress_max=blade_stress_max)
    if saw_stress_max is None:
        require(blade_stress_max >= target_stress_low, "blade_stress_max", blade_stress_max,
                f"at least {target_stress_low:g}, the least that serves")  # fmt: skip
        return min(target_stress, target_stress_low)
    positive(saw_stress_max=saw_stress_max)
    limit = min(blade_stress_max, saw_stress_max)
    if limit < target_stress_low:
        raise OutsideMethod("tension limit", limit, f"at least {target_stress_low:g}, the least that serves")
    return min(target_stress, max(target_stress_low, limit / (1 + GOOD_ENOUGH)))


def setting_stress_from(setting_stress: float, target_stress_low: float) -> float:
    """Return the least stress that is still good enough for a setting.

    Equation: max(0.9 sigma, sigma_low), sigma if that is less
    Takes: setting_stress: sigma, target_stress_low [Pa]
    Gives: [Pa]
    Holds for: stresses more than 0.
    Source: Sawside's own choice (a tenth).

    >>> round(setting_stress_from(134e6, 70e6) / 1e6, 1), setting_stress_from(70e6, 70e6) / 1e6
    (120.6, 70.0)
    """
    positive(setting_stress=setting_stress, target_stress_low=target_stress_low)
    return min(setting_stress, max((1 - GOOD_ENOUGH) * setting_stress, target_stress_low))


def setting_stress_to(setting_stress: float, blade_stress_max: float, saw_stress_max: float | None = None) -> float:
    """Return the highest stress that is still good enough for a setting: never past a limit of saw or blade.

    Equation: min(1.1 sigma, sigma_blade, sigma_saw)
    Takes: setting_stress: sigma, blade_stress_max [Pa], saw_stress_max [Pa], left out when not known
    Gives: [Pa]
    Holds for: limits not below the setting.
    Source: Sawside's own choice (a tenth).

    >>> setting_stress_to(134e6, 179e6, 140e6) / 1e6, round(setting_stress_to(100e6, 179e6, 140e6) / 1e6, 1)
    (140.0, 110.0)
    """
    positive(setting_stress=setting_stress, blade_stress_max=blade_stress_max)
    limit = blade_stress_max
    if saw_stress_max is not None:
        positive(saw_stress_max=saw_stress_max)
        limit = min(limit, saw_stress_max)
    require(limit >= setting_stress, "tension limit", limit, f"at least the setting {setting_stress:g}")
    return min((1 + GOOD_ENOUGH) * setting_stress, limit)


def setting_basis(
    target_stress: float, setting_stress: float, blade_stress_max: float, saw_stress_max: float | None = None,
    maker_stress: float | None = None,
) -> str:  # fmt: skip
    """Return where a setting comes from: the published range, its maker, or what limits it.

    Equation: which term of `setting_stress` decides
    Takes: target_stress, setting_stress, blade_stress_max [Pa], saw_stress_max, maker_stress [Pa], left out when not known
    Gives: word: `published`, `maker`, `limited_by_saw`, `limited_by_blade` or `limit_not_known`
    Holds for: as setting_stress.
    Source: derived.

    >>> setting_basis(134e6, 127e6, 179e6, 140e6), setting_basis(134e6, 70e6, 179e6), setting_basis(134e6, 134e6, 179e6, 200e6)
    ('limited_by_saw', 'limit_not_known', 'published')
    """
    positive(target_stress=target_stress, setting_stress=setting_stress, blade_stress_max=blade_stress_max)
    if saw_stress_max is None:
        return "limit_not_known"
    positive(saw_stress_max=saw_stress_max)
    if setting_stress < target_stress:
        return "limited_by_saw" if saw_stress_max <= blade_stress_max else "limited_by_blade"
    return "published" if maker_stress is None else "maker"


def highest_scale_basis(scale_setting: float, scale_mark_high: float) -> str:
    """Return whether a mark of the tension scale lies above the highest that was compared with a load.

    Equation: mark against highest mark
    Takes: scale_setting, scale_mark_high [marks]
    Gives: word: `within` or `beyond`
    Holds for: every mark.
    Source: derived.

    >>> highest_scale_basis(6.5, 9.0), highest_scale_basis(9.5, 9.0)
    ('within', 'beyond')
    """
    finite(scale_setting=scale_setting, scale_mark_high=scale_mark_high)
    return "beyond" if scale_setting > scale_mark_high else "within"
