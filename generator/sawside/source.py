"""Reads a shop file: the only home of the YAML parser. All values stay text and every key and value knows its place.

Only a small part of YAML is read: maps and lists by indentation, and text. What surprises people or can harm the
machine it runs on (anchors, tags, merge keys, several documents, lists in one line) is refused, each with its own fault.
The parser's event stream is used, so nothing is ever expanded or constructed, and size, depth and count are bounded.
"""

import re
from pathlib import Path
from typing import cast

import yaml

from sawside.errors import At, Fault, Faults
from sawside.nodes import Empty, List, Map, Node, Text, find, part, quote
from sawside.syntax import SECOND, explain, flow_hint, place
from sawside.text_file import MOST_FAULTS, clean, load

__all__ = ["Empty", "List", "Map", "Node", "Text", "find", "part", "quote", "read", "read_file", "scan"]

MOST_NODES = 20_000
DEEPEST = 12


def read_file(path: Path, shown: str) -> Map:
    """Read one YAML file; `shown` is its name in faults. Raises Faults, also when it cannot be read or is too large."""
    return read(load(path, shown), shown)


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
    return _Builder(*clean(data, file), file).document()


def lines(path: Path, shown: str) -> list[str]:
    """Return the lines of a YAML file as they stand."""
    return clean(load(path, shown), shown)[1]


def scan(path: Path, shown: str) -> list[str]:
    """Return the lines of a YAML file that another program will read; raise Faults where it is no YAML.

    Everything YAML has is let through but the tags that make a reader run Python.
    """
    text, lines = clean(load(path, shown), shown)
    builder = _Builder(text, lines, shown)
    while not isinstance(event := builder.event(), yaml.StreamEndEvent):
        if "python" in (getattr(event, "tag", None) or ""):
            hint = "take the word that begins with `!` out"
            builder.refuse(builder.at(event), "a tag that runs Python is not allowed", hint)
    if builder.faults:
        raise Faults(builder.faults)
    return lines


def _span(event: yaml.Event) -> tuple[yaml.Mark, yaml.Mark]:
    """Return where an event begins and ends; what comes from the parser knows both."""
    return cast(yaml.Mark, event.start_mark), cast(yaml.Mark, event.end_mark)


