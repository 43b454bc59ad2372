"""Every kind of page on paper: what is only for the screen is gone, what may hurt people is there."""

import unicodedata

import pypdf
import pytest

from demonstration import KINDS

#: A4 [pt] and how far text may come to its edge: printers do not reach it (common practice, no source: 5 mm).
WIDTH, EDGE = 595.3, 14.0
#: Pages that go on like this for many sheets of paper.
SHORT = {"working": "1-4", "values": "1-4", "fields": "1-4"}
SCREEN_ONLY = ("Find a saw, a blade", "Skip to the content", "Save as CSV", "Forget all readings", "All sheets")


@pytest.fixture(scope="module")
def printed(browser, site, tmp_path_factory):
    """Each page kind as a PDF made by the browser, from the dark page: paper stays white."""
    folder, context = tmp_path_factory.mktemp("paper"), browser.new_context(color_scheme="dark")
    page = context.new_page()
    for kind, path in KINDS.items():
        page.goto(f"{site.as_uri()}/{path}")
        page.pdf(path=folder / f"{kind}.pdf", format="A4", print_background=False, page_ranges=SHORT.get(kind, ""))
    context.close()
    return {kind: read(pypdf.PdfReader(folder / f"{kind}.pdf")) for kind in KINDS}


def read(reader):
    """Return the words of a PDF, ligatures undone, and the places where its pieces of text start [pt]."""
    places, words = [], []
    for page in reader.pages:
        words.append(
            page.extract_text(
                visitor_text=lambda piece, cm, tm, font, size: places.append(cm[0] * tm[4] + cm[4]) if piece.strip() else None
            )
        )
    return " ".join(unicodedata.normalize("NFKC", " ".join(words)).split()), places


@pytest.mark.parametrize("kind", KINDS)
def test_only_what_belongs_on_paper(printed, kind):
    words, _ = printed[kind]
    assert len(words) > 400
    for line in SCREEN_ONLY:
        assert line not in words


@pytest.mark.parametrize("kind", ["guide", "safety", "machine", "worksheets", "measure", "blades", "home"])
def test_what_comes_first_is_on_paper(printed, kind):
    words, _ = printed[kind]
    assert "Before anything else" in words and "band saw steward" in words


def test_every_hazard_of_the_page_is_on_paper(printed, page, site):
    for kind in ("guide", "safety"):
        page.goto(f"{site.as_uri()}/{KINDS[kind]}")
        hazards = set(page.locator(".sw-hazard").all_inner_texts())
        words, _ = printed[kind]
        assert len(hazards) >= 8  # the safety page groups eight at most
        for hazard in hazards:
            assert " ".join(hazard.split()) in words, f"{kind}: {hazard}"
        for signal in ("DANGER", "WARNING"):
            assert signal in words


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_runs_off_the_paper(printed, kind):
    _, places = printed[kind]
    assert len(places) > 10 and min(places) >= EDGE and max(places) <= WIDTH - EDGE


def test_ink_is_dark_on_paper(browser, site):
    context = browser.new_context(color_scheme="dark")
    page = context.new_page()
    for kind, places in (("guide", ("body", "h1", ".sw-before li")), ("stage", (".sw-step", ".sw-figure svg", ".sw-hazards p"))):
        page.goto(f"{site.as_uri()}/{KINDS[kind]}")
        page.emulate_media(media="print")
        for place in places:
            ink = page.evaluate("(place) => getComputedStyle(document.querySelector(place)).color", place)
            assert ink == "rgb(0, 0, 0)", place
    context.close()
