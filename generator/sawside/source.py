"""Reads a shop file: the only home of the YAML parser. All values stay text and every key and value knows its place.

Only a small part of YAML is read: maps and lists by indentation, and text. What surprises people or can harm the
machine it runs on (anchors, tags, merge keys, several documents, lists in one line) is refused, each with its own fault.
The parser's event stream is used, so nothing is ever expanded or constructed, and size, depth and count are bounded.
"""

import re
import stat
from pathlib import Path

import yaml

from sawside.errors import At, Fault, Faults
from sawside.nodes import UNSAFE, Empty, List, Map, Node, Text, code_point, find, part, quote
from sawside.syntax import SLOT_FIRST, explain, flow_hint, place

__all__ = ["Empty", "List", "Map", "Node", "Text", "find", "part", "quote", "read", "read_file"]

MOST_BYTES = 1_000_000
MOST_LINES = 20_000
MOST_NODES = 20_000
DEEPEST = 12
MOST_FAULTS = 50

_BREAK = re.compile(r"\r\n|\r|\n")
_UTF8 = "save it again with the encoding UTF-8"
_UTF16 = (b"\xff\xfe", b"\xfe\xff")


def read_file(path: Path, shown: str) -> Map:
    """Read one YAML file; `shown` is its name in faults. Raises Faults, also when it cannot be read or is too large."""
    try:
        facts = path.stat()
        if not stat.S_ISREG(facts.st_mode):
            raise Faults([Fault(At(shown), "this is not a file", "put a text file in its place")])
        if facts.st_size > MOST_BYTES:
            raise Faults([_too_large(shown)])
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise Faults([Fault(At(shown), f"the file cannot be read: {error.strerror}")]) from None
    return read(data, shown)


def read(data: str | bytes, file: str) -> Map:
    """Return the map a text holds. Raises Faults with everything wrong that can be found in one reading.

    >>> node = read("name: Saw by the window\\ndust_port: yes\\n", "machines/a.yaml")
    >>> at, value = node.items["dust_port"]
    >>> value.value, value.at.line, value.at.column
    ('yes', 2, 12)
    >>> read("a: 1\\na: 2\\n", "a.yaml")
    Traceback (most recent call last):
    ...
    sawside.errors.Faults: error: `a` is written twice
      --> a.yaml:2:1
      |
    2 | a: 2
      | ^
      = the first one is in line 1; keep one of them
    """
    text = _decode(data, file)
    lines = _BREAK.split(text)
    if len(lines) > MOST_LINES:
        raise Faults([Fault(At(file), f"the file has more than {MOST_LINES} lines", "split it into several files")])
    faults = _check_lines(lines, file)
    if faults:
        raise Faults(faults[:MOST_FAULTS])
    return _Builder(text, lines, file).document()


def _too_large(file: str) -> Fault:
    return Fault(At(file), f"the file is larger than {MOST_BYTES // 1_000_000} MB", "check that it is the file you mean")


def _decode(data: str | bytes, file: str) -> str:
    """Return the text of a file without its byte order mark; raise Faults when it is too large or not UTF-8."""
    if len(data) > MOST_BYTES:
        raise Faults([_too_large(file)])
    if isinstance(data, str):
        return data.removeprefix("\ufeff")
    if data.startswith(_UTF16):
        raise Faults([Fault(At(file), "the file is saved as UTF-16", _UTF8)])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # The codec's offsets leave out a byte order mark it has removed; decoding without it keeps them true.
        data = data.removeprefix(b"\xef\xbb\xbf")
        start = data.index(error.object[error.start :]) if error.object is not data else error.start
        return _not_utf8(data, start, file)


def _not_utf8(data: bytes, start: int, file: str) -> str:
    before = _BREAK.split(data[:start].decode("utf-8"))
    rest = _BREAK.split(data[start:].decode("utf-8", "replace"))[0]
    at = At(file, len(before), len(before[-1]) + 1, 1, before[-1] + rest)
    raise Faults([Fault(at, f"the file is not UTF-8: byte 0x{data[start]:02X} in line {len(before)}", _UTF8)])


def _check_lines(lines: list[str], file: str) -> list[Fault]:
    """Return faults for characters no line may hold, tabs as indentation and directives."""
    faults = []
    for number, line in enumerate(lines):
        for found in UNSAFE.finditer(line):
            hint = "take it out" if found[0] != "\0" else f"is this a text file? If so, {_UTF8}"
            at = place(file, lines, number, found.start(), 1)
            faults.append(Fault(at, f"the character {code_point(found[0])} is not allowed", hint))
        if tab := re.match(r"( *)(\t+)", line):
            at = At(file, number + 1, tab.start(2) + 1, len(tab[2]), line)
            faults.append(Fault(at, "a tab is used for indentation", "use blanks: two for each level"))
        if line.startswith("%"):
            faults.append(Fault(place(file, lines, number, 0), "a line cannot begin with `%`", "take the line out"))
        if len(faults) >= MOST_FAULTS:
            break
    return faults


