"""The folder that `sawside new` makes: one saw, one blade and three jobs, every line explained from its Field.

What most numbers wait for stands first; whatever the invented saw says is marked as a guess, or `unknown`.
"""

import json
import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from sawside import place, schema, units, values
from sawside.families import FAMILIES
from sawside.families.family import Family
from sawside.fields import Field
from sawside.shop import SAW, SHOP

_HEAD = """\
# yaml-language-server: $schema={up}schemas/{schema}.json
# {title}
#
# What stands here belongs to an invented shop, so that you see how it is written. Put your own in its place.
#
# How to write in this file:
#   - One line is a name, a colon, a space and what you measured:   tyre_width: 18 mm
#   - Everything behind a # is only a note for people. To use a line that starts with #, take the # away.
#   - Indent with spaces, never with the tab key. Leave the names before the colons as they are.
#   - Sizes need their unit: 18 mm, 1 1/2 in, 6 tpi, 850 rpm. Say how sure you are, if you like: 0.65 mm +/- 0.02 mm
#   - If you do not know something yet, write: unknown   The sheet then has a line to write on.
#   - A line that says guess is not from your saw. Put what you found in its place; what stays is printed as assumed.
#   - Save, then run: sawside check   It tells you what it does not understand, and what to write instead.
"""

_JOBS = (
    {
        "id": "rip-pine",
        "name": "Rip a pine board",
        "material": "softwood",
        "cut": "rip",
        "work_height_min": "19 mm",
        "work_height_max": "40 mm",
    },
    {
        "id": "curves-ply",
        "name": "Curves in thin plywood",
        "material": "plywood",
        "cut": "curve",
        "work_height_min": "6 mm",
        "work_height_max": "12 mm",
        "cut_radius": "40 mm",
    },
    {
        "id": "resaw-oak",
        "name": "Re-saw an oak board",
        "material": "hardwood",
        "cut": "resaw",
        "work_height_min": "80 mm",
        "work_height_max": "100 mm",
    },
)
#: How many fields a newcomer fills in before everything else.
FIRST = 10

_SHOP = {"shop": "My workshop", "ask": "whoever owns the saw", "small_print": "yes", "fraction": "1/32"}

_MKDOCS = """\
# Settings of your site. You can change the first line; leave the rest as it is.
site_name: My saws
docs_dir: pages
site_dir: site
strict: true
theme:
  name: material
  font: false
  language: en
plugins:
  - sawside:
      shop: .
"""

_NOTES = """\
# Notes

Anything you write into this file appears as a page of your site. It may stay as it is, or be deleted
together with nothing else: the other pages are made from your YAML files.
"""


def make(folder: Path) -> None:
    """Write the starter shop into a new or empty folder; raise Faults rather than write over anything."""
    texts = files() | {f"schemas/{name}": text for name, text in schemas().items()}
    place.new_folder(folder, {name: text.encode() for name, text in texts.items()})


def write(folder: Path, texts: dict[str, str]) -> None:
    """Write texts into a folder by name, all or none; raise Faults when that cannot be done."""
    place.write_files({folder / name: text.encode() for name, text in texts.items()})


def schemas() -> dict[str, str]:
    """Return a JSON Schema for each kind of file, by file name.

    >>> sorted(schemas())
    ['blades.json', 'jobs.json', 'machine.json', 'shop.json']
    """
    family = FAMILIES[0]
    made = {
        "machine": schema.json_schema(family.machine + SAW + family.assumptions, "A saw"),
        "blades": _list_schema("blades", family.blade + family.assumptions, "The blades on the rack"),
        "jobs": _list_schema("jobs", family.job, "The jobs", "null"),
        "shop": schema.json_schema(SHOP + family.assumptions, "The shop"),
    }
    made["shop"]["properties"]["units"] = {
        "type": "object",
        "description": "Which system each kind of quantity prints in; what is left out prints metric.",
        "properties": {kind: {"enum": ["metric", "inch"]} for kind in units.KINDS},
        "additionalProperties": False,
    }
    return {f"{name}.json": json.dumps(made[name], indent=2, ensure_ascii=False) + "\n" for name in made}


def _list_schema(key: str, fields: tuple[Field, ...], title: str, *also: str) -> dict[str, Any]:
    """Return the schema of a file that is a list of records under one key; `also` are other types it may be."""
    item = schema.json_schema(fields, title)
    return {
        "$schema": item.pop("$schema"),
        "title": title,
        "type": "object",
        "required": [key],
        "additionalProperties": False,
        "properties": {key: {"type": ["array", *also] if also else "array", "items": item}},
    }


