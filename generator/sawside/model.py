"""The frozen types that travel from stage to stage. One function makes each; nothing here computes."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from sawside.errors import At
from sawside.fields import Field
from sawside.safety import Line, Notice, Rule

MEASURED, ASSUMED, UNKNOWN, COMPUTED, OUTSIDE = "measured", "assumed", "unknown", "computed", "outside"


@dataclass(frozen=True)
class Entry:
    """One filled-in field of a record: SI value, its doubt in SI, and what stood in the file."""

    field: Field
    value: Any
    plus_minus: float | None
    status: str
    written: str
    at: At


@dataclass(frozen=True)
class Record:
    """A machine, blade, job or shop: its id, its file, and its entries by field name."""

    type: str
    id: str
    at: At
    entries: Mapping[str, Entry]

    def get(self, name: str) -> Any:
        """Return the SI value of a field, or None when it is unknown or not given."""
        entry = self.entries.get(name)
        return None if entry is None else entry.value


@dataclass(frozen=True)
class Source:
    """Where a formula, a table or a custom comes from. `mark` says how far it was seen (see sources.yaml)."""

    key: str
    text: str
    mark: str
    where: str = ""


@dataclass(frozen=True)
class ValueSpec:
    """One computed value: its function, what feeds each argument, how it prints and where it comes from.

    `takes` maps an argument of `function` to a graph name where the two differ. An argument with a default of None
    is optional: it gets None when its input is unknown. `equation` is a Python expression over the argument names; a family
    reads it from the function where that is closed.
    `guessed` holds a value's name, the word it has when this value rests on an estimate, and what to tell people then.
    `method_doubt` is how far the method itself may be off (standard uncertainty as a share of the value); with
    `method_when`, an argument, it counts only while that is not known.
    `within` names the two values between which a setting is good enough; `label_of` a field whose printed text takes
    the place of `{}` in the label, and the words that stand there where no machine is spoken of.
    """

    name: str
    label: str
    function: Callable[..., Any]
    kind: str
    symbol: str = ""
    takes: Mapping[str, str] = field(default_factory=dict)
    equation: str = ""
    rounding: str = "nearest"
    sources: tuple[str, ...] = ()
    limits: str = ""
    note: str = ""
    group: str = ""
    guessed: tuple[str, str, str] = ("", "", "")
    within: tuple[str, str] | tuple[()] = ()
    label_of: tuple[str, str] = ("", "")
    method_doubt: float = 0.0
    method_when: str = ""

    @property
    def title(self) -> str:
        """Return the label as it reads where no machine is spoken of."""
        return self.label.format(self.label_of[1])


@dataclass(frozen=True)
class Value:
    """A computed value in SI (or a word), what each input contributes to its doubt, and what it was made from."""

    name: str
    value: Any
    spec: ValueSpec
    doubt: Mapping[str, float]
    made_from: Mapping[str, object]

    @property
    def plus_minus(self) -> float | None:
        """Combined doubt: independent contributions in quadrature (JCGM 100, 5.1.2), None when nothing is doubted."""
        total = sum(part * part for part in self.doubt.values()) ** 0.5
        return total or None


@dataclass(frozen=True)
class Missing:
    """A value that could not be computed: which measured fields it waits for, or why the method does not cover it."""

    name: str
    spec: ValueSpec
    waits_for: tuple[str, ...] = ()
    outside: str = ""


@dataclass(frozen=True)
class Item:
    """One number or word as printed: text in the shop's system, the other system small, its doubt and its standing.

    A setting has a range that is good enough (`good`, in the unit of `text`) and, where saw or blade limit it, says so.
    """

    name: str
    label: str
    text: str
    small: str = ""
    plus_minus: str = ""
    status: str = COMPUTED
    note: str = ""
    symbol: str = ""
    waits_for: tuple[str, ...] = ()
    good: str = ""
    limited: str = ""


@dataclass(frozen=True)
class StepText:
    """One important step of a procedure as written in YAML, slots not yet filled.

    `state` and `occasions` left out are those of its procedure. Steps of one `unit` make one line of the card.
    """

    step: str
    key_points: tuple[str, ...]
    reason: str = ""
    id: str = ""
    state: str = ""
    occasions: tuple[str, ...] = ()
    unit: str = ""
    advances: bool = True
    card: str = ""
    put_right: str = ""
    when: str = ""
    sets: tuple[str, ...] = ()
    check: str = ""
    notices: tuple[str, ...] = ()
    figure: str = ""
    record: str = ""
    summary: str = ""
    places: Mapping[str, At] = field(default_factory=dict)


@dataclass(frozen=True)
class Procedure:
    """One procedure of a machine family: its stage, purpose, local slot names and steps.

    `machine_state` and `occasions` hold for the steps that name none of their own; `card` is the heading of the card's part.
    """

    id: str
    title: str
    stage: int
    purpose: str
    machine_state: str
    steps: tuple[StepText, ...]
    occasions: tuple[str, ...] = ("blade_change",)
    card: str = ""
    notices: tuple[str, ...] = ()
    slots: Mapping[str, str] = field(default_factory=dict)
    slot_places: Mapping[str, At] = field(default_factory=dict)
    when: str = ""
    when_at: At = At("")
    at: At = At("")
    places: Mapping[str, At] = field(default_factory=dict)


@dataclass(frozen=True)
class Step:
    """One step of one machine's guide, all words filled in; `number` is 0 for one that does not advance the work."""

    number: int
    step: str
    key_points: tuple[str, ...]
    reason: str
    id: str = ""
    state: str = ""
    occasions: tuple[str, ...] = ()
    unit: str = ""
    advances: bool = True
    card: str = ""
    put_right: str = ""
    sets: tuple[Item, ...] = ()
    check: str = ""
    notices: tuple[Notice, ...] = ()
    figure: str = ""
    record: str = ""
    summary: str = ""


@dataclass(frozen=True)
class Stage:
    """One procedure of one machine's guide."""

    id: str
    title: str
    purpose: str
    steps: tuple[Step, ...]
    notices: tuple[Notice, ...]
    at: At
    card: str = ""
    lines: tuple[Line, ...] = ()
    local_rules: tuple[Rule, ...] = ()


@dataclass(frozen=True)
class Guide:
    """Everything one machine's guide says, for one blade; `stages` are those of every occasion."""

    machine: Record
    blade: Record | None
    stages: tuple[Stage, ...]
    notices: tuple[Notice, ...]


@dataclass(frozen=True)
class Page:
    """One page of the site: path below the site, its title, its HTML, and the YAML file it was made from."""

    path: str
    title: str
    html: str
    edit: str = ""


@dataclass(frozen=True)
class Sheet:
    """One printable file: path below the site, its bytes, and a small picture of its first page when one was made."""

    path: str
    data: bytes
    preview: bytes = b""
