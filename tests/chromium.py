"""Where a Chromium browser is and how it is started for tests."""

import contextlib
import functools
import http.server
import shutil
import threading

QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def path() -> str:
    """Return the path of a Chromium browser; these tests fail without one."""
    found = next((path for name in ("chromium", "chromium-browser", "google-chrome") if (path := shutil.which(name))), None)
    assert found, "these tests need a Chromium browser, for example: apt-get install chromium"
    return found


@contextlib.contextmanager
def serving(folder):
    """Serve a folder on this computer and give its address."""

    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *_):
            pass

    server = http.server.ThreadingHTTPServer(("localhost", 0), functools.partial(Quiet, directory=folder))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://localhost:{server.server_address[1]}"
    server.shutdown()
