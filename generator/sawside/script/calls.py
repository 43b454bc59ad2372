"""Calls of Python as calls of JavaScript: of `math`, of built-in functions, of methods, and of our own functions and classes."""

import ast
import math
from types import FunctionType, ModuleType
from typing import Any

from sawside.script import vocabulary as words
from sawside.script.meaning import Translator
from sawside.script.refusal import Untranslatable


def module_of(put: Translator, node: ast.expr) -> ModuleType | None:
    """Return the module a name stands for, or None; `put` is the translator that knows what names mean."""
    found = put.names.get(node.id) if isinstance(node, ast.Name) and node.id not in put.local else None
    return found if isinstance(found, ModuleType) else None


def call(put: Translator, node: ast.Call) -> str:
    """Return a call; `put` translates its arguments and knows what names mean."""
    function = node.func
    if isinstance(function, ast.Attribute):
        module = module_of(put, function.value)
        if module is math:
            return _math(put, node, function.attr)
        if module is not None:
            return _own(put, node, getattr(module, function.attr))
        return _method(put, node, function)
    if not isinstance(function, ast.Name) or function.id in put.local:
        if node.keywords:
            raise put.place.refuse(node, "named arguments of a function that is handed over")
        return f"{put(function)}({', '.join(map(put, node.args))})"
    if function.id in put.names:
        return _own(put, node, put.names[function.id])
    return _builtin(put, node, function.id)


def _math(put: Translator, node: ast.Call, name: str) -> str:
    if name not in words.MATH or node.keywords:
        raise put.place.refuse(node, f"`math.{name}`")
    return f"{words.MATH[name]}({', '.join(map(put, node.args))})"


def _method(put: Translator, node: ast.Call, function: ast.Attribute) -> str:
    if isinstance(function.value, ast.Name) and function.value.id in put.local and function.attr not in words.METHODS:
        if not node.keywords:  # a function that an object holds which is handed over
            return f"{put(function)}({', '.join(map(put, node.args))})"
    elif function.attr in words.METHODS and not node.keywords:
        return f"{words.METHODS[function.attr]}({', '.join(map(put, (function.value, *node.args)))})"
    raise put.place.refuse(node, f"the method `{function.attr}`")


def _builtin(put: Translator, node: ast.Call, name: str) -> str:
    given = {keyword.arg: put(keyword.value) for keyword in node.keywords}
    if name in words.NAMED:
        called, known = words.NAMED[name]
        if given.keys() <= set(known):
            named = ", ".join(f"{key}: {value}" for key, value in given.items())
            return f"{called}([{', '.join(map(put, node.args))}], {{{named}}})"
    elif name in words.BUILTINS and not given:
        return f"{words.BUILTINS[name]}({', '.join(map(put, node.args))})"
    raise put.place.refuse(node, f"`{name}` in `{ast.unparse(node)}`")


def _own(put: Translator, node: ast.Call, called: Any) -> str:
    """Return a call of one of our own functions or classes, its arguments in order."""

    def refuse(what: str) -> Untranslatable:
        return put.place.refuse(node, what)

    if called is put.program.replace:
        changes = ", ".join(f"{keyword.arg}: {put(keyword.value)}" for keyword in node.keywords)
        return f"py.replace({put(node.args[0])}, {{{changes}}})"
    name = put.program.named(getattr(called, "__name__", "?"), called, refuse)
    new = "" if isinstance(called, FunctionType) else "new "
    parameters, gathered = put.program.parameters(called)
    given = [put(one) for one in node.args]
    named = {keyword.arg: put(keyword.value) for keyword in node.keywords if keyword.arg is not None}
    if len(named) < len(node.keywords):
        raise refuse("`**` in a call")
    if gathered:
        pairs = ", ".join(f'["{key}", {value}]' for key, value in named.items() if key not in parameters)
        tail = [f"new Map([{pairs}])"]
        if set(named) & set(parameters):
            raise refuse("a named argument before gathered ones")
        return f"{new}{name}({', '.join((*given, *tail))})"
    rest = parameters[len(given) :]
    last = max((number for number, key in enumerate(rest, 1) if key in named), default=0)
    if set(named) - set(rest):
        raise refuse(f"the arguments {', '.join(sorted(set(named) - set(rest)))}")
    return f"{new}{name}({', '.join((*given, *(named.get(key, 'undefined') for key in rest[:last])))})"
