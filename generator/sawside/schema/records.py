"""A map of a file and the fields of a machine, blade, job or shop become a `Record`, with every fault found."""

from collections.abc import Mapping
from dataclasses import replace

from sawside.errors import At, Fault, Faults
from sawside.fields import Field
from sawside.model import Entry, Record
from sawside.nodes import List, Map, Node, Text, quote
from sawside.schema.values import entry, how
from sawside.suggest import meant, suggest

Fields = tuple[Field, ...]


def record(
    node: Map, fields: Fields, type: str, optional_fields: Fields = (), elsewhere: Mapping[str, Fields] | None = None
) -> tuple[Record | None, list[Fault]]:
    """Return the record a map holds, or None, and all faults.

    `optional_fields` may be given but are never missed. `elsewhere` holds the fields of the other records by type, so
    that a key in the wrong file is told where it belongs. The record's id is the value of its field `id`, else `type`.
    """
    known = {field.name: field for field in (*fields, *optional_fields)}
    faults, meant = _unknown_keys(node, known, type, elsewhere or {})
    entries: dict[str, Entry] = {}
    for name, field in known.items():
        if name in node.items:
            try:
                entries[name] = entry(field, node.items[name][1])
            except Faults as found:
                faults += _led(found.faults, field, node.items[name][1], known)
    faults += [
        _missing(field, node.at, type)
        for field in fields
        if field.required and field.name not in node.items and field.name not in meant
    ]
    faults += _crossed(entries)
    if faults:
        return None, faults
    identity = entries["id"].value if "id" in entries else type
    return Record(type, identity, node.at, entries), []


def _led(faults: tuple[Fault, ...], field: Field, value: Node, known: Mapping[str, Field]) -> list[Fault]:
    """Return faults that also say where a word behind a quantity belongs: `6 TPI skip` holds a tooth form."""
    words = value.value.split()[1:] if field.is_quantity and isinstance(value, Text) else ()
    homes = [f"`{other.name}: {word}`" for word in words for other in known.values() if word in other.choices]
    return [replace(fault, hint=f"{fault.hint}; here as {homes[0]}") if homes else fault for fault in faults]


def _unknown_keys(
    node: Map, known: Mapping[str, Field], type: str, elsewhere: Mapping[str, Fields]
) -> tuple[list[Fault], set[str]]:
    """Return a fault for each key no field has, and the names that were probably meant by them."""
    faults, meant = [], set()
    free = [name for name in known if name not in node.items]
    for name, (at, _) in node.items.items():
        if name in known:
            continue
        other = next((kind for kind, fields in elsewhere.items() if any(field.name == name for field in fields)), None)
        near = suggest(name, free)
        if near and _nearer(name, near, set(known) - set(free)):
            near = None
        if other:
            hint = f"it belongs to a {other}, not to a {type}: move it there"
        elif near:
            meant.add(near)
            hint = f"did you mean `{near}`?"
        elif twice := suggest(name, known):
            hint = f"take the line out; `{twice}` is already in line {node.items[twice][0].line}"
        else:
            hint = f"take the line out, or look up the keys of a {type} on the reference page"
        faults.append(Fault(at, f"unknown key {quote(name)}", hint))
    return faults, meant


def _nearer(name: str, near: str, taken: set[str]) -> bool:
    """Return whether a key that is there already is nearer to a misspelt one than the nearest that is not."""
    return suggest(name, {near, *taken}) != near


def _crossed(entries: Mapping[str, Entry]) -> list[Fault]:
    """Return a fault for each entry that is larger than one it may not exceed: `x_min` than `x_max`, thickness than kerf."""
    faults = []
    pairs = [(least, entries.get(other)) for least in entries.values() for other in _limits(least.field)]
    for least, most in pairs:
        if most and least.value is not None and most.value is not None and least.value > most.value:
            name = least.field.name
            what = f"`{name}` is larger than `{most.field.name}`: {quote(least.written)} and {quote(most.written)}"
            faults.append(Fault(least.at, what, "correct one of the two lines; they may have been exchanged"))
    return faults


def _limits(field: Field) -> tuple[str, ...]:
    own = (field.name.removesuffix("_min") + "_max",) if field.name.endswith("_min") else ()
    return own + field.no_more_than


def _missing(field: Field, at: At, type: str) -> Fault:
    return Fault(at, f"this {type} has no `{field.name}` ({field.label})", how(field))


def records(
    node: Map, key: str, fields: Fields, type: str, optional_fields: Fields = (), elsewhere: Mapping[str, Fields] | None = None
) -> tuple[tuple[Record, ...], list[Fault]]:
    """Return the records of a file that holds one list under `key`, and all faults; no id may come twice."""
    items, faults = listed(node, key, type)
    found: dict[str, Record] = {}
    for item in items:
        one, bad = record(item, fields, type, optional_fields, elsewhere)
        faults += bad
        if one and one.id in found:
            first = found[one.id].entries["id"].at
            faults.append(
                Fault(
                    one.entries["id"].at,
                    f"two {key} have the id `{one.id}`",
                    f"the first one is in line {first.line}; give one of them another id",
                )
            )
        elif one:
            found[one.id] = one
    return tuple(found.values()), faults


def listed(node: Map, key: str, type: str, others: tuple[str, ...] = ()) -> tuple[list[Map], list[Fault]]:
    """Return the groups in the list under `key` of a file that may hold only that key and `others`, and faults."""
    faults = []
    for name, (at, _) in node.items.items():
        if name not in (key, *others):
            hint = meant(name, [k for k in (key, *others) if k not in node.items], f"this file holds only `{key}:`")
            faults.append(Fault(at, f"unknown key {quote(name)}", hint))
    example = f"begin each {type} with a hyphen: `  - id: ...`, its other keys below `id`"
    if key not in node.items:
        if not faults:
            faults.append(Fault(node.at, f"this file has no `{key}`", f"write `{key}:`, then {example}"))
        return [], faults
    at, value = node.items[key]
    if not isinstance(value, List):
        return [], [*faults, Fault(at, f"`{key}` must be a list", example)]
    return groups(value, key, example, faults), faults


def ids(node: Map, key: str) -> set[str] | None:
    """Return the ids written in a list file, also of items with faults; None when there is no list."""
    value = node.items.get(key, (None, None))[1]
    if not isinstance(value, List):
        return None
    written = (item.items.get("id", (None, None))[1] for item in value.items if isinstance(item, Map))
    return {one.value for one in written if isinstance(one, Text)}


def groups(value: List, key: str, hint: str, faults: list[Fault]) -> list[Map]:
    """Return the items of a list that are groups of keys; add a fault for each that is not."""
    wrong: list[Node] = [item for item in value.items if not isinstance(item, Map)]
    faults += [Fault(item.at, f"each item of `{key}` must be a group of keys", hint) for item in wrong]
    return [item for item in value.items if isinstance(item, Map)]
