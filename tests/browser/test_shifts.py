"""Nothing moves under a finger: layout shift as browsers count it (Layout Instability API, W3C draft), on a phone and a desk."""

import pytest

import demonstration

SHIFT = """() => new Promise((done) => {
    let sum = 0;
    new PerformanceObserver((list) => list.getEntries().forEach((one) => { if (!one.hadRecentInput) sum += one.value; }))
        .observe({ type: "layout-shift", buffered: true });
    setTimeout(() => done(sum), 300);
})"""


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("kind", ["home", "worksheets", "guide", "written"])
def test_pages_stay_still(page, address, kind, width):
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(f"{address}/{demonstration.KINDS[kind]}")
    assert page.evaluate(SHIFT) < 0.05


def test_code_that_scrolls_can_be_reached(page, address):
    page.set_viewport_size({"width": 390, "height": 800})
    page.goto(f"{address}/by_hand.html")
    assert page.locator("pre").count() >= 4 == page.locator("pre[tabindex='0'][aria-label]").count()


def test_a_page_that_is_not_there_has_its_style_from_disk(page, site):
    page.goto(f"{site.as_uri()}/index.html")
    wanted = page.evaluate("getComputedStyle(document.querySelector('h1')).fontWeight")
    other = page.context.new_page()  # its second style sheet, the one for a web host, is not there on a disk
    other.goto(f"{site.as_uri()}/404.html")
    assert other.evaluate("getComputedStyle(document.querySelector('h1')).fontWeight") == wanted
    assert other.locator("input[type=checkbox]").count() == 0
