"""How far each source was seen: a mark for every statement of where a formula comes from, read from its own words.

published: read in print, or in somebody else's copy when the text says so; practice: what the trade does, no source
found; memory: written down without looking it up; assumed: a choice of Sawside's that a shop can overwrite; derived:
worked out here from what is known, and checked in another way.
"""

import ast
import inspect
import re
import sys
import textwrap
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

MARKS = ("published", "practice", "memory", "assumed", "derived")

#: Mark -> what a statement says that bears it; the first that is found counts.
_SIGNS = (
    ("published", re.compile(r"\bREAD\b|\bread\b|\bread second-hand\b")),
    ("practice", re.compile(r"common practice|no source|\bcustom\b|trade rule|practice asks")),
    ("memory", re.compile(r"memory|textbook knowledge|theory\b|Goodman|Basquin|\bISO \d|JCGM")),
    ("assumed", re.compile(r"own choice|assumed|shop's choice|our choice|is an example")),
    ("derived", re.compile(
        r"derived|definition|geometry|Hooke|balance|counting|checked|solved|turned round|turns|similar|none needed"
        r"|two strands|agrees|equal steps|finite elements|series|lies in|saw's papers"
    )),
)  # fmt: skip
_TABLE = re.compile(r"\b[A-Z]{2,}(?:_[A-Z]+)+\b")
#: The end of a sentence, not of an abbreviation: two letters or more of one kind, a full stop, and a capital letter.
_ENDS = re.compile(r"(?:[a-z]{2}|[A-Z]{2}|.\))\. (?=[A-Z])")
_SAME_AS = re.compile(r"^(?:as|see) (?:`?(\w+)\.)?`?(\w+)`?\b")


@dataclass(frozen=True)
class Marked:
    """One statement of where something comes from, with its mark and whether it was read in print itself."""

    mark: str
    text: str
    second_hand: bool = False


def marked(function: Callable[..., Any], source: str, made_from: Mapping[str, object] | None = None) -> tuple[Marked, ...]:
    """Return the statements of a formula's `Source` with their marks; the first one is about the formula itself.

    Takes: function, for tables and for other functions its source names; source; made_from, what a value was made from:
    of a table with one row for each word only the row that was used is quoted.

    >>> from sawside.calc import band, setting
    >>> [m.mark for m in marked(band.wheel_load, "derived (balance of forces); a trade page gives it, READ.")]
    ['derived', 'published']
    >>> marked(setting.published_stress, "TARGET_STRESS", {"blade_back": "carbon_hard_back"})[0].mark
    'memory'
    """
    found: list[Marked] = []
    waiting = ""
    for text in statements(source):
        parts = _of_other(function, text) or _of_table(function, text, made_from or {}) or _one(text)
        if parts:
            parts[0] = replace(parts[0], text=waiting + parts[0].text)
            found += parts
        elif found:
            found[-1] = replace(found[-1], text=f"{found[-1].text}; {text}")
        waiting = "" if parts or found else f"{waiting}{text}; "
    return _joined(found)


def _joined(found: list[Marked]) -> tuple[Marked, ...]:
    """Return the statements with neighbours of the same mark as one, printed sources apart."""
    done: list[Marked] = []
    for part in found:
        if done and done[-1].mark == part.mark != "published":
            done[-1] = replace(done[-1], text=f"{done[-1].text}; {part.text}")
        else:
            done.append(part)
    return tuple(done)


def statements(source: str) -> list[str]:
    """Return a source's statements: what stands between semicolons or sentence ends, outside brackets.

    >>> statements("derived (a; b); a page, sec. 7, READ. A manual says so.")
    ['derived (a; b)', 'a page, sec. 7, READ', 'A manual says so']
    """
    parts, depth = [""], 0
    for place, character in enumerate(source.strip()):
        depth += (character == "(") - (character == ")")
        if depth == 0 and (character == ";" or _ENDS.match(source.strip(), max(0, place - 2))):
            parts.append("")
        else:
            parts[-1] += character
    return [part.strip().removesuffix(".") for part in parts if part.strip(" .")]


def mark_of(text: str) -> str | None:
    """Return the mark of one statement, None when its words give none.

    >>> mark_of("Shigley, from memory"), mark_of("a woodworking magazine, 2012, READ"), mark_of("hearsay")
    ('memory', 'published', None)
    """
    if text.startswith("derived"):
        return "derived"
    return next((mark for mark, sign in _SIGNS if sign.search(text)), None)


def _one(text: str) -> list[Marked]:
    mark = mark_of(text)
    return [Marked(mark, text, "second-hand" in text or "READ-2nd" in text)] if mark else []


def document(function: Callable[..., Any]) -> str:
    """Return the docstring of a function, from its source when Python was started without docstrings (-OO)."""
    if function.__doc__ or not inspect.isfunction(function) or function.__name__ == "<lambda>":
        return inspect.getdoc(function) or ""
    first = ast.parse(textwrap.dedent(inspect.getsource(function))).body[0]
    return (ast.get_docstring(first) if isinstance(first, ast.FunctionDef) else "") or ""


def _of_other(function: Callable[..., Any], text: str) -> list[Marked]:
    """Return the statements of the function that a source refers to: `as radius_fit`, `see pitch.pitch_coarsest`."""
    same = _SAME_AS.match(text)
    module = sys.modules.get(f"sawside.calc.{same[1]}") if same and same[1] else inspect.getmodule(function)
    other = getattr(module, same[2], None) if same else None
    if not inspect.isfunction(other) or other is function:
        return []
    source = re.search(r"Source:\s+(.*?)(?:>>>|\Z)", document(other), re.DOTALL)
    return list(marked(other, " ".join(source[1].split()))) if source else []


def _of_table(function: Callable[..., Any], text: str, made_from: Mapping[str, object]) -> list[Marked]:
    """Return the marks of the rows of a table that a source names, the row that was used alone where that is known."""
    name = _TABLE.search(text)
    table = getattr(inspect.getmodule(function), name[0], None) if name else None
    if not isinstance(table, dict) or not all(hasattr(row, "mark") for row in table.values()):
        return []
    used = [table[word] for word in made_from.values() if isinstance(word, str) and word in table]
    rows = {(row.source, row.mark): row for row in used or table.values()}.values()
    return [Marked(mark_of(row.mark) or "memory", f"{row.source} ({row.mark})", "2nd" in row.mark) for row in rows]
