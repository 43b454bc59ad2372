"""One expression of Python as an expression of JavaScript."""

import ast
import json
import math
import re
from collections.abc import Callable, Iterable
from typing import Any

from sawside.script import vocabulary as words
from sawside.script.calls import call, module_of
from sawside.script.meaning import Namer
from sawside.script.plain import literal, target, target_names
from sawside.script.refusal import Place


class Expressions:
    """Translates the expressions of one function.

    `place` says where it stands; `local` holds the names that are its own, also those of functions around it; `names` gives for
    any other name what it means in the function's module; `program` knows how functions, classes and constants are called.
    """

    def __init__(self, place: Place, names: dict[str, Any], program: Namer, local: frozenset[str] = frozenset()) -> None:
        self.place, self.names, self.program, self.local = place, names, program, local

    def within(self, more: Iterable[str]) -> "Expressions":
        """Return a translator for the inside of a function or comprehension with names of its own."""
        return Expressions(self.place, self.names, self.program, self.local | frozenset(more))

    def __call__(self, node: ast.expr) -> str:
        """Return an expression in JavaScript; raise Untranslatable when it has none."""
        translate = getattr(self, f"_{type(node).__name__.lower()}", None)
        if translate is None:
            raise self.place.refuse(node, f"`{ast.unparse(node)}`")
        return str(translate(node))

    def truth(self, node: ast.expr) -> str:
        """Return a condition: what Python takes for true, an empty list or a zero not being."""
        if isinstance(node, ast.BoolOp):
            return "(" + (" && " if isinstance(node.op, ast.And) else " || ").join(map(self.truth, node.values)) + ")"
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            return f"!{self.truth(node.operand)}"
        return self(node) if self._is_boolean(node) else f"py.truth({self(node)})"

    def _is_boolean(self, node: ast.expr) -> bool:
        match node:
            case ast.Compare() | ast.Constant(value=True | False):
                return True
            case ast.Call(func=ast.Name(id=name)):
                return name in words.BOOLEAN and name not in self.local
            case ast.Call(func=ast.Attribute(value=ast.Name(id="math"), attr=name)):
                return name in words.BOOLEAN_MATH
        return False

    def _constant(self, node: ast.Constant) -> str:
        return literal(node.value, lambda what: self.place.refuse(node, what))

    def _name(self, node: ast.Name) -> str:
        if node.id in self.local:
            return words.name_of(node.id)
        if node.id not in self.names:
            raise self.place.refuse(node, f"the name `{node.id}`")
        return self.program.named(node.id, self.names[node.id], lambda what: self.place.refuse(node, what))

    def _attribute(self, node: ast.Attribute) -> str:
        module = module_of(self, node.value)
        if module is math:
            if node.attr in words.MATH_NAMES:
                return words.MATH_NAMES[node.attr]
            raise self.place.refuse(node, f"`math.{node.attr}`")
        if module is not None:
            return self.program.named(node.attr, getattr(module, node.attr), lambda what: self.place.refuse(node, what))
        return f"{self(node.value)}.{node.attr}"

    def _tuple(self, node: ast.Tuple | ast.List) -> str:
        return "[" + ", ".join(map(self, node.elts)) + "]"

    _list = _tuple

    def _set(self, node: ast.Set) -> str:
        return f"py.set([{', '.join(map(self, node.elts))}])"

    def _dict(self, node: ast.Dict) -> str:
        keys = [key for key in node.keys if key is not None]
        if len(keys) < len(node.keys):
            raise self.place.refuse(node, "`**` in a dictionary")
        pairs = (f"[{self(key)}, {self(value)}]" for key, value in zip(keys, node.values, strict=True))
        return f"new Map([{', '.join(pairs)}])"

    def _starred(self, node: ast.Starred) -> str:
        return f"...py.list({self(node.value)})"

    def _unaryop(self, node: ast.UnaryOp) -> str:
        if isinstance(node.op, ast.Not):
            return f"!{self.truth(node.operand)}"
        if isinstance(node.op, ast.Invert):
            raise self.place.refuse(node, "`~`")
        return f"({'-' if isinstance(node.op, ast.USub) else '+'}{self(node.operand)})"

    def _binop(self, node: ast.BinOp) -> str:
        kind, left, right = type(node.op), self(node.left), self(node.right)
        if any(isinstance(side, ast.List | ast.Tuple | ast.JoinedStr) for side in (node.left, node.right)) and kind is not ast.Add:
            raise self.place.refuse(node, f"`{ast.unparse(node)}`")
        if kind in words.ARITHMETIC:
            return f"({left} {words.ARITHMETIC[kind]} {right})"
        if kind is ast.Add and (_is_number(node.left) or _is_number(node.right)):
            return f"({left} + {right})"
        if kind not in words.CALLED:
            raise self.place.refuse(node, f"`{ast.unparse(node)}`")
        return f"{words.CALLED[kind]}({left}, {right})"

    def _boolop(self, node: ast.BoolOp) -> str:
        if all(map(self._is_boolean, node.values)):
            return self.truth(node)
        name = "py.and" if isinstance(node.op, ast.And) else "py.or"
        return f"{name}({', '.join(f'() => {self(value)}' for value in node.values)})"

    def _ifexp(self, node: ast.IfExp) -> str:
        return f"({self.truth(node.test)} ? {self(node.body)} : {self(node.orelse)})"

    def _compare(self, node: ast.Compare) -> str:
        sides = [node.left, *node.comparators]
        if any(not isinstance(side, ast.Name | ast.Constant | ast.Attribute | ast.UnaryOp) for side in sides[1:-1]):
            raise self.place.refuse(node, f"the chain `{ast.unparse(node)}`, whose middle would be worked out twice,")
        parts = [self._pair(left, op, right) for left, op, right in zip(sides, node.ops, sides[1:], strict=False)]
        return parts[0] if len(parts) == 1 else "(" + " && ".join(parts) + ")"

    def _pair(self, left: ast.expr, op: ast.cmpop, right: ast.expr) -> str:
        a, b = self(left), self(right)
        match op:
            case ast.Is() | ast.IsNot():
                same = "==" if isinstance(right, ast.Constant) and right.value is None else "==="
                return f"({a} {same if isinstance(op, ast.Is) else same.replace('=', '!', 1)} {b})"
            case ast.Eq():
                return f"py.eq({a}, {b})"
            case ast.NotEq():
                return f"!py.eq({a}, {b})"
            case ast.In():
                return f"py.has({b}, {a})"
            case ast.NotIn():
                return f"!py.has({b}, {a})"
        plain, called = words.ORDER[type(op)]
        return f"({a} {plain} {b})" if _is_number(left) or _is_number(right) else f"{called}({a}, {b})"

    def _namedexpr(self, node: ast.NamedExpr) -> str:
        return f"({words.name_of(node.target.id)} = {self(node.value)})"

    def _subscript(self, node: ast.Subscript) -> str:
        if isinstance(node.slice, ast.Slice):
            ends = (self(end) if end else "null" for end in (node.slice.lower, node.slice.upper, node.slice.step))
            return f"py.slice({self(node.value)}, {', '.join(ends)})"
        return f"py.at({self(node.value)}, {self(node.slice)})"

    def _joinedstr(self, node: ast.JoinedStr) -> str:
        return "(" + " + ".join(['""', *map(self, node.values)]) + ")"

    def _formattedvalue(self, node: ast.FormattedValue) -> str:
        if node.conversion != -1:
            raise self.place.refuse(node, "a conversion in a text")
        if node.format_spec is None:
            return f"py.str({self(node.value)})"
        spec = ast.literal_eval(node.format_spec) if not isinstance(node.format_spec, ast.JoinedStr) else _spec(node.format_spec)
        if spec is None or not re.fullmatch(words.FORMAT, spec):
            raise self.place.refuse(node, f"the format `{spec}`")
        return f"py.format({self(node.value)}, {json.dumps(spec)})"

    def _lambda(self, node: ast.Lambda) -> str:
        if node.args.defaults or node.args.kwonlyargs or node.args.vararg or node.args.kwarg:
            raise self.place.refuse(node, "a lambda with more than plain arguments")
        own = [argument.arg for argument in node.args.args]
        return f"(({', '.join(map(words.name_of, own))}) => {self.within(own)(node.body)})"

    def _listcomp(self, node: ast.ListComp | ast.GeneratorExp) -> str:
        return self._comprehension(node, lambda inner: inner(node.elt))

    _generatorexp = _listcomp

    def _setcomp(self, node: ast.SetComp) -> str:
        return f"py.set({self._comprehension(node, lambda inner: inner(node.elt))})"

    def _dictcomp(self, node: ast.DictComp) -> str:
        return f"new Map({self._comprehension(node, lambda inner: f'[{inner(node.key)}, {inner(node.value)}]')})"

    def _comprehension(
        self, node: ast.GeneratorExp | ast.ListComp | ast.SetComp | ast.DictComp, made: Callable[["Expressions"], str]
    ) -> str:
        """Return the items of a comprehension as an array: all at once, which is the same for what has no side effect."""
        inner: Expressions = self
        opened = closed = ""
        for number, one in enumerate(node.generators):
            own = sorted(target_names(one.target, self.place))
            source, inner = inner(one.iter), inner.within(own)
            kept = "".join(f".filter(({target(one.target, self.place)}) => {inner.truth(test)})" for test in one.ifs)
            last = number == len(node.generators) - 1
            opened += f"py.list({source}){kept}.{'map' if last else 'flatMap'}(({target(one.target, self.place)}) => "
            closed += ")"
        return f"{opened}{made(inner)}{closed}"

    def _call(self, node: ast.Call) -> str:
        return call(self, node)


def _spec(node: ast.JoinedStr) -> str | None:
    match node.values:
        case [ast.Constant(value=str(words_of_it))]:
            return words_of_it
    return None


def _is_number(node: ast.expr) -> bool:
    """Tell whether an expression surely is a number: then JavaScript's own operators mean the same."""
    match node:
        case ast.Constant(value=value):
            return isinstance(value, int | float) and not isinstance(value, bool)
        case ast.BinOp(op=ast.Mult() | ast.Div() | ast.Sub() | ast.Pow()):
            return True
        case ast.UnaryOp(op=ast.USub()):
            return True
        case ast.Call(func=ast.Name(id="abs" | "len" | "float")):
            return True
        case ast.Call(func=ast.Attribute(value=ast.Name(id="math"))):
            return True
    return False
