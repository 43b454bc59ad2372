"""The syntax trees of formulas, from the files they stand in; each file is read once."""

import ast
import inspect
from functools import cache
from pathlib import Path
from types import FunctionType

from sawside.script.refusal import Place


@cache
def _tree(file: str) -> ast.Module:
    return ast.parse(Path(file).read_text(encoding="utf-8"), file)


def function_node(one: FunctionType) -> tuple[str, ast.FunctionDef]:
    """Return where a function of a module stands, as it is shown, and its tree; raise Untranslatable for any other."""
    file = str(inspect.getsourcefile(one))
    found = [node for node in _tree(file).body if isinstance(node, ast.FunctionDef) and node.name == one.__name__]
    if not found:
        here = ast.Pass(lineno=one.__code__.co_firstlineno)
        raise Place(shown(file)).refuse(here, f"`{one.__qualname__}`, which stands in no module,")
    return shown(file), found[-1]


def class_node(one: type) -> tuple[str, ast.ClassDef]:
    """Return where a class of a module stands, as it is shown, and its tree."""
    file = str(inspect.getsourcefile(one))
    return shown(file), next(node for node in _tree(file).body if isinstance(node, ast.ClassDef) and node.name == one.__name__)


def shown(file: str) -> str:
    """Return a file from the package's folder on: what is printed names no place of a machine.

    >>> shown("/home/somebody/generator/sawside/calc/band.py")
    'sawside/calc/band.py'
    """
    parts = Path(file).parts
    return "/".join(parts[parts.index("sawside") :] if "sawside" in parts else parts[-1:])
