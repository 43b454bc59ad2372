"""Whatever happens to a build, one whole site stays or comes back, and nothing of the user's is lost."""

import contextlib
import json
import os
import signal
import socket
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from sawside import place
from sawside.errors import Faults
from sawside.place import lock, tree
from sawside.place.system import ThisComputer
from simulated import Counted, Full, Killed, Mount, Windows

FILES = [f"machines/{number}.html" for number in range(4)] + ["index.html", "sheets/saw.pdf"]


def pages(number: int) -> dict[str, str]:
    """Return what a build makes: every file says which build it is from; one comes and one goes with every build."""
    return {name: str(number) for name in [*FILES, f"only-in-{number}.html"]}


def write(site: Path, number: int, system=None, files=None) -> None:
    with place.building(site, system or ThisComputer(), patience=0.2) as fresh:
        for name, text in (files or pages(number)).items():
            (fresh / name).parent.mkdir(parents=True, exist_ok=True)
            (fresh / name).write_text(text)


def contents(folder: Path) -> dict[str, str]:
    return {file.relative_to(folder).as_posix(): file.read_text() for file in sorted(folder.rglob("*")) if file.is_file()}


def made(site: Path) -> dict[str, str]:
    """Return the content of a site without its mark; fail when the mark does not claim just what is there."""
    found = contents(site)
    assert set(json.loads(found.pop(tree.MARK))["files"]) == {*found, tree.MARK}
    return found


def whole(site: Path) -> int:
    """Return the number of the build a site is from; fail when it is a mixture, has gaps or something too much."""
    found = made(site)
    number = int(found["index.html"])
    assert found == pages(number)
    return number


class TwoRenamesDenied(ThisComputer):
    """Has no exchange, like macOS without its own call."""

    def exchange(self, one, other):
        return False


#: Every way a site is published: (the system, whether the site is there before).
WAYS = {
    "exchange": (lambda site: ThisComputer(), True),
    "first": (lambda site: ThisComputer(), False),
    "first on Windows": (lambda site: Windows(), False),
    "journal on Windows": (lambda site: Windows(), True),
    "journal without exchange": (lambda site: TwoRenamesDenied(), True),
    "journal over a border": (Mount, True),
}


def steps_of(way: str, tmp_path: Path) -> int:
    system, there = WAYS[way]
    site = tmp_path / "count" / "site"
    if there:
        write(site, 1)
    counted = Counted(system(site))
    write(site, 2, counted)
    assert whole(site) == 2
    return counted.number


@pytest.mark.parametrize("way", WAYS)
def test_a_build_killed_before_any_of_its_steps_leaves_a_site_that_the_next_run_makes_whole(way, tmp_path):
    """Each step is killed once. At once there is the old site, the new one, or with a journal every file of one of them."""
    system, there = WAYS[way]
    number = steps_of(way, tmp_path)
    assert number >= 6
    for last in range(1, number + 1):
        site = tmp_path / str(last) / "site"
        if there:
            write(site, 1)
        with pytest.raises(Killed):
            write(site, 2, Counted(system(site), last))
        if there:
            found = contents(site)
            for name in FILES:
                assert found[name] in ("1", "2"), "a file was torn"
            if not way.startswith("journal"):
                assert whole(site) in (1, 2)
        elif site.exists():
            assert whole(site) == 2
        # The next run heals before it builds: even one that fails leaves a whole site.
        with pytest.raises(ZeroDivisionError), place.building(site, system(site), patience=0.2):
            raise ZeroDivisionError
        assert not there or whole(site) in (1, 2)
        write(site, 3, system(site))
        assert whole(site) == 3
        assert [path.name for path in site.parent.iterdir()] == ["site"]


def test_there_are_a_hundred_kills(tmp_path):
    assert sum(steps_of(way, tmp_path / way) for way in WAYS) >= 100


@pytest.mark.parametrize("way", [way for way in WAYS if way.startswith("journal")])
def test_a_run_that_heals_and_is_killed_too_leaves_what_the_one_after_heals(way, tmp_path):
    system = WAYS[way][0]
    for first in range(12, steps_of(way, tmp_path), 5):
        for second in range(1, 12, 3):
            site = tmp_path / f"{first}-{second}" / "site"
            write(site, 1)
            with pytest.raises(Killed):
                write(site, 2, Counted(system(site), first))
            with pytest.raises(Killed):
                write(site, 3, Counted(system(site), second))
            write(site, 4, system(site))
            assert whole(site) == 4