class _Builder:
    """Turns the parser's events into nodes. Depth is bounded by DEEPEST, so the recursion is too."""

    def __init__(self, text: str, lines: list[str], file: str):
        self.loader, self.lines, self.file = yaml.SafeLoader(text), lines, file
        self.faults: list[Fault] = []
        self.count = 0

    def document(self) -> Map:
        self.event()
        first = self.event()
        node = self.node(self.event(), 1) if isinstance(first, yaml.DocumentStartEvent) else None
        if node is not None:
            self.event()
            if isinstance(after := self.event(), yaml.DocumentStartEvent):
                self.refuse(self.at(after), "a second document begins here", "one file holds one document; take `---` out")
        if not self.faults:
            if node is None or isinstance(node, Empty):
                self.refuse(At(self.file), "the file is empty", "write at least one line of the form `key: value`")
            elif not isinstance(node, Map):
                self.refuse(node.at, "the file must hold lines of the form `key: value`", "begin with a key and a colon")
        if self.faults:
            raise Faults(self.faults)
        return node

    def event(self) -> yaml.Event:
        """Return the next event; what the parser cannot read becomes a fault and ends the reading."""
        try:
            return self.loader.get_event()
        except yaml.MarkedYAMLError as error:
            begun = error.context_mark and (error.context_mark.line, error.context_mark.column)
            found = (error.problem_mark.line, error.problem_mark.column)
            fault = explain(self.file, self.lines, error.problem or "", error.context or "", begun, found)
        except (ValueError, ArithmeticError, LookupError):
            # An escape such as \\Uffffffff is turned into a character by the parser without a check of its own.
            mark = self.loader.get_mark()
            fault = explain(self.file, self.lines, "escape sequence", "", None, (mark.line, mark.column))
        # A line refused before (a list in one line, say) often breaks the syntax too: one fault is enough.
        if fault.at.line not in {known.at.line for known in self.faults}:
            self.faults.append(fault)
        raise Faults(self.faults)

    def at(self, event: yaml.Event) -> At:
        start, end = event.start_mark, event.end_mark
        block = isinstance(event, yaml.ScalarEvent) and event.style in ("|", ">")
        length = end.column - start.column if end.line == start.line else None
        return place(self.file, self.lines, start.line, start.column, 1 if block else length)

    def refuse(self, at: At, what: str, hint: str, fatal: bool = False) -> None:
        self.faults.append(Fault(at, what, hint))
        if fatal or len(self.faults) >= MOST_FAULTS:
            raise Faults(self.faults)

    def counted(self, at: At, depth: int) -> None:
        self.count += 1
        if self.count > MOST_NODES:
            self.refuse(at, f"the file holds more than {MOST_NODES} values", "split it into several files", True)
        if depth > DEEPEST:
            self.refuse(at, f"lists and groups are nested deeper than {DEEPEST} levels", "take the needless levels out", True)

    def node(self, event: yaml.Event, depth: int) -> Node:
        at = self.at(event)
        self.counted(at, depth)
        self.check_marks(event, at)
        if isinstance(event, yaml.AliasEvent):
            return Empty(at)
        if isinstance(event, yaml.ScalarEvent):
            return self.text(event, at)
        if event.flow_style:
            self.refuse(at, *flow_hint(at.text[at.column - 1 :]))
            self.skip(event)
            return Empty(at)
        return self.map(at, depth) if isinstance(event, yaml.MappingStartEvent) else self.list(at, depth)

    def check_marks(self, event: yaml.Event, at: At) -> None:
        """Refuse anchors, aliases and tags."""
        word = re.match(r"\S*", at.text[at.column - 1 :])[0]
        at = place(self.file, self.lines, at.line - 1, at.column - 1, len(word))
        if isinstance(event, yaml.AliasEvent):
            self.refuse(at, f"{quote(word)} would repeat another part of the file",
                        "write the value out; if it is text, put it in quotes")
        elif event.anchor is not None:
            self.refuse(at, f"{quote(word)} would name a part of the file", "take it out; if it is text, put it in quotes")
        elif event.tag is not None:
            self.refuse(at, f"{quote(word)} would set a type", "take it out; if it is text, put it in quotes")

    def skip(self, event: yaml.Event) -> None:
        """Read on to the end of what began with this event."""
        depth = 1
        while depth:
            event = self.event()
            depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
            self.counted(self.at(event), depth)
