"""Checking what files hold: each wrong value has its own fault, at the part that is wrong, with what to write instead."""

import json
import re

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sawside import schema, source
from sawside.errors import Faults
from sawside.fields import TAKES, Field
from sawside.schema.texts import DEVICES

SAW = (
    Field("id", "Short name", "id", "Make it up.", "green-saw"),
    Field("name", "Name", "text", "What people call it.", "Green saw", longest=20),
    Field("wheel_diameter", "Wheel diameter", "length", "Across the wheel.", "250 mm", kind="wheel_size", low=0.1, high=1.6),
    Field(
        "wheel_speed", "Wheel speed", "rotation", "From the plate.", "850 rpm", kind="rotation", low=0.5, high=60.0, unknown_ok=True
    ),
    Field("span", "Span", "length", "Between the guides.", "100 mm", kind="work_size", required=False),
    Field("margin", "Margin", "length", "Feeler gauge.", "0.5 mm", kind="gap", low=0.0, high=0.005, required=False),
    Field("ratio", "Ratio", "number", "Our step.", "0.5", kind="ratio", low=0.0, high=1.0, required=False),
    Field("side_guides", "Side guides", "choice", "Look.", "block", choices=("roller", "block"), required=False),
    Field("cuts", "Cuts", "choices", "What it is used for.", "rip", choices=("rip", "resaw"), required=False),
    Field("dust_port", "Dust outlet", "yes_no", "Look.", "yes", required=False),
    Field("revised", "Date", "date", "Write year-month-day.", "2026-03-14", required=False),
    Field("teeth", "Teeth", "count", "Count them.", "80", low=3, high=400, required=False),
    Field("local_rules", "Rules", "lines", "A few sentences.", "Never alone.", required=False, longest=30),
)
BLADE = (Field("blade_width", "Blade width", "length", "Calipers.", "13 mm", kind="blade_width", low=0.0015, high=0.15),)
ASSUMED = (
    Field("test_push", "Push", "force", "Spring scale.", "30 N", kind="force", low=1.0, high=200.0, required=False, assumed="30 N"),
)
GOOD = "id: green-saw\nname: Green saw\nwheel_diameter: 250 mm\nwheel_speed: 850 rpm\n"


def token(at):
    """Return the characters a fault points at."""
    return at.text[at.column - 1 : at.column - 1 + at.length]


def read(text):
    return schema.record(source.read(text, "saw.yaml"), SAW, "machine", ASSUMED, {"blade": BLADE})


def test_a_record_holds_si_values_their_doubt_and_what_was_written():
    record, faults = read(
        GOOD + "span: 4 in +/- 1/16 in\ndust_port: no\ncuts:\n  - rip\n  - resaw\nteeth: 80\n"
        "local_rules:\n  - Never alone.\n  - Doors shut.\ntest_push: 40 N\nrevised: 2024-02-29"
    )
    assert faults == []
    assert (record.type, record.id, record.at.line) == ("machine", "green-saw", 1)
    values = {name: entry.value for name, entry in record.entries.items()}
    # The inch is 25.4 mm exactly (NIST SP 811, B.8).
    assert values == {
        "id": "green-saw",
        "name": "Green saw",
        "wheel_diameter": 0.25,
        "wheel_speed": pytest.approx(850 / 60),
        "span": pytest.approx(4 * 0.0254),
        "dust_port": False,
        "cuts": ("rip", "resaw"),
        "teeth": 80,
        "local_rules": ("Never alone.", "Doors shut."),
        "test_push": 40.0,
        "revised": "2024-02-29",
    }
    span = record.entries["span"]
    assert span.plus_minus == pytest.approx(0.0254 / 16)
    assert (span.status, span.written, span.at.line, token(span.at)) == ("measured", "4 in +/- 1/16 in", 5, "4 in +/- 1/16 in")
    assert record.entries["cuts"].written == "rip, resaw"


def test_unknown_is_an_answer_where_the_field_allows_it():
    record, faults = read(GOOD.replace("850 rpm", "unknown"))
    entry = record.entries["wheel_speed"]
    assert (faults, entry.value, entry.status, entry.written) == ([], None, "unknown", "unknown")
    assert record.get("wheel_speed") is None


