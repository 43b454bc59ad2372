"""The browsers beside Chromium: each opens a page and runs a script on it.

Firefox is spoken to by WebDriver BiDi (a W3C draft) over its own socket, WebKitGTK by its WebDriver. Both come from the
system; where one is missing its tests are passed over, unless SAWSIDE_ENGINES says `all`, as the whole run does.
"""

import contextlib
import itertools
import json
import os
import re
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import websocket
from selenium import webdriver

WAIT = 60
#: A profile that asks nothing of the net and of nobody.
_QUIET = """\
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("app.update.disabledForTesting", true);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
"""


@dataclass(frozen=True)
class Engine:
    """A running browser: `show(address)` loads a page, `run(script)` gives what a function body returns or promises."""

    show: Callable[[str], None]
    run: Callable[[str], object]


def program(*names: str) -> str:
    """Return the path of the first of these programs; pass the test over, or fail it, when there is none."""
    found = next((path for name in names if (path := shutil.which(name))), None)
    if not found:
        missing = f"needs {' or '.join(names)}: Debian's packages firefox-esr, webkit2gtk-driver and xvfb"
        pytest.fail(missing) if os.environ.get("SAWSIDE_ENGINES") == "all" else pytest.skip(missing)
    return found


@contextlib.contextmanager
def firefox() -> Iterator[Engine]:
    """A headless Firefox."""
    command = [program("firefox-esr", "firefox"), "--headless", "--remote-debugging-port", "0", "--profile"]
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        (Path(profile) / "user.js").write_text(_QUIET)
        with subprocess.Popen([*command, profile], stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True) as process:
            try:
                socket = next(hit[1] for line in process.stderr if (hit := re.search(r"BiDi listening on (ws://\S+)", line)))
                yield _bidi(websocket.create_connection(f"{socket}/session", timeout=WAIT, suppress_origin=True))
            finally:
                process.kill()


def _bidi(line: websocket.WebSocket) -> Engine:
    numbers = itertools.count(1)

    def ask(method: str, **params) -> dict:
        number = next(numbers)
        line.send(json.dumps({"id": number, "method": method, "params": params}))
        while True:
            told = json.loads(line.recv())
            if told.get("id") == number:
                assert told["type"] == "success", told
                return told["result"]

    ask("session.new", capabilities={})
    page = ask("browsingContext.getTree")["contexts"][0]["context"]

    def run(script: str) -> object:
        text = f"(async () => JSON.stringify(await (async () => {{ {script} }})()))()"
        told = ask("script.evaluate", expression=text, target={"context": page}, awaitPromise=True)
        assert told["type"] == "success", told
        return json.loads(told["result"]["value"])

    return Engine(lambda address: ask("browsingContext.navigate", context=page, url=address, wait="complete") and None, run)


@contextlib.contextmanager
def webkit() -> Iterator[Engine]:
    """A WebKitGTK browser on a screen of its own."""
    driver = program("WebKitWebDriver")
    with contextlib.ExitStack() as stack:
        if not os.environ.get("DISPLAY"):
            stack.enter_context(_screen())
        options = webdriver.WebKitGTKOptions()
        options.add_argument("--automation")
        options.binary_location = str(next(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser")))
        browser = webdriver.WebKitGTK(options=options, service=webdriver.WebKitGTKService(executable_path=driver))
        stack.callback(browser.quit)
        browser.set_script_timeout(WAIT)

        def run(script: str) -> object:
            text = f"const done = arguments[0]; (async () => {{ {script} }})().then((told) => done(JSON.stringify(told)));"
            return json.loads(browser.execute_async_script(text))

        yield Engine(browser.get, run)


@contextlib.contextmanager
def _screen() -> Iterator[None]:
    """A screen that nobody sees."""
    command = [program("Xvfb"), "-displayfd", "1", "-screen", "0", "1280x900x24", "-nolisten", "tcp"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as process:
        os.environ["DISPLAY"] = f":{process.stdout.readline().strip()}"
        try:
            yield
        finally:
            del os.environ["DISPLAY"]
            process.kill()
