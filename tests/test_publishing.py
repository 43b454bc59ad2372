"""What is published: every sheet has its picture, the rack's sheets name every blade and its saws, half pages come in pairs."""

import io
from dataclasses import replace

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from sawside import library, starter
from sawside.cli import main
from sawside.kinds import sheet_kinds as kinds
from sawside.outputs import publishing, rack, sheets
from sawside.outputs.view import machine_view
from sheet_views import item, view


def text_of(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)


def test_the_rack_sheets_name_every_blade_once_and_the_saws_it_fits(shop, views):
    made = {sheet.path: sheet for sheet in publishing.rack_sheets(list(views.values()))}
    assert set(made) == {"rack-tags.pdf", "rack-blade-table.pdf"}
    whole = rack.view(list(views.values()))
    assert sorted(row["id"] for row in whole["blades"]) == sorted(blade.id for blade in shop.blades)
    for row in whole["blades"]:
        fitting = [v["machine"]["name"] for v in views.values() for r in v["blades"] if r["id"] == row["id"] and r["fits"]]
        assert row["saw_names"] == fitting
        assert row["fits"] == bool(fitting)
    words = text_of(made["rack-tags.pdf"].data)
    assert all(blade.id in words for blade in shop.blades)
    assert words.count("Fits no saw of this shop") == sum(not row["fits"] for row in whole["blades"]) > 0


def test_the_rack_prints_no_number_that_holds_for_one_of_several_saws_only():
    """A mark on a tension scale belongs to one saw; a blade that fits none gets no numbers and no advice at all."""
    first, second = view(name="First saw"), view(name="Second saw")
    for made, mark in ((first, "5.3"), (second, "7")):
        made["blades"][0]["items"].append(item("Mark", mark, name="setting_mark"))
        made["blades"][0]["advice"] = [f"mark {mark}"]
        made["blades"][3] |= {"advice": ["hangs over the rim"]}
    rows = {row["id"]: row for row in rack.view([first, second])["blades"]}
    assert [found["name"] for found in rows["b0"]["items"]] == ["setting_push", "strand_force"]
    assert rows["b0"]["advice"] == ["First saw: mark 5.3", "Second saw: mark 7"] and rows["b0"]["saws"] == "First saw, Second saw"
    alone = {row["id"]: row for row in rack.view([first])["blades"]}
    assert [found["text"] for found in alone["b0"]["items"]] == ["24.6 N", "", "5.3"]
    assert alone["b0"]["advice"] == ["mark 5.3"] and alone["b0"]["verdict"] == "First saw"
    assert (rows["b3"]["items"], rows["b3"]["advice"], rows["b3"]["reasons"]) == ([], [], [])


def test_a_saw_that_no_blade_fits_still_gets_its_other_sheets():
    none = view(blades=4)
    for row in none["blades"]:
        row |= {"fits": False, "reasons": ["too thick"]}
    none["wall"]["blades"], none["shop"]["paper"] = [], "A4"
    assert "tags" not in publishing.offered(none) and {"wall", "guide", "notice"} <= set(publishing.offered(none))
    paths = {sheet.path for sheet in publishing.printed([none], ())}
    assert "saw.pdf" in paths and "saw-tags.pdf" not in paths
    assert "Blade tags" not in {entry["title"] for entry in publishing.contact([none])[1]["files"]}


def test_a_fitted_blade_that_does_not_fit_gets_a_warning_and_no_numbers():
    bad = view()
    bad["blade"] |= {"fits": False, "reasons": ["60 mm too long for this saw"]}
    for kind in ("wall", "guide"):
        words = " ".join(text_of(sheets.make(kind, bad, "A4").data).split())
        assert "The blade on this saw does not fit it: b2" in words and "60 mm too long for this saw" in words
        assert "Do not tension it and do not run the saw with it." in words
    assert "Set to these numbers" not in text_of(sheets.make("wall", bad, "A4").data)


def test_half_pages_come_in_pairs_on_one_page():
    one, pair = (sheets.make("job_card", view(), paper) for paper in ("A5", "A5 on A4"))
    half, whole = (PdfReader(io.BytesIO(made.data)).pages[0].mediabox for made in (one, pair))
    assert float(half.width) / 72 * 25.4 == pytest.approx(148, abs=0.1)
    assert (float(whole.width) / 72 * 25.4, float(whole.height) / 72 * 25.4) == pytest.approx((297, 210), abs=0.1)