#: Builds again and again, and says so just before each publishing, until it is killed.
BUILDER = """
import sys
from pathlib import Path
sys.path[:0] = sys.argv[3:]
import test_place
from sawside import place
from sawside.place.system import ThisComputer
class Said(test_place.TwoRenamesDenied if sys.argv[2] == "journal" else ThisComputer):
    def __getattribute__(self, name):
        if name in ("exchange", "rename", "remove"):
            print(name, flush=True)
        return super().__getattribute__(name)
site, number = Path(sys.argv[1]), 1
while True:
    number += 1
    test_place.write(site, number, Said())
"""


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system has no SIGKILL")
@pytest.mark.parametrize("way", ["exchange", "journal"])
def test_a_process_killed_while_it_publishes_leaves_a_site_and_its_lock_does_not_stay(way, tmp_path):
    site = tmp_path / "site"
    write(site, 0)
    command = [sys.executable, "-c", BUILDER, str(site), way, str(Path(__file__).parent), *filter(None, sys.path)]
    for events in (1, 4, 9, 17, 30):
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as builder:
            for _ in range(events):
                assert builder.stdout.readline()
            builder.send_signal(signal.SIGKILL)
        assert set(FILES) <= set(contents(site))
        with pytest.raises(ZeroDivisionError), place.building(site):
            raise ZeroDivisionError
        whole(site)
    write(site, 10**6)
    assert whole(site) == 10**6
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


# What is the user's.


@pytest.mark.parametrize("system", [ThisComputer(), Windows()], ids=["here", "windows"])
def test_files_of_the_user_in_a_site_stay_across_builds(system, tmp_path):
    site = tmp_path / "site"
    write(site, 1, system)
    mine = {".git/HEAD": "ref", "CNAME": "saws.example", "machines/photo.jpg": "photo", "photos/new/a.jpg": "a"}
    for name, text in mine.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text)
    (site / "empty").mkdir()
    for number in (2, 3):
        write(site, number, system)
        assert {name: text for name, text in contents(site).items() if name != tree.MARK} == pages(number) | mine
        assert (site / "empty").is_dir()


def test_a_file_the_user_adds_while_the_sites_are_exchanged_is_carried_over(tmp_path):
    site = tmp_path / "site"
    write(site, 1)

    class Late(ThisComputer):
        def exchange(self, one, other):
            (other / "machines" / "photo.jpg").write_text("photo")
            return super().exchange(one, other)

    write(site, 2, Late())
    assert (site / "machines" / "photo.jpg").read_text() == "photo"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("name", ["photo.jpg", "index.html", ".git/HEAD", tree.MARK])
def test_a_folder_without_our_mark_is_refused_before_the_work_and_stays(name, tmp_path):
    site = tmp_path / "photos"
    (site / name).parent.mkdir(parents=True)
    (site / name).write_text("mine")
    assert "holds something else" in place.refusal(site)[0]
    with pytest.raises(Faults, match="holds something else"), place.building(site):
        pytest.fail("a build was begun")
    assert contents(tmp_path) == {f"photos/{name}": "mine"}


@pytest.mark.parametrize("mine", ["new.html", "new.html/photo.jpg", "guides"])
def test_a_new_page_does_not_take_the_place_of_a_file_of_the_user(mine, tmp_path):
    site = tmp_path / "site"
    write(site, 1)
    (site / mine).parent.mkdir(exist_ok=True)
    (site / mine).write_text("mine")
    before = contents(tmp_path)
    with pytest.raises(Faults, match="not from a build"):
        write(site, 2, files=pages(2) | {"new.html": "2", "guides/a.html": "2"})
    assert contents(tmp_path) == before


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_links_in_a_site_lead_no_build_out_of_it(tmp_path):
    """Neither a link in the place of a folder of ours nor a forged mark makes a build touch what is outside."""
    site, outside = tmp_path / "site", tmp_path / "outside"
    write(site, 1)
    outside.mkdir()
    (outside / "letter.txt").write_text("dear")
    (site / "away").symlink_to(outside)
    names = ["../outside/letter.txt", str(outside / "letter.txt"), "away/letter.txt", *pages(1)]
    (site / tree.MARK).write_bytes(tree.mark(names))
    write(site, 2)
    assert contents(outside) == {"letter.txt": "dear"} and (site / "away").is_symlink()
    with pytest.raises(Faults, match="not from a build"):
        write(site, 3, files=pages(3) | {"away/page.html": "3"})
    assert contents(outside) == {"letter.txt": "dear"}


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
@pytest.mark.parametrize("steps", [[["drop", "../letter.txt", True]], [["put", "../letter.txt", False]], [["drop", 5, 5]], 7])
@pytest.mark.parametrize("way", ["on", "back"])
def test_a_journal_from_a_stranger_leads_no_build_out_of_the_site(way, steps, tmp_path):
    site = tmp_path / "site"
    write(site, 1)
    (tmp_path / "letter.txt").write_text("dear")
    room = site / ".sawside-work"
    room.mkdir()
    (room / "about.txt").write_text("")
    (room / "steps.json").write_text(json.dumps({"way": way, "steps": steps}))
    write(site, 2)
    assert (tmp_path / "letter.txt").read_text() == "dear" and whole(site) == 2


