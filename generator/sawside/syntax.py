"""What the YAML parser finds, in the words of somebody who edits a shop file: one place for that wording.

The parser names tokens and contexts; a person knows colons, indentation and quotes. `explain` turns one into the other
and moves the place to the character that has to change, which is often not where the parser gave up.
"""

import re
from collections.abc import Sequence

from sawside.errors import At, Fault

FLOW = "lists and groups in one line with `{}` are not read here"
FLOW_LIST = "write each item on its own line below the key: a hyphen, a space, the item"
FLOW_MAP = "write each `key: value` on its own line, indented below its key"
SLOT_FIRST = "a text that begins with a slot needs quotes round all of it"
SECOND = "a second document begins here"
QUOTE = "if it is text, put it in quotes"

SPACE = "take this space out; where a `#` was taken away, the space behind it has to go, too"

#: A place as line and column, from 0; and one with the length it covers, None for the rest of the line.
Place = tuple[int, int]
Said = tuple[tuple[int, int, int | None], str, str]


def place(file: str, lines: Sequence[str], line: int, column: int, length: int | None = None) -> At:
    """Return the At of a 0-based place; without a length it covers the rest of the line. Past the end: the last line.

    >>> place("a.yaml", ["name: x  "], 0, 6)
    At(file='a.yaml', line=1, column=7, length=1, text='name: x  ')
    """
    line = min(line, len(lines) - 1)
    text = lines[line]
    column = min(column, max(0, len(text) - 1))
    rest = len(text.rstrip()) - column
    return At(file, line + 1, column + 1, max(1, rest if length is None else min(length, rest)), text)


def flow_hint(text: str) -> tuple[str, str]:
    """Return what is wrong with a value that begins with a bracket, and what to write.

    >>> flow_hint("{{ push }} N")
    ('a value cannot begin with `{`', 'a text that begins with a slot needs quotes round all of it')
    """
    if text.startswith("{{"):
        return "a value cannot begin with `{`", SLOT_FIRST
    kind = "[]" if text.startswith("[") else "{}"
    return FLOW.replace("{}", kind), (FLOW_LIST if kind == "[]" else FLOW_MAP) + f"; {QUOTE}"


def explain(file: str, lines: Sequence[str], problem: str, context: str, begun: Place | None, found: Place) -> Fault:
    """Return the fault for what the parser said: its problem and context, where the context began and where it stopped."""
    begun = begun or found
    if slip := _slip(file, lines, begun, found):
        return slip
    for pattern, make in _SAID:
        if re.search(pattern, f"{context}; {problem}"):
            (line, column, length), what, hint = make(lines, begun, found)
            return Fault(place(file, lines, line, column, length), what, hint)
    return Fault(
        place(file, lines, *found),
        "the file cannot be read from here on",
        "check this line and the one above: indentation, colon and quotes",
    )


#: What word processors and telephones make of a hyphen, and other marks of a list.
_MARK = re.compile(r"\s*([\u2010-\u2015\u2212\u2022\u00b7*])\s")
HYPHEN = "begin each item with a plain hyphen and a space"
#: Spaces that look like one and are none to the parser.
WIDE_SPACES = "\u00a0\u2007\u2009\u202f\u3000"


def list_mark(text: str) -> str:
    """Return the mark that a text begins with where a hyphen was meant, or nothing.

    >>> list_mark("\u2013 Ask first"), list_mark("- Ask first")
    ('\u2013', '')
    """
    found = _MARK.match(text)
    return found[1] if found else ""


def _slip(file: str, lines: Sequence[str], begun: Place, found: Place) -> Fault | None:
    """Return the fault for a character that looks right and is not, on the lines the parser spoke of."""
    near = (found[0], begun[0], _line_above(lines, min(found[0], len(lines))))
    for line in (number for number in near if number is not None and number < len(lines)):
        if mark := list_mark(lines[line]):
            return Fault(place(file, lines, line, lines[line].index(mark), 1), f"`{mark}` begins no item of a list", HYPHEN)
        if wide := re.search(f":[{WIDE_SPACES}]", lines[line]):
            return Fault(
                place(file, lines, line, wide.start() + 1, 1),
                "this is no plain space but one that does not break",
                "replace it by a space typed with the space bar",
            )
    return None


def _start(lines: Sequence[str], begun: Place, found: Place) -> Said:
    """A character that means something else to YAML begins a value."""
    character = _character(lines, found)
    if character == "\t":
        return (*found, 1), "there is a tab where a space belongs", "replace the tab by one or more spaces"
    if character in "[{":
        return (*found, None), *flow_hint(lines[found[0]][found[1] :])
    if lines[found[0]][found[1] :].strip() == "?":
        return (*found, 1), "a value cannot be `?`", f"write `unknown` when it is not known yet; {QUOTE}"
    shown = "a backtick" if character == "`" else f"`{character}`"
    return (*found, 1), f"a value cannot begin with {shown}", QUOTE


def _start_at_context(lines: Sequence[str], begun: Place, found: Place) -> Said:
    return _start(lines, begun, begun)


