"""Layouts held against the types of what they are given: a part that a view has not is found before anything is rendered.

The tree of a layout is walked with the type of every name; what has no type here (a filter's result, the library's records) is
taken as it comes. Macros are walked with the types of each call.
"""

import copy
import types
import typing
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any, NamedTuple

from jinja2 import Environment, meta, nodes

#: Filters that give one item of what they are given, and those that give the same list or text again.
_ONE, _SAME = ("first", "last", "random"), ("list", "sort", "unique", "reverse", "selectattr", "rejectattr", "select", "reject")


class LayoutError(TypeError):
    """A layout names what it is not given. A programmer's mistake."""


def check(env: Environment, given: Mapping[str, Mapping[str, Any]], called: Mapping[str, tuple[Any, ...]] | None = None) -> None:
    """Raise LayoutError with file and line of each part that a layout names and is not given.

    Takes: env, with a loader; given, layout (without .html.j2) -> name -> type; called, macro -> the types it is called with
    from outside the layouts.
    """
    shared = _Shared({}, {}, set())
    wrong = [line for layout, names in given.items() for line in _Walk(env, f"{layout}.html.j2", names, shared).run(called or {})]
    if wrong:
        raise LayoutError("; ".join(dict.fromkeys(wrong)))


class _Shared(NamedTuple):
    """What the walks of one check share: trees by file, the files of macros, and which macros were walked with which types."""

    trees: dict[str, nodes.Template]
    modules: dict[str, "_Walk"]
    seen: set[str]


class _Walk:
    """One layout with the types of its names."""

    def __init__(self, env: Environment, file: str, names: Mapping[str, Any], shared: _Shared) -> None:
        self.env, self.file, self.shared = env, file, shared
        self.names: dict[str, Any] = dict(names)
        self.macros: dict[str, tuple[_Walk, nodes.Macro]] = {}
        self.modules: dict[str, _Walk] = {}
        self.wrong: list[str] = []
        if file not in shared.trees:
            assert env.loader
            shared.trees[file] = env.parse(env.loader.get_source(env, file)[0], file)
        self.tree = shared.trees[file]

    def run(self, called: Mapping[str, tuple[Any, ...]]) -> list[str]:
        """Return what is wrong with the layout, a line each."""
        unknown = meta.find_undeclared_variables(self.tree) - self.names.keys() - self.env.globals.keys()
        self.wrong += [f"{self.file}: `{name}` is not given" for name in sorted(unknown)]
        self.block(self.tree.body)
        for name in called.keys() & self.macros.keys():
            self.macro(*self.macros[name], list(called[name]), {})
        return self.wrong

    def block(self, body: Iterable[nodes.Node]) -> None:
        for node in body:
            self.statement(node)

    def statement(self, node: nodes.Node) -> None:
        match node:
            case nodes.Macro():
                self.macros[node.name] = self, node
            case nodes.Import(template=nodes.Const(value=file)):
                if file not in self.shared.modules:
                    self.shared.modules[file] = _Walk(self.env, file, {}, self.shared)
                    self.shared.modules[file].run({})
                self.modules[node.target] = self.shared.modules[file]
            case nodes.For():
                self.bind(node.target, _item(self.type(node.iter)))
                self.block([*([node.test] if node.test else []), *node.body, *node.else_])
            case nodes.Assign():
                self.bind(node.target, self.type(node.node))
            case nodes.Expr():
                self.type(node)
            case _:
                self.block(node.iter_child_nodes())

    def bind(self, target: nodes.Node, type_: Any) -> None:
        """Give the names that are assigned to their types."""
        if isinstance(target, nodes.Name):
            self.names[target.name] = type_
        elif isinstance(target, nodes.Tuple):
            for number, one in enumerate(target.items):
                self.bind(one, _nth(type_, number))

    def type(self, node: nodes.Node) -> Any:
        """Return the type of an expression, Any where it has none here; note what is wrong inside it."""
        match node:
            case nodes.Name():
                return self.names.get(node.name, Any)
            case nodes.Const():
                return type(node.value)
            case nodes.Getattr():
                return self.part(node, self.type(node.node), node.attr)
            case nodes.Getitem(arg=nodes.Const(value=str(name))):
                return self.part(node, self.type(node.node), name)
            case nodes.Getitem():
                self.type(node.arg)
                whole = self.type(node.node)
                return whole if isinstance(node.arg, nodes.Slice) else _item(whole)
            case nodes.Filter() if node.node is not None:
                return self.filter(node, self.type(node.node))
            case nodes.Call():
                return self.call(node)
            case nodes.CondExpr() | nodes.Or():
                found = {_bare(self.type(one)) for one in node.iter_child_nodes() if one is not getattr(node, "test", None)}
                self.block([node.test] if isinstance(node, nodes.CondExpr) else [])
                return found.pop() if len(found) == 1 else Any
            case nodes.List() | nodes.Tuple():
                items = [self.type(one) for one in node.items]
                return tuple[tuple(items)] if isinstance(node, nodes.Tuple) and items else Any  # type: ignore[misc]
        self.block(node.iter_child_nodes())
        return Any

    def part(self, node: nodes.Node, whole: Any, name: str) -> Any:
        """Return the type of a part of something, and note it when there is no such part."""
        known = parts_of(whole)
        if known is None or name in known:
            return known[name] if known else _method(whole, name)
        if name in ("items", "values", "keys", "get"):
            return Any
        self.wrong.append(f"{self.file}:{node.lineno}: {_bare(whole).__name__} has no `{name}`")
        return Any

    def filter(self, node: nodes.Filter, given: Any) -> Any:
        self.block(node.args)
        if node.name in _ONE:
            return _item(given)
        if node.name in _SAME:
            return given
        if node.name == "map" and (attribute := [one.value for one in node.kwargs if one.key == "attribute"]):
            return list[self.part(node, _item(given), attribute[0].as_const())]  # type: ignore[misc]
        return Any

    def call(self, node: nodes.Call) -> Any:
        """Walk the macro that is called with the types of its arguments."""
        arguments = [self.type(one) for one in node.args]
        named = {one.key: self.type(one.value) for one in node.kwargs}
        match node.node:
            case nodes.Name(name=name) if name in self.macros:
                self.macro(*self.macros[name], arguments, named)
                return str
            case nodes.Getattr(node=nodes.Name(name=module), attr=name) if module in self.modules:
                if name not in self.modules[module].macros:
                    self.wrong.append(f"{self.file}:{node.lineno}: {self.modules[module].file} has no macro `{name}`")
                    return Any
                self.macro(*self.modules[module].macros[name], arguments, named)
                return str
            case nodes.Getattr(node=of, attr="items") if (inside := _values(self.type(of))) is not None:
                return list[tuple[str, inside]]  # type: ignore[valid-type]
            case nodes.Getattr(node=of, attr="values") if (inside := _values(self.type(of))) is not None:
                return list[inside]  # type: ignore[valid-type]
        given = self.type(node.node)
        return typing.get_type_hints(given).get("return", Any) if isinstance(given, types.FunctionType) else Any

    def macro(self, home: "_Walk", macro: nodes.Macro, arguments: list[Any], named: Mapping[str, Any]) -> None:
        """Walk a macro's body once for each set of types it is called with."""
        names = dict(zip((one.name for one in macro.args), arguments)) | dict(named)
        key = f"{home.file} {macro.name}: {names}"
        if key in self.shared.seen:
            return
        self.shared.seen.add(key)
        inner = copy.copy(home)
        inner.names, inner.wrong = {**home.names, **names}, self.wrong
        inner.block(macro.body)


