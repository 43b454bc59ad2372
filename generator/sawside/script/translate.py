"""Which functions, classes and constants a script needs, each translated once."""

import ast
import builtins
import dataclasses
import inspect
from collections.abc import Callable, Iterable
from pathlib import Path
from types import FunctionType
from typing import Any

from sawside.calc.limits import OutsideMethod
from sawside.script import statements
from sawside.script.expressions import Expressions
from sawside.script.plain import literal
from sawside.script.refusal import Place, Refuse, Untranslatable
from sawside.script.source import class_node, function_node
from sawside.script.vocabulary import RESERVED

RUNTIME = Path(__file__).with_name("runtime.js")


def script(roots: Iterable[Callable[..., Any]]) -> str:
    """Return a script that holds these functions under their own names in `sawside.formulas`.

    Takes: roots, functions of modules whose code is in files. Gives: JavaScript, the same for the same functions.
    Raises Untranslatable for the first that has no translation, with its file and line; ValueError for two of one name.
    """
    roots = sorted(roots, key=lambda one: (str(one.__module__), one.__name__))
    names = [one.__name__ for one in roots]
    if len(set(names)) < len(names):
        raise ValueError("two functions of one name: " + ", ".join(sorted({name for name in names if names.count(name) > 1})))
    program = Program()
    exported = [f"    {one.__name__}: {program.function(one)}," for one in roots]
    body = "\n".join((*program.classes, *program.constants.values(), *program.functions))
    runtime = RUNTIME.read_text(encoding="utf-8")
    return (
        f'{runtime}\n(function () {{\n"use strict";\nconst {{ py, Refused }} = window.sawside;\n{body}\n'
        f"Object.assign(window.sawside.formulas, {{\n" + "\n".join(exported) + "\n});\n})();\n"
    )


def translatable(functions: Iterable[FunctionType]) -> dict[str, str]:
    """Return for each function, by module and name, why it has no translation; nothing where it has one."""
    found = {}
    for one in functions:
        try:
            Program().function(one)
            found[f"{one.__module__}.{one.__name__}"] = ""
        except Untranslatable as refusal:
            found[f"{one.__module__}.{one.__name__}"] = str(refusal)
    return found


