"""Wrong input through the front door: each NAME.yaml in tests/faults gives exactly the text in NAME.txt, and exit code 1.

The first line of a case says what it does to a small good shop (tests/faults/good):
  # in: FILE    the lines below take the place of the lines with the same key; new keys go to the end
  # as: FILE    the file is the whole file FILE
`pytest --golden` writes the texts anew; read the difference before you keep it.
"""

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from sawside import library
from sawside.cli import main

FAULTS = Path(__file__).parent / "faults"
CASES = sorted(path.stem for path in FAULTS.glob("*.yaml"))
HEADER = re.compile(rb"# (in|as): (\S+)\r?\n")


def project(tmp_path: Path) -> Path:
    """Return a small good project with its own copy of the procedures."""
    folder = tmp_path / "shop"
    shutil.copytree(FAULTS / "good", folder)
    shutil.copytree(library.data_folder("procedures"), folder / "procedures", ignore=shutil.ignore_patterns("shops"))
    return folder


def apply(case: str, folder: Path) -> None:
    """Put one bad file into a project."""
    text = (FAULTS / f"{case}.yaml").read_bytes()
    header = HEADER.match(text)
    assert header, f"{case}.yaml does not say what it does"
    target = folder / header[2].decode()
    target.parent.mkdir(parents=True, exist_ok=True)
    if header[1] == b"as":
        target.write_bytes(text)
    else:
        target.write_text(merged(target.read_text(encoding="utf-8"), text[header.end() :].decode()), encoding="utf-8")


def merged(good: str, changes: str) -> str:
    """Return the good text with each changed line in place of the line with the same key."""
    lines = good.splitlines()
    for change in changes.splitlines():
        key = change.split(":")[0]
        place = next((i for i, line in enumerate(lines) if line.split(":")[0] == key), None)
        if place is None:
            lines.append(change)
        elif change.endswith(": DELETE"):
            del lines[place]
        else:
            lines[place] = change
    return "\n".join(lines) + "\n"


def check(folder: Path, monkeypatch) -> tuple[int, str]:
    monkeypatch.chdir(folder)
    result = CliRunner().invoke(main, ["check"])
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.output


def test_the_good_shop_is_good(tmp_path, monkeypatch):
    code, output = check(project(tmp_path), monkeypatch)
    assert (code, output.strip().endswith("no faults.")) == (0, True), output


def test_there_are_enough_cases():
    assert len(CASES) >= 30


@pytest.mark.parametrize("case", CASES)
def test_fault(case, tmp_path, monkeypatch, golden):
    folder = project(tmp_path)
    apply(case, folder)
    code, output = check(folder, monkeypatch)
    expected = FAULTS / f"{case}.txt"
    if golden:
        expected.write_text(output, encoding="utf-8", newline="\n")
    assert code == 1, output
    assert output == expected.read_text(encoding="utf-8")
    assert "Traceback" not in output


def test_a_ten_megabyte_file_is_refused_unread(tmp_path, monkeypatch):
    folder = project(tmp_path)
    (folder / "jobs.yaml").write_bytes(b"jobs:\n" + b"# filler\n" * 1_200_000)
    code, output = check(folder, monkeypatch)
    assert code == 1
    assert "jobs.yaml" in output and "larger than 1 MB" in output


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


def test_wrong_use_ends_with_two():
    assert CliRunner().invoke(main, ["sheet"]).exit_code == 2
    assert CliRunner().invoke(main, ["bild"]).exit_code == 2
