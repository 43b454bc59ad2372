"""Are the tests of the formulas any good? Change one sign, comparison or number of `calc/` at a time and see who notices.

    python tests/mutation/run.py --sample 200 --seed 1
    python tests/mutation/run.py --modules band strand --all

A changed copy lives in memory only: it is given to Python in place of the module, and the tests that are about that
module run on it, quick ones first, until one fails. A change that no test notices is a survivor and is listed with its line.
A run that takes longer than the limit counts as noticed. All of it happens on a copy of the project, so that nobody who
works on it meanwhile is mistaken for a test that noticed something. A process of its own is made for each change; where the system can
fork, from one that has read the large libraries already.
"""

import argparse
import ast
import contextlib
import importlib
import importlib.abc
import importlib.util
import io
import multiprocessing
import os
import random
import shutil
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CALC = ROOT / "generator" / "sawside" / "calc"
#: Read before the first fork, so that each run does not read them again.
LARGE = ("numpy", "scipy.optimize", "scipy.integrate", "scipy.interpolate", "scipy.linalg", "scipy.stats", "scipy.special", "hypothesis",
         "shapely.geometry", "skfem", "uncertainties.umath", "GTC", "pint", "yaml", "pytest")  # fmt: skip
BLADE = (
    "band",
    "bending",
    "fatigue",
    "geometry",
    "guides",
    "solve",
    "stiffness",
    "strand",
    "tension",
    "vibration",
    "wheels",
    "limits",
)
#: Tests in the order they are tried; `{module}` is the changed file, for the examples in its docstrings.
FIRST = ("{module}", "tests/test_worked_examples.py")
SECOND = {
    True: ("tests/test_blade_properties.py", "tests/test_wrong_formulas.py", "tests/test_edges.py",
           "tests/test_working.py::test_equation_equals_function_on_random_inputs"),
    False: ("tests/test_choice.py", "tests/test_metrology_oracles.py", "tests/test_cutting_oracles.py", "tests/test_wrong_formulas.py",
            "tests/test_edges.py", "tests/test_tables_again.py"),
}  # fmt: skip
LAST = {True: ("tests/test_blade_oracles.py",), False: ()}
STOP_AFTER = {"first": 120, "second": 240, "last": 400}

SIGNS = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult, ast.FloorDiv: ast.Div,
         ast.Mod: ast.Mult}  # fmt: skip
ORDERS = {ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
          ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is}  # fmt: skip
#: Changed only where the module knows the other name too, or every use of it would fail by itself.
NAMES = {"min": "max", "max": "min", "sin": "cos", "cos": "sin", "asin": "acos", "acos": "asin", "atan": "tanh", "tanh": "atan",
         "floor": "ceil", "ceil": "floor", "sqrt": "exp", "positive": "not_negative", "not_negative": "positive"}  # fmt: skip


def work_in(root: Path) -> None:
    """Let everything happen in one folder: the copy of the project."""
    global ROOT, CALC
    ROOT, CALC = root, root / "generator" / "sawside" / "calc"


@dataclass(frozen=True)
class Change:
    """One change: where it is, what it is, and the number of the node in its module."""

    module: str
    line: int
    number: int
    what: str

    @property
    def name(self) -> str:
        """Return file, line and change as people read it."""
        return f"{self.module}.py:{self.line}: {self.what}"


def changed(node: ast.AST) -> tuple[ast.AST, str] | None:
    """Return a node changed in the one way that its kind is, with words; None for nodes that are left alone."""
    match node:
        case ast.BinOp(op=op) if type(op) in SIGNS:
            new = SIGNS[type(op)]
            return ast.BinOp(node.left, new(), node.right), f"{type(op).__name__} -> {new.__name__}"
        case ast.Compare(ops=[first, *rest]) if type(first) in ORDERS:
            new = ORDERS[type(first)]
            return ast.Compare(node.left, [new(), *rest], node.comparators), f"{type(first).__name__} -> {new.__name__}"
        case ast.BoolOp(op=op):
            new = ast.Or if isinstance(op, ast.And) else ast.And
            return ast.BoolOp(new(), node.values), f"{type(op).__name__} -> {new.__name__}"
        case ast.UnaryOp(op=ast.USub() | ast.Not()):
            return node.operand, f"{type(node.op).__name__} left out"
        case ast.Constant(value=bool()):
            return ast.Constant(not node.value), f"{node.value} -> {not node.value}"
        case ast.Constant(value=int() | float()):
            new = node.value + 1 if isinstance(node.value, int) else node.value * 1.25 or 1.0
            return ast.Constant(new), f"{node.value} -> {new:g}"
        case ast.Name(id=name) | ast.Attribute(attr=name) if name in NAMES and isinstance(node.ctx, ast.Load):
            new = NAMES[name]
            made = ast.Name(new, node.ctx) if isinstance(node, ast.Name) else ast.Attribute(node.value, new, node.ctx)
            return made, f"{name} -> {new}"
    return None


