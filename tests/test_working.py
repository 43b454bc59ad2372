"""The working of each number: the printed formula is the computed one, and the printed substitution comes out.

The MathML of the page is parsed back here, by a reader that shares nothing with its writer, into numbers with units; pint
works it out, units included, so that a formula whose units do not fit fails as well.
"""

import math
import random
import re
import xml.etree.ElementTree as ET

import pint
import pytest

from sawside import guide, values
from sawside.calc.limits import OutsideMethod
from sawside.families.wood_band_saw import FAMILY
from sawside.model import Missing, Value
from sawside.outputs import marks, mathml, working
from sawside.units.kinds import KINDS

UNITS = pint.UnitRegistry()
WITH_EQUATION = [spec for spec in FAMILY.values if spec.equation]
PLAIN = {
    **{name: getattr(math, name) for name in mathml.FUNCTIONS if hasattr(math, name)}, "min": min, "max": max, "abs": abs,
    "sqrt": math.sqrt, "pi": math.pi, "mm": lambda n: n / 1000, "MPa": lambda n: n * 1e6, "h": lambda n: n * 3600,
}  # fmt: skip


def evaluate(spec, arguments):
    """Work out a value's equation with plain Python and SI numbers."""
    return eval(spec.equation, {"__builtins__": {}}, {**PLAIN, **arguments})  # our own text


@pytest.fixture(scope="module")
def everything(shop):
    """Every demonstration machine with every blade, and every job with the fitted blade: ids -> Known."""
    found = {}
    for machine in shop.machines:
        for blade in shop.blades:
            found[machine.id, blade.id, ""] = guide.know(shop, machine, blade)
        for job in shop.jobs:
            known = found[machine.id, machine.get("fitted_blade"), ""]
            found[machine.id, machine.get("fitted_blade"), job.id] = guide.know_job(shop, known, job)
    return found


def arguments_of(spec, result):
    """Return the arguments a value was made from, by argument name."""
    return {argument: result.made_from.get(name) for argument, (name, _) in values.needs(spec).items()}


# --- (a) The printed formula is the computed one ----------------------------------------------------------------------


@pytest.mark.parametrize("spec", WITH_EQUATION, ids=lambda spec: spec.name)
def test_equation_equals_function_on_every_machine_and_blade(spec, everything):
    results = [known.results[spec.name] for known in everything.values() if spec.name in known.results]
    found = [result for result in results if isinstance(result, Value)]
    for result in found:
        assert evaluate(spec, arguments_of(spec, result)) == pytest.approx(result.value, rel=1e-11, abs=1e-12)
    assert found or spec.name in ("run_out_swing", "feed_by_power"), "no machine of the shop tries it"


