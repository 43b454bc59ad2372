"""From a checked library to one machine's guide: values resolved, steps chosen by `when:`, every word filled in."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sawside import local, slots, units, values
from sawside.errors import At
from sawside.families.family import Family, Judgement
from sawside.fields import Field
from sawside.library import Library
from sawside.model import ASSUMED, COMPUTED, UNKNOWN, Entry, Guide, Item, Missing, Procedure, Record, Stage, Step, StepText, Value
from sawside.printing import Printer
from sawside.safety import SEVERITY, Line, Notice, Rule
from sawside.values import Given


@dataclass(frozen=True)
class Known:
    """All that is known about one machine with one blade and perhaps one job: entries by field, results by value name."""

    family: Family
    entries: Mapping[str, Entry]
    results: Mapping[str, Value | Missing]

    def item(self, name: str, printer: Printer) -> Item:
        """Return a field or a value as printed; a field left out of the file counts as unknown."""
        if name in self.results:
            return self._result(self.results[name], printer)
        if name in self.entries:
            return printer.entry(self.entries[name])
        unset = printer.fields.get(name)
        return Item(name, printer.label(name), "", status=UNKNOWN, note=unset.measure.replace("`", "") if unset else "")

    def _result(self, result: Value | Missing, printer: Printer) -> Item:
        """Return a computed value as printed: a setting with its range, and marked where it rests on an estimate."""
        spec = result.spec
        if isinstance(result, Value) and spec.within:
            # an end outside its method: the aim itself
            start, end = (end if isinstance(end, Value) else result for end in map(self.results.__getitem__, spec.within))
            item = printer.setting(result, start, end)
            item = replace(item, limited=self.family.limited(self.value, printer))
        else:
            item = printer.result(result)
        if spec.label_of[0]:
            item = replace(item, label=spec.label.format(printer.in_text(self.item(spec.label_of[0], printer))))
        estimate = self._estimate(spec.name)
        return replace(item, status=ASSUMED, note=estimate) if item.status == COMPUTED and estimate else item

    def _estimate(self, name: str) -> str:
        """Return in words which guesses and estimate a value rests on, itself or through another value; empty when on none."""
        above = [self.results[other] for other in self.family.ancestors[name] if other in self.results]
        made_from = {field for result in above if isinstance(result, Value) for field in result.made_from}
        guessed = [label for field, label in self.guessed().items() if field in made_from]
        bases = (result.spec.guessed for result in above)
        estimate = next((words for basis, word, words in bases if basis and self.value(basis) == word), "")
        return "; ".join(filter(None, ("rests on a guess: " * bool(guessed) + ", ".join(guessed), estimate)))

    def guessed(self) -> dict[str, str]:
        """Return the fields that hold a guess, with their labels, those first that most values use."""
        found = {name: e.field.label for name, e in self.entries.items() if e.status == ASSUMED and not e.field.basis}
        computed = [result for result in self.results.values() if isinstance(result, Value)] if found else []
        uses = {name: sum(name in result.made_from for result in computed) for name in found}
        return dict(sorted(found.items(), key=lambda pair: -uses[pair[0]]))

    def judge(self, printer: Printer) -> Judgement:
        """Return whether the blade fits the machine, and why, in words."""
        return self.family.judge(self.value, printer, self.doubt)

    def doubt(self, name: str) -> float:
        """Return the standard uncertainty of a field or value in SI, 0 where it is taken as exact or is not known."""
        if name in self.results:
            result = self.results[name]
            return (result.plus_minus if isinstance(result, Value) else None) or 0.0
        entry = self.entries.get(name)
        return (_doubt(entry) if entry else None) or 0.0

    def value(self, name: str) -> Any:
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
    printing = printer(library)
    return {f.name: _assumed(f, printing.system(f.kind)) for f in library.family.assumptions}


def _assumed(field: Field, system: str) -> Entry:
    written = field.assumed_inch if field.assumed_inch and system == "inch" else field.assumed
    reading = units.read(written, field.takes)
    return Entry(field, reading.value, None, ASSUMED, written, At(""))


def know(library: Library, machine: Record, blade: Record | None) -> Known:
    """Resolve every value for a machine with a blade (None: not known which)."""
    found = entries(library, machine, blade)
    given = _given(found)
    for field in library.family.machine + library.family.blade:
        given.setdefault(field.name, values.unknown())
    return Known(library.family, found, values.resolve(library.family.ordered, given))


def unasked(library: Library, known: Known) -> set[str]:
    """Return the optional fields the files leave out: nobody is asked to measure them, as `unknown` would ask."""
    return set(library.family.optional - known.entries.keys())


def know_job(library: Library, known: Known, job: Record) -> Known:
    """Add a job to what is known of a machine with a blade: only the values that need the job are computed."""
    named = {name: entry for name, entry in job.entries.items() if name not in ("id", "name")}
    found = {**known.entries, **named}
    specs = values.depending(library.family.ordered, [field.name for field in library.family.job])
    return Known(library.family, found, values.resolve(specs, _given(found), known.results))


def _given(found: Mapping[str, Entry]) -> dict[str, Given]:
    return {name: Given(entry.value, _doubt(entry), entry.status) for name, entry in found.items()}


def _doubt(entry: Entry) -> float | None:
    """Return an input's standard uncertainty in SI: as its file says, else the usual one of its field."""
    if entry.plus_minus is not None or not isinstance(entry.value, float):
        return entry.plus_minus
    return entry.field.usual_doubt(entry.value)


