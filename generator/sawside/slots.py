"""The only home of the template language: slots in procedure text and `when:` conditions, both checked before use.

A slot is a name, never a sum. A condition compares names with words; nothing else parses. What is checked here is the
parsed tree, so text that is not understood is never run.
"""

from collections.abc import Callable, Collection, Mapping
from functools import lru_cache

from jinja2 import TemplateSyntaxError, nodes
from jinja2.sandbox import ImmutableSandboxedEnvironment

#: Only its parser is used; the sandbox is there in case somebody ever runs what it parsed.
_ENVIRONMENT = ImmutableSandboxedEnvironment(autoescape=False, keep_trailing_newline=True)
_LONGEST = 2000
_COMPARISONS = ("eq", "ne", "in", "notin")

SLOT = "write it as `{{ name }}`, and the name under `slots:`"
CONDITION = 'write for example: side_guides == "roller", or table_pin and not dust_port, or known(kerf)'


class BadSlot(ValueError):
    """Text or condition that is not allowed: what is wrong, what to write, and the word to point at."""

    def __init__(self, what: str, hint: str, word: str = "") -> None:
        super().__init__(what)
        self.what, self.hint, self.word = what, hint, word


def slot_names(text: str) -> tuple[str, ...]:
    """Return the names in the slots of a text, in order.

    >>> slot_names("Push with {{ push }} at mid-span")
    ('push',)
    >>> slot_names("Push with {{ push * 2 }}")
    Traceback (most recent call last):
    ...
    sawside.slots.BadSlot: a slot holds one name and nothing else
    """
    return tuple(piece for piece, is_slot in _pieces(text) if is_slot)


def fill(text: str, words: Mapping[str, str]) -> str:
    """Return the text with every slot filled; every name must be in `words` (checked before by slot_names).

    >>> fill("Push with {{ push }}.", {"push": "30 N"})
    'Push with 30 N.'
    """
    return "".join(words[piece] if is_slot else piece for piece, is_slot in _pieces(text))


@lru_cache(maxsize=4096)
def _pieces(text: str) -> tuple[tuple[str, bool], ...]:
    """Return a text in pieces: words as they stand (False) and names of slots (True)."""
    found = []
    for node in _parse(text).body:
        for part in _parts(node):
            if isinstance(part, nodes.Name):
                found.append((part.name, True))
            elif isinstance(part, nodes.TemplateData):
                found.append((part.data, False))
            else:
                raise BadSlot("a slot holds one name and nothing else", "write it as `{{ name }}`", "{{")
    return tuple(found)


def _parse(text: str) -> nodes.Template:
    if len(text) > _LONGEST:
        raise BadSlot(f"text is longer than {_LONGEST} characters", "split it into several key points")
    for mark in ("{%", "{#"):
        if mark in text:
            raise BadSlot("only slots like `{{ name }}` are allowed in text", f"take the `{mark}` out", mark)
    try:
        return _ENVIRONMENT.parse(text)
    except (TemplateSyntaxError, RecursionError):
        raise BadSlot("the slot cannot be read", SLOT, "{{") from None


def condition_names(text: str) -> tuple[str, ...]:
    """Return the names a `when:` uses; raise BadSlot for anything but names, words, ==, !=, in, and, or, not, known().

    >>> condition_names('side_guides == "roller" and not table_pin')
    ('side_guides', 'table_pin')
    >>> condition_names("().__class__")
    Traceback (most recent call last):
    ...
    sawside.slots.BadSlot: a condition may not hold `.`
    """
    return tuple(dict.fromkeys(_walk(_condition(text))))


def holds(text: str, words: Mapping[str, object]) -> bool:
    """Return whether a condition holds for these values. An unknown value (None) equals nothing; known(name) asks for it.

    >>> holds('side_guides in ["roller", "disc"]', {"side_guides": "disc"})
    True
    >>> holds("known(tyre_shape)", {"tyre_shape": None})
    False
    """
    if not text:
        return True
    return bool(_value(_condition(text), words))


def _parts(node: nodes.Node) -> list[nodes.Expr]:
    """Return what one piece of a text puts out."""
    return node.nodes if isinstance(node, nodes.Output) else []


@lru_cache(maxsize=4096)
def _condition(text: str) -> nodes.Expr:
    if "{" in text or "}" in text or "#" in text:
        raise BadSlot("a condition is written without braces and without `#`", CONDITION)
    try:
        body = _ENVIRONMENT.parse("{{ " + text[:_LONGEST] + " }}").body
    except (TemplateSyntaxError, RecursionError):
        raise BadSlot("the condition cannot be read", CONDITION) from None
    parts = _parts(body[0]) if len(body) == 1 else []
    if len(parts) != 1 or isinstance(parts[0], nodes.TemplateData):
        raise BadSlot("the condition cannot be read", CONDITION)
    return parts[0]


#: What else the language could hold, and the word a person is shown.
_REFUSED = {nodes.Getattr: ".", nodes.Getitem: "[ ]", nodes.Filter: "|", nodes.Test: "is", nodes.Call: "( )"}


def _walk(node: nodes.Node) -> tuple[str, ...]:
    match node:
        case nodes.Name():
            return (node.name,)
        case nodes.Const() if isinstance(node.value, (str, bool)):
            return ()
        case nodes.Not():
            return _walk(node.node)
        case nodes.And() | nodes.Or():
            return _walk(node.left) + _walk(node.right)
        case nodes.List() if all(isinstance(item, nodes.Const) for item in node.items):
            return ()
        case nodes.Compare() if len(node.ops) == 1 and node.ops[0].op in _COMPARISONS:
            return _walk(node.expr) + _walk(node.ops[0].expr)
        case nodes.Call() if _is_known(node):
            return _walk(node.args[0])
    word = next((word for kind, word in _REFUSED.items() if isinstance(node, kind)), "")
    what = f"a condition may not hold `{word}`" if word else "a condition may hold only names and quoted words"
    raise BadSlot(what, f"a condition compares names with quoted words; {CONDITION}", word)


def _is_known(node: nodes.Call) -> bool:
    return (
        isinstance(node.node, nodes.Name)
        and node.node.name == "known"
        and len(node.args) == 1
        and isinstance(node.args[0], nodes.Name)
        and not (node.kwargs or node.dyn_args or node.dyn_kwargs)
    )


_OPERATORS: Mapping[str, Callable[[object, object], bool]] = {
    "eq": lambda a, b: a is not None and a == b,
    "ne": lambda a, b: a is not None and a != b,
    "in": lambda a, b: isinstance(b, Collection) and a in b,
    "notin": lambda a, b: isinstance(b, Collection) and a is not None and a not in b,
}


def _value(node: nodes.Node, words: Mapping[str, object]) -> object:
    """Evaluate the small tree by hand: `_walk` accepts exactly these nodes, so nothing is ever compiled or run."""
    match node:
        case nodes.Name():
            return words[node.name]
        case nodes.Const():
            return node.value
        case nodes.Not():
            return not _value(node.node, words)
        case nodes.And():
            return bool(_value(node.left, words)) and bool(_value(node.right, words))
        case nodes.Or():
            return bool(_value(node.left, words)) or bool(_value(node.right, words))
        case nodes.List():
            return [item.value for item in node.items if isinstance(item, nodes.Const)]
        case nodes.Compare():
            return _OPERATORS[node.ops[0].op](_value(node.expr, words), _value(node.ops[0].expr, words))
        case nodes.Call(args=[nodes.Name(name=name)]):
            return words[name] is not None
    raise AssertionError(f"unchecked condition {node!r}")