#: Sizes that lie inside every method, by argument name or part of one [SI]; everything else between 0.5 and 2.
RANGES = {
    "wheel_diameter": (0.25, 1.0), "centre_distance": (0.6, 1.5), "blade_thickness": (0.4e-3, 1e-3), "youngs_modulus": (150e9, 250e9),
    "blade_width": (15e-3, 40e-3), "gullet": (0.0, 5e-3), "gullet_depth": (1e-3, 5e-3), "body_width": (5e-3, 30e-3),
    "blade_length": (2.0, 6.0), "loop_length": (2.0, 6.0), "stress": (50e6, 250e6), "force": (200.0, 3000.0),
    "steel_yield": (0.9e9, 2e9), "steel_strength": (1e9, 2.4e9), "density": (6000, 9000), "share": (0.0, 1.0),
    "free_span": (0.3, 1.2), "guide_span": (0.05, 0.5), "body_area": (2e-6, 2e-5), "spring_rate": (2e4, 3e5),
    "frame_stiffness": (5e5, 1e7), "pitch": (0.5e-3, 12e-3), "loop_rate": (1e4, 5e4), "power": (1000.0, 3000.0),
    "idle_power": (50.0, 500.0), "efficiency": (0.5, 1.0), "band_speed": (5.0, 30.0), "wave_speed": (60.0, 150.0),
    "expansion": (8e-6, 2e-5), "warming": (1.0, 100.0), "friction": (0.1, 0.6), "angle": (2.5, 3.6), "clearance": (5e-5, 3e-4),
    "side_guide_contact": (5e-3, 4e-2), "guide_yaw": (0.0, 0.05), "gap": (1e-4, 1e-3), "run_out": (0.0, 1e-3),
    "tolerance": (5e-4, 5e-3), "caliper_doubt": (5e-6, 1e-4), "height": (0.01, 0.3), "kerf": (0.8e-3, 3e-3), "mu": (0.02, 0.2),
    "mass_per_length": (0.02, 0.2), "ratio": (0.5, 2.0), "notch_factor": (1.0, 3.0), "factor": (0.5, 1.0), "reliability": (0.5, 1.0),
    "cutting_stress": (1e7, 1e8), "rubbing_force": (0.0, 1e3), "gullet_fill": (0.1, 0.8), "gullet_shape": (0.3, 0.9),
    "tooth_zone_share": (0.0, 1.0), "test_push": (1.0, 20.0), "push_distance": (1e-3, 10e-3), "gullet_line": (-5e-3, 2e-2), "tyre_width": (1e-2, 5e-2),
    "wheel_load_max": (500.0, 8000.0), "tip_stiffness": (1e3, 1e5), "endurance_limit": (3e8, 7e8), "buckling_load": (50.0, 500.0),
    "scale_mark_low": (0.0, 4.0), "scale_mark_high": (5.0, 12.0), "scale_load_low": (100.0, 1000.0), "scale_load_high": (1500.0, 6000.0),
    "edge_slack_floor": (10.0, 300.0), "coil_diameter": (0.15, 0.5),
}  # fmt: skip


def drawn(argument, dice):
    """Draw a size for an argument: the longest name in RANGES that the argument's name holds decides."""
    names = [name for name in RANGES if name in argument]
    low, high = RANGES[max(names, key=len)] if names else (0.5, 2.0)
    return dice.uniform(low, high)


@pytest.mark.parametrize("spec", WITH_EQUATION, ids=lambda spec: spec.name)
def test_equation_equals_function_on_random_inputs(spec):
    dice = random.Random(spec.name)
    tried = 0
    for _ in range(400):
        arguments = {a: "block" if a == "side_guides" else drawn(a, dice) for a in values.needs(spec)}
        try:
            wanted = spec.function(**arguments)
        except OutsideMethod:
            continue
        assert evaluate(spec, arguments) == pytest.approx(wanted, rel=1e-9, abs=1e-15), arguments
        tried += 1
        if tried == 40:
            break
    assert tried >= 20, "hardly any of the drawn inputs lies inside the method"


def test_a_changed_formula_would_be_seen():
    spec = next(s for s in WITH_EQUATION if s.name == "setting_stretch")
    arguments = {"gauge_length": 0.127, "target_stress": 100e6, "youngs_modulus": 205e9}
    assert evaluate(spec, arguments) == pytest.approx(spec.function(**arguments))
    assert evaluate(spec, {**arguments, "gauge_length": 0.128}) != pytest.approx(spec.function(**arguments))


# --- (b) The page's numbers, worked out again -------------------------------------------------------------------------

#: Unit as printed -> as pint reads it, where the two differ.
AS_PINT = {"": "", "°": "degree", "rpm": "1/minute", "turns": "", "%": "percent", "Hz": "1/second",
           "µm/m per K": "micrometer/meter/kelvin"}  # fmt: skip
_CALLS = {word: name for name, word in mathml.FUNCTIONS.items()}


class Number:
    """A printed number with its unit: its size, and half a step of its last printed digit."""

    def __init__(self, digits: str, unit: str = ""):
        text = AS_PINT.get(unit, unit.replace("²", "**2").replace("³", "**3"))
        places = re.sub(r"e.*", "", digits).partition(".")[2]
        power = float(digits.partition("e")[2] or 0)
        self.one = UNITS.Quantity(1.0, text or "dimensionless").to_base_units()
        self.size = float(digits)
        self.half_step = 0.5 * 10.0 ** (power - len(places)) if unit or "." in digits or power else 0.0


