"""The theme's package gives its name and nothing else: pages, search and print are the same bytes without it."""

import re
import shutil
from pathlib import Path

from sawside import library
from sawside.outputs import proof, publishing, site

ROOT = Path(__file__).resolve().parents[1]
THEME = ROOT / "site_templates" / "theme"


def built(folder: Path, theme: str) -> dict[str, bytes]:
    """Build the demonstration shop's pages, with sheets of no content, and return every file by name."""
    for name in ("procedures", "site_templates"):
        shutil.copytree(ROOT / name, folder / name)
    text = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    (folder / "mkdocs.yml").write_text(re.sub(r"(?ms)^theme:\n(?:  .*?\n)+", theme, text), encoding="utf-8")
    config = site.project(folder, folder / "site", trusted=True)
    read = library.load(*site.folders(config))
    site.render(config, proof.draft(read, publishing.views(read)))
    return {
        path.relative_to(folder / "site").as_posix(): path.read_bytes() for path in (folder / "site").rglob("*") if path.is_file()
    }


def test_a_site_without_the_theme_is_the_same_to_the_byte(tmp_path):
    """The other theme is a folder with no file in it, so whatever the pages took from the usual one would be missed."""
    (tmp_path / "bare" / "nothing").mkdir(parents=True)
    usual = built(tmp_path / "usual", "theme:\n  name: material\n  language: en\n")
    bare = built(tmp_path / "bare", "theme:\n  name: null\n  custom_dir: nothing\n  language: en\n")
    assert {name.rpartition(".")[2] for name in usual} >= {"html", "js", "css", "svg", "pdf"} and len(usual) > 80
    assert sorted(usual) == sorted(bare)
    assert [name for name in usual if usual[name] != bare[name]] == []


def test_no_template_style_or_script_names_a_part_of_the_theme():
    files = [path for path in (ROOT / "site_templates").rglob("*") if path.suffix in (".j2", ".html", ".css", ".js")]
    assert len(files) > 20
    words = re.compile(r"""[.\s"']md-[a-z]|--md-|__palette|__config|data-md-|extends "(?!main)|lang\.t\(|\bbase\.html""")
    assert [(path.name, hit[0]) for path in files if (hit := words.search(path.read_text(encoding="utf-8")))] == []


def test_the_site_is_built_of_our_own_files_only(tmp_path):
    """Everything beside what is generated and written by hand lies in the folder of our own frame."""
    usual = built(tmp_path / "usual", "theme:\n  name: material\n  language: en\n")
    frame = {path.relative_to(THEME).as_posix(): path.read_bytes() for path in (THEME / "assets").rglob("*") if path.is_file()}
    published = {name: data for name, data in usual.items() if name.startswith("assets/") and not name.startswith("assets/signs/")}
    made = {"assets/find.js", "assets/formulas.js"} & set(published)
    assert set(published) - made == set(frame) - made
    assert all(frame[name] == data for name, data in published.items() if name in frame)
