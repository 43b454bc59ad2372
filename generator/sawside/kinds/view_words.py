"""The words of a view as plain printed data: items, notices, rules, steps, stages and the lines of the card."""

from typing import NotRequired, TypedDict


class ItemData(TypedDict):
    """One printed number or word: see `model.Item`."""

    name: str
    label: str
    text: str
    small: str
    plus_minus: str
    status: str
    note: str
    symbol: str
    waits_for: tuple[str, ...]
    good: str
    limited: str


class RuleData(TypedDict):
    """A rule of the shop, and since when it holds."""

    rule: str
    since: str


class NoticeData(TypedDict):
    """One safety notice: see `safety.Notice`."""

    id: str
    signal: str
    hazard: str
    consequence: str
    avoid: tuple[str, ...]
    signs: tuple[str, ...]
    machine_state: str
    line: str
    group: bool
    sign: NotRequired[str]


class LineData(TypedDict):
    """One hazard in one line: see `safety.Line`."""

    id: str
    signal: str
    sign: str
    line: str


class StepData(TypedDict):
    """One step, all words filled in: see `model.Step`."""

    number: int
    step: str
    key_points: tuple[str, ...]
    reason: str
    id: str
    state: str
    occasions: tuple[str, ...]
    unit: str
    advances: bool
    card: str
    put_right: str
    sets: tuple[ItemData, ...]
    check: str
    notices: tuple[NoticeData, ...]
    figure: str
    record: str
    summary: str


class Place(TypedDict):
    """Where a stage was written."""

    file: str
    line: int
    column: int
    length: int
    text: str


class StageData(TypedDict):
    """One procedure of one machine, with its steps for one occasion, and the states of the saw they ask for."""

    id: str
    title: str
    purpose: str
    steps: tuple[StepData, ...]
    notices: tuple[NoticeData, ...]
    at: Place
    card: str
    lines: tuple[LineData, ...]
    local_rules: list[RuleData]
    states: list[str]


class OccasionData(TypedDict):
    """One occasion other than the change of a blade: when it has come, its stages, their hazards worst first."""

    title: str
    when: str
    stages: list[StageData]
    hazards: list[LineData]
    lines: NotRequired[list[LineData]]


class Run(TypedDict):
    """A piece of a line, in strong type or not."""

    text: str
    strong: bool


class CardLine(TypedDict):
    """One line of the blade-change card, with the steps it stands for."""

    number: int
    state: str
    text: str
    steps: tuple[str, ...]
    runs: NotRequired[list[Run]]


class CardPart(TypedDict):
    """The lines of one stage on the card."""

    title: str
    lines: list[CardLine]
