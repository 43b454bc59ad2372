"""The card of each saw and each blade that fits it; sheets for a blade that goes on; the method, commissioning and checks on paper.

Values from outside: eleven points are what a card on a bench is read at without picking it up, and a method of more than a dozen
pages stays in the drawer (common practice, no source).
"""

import io
import re

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from sawside.cli import main
from sawside.errors import Faults
from sawside.kinds import contents, cuts
from sawside.outputs import publishing, sheets
from sawside.outputs.view import machine_view
from sawside.units import together
from sheet_views import blade, view
from test_sheets import alternatives, poppler, text_of, type_sizes

SAWS = ("bench-250", "block-450", "lever-350", "old-18-inch")
WHOLE = ("A4", "Letter")
#: Nothing that is done is said in smaller letters [pt].
LEAST_ON_THE_CARD = 11.0
MOST_BOXES, METHOD_PAGES, COMMISSIONING_PAGES = 10, range(10, 13), 12


def flat(text: str) -> str:
    """Return a text in which every gap is one space; hyphens at the ends of lines are none of ours."""
    return " ".join(text.replace("\u200b", "").replace("\u00a0", " ").split())


def pages_of(sheet) -> list[str]:
    return [
        flat(poppler("pdftotext", sheet.data, "-raw", "-f", str(n), "-l", str(n)))
        for n in range(1, len(PdfReader(io.BytesIO(sheet.data)).pages) + 1)
    ]


@pytest.mark.parametrize("size", WHOLE)
@pytest.mark.parametrize("saw", SAWS)
def test_the_card_is_one_leaf_for_every_blade_that_fits(views, saw, size):
    made = publishing.by_blade(views[saw], "card")
    fitting = [row["id"] for row in views[saw]["blades"] if row["fits"]]
    assert sorted(one["blade"]["id"] for one in made) == sorted(fitting)
    for one in made:
        sheet = sheets.make("card", one, size)
        front, back = pages_of(sheet)
        both, lines = f"{front} {back}", [line for part in one["card"] for line in part["lines"]]
        assert 15 <= len(lines) <= 22 and f"Going on: {one['blade']['name']}" in front
        for line in lines:
            # where the state changes, its mark stands between number and text
            assert re.search(rf"\b{line['number']} (?:ISOLATED |STOPPED |RUNNING )?{re.escape(flat(line['text']))}", both), line
        assert all(part["title"] in both for part in one["card"])
        told = [line for line in one["notices"] if flat(line["line"]) in front]
        assert len(told) == len(one["notices"]), "every hazard of the saw stands in front"
        assert front.index("DANGER") < front.index("WARNING") and "Scale mark" in back and "Name" in back
        words = {word for line in lines for word in together(line["text"]).split(" ")}
        small = [
            (text, size)
            for text, size in type_sizes(sheet)
            if size < LEAST_ON_THE_CARD - 0.01 and any(w in words for w in text.split() if len(w) > 9)
        ]
        assert not small


def test_the_state_stands_where_it_changes_and_the_numbers_to_set_are_bold():
    full = view()
    lines = [line for part in full["card"] for line in part["lines"]]
    states = [line["state"] for line in lines]
    changes = sum(now != before for before, now in zip(["", *states], states, strict=False))
    words = text_of(sheets.make("card", full, "A4"))
    assert sum(words.count(word) for word in ("ISOLATED", "STOPPED", "RUNNING")) == changes > 3
    bold = {run["text"] for part in cuts.carded(full)["card"] for line in part["lines"] for run in line["runs"] if run["strong"]}
    assert bold == {"0.1 mm"}


def test_a_line_keeps_every_letter_when_its_numbers_are_marked():
    text = "Push 5 mm = 20 N (18 to 22 N), 12.5 mm, mark 6.5. Not 120 N, 6.55 or 6.5 mm."
    runs = cuts.runs(text, ["20 N", "6.5", "2.5 mm"])
    assert "".join(run["text"] for run in runs) == text
    assert [run["text"] for run in runs if run["strong"]] == ["20 N", "6.5"]


def test_a_card_that_does_not_fit_one_leaf_is_a_fault():
    full = view()
    long = full | {
        "card": [part | {"lines": [line | {"text": line["text"] * 9} for line in part["lines"]]} for part in full["card"]]
    }
    with pytest.raises(
        Faults, match=r"Blade-change card of `saw` does not fit on A4: lines of the card .* need .* mm left"
    ) as caught:
        sheets.make("card", long, "A4")
    assert "shorten the `card:` lines" in caught.value.faults[0].hint


