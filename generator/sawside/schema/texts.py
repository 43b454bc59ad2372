"""Words from a file: text, lists of text and names, checked for what would not print or would mean something else."""

import re
import unicodedata
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from sawside.errors import At, Fault, Faults
from sawside.nodes import UNSAFE, Empty, List, Map, Node, Text, code_point, part, quote

#: Names that mean a device on one system: a file of this name cannot be made there (Windows naming rules).
DEVICES = {"con", "prn", "aux", "nul"} | {f"{port}{n}" for port in ("com", "lpt") for n in range(10)}

_ID = re.compile(r"[a-z0-9][a-z0-9-]{0,39}")
_NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,59}")
_SLOT = re.compile(r"\{\{|\{%|\{#")


def refuse(at: At, what: str, hint: str) -> Faults:
    """Return one fault, ready to raise."""
    return Faults([Fault(at, what, hint)])


def tidy(value: str) -> str:
    """Return a text as one run: line breaks, tabs and doubled spaces are layout of the file, not part of the text.

    >>> tidy("Keep the\\n  doors  shut.\\n")
    'Keep the doors shut.'
    """
    return re.sub(r"[ \t\r\n]+", " ", value).strip(" ")


def text(name: str, node: Node, longest: int, slots: bool = False) -> str:
    """Return a text in one run; raise Faults when it is empty, too long, holds what cannot be printed or a slot."""
    if isinstance(node, Empty):
        raise refuse(node.at, f"`{name}` has no value", "write the text after the colon, or leave the line out")
    if not isinstance(node, Text):
        shape = "a list" if isinstance(node, List) else "a group of keys"
        raise refuse(node.at, f"`{name}` must be text, not {shape}", f"write it on one line: `{name}: the text`")
    if unsafe := UNSAFE.search(node.value):
        raise refuse(node.at, f"`{name}` holds the character {code_point(unsafe[0])}", "take it out")
    value = tidy(node.value)
    if not value:
        raise refuse(node.at, f"`{name}` is empty", "write the text after the colon, or leave the line out")
    if len(value) > longest:
        raise refuse(node.at, f"`{name}` is {len(value)} characters long; at most {longest} fit", "say it shorter")
    if not slots and (slot := _SLOT.search(node.value)):
        at = part(node, slot.start(), len(slot[0]))
        raise refuse(at, f"`{name}` holds {quote(slot[0])}: slots belong in procedures", "write the words themselves")
    return value


def texts(name: str, node: Node, longest: int, slots: bool = False) -> tuple[str, ...]:
    """Return a list of texts; raise Faults for every item that is wrong."""
    hint = f"write `{name}:` and below it one line for each, beginning with a hyphen and a space"
    if isinstance(node, Empty):
        raise refuse(node.at, f"`{name}` has no items", hint)
    if not isinstance(node, List):
        raise refuse(node.at, f"`{name}` must be a list", hint)
    return each(node, lambda item: text(name, unsplit(name, item), longest, slots))


def each(node: List, read: Callable[[Node], object]) -> tuple[Any, ...]:
    """Return what `read` makes of each item of a list; raise Faults with those of every item that is wrong."""
    found: list[Any] = []
    faults: list[Fault] = []
    for item in node.items:
        try:
            found.append(read(item))
        except Faults as bad:
            faults += bad.faults
    if faults:
        raise Faults(faults)
    return tuple(found)


def unsplit(name: str, item: Node) -> Node:
    """Return an item of a list of texts; raise Faults where a colon made a key of its first words."""
    if not isinstance(item, Map) or len(item.items) > 1:
        return item
    whole = re.sub(r"\s#.*", "", item.at.text[item.at.column - 1 :]).strip()
    hint = "put the whole text in quotes: " + (f"- '{whole}'" if "'" not in whole else f'- "{whole}"')
    what = f"the colon in this line of `{name}` makes a key of the words before it"
    raise refuse(replace(item.at, length=len(whole)), what, hint)


def one_or_more(name: str, node: Node, longest: int) -> tuple[str, ...]:
    """Return one text or a list of texts as a tuple."""
    return (text(name, node, longest),) if isinstance(node, Text) else texts(name, node, longest)


def identifier(name: str, node: Node) -> str:
    """Return an id that is safe as a file name and in an address; raise Faults otherwise.

    >>> from sawside.errors import At
    >>> identifier("id", Text("green-saw", At("a.yaml")))
    'green-saw'
    """
    value = text(name, node, 200)
    if not _ID.fullmatch(value):
        what = f"`{name}` is {quote(value)}; an id has 1 to 40 of the small letters a to z, digits and hyphens, no hyphen first"
        plain = re.sub(r"[^a-z0-9]+", "-", _plain_letters(value.lower())).strip("-")[:40].strip("-")
        raise refuse(node.at, what, f"write for example: {name}: {plain}" if _ID.fullmatch(plain) else "make one up")
    if value in DEVICES:
        raise refuse(node.at, f"`{name}` is `{value}`, which means a device on Windows", f"write for example: {name}: {value}-saw")
    return value


#: Letters that are written as two without their mark; of the others the mark is left out.
_TWO = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss", "æ": "ae", "ø": "oe", "å": "aa", "œ": "oe"})


def _plain_letters(word: str) -> str:
    """Return a word with letters a to z only where that can be told.

    >>> _plain_letters("gr\u00fcne s\u00e4ge"), _plain_letters("sci\u00e9")
    ('gruene saege', 'scie')
    """
    parts = unicodedata.normalize("NFKD", unicodedata.normalize("NFC", word).translate(_TWO))
    return "".join(c for c in parts if not unicodedata.combining(c))


def name_of(name: str, node: Node) -> str:
    """Return the name of a procedure, notice or figure: an id that may hold underscores and be longer."""
    value = text(name, node, 200)
    if not _NAME.fullmatch(value):
        what = f"`{name}` is {quote(value)}; a name has 1 to 60 small letters, digits, hyphens and underscores"
        raise refuse(node.at, what, f"write for example: {name}: blade-change")
    return value
