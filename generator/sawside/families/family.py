"""What a machine family is: its fields, its values, its figures and how it judges a blade. Families never import another."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from sawside import values
from sawside.fields import Field
from sawside.model import ValueSpec

#: Fields every family's machines have, whatever else: the site and the sheets name a machine by them.
MACHINE_NAMES = ("id", "name", "also_called", "place", "maker_plate", "revision", "revised", "fitted_blade")


@dataclass(frozen=True)
class Judgement:
    """One blade on one saw: fits or not, a short verdict, what forbids it, and what to take care of."""

    fits: bool
    verdict: str
    reasons: tuple[str, ...]
    advice: tuple[str, ...]


@dataclass(frozen=True)
class Worksheets:
    """What the live worksheets of a family start from: names of fields and values, and the functions the page computes with.

    `formulas` and the functions of `choosing` are translated for the page when the site is built. `choosing` holds what gives
    limits, grades and the reason of a blade for a job; `derived` the values that change with the job, `words` the fields whose
    choices the page has to name, `kinds` the kinds of number it prints.
    """

    machine: tuple[str, ...]
    blade: tuple[str, ...]
    formulas: tuple[Callable, ...]
    choosing: tuple[Callable, ...]
    derived: tuple[str, ...]
    words: tuple[str, ...]
    kinds: tuple[str, ...]


@dataclass(frozen=True)
class Shows:
    """Which names of a family its pages and sheets show, and where.

    `wall_numbers` (a name, and a condition or nothing) stand large on the wall sheet, `blade_numbers` in a blade's row,
    `set_values` in the guide's table of other blades, `checks` (what is read, name of its limit or nothing) in the record of
    checks. The `_columns` are for the
    tables of blades, `card_numbers` for job cards, `tag_numbers` for the tags; names a machine does not have are passed
    over. `picture` is the figure of the machine's page, `wall_picture` that of its wall sheet, and the first of `card_pictures`
    there is room for stands on the card. `guide_pictures` are the
    figures that the method prints on paper, all that its steps name where there are none.
    `stops` are the stops of a walk round the saw: title, what to do
    there, groups of fields. Without `worksheets` there is no page of worksheets, without `gauges` no true-scale sheet.
    """

    wall_numbers: tuple[tuple[str, str], ...] = ()
    blade_numbers: tuple[str, ...] = ()
    set_values: tuple[str, ...] = ()
    checks: tuple[tuple[str, str], ...] = ()
    wall_columns: tuple[str, ...] = ()
    table_columns: tuple[str, ...] = ()
    card_numbers: tuple[str, ...] = ()
    tag_numbers: tuple[str, ...] = ()
    picture: str = ""
    wall_picture: str = ""
    card_pictures: tuple[str, ...] = ()
    guide_pictures: tuple[str, ...] = ()
    stops: tuple[tuple[str, str, tuple[str, ...]], ...] = ()
    worksheets: Worksheets | None = None
    gauges: bool = False


@dataclass(frozen=True)
class Family:
    """One machine family.

    `machine` must hold the fields of `MACHINE_NAMES`, `blade` and `job` a field `id`, `job` a `name`. `judge` (it gives
    a Judgement), `margins` and the words on buying read resolved values, in SI, by name. `limited` says why settings stay
    below their aim, or nothing. `blade_words` gives a blade's section, length, back and other ways to write it, `job_words` a
    job's work, both as printed. `bigger` names the field by which the bigger of two equal blades goes first. `margins` gives
    the same limits, at least one, for every blade, `grades` how well it suits; `reason` says why a blade suits a job,
    `separates` what would decide between two that share a place.
    `impossible` gives what no machine or blade can be, though each of its measures may: field, what is wrong, what to do.
    """

    key: str
    title: str
    machine: tuple[Field, ...]
    blade: tuple[Field, ...]
    job: tuple[Field, ...]
    assumptions: tuple[Field, ...]
    values: tuple[ValueSpec, ...]
    ordered: tuple[ValueSpec, ...]
    words: Mapping[str, str]
    judge: Callable
    margins: Callable
    grades: Callable
    reason: Callable
    separates: Callable
    what_to_buy: Callable
    few_blades: Callable
    sources_differ: Callable
    limited: Callable
    blade_words: Callable
    job_words: Callable
    bigger: str
    figures: tuple = ()
    impossible: Callable = lambda record: ()
    shows: Shows = field(default_factory=Shows)

    @property
    def fields(self) -> tuple[Field, ...]:
        """Return every field of the family."""
        return self.machine + self.blade + self.job + self.assumptions

    @property
    def optional(self) -> frozenset[str]:
        """Return the fields of a machine or a blade that a file may leave out."""
        return frozenset(f.name for f in self.machine + self.blade if not f.required)

    @cached_property
    def ancestors(self) -> Mapping[str, frozenset[str]]:
        """Return each value's name with the names of all values it is made from, itself among them."""
        return values.ancestors(self.ordered)

    @property
    def names(self) -> frozenset[str]:
        """Return every name a slot or a condition may use."""
        return frozenset(f.name for f in self.fields) | {spec.name for spec in self.values}
