"""Texts that can be read at the saw: short sentences and words, safety lines that name what they hurt.

LIX is the reading index of C. H. Björnsson, Läsbarhet, 1968 (from memory): words in a sentence, plus the share of words of more
than six letters in per cent. Below 25 counts as very easy, from 60 as very hard; this project's own bound is 20.
"""

import re
from pathlib import Path

import pytest

from sawside import files, guide, library, occasions

ROOT = Path(__file__).resolve().parents[1]
EASY, LONGEST_SENTENCE, MEAN_SENTENCE = 20, 25, 14
#: Hand-written pages hold commands, names of files and of keys, which are long words.
PAGES_EASY = 34
#: In one change of blade: lines that begin with `Safety:`, and notices boxed at a step.
MOST_SAFETY, MOST_BOXES = 35, 2

#: What a body can suffer: a safety line names it.
HARM = re.compile(r"\b(cut|cuts|pinch\w*|crush\w*|hit|hits|strike|strikes|thrown|drag|burns?|take your hand|at your face)\b")


def words(text: str) -> list[str]:
    return re.findall(r"[A-Za-z][A-Za-z'-]*|\d[\d.,/]*", text)


def sentences(text: str) -> list[str]:
    """Return the sentences of a text; a colon and a semicolon end one as well, for the reader draws breath there."""
    return [part for part in re.split(r"[.:;?!](?:\s|$)", text) if words(part)]


def lix(text: str) -> float:
    """Return the reading index of a text.

    >>> lix("Cut the board. Stop the machine.") == 6 / 2 + 100 * 1 / 6
    True
    """
    found = words(text)
    return len(found) / len(sentences(text)) + 100 * sum(len(word) > 6 for word in found) / len(found)


def prose(step) -> list[str]:
    """Return the texts of a step with a short number for each slot."""
    texts = [step.step + ".", *step.key_points, step.reason, step.check, step.put_right]
    return [re.sub(r"\{\{.*?\}\}", "5 mm", text).removeprefix("Safety: ") for text in texts if text]


@pytest.fixture(scope="module")
def read():
    return library.load(files.data_folder("procedures") / "shops" / "demonstration")


def test_the_index_tells_hard_from_easy():
    easy = "Turn the wheel by hand. Look at the blade. It must not touch."
    hard = "Notwithstanding considerable manufacturing tolerances, practitioners invariably recommend comprehensive readjustment."
    assert lix(easy) < EASY < 60 < lix(hard)


def test_every_procedure_is_easy_to_read(read):
    for procedure in read.procedures:
        text = " ".join([procedure.purpose, *(line for step in procedure.steps for line in prose(step))])
        said = sentences(text)
        assert lix(text) <= EASY, (procedure.id, lix(text))
        assert max(len(words(one)) for one in said) <= LONGEST_SENTENCE, max(said, key=lambda one: len(words(one)))
        assert sum(len(words(one)) for one in said) / len(said) <= MEAN_SENTENCE, procedure.id


def test_every_notice_is_easy_to_read(read):
    for notice in read.notices.values():
        text = " ".join((notice.hazard, notice.consequence, *notice.avoid, notice.line))
        assert max(len(words(one)) for one in sentences(text)) <= LONGEST_SENTENCE, notice.id
    whole = " ".join(" ".join((one.hazard, one.consequence, *one.avoid, one.line)) for one in read.notices.values())
    assert lix(whole) <= EASY


@pytest.mark.parametrize("page", sorted((ROOT / "site_templates" / "pages").glob("*.md")), ids=lambda page: page.name)
def test_every_page_written_by_hand_can_be_read(page):
    text = re.sub(r"```.*?```", " ", page.read_text(encoding="utf-8"), flags=re.S)
    text = re.sub(r"`[^`\n]*`|\]\([^)\n]*\)|^ {4}.*$|^[|>#].*$", " ", text, flags=re.M)
    assert lix(text) <= PAGES_EASY, lix(text)


@pytest.fixture(scope="module")
def methods(read):
    found = {}
    for machine in read.machines:
        blade = read.blade(machine.get("fitted_blade"))
        made = guide.make(read, machine, guide.know(read, machine, blade), blade)
        found[machine.id] = [step for stage in occasions.stages_for(made.stages, occasions.METHOD) for step in stage.steps]
    return found


def test_a_safety_line_names_what_is_hurt(read):
    lines = [
        line for procedure in read.procedures for step in procedure.steps for line in step.key_points if line.startswith("Safety:")
    ]
    assert len(lines) > 20
    assert [line for line in lines if not HARM.search(line.lower())] == []


def test_hazards_are_not_said_until_nobody_reads_them(methods):
    for saw, steps in methods.items():
        assert sum(line.startswith("Safety:") for step in steps for line in step.key_points) <= MOST_SAFETY, saw
        assert sum(len(step.notices) for step in steps) <= MOST_BOXES, saw


def test_a_change_of_blade_is_short_enough_for_a_dozen_pages(methods):
    for saw, steps in methods.items():
        count = sum(
            len(words(text)) for step in steps for text in (step.step, *step.key_points, step.reason, step.check, step.record)
        )
        assert 3_500 <= count <= 5_800, (saw, count)