@pytest.mark.parametrize("saw", SAWS)
def test_the_view_for_a_blade_prints_what_a_whole_view_for_it_prints(shop, views, saw):
    machine = next(one for one in shop.machines if one.id == saw)
    for name in views[saw]["for_blade"]:
        whole = machine_view(shop, machine, going_on=name)
        for kind in ("card", "wall", "guide"):
            assert contents.fingerprint(kind, publishing.going_on(views[saw], name)) == contents.fingerprint(kind, whole), (
                name,
                kind,
            )


def test_a_card_is_the_same_whether_its_blade_is_on_the_saw_or_goes_on(views):
    """So that a change of the blade on the saw takes down no card."""
    made = views["lever-350"]
    mine = made["blade"]["id"]
    assert contents.about("card", made) == mine and contents.about("guide", made) == ""
    assert contents.fingerprint("card", publishing.going_on(made, mine)) == contents.fingerprint("card", made)
    other = next(name for name in made["for_blade"] if name != mine)
    assert contents.about("guide", publishing.going_on(made, other)) == other
    marks = {contents.fingerprint("card", one) for one in publishing.by_blade(made, "card")}
    assert len(marks) == len(made["for_blade"])


@pytest.mark.parametrize("saw", SAWS)
def test_the_method_takes_a_dozen_pages_and_few_boxes(views, saw):
    made = views[saw]
    sheet = sheets.make("guide", made, "A4")
    pages = pages_of(sheet)
    assert len(pages) in METHOD_PAGES
    boxes = len(made["notices"]) + sum(len(step["notices"]) for stage in made["stages"] for step in stage["steps"])
    alone = re.findall(r"(?m)^(?:DANGER|WARNING|CAUTION|NOTICE)$", text_of(sheet))
    assert len(alone) == boxes <= MOST_BOXES
    words = " ".join(pages)
    for stage in made["stages"]:
        assert all(flat(line["line"]) in words for line in stage["lines"]), stage["id"]
        for step in stage["steps"]:
            assert flat(step["step"]) in words, step["id"]
    found = list(alternatives(PdfReader(io.BytesIO(sheet.data)).trailer["/Root"]["/StructTreeRoot"]))
    drawn = contents.given("guide", made)["drawings"]
    assert [found.count(one["alt"]) for one in drawn.values()] == [1] * len(drawn) and len(drawn) > 4


def test_a_step_that_does_not_advance_the_work_has_no_number():
    text = text_of(sheets.make("guide", view(steps=5), "A4"))
    assert re.search(r"(?m)^4$|^4 ", text) and not re.search(r"(?m)^5$|^5 ", text) and text.count("Slacken, lift") == 5


def test_each_drawing_of_the_method_stands_once():
    sheet = sheets.make("guide", view(), "A4")
    found = list(alternatives(PdfReader(io.BytesIO(sheet.data)).trailer["/Root"]["/StructTreeRoot"]))
    assert found.count("A line with a word") == 1


@pytest.mark.parametrize("saw", SAWS)
def test_commissioning_is_a_table_of_a_dozen_pages_at_most(views, saw):
    made = views[saw]
    pages = pages_of(sheets.make("commissioning", made, "A4"))
    assert len(pages) <= COMMISSIONING_PAGES
    assert all(word in pages[0] for word in ("What", "How", "Limit", "Found", "Put right"))
    words = " ".join(pages)
    for stage in made["lists"]["commissioning"]["stages"]:
        assert flat(stage["title"]) in words


@pytest.mark.parametrize("saw", SAWS)
def test_short_check_lists_share_a_page_and_every_other_begins_one(views, saw):
    made = views[saw]
    pages = pages_of(sheets.make("checks", made, "A4"))
    lists = {name: one for name, one in made["lists"].items() if one["stages"] and name != "commissioning"}
    assert {"start_of_day", "before_cut"} < set(lists)
    begins = {
        name: next(n for n, page in enumerate(pages) if flat(f"{one['title']} {one['when']}") in page)
        for name, one in lists.items()
    }
    assert begins["start_of_day"] == begins["before_cut"] == 0, "half a page each"
    shared = {n for n in begins.values() if list(begins.values()).count(n) > 1}
    for name, one in lists.items():
        if begins[name] not in shared:
            before = pages[begins[name]].split(flat(f"{one['title']} {one['when']}"))[0]
            assert len(before) < 160, "head of the page only"


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_the_card_is_what_is_made_when_nobody_says_which(tmp_path):
    result = run("sheet", "lever-350", "--to", tmp_path / "made")
    assert result.exit_code == 0, result.output
    assert [path.name for path in (tmp_path / "made").iterdir()] == ["lever-350-card.pdf"]


