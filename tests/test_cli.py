"""The command as a person uses it: help with examples, exit codes, files written, and words instead of tracebacks."""

import os
import re
import shlex
import shutil
import socket
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner

from sawside import __version__, files
from sawside.cli import main
from sawside.errors import At, Fault, frame

GOOD = Path(__file__).parent / "faults" / "good"
VERBS = sorted(main.commands)


@pytest.fixture
def shop(tmp_path, monkeypatch) -> Path:
    """A good shop, and the test stands in its folder."""
    folder = tmp_path / "shop"
    shutil.copytree(GOOD, folder)
    settings = folder / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace("      procedures: procedures\n", ""), encoding="utf-8")
    monkeypatch.chdir(folder)
    return folder


def run(*words: str):
    result = CliRunner().invoke(main, list(words))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def test_the_verbs_are_the_ones_promised():
    assert {"check", "build", "sheet", "serve", "new"} <= set(VERBS)


@pytest.mark.parametrize("verb", VERBS)
def test_each_verb_explains_itself_with_examples(verb):
    result = run(verb, "--help")
    assert result.exit_code == 0 and run(verb, "-h").output == result.output
    said, _, examples = result.output.partition("Examples:\n")
    assert len(said.split()) > 15
    lines = [line.strip() for line in examples.splitlines() if line.strip()]
    assert lines and all(line.startswith(f"sawside {verb}") for line in lines)
    assert max(map(len, result.output.splitlines())) <= 100


@pytest.mark.parametrize("verb", VERBS)
def test_the_options_in_the_examples_exist(verb):
    """Each example is read as the command line it shows, without being run."""
    for line in run(verb, "--help").output.partition("Examples:\n")[2].split("\n"):
        if line.strip():
            words = shlex.split(line)[2:]
            main.commands[verb].make_context(verb, words)


def test_the_command_itself_lists_its_verbs_and_how_to_begin():
    output = run("--help").output
    for verb in VERBS:
        assert re.search(rf"^  {verb}  +\S", output, re.MULTILINE)
    assert "sawside new my-shop" in output
    assert run("--version").output.strip().endswith(__version__)


def test_good_is_nought(shop):
    result = run("check")
    assert result.exit_code == 0
    assert re.search(r"^1 machine, 2 blades, 3 jobs, \d+ procedures: no faults\.$", result.output, re.MULTILINE)


def test_faults_in_the_input_are_one_and_go_to_the_error_stream(shop):
    (shop / "jobs.yaml").write_text("jobs: 3\n", encoding="utf-8")
    result = run("check")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.startswith("error: `jobs` must be a list\n --> jobs.yaml:1:1\n".replace("\n -->", "\n  -->"))
    assert result.stderr.endswith("\n1 fault. Nothing was changed.\n")
    (shop / "blades.yaml").write_text("blades: 3\n", encoding="utf-8")
    assert run("check").stderr.endswith("\n2 faults. Nothing was changed.\n")


@pytest.mark.parametrize(
    "words",
    [
        ("bild",),
        ("sheet",),
        ("check", "extra"),
        ("new",),
        ("schema",),
        ("check", "--nonsense"),
        ("sheet", "my-saw", "--every"),
        ("serve", "--port", "0"),
        ("sheet", "my-saw", "--paper", "A9"),
        ("sheet", "my-saw", "--kind", "poster"),
        ("check", "--project", "mkdocs.yml"),
        ("schema", "mkdocs.yml"),
    ],
)
def test_wrong_use_is_two_and_says_how_it_is_used(words, shop):
    result = run(*words)
    assert result.exit_code == 2
    assert "Usage: " in result.output and "Error: " in result.output


def test_a_folder_without_a_project_says_what_to_do(tmp_path):
    for verb in ("check", "build", "serve"):
        result = run(verb, "--project", str(tmp_path))
        assert result.exit_code == 1
        assert "there is no mkdocs.yml here" in result.output and "sawside new my-shop" in result.output
    assert run("check", "--project", str(tmp_path / "nowhere")).exit_code == 1


def test_a_project_may_be_named_from_elsewhere(shop, monkeypatch):
    monkeypatch.chdir(shop.parent)
    assert run("check", "--project", "shop").exit_code == 0
    (shop / "jobs.yaml").write_text("jobs: 3\n", encoding="utf-8")
    assert "--> shop/jobs.yaml:1:1" in run("check", "--project", "shop").output


