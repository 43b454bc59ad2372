"""Serving while one writes: own computer only, own files only, one renewal for each save, the last good site after a bad one."""

import http.client
import os
import socket
import subprocess
import sys
import threading
import time
import urllib.request

import pytest

from sawside import starter
from sawside.errors import Faults
from sawside.outputs import serving


@pytest.fixture
def shown(tmp_path):
    site = tmp_path / "site"
    (site / "machines").mkdir(parents=True)
    (site / "index.html").write_text("<body>Saws</body>")
    (site / "404.html").write_text("<body>There is no such page</body>")
    (tmp_path / "secret.txt").write_text("secret")
    return serving.Shown(site)


@pytest.fixture
def port(shown):
    with serving.server(0, shown) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server.server_address[1]
        server.shutdown()


def ask(port, path, host="localhost", method="GET"):
    connection = http.client.HTTPConnection("localhost", port, timeout=40)
    connection.putrequest(method, path, skip_host=True)
    connection.putheader("Host", f"{host}:{port}")
    connection.endheaders()
    answer = connection.getresponse()
    return answer.status, answer.read().decode()


def test_only_names_of_this_computer_are_answered(port):
    assert ask(port, "/")[0] == ask(port, "/", "127.0.0.1")[0] == 200
    assert ask(port, "/", "saws.example.org")[0] == 403
    assert ask(port, "/", "localhost.example.org")[0] == 403


def test_only_files_of_the_site(port, shown, tmp_path):
    status, words = ask(port, "/no-such-page.html")
    assert status == 404 and "no such page" in words
    assert ask(port, "/../secret.txt")[0] == 404 and ask(port, "/%2e%2e/secret.txt")[0] == 404
    try:
        os.symlink(tmp_path / "secret.txt", shown.folder / "out.txt")
        os.symlink(tmp_path, shown.folder / "all")
    except OSError:
        pytest.skip("this system makes no links")
    assert ask(port, "/out.txt")[0] == 404 and ask(port, "/all/secret.txt")[0] == 404


def test_a_waiting_page_is_told_of_the_next_site(port, shown, tmp_path):
    assert "sawside-renewal.js?1" in ask(port, "/")[1]
    answers = []
    thread = threading.Thread(target=lambda: answers.append(ask(port, "/sawside-renewal.js?1")))
    thread.start()
    newer = tmp_path / "newer"
    newer.mkdir()
    (newer / "index.html").write_text("<body>New saws</body>")
    shown.renew(newer)
    thread.join(30)
    assert answers == [(200, "location.reload();")]
    assert "New saws" in ask(port, "/")[1] and "sawside-renewal.js?2" in ask(port, "/")[1]


def test_a_port_that_is_taken_is_said_before_anything_is_built(shown):
    with socket.socket() as taken:
        taken.bind(("localhost", 0))
        taken.listen()
        with pytest.raises(Faults, match="cannot be shown at port"):
            serving.server(taken.getsockname()[1], shown)


def test_one_renewal_for_a_save_of_several_files(tmp_path):
    renewed, ended = [], threading.Event()
    thread = threading.Thread(target=lambda: renewed.extend(1 for _ in serving.saves([tmp_path], lambda: not ended.is_set())))
    thread.start()
    time.sleep(2 * serving.TICK)
    for n in range(5):
        (tmp_path / f"{n}.yaml").write_text("x")
        time.sleep(serving.TICK / 4)
    for _ in range(100):
        if renewed:
            break
        time.sleep(0.1)
    time.sleep(4 * serving.TICK)
    ended.set()
    thread.join(10)
    assert renewed == [1]


def test_a_bad_edit_leaves_the_last_good_site(tmp_path):
    """The whole command: a saw is misspelt, the fault is shown, the page stays; it is put right, and the page is renewed once."""
    shop = tmp_path / "shop"
    starter.make(shop)
    with socket.socket() as free:
        free.bind(("localhost", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-c", "from sawside.cli import main; main()", "serve", "--port", str(port), "--project", str(shop)]
    run = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env={**os.environ, "PYTHONUNBUFFERED": "1"}
    )
    try:
        said = []

        def until(words):
            for line in run.stdout:
                said.append(line)
                if words in line:
                    return
            raise AssertionError("".join(said))

        until("Open http://localhost")
        page = f"http://localhost:{port}/index.html"
        before = urllib.request.urlopen(page).read()
        (machine,) = (shop / "machines").glob("*.yaml")
        good = machine.read_text(encoding="utf-8")
        machine.write_text(good.replace("tyre_width:", "tire_width:"), encoding="utf-8")
        until("shown as it was before")
        assert any(line.lstrip().startswith("--> ") and "my-saw.yaml:" in line for line in said)  # a line for each part of a fault
        assert any("tire_width" in line for line in said) and urllib.request.urlopen(page).read() == before
        machine.write_text(good.replace("name:", "name: Renewed", 1), encoding="utf-8")
        until("Renewed at")
        assert b"Renewed" in urllib.request.urlopen(page).read() and "".join(said).count("Renewed at") == 1
    finally:
        run.terminate()
        run.wait(20)