def read_math(text: str) -> tuple[str, dict[str, Number], Number]:
    """Return the left side of a printed substitution as a Python expression, its numbers by name, and its result."""
    numbers: dict[str, Number] = {}
    root = ET.fromstring(text)
    children = list(root)
    equals = max(i for i, child in enumerate(children) if child.tag == "mo" and child.text == "=")
    left = expression(children[:equals], numbers)
    result_name = expression(children[equals + 1 :], result := {})
    assert set(result) == {result_name.strip("-()")}, "the result is one number"
    number = next(iter(result.values()))
    number.size = -number.size if "-" in result_name else number.size
    return left, numbers, number


def expression(nodes, numbers) -> str:
    """Turn a row of MathML into Python; every number with its unit becomes a name in `numbers`."""
    out, i = "", 0
    while i < len(nodes):
        node = nodes[i]
        match node.tag:
            case "mn":
                digits, i = with_power(nodes, i)
                unit = ""
                if i + 2 < len(nodes) and nodes[i + 1].tag == "mspace":
                    unit, i = nodes[i + 2].text, i + 2
                name = f"q{len(numbers)}"
                numbers[name] = Number(digits, unit)
                out += name
            case "mi":
                out += "pi" if node.text == "π" else _CALLS[node.text]
            case "mo":
                out += {"−": "-", "⋅": "*", "+": "+", "(": "(", ")": ")", ",": ","}[node.text]
            case "mrow":
                out += expression(list(node), numbers)
            case "mfrac":
                out += "((" + ")/(".join(expression(list(part), numbers) for part in node) + "))"
            case "msup":
                base, power = (expression([part], numbers) for part in node)
                out += f"({base})**({power})"
            case "msqrt":
                out += f"sqrt({expression(list(node), numbers)})"
            case _:
                raise AssertionError(f"<{node.tag}> is not read")
        i += 1
    return out


def with_power(nodes, i) -> tuple[str, int]:
    """Return a number's digits with its power of ten, and where it ends."""
    if i + 2 < len(nodes) and nodes[i + 1].tag == "mo" and nodes[i + 1].text == "×":
        base, power = nodes[i + 2]
        assert base.text == "10"
        return f"{nodes[i].text}e{power.text}", i + 2
    return nodes[i].text, i


def worked(left: str, numbers: dict[str, Number], moved: str = "", by: float = 0.0):
    """Work out an expression with pint; `moved` names a number to move by so many of its half steps."""

    def dimensionless(function):
        return lambda q: function(UNITS.Quantity(q).to("dimensionless").magnitude)

    names = {name: number.one * (number.size + (by * number.half_step if name == moved else 0.0))
             for name, number in numbers.items()}  # fmt: skip
    functions = {name: dimensionless(getattr(math, name)) for name in ("sin", "cos", "tan", "asin", "acos", "atan", "tanh", "exp")}
    bare = {name: q.magnitude if q.dimensionless else q for name, q in names.items()}
    tools = {"sqrt": lambda q: q**0.5, "pi": math.pi, "min": min, "max": greatest}
    return eval(left, {"__builtins__": {}}, {**functions, **bare, **tools})  # read from our own page


def greatest(*sizes):
    """Return the greatest; a bare nothing takes the unit of what it is compared with."""
    most = max(sizes)
    return most if most is not sizes[0] or most != 0 else 0 * sizes[-1]


def check_substitution(text: str) -> None:
    """Work out the left side of a printed substitution and compare it with the printed result, as far as digits go."""
    left, numbers, result = read_math(text)
    got = UNITS.Quantity(worked(left, numbers))
    shown = result.one * result.size
    assert got.dimensionality == shown.dimensionality, f"units do not fit: {left}"
    room = result.half_step * result.one.magnitude + 1e-9 * abs(shown.magnitude)
    for name in numbers:
        moved = UNITS.Quantity(worked(left, numbers, name, 1.0))
        room += abs(moved.to_base_units().magnitude - got.to_base_units().magnitude)
    assert abs(got.to_base_units().magnitude - shown.magnitude) <= room, f"{left} gives {got}, printed {shown}"