def test_one_sheet_is_written_to_the_file_named(shop):
    result = run("sheet", "my-saw", "--kind", "wall", "--to", "wall.pdf")
    assert (result.exit_code, result.output) == (0, "Wrote wall.pdf\n")
    page = pypdf.PdfReader(shop / "wall.pdf").pages
    assert len(page) == 1
    assert [round(float(side) * 25.4 / 72) for side in page[0].mediabox[2:]] == [210, 297]  # ISO 216 A4, mm
    assert "My band saw" in page[0].extract_text()
    assert {path.name for path in shop.iterdir()} == {path.name for path in GOOD.iterdir()} | {"wall.pdf"}


def test_the_paper_may_be_another(shop):
    assert run("sheet", "my-saw", "--paper", "Letter", "--to", "wall.pdf").exit_code == 0
    box = pypdf.PdfReader(shop / "wall.pdf").pages[0].mediabox
    assert [float(side) / 72 for side in box[2:]] == pytest.approx([8.5, 11.0])  # ANSI/ASME Y14.1 size A, in


def test_half_pages_and_what_is_not_laid_out_for_a_paper(shop):
    assert run("sheet", "my-saw", "--kind", "wall", "--paper", "A5", "--to", "half.pdf").exit_code == 0
    assert [float(page.mediabox.width) for page in pypdf.PdfReader("half.pdf").pages] == pytest.approx(
        [148 / 25.4 * 72] * 2, abs=0.1
    )
    for kind, paper in (("worksheet", "A3"), ("all", "A3"), ("true-scale", "A5 on A4")):
        result = run("sheet", "my-saw", "--kind", kind, "--paper", paper, "--to", "refused")
        assert result.exit_code == 2 and f" on {paper}: choose A4, Letter" in result.output, result.output
        assert not (shop / "refused").exists(), "refused before anything is set"
    assert "On A3 there is --kind notice" in run("sheet", "my-saw", "--paper", "A3").output
    assert run("sheet", "my-saw", "--kind", "notice", "--paper", "A3", "--to", "large.pdf").exit_code == 0
    assert float(pypdf.PdfReader("large.pdf").pages[0].mediabox.width) == pytest.approx(297 / 25.4 * 72, abs=0.1)


def test_what_is_written_where_is_not_guessed(shop):
    for words, told in (
        (("--to", "wall.png"), "a sheet is a PDF: write --to wall.pdf"),
        (("--kind", "wall", "--kind", "notice", "--to", "two.pdf"), "several sheets go into a folder: write --to two"),
    ):
        result = run("sheet", "my-saw", *words)
        assert result.exit_code == 2 and told in result.output
    assert not [path.name for path in shop.iterdir() if path.name in ("wall.png", "two.pdf")]
    result = run("sheet", "my-saw", "--kind", "Job-Cards")
    assert result.exit_code == 2 and "did you mean `job_card`?" in result.output
    assert run("sheet", "my-saw", "--kind", "Job-Card", "--paper", "a5", "--to", "cards.pdf").exit_code == 0


def test_a_measure_that_lacks_its_partner_is_mentioned(shop):
    file = shop / "machines" / "my-saw.yaml"
    file.write_text(
        file.read_text(encoding="utf-8") + "scale_mark_low: 2\nscale_load_low: 600 N\nscale_mark_high: 5\n", encoding="utf-8"
    )
    told = "advice: my-saw: Mark on the saw's tension scale needs also Load on the wheel at the high mark"
    assert told in run("check").output


def test_an_unknown_machine_is_a_fault_with_a_suggestion(shop):
    result = run("sheet", "my-sew", "--to", "wall.pdf")
    assert result.exit_code == 1
    assert "there is no machine `my-sew`" in result.output and "did you mean `my-saw`?" in result.output
    assert "machines here: my-saw" in run("sheet", "lathe").output
    assert not (shop / "wall.pdf").exists()


def test_a_sheet_that_cannot_be_written_is_a_fault(shop):
    (shop / "taken").write_text("", encoding="utf-8")
    result = run("sheet", "my-saw", "--to", str(shop / "taken" / "wall.pdf"))
    assert result.exit_code == 1
    assert "cannot be written" in result.output


