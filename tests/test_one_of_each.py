"""One page, one sheet, one refusal: the whole way from a shop's files to what is printed, in seconds."""

import re

from sawside import guide
from sawside.outputs import layouts, publishing, sheets, stage_pages
from test_sheets import text_of


def test_a_page_and_a_sheet_print_the_same_setting(shop, views):
    view = views["lever-350"]
    push = next(item for item in view["wall"]["numbers"] if item["name"] == "setting_push")
    env = layouts.environment()
    html = layouts.render(
        env,
        "machine",
        root="../",
        view=view,
        shop=view["shop"],
        always=view["always"],
        sheets=publishing.contact([view]),
        regions=stage_pages.regions(env, view, "../"),
    )
    html = " ".join(html.split())  # the space that holds a number and its unit together is one like others here
    paper = " ".join(text_of(sheets.make("wall", view, "A4")).split())
    for words in (push["text"], push["good"]):
        assert words in html and words in paper
    assert re.search(r"push", push["label"], re.IGNORECASE)


def test_a_blade_that_does_not_fit_says_why(shop):
    machine = next(m for m in shop.machines if m.id == "bench-250")
    known = guide.know(shop, machine, shop.blade("a13-4"))
    found = shop.family.judge(known.value, guide.printer(shop), known.doubt)
    assert not found.fits and "too thick" in found.reasons[0]