@pytest.mark.parametrize(
    "name, written, value",
    [
        ("wheel_diameter", "guess 250 mm", 0.25),
        ("wheel_diameter", "guessed 250 mm +/- 5 mm", 0.25),
        ("side_guides", "guess roller", "roller"),
        ("dust_port", "guess no", False),
    ],
)
def test_a_guess_is_read_like_a_measure_and_marked_as_assumed(name, written, value):
    record, faults = read(re.sub(rf"(?m)^{name}:.*\n", "", GOOD) + f"{name}: {written}\n")
    entry = record.entries[name]
    assert faults == [] and entry.value == value and entry.status == "assumed"
    check = jsonschema.Draft202012Validator(schema.json_schema(SAW, "A saw"))
    assert check.is_valid(
        {"id": "a", "name": "b", "wheel_diameter": "1 m", "wheel_speed": "unknown", name: written.replace("guessed", "guess")}
    )


@pytest.mark.parametrize(
    "written, what, pointed",
    [("guess 250", "has no unit", "250"), ("guess", "begin with a number", "guess"), ("guess 9 m", "must be between", "9 m")],
)
def test_a_guess_has_to_be_possible_too(written, what, pointed):
    record, faults = read(GOOD.replace("250 mm", written))
    assert record is None and what in faults[0].what and token(faults[0].at) == pointed
    assert read(GOOD.replace("Green saw", "guess my saw"))[0].get("name") == "guess my saw"


def test_what_is_assumed_is_not_added_to_a_record():
    assert "test_push" not in read(GOOD)[0].entries


def test_signs_of_other_languages_in_a_text_are_kept_as_they_are():
    """What Markdown, HTML or the sheet's typesetter give a meaning to is just text here."""
    name = "#let *x* <b> $y$ @z"
    assert read(GOOD.replace("Green saw", f"'{name}'"))[0].get("name") == name


WIDTH = "Across the wheel. Write for example `wheel_diameter: 250 mm`"
SPEED = "From the plate. Write for example `wheel_speed: 850 rpm`, or `unknown`"

