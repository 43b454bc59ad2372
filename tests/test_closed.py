"""The equation of a formula is read from the formula: what is closed is shown as it is computed, and nothing else is."""

import ast
import math

import pytest

import script_cases
from sawside.families.wood_band_saw import FAMILY
from sawside.families.wood_band_saw.values_cut import CUT
from sawside.families.wood_band_saw.values_running import RUNNING
from sawside.families.wood_band_saw.values_saw import SAW
from sawside.outputs import mathml
from sawside.script import closed

WRITTEN = {spec.name: spec for spec in SAW + CUT + RUNNING if spec.equation}
READ = {spec.name: spec for spec in FAMILY.values if spec.equation and spec.name not in WRITTEN}
WORDS = {name: getattr(math, name) for name in closed.FUNCTIONS if hasattr(math, name)} | {
    "min": min,
    "max": max,
    "abs": abs,
    "pi": math.pi,
}


def same(one: str, other: str) -> bool:
    return ast.dump(ast.parse(one, mode="eval")) == ast.dump(ast.parse(other, mode="eval"))


def test_most_equations_are_read_from_their_formula():
    assert len(READ) > 55 > 35 > len(WRITTEN)


@pytest.mark.parametrize("name", WRITTEN)
def test_no_equation_is_written_where_the_formula_says_the_same(name):
    assert not same(WRITTEN[name].equation, closed.expression(WRITTEN[name].function) or "0"), "take it out"


def test_an_equation_holds_nothing_that_cannot_be_shown():
    assert set(mathml.FUNCTIONS) | {"sqrt"} >= closed.FUNCTIONS
    for spec in READ.values():
        assert mathml.equation(spec.symbol, spec.equation, {}).startswith("<math"), spec.name
        assert not mathml.names(spec.equation) - set(spec.function.__code__.co_varnames), "arguments only"


def test_what_decides_or_repeats_is_not_closed():
    names = [name for name in vars(script_cases) if name.startswith(("good_", "bad_"))]
    assert [name for name in names if closed.expression(getattr(script_cases, name))] == []


def outer(width: float, height: float) -> float:
    """Names along the way, a call with a named argument, and one left out."""
    half = width / 2
    return scaled(half, by=height) + math.sqrt(width) * math.pi


def scaled(size: float, by: float = 1.0, again: float = 2.0) -> float:
    """Called above."""
    return size * by * again


def test_what_is_called_and_named_is_put_in():
    found = closed.expression(outer)
    assert same(found, "width / 2 * height * 2 + sqrt(width) * pi")
    assert eval(found, {"__builtins__": {}}, WORDS | {"width": 9.0, "height": 0.5}) == outer(9.0, 0.5)  # our own text
