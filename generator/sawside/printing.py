"""From SI to what stands on paper: every number is rounded here, once, in the system the shop chose for its kind."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from sawside import units
from sawside.fields import Field
from sawside.model import ASSUMED, COMPUTED, MEASURED, OUTSIDE, UNKNOWN, Entry, Item, Missing, Value

BLANK = "______"


@dataclass(frozen=True)
class Printer:
    """How one shop prints: system per kind, finest fraction, second system or not, and labels for names."""

    systems: Mapping[str, str] = field(default_factory=dict)
    denominator: int = 32
    both: bool = True
    words: Mapping[str, str] = field(default_factory=dict)
    fields: Mapping[str, Field] = field(default_factory=dict)

    def system(self, kind: str) -> str:
        """Return `metric` or `inch` for a kind; metric unless the shop says otherwise."""
        like = units.KINDS[kind].like if kind in units.KINDS else ""
        return self.systems.get(kind) or self.systems.get(like, "metric")

    def word(self, value: Any) -> str:
        """Return a word, an id or a yes/no as people read it."""
        if isinstance(value, bool):
            return "yes" if value else "no"
        return self.words.get(str(value), str(value))

    def text(self, value: Any, kind: str, rounding: str = "nearest") -> str:
        """Return one value in the shop's system."""
        if _is_word(value, kind):
            return self.word(value)
        return units.show(value, kind, self.system(kind), self.denominator, rounding).text

    def pair(self, value: Any, kind: str, rounding: str = "nearest", doubt: float | None = None) -> tuple[str, str]:
        """Return a value in the shop's system and, where the shop wants it, in the other one; no digit finer than its doubt."""
        if _is_word(value, kind):
            return self.word(value), ""
        return units.show_pair(value, kind, self.system(kind), self.denominator, self.both, rounding, doubt)

    def doubt(self, plus_minus: float | None, kind: str) -> str:
        """Return the printed doubt, or nothing."""
        return units.show_doubt(plus_minus, kind, self.system(kind)) if plus_minus else ""

    def label(self, name: str) -> str:
        """Return the label of a field, for `waits for` lines."""
        return self.fields[name].label if name in self.fields else name

    def result(self, result: Value | Missing) -> Item:
        """Return a computed value, or what it waits for, as printed."""
        spec = result.spec
        if isinstance(result, Missing):
            if result.outside:
                return Item(spec.name, spec.title, "outside the method", status=OUTSIDE, note=result.outside, symbol=spec.symbol)
            waits = tuple(self.label(name) for name in result.waits_for)
            note = "waits for: " + ", ".join(waits)
            return Item(spec.name, spec.title, "", status=UNKNOWN, note=note, symbol=spec.symbol, waits_for=waits)
        text, small = self.pair(result.value, spec.kind, spec.rounding, result.plus_minus)
        doubt = self.doubt(result.plus_minus, spec.kind) if self._matters(result) else ""
        return Item(spec.name, spec.title, text, small, doubt, COMPUTED, spec.note, spec.symbol)

    def setting(self, result: Value, start: Value, end: Value) -> Item:
        """Return what a person sets: the aim, and the range in which it is good enough, from less load to more."""
        spec, low, high = result.spec, *sorted((start.value, end.value))
        shown = units.show_setting(
            result.value, low, high, spec.kind, self.system(spec.kind), self.denominator, self.both, end.value < start.value
        )
        return Item(spec.name, spec.title, shown.aim, shown.beside, "", COMPUTED, spec.note, spec.symbol, good=shown.good)

    def _matters(self, result: Value) -> bool:
        """Whether a doubt can be seen in the printed number: one ten times smaller than the rounding is not worth its ink."""
        if not result.plus_minus:
            return False
        ends = (result.value + share * result.plus_minus for share in (-10, 0, 10))
        return len({self.text(end, result.spec.kind, result.spec.rounding) for end in ends}) > 1

    def entry(self, entry: Entry) -> Item:
        """Return a filled-in field as printed; an unknown one with how to measure it."""
        item = entry.field
        if entry.status == UNKNOWN:
            return Item(item.name, item.label, "", status=UNKNOWN, note=item.measure.replace("`", ""))
        text, small = self.pair(entry.value, item.kind)
        note = (item.basis or "a guess, not measured yet") if entry.status == ASSUMED else ""
        return Item(
            item.name, item.label, text, small, self._doubt_of(entry), entry.status if entry.status == ASSUMED else MEASURED, note
        )

    def _doubt_of(self, entry: Entry) -> str:
        """Return the doubt of an input as printed: as the file says, else the usual one, and that it is the usual one."""
        if entry.plus_minus is not None or not entry.field.is_quantity:
            return self.doubt(entry.plus_minus, entry.field.kind)
        usual = self.doubt(entry.field.usual_doubt(entry.value), entry.field.kind)
        return f"{usual} usual" if usual else ""

    def in_text(self, item: Item) -> str:
        """Return an item for the middle of a sentence: text with the range that is good enough, or a blank to write on."""
        if item.status == UNKNOWN:
            return BLANK
        return f"{item.text} ({item.good})" if item.good else item.text


def _is_word(value: Any, kind: str) -> bool:
    return not isinstance(value, (int, float)) or isinstance(value, bool) or kind in ("", "word")
