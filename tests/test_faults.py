"""Wrong input through the front door: each NAME.yaml in tests/faults gives exactly the text in NAME.txt, and exit 1.

The first lines of a case say what it does to a small good shop (tests/faults/good), and what is run, if not `check`:
  # in: FILE              the lines below take the place of the lines with the same key; new keys go to the end;
                          `old -> new` changes the beginning of a line
  # as: FILE              the lines below, with these first ones, are the whole file FILE
  # remove: FILE          the file or folder is taken away
  # rename: FILE to FILE
  # folder: FILE          a folder of this name stands where a file belongs
  # link: FILE to PLACE   the file is a link to another place
  # run: build
`pytest --golden` writes the texts anew; read the difference before you keep it.
"""

import functools
import os
import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from sawside import files, library, source, text_file
from sawside.cli import main
from sawside.errors import Faults
from sawside.outputs import rack

FAULTS = Path(__file__).parent / "faults"
CASES = sorted(path.stem for path in FAULTS.glob("*.yaml"))
HEADER = re.compile(rb"# (in|as|remove|rename|folder|link|run): (\S+)(?: to (\S+))?\r?\n")


def project(tmp_path: Path) -> Path:
    """Return a small good project with its own copy of the procedures."""
    folder = tmp_path / "shop"
    shutil.copytree(FAULTS / "good", folder)
    shutil.copytree(files.data_folder("procedures"), folder / "procedures", ignore=shutil.ignore_patterns("shops"))
    return folder


def apply(case: str, folder: Path) -> str:
    """Do to a project what a case says; return the verb to run."""
    text = (FAULTS / f"{case}.yaml").read_bytes()
    verb, end = "check", 0
    while header := HEADER.match(text, end):
        end = header.end()
        what, first, second = (part.decode() if part else "" for part in header.groups())
        target = folder / first
        match what:
            case "run":
                verb = first
            case "remove":
                shutil.rmtree(target) if target.is_dir() else target.unlink()
            case "rename":
                target.rename(folder / second)
            case "folder":
                if target.exists():
                    target.unlink()
                target.mkdir()
            case "link":
                link(target, second)
            case "as":
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(text)
            case "in":
                good = target.read_text(encoding="utf-8")
                target.write_text(merged(good, text[end:].decode()), encoding="utf-8", newline="\n")
    assert end, f"{case}.yaml does not say what it does"
    return verb


def link(target: Path, place: str) -> None:
    """Make a link; skip the test where the system does not let one."""
    if target.is_file():
        target.unlink()
    try:
        target.symlink_to(place)
    except OSError:
        pytest.skip("this system makes no links")


def merged(good: str, changes: str) -> str:
    """Return the good text with each changed line in place of the first line with the same key."""
    lines = good.splitlines()
    for change in changes.splitlines():
        if " -> " in change:
            old, new = change.split(" -> ")
            place = next(i for i, line in enumerate(lines) if line.startswith(old))
            lines[place] = new + lines[place].removeprefix(old)
            continue
        key = change.split(":")[0]
        place = next((i for i, line in enumerate(lines) if line.split(":")[0] == key), None)
        if place is None:
            lines.append(change)
        elif change.endswith(": DELETE"):
            del lines[place]
        else:
            lines[place] = change
    return "\n".join(lines) + "\n"


@pytest.fixture(autouse=True)
def read_once(monkeypatch):
    """Let a file that is the same in many cases be read once: reading depends on its bytes and its name alone."""
    monkeypatch.setattr(source, "read", READ)


READ = functools.lru_cache(maxsize=None)(source.read)


def run(verb: str, folder: Path, monkeypatch) -> tuple[int, str]:
    """Run a verb in a folder as a person does; return the exit code and all that was printed."""
    monkeypatch.chdir(folder)
    result = CliRunner().invoke(main, [verb])
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.output.replace(os.path.realpath(folder), "/shop")


def check(folder: Path, monkeypatch) -> tuple[int, str]:
    return run("check", folder, monkeypatch)


def test_the_good_shop_is_good(tmp_path, monkeypatch):
    code, output = check(project(tmp_path), monkeypatch)
    assert (code, output.strip().endswith("no faults.")) == (0, True), output


def test_there_are_enough_cases_and_no_text_without_one():
    assert len(CASES) >= 45
    assert {path.stem for path in FAULTS.glob("*.txt")} <= set(CASES)


@pytest.mark.parametrize("case", CASES)
def test_fault(case, tmp_path, monkeypatch, golden):
    folder = project(tmp_path)
    code, output = run(apply(case, folder), folder, monkeypatch)
    expected = FAULTS / f"{case}.txt"
    if golden:
        expected.write_text(output, encoding="utf-8", newline="\n")
    assert code == 1, output
    assert output == expected.read_text(encoding="utf-8")
    assert "Traceback" not in output


@pytest.mark.parametrize("case", CASES)
def test_a_fault_says_where_and_what_to_write_instead(case):
    """Each fault has a place, and each but those of a file that cannot be read has a hint."""
    text = (FAULTS / f"{case}.txt").read_text(encoding="utf-8")
    faults = [part for part in text.split("\n\n") if part.startswith("error: ")]
    assert faults
    for fault in faults:
        assert re.search(r"^ *--> \S+", fault, re.MULTILINE), fault
        assert re.search(r"^ *= \S+", fault, re.MULTILINE), fault
        words = re.sub(r"`[^`]*`", "", fault.split("\n")[0])
        assert not re.search(r"\bclass|\bobject|None|[a-z]Error\b|yaml\.|jinja|mkdocs\.[a-z]+\.", words), fault
        assert max(map(len, fault.split("\n"))) <= 130, fault


