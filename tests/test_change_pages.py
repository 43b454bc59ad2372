"""The pages for the work say for every blade what the view says: the card, each stage, and the numbers in them."""

import re
from html import unescape

import pytest

from sawside import files, library
from sawside.outputs import layouts, publishing, stage_pages
from sawside.outputs.filling import filled
from sawside.outputs.view import machine_view

MACHINES = ("bench-250", "lever-350", "block-450", "old-18-inch")


@pytest.fixture(scope="module")
def read():
    return library.load(files.data_folder("procedures") / "shops" / "demonstration")


@pytest.fixture(scope="module")
def env():
    return layouts.environment()


def words(html: str) -> str:
    """Return what a reader sees of HTML, spaces as one."""
    bare = re.sub(r"<svg.*?</svg>|<span class=\"sw-unseen\">.*?</span>", " ", html, flags=re.S)
    return " ".join(unescape(re.sub(r"<[^>]+>", "", bare)).replace("\u00a0", " ").split())


def plain(text: str) -> str:
    return " ".join(text.replace("\u00a0", " ").split())


@pytest.mark.parametrize("machine_id", MACHINES)
def test_the_card_is_the_card_of_each_blade(machine_id, read, views, env):
    machine = next(one for one in read.machines if one.id == machine_id)
    region = stage_pages.regions(env, views[machine_id], "../")["card"]
    assert {one.blade for one in region["fillings"]} == set(views[machine_id]["for_blade"]) and len(region["fillings"]) > 2
    for one in region["fillings"]:
        whole = machine_view(read, machine, going_on=one.blade)
        html = "".join(part for _, part in filled(region["shown"], one))
        lines = [line["text"] for part in whole["card"] for line in part["lines"]]
        assert [words(item).split(" ", 1)[1] for item in re.findall(r"<li.*?</li>", html, re.S)] == [plain(line) for line in lines]
        assert [part["title"] for part in whole["card"]] == re.findall(r"<h3>(.*?)</h3>", html)


@pytest.mark.parametrize("machine_id", MACHINES)
def test_each_stage_says_what_it_says_for_each_blade(machine_id, read, views, env):
    machine = next(one for one in read.machines if one.id == machine_id)
    wholes = {blade: machine_view(read, machine, going_on=blade) for blade in views[machine_id]["for_blade"]}
    differ = 0
    for number, stage in enumerate(views[machine_id]["stages"]):
        region = stage_pages.stage_region(env, views[machine_id], stage["id"], "../../")
        fillings = {one.blade: one for one in region["fillings"]}
        for blade, whole in wholes.items():
            one = fillings[blade]
            html = "".join(part for _, part in filled(region["shown"], one))
            differ += len(one.changed)
            wanted = whole["stages"][number]
            assert wanted["id"] == stage["id"]
            said = words(html)
            for step in wanted["steps"]:
                for text in (step["step"], step["reason"], step["check"], *step["key_points"]):
                    assert plain(text) in said, f"{blade}: {step['id']}"
                for item in step["sets"]:
                    assert plain(item["text"]) in said
            assert re.findall(r'<h2 class="sw-step" id="([^"]+)"', html) == [
                f"{stage['id']}-{step['id']}" for step in wanted["steps"]
            ]
            assert len(re.findall(r'<li class="sw-advances"', html)) == sum(step["advances"] for step in wanted["steps"])
            drawn = [step["figure"] for step in wanted["steps"] if step["figure"] in whole["drawings"]]
            assert re.findall(r"<figcaption>(.*?)</figcaption>", html) == [whole["drawings"][name]["title"] for name in drawn]
    assert differ > 10, "blades that differ in nothing would prove nothing"


def test_every_page_of_a_saw_is_there_once(read, views):
    made = [page.path for page in layouts.pages(read, list(views.values()), publishing.contact(list(views.values())))]
    assert len(made) == len(set(made))
    for machine_id, view in views.items():
        mine = {path for path in made if path.startswith(f"machines/{machine_id}/")}
        assert mine == {f"machines/{machine_id}/{stage['id']}.html" for stage in view["stages"]}
        assert {f"machines/{machine_id}{ending}.html" for ending in ("", *library.PAGE_ENDINGS)} <= set(made)


def test_a_saw_whose_blade_is_not_stated_can_still_be_asked_about_each(read, views, env):
    """The page shows blanks, and every fitting blade can be chosen."""
    machine = next(one for one in read.machines if one.id == "lever-350")
    entries = {name: entry for name, entry in machine.entries.items() if name != "fitted_blade"}
    bare = type(machine)(machine.type, machine.id, machine.at, entries)
    view = machine_view(read, bare)
    assert view["blade"] is None and len(view["for_blade"]) > 2
    html = env.get_template("parts.html.j2").make_module({}).picker(view)
    assert 'value="">not chosen' in html and html.count("<option") == len(view["for_blade"]) + 1