#: line to put into the good file, what, hint, the characters pointed at. A line with a known key replaces that key's.
WRONG = {
    "no_value": ("wheel_diameter:", "`wheel_diameter` has no value", WIDTH, "wheel_diameter"),
    "group": ("wheel_diameter:\n  size: 1", "`wheel_diameter` must be a length, not a group of keys", WIDTH, "size"),
    "list": ("wheel_diameter:\n  - 1", "`wheel_diameter` must be a length, not a list", WIDTH, "-"),
    "may_not_be_unknown": ("wheel_diameter: unknown", "`wheel_diameter` may not be unknown", WIDTH, "unknown"),
    "too_large": (
        "wheel_diameter: 3 m",
        "`wheel_diameter` is `3 m`; it must be between 100 mm and 1600 mm",
        f"check the unit and the decimal point. {WIDTH}",
        "3 m",
    ),
    "too_small": (
        "wheel_diameter: '99 mm'",
        "`wheel_diameter` is `99 mm`; it must be between 100 mm and 1600 mm",
        f"check the unit and the decimal point. {WIDTH}",
        "'99 mm'",
    ),
    "too_fast": (
        "wheel_speed: 3601 rpm",
        "`wheel_speed` is `3601 rpm`; it must be between 30 rpm and 3600 rpm",
        f"check the unit and the decimal point. {SPEED}",
        "3601 rpm",
    ),
    "negative": (
        "margin: -1 mm",
        "`margin` is `-1 mm`; it must be between 0 mm and 5 mm",
        "check the unit and the decimal point. Feeler gauge. Write for example `margin: 0.5 mm`",
        "-1 mm",
    ),
    "zero": (
        "span: 0 mm",
        "`span` is `0 mm`; it must be more than zero",
        "Between the guides. Write for example `span: 100 mm`",
        "0 mm",
    ),
    "doubt": (
        "wheel_diameter: 250 mm +/- 250 mm",
        "the doubt of `wheel_diameter` must be less than the value itself",
        "write how far off the measurement may be, for example: 0.65 mm +/- 0.02 mm",
        "+/- 250 mm",
    ),
    "long_quantity": (
        "span: " + "1" * 90,
        "`span` must be a length, not a long text",
        "Between the guides. Write for example `span: 100 mm`",
        "1" * 90,
    ),
    "choice": (
        "side_guides: Roler",
        "`side_guides` cannot be `Roler`",
        "did you mean `roller`? write one of: roller, block. Look.",
        "Roler",
    ),
    "choices": ("cuts:\n  - rip\n  - curve", "`cuts` cannot be `curve`", "write one of: rip, resaw. What it is used for.", "curve"),
    "choices_twice": ("cuts:\n  - rip\n  - rip", "`rip` is in the list twice", "keep one of them", "rip"),
    "choices_one": (
        "cuts: rip",
        "`cuts` must be a list of words, not one value",
        "What it is used for. Write `cuts:` and below it `- rip`",
        "rip",
    ),
    "true": (
        "dust_port: true",
        "`dust_port` must be `yes` or `no`, not `true`",
        "Look. Write `dust_port: yes` or `dust_port: no`",
        "true",
    ),
    "date": (
        "revised: 14.3.2026",
        "`revised` must be a date, but is `14.3.2026`",
        "Write year-month-day. Write for example `revised: 2026-03-14`",
        "14.3.2026",
    ),
    "no_day": (
        "revised: 2025-02-29",
        "`revised` is `2025-02-29`, which is no day of the calendar",
        "Write year-month-day. Write for example `revised: 2026-03-14`",
        "2025-02-29",
    ),
    "count": ("teeth: 8.5", "`teeth` must be a whole number, but is `8.5`", "Count them. Write for example `teeth: 80`", "8.5"),
    "count_far_digits": (
        "teeth: \u0663",
        "`teeth` must be a whole number, but is `\u0663`",
        "Count them. Write for example `teeth: 80`",
        "\u0663",
    ),
    "count_low": ("teeth: 2", "`teeth` is `2`; it must be between 3 and 400", "Count them. Write for example `teeth: 80`", "2"),
    "rules": (
        "local_rules:\n  - Fine.\n  - a: b",
        "the colon in this line of `local_rules` makes a key of the words before it",
        "put the whole text in quotes: - 'a: b'",
        "a: b",
    ),
    "id": (
        "id: ../Green Saw",
        "`id` is `../Green Saw`; an id has 1 to 40 of the small letters a to z, digits and hyphens, no hyphen first",
        "write for example: id: green-saw",
        "../Green Saw",
    ),
    "id_path": (
        "id: a/b",
        "`id` is `a/b`; an id has 1 to 40 of the small letters a to z, digits and hyphens, no hyphen first",
        "write for example: id: a-b",
        "a/b",
    ),
    "id_dots": (
        "id: ..",
        "`id` is `..`; an id has 1 to 40 of the small letters a to z, digits and hyphens, no hyphen first",
        "make one up",
        "..",
    ),
    "id_device": ("id: com1", "`id` is `com1`, which means a device on Windows", "write for example: id: com1-saw", "com1"),
    "long_text": ("name: " + "x" * 21, "`name` is 21 characters long; at most 20 fit", "say it shorter", "x" * 21),
    "empty_text": ("name: ''", "`name` is empty", "write the text after the colon, or leave the line out", "''"),
    "control": ('name: "a\\x07"', "`name` holds the character U+0007", "take it out", '"a\\x07"'),
    "override": ('name: "a\\u202e"', "`name` holds the character U+202E", "take it out", '"a\\u202e"'),
    "slot": ("name: the {{ name }}", "`name` holds `{{`: slots belong in procedures", "write the words themselves", "{{"),
    "statement": ("name: the {% x %}", "`name` holds `{%`: slots belong in procedures", "write the words themselves", "{%"),
    "slot_comment": ("name: the {# x", "`name` holds `{#`: slots belong in procedures", "write the words themselves", "{#"),
    "misspelt": ("side_guide: block", "unknown key `side_guide`", "did you mean `side_guides`?", "side_guide"),
    "other_record": (
        "blade_width: 13 mm",
        "unknown key `blade_width`",
        "it belongs to a blade, not to a machine: move it there",
        "blade_width",
    ),
    "no_such_key": (
        "colour: green",
        "unknown key `colour`",
        "take the line out, or look up the keys of a machine on the reference page",
        "colour",
    ),
}


def with_line(line):
    """Return the good file with a line added, in place of the line of the same key, and the number of that line."""
    key = line.split(":")[0]
    kept = [old for old in GOOD.splitlines() if not old.startswith(f"{key}:")]
    return "\n".join([*kept, line])


@pytest.mark.parametrize("case", WRONG)
def test_each_wrong_value_has_its_own_fault_at_its_own_place(case):
    line, what, hint, pointed = WRONG[case]
    text = with_line(line)
    record, (fault,) = read(text)
    assert record is None
    assert (fault.what, fault.hint) == (what, hint)
    assert token(fault.at) == pointed
    assert fault.at.text == text.splitlines()[fault.at.line - 1]


def test_the_frame_of_a_fault_shows_the_line_as_written():
    _, faults = read(GOOD.replace("250 mm", "3 m"))
    assert (
        str(Faults(faults))
        == f"""\
error: `wheel_diameter` is `3 m`; it must be between 100 mm and 1600 mm
  --> saw.yaml:3:17
  |
3 | wheel_diameter: 3 m
  |                 ^^^
  = check the unit and the decimal point. {WIDTH}"""
    )


