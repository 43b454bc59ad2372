"""Search without a server: a saw by any of its names, a blade as people write it, a step by its words."""

import pytest

#: What is typed -> address that must be among the first three, from the demonstration shop's own files.
WANTED = {
    "the little one": "machines/bench-250.html",
    "window saw": "machines/bench-250.html",
    "grandfather": "machines/old-18-inch.html",
    "GREEN DOOR": "machines/lever-350.html",
    "left of the door": "machines/lever-350.html",
    "log saw": "machines/block-450.html",
    "1/2 x 6": "machines/lever-350-numbers.html#blade-b13-6",
    "1/2x6": "machines/lever-350-numbers.html#blade-b13-6",
    "13 x 6": "machines/lever-350-numbers.html#blade-b13-6",
    "13mm x 6": "machines/lever-350-numbers.html#blade-b13-6",
    "b13-6": "machines/lever-350-numbers.html#blade-b13-6",
    "maker's tension value": "machines/lever-350/tension.html#tension-no_maker_value",
    "burning": "machines/lever-350/test_cut.html#test_cut-face",
    "slipping": "machines/bench-250-checks.html#monthly-drive",
    "1/2 inch": "machines/lever-350-numbers.html#blade-b13-6",
}


def found(page, words):
    page.get_by_role("searchbox").fill("")
    page.locator("#sw-found").wait_for(state="hidden")
    page.get_by_role("searchbox").fill(words)
    page.locator("#sw-found p:not(:empty)").wait_for()
    return page.eval_on_selector_all("#sw-found a", "(links) => links.map((link) => link.href)")


@pytest.mark.parametrize("start", ["index.html", "machines/bench-250-guide.html"])
def test_finds(page, address, start):
    page.goto(f"{address}/{start}")
    for words, wanted in WANTED.items():
        hits = found(page, words)
        assert f"{address}/{wanted}" in hits[:12], f"{words}: {hits[:12]}"


def test_says_so_when_there_is_nothing(page, address):
    page.goto(f"{address}/index.html")
    assert found(page, "unobtainium zeppelin") == []
    assert "Nothing found" in page.locator("#sw-found").inner_text()


def test_what_is_typed_is_never_markup(page, address):
    page.goto(f"{address}/index.html")
    found(page, "<img src=x onerror=alert(1)>")
    assert page.locator("#sw-found img").count() == 0


def test_keyboard_alone(page, address):
    page.goto(f"{address}/index.html")
    field = page.get_by_role("searchbox")
    field.focus()
    page.keyboard.type("grandfather")
    page.locator("#sw-found a").first.wait_for()
    page.keyboard.press("Escape")
    assert field.input_value() == "" and page.locator("#sw-found").is_hidden()
    page.keyboard.type("grandfather")
    page.locator("#sw-found a").first.wait_for()
    page.keyboard.press("Enter")
    page.locator("#sw-found a:focus").wait_for()
    page.keyboard.press("Enter")
    page.wait_for_url("**/old-18-inch**")
