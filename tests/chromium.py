"""Where a Chromium browser is and how it is started for tests."""

import shutil

QUIET = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync")


def path() -> str:
    """Return the path of a Chromium browser; these tests fail without one."""
    found = next((path for name in ("chromium", "chromium-browser", "google-chrome") if (path := shutil.which(name))), None)
    assert found, "these tests need a Chromium browser, for example: apt-get install chromium"
    return found
