"""Occasions: which steps belong to a moment, in which order and state; on plain steps, then on every saw of the demonstration shop."""

from dataclasses import replace

import pytest

from sawside import files, guide, library, occasions
from sawside.errors import At
from sawside.model import Stage, Step

#: The method isolates the saw once for the work on blade and guides, and once more after the look under power.
MOST_ISOLATIONS = 2


def step(name: str, state: str = "isolated", found=("blade_change",), **more) -> Step:
    return Step(0, name.capitalize(), ("How.",), "Why.", name, state, found, **more)


def stage(name: str, *steps: Step, card: str = "On") -> Stage:
    return Stage(name, name.capitalize(), "So that it is right.", steps, (), At(""), card)


def test_an_occasion_keeps_its_steps_in_order_and_numbers_those_that_advance_the_work():
    made = stage(
        "a",
        step("one"),
        step("weekly", found=("weekly",)),
        step("mind", advances=False),
        step("two", found=("weekly", "blade_change")),
    )
    other = stage("b", step("only", found=("yearly",)))
    (method,) = occasions.stages_for((made, other), "blade_change")
    assert [(one.id, one.number) for one in method.steps] == [("one", 1), ("mind", 0), ("two", 2)]
    assert [one.id for (kept,) in [occasions.stages_for((made, other), "weekly")] for one in kept.steps] == ["weekly", "two"]
    assert occasions.stages_for((made, other), "after_jam") == ()


def test_a_saw_is_isolated_each_time_it_was_not():
    quiet = stage("a", step("stop", "stopped"), step("plug"), step("take"))
    look = stage("b", step("jog", "running"), step("plug_again"))
    assert occasions.states(quiet) == ("stopped", "isolated")
    assert (occasions.isolations((quiet,)), occasions.isolations((quiet, look)), occasions.isolations(())) == (1, 2, 0)
    assert occasions.isolations((stage("c", step("in")), stage("d", step("still_in")))) == 1


def test_steps_of_one_unit_make_one_line_of_the_card():
    first = stage(
        "a",
        step("stop", unit="safe", card="Stop."),
        step("plug", unit="safe", card="Plug out."),
        step("quiet"),
        step("off", card="Blade off."),
        card="Off",
    )
    second = stage("b", step("coil", unit="safe", card="Coil it."), card="Off")
    third = stage("c", step("fit", "stopped", card="Blade on."), card="On")
    assert occasions.card((first, second, third)) == [
        {"title": "Off", "lines": [
            {"number": 1, "state": "isolated", "text": "Stop. Plug out.", "steps": ["a-stop", "a-plug"]},
            {"number": 2, "state": "isolated", "text": "Blade off.", "steps": ["a-off"]},
            {"number": 3, "state": "isolated", "text": "Coil it.", "steps": ["b-coil"]}]},
        {"title": "On", "lines": [{"number": 4, "state": "stopped", "text": "Blade on.", "steps": ["c-fit"]}]},
    ]  # fmt: skip


@pytest.fixture(scope="module")
def read():
    return library.load(files.data_folder("procedures") / "shops" / "demonstration")


@pytest.fixture(scope="module")
def walks(read):
    """Return for every saw with every blade that fits it, and with none stated, the stages of every occasion."""
    found = {}
    for machine in read.machines:
        for blade in (None, *read.blades):
            known = guide.know(read, machine, blade)
            if blade is None or known.judge(guide.printer(read)).fits:
                made = guide.make(read, machine, known, blade)
                each = {name: occasions.stages_for(made.stages, name) for name in occasions.OCCASIONS}
                found[machine.id, blade.id if blade else ""] = each
    return found


def test_every_occasion_comes_to_every_saw(walks):
    missing = [(saw, name) for saw, each in walks.items() for name, stages in each.items() if not stages]
    assert missing == []
    assert len({saw for saw, _ in walks}) == 4 and len(walks) > 12


