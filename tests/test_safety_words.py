"""No safety words without a body in them: each says what is hurt, and a note on damage to things says nothing of people.

Which words name harm is our own list, common practice, no source. The signal words are those of ANSI Z535.4 as a label maker
quotes them: DANGER, WARNING and CAUTION are about injury, NOTICE is not.
"""

import re
from types import SimpleNamespace

import pytest

from sawside import files, schema, source
from sawside.figures.signs import SIGNS
from sawside.guide import SEVERITY

#: What happens to a body: a safety line holds at least one of these words.
HARM = re.compile(
    r"\b(?:(?:cut|crush|bleed|blind|burn|pinch|kill|hurt|injur|deafen|damage|maim|bruis|whip|strike|struck|fall|fell|hit)"
    r"(?:s|es|ed|ing|ting|ning|y|n)?|cancer|wound|die|death"
    # what moves a person is harm only with the person behind it: "pull back" is none
    r"|(?:pull|drag|jerk|throw|thrown|fling|flung|push|catch)(?:s|es|ed)? (?:\w+ ){0,4}?(?:fingers?|hands?|you|face|hair|people))\b",
    re.IGNORECASE,
)
#: Who or what of a person it happens to; a verb of HARM alone may be about wood.
BODY = re.compile(
    r"\b(?:fingers?|hands?|arms?|face|eyes?|hearing|lungs?|legs?|feet|foot|skin|tendons?|nerves?|people|person|somebody|nobody|anybody|"
    r"you|your|whoever|body|hair|sleeves|wound|cancer|doctor|cuts?|bleeds?|burns?|deafens?|blinds?)\b",
    re.IGNORECASE,
)
#: Injury, which a NOTICE may not speak of.
INJURY = re.compile(
    r"\b(?:injur\w*|wound\w*|finger\w*|hand[s]?|eyes?|cuts (?:you|fingers|hands)|hurts?|bleed\w*|kills?|crush\w*)\b", re.IGNORECASE
)


def names_harm(line: str) -> bool:
    """Return whether a safety line names bodily harm: something that is done, and a body it is done to.

    >>> names_harm("Safety: a finger on the teeth is cut before you notice."), names_harm("Safety: in doubt, do not fit it.")
    (True, False)
    """
    return bool(HARM.search(line) and BODY.search(line))


def safety_lines(procedure) -> list[str]:
    """Return every line of a procedure that says it is about safety: key points that begin with `Safety:`.

    For the procedures once their texts are new; see `check_procedures`.
    """
    return [point for step in procedure.steps for point in step.key_points if point.startswith("Safety:")]


def check_procedures(procedures, most: int = 35) -> list[str]:
    """Return what is wrong with the safety lines of procedures: lines that name no harm, and more of them than are read.

    Not run on the procedures yet: their texts are being written anew, and about a third of the lines of today name no harm.
    """
    lines = [(procedure.id, line) for procedure in procedures for line in safety_lines(procedure)]
    found = [f"{where}: {line}" for where, line in lines if not names_harm(line)]
    return found + [f"{len(lines)} safety lines, at most {most} are read"] * (len(lines) > most)


@pytest.fixture(scope="module")
def notices():
    file = files.data_folder("procedures") / "notices.yaml"
    found, _, _, faults = schema.load_notices(source.read_file(file, "notices.yaml"))
    assert not faults
    return found


def test_every_notice_of_injury_names_a_body_and_what_happens_to_it(notices):
    hurting = [notice for notice in notices if notice.signal != "NOTICE"]
    assert len(hurting) > 25
    for notice in hurting:
        assert names_harm(f"{notice.hazard} {notice.consequence}"), notice.id
        assert names_harm(notice.line), (notice.id, notice.line)


def test_a_notice_of_damage_says_nothing_of_injury(notices):
    for notice in (notice for notice in notices if notice.signal == "NOTICE"):
        assert not INJURY.search(f"{notice.hazard} {notice.consequence} {notice.line}"), notice.id


@pytest.mark.parametrize(
    "line",
    [
        "Safety: do this on the bench, not on the saw.",
        "Safety: put them aside, not on the table.",
        "Safety: in doubt, do not fit it.",
        "Safety: choose a narrower blade.",
        "Safety: take the square off the table.",
    ],
)
def test_a_line_without_a_body_is_told(line):
    assert not names_harm(line)


