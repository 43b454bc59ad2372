"""A headless browser and the built demonstration site, shared by the tests in this folder."""

import functools
import http.server
import shutil
import threading
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import sync_playwright


ROOT = Path(__file__).resolve().parents[2]
QUIET = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync")


def chromium() -> str:
    """Return the path of a Chromium browser; these tests fail without one."""
    found = next((path for name in ("chromium", "chromium-browser", "google-chrome") if (path := shutil.which(name))), None)
    assert found, "these tests need a Chromium browser, for example: apt-get install chromium"
    return found


@pytest.fixture(scope="session")
def playwright():
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright):
    """One headless Chromium for all tests."""
    launched = playwright.chromium.launch(executable_path=chromium(), args=QUIET)
    yield launched
    launched.close()


@pytest.fixture(scope="session")
def site(tmp_path_factory) -> Path:
    """The demonstration site, built as a user builds it, into a folder of its own."""
    project = tmp_path_factory.mktemp("project")
    for name in ("procedures", "site_templates"):
        shutil.copytree(ROOT / name, project / name)
    shutil.copy(ROOT / "mkdocs.yml", project)
    from sawside.cli import main

    result = CliRunner().invoke(main, ["build", "--project", str(project)])
    assert result.exit_code == 0, result.output
    return project / "site"


@pytest.fixture(scope="session")
def served(site) -> str:
    """The address of the site on a local server."""
    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *_):
            pass

    server = http.server.ThreadingHTTPServer(("localhost", 0), functools.partial(Quiet, directory=site))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://localhost:{server.server_address[1]}"
    server.shutdown()


@pytest.fixture
def page(browser):
    """A page that fails the test on any script error and on any request to another host."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    opened = context.new_page()
    wrong: list[str] = []
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("request", lambda request: wrong.append(f"asked for {request.url}") if foreign(request.url) else None)
    yield opened
    context.close()
    assert not wrong


def foreign(url: str) -> bool:
    """Return whether a request leaves this computer."""
    return not url.startswith(("file:", "http://localhost", "data:", "blob:", "about:"))