def test_no_step_has_two_places_and_ids_are_the_same_for_all_saws(read, walks):
    written = {(procedure.id, one.id) for procedure in read.procedures for one in procedure.steps}
    for each in walks.values():
        for stages in each.values():
            walked = [(stage.id, one.id) for stage in stages for one in stage.steps]
            assert len(walked) == len(set(walked)) and set(walked) <= written
            order = [next(p.stage for p in read.procedures if p.id == stage.id) for stage in stages]
            assert order == sorted(order)


def test_hands_are_in_the_saw_only_while_it_is_isolated(walks):
    """A change of blade isolates at most twice, ends with a saw that may run, and the other occasions only where they must."""
    for key, each in walks.items():
        method = each["blade_change"]
        assert 1 <= occasions.isolations(method) <= MOST_ISOLATIONS, key
        states = [state for stage in method for state in occasions.states(stage)]
        assert states[0] == "stopped", "a saw that runs is stopped before it is isolated"
        assert states[-1] != "isolated"
        for name in ("start_of_day", "before_cut"):
            assert not occasions.isolations(each[name]), (key, name)
        for name in ("weekly", "after_broken_blade", "after_jam", "after_standing"):
            assert occasions.isolations(each[name]) <= 3, (key, name)


#: Stage of the change of blade -> the stage it comes after. Common practice, no source: what an expert does in which order.
AFTER = [
    ("take_off_blade", "isolate"), ("inspect_blade", "take_off_blade"), ("fit_blade", "inspect_blade"), ("tension", "fit_blade"),
    ("track", "tension"), ("powered_look", "track"), ("upper_guides", "powered_look"), ("lower_guides", "upper_guides"),
    ("square_table", "lower_guides"), ("first_run", "square_table"), ("fence", "first_run"), ("test_cut", "fence"), ("finish", "test_cut"),
]  # fmt: skip


def test_the_method_goes_in_the_order_of_the_work(walks):
    for each in walks.values():
        order = [stage.id for stage in each["blade_change"]]
        assert set(order) >= {later for later, _ in AFTER} - {"fence"}
        assert [pair for pair in AFTER if set(pair) <= set(order) and order.index(pair[1]) > order.index(pair[0])] == []


def test_nothing_that_is_done_once_stands_in_a_change_of_blade(walks):
    for each in walks.values():
        changed = {(stage.id, one.id) for stage in each["blade_change"] for one in stage.steps}
        once = {(stage.id, one.id) for stage in each["commissioning"] for one in stage.steps if one.occasions == ("commissioning",)}
        assert once and not once & changed


def test_the_look_under_power_comes_before_the_guides_and_leads_back(walks):
    for each in walks.values():
        look = next(stage for stage in each["blade_change"] if stage.id == "powered_look")
        assert "running" in occasions.states(look) and occasions.states(look)[-1] == "isolated"
        assert any("track" in point.lower() for one in look.steps for point in (*one.key_points, one.check, one.put_right))


def test_the_card_has_about_twenty_short_lines_for_every_blade(walks):
    for (saw, blade), each in walks.items():
        lines = [line for part in occasions.card(each["blade_change"]) for line in part["lines"]]
        assert 16 <= len(lines) <= 22, (saw, blade, len(lines))
        assert [line["number"] for line in lines] == list(range(1, len(lines) + 1))
        longest = max(lines, key=lambda line: len(line["text"].split()))
        assert len(longest["text"].split()) <= 40, (saw, longest)


def test_a_wrong_order_would_be_seen(walks):
    """The checks above can fail: the same stages turned round, or a hand put in while the saw runs."""
    method = next(iter(walks.values()))["blade_change"]
    turned = [stage.id for stage in reversed(method)]
    assert any(turned.index(earlier) > turned.index(later) for later, earlier in AFTER)
    restless = tuple(
        replace(one, steps=tuple(replace(s, state=("running", "isolated")[i % 2]) for i, s in enumerate(one.steps)))
        for one in method
    )
    assert occasions.isolations(restless) > MOST_ISOLATIONS