@pytest.mark.parametrize(
    "written, pointed",
    [
        ("250 parsecs", "parsecs"),
        ("250 mm/s", None),
        ("250", None),
        ("nan mm", None),
        ("inf mm", None),
        ("1e400 mm", None),
        ("250 mm +/- 1 s", None),
        ("250 mm +/- -1 mm", None),
        ("many", None),
        ("=1+1", None),
        ("-", None),
        ("", None),
        ("__import__('os')", None),
        ("9" * 79, None),
        ("1/0 in", None),
    ],
)
def test_what_is_no_length_is_refused_within_the_value(written, pointed):
    _, (fault,) = read(GOOD.replace("250 mm", f'"{written}"'))
    assert "`wheel_diameter`" in fault.what and fault.hint
    assert fault.at.line == 3
    if pointed:
        assert token(fault.at) == pointed
    assert token(fault.at) in f'"{written}"'


def test_a_value_exactly_at_a_limit_is_accepted():
    """Limits are written as sums of floats: 1.3 * 1e-3 lies above the float nearest to 0.0013, 4.1 * 1e-3 below that to 0.0041."""
    for written, limit in (("1.3 mm", 1.3 * 1e-3), ("4.1 mm", 4.1 * 1e-3)):
        for low, high in ((limit, 1.0), (1e-6, limit)):
            field = Field("gap", "Gap", "length", "Feeler gauge.", "1 mm", kind="gap", low=low, high=high)
            record, faults = schema.record(source.read(f"gap: {written}", "a.yaml"), (field,), "machine")
            assert record, faults


@pytest.mark.parametrize(
    "takes, kind, low, high, written, what",
    [
        ("length", "wheel_size", 0.1, 1.6, "70 in", "it must be between 3 15/16 in and 62 63/64 in"),
        ("length", "gap", None, 0.005, "7 mm", "it must be at most 5 mm"),
        ("length", "gap", 0.005, None, "1 mm", "it must be at least 5 mm"),
        ("pitch", "pitch", 0.7e-3, 0.06, "60 tpi", "it must be between 0.5 TPI and 36.2 TPI"),
        ("pitch", "pitch", 0.7e-3, 0.06, "80 mm pitch", "it must be between 0.7 mm pitch and 60 mm pitch"),
    ],
)
def test_a_printed_limit_is_in_the_system_written_and_lies_within_the_range(takes, kind, low, high, written, what):
    """100 mm is 3.937 in (3 15/16 is 3.9375) and 1600 mm is 62.99 in; 25.4 / 0.7 = 36.28 and 25.4 / 60 = 0.423 teeth per inch."""
    field = Field("x", "X", takes, "Measure.", "1 mm", kind=kind, low=low, high=high)
    _, (fault,) = schema.record(source.read(f"x: {written}", "a.yaml"), (field,), "machine")
    assert fault.what == f"`x` is `{written}`; {what}"


def test_some_quantities_may_be_below_zero():
    fields = tuple(Field(takes, "X", takes, "Measure.", "1") for takes in ("number", "angle", "temperature_difference"))
    text = "number: -1\nangle: 0 deg\ntemperature_difference: -5 K"
    record, faults = schema.record(source.read(text, "a.yaml"), fields, "machine")
    assert record, faults
    assert record.get("number") == -1


def test_what_is_not_known_may_be_left_unknown():
    _, (fault,) = read(GOOD.replace("850 rpm", "'?'"))
    assert fault.hint.endswith("; write `unknown` when it is not known yet")


def test_every_missing_key_is_named_with_how_to_measure_it():
    record, faults = read("id: green-saw\nname: Green saw")
    assert record is None
    assert {(fault.what, fault.hint, fault.at.line, token(fault.at)) for fault in faults} == {
        ("this machine has no `wheel_diameter` (Wheel diameter)", WIDTH, 1, "id"),
        ("this machine has no `wheel_speed` (Wheel speed)", SPEED, 1, "id"),
    }


def test_a_misspelt_key_is_not_also_called_missing():
    _, (fault,) = read(GOOD.replace("wheel_speed", "Wheel-Sped"))
    assert (fault.what, fault.hint) == ("unknown key `Wheel-Sped`", "did you mean `wheel_speed`?")


def test_a_key_that_is_already_there_is_not_suggested_again():
    _, (fault,) = read(GOOD + "wheel_sped: 1 rpm")
    assert fault.hint.startswith("take the line out")


