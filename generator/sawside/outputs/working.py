"""How each number was found: its formula in symbols, this machine's numbers put in, its limits and where it comes from.

The words come from the formula's own docstring, so that what a programmer reads and what a student reads cannot differ.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import asdict
from functools import cache
from typing import Any, cast

from sawside import values
from sawside.families.family import Family
from sawside.guide import Known
from sawside.kinds.view_types import Input, Section, Statement
from sawside.kinds.view_words import ItemData
from sawside.library import Library
from sawside.model import ASSUMED, Missing, Value, ValueSpec
from sawside.outputs import doubt, marks, mathml
from sawside.printing import Printer
from sawside.units.plain import plain

_PARTS = ("Equation", "Takes", "Gives", "Holds for", "Source")
_PART = re.compile(r"\b(" + "|".join(_PARTS) + r"):\s+", re.DOTALL)


@cache
def parts_of(function: Callable[..., Any]) -> dict[str, str]:
    """Return what a formula's docstring says, by part; `About` names what it gives, in the words of its first sentence.

    >>> from sawside.calc import band
    >>> parts_of(band.thickness_ratio)["About"]
    'Wheel diameter over blade thickness.'
    >>> parts_of(band.body_area)["Source"][:7]
    'derived'
    """
    text = marks.document(function)
    text = text.split(">>>")[0]
    about, _, rest = text.partition("\n\n")
    found = {"About": _named(_tidy(about))}
    pieces = _PART.split(rest)
    for name, words in zip(pieces[1::2], pieces[2::2], strict=True):
        found[name] = _tidy(words)
    if "Equation" not in found and pieces[0].strip():
        found["Equation"] = _tidy(pieces[0])
    return found


def _named(sentence: str) -> str:
    """Return the thing a docstring says its function returns: `Return` is for programmers, what follows it is the thing.

    >>> _named("Return how fast the blade runs.")
    'How fast the blade runs.'
    """
    thing = sentence.removeprefix("Return ")
    return thing[:1].upper() + thing[1:]


def _tidy(words: str) -> str:
    return " ".join(words.replace("`", "").split())


def sections(library: Library, known: Known, printer: Printer) -> list[Section]:
    """Return one section for each value of a machine with its fitted blade, in the order they are found."""
    symbols = symbols_of(library.family)
    return [section(spec, known, printer, symbols) for spec in library.family.ordered if spec.name in known.results]


def symbols_of(family: Family) -> dict[str, str]:
    """Return the symbol of every value that has one."""
    return {spec.name: spec.symbol for spec in family.values if spec.symbol}


def all_words(family: Family) -> dict[str, dict[str, str]]:
    """Return what every value's formula says, by value name."""
    return {spec.name: parts_of(spec.function) for spec in family.values}


def all_sources(family: Family) -> dict[str, list[Statement]]:
    """Return the statements of where every value comes from, each with its mark, by value name."""
    return {spec.name: statements(spec.function) for spec in family.values}


def statements(function: Callable[..., Any], made_from: Mapping[str, object] | None = None) -> list[Statement]:
    """Return the statements of where a formula comes from, as plain data."""
    found = marks.marked(function, parts_of(function).get("Source", ""), made_from)
    return [{"mark": one.mark, "text": one.text, "second_hand": one.second_hand} for one in found]


def all_formulas(family: Family) -> dict[str, str]:
    """Return every value's formula in symbols as MathML, by value name."""
    symbols = symbols_of(family)
    return {spec.name: _formula(spec, values.needs(spec), symbols) for spec in family.values}


def section(spec: ValueSpec, known: Known, printer: Printer, symbols: dict[str, str]) -> Section:
    """Return one value's section: words, formula and numbers as MathML, and its inputs with their standing."""
    result = known.results[spec.name]
    words = parts_of(spec.function)
    item = known.item(spec.name, printer)
    needed = values.needs(spec)
    made_from = result.made_from if isinstance(result, Value) else {}
    return {
        "name": spec.name,
        "label": spec.title,
        "group": spec.group,
        "symbol": mathml.written(spec.symbol),
        "item": cast(ItemData, asdict(item)),
        "about": words["About"],
        "holds": words.get("Holds for", ""),
        "source": words.get("Source", ""),
        "sources": statements(spec.function, made_from),
        "formula": _formula(spec, needed, symbols),
        "in_words": in_words(spec),
        "numbers": _numbers(spec, result, needed, known),
        "inputs": [_input(name, known, printer) for name, _ in needed.values() if known.value(name) is not None],
        "doubt": doubt.words(result, printer),
    }