class _Builder:
    """Turns the parser's events into nodes. Depth is bounded by DEEPEST, so the recursion is too."""

    def __init__(self, text: str, lines: list[str], file: str) -> None:
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
                self.refuse(self.at(after), SECOND, "one file holds one document; take `---` and `...` out")
        if not self.faults:
            if node is None or isinstance(node, Empty):
                self.refuse(At(self.file), "the file is empty", "write at least one line of the form `key: value`")
            elif not isinstance(node, Map):
                self.refuse(node.at, "the file must hold lines of the form `key: value`", "begin with a key and a colon")
        if self.faults or not isinstance(node, Map):
            raise Faults(self.faults)
        return node

    def event(self) -> yaml.Event:
        """Return the next event; what the parser cannot read becomes a fault and ends the reading."""
        try:
            event: yaml.Event = self.loader.get_event()  # type: ignore[no-untyped-call]  # the stubs leave it untyped
            return event
        except yaml.MarkedYAMLError as error:
            begun = (error.context_mark.line, error.context_mark.column) if error.context_mark else None
            found = (error.problem_mark.line, error.problem_mark.column) if error.problem_mark else (0, 0)
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
        start, end = _span(event)
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
        if isinstance(event, yaml.CollectionStartEvent) and event.flow_style:
            self.refuse(at, *flow_hint(at.text[at.column - 1 :]))
            self.skip(event)
            return Empty(at)
        return self.map(at, depth) if isinstance(event, yaml.MappingStartEvent) else self.list(at, depth)

    def check_marks(self, event: yaml.Event, at: At) -> None:
        """Refuse anchors, aliases and tags."""
        word = at.text[at.column - 1 :].partition(" ")[0].rstrip()
        at = place(self.file, self.lines, at.line - 1, at.column - 1, len(word))
        if isinstance(event, yaml.AliasEvent):
            self.refuse(
                at, f"{quote(word)} would repeat another part of the file", "write the value out; if it is text, put it in quotes"
            )
        elif getattr(event, "anchor", None) is not None:
            self.refuse(at, f"{quote(word)} would name a part of the file", "take it out; if it is text, put it in quotes")
        elif getattr(event, "tag", None) is not None:
            self.refuse(at, f"{quote(word)} would set a type", "take it out; if it is text, put it in quotes")

    def skip(self, event: yaml.Event) -> None:
        """Read on to the end of what began with this event."""
        depth = 1
        while depth:
            event = self.event()
            depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
            self.counted(self.at(event), depth)

    def map(self, at: At, depth: int) -> Map:
        items: dict[str, tuple[At, Node]] = {}
        no_hyphen = False
        while not isinstance(event := self.event(), yaml.MappingEndEvent):
            key = self.node(event, depth + 1)
            value = self.node(self.event(), depth + 1)
            if isinstance(value, Empty):
                value = Empty(key.at)
            begun_again = isinstance(key, Text) and key.at.column > 1 and key.value == next(iter(items), "") == "id"
            if begun_again and not no_hyphen:
                self.refuse(
                    key.at,
                    "a second `id` in one group: its hyphen may be missing",
                    f"begin each group with a hyphen and a space: `- id: {getattr(value, 'value', '...')}`",
                )
            no_hyphen |= begun_again
            if not no_hyphen and self.is_key(key, items) and isinstance(key, Text):
                items[key.value] = key.at, value
        return Map(items, next(iter(items.values()))[0] if items else at)

    def is_key(self, key: Node, items: dict[str, tuple[At, Node]]) -> bool:
        """Return whether a key is one word not seen before in this map, and refuse it otherwise."""
        if not isinstance(key, Text) or not key.value.isprintable():
            # An alias or a list in one line has been refused already.
            if key.at.line not in {fault.at.line for fault in self.faults}:
                self.refuse(key.at, "a key must be one word", "write `key: value`")
        elif key.value == "<<":
            self.refuse(key.at, "`<<` would merge another part of the file", "write its keys out here")
        elif key.value in items:
            first = items[key.value][0].line
            self.refuse(key.at, f"{quote(key.value)} is written twice", f"the first one is in line {first}; keep one of them")
        else:
            return True
        return False

    def list(self, at: At, depth: int) -> List:
        items = []
        while not isinstance(event := self.event(), yaml.SequenceEndEvent):
            items.append(self.node(event, depth + 1))
        return List(tuple(items), at)

    def text(self, event: yaml.ScalarEvent, at: At) -> Text | Empty:
        if event.value == "" and not event.style:
            dash = place(self.file, self.lines, at.line - 1, max(0, _span(event)[0].column - 1), 1)
            return Empty(dash)
        if not event.style:
            self.check_comment(event)
        return Text(event.value, at, event.style in ("'", '"'), self.places(event, at))

    def check_comment(self, event: yaml.ScalarEvent) -> None:
        """Refuse `Hook #3`: YAML would silently drop the `#3` as a comment."""
        _, end = _span(event)
        behind = self.lines[end.line][end.column :] if end.line < len(self.lines) else ""
        if lost := re.match(r"(\s+)(#[^\s#].*)", behind):
            at = place(self.file, self.lines, end.line, end.column + len(lost[1]))
            self.refuse(
                at, "this would be dropped as a comment", "put the text in quotes; if it is a comment, put a space after `#`"
            )

    def places(self, event: yaml.ScalarEvent, at: At) -> tuple[At, ...]:
        """Return one place for each line a text covers."""
        start, end = _span(event)
        if start.line == end.line:
            return (at,)
        block = event.style in ("|", ">")
        found = [] if block else [at]
        for number in range(start.line + 1, min(end.line, len(self.lines) - 1) + 1):
            line = self.lines[number] if number < end.line else self.lines[number][: end.column]
            if line.strip():
                column = len(line) - len(line.lstrip())
                found.append(place(self.file, self.lines, number, column, len(line.rstrip()) - column))
        return tuple(found) or (at,)