class Changer(ast.NodeTransformer):
    """Walks a module in a fixed order and numbers every node that can be changed; changes the one that is wanted."""

    def __init__(self, wanted: int = -1, known: frozenset[str] = frozenset()):
        self.wanted, self.known, self.count, self.found = wanted, known, -1, []

    def visit(self, node: ast.AST) -> ast.AST:
        """Number this node, and return it changed when it is the wanted one; words for people are never changed."""
        if isinstance(node, ast.JoinedStr) or is_words(node):
            return node
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.AnnAssign):
            return self.without_annotations(node)
        made = changed(node)
        if made and isinstance(made[0], ast.Name) and made[0].id not in self.known:
            made = None
        if made:
            self.count += 1
            self.found.append((self.count, node.lineno, made[1]))
            if self.count == self.wanted:
                return ast.copy_location(made[0], node)
        return self.generic_visit(node)

    def without_annotations(self, node: ast.AST) -> ast.AST:
        """Walk a function's body and defaults, or an assignment's value, but not the types written beside the names."""
        if isinstance(node, ast.AnnAssign):
            node.value = self.visit(node.value) if node.value else None
            return node
        node.args.defaults = [self.visit(default) for default in node.args.defaults]
        node.body = [self.visit(line) for line in node.body]
        return node


def is_words(node: ast.AST) -> bool:
    """Tell whether a node is text alone, as docstrings are."""
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def parsed(module: str, wanted: int = -1) -> tuple[ast.AST, Changer]:
    """Return a module's tree, changed at the wanted node, and the walker that went through it."""
    tree = ast.parse((CALC / f"{module}.py").read_text(encoding="utf-8"))
    imported = {alias.name for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) for alias in node.names}
    walker = Changer(wanted, frozenset(imported | {"min", "max"}))
    return walker.visit(tree), walker


def changes(module: str) -> list[Change]:
    """Return every change of one module."""
    _, walker = parsed(module)
    return [Change(module, line, number, what) for number, line, what in walker.found]


class Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives Python the changed module in place of the one in the file."""

    def __init__(self, change: Change):
        self.change, self.name = change, f"sawside.calc.{change.module}"

    def find_spec(self, name, path=None, target=None):
        """Claim the one module."""
        if name != self.name:
            return None
        return importlib.util.spec_from_loader(name, self, origin=str(CALC / f"{self.change.module}.py"))

    def create_module(self, spec):
        """Leave making the module to Python."""
        return

    def exec_module(self, module):
        """Run the changed source."""
        path = CALC / f"{self.change.module}.py"
        tree, _ = parsed(self.change.module, self.change.number)
        module.__file__ = str(path)
        exec(compile(ast.fix_missing_locations(tree), str(path), "exec"), module.__dict__)  # our own source


def child(root: Path, change: Change | None, tests: tuple[str, ...], answer) -> None:
    """Run the tests on a change, in a process of their own; answer pytest's exit code."""
    import pytest

    work_in(root)
    sys.path.insert(0, str(root / "generator"))
    os.chdir(root)
    if change:
        sys.meta_path.insert(0, Changed(change))
        # Now, because pytest puts a loader of its own before ours and would read the file.
        with contextlib.suppress(Exception):
            importlib.import_module(f"sawside.calc.{change.module}")
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        code = pytest.main([*tests, "-x", "-q", "--no-header", "--tb=no"])
    answer.put(int(code))


def run(change: Change | None, tests: tuple[str, ...], limit: float) -> str:
    """Return `passed`, `failed` or `too long` for one run of tests."""
    context = multiprocessing.get_context("fork" if hasattr(os, "fork") else "spawn")
    answer = context.Queue()
    process = context.Process(target=child, args=(ROOT, change, tests, answer))
    process.start()
    process.join(limit)
    if process.is_alive():
        process.kill()
        process.join()
        return "too long"
    code = answer.get(timeout=5) if process.exitcode == 0 else 1
    return "passed" if code == 0 else "failed"


