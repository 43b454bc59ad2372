"""What a shop says for itself: rules with weight, which never push a hazard out, and a saw out of service, seen everywhere."""

import io
import re
import shutil

import pytest
from pypdf import PdfReader

from sawside import library
from sawside.errors import Faults
from sawside.outputs import layouts, paper, publishing, sheets, typeface
from sheet_views import NOTICES, STOPPED, notice, view
from test_faults import FAULTS
from test_sheets import _capital, text_of, type_sizes

RULES = [{"rule": f"Rule number {n}: nobody works on the saws alone, and nobody hurries.", "since": ""} for n in range(1, 15)]
MANY = [*NOTICES, *(notice(f"w{n}", "WARNING", ["W001"], "running") for n in range(5))]


def flat(sheet):
    return " ".join(text_of(sheet).split())


def shown(text, notices):
    """Which hazards a notice shows, in full or as a line."""
    return [n["id"] for n in notices if n["hazard"] in text or n["line"] in text]


@pytest.mark.parametrize("size, distance", [("A4", 1.0), ("A4", 1.5), ("A4", 2.0), ("Letter", 1.2), ("A3", 2.5), ("A5", 1.0)])
def test_rules_never_push_a_hazard_off_the_notice(size, distance):
    bare = view(notices=MANY, rules=(), viewing_distance=distance)
    without = flat(sheets.make("notice", bare, size))
    for count in (1, 3, 14):
        text = flat(sheets.make("notice", bare | {"local_rules": RULES[:count]}, size))
        assert shown(text, MANY) == shown(without, MANY) and len(shown(without, MANY)) >= 2
        printed = len(re.findall(r"Rule number \d+", text))
        told = re.search(r"(\d+) more: see the page|Rules of this shop: (\d+), see the same page", text)
        left_out = int(told[1] or told[2]) if told else 0
        assert printed + left_out == count, "a rule that is not printed is counted"


def test_rules_stand_in_a_box_with_their_date():
    dated = view(viewing_distance=1.0) | {"local_rules": [{"rule": "Never alone.", "since": "2026-02-03"}]}
    for kind in ("notice", "wall"):
        assert "Never alone. Since 2026-02-03." in flat(sheets.make(kind, dated, "A4")), kind


def test_the_wall_sheet_shows_as_many_hazards_with_rules_as_without():
    for count in (0, 3, 6):
        text = flat(sheets.make("wall", view(notices=MANY) | {"local_rules": RULES[:count]}, "A4"))
        assert len(shown(text, MANY)) == 4, count
    with pytest.raises(Faults, match="local rules"):
        sheets.make("wall", view(notices=MANY) | {"local_rules": RULES * 2}, "A4")


@pytest.mark.parametrize("size", ["A4", "Letter", "A3"])
def test_the_notice_is_one_page_and_names_saw_and_page(size):
    sheet = sheets.make("notice", view(name="Saw by the door", notices=MANY, viewing_distance=1.0), size)
    assert len(PdfReader(io.BytesIO(sheet.data)).pages) == 1
    assert flat(sheet).startswith("Safety notice, Saw by the door, page 1 of 1")
    halves = sheets.make("notice", view(viewing_distance=1.0), "A5")
    assert "page 1 of 2" in flat(halves) and "page 2 of 2" in flat(halves)


def test_the_notice_says_less_where_there_is_less_room_never_smaller():
    """At every distance the DANGER stands first, and what is left out is counted."""
    texts = [flat(sheets.make("notice", view(notices=MANY, rules=(), viewing_distance=d), "A4")) for d in (0.8, 1.5, 2.0)]
    counts = [len(shown(text, MANY)) for text in texts]
    assert counts[0] == len(MANY) and counts == sorted(counts, reverse=True) and counts[-1] < len(MANY)
    assert len(texts[0]) > len(texts[1]) > len(texts[2])
    for text, count in zip(texts, counts, strict=True):
        assert text.index("DANGER") < text.index("WARNING") and text.index("azard contact") == text.index("azard ")
        assert (f"{len(MANY) - count} more hazards" in text) == (count < len(MANY))


def test_a_distance_that_cannot_be_met_is_refused_with_one_that_can():
    with pytest.raises(Faults) as caught:
        sheets.make("notice", view(notices=MANY, viewing_distance=6.0), "A4")
    (fault,) = caught.value.faults
    reach = float(re.search(r"write `viewing_distance: ([\d.]+) m` in shop.yaml", fault.hint)[1])
    assert 1.0 < reach < 6.0
    assert sheets.make("notice", view(notices=MANY, viewing_distance=reach), "A4"), "and that one really can"
    with pytest.raises(Faults):
        sheets.make("notice", view(notices=MANY, viewing_distance=reach + 0.1), "A4")


@pytest.mark.parametrize("size", ["A4", "Letter", "A3", "A5"])
def test_the_sheet_of_a_saw_out_of_service_is_one_legible_page(size):
    """Letters as for the notice: signal words D/150, every other line D/300 (ANSI Z535.4 annex, second hand)."""
    distance = 1.0
    sheet = sheets.make("out_of_service", view(name="Saw by the door", viewing_distance=distance) | STOPPED, size)
    text = flat(sheet)
    assert len(PdfReader(io.BytesIO(sheet.data)).pages) == 1
    for words in ("OUT OF SERVICE", "Saw by the door", "cracked upper tyre", "2026-03-10", "the steward"):
        assert words in text, words
    capital = min(_capital(typeface.folder() / name) for name in typeface.FILES)
    tall = [(text, points * 25.4 / 72 * capital) for text, points in type_sizes(sheet)]
    assert min(height for _, height in tall) >= 1000 * distance / 300 * 0.99
    assert min(height for text, height in tall if "SERVICE" in text) >= 1000 * distance / 150 * 0.99


