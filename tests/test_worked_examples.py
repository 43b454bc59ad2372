"""Every worked example is computed again, and every formula has one or says why it has none.

Examples live in two readable files. They keep the printed units; here, and only here, pint turns them into SI.
"""

import importlib
import inspect
import math
import pkgutil
import re
from pathlib import Path

import pint
import pytest
import yaml

import sawside.calc
import test_blade_oracles

HERE = Path(__file__).parent
FILES = ("worked_examples.yaml", "worked_examples_cutting.yaml")
UNITS = pint.UnitRegistry()
MARKS = {"READ", "READ-2nd", "memory", "derived"}
NUMBER = re.compile(r"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?")
ASIDE = ("number", "year", "section")


def si(value):
    """Return a value of an example as an SI float; words, yes/no and None stay, lists go element by element.

    Turns per second stay turns: the formulas count rotation in rev/s, which pint would turn into rad/s.
    """
    if isinstance(value, list):
        return [si(part) for part in value]
    if isinstance(value, dict):
        return {name: si(part) for name, part in value.items()}
    if not isinstance(value, str) or not NUMBER.match(value):
        return value
    number = NUMBER.match(value).group()
    unit = value[len(number) :].strip()
    if not unit:
        return float(number)
    if unit == "tpi":
        return 0.0254 / float(number)
    quantity = UNITS.Quantity(float(number), "percent" if unit == "%" else unit)
    if re.search(r"\b(rpm|rev|turn)\b", unit):
        return quantity.to("turn / second").magnitude
    return quantity.to_base_units().magnitude


def room(within, wanted: float) -> float:
    """Return the allowed difference: a quantity like the result, or a percentage of it."""
    if isinstance(within, str) and within.endswith("%"):
        return abs(wanted) * float(within[:-1]) / 100
    return float(si(within))


def differences(got, wanted, within, where="result") -> list[str]:
    """Return what differs, in words; nothing when all is as wanted."""
    if isinstance(wanted, list):
        assert len(got) == len(wanted), f"{where} has {len(got)} parts, not {len(wanted)}"
        pairs = enumerate(zip(got, wanted, strict=True))
        return [line for i, (a, b) in pairs for line in differences(a, b, within, f"{where}[{i}]")]
    if isinstance(wanted, bool | str) or wanted is None:
        return [] if got == wanted else [f"{where} is {got!r}, printed {wanted!r}"]
    assert isinstance(got, int | float) and math.isfinite(got), f"{where} is {got!r}"
    return [] if abs(got - wanted) <= room(within, wanted) else [f"{where} is {got!r}, printed {wanted!r} within {within}"]


def examples() -> list[dict]:
    """Return all examples of the files that are there, each with its file and its place in it."""
    found = []
    for name in FILES:
        path = HERE / name
        if path.exists():
            for place, example in enumerate(yaml.safe_load(path.read_text(encoding="utf-8")), 1):
                found.append({"id": f"{name}:{place}", **example})
    return found


def function(dotted: str):
    module, _, name = dotted.rpartition(".")
    return getattr(importlib.import_module(module), name)


EXAMPLES = examples()


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"{example['id']} {example['title']}")
def test_worked_example(example):
    got = function(example["function"])(**si(example["takes"]))
    if "part" in example:
        got = got[example["part"]]
    assert differences(got, si(example["gives"]), example["within"]) == []


def test_each_example_says_where_it_comes_from():
    for example in EXAMPLES:
        source = example["source"]
        assert example["mark"] in MARKS, example["id"]
        assert source["title"].strip() and set(ASIDE) <= set(source), example["id"]
    titles = [example["title"] for example in EXAMPLES]
    assert sorted(titles) == sorted(set(titles)), "two examples bear the same title"


def test_a_wrong_result_would_be_seen():
    assert differences(1.0, 1.02, "1 %") and not differences(1.0, 1.02, "2 %")
    assert differences(0.0254, si("1.1 in"), "0.09 in") and not differences(0.0254, si("1.1 in"), "0.11 in")
    assert differences("tight", "good", 0) and differences((1.0, 2.0), [1.0, 2.1], 0.05)
    assert si("60 rpm") == pytest.approx(1.0) and si("180 deg") == pytest.approx(math.pi)


def test_enough_examples_come_from_print():
    blade = [example for example in EXAMPLES if example["id"].startswith("worked_examples.yaml")]
    read = [example for example in blade if example["mark"].startswith("READ")]
    assert len(blade) >= 35 and len(read) >= 18


# --- No formula without a witness -------------------------------------------------------------------------------------


def public_formulas() -> set[str]:
    """Return the dotted names of all public functions below sawside.calc."""
    names = set()
    for info in pkgutil.iter_modules(sawside.calc.__path__):
        module = importlib.import_module(f"sawside.calc.{info.name}")
        for name, thing in inspect.getmembers(module, inspect.isfunction):
            if thing.__module__ == module.__name__ and not name.startswith("_"):
                names.add(f"{module.__name__}.{name}")
    return names


def witnesses() -> list:
    """Return the test modules that name oracles and exceptions."""
    others = [name for name in ("test_cutting_oracles",) if (HERE / f"{name}.py").exists()]
    return [test_blade_oracles, *(importlib.import_module(name) for name in others)]


def test_every_formula_has_an_example_an_oracle_or_a_reason():
    covered = {example["function"] for example in EXAMPLES}
    for module in witnesses():
        covered |= set(module.ORACLES) | set(module.NO_PUBLISHED_EXAMPLE)
    assert sorted(public_formulas() - covered) == []


def test_lists_name_formulas_that_exist():
    for module in witnesses():
        assert sorted((set(module.ORACLES) | set(module.NO_PUBLISHED_EXAMPLE)) - public_formulas()) == []


def test_lists_name_tests_that_exist():
    text = "\n".join(path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py"))
    for module in witnesses():
        named = set(module.ORACLES.values())
        named |= {reason.rsplit("; ", 1)[1] for reason in module.NO_PUBLISHED_EXAMPLE.values()}
        assert [name for name in sorted(named) if f"def {name}(" not in text] == []


def test_every_formula_says_what_it_takes_gives_and_rests_on():
    silent = []
    for dotted in sorted(public_formulas()):
        text = inspect.getdoc(function(dotted)) or ""
        parts = (">>>",) if dotted.startswith("sawside.calc.limits.") else (">>>", "Takes:", "Gives:", "Holds for:", "Source:")
        silent += [f"{dotted} has no {part}" for part in parts if part not in text]
    assert silent == []
