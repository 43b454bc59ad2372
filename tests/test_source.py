"""Reading shop files: what is read, what is refused and where the fault points. The grammar is YAML 1.1 (yaml.org)."""

import os
import re
import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sawside import source, syntax, text_file
from sawside.errors import Faults
from sawside.nodes import UNSAFE
from sawside.source import Empty, List, Map, Text

SAW = """\
# The saw by the window
id: green-saw
name: 'The ''green'' saw'
wheel_speed: 850 rpm   # from the plate
revised: 2026-03-14
dust_port: yes
shift: 1:30
note: >-
  Keep the doors
  shut.
local_rules:
  - Never alone
  - "No gloves \\u2014 the saw runs"
wheel:
  upper:
    size: 250 mm
  lower:
"""


def refused(data, file="saw.yaml"):
    """Return the faults of a text that must be refused."""
    with pytest.raises(Faults) as caught:
        source.read(data, file)
    return caught.value.faults


def token(at):
    """Return the characters a fault points at."""
    return at.text[at.column - 1 : at.column - 1 + at.length]


def test_a_file_becomes_text_maps_and_lists_with_their_places():
    items = source.read(SAW, "saw.yaml").items
    texts = {key: node.value for key, (_, node) in items.items() if isinstance(node, Text)}
    assert texts == {
        "id": "green-saw",
        "name": "The 'green' saw",
        "wheel_speed": "850 rpm",
        "revised": "2026-03-14",
        "dust_port": "yes",
        "shift": "1:30",
        "note": "Keep the doors shut.",
    }
    at, node = items["wheel_speed"]
    assert (at.line, at.column, token(at)) == (4, 1, "wheel_speed")
    assert (node.at.line, node.at.column, token(node.at)) == (4, 14, "850 rpm")
    rules = items["local_rules"][1]
    assert isinstance(rules, List)
    assert [item.value for item in rules.items] == ["Never alone", "No gloves \u2014 the saw runs"]
    assert token(rules.items[1].at) == '"No gloves \\u2014 the saw runs"'
    wheel = items["wheel"][1]
    assert isinstance(wheel, Map) and wheel.at.line == 15
    size = wheel.items["upper"][1].items["size"][1]
    assert (size.value, size.at.line, size.at.column) == ("250 mm", 16, 11)
    assert wheel.items["lower"][1] == Empty(wheel.items["lower"][0])


def test_quotes_are_remembered_and_a_folded_text_knows_each_of_its_lines():
    items = source.read(SAW, "saw.yaml").items
    assert items["name"][1].quoted and not items["id"][1].quoted
    assert [(at.line, token(at)) for at in items["note"][1].places] == [(9, "Keep the doors"), (10, "shut.")]


def test_a_text_over_several_lines_ends_where_its_words_end():
    items = source.read("a: 'one\n\n  two' # note\nb: three\n  four  # note\nc: |\n  five\n  six", "a.yaml").items
    places = [(at.line, at.column, token(at)) for _, node in items.values() for at in node.places]
    assert places == [(1, 4, "'one"), (3, 3, "two'"), (4, 4, "three"), (5, 3, "four"), (7, 3, "five"), (8, 3, "six")]


@pytest.mark.parametrize("word", ["yes", "no", "on", "null", "~", "1:30", "0x1F", "1e3", "2026-03-14", ".nan", "6", "true"])
def test_no_type_is_guessed(word):
    """YAML 1.1 turns each of these into something else (yaml.org/type); in a shop file they are what was written."""
    assert source.read(f"value: {word}", "a.yaml").items["value"][1].value == word


@pytest.mark.parametrize(
    "data", [SAW.replace("\n", "\r\n"), SAW.replace("\n", "\r"), b"\xef\xbb\xbf" + SAW.encode(), "\ufeff" + SAW]
)
def test_windows_line_ends_and_the_mark_of_notepad_change_nothing(data):
    read, plain = source.read(data, "saw.yaml"), source.read(SAW, "saw.yaml")
    assert read == plain


def test_one_document_may_begin_with_three_hyphens_and_end_with_dots():
    assert source.read("---\na: b\n...\n", "a.yaml").items["a"][1].value == "b"


QUOTE = "if it is text, put it in quotes"
DEEPER = "give both lines the same indentation; if it goes on the text above, put the whole text in quotes"
COLON = "write `key: value`, with a space after the colon"
ITEMS = "give all items of a list the same indentation, below their key"
ESCAPE = "use single quotes, or write two backslashes for one"
TAKE_OUT = "take it out; if it is text, put it in quotes"
ONE = "one file holds one document; take `---` and `...` out"

