"""The value graph: wiring by argument name, circles and gaps refused, unknown inputs waited for, doubt carried."""

import math

import pytest
import uncertainties
from uncertainties import umath

from sawside import values
from sawside.calc.limits import OutsideMethod, positive
from sawside.families import FAMILIES
from sawside.model import Missing, ValueSpec
from sawside.values import BrokenGraph, Given


def spec(name, function, **more):
    return ValueSpec(name, name, function, "ratio", **more)


def area(width, thickness):
    return width * thickness


def force(area, stress):
    return area * stress


GRAPH = (spec("force", force), spec("area", area))
INPUTS = ("width", "thickness", "stress")


def resolve(specs, **given):
    ordered = values.order(specs, given)
    return values.resolve(ordered, {k: v if isinstance(v, Given) else Given(v) for k, v in given.items()})


def test_order_puts_a_value_after_its_needs():
    assert [s.name for s in values.order(GRAPH, INPUTS)] == ["area", "force"]


def test_a_circle_is_refused_with_its_path():
    circle = (spec("a", lambda b: b), spec("b", lambda a: a))
    with pytest.raises(BrokenGraph, match="a circle of values: a -> b -> a"):
        values.order(circle, ())


def test_a_gap_is_refused():
    with pytest.raises(BrokenGraph, match="force needs stress, which nothing provides"):
        values.order(GRAPH, ("width", "thickness"))


def test_the_same_name_twice_is_refused():
    with pytest.raises(BrokenGraph, match="twice"):
        values.order((*GRAPH, spec("area", area)), INPUTS)


def test_values_are_computed_and_say_what_they_were_made_from():
    found = resolve(GRAPH, width=0.01, thickness=0.65e-3, stress=1e8)
    assert found["force"].value == pytest.approx(650.0)
    assert found["force"].made_from == {"area": pytest.approx(6.5e-6), "stress": 1e8}


def test_unknown_is_waited_for_through_the_graph():
    found = resolve(GRAPH, width=0.01, thickness=values.unknown(), stress=1e8)
    assert isinstance(found["force"], Missing) and found["force"].waits_for == ("thickness",)
    assert values.waiting(found) == {"thickness": ["area", "force"]}


def test_outside_the_method_is_not_a_number_anywhere_above():
    def strict(width, thickness):
        positive(width=width)
        return width * thickness

    found = resolve((spec("area", strict), GRAPH[0]), width=-1.0, thickness=1.0, stress=1.0)
    assert "width is -1" in found["area"].outside
    assert isinstance(found["force"], Missing) and "width is -1" in found["force"].outside


def test_an_optional_argument_gets_none_when_unknown():
    found = resolve((spec("kerf_used", lambda width, kerf=None: kerf or width),), width=2.0, kerf=values.unknown())
    assert found["kerf_used"].value == 2.0


def test_doubt_equals_the_uncertainties_library_where_an_input_arrives_twice():
    # Oracle: the Python package `uncertainties` (first-order propagation with correlations).
    def root(area, width):
        return math.sqrt(area) * math.sin(width)

    graph = (*GRAPH, spec("root", root))
    found = resolve(graph, width=Given(0.7, 0.02), thickness=Given(0.3, 0.01), stress=Given(5.0, 0.4))
    w, t = uncertainties.ufloat(0.7, 0.02), uncertainties.ufloat(0.3, 0.01)
    s = uncertainties.ufloat(5.0, 0.4)
    assert found["force"].plus_minus == pytest.approx((w * t * s).std_dev, rel=1e-4)
    assert found["root"].plus_minus == pytest.approx((umath.sqrt(w * t) * umath.sin(w)).std_dev, rel=1e-4)


def test_doubt_at_the_edge_of_a_method_is_taken_from_inside():
    def inside(width):
        if width > 1.0:
            raise OutsideMethod("width", width, "at most 1")
        return 3 * width

    assert resolve((spec("v", inside),), width=Given(1.0, 0.1))["v"].plus_minus == pytest.approx(0.3)


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.key)
def test_a_familys_values_have_no_circle_and_no_gap(family):
    ordered = values.order(family.values, {field.name for field in family.fields})
    assert {s.name for s in ordered} == {s.name for s in family.values}
