"""What a person is told when the input is wrong: faults with a place, a reason and what to write instead.

Every later stage can point at a word in a file because every key and value carries its `At`.
The frame is plain ASCII: it has to read well in a Windows shell and in a log.
"""

import textwrap
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

#: Hints longer than this go on in the next line [characters].
WIDEST = 110


@dataclass(frozen=True, order=True)
class At:
    """A place in a file: 1-based line and column, how many characters it covers, and the whole line."""

    file: str
    line: int = 0
    column: int = 0
    length: int = 1
    text: str = ""


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong with the input: where, what, and what to write instead."""

    at: At
    what: str
    hint: str = ""


class Faults(Exception):
    """All faults found in one reading, sorted by file and line, each once."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__("\n\n".join(frame(fault) for fault in self.faults))


def frame(fault: Fault) -> str:
    """Return the text a person reads: reason, place, their own line with carets, and the hint.

    >>> at = At("machines/a.yaml", 4, 15, 7, "  tyre_width: 0.6 m/s")
    >>> print(frame(Fault(at, "`tyre_width` must be a length", "write for example: tyre_width: 25 mm")))
    error: `tyre_width` must be a length
      --> machines/a.yaml:4:15
      |
    4 |   tyre_width: 0.6 m/s
      |               ^^^^^^^
      = write for example: tyre_width: 25 mm
    """
    at, file = fault.at, printable(fault.at.file)
    lines = [f"error: {printable(fault.what)}"]
    if not at.line:
        lines.append(f"  --> {file}")
        gutter = " "
    else:
        number = str(at.line)
        gutter = " " * len(number)
        shown, column = _window(at)
        before, pointed = shown[: column - 1], shown[column - 1 : column - 1 + at.length]
        carets = "^" * max(1, _width(pointed))
        lines += [
            f"{gutter} --> {file}:{at.line}:{at.column}",
            f"{gutter} |",
            f"{number} | {shown}",
            f"{gutter} | {' ' * _width(before)}{carets}",
        ]
    if fault.hint:
        start, further = f"{gutter} = ", f"{gutter}   "
        lines += textwrap.wrap(
            printable(fault.hint),
            WIDEST,
            initial_indent=start,
            subsequent_indent=further,
            break_long_words=False,
            break_on_hyphens=False,
        )
    return "\n".join(lines)


def printable(text: str) -> str:
    """Return a text as it may go onto a screen: a terminal would obey what does not print, in a file's name too.

    >>> printable("a" + chr(27) + "[31m.yaml")
    'a?[31m.yaml'
    """
    return "".join(c if c.isprintable() else " " if c in "\t\n" else "?" for c in text)


def _width(text: str) -> int:
    """Return how many columns a text takes in a terminal: an ideograph or emoji two, an accent none (UAX 11)."""
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def _window(at: At, width: int = 110) -> tuple[str, int]:
    """Return the part of a long line round the fault, control characters made visible, and the new column."""
    text = printable(at.text)
    if len(text) <= width:
        return text, at.column
    start = max(0, at.column - 1 - width // 3)
    return text[start : start + width], at.column - start
