"""At the saw with a telephone: the card first, a step on the first screen, no page too long, and every blade's own numbers."""

import json
import re

import pytest

#: Bounds in pixels, at 390 px: a stage page, the saw's own page, and the screen of a common telephone.
LONGEST_STAGE, LONGEST_CARD, SCREEN = 10_000, 7_000, (390, 844)
MACHINES = ("bench-250", "lever-350", "block-450", "old-18-inch")


def stages(site, machine):
    return sorted((site / "machines" / machine).glob("*.html"))


@pytest.mark.parametrize("machine", MACHINES)
def test_pages_fit_a_telephone(page, site, machine):
    page.set_viewport_size({"width": SCREEN[0], "height": SCREEN[1]})
    found = stages(site, machine)
    assert len(found) >= 13
    for file in found:
        page.goto(file.as_uri())
        height, first = page.evaluate("""() => [document.documentElement.scrollHeight,
            document.querySelector(".sw-step-body").getBoundingClientRect().top]""")
        assert height <= LONGEST_STAGE, f"{file.name}: {height} px"
        assert first < SCREEN[1] - 40, f"{file.name}: the first step's words begin at {first} px"
    page.goto((site / "machines" / f"{machine}.html").as_uri())
    assert page.evaluate("document.documentElement.scrollHeight") <= LONGEST_CARD
    assert page.locator("#card li").count() >= 16


@pytest.mark.parametrize("width", [320, 390, 768, 1100, 1280])
def test_nothing_runs_out_sideways(page, site, width):
    page.set_viewport_size({"width": width, "height": 900})
    for file in [*stages(site, "lever-350"), *sorted((site / "machines").glob("lever-350*.html"))]:
        page.goto(file.as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width, file.name
        beyond = "(all) => all.filter((one) => one.getBoundingClientRect().right > innerWidth + 1).length"
        cut = page.eval_on_selector_all(".sw-figure svg", beyond)
        still = "(all) => all.filter((one) => getComputedStyle(one).overflowX !== 'auto').length"
        scrolls = width < 500 and page.eval_on_selector_all(".sw-figure > div", still) == 0
        assert cut == 0 or scrolls, f"{file.name}: a drawing is cut at the right"


def test_every_blade_has_its_own_numbers(page, site):
    """Choosing a blade fills the card and every stage as for that blade; the next page and the way back keep it."""
    for machine in MACHINES:
        page.goto((site / "machines" / f"{machine}.html").as_uri())
        blades = [value for value in page.eval_on_selector_all("#sw-blade option", "(all) => all.map((one) => one.value)") if value]
        assert len(blades) > 2
        said = {}
        for blade in blades:
            page.select_option("#sw-blade", blade)
            said[blade] = page.locator("#card").inner_text()
            assert blade in page.locator("[data-region=on_it]").inner_text()
        assert len(set(said.values())) > len(blades) // 2, "blades of another size have other numbers"
        page.select_option("#sw-blade", blades[0])
        assert page.locator("#card").inner_text() == said[blades[0]], "back to the first one"
        for blade in blades:
            page.goto((site / "machines" / f"{machine}.html").as_uri() + f"?blade={blade}")
            assert page.locator("#card").inner_text() == said[blade], "an address with a blade says what choosing it says"


def test_the_blade_goes_along_from_page_to_page(page, site):
    page.goto((site / "machines" / "lever-350.html").as_uri())
    page.select_option("#sw-blade", "b6-6")
    page.locator("#card li a").nth(10).click()
    assert "/tension.html?blade=b6-6#" in page.url
    push = page.locator("#tension-weigh").locator("xpath=ancestor::li").inner_text()
    page.locator(".sw-onward a").first.click()
    assert "/track.html?blade=b6-6" in page.url
    page.locator(".sw-onward a").nth(1).click()
    assert page.locator("#tension-weigh").locator("xpath=ancestor::li").inner_text() == push
    page.select_option("#sw-stage", label="6. Track the blade")
    page.wait_for_url(re.compile(r"track\.html\?blade=b6-6"))
    page.select_option("#sw-blade", "b13-3")
    assert "blade=" not in page.url, "the blade on the saw needs no word in the address"


def test_the_front_of_the_guide_names_the_blade_that_was_chosen(page, site):
    page.goto((site / "machines" / "lever-350-guide.html").as_uri() + "?blade=b6-6")
    lead = page.locator(".sw-lead").inner_text()
    assert "b6-6" in lead and "b13-3" not in lead
    assert page.locator(".sw-stages a").first.get_attribute("href") == "lever-350/isolate.html?blade=b6-6"


def test_a_figure_is_that_of_the_blade(page, site):
    page.goto((site / "machines" / "lever-350" / "tension.html").as_uri())
    before = page.locator(".sw-figure svg").first.inner_html()
    page.select_option("#sw-blade", "b6-6")
    assert page.locator(".sw-figure svg").first.inner_html() != before


def test_in_brief_and_with_reasons(page, site):
    page.goto((site / "machines" / "lever-350" / "tension.html").as_uri())
    assert page.locator(".sw-reason").first.is_visible(), "without a choice everything is there"
    page.locator("[data-view=brief]").click()
    assert page.locator(".sw-reason").first.is_hidden() and page.locator(".sw-check").first.is_visible()
    page.goto((site / "machines" / "lever-350" / "track.html").as_uri())
    assert page.locator(".sw-reason").first.is_hidden(), "the choice is kept"
    page.locator("[data-view=full]").click()
    assert page.locator(".sw-reason").first.is_visible()


def test_a_stage_prints_alone(page, site, tmp_path):
    import pypdf

    page.goto((site / "machines" / "lever-350" / "upper_guides.html").as_uri())
    page.pdf(path=tmp_path / "stage.pdf", format="A4")
    read = pypdf.PdfReader(tmp_path / "stage.pdf")
    text = " ".join(one.extract_text() for one in read.pages)
    assert len(read.pages) <= 3 and "Set the upper guides" in text
    assert "Which blade" not in text and "In brief" not in text and "Find a saw" not in text


def test_without_a_script_the_page_is_whole(browser, site):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "machines" / "lever-350" / "tension.html").as_uri())
    assert page.locator(".sw-reason").first.is_visible() and page.locator("#sw-blade").is_hidden()
    assert json.dumps(page.locator("ol.sw-steps").inner_text()).count("undefined") == 0
    context.close()


def test_folds_open_for_whoever_is_sent_there(page, site):
    page.goto((site / "machines" / "lever-350-checks.html").as_uri() + "#after_jam")
    assert page.locator("#after_jam table").first.is_visible()
    assert page.locator("#yearly table").first.is_hidden()