def test_a_reason_too_long_for_the_distance_is_refused():
    long = view(viewing_distance=10.0) | {"out_of_service": {"reason": "x " * 60, "since": "2026-03-10", "by": ""}}
    with pytest.raises(Faults) as caught:
        sheets.make("out_of_service", long, "A4")
    reach = float(re.search(r"viewing_distance: ([\d.]+) m", caught.value.faults[0].hint)[1])
    assert sheets.make("out_of_service", long | {"shop": long["shop"] | {"viewing_distance": reach}}, "A4")


def test_a_saw_in_service_has_no_such_sheet():
    working, stopped = view(), view() | STOPPED
    assert "out_of_service" not in publishing.offered(working) and "out_of_service" in publishing.offered(stopped)
    with pytest.raises(Faults, match="out of service") as caught:
        sheets.make("out_of_service", working, "A4")
    assert "out_of_service: broken guard" in caught.value.faults[0].hint
    assert "OUT OF SERVICE" in flat(sheets.make("wall", view(steps=16) | STOPPED, "A4"))
    assert "OUT OF SERVICE" not in flat(sheets.make("wall", working, "A4"))


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    """A shop of two saws: one out of service and with rules of its own, one without."""
    folder = tmp_path_factory.mktemp("own") / "shop"

    shutil.copytree(FAULTS / "good", folder)
    saw = (folder / "machines" / "my-saw.yaml").read_text(encoding="utf-8")
    (folder / "machines" / "other.yaml").write_text(
        re.sub(r"(?m)^id: .*", "id: other", re.sub(r"(?m)^name: .*", "name: Other saw", saw)), encoding="utf-8"
    )
    (folder / "machines" / "my-saw.yaml").write_text(
        saw + "out_of_service: cracked upper tyre\nout_of_service_since: 2026-03-10\nout_of_service_by: the steward\n"
        "local_rules:\n  - rule: No green wood.\n    since: 2026-04-01\n  - rule: Weigh it twice.\n    stage: tension\n",
        encoding="utf-8",
    )
    shop = (folder / "shop.yaml").read_text(encoding="utf-8")
    shop = re.sub(r"(?ms)^local_rules:\n(?:  .*\n)*", "", shop)
    (folder / "shop.yaml").write_text(
        shop + "local_rules:\n  - Never alone.\n  - rule: Only two people here.\n    saw: my-saw\n", encoding="utf-8"
    )
    read = library.load(folder, lacking=paper.lacking)
    made = publishing.views(read)
    return read, {view["machine"]["id"]: view for view in made}, layouts.pages(read, made, publishing.contact(made))


def test_rules_hold_for_the_shop_for_one_saw_and_for_one_stage(own):
    _, views, _ = own
    said = {saw: [(rule["rule"], rule["since"]) for rule in view["local_rules"]] for saw, view in views.items()}
    assert said == {
        "my-saw": [("Never alone.", ""), ("Only two people here.", ""), ("No green wood.", "2026-04-01")],
        "other": [("Never alone.", "")],
    }
    staged = {
        saw: {s["id"]: [r["rule"] for r in s["local_rules"]] for s in view["stages"] if s["local_rules"]}
        for saw, view in views.items()
    }
    assert staged == {"my-saw": {"tension": ["Weigh it twice."]}, "other": {}}


def test_every_page_of_a_saw_out_of_service_says_so_and_no_other_page(own):
    _, views, pages = own
    of_it = [page for page in pages if page.edit == views["my-saw"]["machine"]["file"]]
    assert len(of_it) >= 5
    for page in pages:
        banner = '<aside class="sw-stopped"' in page.html and "cracked upper tyre" in page.html and "2026-03-10" in page.html
        assert banner == (page in of_it), page.path
    home = next(page for page in pages if page.path == "index.html")
    assert home.html.count("<b>Out of service</b>") == 1 and "cracked upper tyre" in home.html


def test_the_safety_page_has_the_worst_first_and_rules_boxed_beside_the_hazards(own):
    page = next(page for page in own[2] if page.path == "machines/my-saw-safety.html")
    words = [found[1] for found in re.finditer(r'<p class="sw-signal">(?:<span[^>]*>[^<]*</span> )?(\w+)', page.html)]
    assert words[0] == "DANGER" and words.count("DANGER") == 1 and len(words) <= 8
    assert page.html.index("DANGER") < page.html.index('class="sw-rules"') < page.html.index("sw-before")
    assert 'No green wood. <span class="sw-note">since 2026-04-01' in page.html
    assert "Press hard on the wound" in page.html and "Weigh it twice." in page.html


def test_the_guide_on_paper_says_every_rule_of_its_saw_and_that_nobody_may_use_it(own):
    _, views, _ = own
    mine, other = (flat(sheets.make("guide", views[saw], "A4")) for saw in ("my-saw", "other"))
    for words in (
        "Never alone.",
        "Only two people here.",
        "No green wood. Since 2026-04-01.",
        "Weigh it twice.",
        "OUT OF SERVICE since 2026-03-10. Do not use this saw. cracked upper tyre",
    ):
        assert words.lower() in mine.lower(), words
    assert mine.index("Weigh it twice.") > mine.index("Tension the blade")
    assert "Never alone." in other and "No green wood" not in other and "OUT OF SERVICE" not in other