# Where a site may be.


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_site_that_is_a_link_is_published_through_it(tmp_path):
    target, site = tmp_path / "www" / "saws", tmp_path / "shop" / "site"
    target.mkdir(parents=True)
    site.parent.mkdir()
    site.symlink_to(target)
    for number in (1, 2):
        write(site, number)
        assert site.is_symlink() and whole(target) == number
    assert [path.name for path in (*site.parent.iterdir(), *target.parent.iterdir())] == ["site", "saws"]
    site.unlink()
    site.symlink_to(tmp_path / "www" / "later")
    write(site, 3)
    assert site.is_symlink() and whole(tmp_path / "www" / "later") == 3


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
@pytest.mark.parametrize("to", ["nowhere/at/all", "site"])
def test_a_site_that_is_a_link_to_nowhere_is_refused_in_words(to, tmp_path):
    (tmp_path / "site").symlink_to(tmp_path / to)
    assert "a link to a place that is not there" in place.refusal(tmp_path / "site")[0]
    with pytest.raises(Faults, match="a link to a place that is not there"):
        write(tmp_path / "site", 1)


def test_a_site_that_is_a_file_is_refused_in_words_and_stays(tmp_path):
    (tmp_path / "site").write_text("mine")
    for _ in range(2):
        with pytest.raises(Faults, match="`site` is a file"):
            write(tmp_path / "site", 1)
    assert contents(tmp_path) == {"site": "mine"}


@pytest.mark.parametrize("known", [True, False], ids=["a mount", "a mount of the same file system"])
def test_a_site_that_is_a_file_system_of_its_own(known, tmp_path, monkeypatch):
    """Only the second kind has to be found out by trying: it has the same device number as the folder above."""
    site = tmp_path / "site"
    site.mkdir()
    inode = site.stat().st_ino
    monkeypatch.setattr(os.path, "ismount", lambda path: known and Path(path) == site)
    for number in (1, 2, 3):
        write(site, number, Mount(site))
        assert whole(site) == number and site.stat().st_ino == inode
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_page_becomes_a_folder_and_a_folder_a_page(tmp_path):
    site = tmp_path / "site"
    one, two = {"index.html": "1", "a": "1", "b/c/d": "1"}, {"index.html": "2", "a/x/y": "2", "b": "2"}
    for files in (one, two, one):
        write(site, 0, Windows(), files)
        assert made(site) == files
    for last in range(8, 40, 3):
        with pytest.raises(Killed):
            write(site, 0, Counted(Windows(), last), two)
        write(site, 0, Windows(), one)
        assert made(site) == one
    with pytest.raises(Faults, match="being used"):
        write(site, 0, Windows(held=[site / "index.html"]), two)
    assert made(site) == one


# Windows.


def test_an_open_sheet_is_named_and_the_whole_old_site_stays(tmp_path):
    site = tmp_path / "site"
    write(site, 1, Windows())
    held = site / "sheets" / "saw.pdf"
    for _ in range(2):
        with pytest.raises(Faults, match="close saw.pdf if a program has it open"):
            write(site, 2, Windows(held=[held]))
        assert whole(site) == 1
    write(site, 2, Windows())
    assert whole(site) == 2 and [path.name for path in tmp_path.iterdir()] == ["site"]


def test_an_open_sheet_that_does_not_change_is_in_nobodys_way(tmp_path):
    site = tmp_path / "site"
    write(site, 1, files={"index.html": "1", "saw.pdf": "same"})
    write(site, 2, Windows(held=[site / "saw.pdf"]), files={"index.html": "2", "saw.pdf": "same"})
    assert made(site) == {"index.html": "2", "saw.pdf": "same"}