def test_a_kind_is_made_on_a_paper_it_is_laid_out_for(views):
    assert publishing.paper_for("wall", "Letter") == "Letter"
    assert publishing.paper_for("wall", "A5") == "A5"
    assert publishing.paper_for("tags", "A5 on A4") == "A4"
    papers = {entry["title"]: entry["paper"] for entry in publishing.contact([view(paper="A5", labels=None)])[1]["files"]}
    assert papers["Safety notice"] == "A4" and papers["Wall sheet"] == papers["Set-up guide"] == "A5"
    for entry in publishing.contact(list(views.values())):  # no saw of this shop is out of service
        view_of = views.get(entry["machine"]["id"])
        cards = len(view_of["for_blade"]) if view_of else 0
        assert len(entry["files"]) == (len(kinds.KINDS) - 3 + cards if view_of else len(publishing.RACK_KINDS)), (
            "no numbers unasked"
        )


def test_a_fitted_blade_that_does_not_fit_gets_no_number_from_the_shop_either(shop):
    """The blade b19-3 is refused by the bench-top saw; whatever is printed of it would invite to tension it."""
    machine = next(m for m in shop.machines if m.id == "bench-250")
    entry = machine.entries["fitted_blade"]
    wrong = replace(machine, entries={**machine.entries, "fitted_blade": replace(entry, value="b19-3", written="b19-3")})
    made = machine_view(shop, wrong)
    assert not made["blade"]["fits"] and made["blade"]["reasons"] and not made["blade"]["items"]
    numbers = {item["name"]: item["status"] for item in made["wall"]["numbers"]}
    assert numbers["setting_push"] == numbers["setting_tone"] == "unknown" and numbers["gullet_line_gullet_school"] == "computed"
    assert not {item["name"] for item in made["wall"]["write_in"]} & {field.name for field in shop.family.blade}
    steps = " ".join(line for stage in made["wall"]["steps"] for line in stage["lines"])
    assert "5 mm aside takes ______." in steps
    assert all(not row["items"] for row in made["blades"] if not row["fits"])


def test_what_is_unknown_of_a_blade_that_fits_is_still_asked_for(shop):
    """The kerf and the gullets of the fitted blade belong to what is to be measured."""
    blade = next(b for b in shop.blades if b.id == "a10-6")
    gullet = blade.entries["gullet_depth"]
    unsure = replace(
        blade, entries={**blade.entries, "gullet_depth": replace(gullet, value=None, plus_minus=None, status="unknown")}
    )
    asking = replace(shop, blades=tuple(unsure if b.id == blade.id else b for b in shop.blades))
    made = machine_view(asking, next(m for m in shop.machines if m.id == "bench-250"))
    assert made["blade"]["fits"] and "gullet_depth" in {item["name"] for item in made["unknowns"]}


NO_JOBS = {"no file": None, "an empty file": "", "only a note": "# none yet\n", "only the key": "jobs:\n"}


@pytest.mark.parametrize("written", NO_JOBS)
def test_a_shop_without_jobs_is_a_shop(written, tmp_path, monkeypatch):
    """Every page and sheet is made but the job cards, and the page of the blades says in words that there are no jobs."""
    monkeypatch.chdir(tmp_path)
    starter.make(tmp_path / "my-shop")
    jobs = tmp_path / "my-shop" / "jobs.yaml"
    jobs.unlink() if NO_JOBS[written] is None else jobs.write_text(NO_JOBS[written], encoding="utf-8")
    made = publishing.publish(library.load(tmp_path / "my-shop"))
    pages = {page.path: page.html for page in made.pages}
    said = next(html for path, html in pages.items() if path.endswith("my-saw-blades.html"))
    assert "No jobs are written down" in said and "<tbody>" not in said.split("Out for every job")[0]
    files = {file.path for file in made.files}
    assert "sheets/my-saw.pdf" in files and "sheets/rack-tags.pdf" in files and not any("job-card" in path for path in files)
    asked = CliRunner().invoke(main, ["sheet", "my-saw", "--kind", "job-card", "--project", "my-shop"])
    assert asked.exit_code == 1 and "write what you cut into jobs.yaml" in asked.output