def in_words(spec: ValueSpec) -> str:
    """Return how a value without a closed equation is found, in the words of its docstring; empty for the others."""
    words = parts_of(spec.function)
    return "" if spec.equation or words.get("Equation") == "none" else words.get("Equation") or words["About"]


def _formula(spec: ValueSpec, needed: dict[str, Any], symbols: dict[str, str]) -> str:
    if not spec.equation:
        return ""
    letters = {a: symbols.get(name) or letter(name) for a, (name, _) in needed.items()}
    return mathml.equation(spec.symbol, spec.equation, letters)


#: Symbols of measured and assumed inputs, as the trade and textbooks write them.
LETTERS = {
    "wheel_diameter_upper": "D_1",
    "wheel_diameter_lower": "D_2",
    "centre_distance": "C",
    "centre_distance_min": "C_min",
    "centre_distance_max": "C_max",
    "blade_thickness": "t",
    "blade_width": "w",
    "blade_length": "L_blade",
    "rated_blade_length": "L_rated",
    "wheel_speed": "n",
    "tooth_pitch": "p",
    "youngs_modulus": "E",
    "steel_density": "rho",
    "tooth_zone_share": "phi",
    "gauge_length": "l",
    "tyre_width": "B",
    "wheel_load_max": "Q_max",
    "thrust_gap": "e",
    "guide_extra_margin": "m_0",
    "loop_slack": "s_L",
    "usual_work_height": "h",
    "guide_post_gap": "a",
    "lower_guide_below_table": "c_l",
    "steel_yield": "sigma_y",
    "gullet_depth": "g_0",
    "kerf": "k_f",
    "test_push": "P",
    "push_distance": "d_p",
    "pull_out_ratio": "r_m",
    "steel_strength": "R_m",
    "notch_factor": "K_f",
    "reliability_factor": "k_e",
    "steel_expansion": "alpha",
    "scale_mark_low": "m_1",
    "scale_mark_high": "m_2",
    "scale_load_low": "Q_1",
    "scale_load_high": "Q_2",
    "blade_warming": "DeltaT",
    "tension_spring_rate": "k_t",
    "frame_stiffness": "k_F",
    "tension_screw_pitch": "P_s",
    "radial_run_out": "T",
    "motor_power": "P_m",
    "idle_power": "P_0",
    "drive_efficiency": "eta",
    "tyre_friction": "mu_t",
    "side_clearance": "s_g",
    "side_guide_contact": "a_g",
    "caliper_doubt": "u",
    "square_tolerance": "tau",
    "table_stop_arm": "a_b",
    "table_stop_pitch": "P_b",
    "fence_length": "l_f",
    "work_height_min": "h_min",
    "work_height_max": "h_max",
    "teeth_least": "z_least",
    "teeth_most": "z_most",
    "gullet_fill": "G",
    "gullet_shape": "kappa",
    "cutting_stress": "K_c",
    "rubbing_force": "F_0",
}


def letter(name: str) -> str:
    """Return the symbol of an input: its letter where it has one, else its name."""
    return LETTERS.get(name, name)


def _numbers(spec: ValueSpec, result: Value | Missing, needed: dict[str, Any], known: Known) -> str:
    if not spec.equation or isinstance(result, Missing):
        return ""
    kinds = {argument: kind_of(name, known) for argument, (name, _) in needed.items()}
    put = {a: plain(known.value(needed[a][0]), kinds[a]) for a in mathml.names(spec.equation)}
    return mathml.put_in(spec.equation, put, plain(result.value, spec.kind))


def kind_of(name: str, known: Known) -> str:
    """Return the print kind of a field or value."""
    if name in known.results:
        return known.results[name].spec.kind
    return known.entries[name].field.kind


def _input(name: str, known: Known, printer: Printer) -> Input:
    item = known.item(name, printer)
    assumed = name in known.entries and known.entries[name].status == ASSUMED
    return {"name": name, "item": cast(ItemData, asdict(item)), "computed": name in known.results, "assumed": assumed}
