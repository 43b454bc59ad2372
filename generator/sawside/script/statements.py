"""The statements of one function of Python as those of a function of JavaScript."""

import ast
from collections.abc import Callable, Iterable
from typing import Any

from sawside.script.expressions import Expressions
from sawside.script.plain import target, target_names
from sawside.script.vocabulary import name_of


def function(node: ast.FunctionDef, name: str, outer: Expressions, method: bool = False) -> str:
    """Return a function; in a class (`method`) without the word, its first argument being the object itself."""
    arguments = node.args
    if arguments.posonlyargs or (arguments.vararg and (arguments.kwarg or arguments.kwonlyargs)):
        raise outer.place.refuse(node, "a function that gathers arguments and has named ones")
    plain, gathers = [*arguments.args, *arguments.kwonlyargs], arguments.kwarg or arguments.vararg
    own = [one.arg for one in plain] + ([gathers.arg] if gathers else [])
    assigned = set(_assigned(node.body, outer)) - set(own)
    inside = outer.within({*own, *assigned})
    defaults = [None] * (len(arguments.args) - len(arguments.defaults)) + arguments.defaults + arguments.kw_defaults
    shown = [_parameter(one.arg, default, outer) for one, default in zip(plain, defaults, strict=True)]
    shown += [("..." if arguments.vararg else "") + name_of(gathers.arg)] if gathers else []
    lines = [f"let {', '.join(name_of(one) for one in sorted(assigned))};"] if assigned else []
    if method:
        lines.insert(0, f"const {shown[0]} = this;")
        shown = shown[1:]
    lines += _block(node.body, inside)
    return f"{'' if method else 'function '}{name}({', '.join(shown)}) {{\n" + _indent(lines) + "\n}"


def _parameter(name: str, default: ast.expr | None, outer: Expressions) -> str:
    if default is None:
        return name_of(name)
    if not isinstance(default, ast.Constant | ast.Name | ast.Tuple | ast.UnaryOp):
        raise outer.place.refuse(default, f"the default of `{name}`")
    return f"{name_of(name)} = {outer(default)}"


def _assigned(body: Iterable[ast.stmt], outer: Expressions) -> Iterable[str]:
    """Yield the names that a function gives a value to itself, not those of comprehensions and of functions inside it."""
    for node in body:
        match node:
            case ast.FunctionDef():
                yield node.name
                continue
            case ast.Assign(targets=targets):
                for one in targets:
                    if not isinstance(one, ast.Subscript):
                        yield from target_names(one, outer.place)
            case ast.AnnAssign(target=one) | ast.AugAssign(target=one) | ast.For(target=one):
                yield from target_names(one, outer.place)
        for inner in ast.walk(node):
            if isinstance(inner, ast.NamedExpr):
                yield inner.target.id
        for name in ("body", "orelse", "finalbody"):
            yield from _assigned(getattr(node, name, ()), outer)
        for handler in getattr(node, "handlers", ()):
            yield from _assigned(handler.body, outer)


def _block(body: Iterable[ast.stmt], inside: Expressions) -> list[str]:
    return [line for node in body for line in _statement(node, inside)]


def _statement(node: ast.stmt, inside: Expressions) -> list[str]:
    translate = _STATEMENTS.get(type(node))
    lines = translate(node, inside) if translate else None
    if lines is None:
        raise inside.place.refuse(node, f"`{ast.unparse(node).splitlines()[0]}`")
    return lines


def _expression(node: ast.Expr, inside: Expressions) -> list[str]:
    return [] if isinstance(node.value, ast.Constant) else [f"{inside(node.value)};"]


def _assign(node: ast.Assign, inside: Expressions) -> list[str] | None:
    match node.targets:
        case [ast.Subscript(value=value, slice=index)] if not isinstance(index, ast.Slice):
            return [f"py.put({inside(value)}, {inside(index)}, {inside(node.value)});"]
        case [one]:
            return [_assignment(one, inside(node.value), inside)]
    return None


def _assign_more(node: ast.AugAssign, inside: Expressions) -> list[str] | None:
    if not isinstance(node.target, ast.Name):
        return None
    whole = ast.BinOp(ast.copy_location(ast.Name(node.target.id), node), node.op, node.value)
    return [_assignment(node.target, inside(ast.copy_location(whole, node)), inside)]


def _if(node: ast.If, inside: Expressions) -> list[str]:
    lines = [f"if ({inside.truth(node.test)}) {{", _indent(_block(node.body, inside)), "}"]
    if node.orelse:
        lines[-1] = "} else {"
        lines += [_indent(_block(node.orelse, inside)), "}"]
    return lines


def _for(node: ast.For, inside: Expressions) -> list[str] | None:
    head = f"for ({target(node.target, inside.place)} of py.list({inside(node.iter)})) {{"
    return None if node.orelse else [head, _indent(_block(node.body, inside)), "}"]


def _while(node: ast.While, inside: Expressions) -> list[str] | None:
    head = f"while ({inside.truth(node.test)}) {{"
    return None if node.orelse else [head, _indent(_block(node.body, inside)), "}"]


def _assignment(one: ast.expr, value: str, inside: Expressions) -> str:
    bracketed = f"py.list({value})" if isinstance(one, ast.Tuple | ast.List) else value
    return f"{target(one, inside.place)} = {bracketed};"


def _raise(call: ast.Call, inside: Expressions) -> str:
    if inside.program.is_refusal(inside.names.get(getattr(call.func, "id", ""))):
        return f"throw {inside(call)};"
    return f"throw new Error({', '.join(map(inside, call.args))});"


def _try(node: ast.Try, inside: Expressions) -> list[str] | None:
    if len(node.handlers) != 1 or node.orelse or node.finalbody:
        return None
    handler = node.handlers[0]
    if handler.name or not inside.program.is_refusal(inside.names.get(getattr(handler.type, "id", ""))):
        raise inside.place.refuse(handler, "`except` of anything but a refusal, or one that looks at it,")
    return [
        "try {",
        _indent(_block(node.body, inside)),
        "} catch (refusal) {",
        _indent(["if (!(refusal instanceof Refused)) throw refusal;", *_block(handler.body, inside)]),
        "}",
    ]


def _indent(lines: Iterable[str]) -> str:
    return "\n".join("  " + line for whole in lines for line in whole.splitlines())


_STATEMENTS: dict[type[ast.stmt], Callable[[Any, Expressions], list[str] | None]] = {
    ast.Pass: lambda node, inside: [],
    ast.Break: lambda node, inside: ["break;"],
    ast.Continue: lambda node, inside: ["continue;"],
    ast.Expr: _expression,
    ast.Return: lambda node, inside: [f"return {inside(node.value) if node.value else 'null'};"],
    ast.Assign: _assign,
    ast.AnnAssign: lambda node, inside: [_assignment(node.target, inside(node.value), inside)] if node.value else [],
    ast.AugAssign: _assign_more,
    ast.If: _if,
    ast.For: _for,
    ast.While: _while,
    ast.Raise: lambda node, inside: [_raise(node.exc, inside)] if isinstance(node.exc, ast.Call) else None,
    ast.Try: _try,
    ast.FunctionDef: lambda node, inside: [f"{name_of(node.name)} = {function(node, '', inside)};"],
}
