"""No dead weight: every public formula of `calc` reaches a page, a sheet or a worksheet, or stands in a list that only shrinks.

A formula is reached when it can be come to by calls from the families, the outputs, the selection or any other module of
the program outside `calc`. Those of the worksheets are named by their family, and each is called by the pages' scripts.
"""

import ast
import re
from pathlib import Path

import pytest

from sawside.families import FAMILIES

ROOT = Path(__file__).resolve().parents[1]
SOURCE = ROOT / "generator" / "sawside"
LIST = Path(__file__).with_name("unreached.txt")
SCRIPTS = ROOT / "site_templates" / "theme" / "assets"


def modules() -> dict[str, Path]:
    """Return every module of the program, dotted from `sawside.` on."""
    return {
        ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__"): path for path in SOURCE.rglob("*.py")
    }


def aliases(tree: ast.Module) -> dict[str, str]:
    """Return local name -> dotted name below `sawside` of everything a module imports from the program."""
    found = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "sawside":
            below = node.module.removeprefix("sawside").lstrip(".")
            found |= {alias.asname or alias.name: f"{below}.{alias.name}".lstrip(".") for alias in node.names}
    return found


def mentioned(node: ast.AST, known: dict[str, str]) -> set[str]:
    """Return the dotted names that a piece of code mentions: by name, or as an attribute of an imported module."""
    found = {known[part.id] for part in ast.walk(node) if isinstance(part, ast.Name) and part.id in known}
    for part in ast.walk(node):
        if isinstance(part, ast.Attribute) and isinstance(part.value, ast.Name) and part.value.id in known:
            found.add(f"{known[part.value.id]}.{part.attr}")
    return found


def code() -> tuple[set[str], dict[str, set[str]]]:
    """Return what is mentioned from outside `calc`, and for each top-level name of `calc` what it mentions there."""
    roots, inside = set(), {}
    for module, path in modules().items():
        tree = ast.parse(path.read_text(encoding="utf-8"))
        known = aliases(tree)
        if not module.startswith("calc"):
            roots |= mentioned(tree, known)
            continue
        own = {node.name for node in tree.body if isinstance(node, ast.FunctionDef | ast.ClassDef)}
        own |= {
            target.id
            for node in tree.body
            if isinstance(node, ast.Assign)
            for target in node.targets
            if isinstance(target, ast.Name)
        }
        own |= {node.target.id for node in tree.body if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name)}
        known |= {name: f"{module}.{name}" for name in own}
        for node in tree.body:
            names = (
                [node.name]
                if isinstance(node, ast.FunctionDef | ast.ClassDef)
                else [part.id for part in ast.walk(node) if isinstance(part, ast.Name) and isinstance(part.ctx, ast.Store)]
            )
            for name in names:
                inside.setdefault(f"{module}.{name}", set()).update(mentioned(node, known))
    return roots, inside


def formulas() -> set[str]:
    """Return every public function of `calc`."""
    found = set()
    for module, path in modules().items():
        if module.startswith("calc."):
            body = ast.parse(path.read_text(encoding="utf-8")).body
            found |= {
                f"{module}.{node.name}" for node in body if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
            }
    return found


def reach(roots: set[str], calls: dict[str, set[str]]) -> set[str]:
    """Return everything that can be come to from the roots."""
    reached, waiting = set(), list(roots)
    while waiting:
        name = waiting.pop()
        if name not in reached:
            reached.add(name)
            waiting += calls.get(name, ())
    return reached


def unreached() -> set[str]:
    roots, calls = code()
    return {name.removeprefix("calc.") for name in formulas() - reach(roots, calls)}


def listed() -> list[str]:
    lines = LIST.read_text(encoding="utf-8").splitlines()
    return [line for line in lines if line and not line.startswith("#")]


def test_nothing_new_is_unreached():
    assert sorted(unreached() - set(listed())) == [], "wire it, or leave it out: the list in unreached.txt only shrinks"


def test_what_is_reached_now_leaves_the_list():
    assert sorted(set(listed()) - unreached()) == [], "take these lines out of unreached.txt"


def test_worksheets_call_every_formula_they_are_given_and_no_other():
    scripts = "\n".join(
        path.read_text(encoding="utf-8") for path in (SCRIPTS / f"{name}.js" for name in ("sheets", "choose", "listen"))
    )
    called = set(re.findall(r"\bf\.([a-z_]+)\(", scripts))
    wanted = FAMILIES[0].shows.worksheets
    named = {one.__name__ for one in (*wanted.formulas, *wanted.choosing)} | {"rank"}
    assert called - named == set(), "name them in the family's WORKSHEETS"
    assert named - called == set(), "take them out of the family's WORKSHEETS"


def test_the_list_is_in_order_and_has_no_more_than_it_began_with():
    names = listed()
    most = int(re.search(r"^# at most (\d+)$", LIST.read_text(encoding="utf-8"), re.M)[1])
    assert names == sorted(set(names)) and len(names) <= most


@pytest.mark.parametrize("name", ["tension.slip_force", "strand.push_for_deflection", "decision.decide", "setting.stress_at_load",
                                  "testcut.turned_cut_limit", "strand.bending_part", "drift.drift_angle"])  # fmt: skip
def test_the_walk_finds_what_is_known_to_be_shown(name):
    """A value of the graph, a helper below one, what only a worksheet calls: none of them may count as dead."""
    assert f"calc.{name}" in formulas() and name not in unreached()


def test_the_walk_goes_by_calls_and_no_further():
    calls = {"a": {"b"}, "b": {"c", "a"}, "d": {"e"}, "e": {"d"}}
    assert reach({"a"}, calls) == {"a", "b", "c"}
    tree = ast.parse("from sawside.calc import x, y\nfrom sawside.calc.z import f as g\ng(x.one(2), key=y.two)")
    assert mentioned(tree, aliases(tree)) >= {"calc.x.one", "calc.y.two", "calc.z.f"}
    assert "calc.y.one" not in mentioned(tree, aliases(tree))