def stages(module: str) -> list[tuple[str, tuple[str, ...]]]:
    """Return the tests that are about a module, by stage, as far as they are there."""
    here = (CALC / f"{module}.py").relative_to(ROOT).as_posix()
    blade = module in BLADE
    found = []
    for stage, tests in (("first", FIRST), ("second", SECOND[blade]), ("last", LAST[blade])):
        there = tuple(name.format(module=here) for name in tests)
        found.append((stage, tuple(name for name in there if (ROOT / name.partition("::")[0]).exists())))
    return [(stage, tests) for stage, tests in found if tests]


def fate(change: Change) -> tuple[str, str]:
    """Return what became of a change, `noticed` or `survived`, and by what it was noticed."""
    for stage, tests in stages(change.module):
        outcome = run(change, tests, STOP_AFTER[stage])
        if outcome != "passed":
            return "noticed", f"{stage} tests: {outcome}"
    return "survived", ""


def broken(modules: list[str]) -> str:
    """Return what fails on the unchanged formulas, in words: a run on broken tests would notice everything."""
    tried = set()
    for module in modules:
        for stage, tests in stages(module):
            if tests not in tried and run(None, tests, STOP_AFTER[stage]) != "passed":
                return f"the {stage} tests fail on the unchanged {module}.py"
            tried.add(tests)
    return ""


def wanted(arguments: argparse.Namespace) -> list[Change]:
    """Return the changes to try: all of the named modules, or a sample of them drawn with the seed."""
    every = [change for module in arguments.modules for change in changes(module)]
    if arguments.at:
        return [change for change in every if f"{change.module}:{change.line}" in arguments.at]
    if arguments.all or arguments.sample >= len(every):
        return every
    return sorted(random.Random(arguments.seed).sample(every, arguments.sample), key=lambda c: (c.module, c.line, c.number))


def options(given: list[str] | None = None) -> argparse.Namespace:
    """Return what was asked for on the command line."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    names = sorted(path.stem for path in CALC.glob("*.py") if path.stem != "__init__")
    parser.add_argument("--modules", nargs="+", choices=names, default=names, help="modules of calc to change")
    parser.add_argument("--sample", type=int, default=200, help="how many changes to draw")
    parser.add_argument("--seed", type=int, default=1, help="which ones are drawn")
    parser.add_argument("--all", action="store_true", help="every change instead of a sample")
    parser.add_argument("--at", nargs="+", default=[], help="only the changes of these lines, as strand:155")
    parser.add_argument("--part", default="1/1", help="which part to run, as 1/2 and 2/2 for two terminals")
    return parser.parse_args(given)


def main() -> int:
    """Run the changes and print the score; the exit code is the number of survivors, at most 100, or 101."""
    arguments = options()
    for name in LARGE if hasattr(os, "fork") else ():
        importlib.import_module(name)
    with tempfile.TemporaryDirectory() as folder:
        skip = shutil.ignore_patterns(".git", ".venv", "site", "build", "dist", "__pycache__", ".hypothesis")
        work_in(Path(shutil.copytree(ROOT, Path(folder) / "copy", ignore=skip, symlinks=True)))
        return score(arguments)


def score(arguments: argparse.Namespace) -> int:
    """Try the changes one after the other and print what became of each, then the score and the survivors."""
    part, parts = map(int, arguments.part.split("/"))
    todo, start = wanted(arguments)[part - 1 :: parts], time.monotonic()
    fault = broken(sorted({change.module for change in todo}))
    if fault:
        print(fault)
        return 101
    survivors = []
    for change in todo:
        outcome, by = fate(change)
        print(f"{outcome}  {change.name}  {by}", flush=True)
        if outcome == "survived":
            survivors.append(change)
    noticed = len(todo) - len(survivors)
    print(f"{noticed} of {len(todo)} noticed, {noticed / max(1, len(todo)):.1%}, in {(time.monotonic() - start) / 60:.0f} minutes")
    for change in survivors:
        print(f"survivor: {change.name}")
    return min(len(survivors), 100)


if __name__ == "__main__":
    sys.exit(main())