def make(library: Library, machine: Record, known: Known, blade: Record | None = None) -> Guide:
    """Return the guide of one machine for the blade in `known`, with the stages of every occasion."""
    words = {name: known.value(name) for name in library.family.names}
    printing = printer(library)
    stages = tuple(
        _stage(library, procedure, known, words, printing, local.rules_for(library.shop, machine, procedure.id))
        for procedure in library.procedures
        if slots.holds(procedure.when, words)
    )
    notices = _notices(library, library.notices, words)
    return Guide(machine, blade or library.blade(machine.get("fitted_blade")), stages, notices)


def _stage(
    library: Library, procedure: Procedure, known: Known, words: Mapping[str, Any], printing: Printer, rules: tuple[Rule, ...]
) -> Stage:  # fmt: skip
    items = {local: known.item(_follow(procedure, local), printing) for local in procedure.slots}
    texts = {local: printing.in_text(item) for local, item in items.items()}
    short = {local: printing.in_text(replace(item, good="")) for local, item in items.items()}
    steps = tuple(
        replace(
            _step(library, step, known, texts, words, printing),
            summary=slots.fill(step.summary, short),
            card=slots.fill(step.card, texts),
        )
        for step in procedure.steps
        if slots.holds(step.when, words)
    )
    notices = _notices(library, procedure.notices, words)
    purpose = slots.fill(procedure.purpose, texts)
    return Stage(
        procedure.id,
        procedure.title,
        purpose,
        steps,
        notices,
        procedure.at,
        procedure.card,
        tuple(Line(n.id, n.signal, n.signs[0] if n.signs else "", n.line) for n in notices),
        rules,
    )


def _follow(procedure: Procedure, local: str) -> str:
    """Return the field or value a slot leads to; the library has refused circles."""
    name = procedure.slots[local]
    while name in procedure.slots and procedure.slots[name] != name and name != local:
        name = procedure.slots[name]
    return name


def _notices(library: Library, ids: Iterable[str], words: Mapping[str, Any]) -> tuple[Notice, ...]:
    """Return the notices that hold for a machine, worst first."""
    found = [library.notices[i] for i in ids if slots.holds(library.notice_when.get(i, ""), words)]
    return tuple(sorted(found, key=lambda notice: SEVERITY.index(notice.signal)))


def _step(
    library: Library, step: StepText, known: Known, texts: Mapping[str, str], words: Mapping[str, Any], printing: Printer
) -> Step:
    def fill(text: str) -> str:
        return slots.fill(text, texts)

    return Step(
        0,
        fill(step.step),
        tuple(map(fill, step.key_points)),
        fill(step.reason),
        step.id,
        step.state,
        step.occasions,
        step.unit,
        step.advances,
        put_right=fill(step.put_right),
        sets=tuple(known.item(name, printing) for name in step.sets),
        check=fill(step.check),
        notices=_notices(library, step.notices, words),
        figure=step.figure,
        record=fill(step.record),
    )
