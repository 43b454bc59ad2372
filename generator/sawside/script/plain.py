"""What needs no knowledge of the program: plain values as they are written in JavaScript, and what an assignment names."""

import ast
import json
import math

from sawside.script import vocabulary as words
from sawside.script.refusal import Place, Refuse


def target(node: ast.expr, place: Place) -> str:
    """Return what is assigned to: a name, or names in brackets."""
    match node:
        case ast.Name(id=name):
            return words.name_of(name)
        case ast.Tuple(elts=elts) | ast.List(elts=elts):
            return "[" + ", ".join(target(one, place) for one in elts) + "]"
        case ast.Starred(value=value):
            return f"...{target(value, place)}"
    raise place.refuse(node, f"an assignment to `{ast.unparse(node)}`")


def target_names(node: ast.expr, place: Place) -> set[str]:
    """Return the names an assignment gives a value to."""
    target(node, place)
    return {one.id for one in ast.walk(node) if isinstance(one, ast.Name)}


def literal(value: object, refuse: Refuse) -> str:
    """Return a plain value as it is written in JavaScript.

    >>> literal((1, 2.5, "a", None, {"x": True}), ValueError)
    '[1, 2.5, "a", null, new Map([["x", true]])]'
    """
    match value:
        case None:
            return "null"
        case bool():
            return "true" if value else "false"
        case int():
            return str(value)
        case float():
            if math.isnan(value):
                return "NaN"
            return ("-Infinity" if value < 0 else "Infinity") if math.isinf(value) else repr(value)
        case str():
            return json.dumps(value, ensure_ascii=False)
        case tuple() | list() if type(value) in (tuple, list):
            return "[" + ", ".join(literal(one, refuse) for one in value) + "]"
        case dict():
            pairs = (f"[{literal(key, refuse)}, {literal(one, refuse)}]" for key, one in value.items())
            return f"new Map([{', '.join(pairs)}])"
        case set() | frozenset():
            return f"py.set([{', '.join(sorted(literal(one, refuse) for one in value))}])"
    raise refuse(f"a {type(value).__name__}")