def test_a_shell_in_the_site_is_in_nobodys_way(tmp_path):
    site = tmp_path / "site"
    write(site, 1, Windows())
    for number in (2, 3):
        write(site, number, Windows(cwds=[site, site / "machines"]))
        assert whole(site) == number


def test_a_file_opened_while_the_site_is_renewed_brings_the_old_site_back(tmp_path):
    site = tmp_path / "site"
    write(site, 1, Windows())
    for name in FILES:
        with pytest.raises(Faults):
            write(site, 2, Windows(held=[site / name]))
        assert whole(site) == 1


def test_a_run_killed_while_it_brings_the_old_site_back_is_mended_by_the_next(tmp_path):
    """The last file to be put is held, so that everything before it has to come back, and that is killed at each step."""
    counted, site = Counted(Windows(held=[tmp_path / "count" / "site" / "index.html"])), tmp_path / "count" / "site"
    write(site, 1)
    with pytest.raises(Faults):
        write(site, 2, counted)
    for last in range(20, counted.number + 1):
        site = tmp_path / str(last) / "site"
        write(site, 1)
        with pytest.raises(Killed):
            write(site, 2, Counted(Windows(held=[site / "index.html"]), last))
        with pytest.raises(ZeroDivisionError), place.building(site, Windows(), patience=0.2):
            raise ZeroDivisionError
        assert whole(site) in (1, 2)


def test_a_leftover_that_cannot_go_blocks_no_later_build(tmp_path):
    site = tmp_path / "site"
    write(site, 1, Windows())
    for room in (tmp_path / ".site-work", site / ".sawside-work"):
        (room / "old").mkdir(parents=True)
        (room / "about.txt").write_text("")
        (room / "old" / "saw.pdf").write_text("0")
    held = [tmp_path / ".site-work" / "old" / "saw.pdf", site / ".sawside-work" / "old" / "saw.pdf"]
    for number in (2, 3):
        write(site, number, Windows(held=held))
        assert made_but_rooms(site) == pages(number)
    write(site, 4, Windows())
    assert whole(site) == 4 and [path.name for path in tmp_path.iterdir()] == ["site"]


def made_but_rooms(site: Path) -> dict[str, str]:
    return {name: text for name, text in contents(site).items() if not name.startswith(".sawside")}


# Two builds, full disks, failures.


def test_a_build_that_fails_leaves_the_old_site_and_nothing_else(tmp_path):
    site = tmp_path / "site"
    write(site, 1)
    with pytest.raises(ZeroDivisionError), place.building(site) as fresh:
        (fresh / "index.html").write_text("2")
        raise ZeroDivisionError
    assert whole(site) == 1
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_two_builds_at_once(tmp_path):
    site, told = tmp_path / "site", []

    def second():
        with pytest.raises(Faults) as caught:
            write(site, 2)
        told.append(str(caught.value))

    with place.building(site) as fresh:
        (fresh / "index.html").write_text("1")
        other = threading.Thread(target=second)
        other.start()
        other.join()
    assert len(told) == 1 and "another build is writing this site" in told[0]
    assert made(site) == {"index.html": "1"}


def test_the_lock_of_a_build_that_died_on_another_computer_heals(tmp_path, monkeypatch):
    monkeypatch.setattr(lock, "LEASE", 0.4)
    monkeypatch.setattr(lock, "PATIENCE", 5)
    ours = tmp_path / "ours"
    with lock.alone(ours, tmp_path):
        record = ours.read_text()
    elsewhere = record.replace(socket.gethostname(), "another-computer")
    assert elsewhere != record
    (tmp_path / ".site-building").write_text(elsewhere)
    with place.building(tmp_path / "site") as fresh:
        (fresh / "index.html").write_text("1")
    assert made(tmp_path / "site") == {"index.html": "1"}


def test_a_folder_one_may_not_write_to_is_a_fault(tmp_path):
    blocker = tmp_path / "file"
    blocker.write_text("in the way")
    with pytest.raises(Faults, match="the site cannot be written"), place.building(blocker / "site"):
        pytest.fail("built inside a file")


