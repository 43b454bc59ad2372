"""Showing the site on this computer while its files are being written: own pages only, and the last good ones when a file is wrong.

A page asks for a script that answers only when something was built anew; so no page needs more than our own scripts, which the
content security policy allows.
"""

import http.server
import shutil
import socket
import tempfile
import threading
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

from sawside.errors import At, Fault, Faults

HOSTS = ("localhost", "127.0.0.1", "[::1]")
#: How often files are looked at, and how long a page's question stays open [s].
TICK, PATIENCE = 0.3, 25.0
RENEWAL = "/sawside-renewal.js"
_ASK = b'<script src="' + RENEWAL.encode() + b'?%d"></script></body>'
_AGAIN = 'const ask = document.createElement("script"); ask.src = "%s?%d"; document.head.append(ask);'


class Shown:
    """What is shown now: the folder of the last good site, and how often it was made."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.version, self.changed = folder, 1, threading.Condition()

    def renew(self, folder: Path) -> None:
        """Show another folder from now on, and tell the pages that wait."""
        with self.changed:
            self.folder, self.version = folder, self.version + 1
            self.changed.notify_all()

    def newer_than(self, version: int) -> bool:
        """Wait until something newer than a version is shown; say whether it came before patience ended."""
        with self.changed:
            return self.changed.wait_for(lambda: self.version > version, PATIENCE)


def show(port: int, places: Iterable[Path], make: Callable[[Path], object]) -> Iterator[str]:
    """Show what `make` builds into a folder, anew after each save in one of the places; yield what is to be told of it.

    Raises Faults when the port is taken or the first site has faults; the faults of a later one are told.
    """
    with tempfile.TemporaryDirectory(prefix="sawside-") as room:
        shown = Shown(Path(room) / "1")
        with server(port, shown) as one:  # a port that is taken is found before anything is built
            make(shown.folder)
            threading.Thread(target=one.serve_forever, daemon=True).start()
            yield f"Open http://localhost:{port}/ - stop with Ctrl+C"
            for _ in saves(places):
                fresh = Path(room) / str(shown.version + 1)
                try:
                    make(fresh)
                except Faults as faults:
                    yield f"{faults}\nThe site is shown as it was before."
                    shutil.rmtree(fresh, ignore_errors=True)
                    continue
                shown.renew(fresh)
                shutil.rmtree(Path(room) / str(shown.version - 2), ignore_errors=True)
                yield f"Renewed at {time.strftime('%H:%M:%S')}"


def server(port: int, shown: Shown) -> http.server.ThreadingHTTPServer:
    """Return a server at a port of this computer; raise Faults when the port is taken. Nothing is built for that."""
    try:
        return _Server(("localhost", port), lambda *parts: _Handler(shown, *parts))
    except OSError as error:
        what = f"the site cannot be shown at port {port}: {error.strerror}"
        hint = f"choose another port, for example: sawside serve --port {min(port + 1, 65535)}"
        raise Faults([Fault(At(f"localhost:{port}"), what, hint)]) from None


class _Server(http.server.ThreadingHTTPServer):
    daemon_threads = True
    allow_reuse_address = False  # two servers at one port would take turns

    def server_bind(self) -> None:
        self.socket.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 0)
        super().server_bind()


class _Handler(http.server.SimpleHTTPRequestHandler):
    """Answer for this computer's own names only, and with files of the site only."""

    def __init__(self, shown: Shown, *parts: Any) -> None:
        self.shown = shown
        super().__init__(*parts, directory=str(shown.folder))

    def do_GET(self) -> None:
        """Answer, unless a stranger's page leads here by a name of its own."""
        if (self.headers.get("Host") or "").rpartition(":")[0] not in HOSTS:
            self.send_error(403, "Only for this computer")
        elif self.path.startswith(RENEWAL):
            self._renewal()
        else:
            self._file()

    do_HEAD = do_GET

    def _renewal(self) -> None:
        asked = self.path.partition("?")[2]
        version = int(asked) if asked.isdecimal() and len(asked) < 10 else 0
        newer = self.shown.newer_than(version)
        self._send("location.reload();" if newer else _AGAIN % (RENEWAL, version), "text/javascript")

    def _file(self) -> None:
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if path.is_symlink() or not path.resolve().is_relative_to(self.shown.folder.resolve()) or not path.is_file():
            self._send((self.shown.folder / "404.html").read_bytes(), "text/html", 404)
        elif path.suffix == ".html":
            self._send(path.read_bytes().replace(b"</body>", _ASK % self.shown.version), "text/html")
        else:
            self._send(path.read_bytes(), self.guess_type(str(path)))

    def _send(self, body: str | bytes, kind: str, status: int = 200) -> None:
        body = body.encode() if isinstance(body, str) else body
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def log_message(self, *parts: Any) -> None:
        """Say nothing: what matters here is what was built."""


def state(folders: Iterable[Path]) -> dict[str, tuple[int, int]]:
    """Return time and size of some files, and of every file below some folders, by name; links are not followed."""
    found = {}
    for folder in folders:
        for path in (folder, *folder.rglob("*")):
            try:
                about = path.lstat()
            except OSError:
                continue  # gone meanwhile
            found[str(path)] = (about.st_mtime_ns, about.st_size)
    return found


def saves(places: Iterable[Path], going: Callable[[], bool] = lambda: True) -> Iterator[None]:
    """Yield once for each save: after files or folders changed, and then stayed the same for a tick."""
    places = tuple(places)
    known = state(places)
    while going():
        time.sleep(TICK)
        now = state(places)
        if now == known:
            continue
        while now != (later := _after_a_tick(places)):
            now = later
        known = now
        yield


def _after_a_tick(places: Iterable[Path]) -> dict[str, tuple[int, int]]:
    time.sleep(TICK)
    return state(places)
