"""The tutorial does what it says: its commands are run and its lines are typed in, word for word."""

import re
import shlex
from pathlib import Path

from click.testing import CliRunner

from sawside import starter
from sawside.cli import main
from sawside.families import FAMILIES

ROOT = Path(__file__).resolve().parents[1]
README, TUTORIAL = ROOT / "README.md", ROOT / "site_templates" / "pages" / "tutorial.md"
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


def keys(lines: str) -> list[str]:
    return [line.split(":")[0].strip() for line in lines.splitlines()]


def test_the_tutorial_word_for_word(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    machine, blades = tmp_path / "my-shop/machines/my-saw.yaml", tmp_path / "my-shop/blades.yaml"
    commands = errors = 0
    typed, said = [], ""
    for kind, block in BLOCK.findall(TUTORIAL.read_text(encoding="utf-8")):
        if kind == "yaml":
            type_in(blades if block.startswith("    ") else machine, block)
            typed.append(keys(block))
        elif block.startswith("error:"):
            before = machine.read_text(encoding="utf-8")
            type_in(machine, "tyre_width: 25")
            result = run("sawside check --project my-shop")
            assert result.exit_code == 1 and block.strip() in result.output, result.output
            machine.write_text(before, encoding="utf-8")
            errors += 1
        elif not kind:
            for line in block.splitlines():
                result = run(line)
                assert result.exit_code == 0, f"{line}\n{result.output}"
                commands += 1
                said += result.output
    assert (commands, errors, len(typed)) == (6, 1, 3)
    assert sorted(typed[0] + typed[1]) == sorted(starter.first(FAMILIES[0])), "not the ten that most numbers wait for"
    assert "guessed, not measured: Blade thickness" in said, "the check before anything was typed names the guesses"
    assert not re.search(": guess", machine.read_text(encoding="utf-8") + blades.read_text(encoding="utf-8"))
    assert "guessed" not in run("sawside check --quick --project my-shop").output
    assert (tmp_path / "my-saw.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "my-shop/site/machines/my-saw.html").is_file()


def test_the_lines_to_type_stand_in_the_starter_in_the_order_of_the_tutorial():
    typed = [keys(block) for kind, block in BLOCK.findall(TUTORIAL.read_text(encoding="utf-8")) if kind == "yaml"]
    for name, wanted in (("machines/my-saw.yaml", typed[0] + typed[2]), ("blades.yaml", typed[1])):
        guessed = re.findall(r"(?m)^ *(\w+): guess", starter.files()[name])
        assert guessed == wanted, name


def test_the_tutorial_and_the_readme_set_up_alike_and_never_into_the_system():
    """Lines for Windows and for others, each into an environment of its own; pip is never called without it."""
    found = [
        [(kind, block) for kind, block in BLOCK.findall(path.read_text(encoding="utf-8")) if kind in ("powershell", "sh")]
        for path in (TUTORIAL, README)
    ]
    assert found[0] == found[1] and [kind for kind, _ in found[0]] == ["powershell", "sh"]
    for _, block in found[0]:
        make, install, path = block.splitlines()
        assert make.endswith("-m venv .venv") and re.match(r"\.venv[\\/]\w+[\\/]python -m pip install \.$", install)
        assert ".venv" in path and "PATH" in path.upper()
    for path in (TUTORIAL, README):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"(?m)^pip ", text) and "python3-venv" in text and "externally managed" in text


def test_the_page_it_sends_people_to_exists(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    run("sawside new my-shop")
    run("sawside build --project my-shop")
    assert any(
        "Measure your saw" in page.read_text(encoding="utf-8") for page in (tmp_path / "my-shop/site/reference").glob("*.html")
    )
