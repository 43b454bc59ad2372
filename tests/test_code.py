"""The code keeps its own rules: docstrings with every part, short functions and modules, and documents that name everything."""

import ast
import inspect
import pkgutil
from importlib import import_module
from pathlib import Path

import pytest

import sawside.calc
from sawside.cli import main
from sawside.families import FAMILIES

ROOT = Path(__file__).resolve().parents[1]
SOURCE = ROOT / "generator" / "sawside"
MODULES = sorted(SOURCE.rglob("*.py"))
FORMULAS = [
    function
    for module in pkgutil.iter_modules(sawside.calc.__path__)
    for _, function in inspect.getmembers(import_module(f"sawside.calc.{module.name}"), inspect.isfunction)
    if function.__module__ == f"sawside.calc.{module.name}" and not function.__name__.startswith("_")
]
#: Not formulas: they refuse, or wrap one number in words.
HELPERS = {"require", "positive", "not_negative", "finite"}


def test_all_formulas_are_found():
    assert len(FORMULAS) > 150


@pytest.mark.parametrize("function", FORMULAS, ids=lambda f: f"{f.__module__.rpartition('.')[2]}.{f.__name__}")
def test_a_formula_says_what_it_takes_gives_holds_for_and_comes_from(function):
    if function.__name__ in HELPERS:
        return
    words = inspect.getdoc(function) or ""
    for part in ("Takes:", "Gives:", "Holds for:", "Source:", ">>>"):
        assert part in words, f"{function.__name__} does not say {part}"


def is_data(node: ast.stmt) -> bool:
    """Tell whether a statement of a module is a table or a type: it only grows with what there is to list."""
    if isinstance(node, ast.ClassDef):
        return all(isinstance(part, (ast.AnnAssign, ast.Expr)) for part in node.body)
    return isinstance(node, (ast.Assign, ast.AnnAssign))


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(SOURCE)))
def test_modules_and_functions_stay_short(path):
    text = path.read_text(encoding="utf-8")
    tree = ast.parse(text)
    data = sum(node.end_lineno - node.lineno for node in tree.body if is_data(node))
    assert len(text.splitlines()) - data <= (400 if path.parent.name == "calc" else 300)
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef):
            start = node.body[1].lineno if ast.get_docstring(node) and len(node.body) > 1 else node.lineno
            assert node.end_lineno - start < 40, f"{path.name}: {node.name} is too long"


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(SOURCE)))
def test_public_things_have_docstrings_and_lines_fit(path):
    text = path.read_text(encoding="utf-8")
    tree = ast.parse(text)
    assert ast.get_docstring(tree), f"{path.name} does not say what it is for"
    for node in tree.body:
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)) and not node.name.startswith("_"):
            assert ast.get_docstring(node), f"{path.name}: {node.name} has no docstring"
    for number, line in enumerate(text.splitlines(), 1):
        assert len(line) <= 132, f"{path.name}:{number} is {len(line)} characters wide"


def test_the_readme_names_every_command_and_the_two_make_targets():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    for name in main.commands:
        assert f"sawside {name}" in text, f"README.md does not mention sawside {name}"
    assert "make site" in text and "make test" in text


def test_the_developers_page_names_every_folder_and_stage():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for name in ("procedures", "site_templates", "calc", "families", "figures", "outputs", "schema", "units"):
        assert f"{name}" in text
    for recipe in ("machine", "blade", "procedure", "calculation", "field", "machine family", "output", "fault"):
        assert f"**Add a {recipe}.**" in text or f"**Add an {recipe}.**" in text or "Add a blade or a job" in text


def test_field_names_are_unique_and_measured_in_a_sentence():
    for family in FAMILIES:
        names = [field.name for field in family.machine + family.blade + family.job + family.assumptions]
        assert {name for name in names if names.count(name) > 1} <= {"id", "name"}
        for field in family.fields:
            assert field.measure.endswith((".", "?")), f"{field.name}: {field.measure}"
            assert field.label[0].isupper() or field.label[0].isdigit()