#: text, what, hint, line, column, the characters pointed at
REFUSED = {
    "twice": ("a: 1\nb: 2\na: 3", "`a` is written twice", "the first one is in line 1; keep one of them", 3, 1, "a"),
    "twice_quoted": ("a: 1\n'a': 3", "`a` is written twice", "the first one is in line 1; keep one of them", 2, 1, "'a'"),
    "tab_indent": ("a:\n \tb: 1", "a tab is used for indentation", "use spaces: two for each level", 2, 2, "\t"),
    "tab_inside": ("a:\tb", "there is a tab where a space belongs", "replace the tab by one or more spaces", 1, 3, "\t"),
    "anchor": ("a: &x 1", "`&x` would name a part of the file", TAKE_OUT, 1, 4, "&x"),
    "alias": (
        "a: *x",
        "`*x` would repeat another part of the file",
        "write the value out; if it is text, put it in quotes",
        1,
        4,
        "*x",
    ),
    "star": ("a: *very* fast", "a value cannot begin with `*`", QUOTE, 1, 4, "*"),
    "ampersand": ("a: & b", "a value cannot begin with `&`", QUOTE, 1, 4, "&"),
    "tag": (
        "a: !!python/object:os.system x",
        "`!!python/object:os.system` would set a type",
        TAKE_OUT,
        1,
        4,
        "!!python/object:os.system",
    ),
    "own_tag": ("a: !include b.yaml", "`!include` would set a type", TAKE_OUT, 1, 4, "!include"),
    "tag_map": ("a: !!map\n  b: c", "`!!map` would set a type", TAKE_OUT, 1, 4, "!!map"),
    "tag_handle": ("a: !x!y z", "a value cannot begin with `!`", QUOTE, 1, 4, "!"),
    "merge": ("a: 1\n<<: b", "`<<` would merge another part of the file", "write its keys out here", 2, 1, "<<"),
    "flow_map": ("a: {b: 1}", "lists and groups in one line with `{}` are not read here", f"{syntax.FLOW_MAP}; {QUOTE}", 1, 4, "{"),
    "flow_list": (
        "a: [1, 2]",
        "lists and groups in one line with `[]` are not read here",
        f"{syntax.FLOW_LIST}; {QUOTE}",
        1,
        4,
        "[",
    ),
    "flow_empty": ("a: []", "lists and groups in one line with `[]` are not read here", f"{syntax.FLOW_LIST}; {QUOTE}", 1, 4, "["),
    "flow_open": ("a: [", "lists and groups in one line with `[]` are not read here", f"{syntax.FLOW_LIST}; {QUOTE}", 1, 4, "["),
    "flow_close": ("a: ] b", "a value cannot begin with `]`", QUOTE, 1, 4, "]"),
    "slot": ("a: {{ push }} N", "a value cannot begin with `{`", syntax.SLOT_FIRST, 1, 4, "{"),
    "documents": ("a: 1\n---\nb: 2", "a second document begins here", ONE, 2, 1, "---"),
    "after_dots": ("a: 1\n...\nb: 2", "a second document begins here", ONE, 3, 1, "b: 2"),
    "directive": ("%YAML 1.2\n---\na: 1", "a line cannot begin with `%`", "take the line out", 1, 1, "%YAML 1.2"),
    "key_list": ("? - a\n: b", "a key must be one word", "write `key: value`", 1, 3, "-"),
    "key_lines": ("? |\n  a\n  b\n: c", "a key must be one word", "write `key: value`", 1, 3, "|"),
    "no_key": ("a: 1\n: b", "there is no key before this colon", "write `key: value`", 2, 1, ":"),
    "top_list": ("- a\n- b", "the file must hold lines of the form `key: value`", "begin with a key and a colon", 1, 1, "-"),
    "top_text": ("hello", "the file must hold lines of the form `key: value`", "begin with a key and a colon", 1, 1, "hello"),
    "no_colon": ("a: 1\nwheel_speed 850 rpm\nb: 1", "this line has no colon", COLON, 2, 1, "wheel_speed 850 rpm"),
    "colon_touches": ("a: 1\nb:2\nc: 3", "there is no space after the colon", "write a space after `b:`", 2, 1, "b:2"),
    "no_colon_first": ("wheel_speed 850 rpm\nb: 1", "this line has no colon", COLON, 1, 1, "wheel_speed 850 rpm"),
    "two_colons": (
        "name: Saw: the big one",
        "a second colon in one line",
        "put the text behind the first colon in quotes",
        1,
        10,
        ":",
    ),
    "deeper": ("a: 1\n  b: 2", "this line stands deeper than the line above, which already has a value", DEEPER, 2, 3, "b"),
    "shallower": (
        "a:\n   b: 1\n  c: 2",
        "this line is not indented like the lines it belongs to",
        "give all keys of one group the same number of spaces in front",
        3,
        3,
        "c: 2",
    ),
    "item_for_key": ("a: 1\n- b", "this `-` does not fit here", ITEMS, 2, 1, "-"),
    "item_shallower": ("a:\n  - b\n - c", "this `-` does not fit here", ITEMS, 3, 2, "-"),
    "list_after_key": ("a: - b", "a list cannot begin on the line of its key", syntax.FLOW_LIST, 1, 4, "-"),
    "open_quote": (
        "a: 1\nb: 'x\nc: 2",
        "the quote that opens here is not closed",
        "end the text with the same quote character",
        2,
        4,
        "'x",
    ),
    "after_quote": (
        "a: '13' mm",
        "there is text after the closing quote",
        "put the whole text into one pair of quotes",
        1,
        9,
        "mm",
    ),
    "escape": ('a: "C:\\saw"', "this use of `\\` inside double quotes is not known", ESCAPE, 1, 7, "\\s"),
    "escape_range": ('a: "x\\Uffffffff"', "this use of `\\` inside double quotes is not known", ESCAPE, 1, 6, "\\U"),
    "escape_digits": ('a: "\\xzz"', "this use of `\\` inside double quotes is not known", ESCAPE, 1, 5, "\\x"),
    "at_sign": ("a: @home", "a value cannot begin with `@`", QUOTE, 1, 4, "@"),
    "backtick": ("a: `x`", "a value cannot begin with a backtick", QUOTE, 1, 4, "`"),
    "percent": ("a: %5", "a value cannot begin with `%`", QUOTE, 1, 4, "%"),
    "greater": ("a: >5 mm", "a text cannot begin with `>`", QUOTE, 1, 4, ">5 mm"),
    "question": ("a: ? b", "a value cannot begin with `?`", QUOTE, 1, 4, "?"),
    "lost_comment": (
        "a: Hook #3",
        "this would be dropped as a comment",
        "put the text in quotes; if it is a comment, put a space after `#`",
        1,
        9,
        "#3",
    ),
    "control": ("a: b\x07c", "the character U+0007 is not allowed", "take it out", 1, 5, "\x07"),
    "nul": (
        "a: b\0",
        "the character U+0000 is not allowed",
        "is this a text file? If so, save it again with the encoding UTF-8",
        1,
        5,
        "\0",
    ),
    "override": ("# x\u202e\na: b", "the character U+202E is not allowed", "take it out", 1, 4, "\u202e"),
    "hidden_break": ("a: b\u2028c", "the character U+2028 is not allowed", "take it out", 1, 5, "\u2028"),
    "surrogate": ("a: \ud800", "the character U+D800 is not allowed", "take it out", 1, 4, "\ud800"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_each_surprise_is_refused_with_its_own_fault_at_its_own_place(case):
    text, what, hint, line, column, pointed = REFUSED[case]
    (fault,) = refused(text)
    assert (fault.what, fault.hint) == (what, hint)
    assert (fault.at.line, fault.at.column, token(fault.at)) == (line, column, pointed)


def test_the_frame_shows_the_line_as_written():
    assert (
        str(Faults(refused("name: Saw: the big one")))
        == """\
error: a second colon in one line
  --> saw.yaml:1:10
  |
1 | name: Saw: the big one
  |          ^
  = put the text behind the first colon in quotes"""
    )


def test_faults_come_all_at_once():
    faults = refused("a: &x 1\nb: [1]\nc: !y z\nd: 1\nd: 2\n<<: *x\ne: Hook #3\nf: @")
    assert [fault.at.line for fault in faults] == [1, 2, 3, 5, 6, 6, 7, 8]


def test_a_line_refused_once_is_not_refused_again_for_the_syntax_it_breaks():
    (fault,) = refused("step: {{ push }} by hand\nb: 1")
    assert fault.hint == syntax.SLOT_FIRST


@pytest.mark.parametrize(
    "data, what, line, column",
    [
        (b"a: 1\nname: S\xe4ge\n", "the file is not UTF-8: byte 0xE4 in line 2", 2, 8),
        ("a: ä\r\nname: S".encode() + b"\xff", "the file is not UTF-8: byte 0xFF in line 2", 2, 8),
        (b"\xef\xbb\xbfa: \xc3", "the file is not UTF-8: byte 0xC3 in line 1", 1, 4),
        ("a: 1".encode("utf-16"), "the file is saved as UTF-16", 0, 0),
    ],
)
def test_another_encoding_is_named(data, what, line, column):
    (fault,) = refused(data)
    assert (fault.what, fault.at.line, fault.at.column) == (what, line, column)
    assert fault.hint == "save it again with the encoding UTF-8"


@pytest.mark.parametrize("data", ["", "\n\n", "# only a note\n", "---\n", b"", b"\xef\xbb\xbf"])
def test_an_empty_file_is_refused(data):
    (fault,) = refused(data)
    assert (fault.what, fault.at.line) == ("the file is empty", 0)


def nested(depth):
    """Return a file with maps nested to this depth."""
    return "".join(f"{'  ' * level}a:\n" for level in range(depth - 1)) + "  " * (depth - 1) + "a: b"


def test_depth_is_bounded():
    source.read(nested(source.DEEPEST - 1), "a.yaml")
    (fault,) = refused(nested(source.DEEPEST))
    assert fault.what == "lists and groups are nested deeper than 12 levels"


def test_the_number_of_values_and_lines_is_bounded():
    fitting = "a:\n" + "- - b\n" * ((source.MOST_NODES - 3) // 2)
    source.read(fitting, "a.yaml")
    (fault,) = refused(fitting + "- - - b")
    assert fault.what == "the file holds more than 20000 values"
    (fault,) = refused("#\n" * text_file.MOST_LINES)
    assert fault.what == "the file has more than 20000 lines"


def test_a_large_file_is_refused_by_its_size_before_it_is_read(tmp_path):
    path = tmp_path / "large.yaml"
    with path.open("wb") as stream:
        stream.truncate(10_000_000_000)  # A sparse file: takes no room, but reading it would not fit the memory.
    with pytest.raises(Faults, match="the file is larger than 1 MB"):
        source.read_file(path, "large.yaml")
    assert refused("a: " + "x" * text_file.MOST_BYTES)[0].what == "the file is larger than 1 MB"


def test_the_size_is_asked_before_a_file_is_opened_and_reading_is_bounded_all_the_same():
    class Growing:
        """A file that says it is small and never ends."""

        size, asked = 10, None

        def stat(self):
            return os.stat_result((0o100644, 0, 0, 1, 0, 0, self.size, 0, 0, 0))

        def open(self, mode):
            return self

        def __enter__(self):
            return self

        def __exit__(self, *_):
            pass

        def read(self, most):
            self.asked = most
            return b"x" * most

    growing, large = Growing(), Growing()
    large.size = text_file.MOST_BYTES + 1
    for file in (growing, large):
        with pytest.raises(Faults, match="the file is larger than 1 MB"):
            source.read_file(file, "saw.yaml")
    assert (growing.asked, large.asked) == (text_file.MOST_BYTES + 1, None)


def test_a_file_is_read_and_named_as_it_is_shown(tmp_path):
    path = tmp_path / "saw.yaml"
    path.write_bytes(SAW.encode())
    assert source.read_file(path, "machines/saw.yaml").items["id"][0].file == "machines/saw.yaml"


def test_what_is_no_file_is_refused(tmp_path):
    with pytest.raises(Faults, match="this is not a file"):
        source.read_file(tmp_path, "shop")
    with pytest.raises(Faults, match="the file cannot be read: No such file"):
        source.read_file(tmp_path / "none.yaml", "none.yaml")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_does_not_hang_the_reading(tmp_path):
    os.mkfifo(tmp_path / "pipe.yaml")
    with pytest.raises(Faults, match="this is not a file"):
        source.read_file(tmp_path / "pipe.yaml", "pipe.yaml")


BOMBS = {
    "brackets": "[" * 999_000,
    "braces": "a: " + "{" * 999_000,
    "hyphens": "- " * 499_000,
    "questions": "? " * 499_000,
    "keys": "a: 1\n" * 19_000,
    "one_line": "a: " + "b " * 499_000,
    "escapes": 'a: "' + "\\n" * 499_000 + '"',
    "bangs": "a: " + "!" * 999_000,
    "many_in_brackets": "a: [" + "[]," * 300_000 + "]",
    "aliases": "a: &a\n- b\nc: &c\n" + "- *a\n" * 1000 + "d: &d\n" + "- *c\n" * 1000 + "e:\n" + "- *d\n" * 1000,
    "controls": "\x01" * 999_000,
    "number": "%YAML " + "1" * 9_000 + "\n---\na: b",
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_a_file_made_to_exhaust_the_machine_is_dealt_with_quickly(bomb):
    """The worst of these takes about a second on a slow core; ten seconds is a bound, not a measure."""
    begun = time.perf_counter()
    try:
        source.read(BOMBS[bomb], "bomb.yaml")
    except Faults as found:
        assert len(found.faults) <= text_file.MOST_FAULTS
        assert len(str(found)) < 50_000
    assert time.perf_counter() - begun < 10


def check_places(node, file_lines):
    """Check that every place of a node lies in the file and shows its line; return how many nodes were seen."""
    nodes = [node]
    for one in nodes:
        places = [one.at, *getattr(one, "places", ())]
        if isinstance(one, Map):
            places += [at for at, _ in one.items.values()]
            nodes += [value for _, value in one.items.values()]
        elif isinstance(one, List):
            nodes += one.items
        for at in places:
            check_place(at, file_lines)
    return len(nodes)


def check_place(at, file_lines):
    assert at.text == file_lines[at.line - 1]
    assert 1 <= at.column <= max(1, len(at.text))
    assert at.length == 1 or at.column - 1 + at.length <= len(at.text)


def check_only_faults(data):
    """Read anything: the outcome is a map with true places, or faults that can be printed and point into the file."""
    text = data if isinstance(data, str) else data.decode("utf-8", "replace")
    file_lines = re.split(r"\r\n|\r|\n", text.removeprefix("\ufeff"))
    try:
        node = source.read(data, "any.yaml")
    except Faults as found:
        assert found.faults
        str(found).encode("ascii", "backslashreplace").decode("ascii")
        assert all(fault.what.isprintable() and fault.hint.isprintable() for fault in found.faults)
        if isinstance(data, str):
            for fault in found.faults:
                if fault.at.line:
                    check_place(fault.at, file_lines)
        return
    assert not UNSAFE.search(text.removeprefix("\ufeff"))
    check_places(node, file_lines)


YAMLISH = st.text(st.sampled_from(list("ab1 \n\n:-?#&*!|>'\"%@`{}[],\\<~.\t\r=x0U\u00e4\u2028\ufeff\x85")), max_size=60)


@settings(max_examples=600, deadline=2000)
@given(YAMLISH | st.text(max_size=40))
@example('a: "\\ud800"')
@example("? ")
@example("\ufeff\ufeffa: b")
def test_any_text_gives_a_map_or_faults(text):
    check_only_faults(text)


@settings(max_examples=200, deadline=2000)
@given(st.binary(max_size=60))
def test_any_bytes_give_a_map_or_faults(data):
    check_only_faults(data)


@settings(max_examples=400, deadline=2000)
@given(st.lists(st.tuples(st.integers(0, len(SAW)), st.integers(0, 4), YAMLISH.map(lambda text: text[:6])), max_size=3))
def test_a_damaged_file_gives_a_map_or_faults(damages):
    text = SAW
    for start, length, put_in in damages:
        text = text[:start] + put_in + text[start + length :]
    check_only_faults(text)


def test_a_part_of_a_value_is_found_where_it_stands():
    """The value differs from what is written when there are escapes or line breaks; the place stays true."""
    text = "a: 'it''s 3 mm'\nb: 3 mm +/- 3 mm\nc: >-\n  the first line\n  the last line\nd: \"\\x33 3\"\n"
    items = {key: node for key, (_, node) in source.read(text, "a.yaml").items.items()}

    def where(key, word, start):
        at = source.part(items[key], start, len(word))
        return at.line, at.column, token(at)

    assert where("a", "mm", items["a"].value.index("mm")) == (1, 13, "mm")
    assert where("b", "3", 9) == (2, 13, "3")
    assert where("c", "line", items["c"].value.rindex("line")) == (5, 12, "line")
    assert where("c", "the", 0) == (4, 3, "the")
    # One `3` is written as an escape, so which one is meant cannot be told: the whole value is shown.
    assert where("d", "3", 2) == (6, 4, '"\\x33 3"')
