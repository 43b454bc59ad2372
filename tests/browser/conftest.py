"""A headless browser and the built demonstration site, shared by the tests in this folder."""

from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

import chromium
import demonstration


@pytest.fixture(scope="session")
def playwright():
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright):
    """One headless Chromium for all tests."""
    launched = playwright.chromium.launch(executable_path=chromium.path(), args=chromium.QUIET)
    yield launched
    launched.close()


@pytest.fixture(scope="session")
def site() -> Path:
    """The demonstration site, built as a user builds it."""
    return demonstration.built()


@pytest.fixture(scope="session")
def served(site) -> str:
    """The address of the site on a local server."""
    with chromium.serving(site) as address:
        yield address


@pytest.fixture(params=["file", "localhost"])
def address(request, site, served) -> str:
    """The site as opened from disk, then as served: what goes before `/index.html`."""
    return site.as_uri() if request.param == "file" else served


def watched(browser, wrong: list[str], **options):
    """Return a context and a page that note every script error, refusal and request to another host in `wrong`."""
    context = browser.new_context(**{"viewport": {"width": 1280, "height": 900}, **options})
    opened = context.new_page()
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    opened.on("request", lambda request: wrong.append(f"asked for {request.url}") if foreign(request.url) else None)
    return context, opened


@pytest.fixture
def page(browser):
    """A page that fails the test on any script error and on any request to another host."""
    wrong: list[str] = []
    context, opened = watched(browser, wrong)
    yield opened
    context.close()
    assert not wrong


def foreign(url: str) -> bool:
    """Return whether a request leaves this computer."""
    return not url.startswith(("file:", "http://localhost", "data:", "blob:", "about:"))
