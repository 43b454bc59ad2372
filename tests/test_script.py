"""What has no translation into JavaScript is refused with its file and line, each time it is asked for; the rest is always the same."""

import inspect
import re

import pytest

import script_cases
from sawside.families import FAMILIES
from sawside.outputs import worksheet_data
from sawside.script import translate
from sawside.script.refusal import Untranslatable

CASES = {name: one for name, one in vars(script_cases).items() if inspect.isfunction(one) and one.__module__ == "script_cases"}
BAD = {name: one for name, one in CASES.items() if name.startswith("bad_")}

#: Refused function -> (the code that is refused, what is said of it).
SAID = {
    "bad_erf": ("return math.erf(x)", "`math.erf`"),
    "bad_inside": ("return math.erf(x)", "`math.erf`"),
    "bad_generator": ("yield x", "`(yield x)`"),
    "bad_with": ("with opened() as file:", "`with opened() as file:`"),
    "bad_format": ('return f"{x:>12}"', "the format `>12`"),
    "bad_slice": ("items[1:2] = [3]", "an assignment to `items[1:2]`"),
}


@pytest.mark.parametrize("name", BAD)
def test_refused_with_file_and_line(name):
    code, said = SAID[name]
    lines = inspect.getsource(script_cases).splitlines()
    with pytest.raises(Untranslatable) as caught:
        translate.script([BAD[name]])
    assert lines[caught.value.line - 1].strip() == code
    assert str(caught.value).startswith("script_cases.py:") and said in str(caught.value)


def test_refused_again_by_the_next_that_calls_it():
    """Of what was refused nothing may be left that a second caller takes for done."""
    program = translate.Program()
    for one in (BAD["bad_inside"], BAD["bad_inside"], BAD["bad_erf"]):
        with pytest.raises(Untranslatable):
            program.function(one)
    assert program.called == {} and program.functions == []


def test_all_others_have_one():
    good = [one for name, one in CASES.items() if name.startswith("good_")]
    assert len(good) > 4 and set(translate.translatable(good).values()) == {""}


def test_two_of_one_name_are_refused():
    other = type(script_cases.good_words)(script_cases.good_words.__code__, {}, "good_words")
    with pytest.raises(ValueError, match="good_words"):
        translate.script([script_cases.good_words, other])


def test_the_site_s_script_is_the_same_every_time_and_tells_no_place_of_the_machine():
    once, again = (worksheet_data.script(FAMILIES[0]) for _ in range(2))
    assert once == again
    assert not re.search(r"/(home|tmp|usr|work)/|[A-Z]:\\\\", once)
    assert len(once) < 60_000
