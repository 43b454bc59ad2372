"""One field and what a file says for it become one `Entry`, or faults that point at the part that is wrong."""

import math
import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from sawside import units
from sawside.errors import At, Fault, Faults
from sawside.fields import TAKES, Field
from sawside.model import ASSUMED, MEASURED, UNKNOWN, Entry
from sawside.nodes import Empty, List, Map, Node, Text, part, quote
from sawside.schema.dates import day
from sawside.schema.rules import rules
from sawside.schema.texts import identifier, refuse, text, texts, tidy
from sawside.suggest import suggest
from sawside.syntax import HYPHEN, list_mark

_LONGEST_QUANTITY = 80
_COUNT = re.compile(r"[0-9]{1,9}")
#: Quantities that may be zero or less when their field sets no lower limit.
_SIGNED = ("number", "angle", "temperature_difference")


def entry(field: Field, node: Node) -> Entry:
    """Return the entry of a field; raise Faults when the value is not what the field takes.

    >>> width = Field("tyre_width", "Tyre width", "length", "Across the tyre.", "18 mm", low=0.005, high=0.2)
    >>> entry(width, Text("18 mm", At("a.yaml"))).value
    0.018
    """
    _check_shape(field, node)
    node, status = _guessed(field, node)
    if isinstance(node, Text) and tidy(node.value).lower() == "unknown":
        if not field.unknown_ok:
            raise refuse(node.at, f"`{field.name}` may not be unknown", how(field))
        return Entry(field, None, None, UNKNOWN, "unknown", node.at)
    value, plus_minus = _quantity(field, _text(node)) if field.is_quantity else (_WORDS[field.takes](field, node), None)
    items = node.items if isinstance(node, List) else (node,)
    written = ", ".join(tidy(item.value) for item in items if isinstance(item, Text))
    return Entry(field, value, plus_minus, status, written, node.at)


def may_be_guessed(field: Field) -> bool:
    """Return whether a field may hold a guess: what can be measured or looked at, but no name and no date."""
    return field.is_quantity or field.takes in ("choice", "yes_no")


def _text(node: Node) -> Text:
    """Return a node whose shape has been checked as the text it is."""
    assert isinstance(node, Text)
    return node


def _list(node: Node) -> List:
    """Return a node whose shape has been checked as the list it is."""
    assert isinstance(node, List)
    return node


def _guessed(field: Field, node: Node) -> tuple[Node, str]:
    """Return a value without the word `guess` in front of it, and whether it is measured or assumed.

    >>> _guessed(Field("tyre_width", "", "length", "", "18 mm"), Text("guess 18 mm", At("a.yaml")))[0].value
    '18 mm'
    """
    if not isinstance(node, Text) or not may_be_guessed(field):
        return node, MEASURED
    found = re.match(r"\s*guess(?:ed)?\s+(?=\S)", node.value)
    if not found:
        return node, MEASURED
    rest = node.value[found.end() :]
    return replace(node, value=rest, at=part(node, found.end(), len(rest))), ASSUMED


def how(field: Field) -> str:
    """Return how to find a field's value and an example of writing it, for a hint.

    >>> how(Field("tyre_width", "Tyre width", "length", "Across the tyre.", "18 mm", unknown_ok=True))
    'Across the tyre. Write for example `tyre_width: 18 mm`, or `unknown`'
    """
    if field.is_list:
        return f"{field.measure} Write `{field.name}:` and below it `- {field.example}`"
    unknown = ", or `unknown`" if field.unknown_ok and field.example != "unknown" else ""
    return f"{field.measure} Write for example `{field.name}: {field.example}`{unknown}"


def _check_shape(field: Field, node: Node) -> None:
    """Refuse nothing, a group or a list where one value is asked for, and one value where a list is."""
    if isinstance(node, Empty):
        leave = "" if field.required else "; or leave the line out"
        raise refuse(node.at, f"`{field.name}` has no value", how(field) + leave)
    if isinstance(node, List if field.is_list else Text):
        return
    if field.is_list and isinstance(node, Text):
        _check_hyphen(field, node)
    shape = "a group of keys" if isinstance(node, Map) else "a list" if isinstance(node, List) else "one value"
    raise refuse(node.at, f"`{field.name}` must be {TAKES[field.takes]}, not {shape}", how(field))


def _check_hyphen(field: Field, node: Text) -> None:
    """Refuse lines that were meant as a list: another dash than the hyphen, or no space behind it."""
    hint = f"{HYPHEN}: `- {field.example}`"
    if mark := list_mark(node.value):
        raise refuse(part(node, 0, 1), f"`{mark}` begins no item of a list", hint)
    if re.match(r"-\S", node.value):
        raise refuse(part(node, 0, 1), "there is no space after this hyphen", hint)


