"""What the live worksheets start from: this saw's numbers and its blades as plain SI numbers, and the formulas as a script."""

import inspect
from typing import Any

from sawside import guide, units
from sawside.calc import choice
from sawside.families.family import Family, Worksheets
from sawside.guide import Known
from sawside.kinds.view_types import BladeRow
from sawside.library import Library
from sawside.printing import Printer
from sawside.script import translate


def worksheet_data(library: Library, known: Known, by_blade: dict[str, Known], rows: list[BladeRow]) -> dict[str, Any]:
    """Return the numbers of one machine's worksheets, with every blade on the rack that fits it; nothing without any."""
    family = library.family
    wanted = family.shows.worksheets
    if wanted is None:
        return {}
    printer = guide.printer(library)
    choices = {word for field in family.fields if field.name in wanted.words for word in field.choices}
    return {
        **{name: known.value(name) for name in wanted.machine},
        "fitted": next((row["id"] for row in rows if row["fitted"]), None),
        "blades": [_blade(family, row, by_blade[row["id"]], printer) for row in rows if row["fits"]],
        "derived": {name: _call(family, name) for name in wanted.derived},
        "words": {word: printer.word(word) for word in sorted(choices)},
        "kinds": {kind: units.scales(kind, printer.system(kind)) for kind in wanted.kinds},
        "denominator": printer.denominator,
    }


def _wanted(family: Family) -> Worksheets:
    """Return what the worksheets of a family that has some start from."""
    assert family.shows.worksheets
    return family.shows.worksheets


def _blade(family: Family, row: BladeRow, known: Known, printer: Printer) -> dict[str, Any]:
    numbers = {name: known.value(name) for name in _wanted(family).blade}
    return {"id": row["id"], "name": f"{row['name']}: {row['section']}", "limited": family.limited(known.value, printer), **numbers}


def _call(family: Family, name: str) -> list[Any]:
    """Return which function gives a value that changes with the job, and from what, in the order of its arguments."""
    spec = next(spec for spec in family.values if spec.name == name)
    return [spec.function.__name__, [spec.takes.get(one, one) for one in inspect.signature(spec.function).parameters]]


def script(family: Family) -> str:
    """Return the formulas of a family's worksheets in JavaScript, translated from the ones that are printed everywhere else.

    Raises Untranslatable when one of them has no translation.
    """
    wanted = _wanted(family)
    derived = [spec.function for spec in family.values if spec.name in wanted.derived]
    return translate.script((*wanted.formulas, *wanted.choosing, *derived, choice.rank))