@pytest.mark.parametrize(
    "system",
    [
        Full,
        type(
            "FullWindows", (Full, Windows), {"__init__": lambda self, room: (Full.__init__(self, room), Windows.__init__(self))[0]}
        ),
    ],
    ids=["here", "windows"],
)
def test_a_full_disk_is_a_fault_and_leaves_the_old_site(system, tmp_path):
    site = tmp_path / "site"
    write(site, 1)
    failed = 0
    for room in range(0, 3000, 60):
        try:
            write(site, 2, system(room))
        except Faults as faults:
            failed += 1
            assert "No space left" in str(faults)
            assert whole(site) == 1
        else:
            assert whole(site) == 2
            write(site, 1)
    assert 0 < failed < 50


# Single files and new folders.


def test_single_files_are_all_written_or_none(tmp_path):
    paths = [tmp_path / "sheets" / f"{number}.pdf" for number in range(3)]
    place.write_files(dict.fromkeys(paths, b"good"))
    with pytest.raises(Faults, match="No space left"):
        place.write_files(dict.fromkeys(paths, b"better"), Full(14))
    with pytest.raises(Faults, match="close 2.pdf"):
        place.write_files(dict.fromkeys(paths, b"better"), Windows(held=[paths[2]]))
    assert contents(tmp_path / "sheets") == {path.name: "good" for path in paths}
    for last in range(1, 10):
        with pytest.raises(Killed):
            place.write_files(dict.fromkeys(paths, b"better"), Counted(ThisComputer(), last))
        assert {path.read_bytes() for path in paths} <= {b"good", b"better"}
    place.write_files(dict.fromkeys(paths, b"best"))
    assert contents(tmp_path / "sheets") == {path.name: "best" for path in paths}


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_single_file_is_written_through_its_link_and_into_a_device(tmp_path):
    (tmp_path / "real.pdf").write_text("good")
    (tmp_path / "link.pdf").symlink_to(tmp_path / "real.pdf")
    place.write_files({tmp_path / "link.pdf": b"better", Path(os.devnull): b"gone"})
    assert (tmp_path / "link.pdf").is_symlink() and (tmp_path / "real.pdf").read_text() == "better"


def test_a_place_for_a_file_is_looked_at_before_the_work(tmp_path):
    (tmp_path / "taken").write_text("")
    place.check_files([tmp_path / "new" / "a.pdf", tmp_path / "taken"])
    place.check_files([tmp_path, tmp_path / "new" / "folder"], folder=True)
    for path, folder in ((tmp_path / "taken" / "a.pdf", False), (tmp_path, False), (tmp_path / "taken", True)):
        with pytest.raises(Faults, match="cannot be written"):
            place.check_files([path], folder=folder)
    assert [path.name for path in tmp_path.iterdir()] == ["taken"]


@pytest.mark.parametrize("there", [True, False], ids=["empty folder", "no folder"])
@pytest.mark.parametrize("system", [ThisComputer, Windows])
def test_a_new_folder_comes_whole_or_not_at_all(there, system, tmp_path):
    files = {"mkdocs.yml": b"1", "machines/a.yaml": b"2", "pages/a.md": b"3"}
    want = {name: data.decode() for name, data in files.items()}

    def fresh(name):
        (tmp_path / name).mkdir()
        if there:
            (tmp_path / name / "shop").mkdir()
        return tmp_path / name / "shop"

    counted = Counted(system())
    place.new_folder(fresh("whole"), files, counted)
    assert contents(tmp_path / "whole" / "shop") == want
    for last in range(1, counted.number + 1):
        folder = fresh(str(last))
        with pytest.raises(Killed):
            place.new_folder(folder, files, Counted(system(), last))
        done = made_but_rooms(folder) == want and not (folder / ".sawside-work" / "steps.json").exists()
        with pytest.raises(Faults, match="already there") if done else contextlib.nullcontext():
            place.new_folder(folder, files, system())
        assert contents(tmp_path / str(last)) == {f"shop/{name}": text for name, text in want.items()}
    folder = fresh("full")
    with pytest.raises(Faults, match="No space left"):
        place.new_folder(folder, files, Full(92))
    assert folder.exists() == there and contents(tmp_path / "full") == {}


def test_a_new_folder_is_not_made_over_anything(tmp_path):
    (tmp_path / "mine").write_text("mine")
    for folder in (tmp_path, tmp_path / "mine"):
        with pytest.raises(Faults, match="already there and not empty"):
            place.new_folder(folder, {"a": b"1"})
    assert contents(tmp_path) == {"mine": "mine"}