@pytest.mark.parametrize("spec", WITH_EQUATION, ids=lambda spec: spec.name)
def test_printed_substitution_comes_out(spec, shop, everything):
    printer = guide.printer(shop)
    symbols = working.symbols_of(shop.family)
    tried = 0
    for (machine, blade, _), known in everything.items():
        fitted = shop.blade(blade) and next(m for m in shop.machines if m.id == machine).get("fitted_blade") == blade
        if (fitted or not tried) and isinstance(known.results.get(spec.name), Value):
            check_substitution(working.section(spec, known, printer, symbols)["numbers"])
            tried += 1
    assert tried or spec.name in ("run_out_swing", "feed_by_power")


def test_values_no_demonstration_machine_has_come_out_too(shop):
    known = trued(shop)
    for name in ("run_out_swing", "feed_by_power"):
        spec = next(s for s in FAMILY.values if s.name == name)
        assert isinstance(known.results[name], Value)
        check_substitution(working.section(spec, known, guide.printer(shop), working.symbols_of(FAMILY))["numbers"])
        assert evaluate(spec, arguments_of(spec, known.results[name])) == pytest.approx(known.results[name].value, rel=1e-12)


def trued(shop):
    """The big saw with run-out and idle power measured, in a wood whose constants were found by timed cuts."""
    machine = next(m for m in shop.machines if m.id == "block-450")
    known = guide.know(shop, machine, shop.blade(machine.get("fitted_blade")))
    extra = {"radial_run_out": 0.15e-3, "idle_power": 200.0, "cutting_stress": 4e7, "rubbing_force": 1200.0}
    fields = {f.name: f for f in FAMILY.fields}
    entries = {n: guide.Entry(fields[n], v, None, "measured", "", guide.At("")) for n, v in extra.items()}
    job = next(j for j in shop.jobs if j.id == "resaw-oak")
    found = {**known.entries, **entries, **{n: e for n, e in job.entries.items() if n not in ("id", "name")}}
    given = {n: values.Given(e.value, e.plus_minus, e.status) for n, e in found.items()}
    return guide.Known(FAMILY, found, values.resolve(FAMILY.ordered, given))


def test_a_wrong_digit_on_the_page_would_be_seen():
    good = mathml.put_in("a * b", {"a": ("10", "mm"), "b": ("0.65", "mm")}, ("6.5", "mm²"))
    check_substitution(good)
    for wrong in (good.replace("0.65", "0.75"), good.replace("6.5", "7.5"), good.replace("mm²", "mm"), good.replace("⋅", "+")):
        if wrong != good:
            with pytest.raises((AssertionError, pint.DimensionalityError)):
                check_substitution(wrong)


def test_powers_of_quantities_and_negative_numbers_are_bracketed():
    squared = mathml.put_in("a**2", {"a": ("3", "mm")}, ("9", "mm²"))
    assert "<mo>(</mo><mrow><mn>3</mn>" in squared
    check_substitution(squared)
    check_substitution(mathml.put_in("a - b", {"a": ("3", "mm"), "b": ("-2", "mm")}, ("5", "mm")))
    check_substitution(mathml.put_in("(a / b)**2", {"a": ("3", "mm"), "b": ("2", "mm")}, ("2.25", "")))
    check_substitution(mathml.put_in("-a * b", {"a": ("3", "mm"), "b": ("2", "")}, ("-6", "mm")))
    check_substitution(mathml.put_in("a + b", {"a": ("2.5e-07", "m"), "b": ("1e-7", "m")}, ("0.35", "µm")))


# --- (c) Nothing without a symbol, words and a mark -------------------------------------------------------------------


