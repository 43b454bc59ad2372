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
    Field("wheel_speed", "Wheel speed", "rotation", "From the plate.", "850 rpm", kind="rotation", low=0.5, high=60.0,
          unknown_ok=True),
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
ASSUMED = (Field("test_push", "Push", "force", "Spring scale.", "30 N", kind="force", low=1.0, high=200.0, required=False,
                 assumed="30 N"),)
GOOD = "id: green-saw\nname: Green saw\nwheel_diameter: 250 mm\nwheel_speed: 850 rpm\n"


def token(at):
    """Return the characters a fault points at."""
    return at.text[at.column - 1 : at.column - 1 + at.length]


def read(text):
    return schema.record(source.read(text, "saw.yaml"), SAW, "machine", ASSUMED, {"blade": BLADE})


def test_a_record_holds_si_values_their_doubt_and_what_was_written():
    record, faults = read(GOOD + "span: 4 in +/- 1/16 in\ndust_port: no\ncuts:\n  - rip\n  - resaw\nteeth: 80\n"
                                 "local_rules:\n  - Never alone.\n  - Doors shut.\ntest_push: 40 N\nrevised: 2024-02-29")
    assert faults == []
    assert (record.type, record.id, record.at.line) == ("machine", "green-saw", 1)
    values = {name: entry.value for name, entry in record.entries.items()}
    # The inch is 25.4 mm exactly (NIST SP 811, B.8).
    assert values == {
        "id": "green-saw", "name": "Green saw", "wheel_diameter": 0.25, "wheel_speed": pytest.approx(850 / 60),
        "span": pytest.approx(4 * 0.0254), "dust_port": False, "cuts": ("rip", "resaw"), "teeth": 80,
        "local_rules": ("Never alone.", "Doors shut."), "test_push": 40.0, "revised": "2024-02-29",
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
    "too_large": ("wheel_diameter: 3 m", "`wheel_diameter` is `3 m`; it must be between 100 mm and 1600 mm",
                  f"check the unit and the decimal point. {WIDTH}", "3 m"),
    "too_small": ("wheel_diameter: '99 mm'", "`wheel_diameter` is `99 mm`; it must be between 100 mm and 1600 mm",
                  f"check the unit and the decimal point. {WIDTH}", "'99 mm'"),
    "too_fast": ("wheel_speed: 3601 rpm", "`wheel_speed` is `3601 rpm`; it must be between 30 rpm and 3600 rpm",
                 f"check the unit and the decimal point. {SPEED}", "3601 rpm"),
    "negative": ("margin: -1 mm", None, None, None),
    "zero": ("span: 0 mm", "`span` is `0 mm`; it must be more than zero",
             "Between the guides. Write for example `span: 100 mm`", "0 mm"),
    "doubt": ("wheel_diameter: 250 mm +/- 250 mm", "the doubt of `wheel_diameter` must be less than the value itself",
              "write how far off the measurement may be, for example: 0.65 mm +/- 0.02 mm", "+/- 250 mm"),
    "long_quantity": ("span: " + "1" * 90, "`span` must be a length, not a long text",
                      "Between the guides. Write for example `span: 100 mm`", "1" * 90),
    "choice": ("side_guides: Roler", "`side_guides` cannot be `Roler`",
               "did you mean `roller`? write one of: roller, block. Look.", "Roler"),
    "choices": ("cuts:\n  - rip\n  - curve", "`cuts` cannot be `curve`", "write one of: rip, resaw. What it is used for.", "curve"),
    "choices_twice": ("cuts:\n  - rip\n  - rip", "`rip` is in the list twice", "keep one of them", "rip"),
    "choices_one": ("cuts: rip", "`cuts` must be a list of words, not one value",
                    "What it is used for. Write `cuts:` and below it `- rip`", "rip"),
    "true": ("dust_port: true", "`dust_port` must be `yes` or `no`, not `true`",
             "Look. Write `dust_port: yes` or `dust_port: no`", "true"),
    "date": ("revised: 14.3.2026", "`revised` must be a date, but is `14.3.2026`",
             "Write year-month-day. Write for example `revised: 2026-03-14`", "14.3.2026"),
    "no_day": ("revised: 2025-02-29", "`revised` is `2025-02-29`, which is no day of the calendar",
               "Write year-month-day. Write for example `revised: 2026-03-14`", "2025-02-29"),
    "count": ("teeth: 8.5", "`teeth` must be a whole number, but is `8.5`", "Count them. Write for example `teeth: 80`", "8.5"),
    "count_far_digits": ("teeth: \u0663", "`teeth` must be a whole number, but is `\u0663`",
                         "Count them. Write for example `teeth: 80`", "\u0663"),
    "count_low": ("teeth: 2", "`teeth` is `2`; it must be between 3 and 400",
                  "check the unit and the decimal point. Count them. Write for example `teeth: 80`", "2"),
    "rules": ("local_rules:\n  - Fine.\n  - a: b", "`local_rules` must be text, not a group of keys",
              "write it on one line: `local_rules: the text`", "a"),
    "id": ("id: ../Green Saw", None, None, "../Green Saw"),
    "id_path": ("id: a/b", "`id` is `a/b`; an id has 1 to 40 small letters, digits and hyphens, no hyphen first",
                "write for example: id: a-b", "a/b"),
    "id_dots": ("id: ..", "`id` is `..`; an id has 1 to 40 small letters, digits and hyphens, no hyphen first", "make one up", ".."),
    "id_device": ("id: com1", "`id` is `com1`, which means a device on Windows", "write for example: id: com1-saw", "com1"),
    "long_text": ("name: " + "x" * 21, "`name` is 21 characters long; at most 20 fit", "say it shorter", "x" * 21),
    "empty_text": ("name: ''", "`name` is empty", "write the text after the colon, or leave the line out", "''"),
    "control": ('name: "a\\x07"', "`name` holds the character U+0007", "take it out", '"a\\x07"'),
    "override": ('name: "a\\u202e"', "`name` holds the character U+202E", "take it out", '"a\\u202e"'),
    "slot": ("name: the {{ name }}", "`name` holds `{{`: slots belong in procedures", "write the words themselves", "{{"),
    "statement": ("name: the {% x %}", "`name` holds `{%`: slots belong in procedures", "write the words themselves", "{%"),
    "slot_comment": ("name: the {# x", "`name` holds `{#`: slots belong in procedures", "write the words themselves", "{#"),
    "misspelt": ("side_guide: block", "unknown key `side_guide`", "did you mean `side_guides`?", "side_guide"),
    "other_record": ("blade_width: 13 mm", "unknown key `blade_width`",
                     "it belongs to a blade, not to a machine: move it there", "blade_width"),
    "no_such_key": ("colour: green", "unknown key `colour`",
                    "take the line out, or look up the keys of a machine on the reference page", "colour"),
}


def with_line(line):
    """Return the good file with a line added, in place of the line of the same key, and the number of that line."""
    key = line.split(":")[0]
    kept = [old for old in GOOD.splitlines() if not old.startswith(f"{key}:")]
    return "\n".join([*kept, line])


@pytest.mark.parametrize("case", [case for case in WRONG if WRONG[case][2]])
def test_each_wrong_value_has_its_own_fault_at_its_own_place(case):
    line, what, hint, pointed = WRONG[case]
    text = with_line(line)
    record, (fault,) = read(text)
    assert record is None
    assert (fault.what, fault.hint) == (what, hint)
    assert token(fault.at) == pointed
    assert fault.at.text == text.splitlines()[fault.at.line - 1]
