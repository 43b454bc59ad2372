"""The list of prints: what was printed of each saw and hangs in the shop, one file a saw in the shop's folder `prints`.

The files are written for version control: one record a print, in a steady order, one fact a line, so that a change reads
as what it is and two people who print sheets of two saws never write into the same file.
"""

import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from sawside.errors import At, Fault
from sawside.nodes import Empty, List, Map, Node, Text

FOLDER = "prints"
#: How many prints of one sheet a list keeps. A print that hangs longer than that is answered as unknown: replace it.
MOST_KEPT = 4

_HEAD = """\
# What was printed of this saw and hangs in the shop. Written by: sawside printed
# Keep it under version control with the other files; do not change it by hand. After a merge with both sides' records
# in it, keep them all: their order does not matter.
"""
_MARK = re.compile(r"[0-9A-HJKMNP-TV-Z]{8}")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_KIND = re.compile(r"[a-z][a-z0-9_]*")


@dataclass(frozen=True)
class Print:
    """One print: its kind of sheet, its mark, when it was made, what it said, and the id of the blade it is about or nothing.

    `values` are label and text of each number, `rules` the shop's rules in words, `texts` the short marks of all others.
    """

    kind: str
    mark: str
    date: str
    values: Mapping[str, str] = field(default_factory=dict)
    rules: tuple[str, ...] = ()
    texts: tuple[str, ...] = ()
    blade: str = ""


def path(shop: Path, saw: str) -> Path:
    """Return the file with the prints of one saw."""
    return shop / FOLDER / f"{saw}.yaml"


def added(listed: Iterable[Print], new: Print) -> tuple[Print, ...]:
    """Return a saw's prints with one more; the last keeps its date, of each sheet the last few are kept and one of a day.

    >>> old, new = Print("wall", "AAAAAAAA", "2026-01-01"), Print("wall", "BBBBBBBB", "2026-02-01")
    >>> [one.mark for one in added([old], new)], added([old], Print("wall", "AAAAAAAA", "2026-03-01")) == (old,)
    (['AAAAAAAA', 'BBBBBBBB'], True)
    """
    listed = tuple(listed)
    last = latest(listed, new.kind, new.blade)
    if last and last.mark == new.mark:
        return listed
    mine = (new.kind, new.blade)
    rest = [one for one in listed if (one.kind, one.blade) != mine or (one.mark != new.mark and one.date != new.date)]
    same = sorted((one for one in rest if (one.kind, one.blade) == mine), key=_order)
    dropped = same[: max(0, len(same) + 1 - MOST_KEPT)]
    return tuple(sorted([*(one for one in rest if one not in dropped), new], key=_order))


def latest(listed: Iterable[Print], kind: str, blade: str = "") -> Print | None:
    """Return the last print of a kind, about this blade where it is about one, or None."""
    return max((one for one in listed if (one.kind, one.blade) == (kind, blade)), key=_order, default=None)


def _order(one: Print) -> tuple[str, str, str, str]:
    return one.kind, one.blade, one.date, one.mark


def text(listed: Iterable[Print]) -> str:
    """Return the file of one saw's prints.

    >>> one = Print("wall", "7K4M2QXD", "2026-11-26", {"Push": "19.6 N"}, ("Never alone.",), ("AB12",))
    >>> print(text([one]))  # doctest: +ELLIPSIS
    # What was printed of this saw and hangs in the shop. Written by: sawside printed
    ...
    prints:
      - sheet: wall
        mark: "7K4M2QXD"
        date: 2026-11-26
        values:
          "Push": "19.6 N"
        rules:
          - "Never alone."
        texts: "AB12"
    <BLANKLINE>
    """
    return _HEAD + "prints:\n" + "".join(_record(one) for one in sorted(listed, key=_order))


def _record(one: Print) -> str:
    lines = [f"  - sheet: {one.kind}", f"    mark: {_quoted(one.mark)}", f"    date: {one.date}"]
    lines += [f"    blade: {_quoted(one.blade)}"] * bool(one.blade)
    if one.values:
        lines += ["    values:", *(f"      {_quoted(label)}: {_quoted(value)}" for label, value in one.values.items())]
    if one.rules:
        lines += ["    rules:", *(f"      - {_quoted(rule)}" for rule in one.rules)]
    lines += [f"    texts: {_quoted(' '.join(one.texts))}"] * bool(one.texts)
    return "\n".join(lines) + "\n"


def _quoted(words: str) -> str:
    """Return a text between double quotes as YAML reads it: JSON's way of writing is among those."""
    return json.dumps(words, ensure_ascii=False)


def read_all(shop: Path, read_file: Callable[[Path], Map | None], faults: list[Fault]) -> dict[str, tuple[Print, ...]]:
    """Return the prints of each saw by its id, as far as the shop keeps a list of them; `rack` has a list, too.

    Takes: the shop's folder; read_file, which gives what a file holds, or None when that has faults; faults, which grows.
    """
    folder, found = shop / FOLDER, {}
    for place in sorted(folder.glob("*.yaml")) if folder.is_dir() else ():
        if node := read_file(place):
            found[place.stem], wrong = read(node)
            faults += wrong
    return found


def read(node: Map) -> tuple[tuple[Print, ...], list[Fault]]:
    """Return the prints of one saw's file and what is wrong with it."""
    faults: list[Fault] = []
    _, listed = node.items.get("prints", (None, None))
    if not isinstance(listed, (List, Empty)):
        faults.append(Fault(node.at, "the list of prints must begin with `prints:`", _AGAIN))
    records = listed.items if isinstance(listed, List) else ()
    found = [_print(record, faults) for record in records]
    return tuple(sorted({_order(one): one for one in found if one}.values(), key=_order)), faults


_AGAIN = "take an earlier state of this file, or remove it and run again: sawside printed"


def _print(node: Node, faults: list[Fault]) -> Print | None:
    if not isinstance(node, Map):
        faults.append(Fault(node.at, "each print begins with `- sheet:`", _AGAIN))
        return None
    words = {
        name: _word(node, name, pattern, faults)
        for name, pattern in (("sheet", _KIND), ("mark", _MARK), ("date", _DATE), ("texts", None), ("blade", None))
    }
    found = {name: word for name, word in words.items() if word is not None}
    if len(found) < len(words):
        return None
    _, values = node.items.get("values", (None, None))
    _, rules = node.items.get("rules", (None, None))
    return Print(
        found["sheet"],
        found["mark"],
        found["date"],
        {label: value.value for label, (_, value) in getattr(values, "items", {}).items() if isinstance(value, Text)},
        tuple(rule.value for rule in getattr(rules, "items", ()) if isinstance(rule, Text)),
        tuple(found["texts"].split()),
        found["blade"],
    )


def _word(node: Map, name: str, pattern: re.Pattern[str] | None, faults: list[Fault]) -> str | None:
    """Return what a record says under a name, "" where it may be left out, None with a fault where that is wrong."""
    at, value = node.items.get(name, (node.at, None))
    if value is None and pattern is None:
        return ""
    if isinstance(value, Text) and (pattern is None or pattern.fullmatch(value.value)):
        return value.value
    what = f"`{name}` of a print is not as it was written" if value else f"a print without `{name}`"
    faults.append(Fault(getattr(value, "at", None) or at or At(node.at.file), what, _AGAIN))
    return None
