"""Safety notices and a shop's own rules, as the frozen types that travel from stage to stage."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from sawside.errors import At

#: Signal words, worst first (ANSI Z535.4, definitions: DANGER, WARNING, CAUTION; NOTICE is not about injury).
SEVERITY = ("DANGER", "WARNING", "CAUTION", "NOTICE")

#: What has a signal word, as plain data.
Severe = TypeVar("Severe", bound=Mapping[str, Any])


def by_severity(notices: Iterable[Severe]) -> list[Severe]:
    """Return notices worst first, otherwise in the order they came.

    >>> [one["signal"] for one in by_severity([{"signal": "NOTICE"}, {"signal": "DANGER"}])]
    ['DANGER', 'NOTICE']
    """
    return sorted(notices, key=lambda notice: SEVERITY.index(notice["signal"]))


@dataclass(frozen=True)
class Notice:
    """A safety notice: signal word by severity, hazard, consequence, how to avoid it, and the ISO 7010 codes shown.

    `line` says it in one line, for the head of a stage. With `group` it is a message of the one grouped section; without, it
    only stands where it matters, and in the long list of the safety page. `avoid` goes from what matters most to least.
    """

    id: str
    signal: str
    hazard: str
    consequence: str
    avoid: tuple[str, ...]
    signs: tuple[str, ...] = ()
    machine_state: str = "any"
    line: str = ""
    group: bool = True


@dataclass(frozen=True)
class Line:
    """A notice as one line at the head of a stage: its signal word, one sign (ISO 7010 code, or nothing) and the line."""

    id: str
    signal: str
    sign: str
    line: str


@dataclass(frozen=True)
class Rule:
    """A rule of the shop: its text, since when (a date or nothing), and the saw and the stage it is for (empty: every one)."""

    rule: str
    since: str = ""
    saw: str = ""
    stage: str = ""
    places: Mapping[str, At] = field(default_factory=dict)
