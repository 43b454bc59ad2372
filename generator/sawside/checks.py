"""Procedures against what is known: every slot, condition, notice, figure and value name, before anything is rendered."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace
from functools import partial

from sawside import schema, slots
from sawside.errors import At, Fault
from sawside.families.family import Family
from sawside.model import UNKNOWN, Procedure, Record, StepText
from sawside.nodes import List, Map, Node, Text, every, part, quote
from sawside.suggest import meant


def check_words(procedure: Procedure, family: Family, notices: Collection[str] | None) -> list[Fault]:
    """Check every slot, condition, notice, figure and value name of a procedure before anything is rendered.

    `notices` holds the ids of the notices, None when they could not be read: then no notice is missed.
    """
    faults = _check_slot_names(procedure, family)
    faults += _check_text(procedure.purpose, procedure, partial(schema.place_of, procedure.places, "purpose"))
    if procedure.when:
        faults += check_condition(procedure.when, family, lambda word: narrow(procedure.when_at, word))
    place = partial(_named_place, procedure.places, "notices", procedure.notices, procedure)
    faults += _check_known("notice", procedure.notices, notices, place)
    figures = {figure.name for figure in family.figures}
    for step in procedure.steps:
        faults += _check_step_texts(step, procedure, family)
        named = (
            ("sets", step.sets, family.names),
            ("notice", step.notices, notices),
            ("figure", (step.figure,) if step.figure else (), figures),
        )
        for key, names, known in named:
            faults += _check_known(key, names, known, partial(_named_place, step.places, key, names, procedure))
    return faults


def _check_step_texts(step: StepText, procedure: Procedure, family: Family) -> list[Fault]:
    faults = []
    for name in step.places:
        place = partial(schema.place_of, step.places, name)
        if name == "when":
            faults += check_condition(step.when, family, place)
        elif name.split(".")[0] in ("step", "key_points", "reason", "check", "summary", "record", "card", "put_right"):
            faults += _check_text(_text_of(step, name), procedure, place)
    return faults


def _text_of(step: StepText, place: str) -> str:
    name, _, number = place.partition(".")
    value = getattr(step, name)
    return value if isinstance(value, str) else value[int(number or 0)]


def _named_place(places: Mapping[str, At], key: str, names: tuple[str, ...], procedure: Procedure, name: str) -> At:
    return places.get(f"{key}.{names.index(name)}") or places.get(key) or procedure.at


def _check_known(key: str, names: Iterable[str], known: Collection[str] | None, place: Callable[[str], At]) -> list[Fault]:
    """Check that each name is one of the known ones; with None nothing is known about them."""
    if known is None:
        return []
    what = "field or value" if key in ("sets", "slots") else key
    return [_unknown(name, place(name), known, key, f"no {what} is called") for name in names if name not in known]


def _unknown(name: str, at: At, known: Collection[str], key: str, what: str) -> Fault:
    listed = {"notice": "write it into notices.yaml first, or use one of: ", "figure": "use one of: "}
    hint = listed[key] + ", ".join(sorted(known)) if key in listed else "the reference pages list all names"
    return Fault(at, f"{what} {quote(name)}", meant(name, known, hint))


def _check_slot_names(procedure: Procedure, family: Family) -> list[Fault]:
    """Check that each slot leads to a field or value, without a circle."""
    faults = []
    for local in procedure.slots:
        seen, name = [local], procedure.slots[local]
        while name in procedure.slots and name not in seen and name not in family.names:
            seen.append(name)
            name = procedure.slots[name]
        at = procedure.slot_places.get(local, procedure.at)
        if name in seen and name not in family.names:
            faults.append(
                Fault(at, "a circle of values: " + " -> ".join([*seen, name]), "let each slot lead to a field or a computed value")
            )
        else:
            faults += _check_known("slots", (name,), family.names, {name: at}.__getitem__)
    return faults


def _check_text(text: str, procedure: Procedure, place: Callable[[str], At]) -> list[Fault]:
    try:
        names = slots.slot_names(text)
    except slots.BadSlot as error:
        return [Fault(place(error.word), error.what, error.hint)]
    return [_no_slot(name, procedure, place(name)) for name in names if name not in procedure.slots]


def _no_slot(name: str, procedure: Procedure, at: At) -> Fault:
    hint = meant(name, procedure.slots, f"name it under `slots:` first, for example `{name}: strand_force`")
    return Fault(at, f"nothing provides the slot `{name}`", hint)


def check_condition(text: str, family: Family, place: Callable[[str], At]) -> list[Fault]:
    """Check one `when:`; `place` says where a word of it stands."""
    try:
        names = slots.condition_names(text)
    except slots.BadSlot as error:
        return [Fault(place(error.word), error.what, error.hint)]
    return _check_known("slots", names, family.names, place)


def check_print(node: Node, lacking: Callable[[str], str]) -> list[Fault]:
    """Return a fault for each text of a file with characters that cannot be printed; `lacking` names those of a text."""
    faults = []
    for text in every(node):
        if named := lacking(text.value):
            first = next(number for number, character in enumerate(text.value) if lacking(character))
            faults.append(Fault(part(text, first, 1), f"the sheets' typeface cannot print {named}", "write it in words"))
    return faults


def check_possible(records: Collection[Record], family: Family) -> list[Fault]:
    """Return what cannot be about a record though each of its values may."""
    found = [(record.entries[name].at, what, hint) for record in records for name, what, hint in family.impossible(record)]
    return [Fault(*fault) for fault in found]


def condition_place(node: Map, text: str) -> At:
    """Return where a notice's condition stands in its file."""
    listed = node.items["notices"][1]
    items = listed.items if isinstance(listed, List) else ()
    conditions = (item.items["when"][1] for item in items if isinstance(item, Map) and "when" in item.items)
    return next((value.at for value in conditions if isinstance(value, Text) and value.value == text), node.at)


def narrow(at: At, word: str) -> At:
    """Point at one word of a line when it is there, else at the whole value."""
    start = at.text.find(word, max(0, at.column - 1)) if word else -1
    return at if start < 0 else replace(at, column=start + 1, length=len(word))


def check_fitted(machines: Iterable[Record], ids: Collection[str] | None) -> list[Fault]:
    """Return a fault for each machine whose fitted blade does not exist; a blade that has faults of its own counts as there."""
    faults = []
    for machine in machines:
        entry = machine.entries.get("fitted_blade")
        if ids and entry and entry.status != UNKNOWN and entry.value not in ids:
            hint = meant(str(entry.value), ids, "write the id of a blade from blades.yaml, or unknown")
            faults.append(Fault(entry.at, f"there is no blade `{entry.value}` in blades.yaml", hint))
    return faults