@cache
def _hints(bare: Any) -> Mapping[str, Any]:
    return {name: _bare(part) for name, part in typing.get_type_hints(bare).items()}


def parts_of(whole: Any) -> Mapping[str, Any] | None:
    """Return the parts something of a type has, with their types; None when they are not known.

    >>> from sawside.kinds.view_words import RuleData
    >>> parts_of(RuleData)
    {'rule': <class 'str'>, 'since': <class 'str'>}
    >>> parts_of(dict[str, int]) is None
    True
    """
    bare = _bare(whole)
    if typing.is_typeddict(bare):
        return _hints(bare)
    if isinstance(bare, type) and (is_dataclass(bare) or hasattr(bare, "_fields")):
        hints = typing.get_type_hints(bare)
        names = [field.name for field in fields(bare)] if is_dataclass(bare) else list(getattr(bare, "_fields", ()))
        return {name: hints[name] for name in names} | {name: Any for name in dir(bare) if not name.startswith("_")}
    return None


def _bare(type_: Any) -> Any:
    """Return a type without the wrapping of a key that may be missing and without None."""
    if typing.get_origin(type_) in (typing.NotRequired, typing.Required):
        return _bare(typing.get_args(type_)[0])
    if isinstance(type_, types.UnionType) or typing.get_origin(type_) is typing.Union:
        rest = [one for one in typing.get_args(type_) if one is not type(None)]
        return _bare(rest[0]) if len(rest) == 1 else Any
    return type_


def _method(whole: Any, name: str) -> Any:
    """Return the type of a value of a dictionary, whose keys are not known."""
    inside = _values(whole)
    return Any if inside is None or name in ("items", "values", "keys", "get") else inside


def _values(whole: Any) -> Any:
    """Return the type of a dictionary's values, None when it is none."""
    return typing.get_args(_bare(whole))[1] if typing.get_origin(_bare(whole)) is dict else None


def _item(whole: Any) -> Any:
    """Return the type of one item of a list."""
    bare = _bare(whole)
    if typing.get_origin(bare) in (list, tuple):
        found = set(typing.get_args(bare)) - {...}
        return found.pop() if len(found) == 1 else Any
    return str if typing.get_origin(bare) is dict or bare is str else Any


def _nth(whole: Any, number: int) -> Any:
    """Return the type of an item of a tuple by its place."""
    inside = typing.get_args(_bare(whole))
    return inside[number] if typing.get_origin(_bare(whole)) is tuple and number < len(inside) and ... not in inside else Any
