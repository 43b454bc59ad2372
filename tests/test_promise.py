"""What `check` promises: a shop without faults builds, and nothing that stands in a shop folder is ever run.

`SAWSIDE_PROMISE=500` sets how many shops are changed; without it a few keep the suite quick. The changes are the same for
the same seed, and small enough that many of the shops stay good.
"""

import os
import random
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner

from sawside import advice, library
from sawside.cli import main
from sawside.outputs import doubt

GOOD = Path(__file__).parent / "faults" / "good"
FAULTS = Path(__file__).parent / "faults"
COUNT, SEED = int(os.environ.get("SAWSIDE_PROMISE", "24")), 20260314

#: What is put in the place of a text or a page; most of it is good, some of it is not, and `check` has to know which.
WORDS = (
    "Saw",
    "Größe 1 ½",
    "a & b <c>",
    "{x}",
    "W" * 60,
    "W" * 40,
    "1",
    "no",
    "\u05d0",
    "\u4e2d\u6587",
    "\U0001f4a9",
    "a `b` *c*",
    "#x",
    "$x$",
)
SIZES = ("unknown", "0.65 mm +/- 0.0005 mm", "13 mm +/- 12 mm", "1/2 in", "1 m", "250 mm", "20 in", "3 mm", "6 tpi", "40 mm")
PAGES = (
    "# Notes\n\n[a](index.md)\n",
    "[a](machines/my-saw.md)\n",
    "[a](machines/my-saw-guide.md#no-such)\n",
    "[a](gone.md)\n",
    "[a](http://[)\n",
    "---\ntitle: x\ntemplate: gone.html\n---\n# a\n",
    "template: gone.html\n\n# a\n",
    "[x]: <http://[>\n\n[a][x]\n",
    "- " * 1500 + "x\n",
    "> " * 1500 + "x\n",
    "<div markdown>\n",
    "![p](gone.png)\n",
    "[a](#here)\n",
    "\ufeff# a\n",
    "&#x110000;\n",
    "",
    "---\nicon: gone\nstatus: [a]\n---\n# a\n",
    "# {{ x }} {% raw %}\n",
    "caf\u00e9 \u05d0 \U0001f4a9\n",
    "[a](sheets/my-saw.pdf)\n",
)
SETTINGS = (
    "site_name: 2026-03-14",
    "site_description: '{{ x }}'",
    "language: xx",
    "language: de",
    "site_url: https://saws.example.org/",
    "nav:\n  - notes.md",
    "nav:\n  - gone.md",
    "copyright: <b>us</b>",
    "markdown_extensions:\n  - admonition",
    "strict: false",
    "repo_url: https://code.example.org/x",
    "exclude_docs: '[!'",
    "not_in_nav: notes.md",
)


def shop(tmp_path: Path) -> Path:
    folder = tmp_path / "shop"
    shutil.copytree(GOOD, folder)
    text = (folder / "mkdocs.yml").read_text(encoding="utf-8")
    (folder / "mkdocs.yml").write_text(text.replace("      procedures: procedures\n", ""), encoding="utf-8")
    return folder


def run(*words: str):
    """Run the command as a person does; anything but words is a failure."""
    result = CliRunner().invoke(main, list(words))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def change(folder: Path, chance: random.Random) -> str:
    """Change one thing of a shop; return what, for the person who reads a failure."""
    what = chance.choice(("page", "settings", "line", "line", "line", "rules"))
    if what == "page":
        text = chance.choice(PAGES)
        name = chance.choice(("notes.md", "more.md", "index.md", "a/b.md"))
        (folder / "pages" / name).parent.mkdir(exist_ok=True)
        (folder / "pages" / name).write_text(text, encoding="utf-8")
        return f"{name}: {text[:60]!r}"
    if what == "settings":
        text, file = chance.choice(SETTINGS), folder / "mkdocs.yml"
        lines = [line for line in file.read_text(encoding="utf-8").splitlines() if line.split(":")[0].strip() != text.split(":")[0]]
        place = lines.index("theme:") + 1 if text.startswith("language") else 0
        lines.insert(place, "  " * bool(place) + text)
        file.write_text("\n".join(lines) + "\n", encoding="utf-8")
        return text
    if what == "rules":
        with (folder / "shop.yaml").open("a", encoding="utf-8") as file:
            file.write(
                "local_rules:\n"
                + "".join(f"  - {'No work alone. ' * chance.randint(1, 15)}\n" for _ in range(chance.randint(1, 9)))
            )
        return "local rules"
    file = folder / chance.choice(("machines/my-saw.yaml", "blades.yaml", "jobs.yaml", "shop.yaml"))
    lines = file.read_text(encoding="utf-8").splitlines()
    place = chance.choice([number for number, line in enumerate(lines) if ": " in line and not line.lstrip().startswith("#")])
    key, _, old = lines[place].partition(": ")
    size = any(letter.isdigit() for letter in old)
    lines[place] = key + ": " + (chance.choice(SIZES) if size else "'" + chance.choice(WORDS) + "'")
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return f"{file.name}: {lines[place]}"


