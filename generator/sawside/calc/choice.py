"""Which blade for which job: an order without weights, what stands behind it, what to buy, and how few blades do all jobs.

A limit's margin is a ratio, 1 is just enough (margins.py): a blade that fails one is out. Among those that keep to all, each
is graded on what practice looks at, good, middling or poor, and the blade whose worst grades are best goes first; of blades
graded alike the wider one. Nothing is weighed against anything else, so no weight has to be invented, and blades that differ
by less than two nominal sizes do share one place.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sawside.calc.limits import OutsideMethod, positive
from sawside.calc.margins import SAME, Margin
from sawside.calc.pitch import pitch_coarsest, pitch_finest
from sawside.calc.tables import SAME_SIZE

GOOD, MIDDLING, POOR = 0, 1, 2


@dataclass(frozen=True)
class Grade:
    """How well a blade suits a job in one respect: its name, GOOD, MIDDLING or POOR, and that in words."""

    name: str
    grade: int
    words: str


@dataclass(frozen=True)
class Ranked:
    """One blade's place (1 is best, shared where nothing separates), what it fails, and what binds or holds it back.

    `binding` is the narrowest of its limits, `worst` the worst of its grades; `beaten_by` are blades that are as good or better
    in every limit, `equal_to` those that share its place.
    """

    blade: str
    place: int
    jobs_failed: tuple[str, ...]
    criteria_failed: int
    binding: Margin
    binding_job: str
    beaten_by: tuple[str, ...]
    worst: Grade | None = None
    equal_to: tuple[str, ...] = ()

    @property
    def fits(self) -> bool:
        """Tell whether the blade does every job."""
        return not self.jobs_failed


def rank(
    margins: Mapping[str, Mapping[str, Sequence[Margin]]],
    grades: Mapping[str, Mapping[str, Sequence[Grade]]],
    widths: Mapping[str, float],
) -> tuple[Ranked, ...]:
    """Return all blades, best first.

    order: jobs failed; limits failed; of blades that fail, ascending margins; of the others, grades, the worst first; width
    Takes: margins, blade -> job -> its limits, the same jobs and limits for every blade; grades, blade -> job -> its grades,
    the same for every blade; widths, blade -> [m].
    Gives: one Ranked for each blade. Blades graded alike whose widths are one nominal size (3 %) share a place.
    Holds for: one blade and one job or more. Source: lexicographic maximin, common in decision theory; derived.

    >>> def m(ratio): return {"rip": [Margin("teeth", ratio, "")]}
    >>> def g(*marks): return {"rip": [Grade(f"g{i}", mark, "") for i, mark in enumerate(marks)]}
    >>> table = {"a": m(1.1), "b": m(1.2), "c": m(0.9), "d": m(1.1)}
    >>> marks = {"a": g(1, 1), "b": g(2, 0), "c": g(0, 0), "d": g(1, 1)}
    >>> [(r.blade, r.place) for r in rank(table, marks, {"a": 13e-3, "b": 10e-3, "c": 10e-3, "d": 12.7e-3})]
    [('a', 1), ('d', 1), ('b', 3), ('c', 4)]
    """
    _same_criteria(margins)
    keys = {blade: _key(margins[blade], grades[blade]) for blade in margins}
    order = sorted(margins, key=lambda blade: (keys[blade], -widths[blade], blade))
    found: list[Ranked] = []
    for number, blade in enumerate(order, 1):
        leader = found[-1] if found else None
        place = number
        if leader and leader.fits:
            first = order[leader.place - 1]
            if keys[first] == keys[blade] and widths[blade] >= widths[first] * (1 - SAME_SIZE):
                place = leader.place
        found.append(_ranked(blade, place, margins, grades))
    return tuple(_with_equals(one, found) for one in found)


def _with_equals(one: Ranked, found: Sequence[Ranked]) -> Ranked:
    return replace(one, equal_to=tuple(other.blade for other in found if other.place == one.place and other is not one))


def _key(jobs: Mapping[str, Sequence[Margin]], grades: Mapping[str, Sequence[Grade]]) -> tuple[Any, ...]:
    every = [margin for found in jobs.values() for margin in found]
    failed = sum(not margin.met for margin in every)
    marks = sorted((grade.grade for found in grades.values() for grade in found), reverse=True)
    # Rounded so that two ways to the same number cannot swap places; negated because sorting puts the least first.
    ladder = [-round(margin.ratio, 9) for margin in sorted(every, key=lambda m: m.ratio)] if failed else marks
    return len(_failed(jobs)), failed, tuple(ladder)


def _failed(jobs: Mapping[str, Sequence[Margin]]) -> tuple[str, ...]:
    return tuple(job for job, found in jobs.items() if not all(margin.met for margin in found))


def _ranked(
    blade: str, place: int, margins: Mapping[str, Mapping[str, Sequence[Margin]]],
    grades: Mapping[str, Mapping[str, Sequence[Grade]]],
) -> Ranked:  # fmt: skip
    jobs = margins[blade]
    binding_job, binding = min(((job, margin) for job, found in jobs.items() for margin in found), key=lambda pair: pair[1].ratio)
    beaten = tuple(other for other in margins if other != blade and beats(margins[other], jobs))
    failed = sum(not margin.met for found in jobs.values() for margin in found)
    worst = max((grade for found in grades[blade].values() for grade in found), key=lambda one: one.grade, default=None)
    return Ranked(blade, place, _failed(jobs), failed, binding, binding_job, beaten, worst)


def beats(one: Mapping[str, Sequence[Margin]], other: Mapping[str, Sequence[Margin]]) -> bool:
    """Tell whether one blade is as good or better on every criterion of every job, and better on one.

    r_i >= s_i for all i, r_i > s_i for some i
    Takes: job -> margins of each blade, same criteria in the same order. Gives: yes or no.
    Holds for: any margins; not capped. Source: dominance in decision theory; derived.

    >>> a, b = {"rip": [Margin("x", 2.0, "")]}, {"rip": [Margin("x", 1.0, "")]}
    >>> beats(a, b), beats(b, a), beats(a, a)
    (True, False, False)
    """
    pairs = [(m.ratio, n.ratio) for job in one for m, n in zip(one[job], other[job], strict=True)]
    no_worse = all(r >= s * (1 - SAME) for r, s in pairs)
    return no_worse and any(r > s * (1 + SAME) for r, s in pairs)


def _same_criteria(margins: Mapping[str, Mapping[str, Sequence[Margin]]]) -> None:
    shapes = {
        tuple((job, tuple(margin.name for margin in found)) for job, found in sorted(jobs.items())) for jobs in margins.values()
    }
    if len(shapes) != 1 or not all(found for _, found in next(iter(shapes))) or shapes == {()}:
        raise OutsideMethod("margins", len(shapes), "the same jobs and criteria for every blade, at least one")


@dataclass(frozen=True)
class Wanted:
    """What to ask for in a blade for one job [m]; `conflict` says why no blade can do, empty when one can."""

    width_least: float
    width_most: float
    thickness_most: float
    pitch_finest: float
    pitch_coarsest: float
    backs: tuple[str, ...]
    conflict: str


def wanted(
    width_least: float,
    width_most: float,
    wheel_diameter: float,
    thickness_ratio_least: float,
    work_height_min: float,
    work_height_max: float,
    teeth_least: float,
    teeth_most: float | None,
    backs: tuple[str, ...],
) -> Wanted:
    """Return what a blade for one job has to be: the criteria turned round.

    t <= D / ratio; h_max / z_most <= p <= h_min / z_least; width between what straight cuts and curves allow
    Takes: width_least (straight cuts), width_most (the least of curve, saw and tension) [m]; wheel_diameter [m];
    thickness_ratio_least [-]; work heights [m]; teeth_least, teeth_most [-] or None where gullet and power rule; backs
    from `backs_for`. Gives: Wanted; a finest pitch of 0 means no bound.
    Holds for: all above 0. Source: see margins.py; derived.

    >>> wanted(6e-3, 12e-3, 0.356, 430, 19e-3, 75e-3, 3, 24, ("carbon_flexible_back",)).conflict
    ''
    """
    positive(
        width_least=width_least, width_most=width_most, wheel_diameter=wheel_diameter, thickness_ratio_least=thickness_ratio_least
    )
    finest = 0.0 if teeth_most is None else pitch_finest(work_height_max, teeth_most)
    coarsest = pitch_coarsest(work_height_min, teeth_least)
    conflicts = []
    if width_least > width_most * (1 + SAME):
        conflicts.append("the curve or the saw needs a narrower blade than the straight cut")
    if finest > coarsest * (1 + SAME):
        conflicts.append("the heights differ too much for one pitch")
    thickest = wheel_diameter / thickness_ratio_least
    return Wanted(width_least, width_most, thickest, finest, coarsest, backs, "; ".join(conflicts))


#: Blade backs that suit a material. Common practice, no source.
BACKS_FOR = {
    "softwood": ("carbon_flexible_back", "carbon_hard_back", "bi_metal", "carbide_tipped"),
    "hardwood": ("carbon_flexible_back", "carbon_hard_back", "bi_metal", "carbide_tipped"),
    "green_log": ("carbon_flexible_back", "bi_metal", "carbide_tipped"),
    "plywood": ("carbon_hard_back", "bi_metal", "carbide_tipped", "carbon_flexible_back"),
    "acrylic": ("carbon_hard_back", "bi_metal", "carbon_flexible_back"),
    "aluminium": ("bi_metal", "carbon_hard_back"),
    "steel": ("bi_metal",),
}


def backs_for(material: str) -> tuple[str, ...]:
    """Return the kinds of blade back that suit a material, the usual one first.

    Takes: material, a word of BACKS_FOR. Gives: words.
    Holds for: the listed materials. Source: common practice, no source; for steel a carbon band runs at half speed by
    Machinery's Handbook, 31st ed., p. 1245 (read), so it is not offered.

    >>> backs_for("steel")
    ('bi_metal',)
    """
    if material not in BACKS_FOR:
        raise OutsideMethod("material", float("nan"), "one of " + ", ".join(BACKS_FOR))
    return BACKS_FOR[material]


def fewest_blades(able: Mapping[str, Collection[str]]) -> tuple[str, ...]:
    """Return a smallest set of blades with which every job can be done.

    smallest set that meets every job's list; exact, by trying 1, 2, 3 ... blades
    Takes: able, job -> blades that do it; a job without a blade is refused. Gives: blades; of equal sets the one found
    first when the hardest job tries its blades in the order given.
    Holds for: up to 40 jobs. Source: set cover; brute force in the tests; derived.

    >>> fewest_blades({"curve": ["b6"], "rip": ["b6", "b13"], "resaw": ["b13", "b19"]})
    ('b6', 'b13')
    """
    if len(able) > 40:
        raise OutsideMethod("jobs", len(able), "40 or fewer")
    for job, blades in able.items():
        if not blades:
            raise OutsideMethod(f"blades for {job}", 0, "at least one")
    for size in range(len(able) + 1):
        found = _cover(able, size)
        if found is not None:
            return found
    raise AssertionError("one blade for each job is always enough")


def _cover(able: Mapping[str, Collection[str]], size: int) -> tuple[str, ...] | None:
    if not able:
        return ()
    if size == 0:
        return None
    hardest = min(able, key=lambda job: len(able[job]))
    for blade in able[hardest]:
        rest = {job: blades for job, blades in able.items() if blade not in blades}
        found = _cover(rest, size - 1)
        if found is not None:
            return (blade, *found)
    return None