def test_a_build_says_what_it_made_and_where_to_look(shop):
    result = run("build")
    assert result.exit_code == 0, result.output
    counted = r"^1 machine, 2 blades, 3 jobs, \d+ procedures: \d+ pages, 1 guide, \d+ sheets? in \d+\.\d s\.$"
    assert re.search(counted, result.output, re.MULTILINE)
    assert "Open site/index.html" in result.output
    assert (shop / "site" / "index.html").is_file() and (shop / "site" / "machines" / "my-saw.html").is_file()


def test_a_site_never_takes_the_place_of_something_else(shop):
    (shop / "precious").mkdir()
    (shop / "precious" / "letter.txt").write_text("dear", encoding="utf-8")
    settings = shop / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace("site_dir: site", "site_dir: precious"), encoding="utf-8")
    result = run("build")
    assert result.exit_code == 1
    assert "holds something else" in result.output and "mkdocs.yml:3" in result.output
    assert (shop / "precious" / "letter.txt").read_text(encoding="utf-8") == "dear"


def test_serving_at_a_port_that_is_taken_ends_with_words(shop):
    with socket.socket() as taken:
        taken.bind(("localhost", 0))
        taken.listen()
        result = run("serve", "--port", str(taken.getsockname()[1]))
    assert result.exit_code == 1
    assert "port" in result.output and "another" in result.output


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
def test_a_screen_without_our_letters_still_shows_every_fault(encoding, shop):
    """A Windows shell may know no more than its code page: what it cannot show is spelled out."""
    machine = shop / "machines" / "my-saw.yaml"
    text = machine.read_text(encoding="utf-8")
    machine.write_text(text.replace("My band saw", "\u92f8 \U0001fa9a {{ x }}"), encoding="utf-8")
    paths = os.pathsep.join(path for path in sys.path if path)
    command = [sys.executable, "-c", "from sawside.cli import main; main()", "check"]
    done = subprocess.run(
        command, capture_output=True, cwd=shop, env=os.environ | {"PYTHONIOENCODING": encoding, "PYTHONPATH": paths}
    )
    assert done.returncode == 1
    said = done.stderr.decode(encoding, "replace")
    assert "slots belong in procedures" in said and "Traceback" not in said


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "utf-8"])
def test_a_file_whose_name_the_screen_cannot_show_is_made_and_named(encoding, tmp_path):
    """What is said when all went well goes to another stream than a fault, and that one is strict by itself."""
    paths = os.pathsep.join(path for path in sys.path if path)
    command = [sys.executable, "-c", "from sawside.cli import main; main()", "new", "\u92f8 \U0001fa9a"]
    done = subprocess.run(
        command, capture_output=True, cwd=tmp_path, env=os.environ | {"PYTHONIOENCODING": encoding, "PYTHONPATH": paths}
    )
    assert done.returncode == 0 and b"Traceback" not in done.stderr
    assert done.stdout.startswith(b"Made ") and (tmp_path / "\u92f8 \U0001fa9a" / "mkdocs.yml").is_file()


def test_a_mark_stands_below_the_word_it_means_also_behind_wide_letters():
    """An ideograph takes two columns in a terminal (Unicode UAX 11); a combining accent none."""
    line = "name: \u92f8e\u0301 {{ x }}"
    at = At("a.yaml", 1, line.index("{{") + 1, 2, line)
    shown = frame(Fault(at, "no")).splitlines()[-1]
    assert shown == "  | " + " " * len("name: ..e ") + "^^"


def test_a_long_hint_is_broken_and_a_long_line_is_cut():
    at = At("a.yaml", 1, 300, 5, "x" * 299 + "fault" + "y" * 300)
    lines = frame(Fault(at, "no", "word " * 60)).splitlines()
    assert max(map(len, lines)) <= 120
    assert "fault" in lines[3] and lines[4].index("^^^^^") == lines[3].index("fault")


def test_the_data_of_the_package_are_found_where_it_runs():
    assert (files.data_folder("procedures") / "notices.yaml").is_file()
    assert (files.data_folder("site_templates") / "layouts" / "home.html.j2").is_file()