def test_all_faults_of_a_record_come_at_once():
    _, faults = read("id: A\nname: ''\nwheel_diameter: 3 m\nside_guides: x\nbogus: 1")
    assert [fault.at.line for fault in sorted(faults)] == [1, 1, 2, 3, 4, 5]


def test_a_record_without_an_id_is_called_by_its_type():
    record, _ = schema.record(source.read("blade_width: 13 mm", "a.yaml"), BLADE, "blade")
    assert record.id == "blade"


@pytest.mark.parametrize(
    "value", ["-saw", "a_b", "a.b", "A", "x" * 41, "a b", "\u00e4", "con", "nul", "lpt9", "aux", "a\\\\b", "%2e"]
)
def test_an_id_can_always_be_a_file_name_and_an_address(value):
    _, (fault,) = read(GOOD.replace("green-saw", f'"{value}"'))
    assert fault.what.startswith("`id` is")


def test_the_device_names_are_those_windows_reserves():
    """Microsoft, "Naming Files, Paths, and Namespaces": CON, PRN, AUX, NUL, COM0 to COM9, LPT0 to LPT9 (from memory)."""
    assert len(DEVICES) == 24 and {"con", "prn", "aux", "nul", "com0", "com9", "lpt0", "lpt9"} <= DEVICES


@pytest.mark.parametrize(
    "word, words, near",
    [
        ("tire_width", ["tyre_width", "tyre_shape"], "tyre_width"),
        ("TYRE WIDTH", ["tyre_width"], "tyre_width"),
        ("bi-metal", ["bi_metal"], "bi_metal"),
        ("x" * 10_000, ["x"], None),
        ("", ["a"], None),
        ("a", [], None),
    ],
)
def test_the_nearest_word_is_suggested(word, words, near):
    assert schema.suggest(word, words) == near


BLADES = (Field("id", "Short name", "id", "Make it up.", "b13"), *BLADE)


def listed(text):
    return schema.records(source.read(text, "blades.yaml"), "blades", BLADES, "blade", (), {"machine": SAW})


def test_a_list_file_gives_its_records_in_order():
    records, faults = listed("blades:\n  - id: b13\n    blade_width: 13 mm\n  - id: a6\n    blade_width: 1/4 in")
    assert faults == []
    assert [(record.id, record.get("blade_width")) for record in records] == [("b13", 0.013), ("a6", pytest.approx(0.00635))]


BEGIN = "begin each blade with a hyphen: `  - id: ...`, its other keys below `id`"


@pytest.mark.parametrize(
    "text, what, hint, line, pointed",
    [
        (
            "blades:\n  - id: b\n    blade_width: 9 mm\n  - id: b\n    blade_width: 8 mm",
            "two blades have the id `b`",
            "the first one is in line 2; give one of them another id",
            4,
            "b",
        ),
        ("blade:\n  - id: b", "unknown key `blade`", "did you mean `blades`?", 1, "blade"),
        ("id: b", "unknown key `id`", "this file holds only `blades:`", 1, "id"),
        ("blades:", "`blades` must be a list", BEGIN, 1, "blades"),
        ("blades:\n  id: b", "`blades` must be a list", BEGIN, 1, "blades"),
        ("blades:\n  - b13", "each item of `blades` must be a group of keys", BEGIN, 2, "b13"),
        ("blades:\n  -\n", "each item of `blades` must be a group of keys", BEGIN, 2, "-"),
        (
            "blades:\n  - id: b",
            "this blade has no `blade_width` (Blade width)",
            "Calipers. Write for example `blade_width: 13 mm`",
            2,
            "id",
        ),
        (
            "blades:\n  - id: b\n    blade_width: 9 mm\n    name: x",
            "unknown key `name`",
            "it belongs to a machine, not to a blade: move it there",
            4,
            "name",
        ),
    ],
)
def test_a_list_file_is_refused_with_a_place(text, what, hint, line, pointed):
    _, (fault,) = listed(text)
    assert (fault.what, fault.hint, fault.at.line, token(fault.at)) == (what, hint, line, pointed)


PROCEDURE = """\
procedure: guides
title: Set the side guides
stage: 4
purpose: The guides hold the blade and do not touch it.
machine_state: isolated
when: side_guides == "roller"
slots:
  gap: side_clearance
notices:
  - blade-edge
steps:
  - step: Move the guides back
    id: back
    key_points:
      - Loosen one screw at a time.
      - >-
        Leave a gap of
        {{ gap }} on each side.
    reason: A guide that touches heats the blade.
    sets: side_clearance
    notice: blade-edge
    figure: side_guides
    check: "{{ gap }}, feeler gauge"
  - step: Turn the wheel by hand
    id: turn
    state: stopped
    occasions:
      - weekly
      - yearly
    unit: look
    advances: no
    card: "Turn it; gap {{ gap }}."
    put_right: Set the guides anew.
    key_points:
      - Doors shut first.
    reason: It shows what rubs.
    when: known(gap)
    sets:
      - side_clearance
      - thrust_gap
    summary: Turn by hand
    record: Rubbing heard
"""