@pytest.mark.parametrize("spec", FAMILY.values, ids=lambda spec: spec.name)
def test_every_value_has_symbol_words_and_marks(spec):
    words = working.parts_of(spec.function)
    assert words["About"] and words.get("Holds for") and words.get("Source")
    assert spec.symbol or spec.kind == "word", "a number needs a symbol"
    if not spec.equation and words.get("Equation") != "none":
        assert len(working.in_words(spec)) > 10
    found = working.all_sources(FAMILY)[spec.name]
    assert found and {part["mark"] for part in found} <= set(marks.MARKS) and all(part["text"] for part in found)


def test_marks_of_known_sources():
    # The marks that a person gave these statements by reading them.
    for text, mark in (
        ("derived (common tangent of two circles)", "derived"), ("common practice, no source (one of two schools)", "practice"),
        ("the factors are common practice, no source", "practice"), ("Shigley, from memory", "memory"),
        ("Encyclopaedia Britannica, 11th ed., Mechanics, sec. 59, eq. 32B, READ", "published"),
        ("beam theory, textbook knowledge", "memory"), ("the factor 1.25 is Sawside's own choice", "assumed"),
        ("Hooke's law", "derived"), ("friction of 0.3 is assumed", "assumed"), ("a friend said so", None),
    ):  # fmt: skip
        assert marks.mark_of(text) == mark


def test_a_table_row_gives_the_mark_of_the_row_that_was_used(everything):
    for (_, blade, _), known in everything.items():
        result = known.results["published_stress"]
        if isinstance(result, Missing):
            continue
        found = marks.marked(result.spec.function, working.parts_of(result.spec.function)["Source"], result.made_from)
        back = result.made_from["blade_back"]
        assert found[0].mark == ("memory" if back == "carbon_hard_back" else "published"), blade


def test_inputs_of_equations_have_letters():
    computed = {spec.name for spec in FAMILY.values}
    used = {values.needs(s)[a][0] for s in WITH_EQUATION for a in mathml.names(s.equation)}
    assert sorted(used - computed - set(working.LETTERS)) == []


def test_symbols_are_greek_where_spelled_so():
    formulas = working.all_formulas(FAMILY)
    assert "<msub><mi>σ</mi>" in formulas["bending_stress"] and "sigma" not in "".join(formulas.values())
    for text in formulas.values():
        if text:
            ET.fromstring(text)


def test_every_kind_can_be_put_into_a_formula():
    from sawside.units.plain import plain

    for spec in FAMILY.values:
        assert spec.kind in KINDS
        if spec.kind != "word":
            digits, _ = plain(1.234567e-3, spec.kind)
            assert float(digits) > 0


# --- Outside the method -----------------------------------------------------------------------------------------------


def test_outside_the_method_is_said_in_words(shop, everything):
    printer = guide.printer(shop)
    rollers = everything["lever-350", "b13-3", ""].item("guide_yaw", printer)
    assert (rollers.status, rollers.text) == ("outside", "outside the method") and "roller" in rollers.note
    wide = everything["block-450", "c25-2", ""]
    assert wide.item("buckling_load", printer).status == wide.item("feed_limit", printer).status == "outside"
    section = working.section(wide.results["buckling_load"].spec, wide, printer, working.symbols_of(FAMILY))
    assert section["numbers"] == "" and "at least" in section["item"]["note"] and section["doubt"] == ""
    assert isinstance(everything["block-450", "b6-6", ""].results["buckling_load"], Value)


def test_feeds_by_power_stay_away_without_constants_of_the_wood(everything):
    assert not any("feed_by_power" in known.results or "feed_governed_by" in known.results for known in everything.values())


# --- The words are for readers, not for programmers -------------------------------------------------------------------


def test_what_a_value_is_is_said_as_a_thing_and_without_names_of_the_code():
    for name, parts in working.all_words(FAMILY).items():
        first = parts["About"].split()[0]
        assert first not in ("Return", "Say", "Give", "Compute", "Work", "Find", "Raise"), f"{name}: {parts['About']}"
        assert "_" not in parts["About"] and parts["About"][0].isupper(), f"{name}: {parts['About']}"
