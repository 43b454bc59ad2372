"""The tutorial does what it says: its commands are run and its lines are typed in, word for word."""

import re
import shlex
from pathlib import Path

from click.testing import CliRunner

from sawside.cli import main

TUTORIAL = Path(__file__).resolve().parents[1] / "site_templates" / "pages" / "tutorial.md"
BLOCK = re.compile(r"```(\w*)\n(.*?)```", re.DOTALL)


def run(line: str):
    """Run one command line of the tutorial."""
    words = shlex.split(line)
    assert words.pop(0) == "sawside"
    return CliRunner().invoke(main, words)


def type_in(file: Path, lines: str) -> None:
    """Replace the lines of a file that have the same key, every time the key occurs, as the tutorial asks."""
    text = file.read_text(encoding="utf-8")
    for line in lines.splitlines():
        key = line.split(":")[0]
        text, count = re.subn(rf"(?m)^{re.escape(key)}:.*$", line, text)
        assert count, f"{file.name} has no line {key}"
    file.write_text(text, encoding="utf-8")


def test_the_tutorial_word_for_word(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    machine, blades = tmp_path / "my-shop/machines/my-saw.yaml", tmp_path / "my-shop/blades.yaml"
    commands = errors = typed = 0
    for kind, block in BLOCK.findall(TUTORIAL.read_text(encoding="utf-8")):
        if kind == "yaml":
            type_in(blades if block.startswith("    ") else machine, block)
            typed += 1
        elif block.startswith("error:"):
            before = machine.read_text(encoding="utf-8")
            type_in(machine, "tyre_width: 25")
            result = run("sawside check --project my-shop")
            assert result.exit_code == 1 and block.strip() in result.output, result.output
            machine.write_text(before, encoding="utf-8")
            errors += 1
        else:
            for line in block.splitlines():
                result = run(line)
                assert result.exit_code == 0, f"{line}\n{result.output}"
                commands += 1
    assert (commands, errors, typed) == (6, 1, 2)
    assert (tmp_path / "my-saw.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "my-shop/site/machines/my-saw.html").is_file()


def test_the_page_it_sends_people_to_exists(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    run("sawside new my-shop")
    run("sawside build --project my-shop")
    assert any("Measure your saw" in page.read_text(encoding="utf-8") for page in (tmp_path / "my-shop/site/reference").glob("*.html"))