def procedure(text):
    return schema.load_procedure(source.read(text, "p/guides.yaml"), "guides")


def test_a_procedure_holds_its_words_and_where_each_stands():
    made, faults = procedure(PROCEDURE)
    assert faults == []
    assert (made.id, made.title, made.stage, made.machine_state) == ("guides", "Set the side guides", 4, "isolated")
    assert (made.when, made.when_at.line, token(made.when_at)) == ('side_guides == "roller"', 6, 'side_guides == "roller"')
    assert (made.slots, token(made.slot_places["gap"]), made.notices) == (
        {"gap": "side_clearance"},
        "side_clearance",
        ("blade-edge",),
    )
    first, second = made.steps
    assert first.key_points == ("Loosen one screw at a time.", "Leave a gap of {{ gap }} on each side.")
    assert (first.sets, first.notices, first.figure) == (("side_clearance",), ("blade-edge",), "side_guides")
    assert (second.when, second.sets, second.summary, second.record) == (
        "known(gap)",
        ("side_clearance", "thrust_gap"),
        "Turn by hand",
        "Rubbing heard",
    )
    assert (first.id, first.state, first.occasions, first.advances) == ("back", "isolated", ("blade_change",), True)
    assert (second.id, second.state, second.occasions, second.advances) == ("turn", "stopped", ("weekly", "yearly"), False)
    assert (second.unit, second.card, second.put_right) == ("look", "Turn it; gap {{ gap }}.", "Set the guides anew.")
    assert token(second.places["sets.1"]) == "thrust_gap"
    assert token(first.places["key_points.0"]) == "Loosen one screw at a time."
    assert token(second.places["when"]) == "known(gap)"


def test_a_slot_is_found_on_the_line_it_stands_on():
    places = procedure(PROCEDURE)[0].steps[0].places
    at = schema.place_of(places, "key_points.1", "gap }}")
    assert (at.line, at.column, token(at)) == (18, 12, "gap }}")
    assert token(schema.place_of(places, "check", "gap")) == "gap"
    assert token(schema.place_of(places, "reason", "nowhere")) == "A guide that touches heats the blade."


def changed(old, new):
    assert PROCEDURE.count(old) >= 1
    return PROCEDURE.replace(old, new, 1)


@pytest.mark.parametrize(
    "text, what, hint, line, pointed",
    [
        (
            changed("    reason: A guide that touches heats the blade.\n", ""),
            "a step needs `reason`",
            "say why the step is done this way; a check may say `put_right` instead",
            12,
            "step",
        ),
        (changed("reason: A", "reson: A"), "unknown key `reson`", "did you mean `reason`?", 19, "reson"),
        (changed("    id: turn\n", "    id: back\n"), "two steps have the id `back`", "give one of them another id", 25, "back"),
        (changed("    advances: no", "    advances: never"), "`advances` cannot be `never`", "write one of: yes, no", 31, "never"),
        (
            changed("    key_points:\n      - Doors shut first.", "    key_points: Doors shut first."),
            "`key_points` must be a list",
            "write `key_points:` and below it one line for each, beginning with a hyphen and a space",
            34,
            "Doors shut first.",
        ),
        (
            changed("      - Doors shut first.\n", ""),
            "`key_points` has no items",
            "write `key_points:` and below it one line for each, beginning with a hyphen and a space",
            34,
            "key_points",
        ),
        (
            changed("    reason: It", "    colour: It\n    reason: It"),
            "unknown key `colour`",
            "keys of a step: step, key_points, id, reason, state, occasions, unit, advances, card, put_right, when, sets, check, notice, figure, "
            "record, summary",
            36,
            "colour",
        ),
        (
            changed("stage: 4", "stage: four"),
            "`stage` must be a whole number from 0 to 99, but is `four`",
            "write for example: stage: 3",
            3,
            "four",
        ),
        (
            changed("machine_state: isolated", "machine_state: isolate"),
            "`machine_state` cannot be `isolate`",
            "did you mean `isolated`? write one of: isolated, stopped, running",
            5,
            "isolate",
        ),
        (
            changed("procedure: guides", "procedure: fence"),
            "the procedure is called `fence` but its file `guides.yaml`",
            "give both the same name",
            1,
            "fence",
        ),
        (
            changed("  gap: side", "  Gap: side"),
            "a slot cannot be called `Gap`",
            "use small letters, digits and _, a letter first",
            8,
            "Gap",
        ),
        (
            changed("slots:\n  gap: side_clearance", "slots: gap"),
            "`slots` must be a group of keys",
            "write below it for example: `push: setting_push`",
            7,
            "gap",
        ),
        (
            changed("  - step: Move the guides back\n", "  - Move the guides back\n  - step: Move\n"),
            "each item of `steps` must be a group of keys",
            "begin each step with a hyphen: `  - step: Lift the guide post`, its other keys below `step`",
            12,
            "Move the guides back",
        ),
        (
            changed("title: Set the", "title: Set {{ x }} the"),
            "`title` holds `{{`: slots belong in procedures",
            "write the words themselves",
            2,
            "{{",
        ),
        (
            changed("purpose: The", 'purpose: "\\e The').replace("touch it.", 'touch it."'),
            "`purpose` holds the character U+001B",
            "take it out",
            4,
            '"\\e The guides hold the blade and do not touch it."',
        ),
        (
            PROCEDURE.split("steps:")[0],
            "a procedure needs `steps`",
            "write `steps:`, then each step with a hyphen: `  - step: Lift the guide post`",
            1,
            "procedure",
        ),
    ],
)
def test_a_procedure_is_refused_with_a_place(text, what, hint, line, pointed):
    made, (fault,) = procedure(text)
    assert made is None
    assert (fault.what, fault.hint, fault.at.line, token(fault.at)) == (what, hint, line, pointed)


