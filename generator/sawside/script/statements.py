"""The statements of one function of Python as those of a function of JavaScript."""

import ast
from collections.abc import Iterable

from sawside.script.expressions import Expressions, target, target_names
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
        for one in ast.walk(node):
            if isinstance(one, ast.NamedExpr):
                yield one.target.id
        for name in ("body", "orelse", "finalbody"):
            yield from _assigned(getattr(node, name, ()), outer)
        for handler in getattr(node, "handlers", ()):
            yield from _assigned(handler.body, outer)


def _block(body: Iterable[ast.stmt], inside: Expressions) -> list[str]:
    return [line for node in body for line in _statement(node, inside)]


def _statement(node: ast.stmt, inside: Expressions) -> list[str]:
    match node:
        case ast.Expr(value=ast.Constant()) | ast.Pass():
            return []
        case ast.Expr(value=value):
            return [f"{inside(value)};"]
        case ast.Return(value=value):
            return [f"return {inside(value) if value else 'null'};"]
        case ast.Assign(targets=[ast.Subscript(value=value, slice=index)], value=given) if not isinstance(index, ast.Slice):
            return [f"py.put({inside(value)}, {inside(index)}, {inside(given)});"]
        case ast.Assign(targets=[one], value=value):
            return [_assignment(one, inside(value), inside)]
        case ast.AnnAssign(target=one, value=value):
            return [_assignment(one, inside(value), inside)] if value else []
        case ast.AugAssign(target=ast.Name() as one, op=op, value=value):
            whole = ast.copy_location(ast.BinOp(ast.copy_location(ast.Name(one.id), node), op, value), node)
            return [_assignment(one, inside(whole), inside)]
        case ast.If(test=test, body=body, orelse=orelse):
            lines = [f"if ({inside.truth(test)}) {{", _indent(_block(body, inside)), "}"]
            if orelse:
                lines[-1] = "} else {"
                lines += [_indent(_block(orelse, inside)), "}"]
            return lines
        case ast.For(target=one, iter=source, body=body, orelse=[]):
            head = f"for ({target(one, inside.place)} of py.list({inside(source)})) {{"
            return [head, _indent(_block(body, inside)), "}"]
        case ast.While(test=test, body=body, orelse=[]):
            return [f"while ({inside.truth(test)}) {{", _indent(_block(body, inside)), "}"]
        case ast.Break():
            return ["break;"]
        case ast.Continue():
            return ["continue;"]
        case ast.Raise(exc=ast.Call() as call):
            return [_raise(call, inside)]
        case ast.Try(body=body, handlers=[handler], orelse=[], finalbody=[]):
            return _try(body, handler, inside)
        case ast.FunctionDef():
            return [f"{name_of(node.name)} = {function(node, '', inside)};"]
    raise inside.place.refuse(node, f"`{ast.unparse(node).splitlines()[0]}`")


def _assignment(one: ast.expr, value: str, inside: Expressions) -> str:
    bracketed = f"py.list({value})" if isinstance(one, ast.Tuple | ast.List) else value
    return f"{target(one, inside.place)} = {bracketed};"


def _raise(call: ast.Call, inside: Expressions) -> str:
    if inside.program.is_refusal(inside.names.get(getattr(call.func, "id", ""))):
        return f"throw {inside(call)};"
    return f"throw new Error({', '.join(map(inside, call.args))});"


def _try(body, handler: ast.ExceptHandler, inside: Expressions) -> list[str]:
    caught = inside.names.get(getattr(handler.type, "id", ""))
    if handler.name or not inside.program.is_refusal(caught):
        raise inside.place.refuse(handler, "`except` of anything but a refusal, or one that looks at it,")
    return ["try {", _indent(_block(body, inside)), "} catch (refusal) {",
            _indent(["if (!(refusal instanceof Refused)) throw refusal;", *_block(handler.body, inside)]), "}"]


def _indent(lines: Iterable[str]) -> str:
    return "\n".join("  " + line for whole in lines for line in whole.splitlines())