GOOD_ANYWAY = {
    "windows line ends": lambda text: text.replace(b"\n", b"\r\n"),
    "byte order mark": lambda text: b"\xef\xbb\xbf" + text,
    "both": lambda text: b"\xef\xbb\xbf" + text.replace(b"\n", b"\r\n"),
    "spaces at the ends": lambda text: text.replace(b"\n", b"   \n"),
    "no last line end": lambda text: text.rstrip(b"\n"),
    "begin and end marks": lambda text: b"---\n" + text + b"...\n",
}


@pytest.mark.parametrize("change", GOOD_ANYWAY)
def test_what_editors_do_to_files_is_no_fault(change, tmp_path, monkeypatch):
    folder = project(tmp_path)
    _, before = check(folder, monkeypatch)
    for path in (*folder.glob("[bjs]*.yaml"), *folder.glob("machines/*"), *folder.glob("procedures/*/*.yaml")):
        path.write_bytes(GOOD_ANYWAY[change](path.read_bytes()))
    assert check(folder, monkeypatch) == (0, before)


def test_a_machine_file_may_end_in_yml_and_files_of_editors_are_passed_over(tmp_path, monkeypatch):
    folder = project(tmp_path)
    (folder / "machines" / "my-saw.yaml").rename(folder / "machines" / "my-saw.yml")
    for name in (".#my-saw.yaml", "._my-saw.yaml", ".my-saw.yaml.swp", "my-saw.yaml~", "notes.txt"):
        (folder / "machines" / name).write_bytes(b"\x00\x05\x16\x07")
    code, output = check(folder, monkeypatch)
    assert (code, output.strip().endswith("no faults.")) == (0, True), output


def test_a_ten_megabyte_file_is_refused_unread(tmp_path, monkeypatch):
    folder = project(tmp_path)
    (folder / "jobs.yaml").write_bytes(b"jobs:\n" + b"# filler\n" * 1_200_000)
    code, output = check(folder, monkeypatch)
    assert code == 1
    assert "jobs.yaml" in output and "larger than 1 MB" in output


def test_a_file_without_the_right_to_read_it_is_a_fault(tmp_path, monkeypatch):
    """The right is taken away where the file is opened: a test may run as somebody who may read everything."""
    folder = project(tmp_path)
    opened = Path.open

    def refuse(path, *arguments, **options):
        if path.name == "jobs.yaml":
            raise PermissionError(13, "Permission denied")
        return opened(path, *arguments, **options)

    monkeypatch.setattr(Path, "open", refuse)
    code, output = check(folder, monkeypatch)
    assert code == 1
    assert output.startswith("error: the file cannot be read: Permission denied\n  --> jobs.yaml\n"), output


def test_what_a_device_or_pipe_holds_is_not_read():
    if not hasattr(os, "mkfifo"):
        pytest.skip("this system has no pipes in folders")
    with pytest.raises(Faults, match="this is not a file"):
        source.read_file(Path(os.devnull), "machines/saw.yaml")


def test_a_link_within_the_folder_is_followed(tmp_path):
    (tmp_path / "a.yaml").write_text("x: 1\n", encoding="utf-8")
    link(tmp_path / "b.yaml", "a.yaml")
    link(tmp_path / "c.yaml", "../elsewhere.yaml")
    assert not text_file.leaves(tmp_path / "b.yaml", tmp_path)
    assert text_file.leaves(tmp_path / "c.yaml", tmp_path)


def test_all_faults_come_at_once_sorted_by_file_and_line(tmp_path, monkeypatch):
    folder = project(tmp_path)
    for case in ("unknown_key", "wheel_of_three_metres", "job_without_material", "blade_of_the_wrong_dimension"):
        apply(case, folder)
    code, output = check(folder, monkeypatch)
    places = re.findall(r"--> (\S+?):(\d+):(\d+)", output)
    assert code == 1
    assert len(places) >= 4 and "4 faults" in output
    keys = [(name, int(line), int(column)) for name, line, column in places]
    assert keys == sorted(keys)
    assert len({name for name, *_ in keys}) >= 3


def test_a_failed_build_leaves_the_site_as_it_was(tmp_path, monkeypatch):
    folder = project(tmp_path)
    monkeypatch.chdir(folder)
    assert CliRunner().invoke(main, ["build"]).exit_code == 0
    before = {path: path.read_bytes() for path in (folder / "site").rglob("*") if path.is_file()}
    apply("wheel_of_three_metres", folder)
    assert CliRunner().invoke(main, ["build"]).exit_code == 1
    after = {path: path.read_bytes() for path in (folder / "site").rglob("*") if path.is_file()}
    assert before == after and len(before) > 20
    assert [path.name for path in folder.iterdir() if path.name.startswith(".site-")] in ([], [".site-lock"])


def test_ids_may_not_collide_with_any_page_or_sheet(views):
    assert "-guide" in library.PAGE_ENDINGS and "-job-card" in library.SHEET_ENDINGS and "" not in library.SHEET_ENDINGS
    made = rack.view(list(views.values()))
    assert made["machine"]["id"] == library.RACK