def test_the_check_for_procedures_can_fail():
    bad, good = "Safety: put it aside.", "Safety: the teeth cut a hand that slips."
    step = SimpleNamespace(key_points=("Turn it slowly.", good, bad))
    told = check_procedures([SimpleNamespace(id="track", steps=[step, step])], most=3)
    assert told == [f"track: {bad}", f"track: {bad}", "4 safety lines, at most 3 are read"]
    assert check_procedures([SimpleNamespace(id="track", steps=[SimpleNamespace(key_points=(good,))])]) == []


def test_signs_of_notices_are_drawn_and_the_line_shows_the_first(notices):
    for notice in notices:
        assert set(notice.signs) <= set(SIGNS), notice.id
        assert len(notice.line) <= 120 and notice.line[-1] == ".", notice.id


#: What can hurt at a band saw and has to be spoken of; common practice, but for the words in brackets.
HAZARDS = {
    "small parts and the distance of a hand": r"75 mm",
    "an off-cut wedged in the insert": r"wedged between the blade and the table insert",
    "the guard below the table": r"guard below the table",
    "a saw that tips": r"tips over",
    "wrong rotation": r"run upwards",
    "the electric brake": r"electric brake",
    "running down": r"runs on after switching off",
    "a blade that seems to stand still": r"seems to stand still",  # (HSE press notice names the stroboscopic effect, READ-2nd)
    "the upper wheel after a break": r"upper wheel",
    "stop button and foot brake": r"stop button or foot brake",
    "a hot blade": r"\bhot\b",
    "loops that close": r"pinch as they close",
    "thin sheet": r"Thin sheet",
    "wood that closes on the blade": r"closes on the blade",
    "a long off-cut": r"long off-cut",
    "a key that slips": r"key or spanner slips",
    "dust on the floor": r"You slip",
    "fire in the dust": r"fire in the dust",
    "children and visitors": r"Children, visitors",
    "after a jam": r"jammed blade",
    "after a break": r"broken blade has loose ends",
    "first aid after a cut": r"Press hard on the wound",
    "work that is pulled back": r"Wedge the kerf open",
}


@pytest.mark.parametrize("hazard", HAZARDS)
def test_every_known_hazard_has_a_notice(hazard, notices):
    words = " ".join(f"{n.hazard} {n.consequence} {' '.join(n.avoid)}" for n in notices)
    assert re.search(HAZARDS[hazard], words, re.IGNORECASE), hazard


def test_there_is_one_danger_and_a_saw_has_at_most_eight_grouped(notices, views):
    """ANSI Z535.4 keeps DANGER for the most extreme situations (label maker's copy); eight is our own limit."""
    assert [notice.id for notice in notices if notice.signal == "DANGER"] == ["moving_blade"]
    (danger,) = [notice for notice in notices if notice.signal == "DANGER"]
    assert danger.signs == ("P015", "W022")
    for view in views.values():
        assert 5 <= len(view["notices"]) <= 8
        ranks = [SEVERITY.index(notice["signal"]) for notice in view["notices"]]
        assert ranks == sorted(ranks) and ranks[0] == 0
        ids = [notice["id"] for notice in (*view["notices"], *view["more_notices"])]
        assert len(ids) == len(set(ids)) and "after_cut" in ids
        for one in ("start_by_plug", "start_by_switch"), ("dust_with_extraction", "dust_without_extraction"):
            assert len(set(one) & set(ids)) == 1, "each saw has the one that is meant for it"


def test_a_stage_has_its_notices_as_lines_with_one_sign(views):
    seen = 0
    for view in views.values():
        for stage in view["stages"]:
            assert [line["id"] for line in stage["lines"]] == [notice["id"] for notice in stage["notices"]]
            for line, notice in zip(stage["lines"], stage["notices"], strict=True):
                assert (line["signal"], line["line"]) == (notice["signal"], notice["line"])
                assert line["sign"] == (notice["signs"][0] if notice["signs"] else "")
                seen += 1
    assert seen > 40
    # every sign that a page shows is among its pictures
    assert all(
        {line["sign"] for stage in view["stages"] for line in stage["lines"]} - {""} <= set(view["sign_svgs"])
        for view in views.values()
    )