def test_what_check_passes_builds(tmp_path, monkeypatch):
    """Each changed shop is checked; each without a fault is built. That some are good and some are not is asserted too."""
    chance, seen = random.Random(SEED), {"good": 0, "refused": 0}
    for number in range(COUNT):
        folder = shop(tmp_path)
        changes = [change(folder, chance) for _ in range(chance.choice((1, 1, 2)))]
        checked = run("check", "--project", str(folder))
        assert checked.exit_code in (0, 1), changes
        if checked.exit_code == 0:
            built = run("build", "--project", str(folder))
            assert built.exit_code == 0, (number, changes, built.output)
        seen["refused" if checked.exit_code else "good"] += 1
        shutil.rmtree(folder)
    print(seen)
    assert min(seen.values()) >= COUNT // 8, seen


def test_what_only_a_build_would_find_is_found_by_check(tmp_path):
    """The same text for the same fault, and before any sheet is set."""
    for word, text in (("leads nowhere", "[a](gone.md)\n"), ("no place", "[a](machines/my-saw.md#gone)\n"), ("is not UTF-8", None)):
        folder = shop(tmp_path)
        (folder / "pages" / "notes.md").write_bytes(b"caf\xe9" if text is None else text.encode())
        said = [run(verb, *more, "--project", str(folder)) for verb, *more in (("check",), ("check", "--quick"), ("build",))]
        assert {one.exit_code for one in said} == {1} and len({one.output for one in said}) == 1
        assert word in said[0].output and "pages/notes.md" in said[0].output
        shutil.rmtree(folder)


EVIL = "import pathlib\npathlib.Path({mark!r}).write_text('ran')\n"
ATTACKS = {
    "hooks": "hooks:\n  - evil.py\n",
    "inherit": "INHERIT: evil.yml\n",
    "tag": "copyright: !!python/object/apply:pathlib.Path.touch [!!python/object/apply:pathlib.Path [{mark!r}]]\n",
    "templates": "extra_templates:\n  - evil.html\n",
    "extension": "markdown_extensions:\n  - evil\n",
    "plugin": "  - evil\n",
}


@pytest.mark.parametrize("verb", ["check", "build", "sheet", "serve"])
@pytest.mark.parametrize("attack", ATTACKS)
def test_nothing_in_a_shop_folder_is_run(attack, verb, tmp_path, monkeypatch):
    folder, mark = shop(tmp_path), tmp_path / "ran"
    (folder / "evil.py").write_text(EVIL.format(mark=str(mark)), encoding="utf-8")
    (folder / "evil.yml").write_text(
        f"copyright: !!python/object/apply:pathlib.Path.touch [!!python/object/apply:pathlib.Path ['{mark}']]\n", encoding="utf-8"
    )
    (folder / "pages" / "evil.html").write_text("{{ config.__class__ }}", encoding="utf-8")
    with (folder / "mkdocs.yml").open("a", encoding="utf-8") as file:
        file.write(ATTACKS[attack].format(mark=str(mark)))
    monkeypatch.syspath_prepend(str(folder))  # as if it were started where Python looks for modules
    result = run(verb, *(["my-saw"] if verb == "sheet" else []), "--project", str(folder))
    assert result.exit_code == 1 and "mkdocs.yml:" in result.output and not mark.exists(), result.output