def _no_colon(lines: Sequence[str], begun: Place, found: Place) -> Said:
    line, column = begun
    if touching := re.match(r"([\w-]+):\S", lines[line][column:]):
        return (*begun, None), "there is no space after the colon", f"write a space after `{touching[1]}:`"
    return (*begun, None), "this line has no colon", "write `key: value`, with a space after the colon"


def _colon(lines: Sequence[str], begun: Place, found: Place) -> Said:
    """Either a second colon in one line, or a key that stands deeper than it should."""
    line, column = found
    text = lines[line]
    before = re.sub(r"^[\s-]*", "", text[:column])
    if re.search(r":\s", before):
        return (*found, 1), "a second colon in one line", "put the text behind the first colon in quotes"
    indent = len(text) - len(text.lstrip())
    above = _line_above(lines, line)
    if above is not None and not re.search(r":(\s|$)", lines[above]):
        start = len(lines[above]) - len(lines[above].lstrip())
        return _no_colon(lines, (above, start), found)
    deeper = indent - (len(lines[above]) - len(lines[above].lstrip())) if above is not None else 0
    if deeper == 1:
        return ((line, indent - 1, 1), "there is a space too many in front of this line", SPACE)
    return (
        (line, indent, column - indent),
        "this line stands deeper than the line above, which already has a value",
        "give both lines the same indentation; if it goes on the text above, put the whole text in quotes",
    )


def _line_above(lines: Sequence[str], line: int) -> int | None:
    """Return the number of the nearest line above that is neither blank nor a comment."""
    numbers = range(line - 1, -1, -1)
    return next((n for n in numbers if lines[n].strip() and not lines[n].lstrip().startswith("#")), None)


def _list_after_key(lines: Sequence[str], begun: Place, found: Place) -> Said:
    if lines[found[0]][found[1] :].strip() == "-":
        return (*found, 1), "a value cannot be `-`", f"write `unknown` when it is not known yet; {QUOTE}"
    return (*found, 1), "a list cannot begin on the line of its key", FLOW_LIST


def _item(lines: Sequence[str], begun: Place, found: Place) -> Said:
    return (*found, 1), "this `-` does not fit here", "give all items of a list the same indentation, below their key"


def _misplaced(lines: Sequence[str], begun: Place, found: Place) -> Said:
    text = lines[min(found[0], len(lines) - 1)][: found[1]]
    if re.search(r"[\"']\s*$", text):
        return (*found, None), "there is text after the closing quote", "put the whole text into one pair of quotes"
    if _character(lines, found) == ":":
        return (*found, 1), "there is no key before this colon", "write `key: value`"
    if re.match(r" \S", text + _character(lines, found)):
        return (found[0], 0, 1), "there is a space too many in front of this line", SPACE
    return (
        (*found, None),
        "this line is not indented like the lines it belongs to",
        "give all keys of one group the same number of spaces in front",
    )


def _second(lines: Sequence[str], begun: Place, found: Place) -> Said:
    first = next(number for number, line in enumerate(lines) if line.strip() and not line.lstrip().startswith("#"))
    if lines[first].startswith(" ") and not re.match(r"---|\.\.\.", lines[found[0]]):
        return (first, 0, 1), "there is a space too many in front of this line", SPACE
    return (*found, None), SECOND, "one file holds one document; take `---` and `...` out"


def _open_quote(lines: Sequence[str], begun: Place, found: Place) -> Said:
    if re.search(r'"[0-9 ./]+""\s*$', lines[begun[0]]):
        return (*begun, 1), "a quote too many", "write inches without quotes, for example: 3/4 in"
    return (*begun, None), "the quote that opens here is not closed", "end the text with the same quote character"


def _escape(lines: Sequence[str], begun: Place, found: Place) -> Said:
    line, column = found
    start = lines[line].rfind("\\", 0, column + 1)
    return (
        (line, max(0, start), 2),
        "this use of `\\` inside double quotes is not known",
        "use single quotes, or write two backslashes for one",
    )


def _block_text(lines: Sequence[str], begun: Place, found: Place) -> Said:
    return (*begun, None), f"a text cannot begin with `{_character(lines, begun)}`", QUOTE


def _character(lines: Sequence[str], where: Place) -> str:
    line, column = where
    return lines[line][column : column + 1] if line < len(lines) else ""


#: What the parser says (context; problem) and what it means to a person. The first that fits is used.
_SAID = (
    (r"found character .* that cannot start", _start),
    (r"could not find expected ':'", _no_colon),
    (r"mapping values are not allowed", _colon),
    (r"sequence entries are not allowed", _list_after_key),
    (r"expected <block end>, but found ('-'|'<block sequence start>')", _item),
    (r"(<block end>|the node content), but found '[],}\[{]'", _start),
    (r"expected '<document start>'|found '<document end>'", _second),
    (r"expected (<block end>|the node content)", _misplaced),
    (r"unexpected (end of stream|document separator)", _open_quote),
    (r"escape (character|sequence)", _escape),
    (r"while scanning a block scalar", _block_text),
    (r"while scanning an? (alias|anchor|tag)|while parsing a tag|undefined tag handle", _start_at_context),
    (r"while parsing a flow", _start_at_context),
    (r"mapping keys are not allowed", _start),
)
