"""Slots hold names, conditions compare names with words, and nothing else is ever run."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sawside import slots

ATTACKS = [
    "().__class__.__mro__",
    "side_guides.__class__",
    "side_guides|attr('x')",
    "lipsum.__globals__",
    "cycler()",
    "side_guides[0]",
    "1 + 1",
    "range(9)",
    "known(side_guides.x)",
    "known('x')",
    "side_guides is defined",
    "{% set x = 1 %}",
    "x if y else z",
    "side_guides ~ 'x'",
    "''.join(x)",
    "self",
    "namespace()",
    "x == y == z",
    "1 == 1 and __import__('os')",
    "dict(a=1)",
    "(1, 2)",
    "{'a': 1}",
    "-x",
    "x > 2",
]


@pytest.mark.parametrize("text", [a for a in ATTACKS if a != "self"])
def test_a_condition_refuses_everything_but_names_and_words(text):
    with pytest.raises(slots.BadSlot):
        slots.condition_names(text)


@pytest.mark.parametrize(
    "text",
    [
        "{{ x.y }}",
        "{{ x|upper }}",
        "{{ x() }}",
        "{{ 1 + 1 }}",
        "{% if x %}{% endif %}",
        "{{ x[0] }}",
        "{{ '' }}",
        "{{",
        "{% include 'a' %}",
        "{{ x if y }}",
        "{# note {{ #}{% raw %}",
        "{{ x }}" + "y" * 3000,
    ],
)
def test_a_slot_refuses_everything_but_a_name(text):
    with pytest.raises(slots.BadSlot):
        slots.slot_names(text)


WORDS = {"side_guides": "disc", "table_pin": True, "fence": None}


@pytest.mark.parametrize(
    "text,expected",
    [
        ("", True),
        ('side_guides == "disc"', True),
        ('side_guides != "disc"', False),
        ("table_pin", True),
        ("not table_pin", False),
        ('side_guides in ["roller", "disc"]', True),
        ('side_guides not in ["roller"]', True),
        ("known(fence)", False),
        ("known(table_pin)", True),
        ('fence == "none"', False),
        ('fence != "none"', False),
        ('table_pin and side_guides == "roller"', False),
        ('table_pin or side_guides == "roller"', True),
    ],
)
def test_conditions(text, expected):
    assert slots.holds(text, WORDS) is expected


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_never_a_crash(text):
    for read in (slots.slot_names, slots.condition_names):
        try:
            names = read(text)
        except slots.BadSlot:
            continue
        assert all(name.isidentifier() for name in names)


def test_filled_text_is_not_read_again():
    assert slots.fill("a {{ x }} b", {"x": "{{ y }} <b>"}) == "a {{ y }} <b> b"
