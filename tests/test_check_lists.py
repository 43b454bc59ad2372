"""Check lists against what is asked of whoever keeps a saw, outside this project.

PUWER 1998, regulation 6 (READ in copies): inspection after installation, after assembly at a new place, at suitable intervals, and
after exceptional circumstances, its result recorded. 29 CFR 1910.213(s) (READ-2nd): saws that are dull, badly set or badly
tensioned go out of service. HSE sheet WIS38 on braking (READ): ten seconds, from European standards; some large band saws longer.
"""

import re

import pytest

from sawside import occasions

MACHINES = ("bench-250", "lever-350", "block-450", "old-18-inch")
#: Kind of occasion in regulation 6 -> occasions of ours.
REGULATION_6 = {
    "after installation": ("commissioning",),
    "after assembly at a new place": ("after_moving",),
    "at suitable intervals": ("start_of_day", "weekly", "monthly", "yearly"),
    "after exceptional circumstances": ("after_broken_blade", "after_jam", "after_standing"),
}
#: What commissioning has to look at -> words that say so.
COMMISSIONING = ("level", "floor", "wax", "which way the blade runs", "belt", "bearings", "plane", "run-out", "crown", "hinge",
                 "parallel to the blade", "seconds from stop", "two blades", "stop to the table", "pointer", "restart", "door switch",
                 "sounds at idle", "test cut")  # fmt: skip


def steps(view: dict, name: str) -> list[dict]:
    return [step for stage in view["lists"][name]["stages"] for step in stage["steps"]]


@pytest.mark.parametrize("machine_id", MACHINES)
def test_every_kind_of_inspection_has_its_list(machine_id, views):
    wanted = {name for names in REGULATION_6.values() for name in names}
    assert wanted | {"before_cut"} == set(occasions.OCCASIONS) - {occasions.METHOD}
    for name in wanted:
        found = steps(views[machine_id], name)
        assert len(found) >= 4, name
        assert all(step["check"] and step["put_right"] for step in found), name
        if name not in ("start_of_day",):
            assert any(step["record"] for step in found), f"{name}: the result is recorded"


@pytest.mark.parametrize("machine_id", MACHINES)
def test_commissioning_leaves_nothing_out(machine_id, views):
    said = " ".join(step["step"].lower() for step in steps(views[machine_id], "commissioning"))
    lacking = {"stop to the table"} if machine_id == "old-18-inch" else set()
    assert [words for words in COMMISSIONING if words not in said and words not in lacking] == []


@pytest.mark.parametrize("machine_id", MACHINES)
def test_a_brake_has_ten_seconds(machine_id, views):
    for name in ("commissioning", "monthly", "yearly"):
        (run_down,) = [step for step in steps(views[machine_id], name) if "seconds from stop" in step["step"]]
        assert "ten seconds or less" in run_down["check"] and "out of use" in run_down["put_right"]


@pytest.mark.parametrize("machine_id", MACHINES)
def test_a_bad_blade_and_a_bad_tension_go_out_of_service(machine_id, views):
    weekly = {step["id"]: step for step in steps(views[machine_id], "weekly")}
    assert "crack" in weekly["cracks"]["check"] and "Take it off" in weekly["cracks"]["put_right"]
    start = steps(views[machine_id], "start_of_day")
    assert any("tag the saw out of use" in step["put_right"] for step in start)
    assert any(step["id"].startswith(("mark", "turns")) for step in start), "the tension is looked at every day"


@pytest.mark.parametrize("machine_id", MACHINES)
def test_what_is_done_daily_is_short_and_needs_no_hand_in_the_saw(machine_id, views):
    for name, most in (("start_of_day", 8), ("before_cut", 6)):
        found = steps(views[machine_id], name)
        assert 4 <= len(found) <= most and {step["state"] for step in found} <= {"stopped", "running"}


@pytest.mark.parametrize("machine_id", ("lever-350", "bench-250"))
def test_limits_are_this_saw_s(machine_id, views):
    """A limit of a list is the number that the guide prints for the blade on the saw."""
    view = views[machine_id]
    numbers = {item["name"]: item for stage in view["stages"] for step in stage["steps"] for item in step["sets"]}
    weekly = {step["id"]: step for step in steps(view, "weekly")}
    push = numbers["setting_push"]
    assert weekly["push"]["check"] == f"{push['text']} ({push['good']})."
    assert numbers["side_clearance"]["text"] in weekly["gaps"]["check"] and numbers["thrust_gap"]["text"] in weekly["gaps"]["check"]
    cut = next(step for step in steps(view, "monthly") if step["id"] == "test_cut")
    assert numbers["square_accept"]["text"] in cut["check"]


def test_electrics_are_left_to_an_electrician(views):
    for view in views.values():
        for name in view["lists"]:
            for step in steps(view, name):
                if re.search(r"\b(wiring|fuse|box|cable|supply)\b", " ".join((step["step"], *step["key_points"])).lower()):
                    assert (
                        "electrician" in " ".join((step["step"], *step["key_points"], step["put_right"])).lower()
                        or step["id"] == "no_volt"
                    )
