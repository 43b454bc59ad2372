"""From a checked library to one machine's guide: values resolved, steps chosen by `when:`, every word filled in."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sawside import slots, units, values
from sawside.library import Library
from sawside.model import (
    ASSUMED, COMPUTED, UNKNOWN, Entry, Guide, Item, Missing, Notice, Procedure, Record, Stage, Step, StepText, Value,
)
from sawside.errors import At
from sawside.printing import Printer
from sawside.values import Given


@dataclass(frozen=True)
class Known:
    """All that is known about one machine with one blade and perhaps one job: entries by field, results by value name."""

    entries: Mapping[str, Entry]
    results: Mapping[str, Value | Missing]

    def item(self, name: str, printer: Printer) -> Item:
        """Return a field or a value as printed; a field left out of the file counts as unknown."""
        if name in self.results:
            item = printer.result(self.results[name])
            basis, word, words = self.results[name].spec.guessed
            guessed = item.status == COMPUTED and basis and self.value(basis) == word
            return replace(item, status=ASSUMED, note=words) if guessed else item
        if name in self.entries:
            return printer.entry(self.entries[name])
        unset = printer.fields.get(name)
        return Item(name, printer.label(name), "", status=UNKNOWN, note=unset.measure.replace("`", "") if unset else "")

    def value(self, name: str):
        """Return the SI value or word of a field or value, None when unknown."""
        if name in self.results:
            result = self.results[name]
            return result.value if isinstance(result, Value) else None
        entry = self.entries.get(name)
        return entry.value if entry else None


def printer(library: Library) -> Printer:
    """Return the printer of a shop: its systems, its fractions, its labels."""
    family, shop = library.family, library.shop
    return Printer(shop.systems, shop.denominator, shop.both, family.words, {f.name: f for f in family.fields})


def entries(library: Library, machine: Record, blade: Record | None = None) -> dict[str, Entry]:
    """Return every filled-in field by name. An assumption is taken from blade, machine or shop, else from its default."""
    found = dict(_assumptions(library))
    for record in (library.shop.record, machine, blade):
        if record:
            found |= {name: entry for name, entry in record.entries.items() if name not in ("id", "name")}
    return found


def _assumptions(library: Library) -> dict[str, Entry]:
    return {f.name: _assumed(f) for f in library.family.assumptions}


def _assumed(field) -> Entry:
    reading = units.read(field.assumed, field.takes)
    return Entry(field, reading.value, None, ASSUMED, field.assumed, At(""))


def know(library: Library, machine: Record, blade: Record | None) -> Known:
    """Resolve every value for a machine with a blade (None: not known which)."""
    found = entries(library, machine, blade)
    given = _given(found)
    for field in library.family.machine + library.family.blade:
        given.setdefault(field.name, values.unknown())
    return Known(found, values.resolve(library.family.ordered, given))


def unasked(library: Library, known: Known) -> set[str]:
    """Return the optional fields the files leave out: nobody is asked to measure them, as `unknown` would ask."""
    return set(library.family.optional - known.entries.keys())


def know_job(library: Library, known: Known, job: Record) -> Known:
    """Add a job to what is known of a machine with a blade: only the values that need the job are computed."""
    named = {name: entry for name, entry in job.entries.items() if name not in ("id", "name")}
    found = {**known.entries, **named}
    specs = values.depending(library.family.ordered, [field.name for field in library.family.job])
    return Known(found, values.resolve(specs, _given(found), known.results))


def _given(found: Mapping[str, Entry]) -> dict[str, Given]:
    return {name: Given(entry.value, entry.plus_minus, entry.status) for name, entry in found.items()}


def make(library: Library, machine: Record, known: Known) -> Guide:
    """Return the guide of one machine for the blade in `known`."""
    words = {name: known.value(name) for name in library.family.names}
    printing = printer(library)
    stages = tuple(
        _stage(library, procedure, known, words, printing)
        for procedure in library.procedures
        if slots.holds(procedure.when, words)
    )
    notices = _notices(library, library.notices, words)
    return Guide(machine, library.blade(machine.get("fitted_blade")), stages, notices)


def _stage(library: Library, procedure: Procedure, known: Known, words: Mapping, printing: Printer) -> Stage:
    texts = {local: printing.in_text(known.item(_follow(procedure, local), printing)) for local in procedure.slots}
    chosen = [step for step in procedure.steps if slots.holds(step.when, words)]
    steps = tuple(_step(library, number, step, known, texts, words, printing) for number, step in enumerate(chosen, 1))
    notices = _notices(library, procedure.notices, words)
    purpose = slots.fill(procedure.purpose, texts)
    return Stage(procedure.id, procedure.title, purpose, procedure.machine_state, steps, notices, procedure.at)


def _follow(procedure: Procedure, local: str) -> str:
    """Return the field or value a slot leads to; the library has refused circles."""
    name = procedure.slots[local]
    while name in procedure.slots and procedure.slots[name] != name and name != local:
        name = procedure.slots[name]
    return name


#: Signal words, worst first (ANSI Z535.4: DANGER, WARNING, CAUTION; NOTICE is not about injury).
SEVERITY = ("DANGER", "WARNING", "CAUTION", "NOTICE")


def _notices(library: Library, ids, words: Mapping) -> tuple[Notice, ...]:
    """Return the notices that hold for a machine, worst first."""
    found = [library.notices[i] for i in ids if slots.holds(library.notice_when.get(i, ""), words)]
    return tuple(sorted(found, key=lambda notice: SEVERITY.index(notice.signal)))


def _step(library, number: int, step: StepText, known: Known, texts, words, printing: Printer) -> Step:
    def fill(text: str) -> str:
        return slots.fill(text, texts)

    return Step(
        number,
        fill(step.step),
        tuple(map(fill, step.key_points)),
        fill(step.reason),
        tuple(known.item(name, printing) for name in step.sets),
        fill(step.check),
        _notices(library, step.notices, words),
        step.figure,
        fill(step.record),
        fill(step.summary),
    )
