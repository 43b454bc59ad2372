"""What a print says, taken apart: its numbers by their names, the shop's rules, and all other texts."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from sawside.kinds import contents
from sawside.kinds.print_mark import mark_of
from sawside.kinds.view_types import MachineView
from sawside.ledger import Print

#: Part of a view -> what its own words are called where they are no text but a fact.
_FACTS = {
    "machine": {
        "name": "Name of the saw",
        "place": "Place",
        "plate": "Maker's plate",
        "revision": "Revision",
        "revised": "Revised on",
        "address": "Address of the page",
    },
    "shop": {"name": "Shop", "ask": "Whom to ask", "viewing_distance": "Reading distance [m]"},
    "blade": {"name": "Blade on the saw", "section": "Its section"},
    "blades": {
        "section": "section",
        "length": "length",
        "back": "back",
        "rack_place": "hangs at",
        "verdict": "on this saw",
        "saws": "fits",
        "fitted": "on the saw now",
    },
    "jobs": {"work": "work", "best_name": "blade to take"},
    "checks": {"limit": "limit"},
    "out_of_service": {"reason": "Out of service", "since": "Out of service since", "by": "Taken out of service by"},
}
#: Parts that only say where something is found.
_SILENT = {"columns", "status", "machine_state", "states", "figure", "rack", "fits", "id", "alt", "best", "number"}
#: Characters of the mark of a text in the list, and of a drawing.
SHORT = 4


@dataclass
class Said:
    """What a print says: label -> text of its numbers, the shop's rules, and all other texts."""

    values: dict[str, str] = field(default_factory=dict)
    rules: list[str] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)

    def value(self, label: str, words: str) -> None:
        """Note a number; a second one of the same name that says something else gets a number of its own."""
        name, count = label, 1
        while self.values.get(name, words) != words:
            count += 1
            name = f"{label} ({count})"
        self.values[name] = words


def said(kind: str, view: MachineView) -> Said:
    """Return what a kind of sheet says of a view."""
    found = Said()
    for part, data in contents.printed(kind, view).items():
        _collect(part, data, "", found)
    return found


def as_print(kind: str, view: MachineView, date: str) -> Print:
    """Return a print of a kind of sheet as the list keeps it."""
    all_of = said(kind, view)
    texts = tuple(mark_of(text, SHORT) for text in all_of.texts)
    mark, blade = contents.fingerprint(kind, view), contents.about(kind, view)
    return Print(kind, mark, date, all_of.values, tuple(all_of.rules), texts, blade)


def _collect(part: str, data: Any, owner: str, found: Said) -> None:
    """Add what a part of a view says; `owner` is the blade or job whose row it is."""
    if isinstance(data, Mapping):
        _collect_map(part, data, owner, found)
    elif isinstance(data, (list, tuple)):
        for each in data:
            _collect(part, each, owner, found)
    elif isinstance(data, str) and data and part not in _SILENT:
        found.texts.append(data)


def _collect_map(part: str, data: Mapping[str, Any], owner: str, found: Said) -> None:
    if {"label", "text"} <= data.keys():
        found.value(f"{owner}{data['label']}", _number(data))
    elif "paper" in data:
        found.value(f"Drawing: {data.get('title', part)}", f"version {mark_of(data['paper'], SHORT)}")
    elif {"what", "limit"} <= data.keys():
        found.value(data["what"], data["limit"] or "no limit")
    elif "rule" in data:
        found.rules.append(data["rule"] + (f" (since {data['since']})" if data["since"] else ""))
    elif {"signal", "hazard"} <= data.keys():
        found.texts.append(f"{data['signal']}: {' '.join((data['hazard'], data['consequence'], *data['avoid']))}")
    elif {"signal", "line"} <= data.keys():
        found.texts.append(f"{data['signal']}: {data['line']}")
    else:
        if "state" in data:
            found.texts.append(f"{data['state']}: {data.get('step') or data.get('text', '')}")
            data = {name: inside for name, inside in data.items() if name not in ("state", "step", "text")}
        facts = _FACTS.get(part, {})
        owner = f"{data['name']}: " if part in ("blades", "jobs") and "name" in data else owner
        for name, inside in data.items():
            if name in facts and not isinstance(inside, (Mapping, list, tuple)):
                if inside not in ("", None):
                    found.value(f"{owner}{facts[name]}", _plainly(inside))
            elif name not in _SILENT and not (name == "name" and owner):
                _collect(name, inside, owner, found)


def _plainly(fact: Any) -> str:
    return {True: "yes", False: "no"}[fact] if isinstance(fact, bool) else str(fact)


def _number(item: Mapping[str, Any]) -> str:
    """Return one printed number with what stands beside it."""
    if item.get("status") in ("unknown", "outside"):
        return "not known yet" if item["status"] == "unknown" else "outside the method"
    beside = f" ({item['good']})" if item.get("good") else ""
    return str(item["text"]) + beside + ", assumed" * (item.get("status") == "assumed")
