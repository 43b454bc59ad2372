"""The promise that `check` and `build` share: what is wrong here would stop a build, and no other input does.

The hand-written pages are looked at as files first, then the site is made once for trial, with sheets of no content.
"""

import os
import re
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path

from sawside import files, library, text_file
from sawside.errors import At, Fault, Faults
from sawside.kinds.view_types import MachineView
from sawside.model import Sheet
from sawside.outputs import paper as rules
from sawside.outputs import publishing, settings, site

#: Longest name of a page or a file beside it: the page made from it has a longer one, and systems end at 255 bytes.
LONGEST_NAME = 120
#: Most opening brackets in one paragraph: the end of each is looked for anew, so time grows with the square.
MOST_BRACKETS = 500


def read(folder: Path, trusted: bool = False) -> tuple[site.Project, library.Library, list[MachineView]]:
    """Return the settings of a project, its library and a trial of its pages, all checked; raise Faults with what is wrong.

    Gives: the site builder's settings, the Library, and the machines' views.
    """
    config = site.project(folder, trusted=trusted)
    shop, procedures, family = site.folders(config)
    file = folder / "mkdocs.yml"
    found: list[Fault] = settings.check_target(file, files.shown(file), Path(config.site_dir), shop)
    found += page_files(Path(config.docs_dir), folder, bool(config.exclude_docs))
    try:
        read = library.load(shop, procedures, family, rules.lacking)
    except Faults as bad:
        raise Faults([*found, *bad.faults]) from None
    if found:
        raise Faults(found)
    views = publishing.views(read)
    found = [fault for view in views for fault in (*rules.check_notices(view), *rules.check_text(view))]
    if found:
        raise Faults(found)
    with tempfile.TemporaryDirectory(prefix="sawside-") as room:
        site.render(site.project(folder, Path(room) / "site", trusted), draft(read, views))
    return config, read, views


def draft(read: library.Library, views: list[MachineView]) -> publishing.Published:
    """Return all that is published, but with nothing in the sheets: their names are what links lead to."""
    blank = [Sheet(file["file"], b"", b"") for entry in publishing.contact(views) for file in entry["files"]]
    return publishing.complete(read, views, blank)


def page_files(pages: Path, project: Path, hidden: bool = False) -> list[Fault]:
    """Return a fault for each file among the hand-written pages that cannot be published as it is.

    Takes: hidden, whether files whose names begin with a dot count too; usually they are passed over.
    """
    faults = []
    for path in _files(pages):
        if hidden or not any(part.startswith(".") for part in path.relative_to(pages).parts):
            faults += _file(path, project)
    return faults[: text_file.MOST_FAULTS]


def _files(folder: Path) -> Iterator[Path]:
    """Yield everything below a folder but folders; a folder that is a link counts as a file and is not entered."""
    for place, folders, names in os.walk(folder):
        links = [name for name in folders if (Path(place) / name).is_symlink()]
        yield from (Path(place) / name for name in sorted(names + links))
        folders.sort()


def _file(path: Path, project: Path) -> list[Fault]:
    at = At(files.shown(path))
    if not path.name.isprintable() or len(os.fsencode(path.name)) > LONGEST_NAME:
        return [
            Fault(
                at,
                "this file's name is too long or does not print",
                f"give it a name of at most {LONGEST_NAME} letters, digits and hyphens",
            )
        ]
    if text_file.leaves(path, project):
        what = "this is, or lies behind, a link that leads out of the folder of mkdocs.yml"
        return [Fault(at, what, "put the file itself here")]
    try:
        mode = path.stat().st_mode
    except OSError as error:
        return [Fault(at, f"the file cannot be read: {error.strerror}", "put a file in its place, or take it out")]
    if stat.S_ISDIR(mode):
        return [Fault(at, "this folder is a link", "put the folder itself here")]
    if not stat.S_ISREG(mode):
        return [Fault(at, "this is not a file", "put a file in its place, or take it out")]
    return _page(path, at.file) if path.suffix.lower() in (".md", ".markdown", ".mdown", ".mkdn", ".mkd") else []


def _page(path: Path, shown: str) -> list[Fault]:
    """Return the faults of one hand-written page as text."""
    try:
        text = text_file.decode(text_file.load(path, shown), shown)
    except Faults as bad:
        return list(bad.faults)
    if "\0" in text:
        return [Fault(At(shown), "this page is not text", "is it a text file? If so, save it again with the encoding UTF-8")]
    line = 1
    for block in re.split(r"(\n\s*\n)", text):
        if block.count("[") > MOST_BRACKETS:
            what = f"this paragraph holds more than {MOST_BRACKETS} opening brackets"
            at = At(shown, line, 1, 1, block.split("\n")[0])
            return [Fault(at, what, "split it, or take the needless ones out")]
        line += block.count("\n")
    return []