NOTICES = """\
standing:
  - The maker's manual comes first.
notices:
  - id: blade-spring
    signal: WARNING
    hazard: A coiled blade springs open
    consequence: Cuts to hands and face
    avoid:
      - Wear gloves and eye protection.
    signs:
      - W022
      - M009
    machine_state: isolated
  - id: moving-blade
    signal: DANGER
    hazard: The blade runs on after the switch is off
    consequence: Fingers are cut off
    avoid:
      - No gloves.
    signs: P028
    machine_state: running
    when: dust_port
"""


def notices(text):
    return schema.load_notices(source.read(text, "notices.yaml"))


def test_notices_are_read_with_their_standing_sentences_and_conditions():
    made, standing, conditions, faults = notices(NOTICES)
    assert faults == []
    assert [(n.id, n.signal, n.signs, n.machine_state) for n in made] == [
        ("blade-spring", "WARNING", ("W022", "M009"), "isolated"),
        ("moving-blade", "DANGER", ("P028",), "running"),
    ]
    assert standing == ("The maker's manual comes first.",)
    assert conditions == {"moving-blade": "dust_port"}


def renewed(old, new):
    assert old in NOTICES
    return NOTICES.replace(old, new, 1)


@pytest.mark.parametrize(
    "text, what, hint, line, pointed",
    [
        (
            renewed("      - M009", "      - M009\n      - P028"),
            "M009 (wear gloves) and P028 (no gloves) stand in one notice",
            "make two notices: one for handling the blade, one for the running saw",
            12,
            "M009",
        ),
        (
            renewed("    machine_state: isolated\n", ""),
            "M009 (wear gloves) is only for an isolated machine",
            "write `machine_state: isolated`, or take the sign out",
            12,
            "M009",
        ),
        (
            renewed("signs: P028", "signs: M009"),
            "M009 (wear gloves) is only for an isolated machine",
            "write `machine_state: isolated`, or take the sign out",
            20,
            "M009",
        ),
        (renewed("W022", "W22"), "`W22` is no ISO 7010 code", "write a letter W, M, P, E or F and three digits: W001", 11, "W22"),
        (
            renewed("DANGER", "Danger"),
            "`signal` cannot be `Danger`",
            "did you mean `DANGER`? write one of: DANGER, WARNING, CAUTION, NOTICE",
            15,
            "Danger",
        ),
        (
            renewed("id: moving-blade", "id: blade-spring"),
            "the id `blade-spring` comes twice",
            "the first one is in line 4",
            14,
            "blade-spring",
        ),
        (
            renewed("No gloves.", "No {{ thing }}."),
            "`avoid` holds `{{`: slots belong in procedures",
            "write the words themselves",
            19,
            "{{",
        ),
        (
            renewed("    consequence: Cuts to hands and face\n", ""),
            "a notice needs `consequence`",
            "say what happens to a person",
            4,
            "id",
        ),
        (renewed("standing:", "standin:"), "unknown key `standin`", "did you mean `standing`?", 1, "standin"),
        (
            renewed("  - The maker's manual comes first.", "  a: b"),
            "`standing` must be a list",
            "write `standing:` and below it one line for each, beginning with a hyphen and a space",
            2,
            "a",
        ),
    ],
)
def test_a_notice_is_refused_with_a_place(text, what, hint, line, pointed):
    *_, (fault,) = notices(text)
    assert (fault.what, fault.hint, fault.at.line, token(fault.at)) == (what, hint, line, pointed)


