"""Equations as MathML, made from the Python expression of a value: readable without any script, and checkable by tests.

An expression holds names, numbers, + - * / **, `pi`, fixed quantities such as mm(5), and the functions below. The same
tree is shown twice: with the symbols of its names, and with this machine's numbers put in.
"""

import ast
from collections.abc import Callable, Mapping
from html import escape

#: Function in an expression -> how it is written.
FUNCTIONS = {
    "sin": "sin", "cos": "cos", "tan": "tan", "asin": "arcsin", "acos": "arccos", "atan": "arctan", "tanh": "tanh",
    "exp": "exp", "log": "ln", "log2": "log2", "min": "min", "max": "max", "abs": "abs", "ceil": "ceil",
    "floor": "floor",
}  # fmt: skip
#: Units of fixed quantities: `mm(5)` in an expression is 5 mm.
UNITS = ("mm", "MPa", "h")
#: Greek letters as they are spelled in symbols.
GREEK = {
    "alpha": "α", "gamma": "γ", "delta": "δ", "Delta": "Δ", "epsilon": "ε", "eta": "η", "theta": "θ", "kappa": "κ",
    "lambda": "λ", "mu": "μ", "nu": "ν", "rho": "ρ", "sigma": "σ", "tau": "τ", "phi": "φ", "psi": "ψ", "omega": "ω",
}  # fmt: skip
_RANK = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 3, ast.Pow: 4, ast.USub: 2}
_BASE = 5


def equation(symbol: str, expression: str, symbols: Mapping[str, str]) -> str:
    """Return `symbol = expression` as MathML with the symbol of each name.

    >>> equation("A", "body_width * blade_thickness", {"body_width": "b", "blade_thickness": "t"})
    '<math display="block"><mi>A</mi><mo>=</mo><mi>b</mi><mo>&#8901;</mo><mi>t</mi></math>'
    """
    body = _show(_tree(expression), lambda name, above: symbol_of(symbols.get(name, name)))
    return f'<math display="block">{symbol_of(symbol)}<mo>=</mo>{body}</math>'


def put_in(expression: str, numbers: Mapping[str, tuple[str, str]], result: tuple[str, str]) -> str:
    """Return the expression with numbers and units put in, and its result, as MathML.

    >>> put_in("a * b", {"a": ("10", "mm"), "b": ("0.65", "mm")}, ("6.5", "mm2"))[:60]
    '<math display="block"><mrow><mn>10</mn><mspace width="0.2em"'
    """

    def number(name: str, above: int) -> str:
        shown = quantity(*numbers[name])
        # 3 mm squared is 9 mm2, not 3 mm2; and two signs in a row confuse.
        return _bracketed(shown) if above >= _BASE or (above and numbers[name][0].startswith("-")) else shown

    return f'<math display="block">{_show(_tree(expression), number)}<mo>=</mo>{quantity(*result)}</math>'


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

    >>> quantity("2.5e-3", "")
    '<mrow><mn>2.5</mn><mo>&#215;</mo><msup><mn>10</mn><mn>-3</mn></msup></mrow>'
    """
    head, _, power = number.partition("e")
    text = f"<mn>{escape(head.removeprefix('-'))}</mn>"
    if power:
        text += f"<mo>&#215;</mo><msup><mn>10</mn><mn>{int(power)}</mn></msup>"
    if head.startswith("-"):
        text = f"<mo>&#8722;</mo>{text}"
    if unit:
        text += f'<mspace width="{"0em" if unit == "°" else "0.2em"}"/><mi mathvariant="normal">{escape(unit)}</mi>'
    return f"<mrow>{text}</mrow>"


def symbol_of(symbol: str) -> str:
    """Return a symbol as MathML: Greek by its letter, what follows the first `_` below the line.

    >>> symbol_of("sigma_b")
    '<msub><mi>σ</mi><mi mathvariant="normal">b</mi></msub>'
    """
    head, _, below = symbol.partition("_")
    first = f"<mi>{escape(GREEK.get(head, head))}</mi>"
    if head.startswith("Delta") and head != "Delta":
        first = f'<mrow><mi mathvariant="normal">Δ</mi><mi>{escape(head.removeprefix("Delta"))}</mi></mrow>'
    if not below:
        return first
    return f'<msub>{first}<mi mathvariant="normal">{escape(GREEK.get(below, below).replace("_", " "))}</mi></msub>'


def written(symbol: str) -> str:
    """Return a symbol as plain text, for tables and for the formulas in words.

    >>> written("sigma_b"), written("DeltaL"), written("D/t")
    ('σ_b', 'ΔL', 'D/t')
    """
    head, _, below = symbol.partition("_")
    if head.startswith("Delta"):
        head = "Δ" + head.removeprefix("Delta")
    return GREEK.get(head, head) + (f"_{GREEK.get(below, below)}" if below else "")


def _tree(expression: str) -> ast.expr:
    return ast.parse(expression, mode="eval").body


def _show(node: ast.expr, name: Callable[[str, int], str], above: int = 0) -> str:
    match node:
        case ast.Name(id="pi"):
            return "<mi>&#960;</mi>"
        case ast.Name():
            return name(node.id, above)
        case ast.Constant():
            return f"<mn>{node.value!s}</mn>"
        case ast.UnaryOp(op=ast.USub()):
            return _wrapped(f"<mo>&#8722;</mo>{_show(node.operand, name, 2)}", 2, above)
        case ast.BinOp(op=ast.Div()):
            text = f"<mfrac><mrow>{_show(node.left, name)}</mrow><mrow>{_show(node.right, name)}</mrow></mfrac>"
            return _bracketed(text) if above >= _BASE else text
        case ast.BinOp(op=ast.Pow()):
            return f"<msup><mrow>{_show(node.left, name, _BASE)}</mrow><mrow>{_show(node.right, name)}</mrow></msup>"
        case ast.BinOp():
            return _binary(node, name, above)
        case ast.Call(func=ast.Name(id="sqrt")):
            return f"<msqrt>{_show(node.args[0], name)}</msqrt>"
        case ast.Call(func=ast.Name(id=unit), args=[ast.Constant(value=number)]) if unit in UNITS:
            shown = quantity(str(number), unit)
            return _bracketed(shown) if above >= _BASE else shown
        case ast.Call(func=ast.Name(id=function)) if function in FUNCTIONS:
            inside = "<mo>,</mo>".join(_show(argument, name) for argument in node.args)
            return f"<mi>{FUNCTIONS[function]}</mi><mo>(</mo>{inside}<mo>)</mo>"
    raise ValueError(f"an equation may not hold {ast.dump(node)}")


_SIGNS = {ast.Add: "+", ast.Sub: "&#8722;", ast.Mult: "&#8901;"}


def _binary(node: ast.BinOp, name: Callable[[str, int], str], above: int) -> str:
    rank = _RANK[type(node.op)]
    right = rank + (1 if isinstance(node.op, ast.Sub) else 0)
    text = f"{_show(node.left, name, rank)}<mo>{_SIGNS[type(node.op)]}</mo>{_show(node.right, name, right)}"
    return _wrapped(text, rank, above)


def _wrapped(text: str, rank: int, above: int) -> str:
    return _bracketed(text) if rank < above else text


def _bracketed(text: str) -> str:
    return f"<mo>(</mo>{text}<mo>)</mo>"