def test_trust_lets_a_hook_run_and_only_then(tmp_path):
    """The attack above would work: with --trust the same file is run."""
    folder, mark = shop(tmp_path), tmp_path / "ran"
    (folder / "evil.py").write_text(EVIL.format(mark=str(mark)), encoding="utf-8")
    with (folder / "mkdocs.yml").open("a", encoding="utf-8") as file:
        file.write("hooks:\n  - evil.py\n")
    assert run("check", "--quick", "--project", str(folder)).exit_code == 1 and not mark.exists()
    result = run("check", "--quick", "--trust", "--project", str(folder))
    assert result.exit_code == 0 and mark.exists(), result.output


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes in folders")
@pytest.mark.parametrize("place", ["pages/pipe.md", "pages/pipe.png", "machines/pipe.yaml", "jobs.yaml", "mkdocs.yml"])
def test_a_pipe_is_refused_and_not_waited_for(place, tmp_path):
    folder = shop(tmp_path)
    (folder / place).unlink(missing_ok=True)
    os.mkfifo(folder / place)
    began = time.process_time()
    result = run("check", "--project", str(folder))
    assert result.exit_code == 1 and ("this is not a file" in result.output or "no mkdocs.yml" in result.output)
    assert time.process_time() - began < 5


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such names")
@pytest.mark.parametrize("place", ["pages/a\x1b[31m.md", "machines/b\x1b]0;x\x07.yaml", "machines/c\x1b.yaml.txt"])
def test_escape_codes_in_file_names_never_reach_the_screen(place, tmp_path, monkeypatch):
    folder = shop(tmp_path)
    (folder / place).write_text("x\n", encoding="utf-8")
    monkeypatch.chdir(folder)
    result = run("check")
    assert result.exit_code == 1 and "\x1b" not in result.output and "\x07" not in result.output


def test_over_long_names_end_in_words(tmp_path):
    assert "Traceback" not in run("check", "--project", "a" * 300).output
    folder = shop(tmp_path)
    (folder / "pages" / ("a" * 200 + ".md")).write_text("x", encoding="utf-8")
    assert "name is too long" in run("check", "--project", str(folder)).output


def test_a_folder_link_in_the_pages_makes_no_circle(tmp_path):
    folder = shop(tmp_path)
    try:
        (folder / "pages" / "round").symlink_to(".")
    except OSError:
        pytest.skip("this system makes no links")
    assert "this folder is a link" in run("check", "--project", str(folder)).output


def test_ctrl_c_ends_with_130_and_a_sentence(tmp_path, monkeypatch):
    def stop(*arguments, **options):
        raise KeyboardInterrupt

    monkeypatch.setattr(library, "load", stop)
    result = run("check", "--project", str(shop(tmp_path)))
    assert result.exit_code == 128 + signal.SIGINT and "Stopped before it was finished." in result.output


def test_without_docstrings_and_assertions_a_shop_is_checked(tmp_path):
    """`python -OO` takes both out of every module."""
    code = "from sawside.cli import main; main()"
    done = subprocess.run(
        [sys.executable, "-OO", "-c", code, "check", "--quick", "--project", str(shop(tmp_path))],
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stderr[-2000:]


def test_doubts_that_cancel_have_no_largest_part(tmp_path):
    folder = shop(tmp_path)
    blades = (folder / "blades.yaml").read_text(encoding="utf-8")
    for written in ("0.65 mm +/- 0.0005 mm", "0.5 mm +/- 0.0000000001 mm"):
        (folder / "blades.yaml").write_text(
            blades.replace("blade_thickness: 0.5 mm", f"blade_thickness: {written}"), encoding="utf-8"
        )
        assert run("check", "--quick", "--project", str(folder)).exit_code == 0

    class Cancelled:
        doubt = {"a": 0.0}

    assert doubt.largest(Cancelled()) is None


def test_advice_on_a_day_to_come_and_on_one_blade_on_two_saws(tmp_path):
    folder = shop(tmp_path)
    saw = (folder / "machines" / "my-saw.yaml").read_text(encoding="utf-8")
    (folder / "machines" / "other.yaml").write_text(saw.replace("id: my-saw", "id: other"), encoding="utf-8")
    read = library.load(folder)
    lines = advice.advice(read, "2026-03-13")
    assert "my-saw: the date of this revision, 2026-03-14, is still to come: check `revised`" in lines
    assert any(line.startswith("blades: b13-6 is fitted on my-saw and other") for line in lines)
    assert not any("still to come" in line for line in advice.advice(read, "2026-03-14"))
