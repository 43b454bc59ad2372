"""What a machine family is: its fields, its values, its figures and how it judges a blade. Families never import another."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Protocol

from sawside import values
from sawside.calc.choice import Grade
from sawside.calc.margins import Margin
from sawside.fields import Field
from sawside.figures.spec import FigureSpec
from sawside.model import Record, ValueSpec

#: Fields every family's machines have, whatever else: the site and the sheets name a machine by them.
MACHINE_NAMES = ("id", "name", "also_called", "place", "maker_plate", "revision", "revised", "fitted_blade")


#: Gives the SI value or the word of a field or value by its name, None when it is not known.
Get = Callable[[str], Any]


class Printing(Protocol):
    """How a family prints what it says: one value in the system of the shop, one word as people read it."""

    def text(self, value: object, kind: str, rounding: str = "nearest") -> str:
        """Return one value of a kind, rounded to the nearest, up or down."""

    def word(self, value: object) -> str:
        """Return a word, an id or a yes or no."""


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
    formulas: tuple[Callable[..., Any], ...]
    choosing: tuple[Callable[..., Any], ...]
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
    judge: Callable[[Get, Printing, Callable[[str], float]], Judgement]
    margins: Callable[[Get, Judgement, Printing], list[Margin]]
    grades: Callable[[Get, Printing], list[Grade]]
    reason: Callable[[Get, Printing], str]
    separates: Callable[[Get, Get, Printing], str]
    what_to_buy: Callable[[Get, Printing], str]
    few_blades: Callable[..., str]
    sources_differ: Callable[[Get, Printing], tuple[str, ...]]
    limited: Callable[[Get, Printing], str]
    blade_words: Callable[[Record, Printing], dict[str, Any]]
    job_words: Callable[[Record, Printing], str]
    bigger: str
    figures: tuple[FigureSpec, ...] = ()
    impossible: Callable[[Record], Iterable[Any]] = lambda record: ()
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