def files() -> dict[str, str]:
    """Return the starter's files by name.

    >>> "machines/my-saw.yaml" in files()
    True
    """
    family, mine = FAMILIES[0], {"id": "my-saw", "name": "My band saw", "fitted_blade": "b13-6", "maker_plate": "unknown"}
    return {
        "mkdocs.yml": _MKDOCS,
        "shop.yaml": _head("Your shop", "shop") + _lines(SHOP, _SHOP) + _print_block() + _assumed(family.assumptions),
        "machines/my-saw.yaml": _head("Your saw: one file for each saw, in the folder machines", "machine")
        + _ordered(family, family.machine, mine),
        "blades.yaml": _head("The blades on your rack", "blades")
        + "blades:\n"
        + _item(_ordered(family, family.blade, {"id": "b13-6"}, "id"))
        + _ANOTHER,
        "jobs.yaml": _head("The jobs your blades are chosen for", "jobs")
        + "jobs:\n"
        + _item(_lines(family.job, _JOBS[0]))
        + "".join(_item("".join(_line(field, job[field.name]) for field in family.job if field.name in job)) for job in _JOBS[1:]),
        "pages/notes.md": _NOTES,
    }


def first(family: Family) -> dict[str, int]:
    """Return the fields of a saw and a blade that most values wait for, most first, with how many values wait.

    >>> list(first(FAMILIES[0]).items())[-1]
    ('blade_length', 12)
    """
    given = {field.name: values.unknown() for field in family.machine + family.blade}
    given |= {field.name: values.Given(units.read(field.assumed, field.takes).value) for field in family.assumptions}
    waiting = values.waiting(values.resolve(family.ordered, given))
    required = {field.name for field in family.machine + family.blade if field.required}
    return {name: len(waiting[name]) for name in [name for name in waiting if name in required][:FIRST]}


def _ordered(family: Family, fields: tuple[Field, ...], stated: dict[str, Any], *before: str) -> str:
    """Return a record's lines: those named, those that matter first, then the rest with what is not known as `unknown`."""
    counts = first(family)
    ahead = sorted((field for field in fields if field.name in counts), key=lambda field: list(counts).index(field.name))
    rest = [field for field in fields if field.name not in counts and field.name not in before]
    text = "".join(_explained(field, stated[field.name]) + "\n" for field in fields if field.name in before)
    text += f"# ---- {len(ahead)} lines that matter first: most numbers of the sheets wait for them ----\n\n"
    text += "".join(_explained(field, f"guess {field.example}", counts[field.name]) + "\n" for field in ahead)
    text += "# ---- The rest, when you come to it: look, measure, or leave it as it is ----\n\n"
    return text + _lines(rest, {field.name: _guess(field) for field in rest if field.required} | stated)


def _guess(field: Field) -> str:
    """Return what stands for a field of the rest until somebody has looked: `unknown` where it may be."""
    if field.unknown_ok:
        return "unknown"
    return f"guess {field.example}" if schema.may_be_guessed(field) else field.example


def _head(title: str, name: str) -> str:
    """Return the head of a file; its first line tells editors that know the convention where its schema is."""
    return _HEAD.format(title=title, schema=name, up="../" if name == "machine" else "") + "\n"


def _lines(fields: Iterable[Field], stated: dict[str, Any]) -> str:
    """Return the explained lines of a record; what is neither stated nor required becomes a note."""
    examples = {field.name: field.example for field in fields if field.required}
    return "\n".join(_explained(field, (examples | stated).get(field.name)) for field in fields)


def _item(text: str) -> str:
    """Return the lines of a record as an item of a list: indented, a hyphen before the first that is no note."""
    rows = ["    " + line if line else "" for line in text.rstrip("\n").split("\n")]
    first = next(number for number, row in enumerate(rows) if row.strip() and not row.strip().startswith("#"))
    rows[first] = "  - " + rows[first].strip()
    return "\n".join(rows) + "\n\n"


#: Below the one blade of the starter.
_ANOTHER = """\
  # Another blade: copy the lines from `- id:` on, put them below, and give it another id.
"""


def _explained(field: Field, value: str | None, waiting: int = 0) -> str:
    """Return a field's line below the notes on it; without a value the line is a note, too."""
    notes = textwrap.wrap(f"{field.label}. {field.measure}", 96)
    if field.choices:
        notes.append("One of: " + ", ".join(field.choices))
    if field.required and field.unknown_ok:
        notes.append("May be: unknown")
    elif not field.required:
        below = "lines below" if field.is_list else "next line"
        notes.append("May be left out." if value else f"May be left out; to use it, take the # off the {below}:")
    mark = f"# FIRST: {waiting} numbers wait for it.\n" if waiting else ""
    return mark + "".join(f"# {note}\n" for note in notes) + _line(field, value)


def _line(field: Field, value: str | None) -> str:
    if field.is_list:
        return f"# {field.name}:\n#   - {field.example}\n"
    if value is None:
        return f"# {field.name}: {field.example}\n"
    return f"{field.name}: {value}\n"


def _print_block() -> str:
    return (
        "\n# Which system each kind of size prints in; what is not named prints metric. Write inch or metric.\n"
        "units:\n  pitch: inch\n  blade_width: metric\n  blade_length: metric\n"
    )


def _assumed(fields: Iterable[Field]) -> str:
    """Return the assumptions, commented out, so that a shop can see and replace them."""
    lines = ["\n# What the numbers assume until you know better. Take the # away to set your own value for the whole shop;"]
    lines.append("# the same line in a machine's or a blade's file counts for that one only.")
    for field in fields:
        lines += ["#", f"# {field.label} ({field.basis}):", f"# {field.name}: {field.assumed}"]
    return "\n".join(lines) + "\n"
