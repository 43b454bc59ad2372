"""No machine's guide names a part it lacks, and every guide is whole."""

import re

import pytest

from sawside import guide, library, starter
from sawside.families import FAMILIES

#: Words that may appear in a machine's guide only when the machine has the part.
PARTS = {
    r"\b(quick.release|release lever|tension lever|lever)\b": lambda m: m.get("tension_release") == "quick_release",
    r"\b(rollers?|eccentrics?)\b": lambda m: m.get("side_guides") == "roller",
    r"\bguide blocks?\b|\bblocks?\b": lambda m: m.get("side_guides") == "block",
    r"\b(guide )?discs?\b": lambda m: m.get("side_guides") == "disc",
    r"\btable pin\b|\bpin\b": lambda m: m.get("table_pin"),
    r"\btracking window\b|\bwindow\b": lambda m: m.get("tracking_window"),
    r"\bstop bolt\b": lambda m: m.get("table_stop"),
    r"\bfence\b": lambda m: m.get("fence") != "none",
    r"\bunplug|\bplug\b": lambda m: m.get("supply") == "plug",
    r"\bmitre slot\b": lambda m: m.get("mitre_slot"),
    r"\bdust outlet\b|\bextractor\b": lambda m: m.get("dust_port"),
}
MACHINES = ("bench-250", "lever-350", "block-450", "old-18-inch")


def stages_of(view: dict) -> list[dict]:
    """Return the stages of every occasion."""
    return [*view["stages"], *(stage for one in view["lists"].values() for stage in one["stages"])]


def words(view: dict) -> str:
    """Return every word of a machine's guide, card, check lists and wall sheet."""
    lines = []
    for stage in stages_of(view):
        lines += [stage["title"], stage["purpose"]]
        for step in stage["steps"]:
            lines += [step[name] for name in ("step", "reason", "check", "put_right", "record", "summary", "card")]
            lines += step["key_points"]
            lines += [line for notice in step["notices"] for line in (notice["hazard"], notice["consequence"], *notice["avoid"])]
    lines += [line for notice in view["notices"] for line in (notice["hazard"], notice["consequence"], *notice["avoid"])]
    return "\n".join(lines).lower()


@pytest.mark.parametrize("machine_id", MACHINES)
@pytest.mark.parametrize("pattern", PARTS)
def test_no_guide_names_a_part_the_machine_lacks(machine_id, pattern, shop, views):
    machine = next(m for m in shop.machines if m.id == machine_id)
    if not PARTS[pattern](machine):
        found = re.search(f".*{pattern}.*", words(views[machine_id]))
        assert not found, f"{machine_id} has no such part: {found[0]}"


@pytest.mark.parametrize("pattern", PARTS)
def test_every_part_is_named_for_some_machine_that_has_it(pattern, shop, views):
    # Otherwise the test above could not fail.
    having = [m.id for m in shop.machines if PARTS[pattern](m)]
    assert any(re.search(pattern, words(views[machine_id])) for machine_id in having)


@pytest.mark.parametrize("machine_id", MACHINES)
def test_a_guide_has_every_stage_and_every_step_is_whole(machine_id, shop, views):
    stages = views[machine_id]["stages"]
    assert [s["id"] for s in stages] == [p.id for p in shop.procedures if p.id in {s["id"] for s in stages}]
    assert len(stages) >= 13
    for stage in stages:
        assert all(step["reason"] for step in stage["steps"])
    for stage in stages_of(views[machine_id]):
        advancing = [step["number"] for step in stage["steps"] if step["advances"]]
        assert advancing == list(range(1, len(advancing) + 1))
        for step in stage["steps"]:
            assert step["step"] and step["key_points"]
            assert "{{" not in str(step) and "None" not in step["step"]
    for one in views[machine_id]["lists"].values():
        for step in (step for stage in one["stages"] for step in stage["steps"]):
            assert step["check"] and step["put_right"], f"{step['id']}: a check has a limit, and says what to do when it is passed"


@pytest.mark.parametrize("machine_id", MACHINES)
def test_gloves_are_never_asked_for_and_forbidden_on_one_panel(machine_id, views):
    # ISO 7010 M009 (wear protective gloves) and P028 (do not wear gloves).
    view = views[machine_id]
    panels = list(view["notices"]) + [n for s in view["stages"] for n in s["notices"]]
    panels += [n for s in view["stages"] for step in s["steps"] for n in step["notices"]]
    codes = {code for notice in panels for code in notice["signs"]}
    assert {"M009", "P028"} <= codes
    for notice in panels:
        assert not {"M009", "P028"} <= set(notice["signs"])
        if "M009" in notice["signs"]:
            assert notice["machine_state"] == "isolated"
        if "P028" in notice["signs"]:
            assert notice["machine_state"] == "running"


@pytest.mark.parametrize("machine_id", MACHINES)
def test_every_guide_says_that_the_makers_manual_comes_first(machine_id, views):
    text = " ".join(views[machine_id]["always"]).lower()
    for phrase in ("manual", "local", "competent", "not an instruction handbook"):
        assert phrase in text


def test_a_number_that_rests_on_an_estimated_gullet_says_so(shop):
    """A deeper gullet than estimated would let the guides touch the teeth (the setback is gullet plus margin)."""
    machine = shop.machines[0]
    printing = guide.printer(shop)
    found = {}
    for blade in shop.blades:
        known = guide.know(shop, machine, blade)
        item = known.item("guide_setback", printing)
        found[blade.entries["gullet_depth"].status] = (item.status, item.note)
    assert found["measured"][0] == "computed"
    assert found["unknown"] == ("assumed", "gullet depth estimated: measure it first")


@pytest.fixture(scope="module")
def guessing(tmp_path_factory):
    """The starter's saw: everything on it is a guess or unknown; its blade's sizes are then measured."""
    folder = tmp_path_factory.mktemp("guessing") / "shop"
    starter.make(folder)
    before = library.load(folder)
    blades = folder / "blades.yaml"
    blades.write_text(blades.read_text(encoding="utf-8").replace(": guess ", ": "), encoding="utf-8")
    return before, library.load(folder)


def test_a_number_that_rests_on_a_guess_says_so_and_on_which(guessing):
    before, after = (guide.know(read, read.machines[0], read.blades[0]) for read in guessing)
    printer = guide.printer(guessing[0])
    item = before.item("thickness_ratio", printer)
    assert item.status == "assumed"
    assert set(item.note.removeprefix("rests on a guess: ").split(", ")) == {
        "Blade thickness",
        "Upper wheel diameter",
        "Lower wheel diameter",
    }
    area = before.item("body_area", printer).note, after.item("body_area", printer).note
    assert area[0].startswith("rests on a guess: Blade thickness, Blade width, ") and area[0].endswith(area[1]) and area[1]
    assert before.value("body_area") == after.value("body_area")
    speed = after.item("band_speed", printer)
    assert speed.status == "assumed" and "Wheel speed" in speed.note and "Blade" not in speed.note
    entry = after.item("tyre_width", printer)
    assert (entry.text, entry.status, entry.note) == ("18 mm", "assumed", "a guess, not measured yet")
    assert set(after.guessed()) < set(before.guessed()) and not {f.name for f in FAMILIES[0].blade} & set(after.guessed())
