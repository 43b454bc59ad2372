"""The equation of a formula from the formula itself: what it returns, with what it calls and names along the way put in."""

import ast
import builtins
import inspect
from collections.abc import Callable, Mapping
from types import FunctionType, ModuleType
from typing import Any

from sawside.script.source import function_node

#: Functions an equation may hold; those of `math` and of Python alike.
FUNCTIONS = frozenset(("sqrt", "sin", "cos", "tan", "asin", "acos", "atan", "tanh", "exp", "log", "log2", "min", "max", "abs",
                       "ceil", "floor"))  # fmt: skip
_OPERATORS = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow)


class _Open(Exception):
    """The formula decides, repeats or calls something that no equation shows."""


def expression(function: Callable[..., Any]) -> str:
    """Return what a formula returns as one expression over its arguments, or nothing where it is not closed.

    A closed formula looks at its arguments, may name parts, and returns: no branch, no loop, no word.

    >>> from sawside.calc import band
    >>> expression(band.band_speed), expression(band.smaller_wheel)
    ('pi * (wheel_diameter_lower + blade_thickness) * wheel_speed', 'min(wheel_diameter_upper, wheel_diameter_lower)')
    """
    try:
        return ast.unparse(_returned(inspect.unwrap(function), None))
    except _Open:
        return ""


def _returned(function: FunctionType, given: Mapping[str, ast.expr] | None) -> ast.expr:
    """Return a formula's expression with its arguments replaced by those given (None: left as they are)."""
    _, node = function_node(function)
    names = dict(given) if given is not None else {}
    for statement in node.body:
        match statement:
            case ast.Expr():
                continue  # its docstring, and what it looks at before it begins
            case ast.Assign(targets=[ast.Name(id=name)], value=value):
                names[name] = _Inside(function, names)(value)
            case ast.Return(value=value) if value is not None:
                return _Inside(function, names)(value)
            case _:
                raise _Open
    raise _Open


class _Inside:
    """Puts in, in the expressions of one formula, what its names and calls stand for."""

    def __init__(self, function: FunctionType, names: Mapping[str, ast.expr]) -> None:
        self.function, self.names = function, names
        self.arguments = function.__code__.co_varnames[: function.__code__.co_argcount + function.__code__.co_kwonlyargcount]

    def __call__(self, node: ast.expr) -> ast.expr:
        match node:
            case ast.Constant(value=value) if isinstance(value, int | float) and not isinstance(value, bool):
                return _number(value)
            case ast.Name(id=name):
                return self._name(name)
            case ast.Attribute(value=ast.Name(id="math"), attr="pi"):
                return ast.Name("pi")
            case ast.Attribute(value=ast.Name(id=module), attr=attr):
                return _constant(getattr(self._global(module), attr, None))
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return ast.UnaryOp(ast.USub(), self(operand))
            case ast.BinOp(left=left, op=op, right=right) if isinstance(op, _OPERATORS):
                return ast.BinOp(self(left), op, self(right))
            case ast.Call():
                return self._call(node)
        raise _Open

    def _name(self, name: str) -> ast.expr:
        if name in self.names:
            return self.names[name]
        return ast.Name(name) if name in self.arguments else _constant(self._global(name))

    def _global(self, name: str) -> Any:
        return self.function.__globals__.get(name, getattr(builtins, name, None))

    def _call(self, node: ast.Call) -> ast.expr:
        called, name = self._called(node.func)
        if name in FUNCTIONS:
            if node.keywords or any(isinstance(one, ast.Starred) for one in node.args):
                raise _Open
            return ast.Call(ast.Name(name), [self(one) for one in node.args], [])
        if not isinstance(called, FunctionType) or any(keyword.arg is None for keyword in node.keywords):
            raise _Open
        try:
            bound = inspect.signature(called).bind(*map(self, node.args), **{str(k.arg): self(k.value) for k in node.keywords})
        except TypeError:
            raise _Open from None
        missing = {name: _constant(one.default) for name, one in bound.signature.parameters.items() if name not in bound.arguments}
        return _returned(called, {**bound.arguments, **missing})

    def _called(self, function: ast.expr) -> tuple[Any, str]:
        """Return what is called, and its name where it is a function of `math` or of Python."""
        match function:
            case ast.Attribute(value=ast.Name(id=module), attr=attr):
                home = self._global(module)
                plain = isinstance(home, ModuleType) and home.__name__ == "math"
                return getattr(home, attr, None), attr if plain else ""
            case ast.Name(id=name):
                found = self._global(name)
                return found, name if found is getattr(builtins, name, self) else ""
        raise _Open


def _constant(value: object) -> ast.expr:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return _number(value)
    raise _Open


def _number(value: float) -> ast.expr:
    """Return a number, a whole one without its point."""
    whole = int(value) if isinstance(value, float) and value.is_integer() and abs(value) < 1e6 else value
    return ast.UnaryOp(ast.USub(), ast.Constant(-whole)) if whole < 0 else ast.Constant(whole)
