"""What is published: every sheet has its picture, the rack's sheets name every blade and its saws, half pages come in pairs."""

import io

import pytest
from pypdf import PdfReader
from sheet_views import view

from sawside.outputs import publishing, sheets


def text_of(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)


def test_the_rack_sheets_name_every_blade_once_and_the_saws_it_fits(shop, views):
    made = {sheet.path: sheet for sheet in publishing.rack_sheets(list(views.values()))}
    assert set(made) == {"rack-tags.pdf", "rack-blade-table.pdf"}
    rack = publishing.rack_view(list(views.values()))
    assert sorted(row["id"] for row in rack["blades"]) == sorted(blade.id for blade in shop.blades)
    for row in rack["blades"]:
        fitting = [v["machine"]["name"] for v in views.values() for r in v["blades"] if r["id"] == row["id"] and r["fits"]]
        assert row["saw_names"] == fitting
        assert row["fits"] == bool(fitting)
    words = text_of(made["rack-tags.pdf"].data)
    assert all(blade.id in words for blade in shop.blades)
    assert words.count("Fits no saw of this shop") == sum(not row["fits"] for row in rack["blades"]) > 0


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
    for entry in publishing.contact(list(views.values())):
        assert len(entry["files"]) in (len(sheets.KINDS), len(publishing.RACK_KINDS))
