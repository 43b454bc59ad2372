"""Equations as MathML, made from the Python expression of a value: readable without any script, and checkable by tests.

An expression holds names, numbers, + - * / **, `pi` and the functions below. The same tree is shown twice: with the
symbols of its names, and with this machine's numbers put in.
"""

import ast
from collections.abc import Callable, Mapping
from html import escape

FUNCTIONS = ("sin", "cos", "tan", "asin", "acos", "atan", "tanh", "exp", "log", "log2", "min", "max", "abs", "ceil", "floor")
_RANK = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 3, ast.Pow: 4, ast.USub: 2}


def equation(symbol: str, expression: str, symbols: Mapping[str, str]) -> str:
    """Return `symbol = expression` as MathML with the symbol of each name.

    >>> equation("A", "body_width * blade_thickness", {"body_width": "b", "blade_thickness": "t"})
    '<math display="block"><mi>A</mi><mo>=</mo><mi>b</mi><mo>&#8901;</mo><mi>t</mi></math>'
    """
    body = _show(_tree(expression), lambda name: _symbol(symbols.get(name, name)))
    return f'<math display="block">{_symbol(symbol)}<mo>=</mo>{body}</math>'


def put_in(expression: str, numbers: Mapping[str, tuple[str, str]], result: tuple[str, str]) -> str:
    """Return the expression with numbers and units put in, and its result, as MathML.

    >>> put_in("a * b", {"a": ("10", "mm"), "b": ("0.65", "mm")}, ("6.5", "mm2"))[:60]
    '<math display="block"><mrow><mn>10</mn><mspace width="0.2em"'
    """
    body = _show(_tree(expression), lambda name: quantity(*numbers[name]))
    return f'<math display="block">{body}<mo>=</mo>{quantity(*result)}</math>'


def names(expression: str) -> set[str]:
    """Return the names an expression uses.

    >>> sorted(names("pi * (d + t) * sqrt(n)"))
    ['d', 'n', 't']
    """
    nodes = list(ast.walk(_tree(expression)))
    called = {id(node.func) for node in nodes if isinstance(node, ast.Call)}
    return {node.id for node in nodes if isinstance(node, ast.Name) and id(node) not in called} - {"pi"}


def quantity(number: str, unit: str) -> str:
    """Return a number with its unit as one MathML row; a power of ten is written out.

    >>> quantity("2.5e-3", "m")
    '<mrow><mn>2.5</mn><mo>&#215;</mo><msup><mn>10</mn><mn>-3</mn></msup><mspace width="0.2em"/><mi mathvariant="normal">m</mi></mrow>'
    """
    head, _, power = number.partition("e")
    text = f"<mn>{escape(head)}</mn>"
    if power:
        text += f"<mo>&#215;</mo><msup><mn>10</mn><mn>{int(power)}</mn></msup>"
    if unit:
        text += f'<mspace width="0.2em"/><mi mathvariant="normal">{escape(unit)}</mi>'
    return f"<mrow>{text}</mrow>"


def _tree(expression: str) -> ast.expr:
    return ast.parse(expression, mode="eval").body


def _symbol(symbol: str) -> str:
    head, _, below = symbol.partition("_")
    if not below:
        return f"<mi>{escape(head)}</mi>"
    return f'<msub><mi>{escape(head)}</mi><mi mathvariant="normal">{escape(below.replace("_", " "))}</mi></msub>'


def _show(node: ast.expr, name: Callable[[str], str], above: int = 0) -> str:
    match node:
        case ast.Name(id="pi"):
            return "<mi>&#960;</mi>"
        case ast.Name():
            return name(node.id)
        case ast.Constant():
            return f"<mn>{node.value}</mn>"
        case ast.UnaryOp(op=ast.USub()):
            return _wrapped(f"<mo>&#8722;</mo>{_show(node.operand, name, 2)}", 2, above)
        case ast.BinOp(op=ast.Div()):
            return f"<mfrac><mrow>{_show(node.left, name)}</mrow><mrow>{_show(node.right, name)}</mrow></mfrac>"
        case ast.BinOp(op=ast.Pow()):
            return f"<msup><mrow>{_show(node.left, name, 5)}</mrow><mrow>{_show(node.right, name)}</mrow></msup>"
        case ast.BinOp():
            return _binary(node, name, above)
        case ast.Call(func=ast.Name(id="sqrt")):
            return f"<msqrt>{_show(node.args[0], name)}</msqrt>"
        case ast.Call(func=ast.Name(id=function)) if function in FUNCTIONS:
            inside = "<mo>,</mo>".join(_show(argument, name) for argument in node.args)
            return f"<mi>{function}</mi><mo>(</mo>{inside}<mo>)</mo>"
    raise ValueError(f"an equation may not hold {ast.dump(node)}")


_SIGNS = {ast.Add: "+", ast.Sub: "&#8722;", ast.Mult: "&#8901;"}


def _binary(node: ast.BinOp, name: Callable[[str], str], above: int) -> str:
    rank = _RANK[type(node.op)]
    right = rank + (1 if isinstance(node.op, ast.Sub) else 0)
    text = f"{_show(node.left, name, rank)}<mo>{_SIGNS[type(node.op)]}</mo>{_show(node.right, name, right)}"
    return _wrapped(text, rank, above)


def _wrapped(text: str, rank: int, above: int) -> str:
    return f"<mo>(</mo>{text}<mo>)</mo>" if rank < above else text