def _quantity(field: Field, node: Text) -> tuple[float, float | None]:
    written = node.value.strip()
    if len(node.value) > _LONGEST_QUANTITY:
        raise refuse(node.at, f"`{field.name}` must be {TAKES[field.takes]}, not a long text", how(field))
    try:
        reading = units.read(node.value, field.takes)
    except units.NotUnderstood as bad:
        at = part(node, bad.start, bad.length)
        hint = bad.hint + ("; write `unknown` when it is not known yet" if field.unknown_ok else "")
        raise refuse(at, f"`{field.name}` must be {TAKES[field.takes]}: {bad.what}", hint) from None
    if not math.isfinite(reading.value):
        raise refuse(node.at, f"`{field.name}` is not a finite number", how(field))
    _check_range(field, node.at, written, reading.value, reading.system)
    _check_doubt(field, node, reading)
    return reading.value, reading.plus_minus


def _check_range(field: Field, at: At, written: str, value: float, system: str = "") -> None:
    """Refuse what lies outside the field's limits, and a size of nothing."""
    low, high = field.low, field.high
    if low is None and value <= 0 and field.takes not in _SIGNED:
        raise refuse(at, f"`{field.name}` is {quote(written)}; it must be more than zero", how(field))
    if (low is None or value >= low or _same(value, low)) and (high is None or value <= high or _same(value, high)):
        return
    least, most = _limit(field, low, system, "up"), _limit(field, high, system, "down")
    if field.takes == "pitch" and system == "inch":
        least, most = most, least  # The widest pitch has the fewest teeth per inch.
    if least and most:
        between = f"between {least} and {most}"
    else:
        between = f"at least {least}" if least else f"at most {most}"
    hint = how(field) if field.takes == "count" else f"check the unit and the decimal point. {how(field)}"
    raise refuse(at, f"`{field.name}` is {quote(written)}; it must be {between}", hint)


def _same(value: float, limit: float) -> bool:
    """Return whether a value is the limit itself: `1.3 mm` and 1.3 * 1e-3 differ in the last bit."""
    return math.isclose(value, limit, rel_tol=1e-9)


def _limit(field: Field, limit: float | None, system: str, rounding: str) -> str:
    """Return a limit as printed, rounded inwards so that what is printed is accepted; nothing when there is none."""
    if limit is None or not field.kind:
        return "" if limit is None else f"{limit:g}"
    return units.show(limit, field.kind, system or "metric", 64, rounding).text


def _check_doubt(field: Field, node: Text, reading: units.Reading) -> None:
    doubt = reading.plus_minus
    if doubt is None or (math.isfinite(doubt) and 0 <= doubt < abs(reading.value)):
        return
    start = re.search(r"\+/-|±|\+-", node.value)
    at = part(node, start.start(), len(node.value.rstrip()) - start.start()) if start else node.at
    raise refuse(
        at,
        f"the doubt of `{field.name}` must be less than the value itself",
        "write how far off the measurement may be, for example: 0.65 mm +/- 0.02 mm",
    )


def _choice(field: Field, node: Text) -> str:
    value = tidy(node.value)
    if value in field.choices:
        return value
    near = suggest(value, field.choices)
    listed = ", ".join((*field.choices, "unknown") if field.unknown_ok else field.choices)
    hint = (f"did you mean `{near}`? " if near else "") + f"write one of: {listed}. {field.measure}"
    raise refuse(node.at, f"`{field.name}` cannot be {quote(value)}", hint)


def _choices(field: Field, node: List) -> tuple[str, ...]:
    found: list[Any] = []
    faults: list[Fault] = []
    for item in node.items:
        try:
            _check_shape(replace(field, takes="choice"), item)
            word = _choice(field, _text(item))
            if word in found:
                raise refuse(item.at, f"{quote(word)} is in the list twice", "keep one of them")
            found.append(word)
        except Faults as bad:
            faults += bad.faults
    if faults:
        raise Faults(faults)
    return tuple(found)


def _yes_no(field: Field, node: Text) -> bool:
    value = tidy(node.value)
    if value not in ("yes", "no"):
        unknown = ", or `unknown`" if field.unknown_ok else ""
        raise refuse(
            node.at,
            f"`{field.name}` must be `yes` or `no`, not {quote(value)}",
            f"{field.measure} Write `{field.name}: yes` or `{field.name}: no`{unknown}",
        )
    return value == "yes"


def _count(field: Field, node: Text) -> int:
    value = tidy(node.value)
    if not _COUNT.fullmatch(value):
        raise refuse(node.at, f"`{field.name}` must be a whole number, but is {quote(value)}", how(field))
    _check_range(replace(field, low=field.low or 0), node.at, value, int(value))
    return int(value)


_WORDS: dict[str, Callable[[Field, Node], object]] = {
    "text": lambda field, node: text(field.name, node, field.longest),
    "lines": lambda field, node: texts(field.name, node, field.longest),
    "id": lambda field, node: identifier(field.name, node),
    "choice": lambda field, node: _choice(field, _text(node)),
    "choices": lambda field, node: _choices(field, _list(node)),
    "yes_no": lambda field, node: _yes_no(field, _text(node)),
    "date": lambda field, node: day(field.name, _text(node), how(field)),
    "rules": lambda field, node: rules(field.name, _list(node), field.longest),
    "rules_of_a_saw": lambda field, node: rules(field.name, _list(node), field.longest, in_machine=True),
    "count": lambda field, node: _count(field, _text(node)),
}
