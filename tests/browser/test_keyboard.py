"""The keyboard alone reaches everything that can be operated, shows where it is, and is never under something."""

import pytest

from demonstration import KINDS

MARK = """() => {
    const all = [...document.querySelectorAll("a[href], button, input, select, summary, textarea, [tabindex='0']")]
        .filter((e) => e.checkVisibility({ visibilityProperty: true }));
    all.forEach((e, i) => { e.dataset.order = i; });
    return all.length;
}"""
HERE = """() => {
    const e = document.activeElement;
    if (!e || e === document.body) return null;
    const box = e.getClientRects()[0], style = getComputedStyle(e);
    const over = box ? document.elementFromPoint(Math.min(box.x + box.width / 2, innerWidth - 1), box.y + Math.min(box.height / 2, 12)) : null;
    return { order: Number(e.dataset.order ?? -1), what: e.outerHTML.slice(0, 100),
             shown: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
             free: Boolean(over && (e.contains(over) || over.contains(e))) };
}"""


@pytest.mark.parametrize("kind", ["home", "worksheets", "guide", "stage", "checks", "blades", "working"])
def test_reaches_everything_in_reading_order(page, site, kind):
    page.goto(f"{site.as_uri()}/{KINDS[kind]}")
    page.wait_for_timeout(100)
    number = page.evaluate(MARK)
    assert number > 10
    seen = []
    for _ in range(number + 5):
        page.keyboard.press("Tab")
        here = page.evaluate(HERE)
        if here is None or here["order"] in seen:
            break
        assert here["shown"], f"no mark of the focus: {here['what']}"
        assert here["free"], f"covered: {here['what']}"
        seen.append(here["order"])
    assert seen == list(range(number))


def test_skips_to_the_content(page, site):
    page.goto(f"{site.as_uri()}/{KINDS['guide']}")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the content"
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("Boolean(document.activeElement.closest('#content'))")


def test_operates_a_worksheet(page, site):
    page.goto(f"{site.as_uri()}/{KINDS['worksheets']}")
    slider = page.get_by_label("Thickness of the work")
    slider.focus()
    before = slider.input_value()
    page.keyboard.press("ArrowRight")
    assert int(slider.input_value()) == int(before) + 1
    page.locator("#turned-cut-ft").focus()
    for reading in ("20.2", "20.0", "20.2", "20.0"):
        page.keyboard.type(reading)
        page.keyboard.press("Tab")
    assert "Table off square" in page.locator("#turned-cut-answer").inner_text()
    page.get_by_label("Units").focus()
    page.keyboard.press("ArrowDown")
    assert page.locator("#turned-cut-ft-unit").inner_text() == "in"
