"""Which words of Python have which word of JavaScript: functions of `math`, built-in functions, methods, operators, names."""

import ast

#: Function of `math` -> function of the script. Those of runtime.js refuse, as Python does, what has no answer.
MATH = {
    "sin": "Math.sin", "cos": "Math.cos", "tan": "Math.tan", "atan": "Math.atan", "atan2": "Math.atan2", "tanh": "Math.tanh",
    "sqrt": "py.sqrt", "asin": "py.asin", "acos": "py.acos", "log": "py.log", "log2": "py.log2", "log1p": "py.log1p",
    "atanh": "py.atanh", "exp": "py.exp", "expm1": "py.expm1", "sinh": "py.sinh", "cosh": "py.cosh", "hypot": "Math.hypot",
    "fabs": "Math.abs", "floor": "py.floor", "ceil": "py.ceil", "isfinite": "Number.isFinite", "isinf": "py.isinf",
    "isnan": "Number.isNaN", "radians": "py.radians", "degrees": "py.degrees", "fsum": "py.fsum", "copysign": "py.copysign",
}  # fmt: skip
MATH_NAMES = {"pi": "Math.PI", "e": "Math.E", "inf": "Infinity", "nan": "NaN", "tau": "(2 * Math.PI)"}

#: Built-in function -> function of the script. `min`, `max`, `sorted`, `zip` and `enumerate` have named arguments besides.
BUILTINS = {
    "abs": "py.abs", "len": "py.len", "sum": "py.sum", "any": "py.any", "all": "py.all", "tuple": "py.list", "list": "py.list",
    "range": "py.range", "reversed": "py.reversed", "round": "py.round", "float": "py.float", "int": "py.int", "str": "py.str",
    "iter": "py.list", "next": "py.next", "set": "py.set", "bool": "py.truth", "dict": "py.dict",
}  # fmt: skip
#: Built-in function with named arguments -> its function of the script, and the names in the order it takes them.
NAMED = {
    "min": ("py.min", ("key", "default")), "max": ("py.max", ("key", "default")), "sorted": ("py.sorted", ("key", "reverse")),
    "enumerate": ("py.enumerate", ("start",)), "zip": ("py.zip", ("strict",)),
}  # fmt: skip
#: Method of a built-in type -> function of the script; on anything else a call of a method is refused.
METHODS = {name: f"py.{name}" for name in ("items", "values", "keys", "get", "append", "join", "index", "count")}
METHODS["add"] = "py.add_item"  # `py.add` is the sign +

BOOLEAN = {"any", "all", "bool"}
BOOLEAN_MATH = {"isfinite", "isinf", "isnan"}

ARITHMETIC = {ast.Sub: "-", ast.Mult: "*"}
CALLED = {ast.Div: "py.div", ast.Pow: "py.pow", ast.Mod: "py.mod", ast.FloorDiv: "py.floordiv", ast.Add: "py.add"}
ORDER = {ast.Lt: ("<", "py.lt"), ast.LtE: ("<=", "py.le"), ast.Gt: (">", "py.gt"), ast.GtE: (">=", "py.ge")}

#: Formats of numbers that the script knows how to write, besides none: 3g, .4g, .1f, d, +.2f.
FORMAT = r"\+?(\.\d+)?[gfd]?"

#: Words that mean something in JavaScript and nothing in Python.
RESERVED = frozenset((
    "arguments", "case", "catch", "const", "debugger", "default", "delete", "do", "enum", "eval", "export", "extends", "false",
    "function", "implements", "instanceof", "interface", "let", "new", "null", "package", "private", "protected", "public",
    "static", "super", "switch", "this", "throw", "true", "typeof", "undefined", "var", "void", "py", "NaN", "Infinity", "Math",
    "Number", "Map", "Array", "Refused",
))  # fmt: skip


def name_of(name: str) -> str:
    """Return a name of Python as it is called in the script.

    >>> name_of("span"), name_of("function")
    ('span', 'function_')
    """
    return f"{name}_" if name in RESERVED else name
