"""Every kind of page in a real browser: quiet, nothing from elsewhere, no sideways scrolling, usable by everybody."""

import axe_playwright_python.sync_playwright as axe
import pytest

from demonstration import KINDS, pages

#: Width of a common phone [px], and of a 1280 px window at 200 % zoom (WCAG 2.2, 1.4.4 and 1.4.10).
PHONE, ZOOMED = {"width": 390, "height": 844}, {"width": 640, "height": 450}
#: From the narrowest that WCAG 2.2 asks for (1.4.10: 1280 px at 400 %) to a wide window [px].
WIDTHS = (320, 390, 480, 640, 705, 800, 960, 1024, 1152, 1280, 1600)
#: Least size of a target [px]: WCAG 2.2, 2.5.5 (level AAA).
TARGET = 44


def test_no_error_and_nothing_from_elsewhere(page, site, address):
    # The fixture `page` fails on a script error, on a refusal by the security policy and on a foreign request.
    every = [file.relative_to(site).as_posix() for file in pages(site) if file.name != "404.html"]
    for path in every if address.startswith("file:") else [*KINDS.values(), "404.html"]:
        page.goto(f"{address}/{path}")


def test_no_sideways_scrolling_at_any_width(page, site):
    wide = []
    for file in (file for file in pages(site) if file.name != "404.html"):  # from disk that one finds no style
        page.goto(file.as_uri())
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 800})
            if page.evaluate("Math.max(document.documentElement.scrollWidth, document.body.scrollWidth)") > width:
                wide.append((file.name, width))
    assert not wide


@pytest.mark.parametrize("size", [PHONE, ZOOMED], ids=["phone", "zoom 200 %"])
def test_nothing_sticks_out(page, site, size):
    page.set_viewport_size(size)
    for kind, path in KINDS.items():
        page.goto(f"{site.as_uri()}/{path}")
        assert page.evaluate(BEYOND, size["width"]) == [], kind


#: Elements that stick out to the right, save inside something that scrolls by itself or is out of sight.
BEYOND = """(width) => [...document.querySelectorAll("body *")].filter((e) => {
    const box = e.getBoundingClientRect();
    return box.width && box.right > width + 1 && !e.closest(".sw-figure > div, .sw-formula, .sw-unseen, thead, pre");
}).map((e) => e.outerHTML.slice(0, 120))"""


def test_targets_are_large_enough_for_gloves(page, site):
    page.set_viewport_size(PHONE)
    chosen = (
        "button, select, input, .sw-brand, .sw-button, .sw-pages a, .sw-move a, .sw-stages a, .sw-foot a, .sw-list a,"
        " .sw-cards a, .sw-saws h2 a"
    )
    for kind, path in KINDS.items():
        page.goto(f"{site.as_uri()}/{path}")
        small = page.evaluate(
            """([chosen, least]) => [...document.querySelectorAll(chosen)].filter((e) => e.checkVisibility())
                .map((e) => [e.outerHTML.slice(0, 90), e.getBoundingClientRect().height])
                .filter(([, height]) => height < least - 0.5)""",
            [chosen, TARGET],
        )
        assert small == [], kind


#: A page kind repeats a few kinds of parts many times over; axe needs minutes for all of them and learns nothing new. It gets
#: every part up to this number, counted within each parent.
PARTS = 6
SHORTEN = """(most) => document.querySelectorAll(".sw-field, .sw-stage, .sw-blade, .sw-steps > li, .sw-items > div, .sw-table tr, .sw-list li")
    .forEach((e) => { if ([...e.parentElement.children].filter((x) => x.className === e.className).indexOf(e) >= most) e.remove(); })"""


@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(browser, site, kind):
    # axe-core, an open rule engine for WCAG; a page opened for it alone, because it needs its own script in the page.
    for colours in ("light", "dark"):
        context = browser.new_context(viewport={"width": 1280, "height": 900}, color_scheme=colours, bypass_csp=True)
        opened = context.new_page()
        opened.goto(f"{site.as_uri()}/{KINDS[kind]}")
        opened.evaluate(SHORTEN, PARTS)
        rules = {"runOnly": ["color-contrast"]} if colours == "dark" else {"resultTypes": ["violations"]}
        found = axe.Axe().run(opened, options=rules)
        assert found.violations_count == 0, f"{colours}: {found.generate_report()}"
        context.close()


def test_axe_finds_nothing_in_open_search(browser, site):
    context = browser.new_context(viewport=PHONE, bypass_csp=True)
    opened = context.new_page()
    opened.goto(f"{site.as_uri()}/index.html")
    opened.get_by_role("searchbox").fill("blade")
    opened.locator("#sw-found li").first.wait_for()
    found = axe.Axe().run(opened)
    assert found.violations_count == 0, found.generate_report()
    context.close()


#: Pages of lists of which one is wanted at a time: each is folded below its title.
FOLDED = {"checks", "commissioning", "blades"}


def test_nothing_that_may_hurt_is_folded_away(page, site):
    # What may hurt people must not need a click to be read; a list for another moment may.
    for kind, path in KINDS.items():
        page.goto(f"{site.as_uri()}/{path}")
        assert page.locator("[aria-expanded], [role=tab], .tabbed-set").count() == 0, kind
        assert (page.locator("details").count() > 3) == (kind in FOLDED), kind
        assert page.locator("details:not(:has(> summary h2))").count() == 0, f"{kind}: a fold says what is in it"
        hidden = page.evaluate(
            "[...document.querySelectorAll('.sw-notice, .sw-before, .sw-hazard-row, .sw-rules')].filter((e) => !e.checkVisibility()).length"
        )
        assert hidden == 0, kind
    page.goto(f"{site.as_uri()}/{KINDS['safety']}")
    # the grouped messages in boxes, every other hazard as a row
    assert page.locator(".sw-notice").count() == 8 and page.locator(".sw-hazard-row").count() > 15
    assert page.locator(".sw-rules").count() == 1


def test_formulas_are_mathml(page, site):
    page.goto(f"{site.as_uri()}/{KINDS['working']}")
    assert page.locator("math").count() > 20
    drawn = page.evaluate("[...document.querySelectorAll('math')].every((m) => m.getBoundingClientRect().height > 8)")
    assert drawn, "the browser lays the formulas out itself"
    assert page.locator("math").first.aria_snapshot().strip(), "assistive technology is given the formula"


class TestGuide:
    def test_the_list_of_stages_leads_to_each(self, page, site):
        page.set_viewport_size(PHONE)
        page.goto(f"{site.as_uri()}/{KINDS['guide']}")
        titles = page.locator(".sw-stages a").all_inner_texts()
        assert len(titles) > 12 and page.locator("#stages").bounding_box()["y"] < PHONE["height"]
        page.locator(".sw-stages a").nth(4).click()
        assert page.locator("h1").inner_text() == f"5. {titles[4]}"
        page.get_by_role("link", name=f"Next: 6. {titles[5]}").click()
        assert page.locator("h1").inner_text() == f"6. {titles[5]}"
        page.get_by_role("link", name=f"Back: {titles[4]}").click()
        assert page.locator("h1").inner_text() == f"5. {titles[4]}"

    def test_a_figure_stands_beside_its_step(self, page, site):
        page.goto(f"{site.as_uri()}/{KINDS['stage']}")
        body = page.locator(".sw-with-figure").first
        text, figure = body.locator("> div").first.bounding_box(), body.locator("figure").bounding_box()
        assert figure["x"] >= text["x"] + text["width"] and figure["y"] < text["y"] + text["height"]
