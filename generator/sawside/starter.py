"""The folder that `sawside new` makes: one saw, two blades and three jobs, every line explained from its Field."""

import json
import textwrap
from collections.abc import Iterable
from pathlib import Path

from sawside import place, schema, units
from sawside.families import FAMILIES
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
#   - Save, then run: sawside check   It tells you what it does not understand, and what to write instead.
"""

_JOBS = (
    {"id": "rip-pine", "name": "Rip a pine board", "material": "softwood", "cut": "rip", "work_height_min": "19 mm",
     "work_height_max": "40 mm"},
    {"id": "curves-ply", "name": "Curves in thin plywood", "material": "plywood", "cut": "curve",
     "work_height_min": "6 mm", "work_height_max": "12 mm", "cut_radius": "40 mm"},
    {"id": "resaw-oak", "name": "Re-saw an oak board", "material": "hardwood", "cut": "resaw", "work_height_min": "80 mm",
     "work_height_max": "100 mm"},
)
_SECOND_BLADE = {"id": "b6-6", "blade_width": "1/4 in", "blade_thickness": "0.5 mm", "gullet_depth": "unknown",
                 "kerf": "unknown", "rack_place": "Hook 4"}

#: Of the lines that may be left out, those a shop wants anyway; and what is dangerous to take over from an example.
_MACHINE = {"also_called": "the little one", "place": "Bench room, north wall", "throat": "245 mm",
            "table_stop_arm": "90 mm", "table_stop_pitch": "1 mm", "fence_length": "300 mm",
            "wheel_load_max": "unknown", "tension_spring_rate": "unknown"}
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
        "jobs": _list_schema("jobs", family.job, "The jobs"),
        "shop": schema.json_schema(SHOP + family.assumptions, "The shop"),
    }
    made["shop"]["properties"]["units"] = {
        "type": "object",
        "description": "Which system each kind of quantity prints in; what is left out prints metric.",
        "properties": {kind: {"enum": ["metric", "inch"]} for kind in units.KINDS},
        "additionalProperties": False,
    }
    return {f"{name}.json": json.dumps(made[name], indent=2, ensure_ascii=False) + "\n" for name in made}


def _list_schema(key: str, fields: tuple[Field, ...], title: str) -> dict:
    """Return the schema of a file that is a list of records under one key."""
    item = schema.json_schema(fields, title)
    return {
        "$schema": item.pop("$schema"), "title": title, "type": "object", "required": [key], "additionalProperties": False,
        "properties": {key: {"type": "array", "items": item}},
    }


def files() -> dict[str, str]:
    """Return the starter's files by name.

    >>> "machines/my-saw.yaml" in files()
    True
    """
    family = FAMILIES[0]
    blade = {"id": "b13-6"}
    return {
        "mkdocs.yml": _MKDOCS,
        "shop.yaml": _one("Your shop", "shop", SHOP, _SHOP) + _print_block() + _assumed(family.assumptions),
        "machines/my-saw.yaml": _one("Your saw: one file for each saw, in the folder machines", "machine",
                                     family.machine, {"id": "my-saw", "name": "My band saw"} | _MACHINE),
        "blades.yaml": _head("The blades on your rack", "blades") + "blades:\n"
        + _listed(family.blade, blade, explain=True) + _listed(family.blade, _SECOND_BLADE, explain=False),
        "jobs.yaml": _head("The jobs your blades are chosen for", "jobs") + "jobs:\n" + _listed(family.job, _JOBS[0], explain=True)
        + "".join(_listed(family.job, job, explain=False) for job in _JOBS[1:]),
        "pages/notes.md": _NOTES,
    }


def _head(title: str, name: str) -> str:
    """Return the head of a file; its first line tells editors that know the convention where its schema is."""
    return _HEAD.format(title=title, schema=name, up="../" if name == "machine" else "") + "\n"


def _one(title: str, name: str, fields: Iterable[Field], values: dict) -> str:
    """Return a file of one record; a value of None comments the line out."""
    examples = {field.name: field.example for field in fields if field.required}
    return _head(title, name) + "\n".join(_explained(field, (examples | values).get(field.name)) for field in fields)


def _listed(fields: Iterable[Field], values: dict, explain: bool) -> str:
    """Return one entry of a list; the first entry carries the explanations."""
    lines = []
    for field in fields:
        if field.name not in values and not explain and field.name not in _ALWAYS:
            continue
        value = values.get(field.name, field.example if field.required else None)
        body = _explained(field, value) if explain else _line(field, value)
        lines += body.rstrip("\n").split("\n")
    text = "\n".join("    " + line if line else "" for line in lines)
    first = next(i for i, line in enumerate(text.split("\n")) if line.strip() and not line.strip().startswith("#"))
    rows = text.split("\n")
    rows[first] = "  - " + rows[first].strip()
    return "\n".join(rows) + "\n\n"


#: Fields of a blade that every entry of the starter shows.
_ALWAYS = ("blade_length", "tooth_pitch", "tooth_form", "blade_back")


def _explained(field: Field, value: str | None) -> str:
    """Return a field's line below the notes on it; without a value the line is a note, too."""
    notes = textwrap.wrap(f"{field.label}. {field.measure}", 96)
    if field.choices:
        notes.append("One of: " + ", ".join(field.choices))
    if field.required and field.unknown_ok:
        notes.append("May be: unknown")
    elif not field.required:
        below = "next line" if field.takes not in ("lines", "rules") else "lines below"
        notes.append("May be left out." if value else f"May be left out; to use it, take the # off the {below}:")
    return "".join(f"# {note}\n" for note in notes) + _line(field, value)


def _line(field: Field, value: str | None) -> str:
    if field.takes in ("lines", "rules"):
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
