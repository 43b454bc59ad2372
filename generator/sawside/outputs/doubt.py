"""Where the doubt of a number comes from, in words: which measurement to make better, and what it would bring.

An input counts with the +/- of its file, else with the usual one of its field; a method that is itself in doubt counts under the
name of its value.
"""

from collections.abc import Iterable
from typing import Any

from sawside.guide import Known
from sawside.model import Missing, Value
from sawside.printing import Printer

#: Doubt over value from which a number is worth naming: below it no setting changes.
MATTERS = 0.02
#: Share of the doubt (of its square, as contributions add) -> how it is said; the first that is reached counts.
_SHARES = (
    (0.995, "all"), (0.9, "nearly all"), (0.7, "most"), (0.55, "more than half"), (0.45, "half"),
    (0.3, "about a third"), (0.0, "the largest part"),
)  # fmt: skip


def largest(result: Value | Missing) -> tuple[str, float] | None:
    """Return the input that most of a value's doubt comes from, and its share; None when there is no doubt.

    There is none either when the inputs' doubts cancel, or are so small that their squares are nothing.
    """
    if isinstance(result, Missing) or not (total := sum(part**2 for part in result.doubt.values())):
        return None
    name, part = max(result.doubt.items(), key=lambda pair: abs(pair[1]))
    return name, part**2 / total


def share_words(share: float) -> str:
    """Return a share of the doubt in words.

    >>> share_words(1.0), share_words(0.5), share_words(0.2)
    ('all', 'half', 'the largest part')
    """
    return next(words for least, words in _SHARES if share >= least)


def words(result: Value | Missing, printer: Printer) -> str:
    """Say which input most of the doubt comes from: `half of it from "Blade thickness"`; nothing without doubt."""
    found = largest(result)
    if not found:
        return ""
    name, share = found
    source = f'"{printer.label(name)}"' if name in printer.fields else "the method itself"
    return f"{share_words(share)} of it from {source}"


def most_doubtful(known: Known, printer: Printer, names: Iterable[str] = ()) -> list[dict[str, Any]]:
    """Return what to measure better, most worthwhile first: each input with the numbers that hang on it.

    Takes: known, of a machine with a blade; names, the values that count (all when none are given).
    Gives: dicts with `name`, `label`, `text` and `plus_minus` of the input, `measure` (how), and `numbers`: for each
    value whose doubt comes mostly from it `label`, `text`, `plus_minus` and `words`, a sentence part.
    """
    table: dict[str, list[tuple[float, dict[str, Any]]]] = {}
    for name in names or known.results:
        result = known.results.get(name)
        found = largest(result) if result is not None else None
        if not isinstance(result, Value) or not found or found[0] not in known.entries:
            continue
        doubt = result.plus_minus or 0.0
        if doubt < MATTERS * abs(result.value):
            continue
        item = printer.result(result)
        line = f'{share_words(found[1])} of the doubt of "{item.label}" ({item.text} {item.plus_minus})'
        part = {"label": item.label, "text": item.text, "plus_minus": item.plus_minus, "words": line}
        table.setdefault(found[0], []).append((doubt / abs(result.value), part))
    order = sorted(table, key=lambda name: (-len(table[name]), name))
    return [_input(name, table[name], known, printer) for name in order]


def sentences(known: Known, printer: Printer, names: Iterable[str] = (), most: int = 2, numbers: int = 2) -> list[str]:
    """Return in full sentences which inputs to measure better and what hangs on them, the most worthwhile first.

    Takes: as `most_doubtful`; most, how many inputs; numbers, how many values are named with each.
    """
    return [
        f'Measure "{found["label"]}" better ({found["text"]} {found["plus_minus"]}): from it comes '
        + " and ".join(part["words"] for part in found["numbers"][:numbers])
        + "."
        for found in most_doubtful(known, printer, names)[:most]
    ]


def _input(name: str, lines: list[tuple[float, dict[str, Any]]], known: Known, printer: Printer) -> dict[str, Any]:
    numbers = [part for _, part in sorted(lines, key=lambda line: -line[0])]
    item = known.item(name, printer)
    field = printer.fields.get(name)
    return {
        "name": name,
        "label": item.label,
        "text": item.text,
        "plus_minus": item.plus_minus,
        "measure": field.measure.replace("`", "") if field else "",
        "numbers": numbers,
    }