def test_a_card_for_a_blade_that_goes_on(tmp_path):
    result = run("sheet", "lever-350", "--blade", "b13-4", "--to", tmp_path / "made")
    assert result.exit_code == 0, result.output
    (path,) = (tmp_path / "made").iterdir()
    assert path.name == "lever-350-card-b13-4.pdf"
    assert "Going on: b13-4" in flat(PdfReader(path).pages[0].extract_text())
    result = run("sheet", "lever-350", "--blade", "b13-4", "--kind", "all", "--to", tmp_path / "all")
    names = {path.name for path in (tmp_path / "all").iterdir()}
    assert names == {f"lever-350-{kind}-b13-4.pdf" for kind in ("card", "guide", "wall")}


def test_a_blade_that_does_not_fit_is_refused_with_the_reasons(tmp_path):
    result = run("sheet", "lever-350", "--blade", "c19-3", "--to", tmp_path / "made")
    assert result.exit_code == 1 and not (tmp_path / "made").exists()
    assert "the blade `c19-3` does not fit `lever-350`: too long: this saw takes 2591 mm or shorter" in result.output
    assert "blades that fit: " in result.output and "b13-4" in result.output


def test_a_blade_nobody_has_is_told_apart(tmp_path):
    result = run("sheet", "lever-350", "--blade", "b13-44", "--to", tmp_path / "made")
    assert result.exit_code == 1 and "there is no blade `b13-44`" in result.output and "did you mean `b13-4`?" in result.output


def test_a_blade_for_every_saw_is_printed_for_those_it_fits(tmp_path):
    result = run("sheet", "--every", "--blade", "b13-4", "--to", tmp_path / "made")
    assert result.exit_code == 0, result.output
    assert [path.name for path in (tmp_path / "made").iterdir()] == ["lever-350-card-b13-4.pdf"]
    assert "bench-250: nothing made, b13-4 does not fit: too long" in result.output


def test_a_blade_and_a_sheet_that_is_about_none_are_refused():
    result = run("sheet", "lever-350", "--blade", "b13-4", "--kind", "job-card")
    assert result.exit_code == 2 and "--blade is for the kinds card, wall, guide: not for job-card" in result.output


def test_numbers_are_made_only_when_named(tmp_path, views):
    assert "numbers" not in publishing.offered(views["lever-350"]) and "numbers" in publishing.offered(
        views["lever-350"], asked=True
    )
    assert run("sheet", "lever-350", "--kind", "numbers", "--to", tmp_path / "made").exit_code == 0
    assert [path.name for path in (tmp_path / "made").iterdir()] == ["lever-350-numbers.pdf"]


def test_the_site_has_a_card_for_every_blade_that_fits():
    made = view(blades=4) | {"machine": view()["machine"] | {"id": "saw"}}
    made["shop"]["paper"] = "A4"
    one = {"blade": blade(0), **{name: made[name] for name in ("stages", "card", "drawings", "unknowns", "wall")}}
    made["for_blade"] = {"b0": one, "b2": one | {"blade": blade(2, fitted=True)}}
    entries = {entry["file"]: entry for entry in publishing.contact([made])[1]["files"]}
    assert entries["saw-card.pdf"]["title"] == "Blade-change card, blade b2"
    assert entries["saw-card-b0.pdf"]["title"] == "Blade-change card, blade b0"
    assert entries["saw-card.pdf"]["mark"] != entries["saw-card-b0.pdf"]["mark"]
    files = {sheet.path: sheet.data for sheet in publishing.sheets_of([made])}
    assert {"saw-card.pdf", "saw-card-b0.pdf", "saw-card-b2.pdf"} <= set(files) and files["saw-card.pdf"] == files[
        "saw-card-b2.pdf"
    ]