class Program:
    """All that has been translated so far, and how each thing is called in the script."""

    replace = staticmethod(dataclasses.replace)

    def __init__(self) -> None:
        self.functions: list[str] = []
        self.classes: list[str] = []
        self.constants: dict[str, str] = {}
        self.called: dict[int, str] = {}
        self.kept: list[Any] = []  # an id stays taken only as long as its object lives

    def is_refusal(self, thing: Any) -> bool:
        """Tell whether a name of Python stands for the refusal of a formula."""
        return thing is OutsideMethod

    def named(self, name: str, thing: Any, refuse: Refuse) -> str:
        """Return how a function, class or constant of a module is called in the script, translating it first."""
        if thing is OutsideMethod:
            return "Refused"
        if isinstance(thing, FunctionType):
            return self.function(thing)
        if isinstance(thing, type) and (dataclasses.is_dataclass(thing) or _fields(thing)):
            return self._class(thing)
        if isinstance(thing, type) or callable(thing):
            raise refuse(f"`{name}`")
        if isinstance(thing, bool | int | float | str | None):
            return literal(thing, refuse)
        return self._constant(name, thing, refuse)

    def _constant(self, name: str, thing: Any, refuse: Refuse) -> str:
        if id(thing) not in self.called:
            text = self._written(thing, refuse)
            self.called[id(thing)] = self._free(name)
            self.kept.append(thing)
            self.constants[self.called[id(thing)]] = f"const {self.called[id(thing)]} = {text};"
        return self.called[id(thing)]

    def _written(self, thing: Any, refuse: Refuse) -> str:
        """Return a constant as it is written; a table may hold functions and records besides plain values."""
        if isinstance(thing, FunctionType):
            return self.function(thing)
        if dataclasses.is_dataclass(thing) and not isinstance(thing, type):
            values = (self._written(getattr(thing, field.name), refuse) for field in dataclasses.fields(thing))
            return f"new {self._class(type(thing))}({', '.join(values)})"
        if names := _fields(type(thing)):
            values = (self._written(getattr(thing, name), refuse) for name in names)
            return f"new {self._class(type(thing))}({', '.join(values)})"
        if type(thing) in (tuple, list):
            return "[" + ", ".join(self._written(one, refuse) for one in thing) + "]"
        if isinstance(thing, dict):
            pairs = (f"[{self._written(key, refuse)}, {self._written(value, refuse)}]" for key, value in thing.items())
            return f"new Map([{', '.join(pairs)}])"
        return literal(thing, refuse)

    def _free(self, name: str) -> str:
        """Return a name that nothing in the script has yet."""
        taken, number = {*self.called.values(), *RESERVED}, 1
        while (found := name if number == 1 else f"{name}_{number}") in taken:
            number += 1
        return found

    def function(self, one: Callable[..., Any]) -> str:
        """Return how a function is called in the script, translating it and all it calls first."""
        one = inspect.unwrap(one)
        assert isinstance(one, FunctionType)
        if id(one) in self.called:
            return self.called[id(one)]
        file, node = function_node(one)
        self.called[id(one)] = name = self._free(f"{one.__module__.rpartition('.')[2]}_{one.__name__}")
        self.kept.append(one)
        try:
            self.functions.append(statements.function(node, name, Expressions(Place(file), _names(one), self)))
        except Exception:
            # what was begun is not there: another caller must be refused as well, not find the name and nothing behind it
            del self.called[id(one)]
            raise
        return name

    def _class(self, one: type) -> str:
        if id(one) in self.called:
            return self.called[id(one)]
        file, node = class_node(one)
        self.called[id(one)] = name = self._free(one.__name__)
        outer = Expressions(Place(file), vars(inspect.getmodule(one)), self)
        try:
            lines = [f"class {name}{' extends Array' * bool(_fields(one))} {{", *_constructor(one, outer, node)]
            for method in (part for part in node.body if isinstance(part, ast.FunctionDef)):
                getter = any(isinstance(mark, ast.Name) and mark.id == "property" for mark in method.decorator_list)
                lines.append(("get " * getter) + statements.function(method, method.name, outer, method=True))
            self.classes.append("\n".join((*lines, "}")))
        except Exception:
            del self.called[id(one)]
            raise
        return name

    def parameters(self, called: Callable[..., Any]) -> tuple[list[str], bool]:
        """Return the names of the arguments of a function or class in order, and whether it gathers named ones besides."""
        found = inspect.signature(inspect.unwrap(called)).parameters.values()
        plain = [one.name for one in found if one.kind not in (one.VAR_KEYWORD, one.VAR_POSITIONAL)]
        return plain, any(one.kind is one.VAR_KEYWORD for one in found)


def _fields(one: type) -> tuple[str, ...]:
    """Return the names of a named tuple's fields; nothing for another class."""
    return getattr(one, "_fields", ()) if issubclass(one, tuple) else ()


def _constructor(one: type, outer: Expressions, node: ast.ClassDef) -> list[str]:
    """Return how an object of a class is made: a dataclass holds its fields, a named tuple is an array that names its items."""
    if names := _fields(one):
        getters = [f"  get {name}() {{ return this[{place}]; }}" for place, name in enumerate(names)]
        head = f"  constructor({', '.join(names)}) {{ super(); this.push({', '.join(names)}); }}"
        return [head, "  static get [Symbol.species]() { return Array; }", *getters]
    fields = [(field.name, _default(field, outer, node)) for field in dataclasses.fields(one)]
    kept = " ".join(f"this.{key} = {key};" for key, _ in fields)
    return [f"  constructor({', '.join(key + default for key, default in fields)}) {{ {kept} }}"]


def _default(field: dataclasses.Field[Any], outer: Expressions, node: ast.ClassDef) -> str:
    if field.default is dataclasses.MISSING:
        return ""
    return f" = {literal(field.default, lambda what: outer.place.refuse(node, what))}"


def _names(one: FunctionType) -> dict[str, Any]:
    """Return what the names of a function mean that are not its own: those of its module, less those Python brings."""
    return {name: thing for name, thing in one.__globals__.items() if not hasattr(builtins, name)}
