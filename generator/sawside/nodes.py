"""What a read file is made of: texts, maps, lists and empties, each knowing its place. No types are guessed.

`yes`, `1:30`, `6` and `2026-03-14` are all text here; the schema decides what they mean.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from sawside.errors import At

#: Characters no input may hold: controls, the line breaks editors do not show, half characters, and the overrides
#: of writing direction, which make text read differently from what it says (Unicode 15, 23.1 and 23.2; UTR 36).
UNSAFE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]")


@dataclass(frozen=True)
class Text:
    """A value as written, its place, whether it stood in quotes, and the place of each line it covers."""

    value: str
    at: At
    quoted: bool = False
    places: tuple[At, ...] = ()


@dataclass(frozen=True)
class Map:
    """Keys with their places and values, in the order of the file."""

    items: Mapping[str, tuple[At, "Node"]]
    at: At


@dataclass(frozen=True)
class List:
    """The items of a list."""

    items: tuple["Node", ...]
    at: At


@dataclass(frozen=True)
class Empty:
    """A key or a `-` with nothing behind it; the place is that of the key or the `-`."""

    at: At


Node = Text | Map | List | Empty


def every(node: Node) -> Iterator[Text]:
    """Yield each text value within a node, in the order of the file; keys are not values."""
    if isinstance(node, Text):
        yield node
    elif isinstance(node, Map):
        for _, value in node.items.values():
            yield from every(value)
    elif isinstance(node, List):
        for item in node.items:
            yield from every(item)


def part(text: Text, start: int, length: int) -> At:
    """Return the place of `length` characters of a value from `start` on; the whole text when they cannot be told apart.

    >>> line = At("saw.yaml", 2, 13, 10, "tyre_width: '18 mmm'")
    >>> part(Text("18 mmm", replace(line, length=8), quoted=True), 3, 3)
    At(file='saw.yaml', line=2, column=17, length=3, text="tyre_width: '18 mmm'")
    """
    word = text.value[start : start + length]
    hits = _hits(text.places or (text.at,), word) if word else []
    # Which occurrence it is can be told only if the file shows as many as the value holds: escapes hide some.
    if len(hits) != len(_starts(text.value, word)):
        return text.at
    return hits[len(_starts(text.value[: start + length - 1], word))]


def find(places: tuple[At, ...], word: str) -> At | None:
    """Return the first place of a word within some places, or None.

    >>> find((At("a.yaml", 3, 5, 12, "  - push {{ x }}"),), "{{ x }}").column
    10
    """
    hits = _hits(places, word) if word else []
    return hits[0] if hits else None


def _hits(places: tuple[At, ...], word: str) -> list[At]:
    return [
        replace(at, column=at.column + start, length=len(word))
        for at in places
        for start in _starts(at.text[at.column - 1 : at.column - 1 + at.length], word)
    ]


def _starts(text: str, word: str) -> list[int]:
    return [match.start() for match in re.finditer(f"(?={re.escape(word)})", text)]


def quote(word: str, longest: int = 40) -> str:
    """Return a word from a file between backticks, safe to print: shortened, and anything that does not print as `?`.

    >>> quote("tyre" + chr(7)), quote("x" * 99, 4)
    ('`tyre?`', '`xxxx...`')
    """
    clean = "".join(c if c.isprintable() and c != "`" else " " if c.isspace() else "?" for c in word[:longest])
    return f"`{clean}{'...' if len(word) > longest else ''}`"


def code_point(character: str) -> str:
    """Return the name of a character that cannot be shown.

    >>> code_point(chr(7))
    'U+0007'
    """
    return f"U+{ord(character):04X}"
