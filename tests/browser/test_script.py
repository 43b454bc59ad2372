"""Formulas in JavaScript give what Python gives: every one of `calc` that can be translated, in a real browser.

The inputs are those the demonstration shop and the examples of the formulas bring, each as it is and changed at random; numbers
agree to 1e-9, words and refusals are the same.
"""

import dataclasses
import doctest
import importlib
import inspect
import json
import math
import pkgutil
import random
import sys

import pytest

import script_cases
from sawside import calc, files, library
from sawside.calc.limits import OutsideMethod
from sawside.outputs import publishing
from sawside.script import translate

#: Most calls compared of one formula, and most of its arguments taken as the shop brings them.
MOST, TAKEN = 300, 60

MODULES = [importlib.import_module(f"sawside.calc.{module.name}") for module in pkgutil.iter_modules(calc.__path__)]
FORMULAS = {
    f"{module.__name__.rpartition('.')[2]}.{name}": one
    for module in MODULES
    for name, one in vars(module).items()
    if inspect.isfunction(one) and one.__module__ == module.__name__
}

#: What has no translation, because JavaScript has no such function or no such set; the browser needs none of them.
LEFT = ("math.erf", "math.erfc", "math.lgamma", "wraps[outermost]", "angles |")


def plain(value) -> bool:
    """Tell whether a value can be handed to the browser as it is."""
    if isinstance(value, tuple | list):
        return all(map(plain, value))
    return value is None or isinstance(value, str | bool | int | float)


def recorded(work) -> dict[str, list]:
    """Return the arguments of each formula's calls while `work` is done, no two the same."""
    codes = {one.__code__: name for name, one in FORMULAS.items()}
    seen: dict[str, dict] = {name: {} for name in FORMULAS}

    def look(frame, event, _):
        name = codes.get(frame.f_code) if event == "call" else None
        if name and len(seen[name]) < TAKEN:
            count = frame.f_code.co_argcount
            row = [frame.f_locals[one] for one in frame.f_code.co_varnames[:count]]
            if plain(row) and not frame.f_code.co_flags & (inspect.CO_VARARGS | inspect.CO_VARKEYWORDS):
                seen[name].setdefault(repr(row), row)

    sys.setprofile(look)
    try:
        work()
    finally:
        sys.setprofile(None)
    return {name: list(rows.values()) for name, rows in seen.items()}


def shaken(row, source: random.Random):
    """Return arguments with every number changed a little, now and then to what a formula must refuse."""
    if isinstance(row, tuple | list):
        return [shaken(one, source) for one in row]
    if isinstance(row, bool) or not isinstance(row, int | float):
        return row
    if isinstance(row, int):
        return max(row + source.choice((-1, 0, 0, 1)), 0)
    wrong = source.random()
    return -row if wrong < 0.02 else 0.0 if wrong < 0.03 else row * math.exp(source.gauss(0, 0.2))


def tupled(row):
    return tuple(map(tupled, row)) if isinstance(row, list) else row


def told(value):
    """Return a result as it is compared: a record as its fields, lists as lists."""
    if dataclasses.is_dataclass(value):
        return {field.name: told(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, tuple | list):
        return [told(one) for one in value]
    return value


def in_python(function, row):
    try:
        return {"value": told(function(*row))}
    except OutsideMethod as refusal:
        return {"refused": refusal.name, "must_be": refusal.must_be}
    except (ArithmeticError, ValueError, TypeError, IndexError, KeyError, AssertionError):
        return {"error": True}


def same(one, other) -> bool:
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, float | int) and isinstance(other, float | int) and not isinstance(one, bool):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-12) or (math.isnan(one) and math.isnan(other))
    return one == other


@pytest.fixture(scope="module")
def calls():
    read = library.load(files.data_folder("procedures") / "shops" / "demonstration")

    def work():
        publishing.views(read)
        for module in MODULES:
            doctest.testmod(module)

    rows = recorded(work)
    source = random.Random(20260314)
    for found in rows.values():
        found += [shaken(source.choice(found), source) for _ in range(MOST - len(found))] if found else []
    return rows


RUN = """([name, rows]) => {
    const told = (x) => {
        if (Array.isArray(x)) return x.map(told);
        if (typeof x === "number") return Number.isFinite(x) ? x : {number: String(x)};
        if (x && typeof x === "object") return Object.fromEntries(Object.entries(x).map(([k, v]) => [k, told(v)]));
        return x === undefined ? null : x;
    };
    return JSON.stringify(JSON.parse(rows).map((row) => {
        try { return {value: told(sawside.formulas[name](...row))}; }
        catch (error) {
            return error instanceof sawside.Refused ? {refused: error.argument, must_be: error.must_be} : {error: true, words: error.message};
        }
    }));
}"""
NUMBERS = {"NaN": math.nan, "Infinity": math.inf, "-Infinity": -math.inf}


def number(made: dict):
    return NUMBERS[made["number"]] if made.keys() == {"number"} else made


def test_formulas_are_the_same_in_the_browser(page, calls):
    reasons = translate.translatable(FORMULAS.values())
    able = {name: one for name, one in FORMULAS.items() if not reasons[f"{one.__module__}.{one.__name__}"] and calls[name]}
    compared, different, refused = 0, [], 0
    for module in MODULES:
        mine = {name: one for name, one in able.items() if one.__module__ == module.__name__}
        page.goto("about:blank")
        page.add_script_tag(content=translate.script(mine.values()))
        for name, one in mine.items():
            rows = [row for row in calls[name] if all(not isinstance(x, float) or math.isfinite(x) for x in row)]
            got = json.loads(page.evaluate(RUN, [one.__name__, json.dumps(rows)]), object_hook=number)
            for row, js in zip(rows, got, strict=True):
                py = in_python(one, tupled(row))
                compared, refused = compared + 1, refused + ("value" not in py)
                if not same(py, {key: value for key, value in js.items() if key != "words"}):
                    different.append((name, row, py, js))
    assert different == [], f"{len(different)} of {compared}: {different[:3]}"
    assert compared > 20_000 and refused > 200, (compared, refused)
    assert len(able) > 250


def test_what_has_no_translation_is_known():
    refused = {name: why for name, why in translate.translatable(FORMULAS.values()).items() if why}
    assert len(refused) < 12 and all(any(f"`{left}" in why for left in LEFT) for why in refused.values()), refused


#: Cases of tests/script_cases.py -> arguments.
ROWS = {
    "good_words": [[2.5], [2.5, 3], [12.0], [0], [0.000123456], [1234567.0, 1], [9.9996]],
    "good_walk": [[[1, 2, -1, 3, 0, 0, 5, 8]], [[]], [[0.1, 0.2, 0.3]]],
    "good_sets": [[["ab", "ac", "b", ""]], [[]], [["x"]]],
    "good_rounding": [[[0.5, 1.5, 2.5, -0.5, 0.125, 0.375, 2.675, 1e16, 0.1, 0.2]], [[0.1] * 10], [[1e15, 1.0, -1e15]]],
    "good_refusal": [[1.0], [2.3], [0.0], [-1.0], [5.5]],
}


def test_cases_mean_the_same(page):
    functions = {name: getattr(script_cases, name) for name in ROWS}
    page.goto("about:blank")
    page.add_script_tag(content=translate.script(functions.values()))
    for name, rows in ROWS.items():
        got = json.loads(page.evaluate(RUN, [name, json.dumps(rows)]), object_hook=number)
        for row, js in zip(rows, got, strict=True):
            assert same(in_python(functions[name], row), js), f"{name}{row}: {in_python(functions[name], row)} {js}"