def test_sources_are_read_by_key_and_no_key_comes_twice():
    text = "sources:\n  - key: beam\n    text: A textbook\n    mark: read\n    where: p. 12\n"
    made, faults = schema.load_sources(source.read(text, "sources.yaml"))
    assert faults == []
    assert (made["beam"].text, made["beam"].mark, made["beam"].where) == ("A textbook", "read", "p. 12")
    _, (fault,) = schema.load_sources(source.read(text + "  - key: beam\n    text: B\n    mark: m\n", "sources.yaml"))
    assert (fault.what, fault.at.line, fault.hint) == ("the key `beam` comes twice", 6, "the first one is in line 2")


def test_the_editor_schema_takes_the_examples_and_refuses_what_it_can():
    """The schema is checked with the reference rules of JSON Schema 2020-12 (json-schema.org)."""
    made = schema.json_schema(SAW, "Machine")
    jsonschema.Draft202012Validator.check_schema(made)
    json.dumps(made)
    check = jsonschema.Draft202012Validator(made)
    good = {field.name: field.example for field in SAW} | {"cuts": ["rip"], "local_rules": ["a"], "teeth": 80, "dust_port": True}
    assert check.is_valid(good)
    for written in ("1 1/2 in", "1\u00bd in", "93-1/2 in", "0.65 mm +/- 0.02 mm", "unknown", ".5 mm"):
        assert check.is_valid(good | {"wheel_speed": written}), written
    for name, value in {
        "wheel_speed": "fast",
        "wheel_diameter": "unknown",
        "id": "A",
        "side_guides": "x",
        "revised": "today",
        "teeth": 2,
        "cuts": "rip",
        "bogus": "1",
    }.items():
        assert not check.is_valid(good | {name: value}), name
    assert not check.is_valid({name: value for name, value in good.items() if name != "name"})
    assert made["properties"]["wheel_speed"]["description"] == "Wheel speed. From the plate. For example: 850 rpm"


def test_every_kind_of_field_can_be_read_and_described():
    for takes in TAKES:
        field = Field("x", "X", takes, "Measure.", "1", choices=("1",))
        assert schema.json_schema([field], "t")["properties"]["x"]["examples"] == ["1"]
        _, faults = schema.record(source.read("x:\n  y: z", "a.yaml"), (field,), "machine")
        assert len(faults) == 1, takes


FILES = {
    "machine": (GOOD + "span: 4 in +/- 1/16 in\ncuts:\n  - rip\nteeth: 80\nlocal_rules:\n  - Never alone.\n", read),
    "blades": ("blades:\n  - id: b13\n    blade_width: 13 mm\n  - id: a6\n    blade_width: 1/4 in", listed),
    "procedure": (PROCEDURE, procedure),
    "notices": (NOTICES, notices),
}
SCRAPS = st.text(st.sampled_from(list("ab19 \n:-'\"{}./\\+x\u00bd")), max_size=5)


@settings(max_examples=400, deadline=2000)
@given(st.sampled_from(sorted(FILES)), st.lists(st.tuples(st.integers(0, 900), st.integers(0, 6), SCRAPS), min_size=1, max_size=3))
def test_a_damaged_file_gives_what_it_should_or_faults_with_true_places(name, damages):
    text, load = FILES[name]
    for start, length, put_in in damages:
        text = text[:start] + put_in + text[start + length :]
    try:
        faults = load(text)[-1]
    except Faults as found:
        faults = found.faults
    lines = re.split("\r\n|\r|\n", text)
    for fault in faults:
        assert fault.what.isprintable() and fault.hint.isprintable()
        if fault.at.line:
            assert fault.at.text == lines[fault.at.line - 1] and token(fault.at)


@settings(max_examples=300, deadline=2000)
@given(st.sampled_from([field.name for field in SAW]), st.text(max_size=30))
def test_any_text_as_a_value_is_read_or_refused(name, value):
    text = with_line(f"{name}: '{value.replace(chr(39), chr(39) * 2)}'")
    try:
        record, faults = read(text)
    except Faults:
        return
    assert (record is None) == bool(faults)
