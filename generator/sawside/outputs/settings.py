"""What the site builder says about mkdocs.yml and the pages, in the words and with the places that every fault has."""

import contextlib
import logging
import os
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from sawside import place
from sawside.errors import At, Fault, Faults
from sawside.suggest import meant

#: The settings a person may have meant (mkdocs, "Configuration").
KEYS = (
    "site_name",
    "site_url",
    "site_description",
    "site_author",
    "repo_url",
    "edit_uri",
    "docs_dir",
    "site_dir",
    "strict",
    "theme",
    "nav",
    "plugins",
    "extra",
    "extra_css",
    "extra_javascript",
    "markdown_extensions",
    "copyright",
    "hooks",
    "exclude_docs",
    "not_in_nav",
    "validation",
    "watch",
    "dev_addr",
)
#: Plugins a shop's mkdocs.yml names.
PLUGINS = ("sawside",)
_LINK = re.compile(r"Doc file '([^']*)' contains an? (?:\w+ )*link '([^']*)'")
_UNREAD = re.compile(r"Encoding error reading file: (.+)|Error reading page '(.+)': 'utf-8' codec", re.DOTALL)
_TAKEN = re.compile(r"`(.+)` has the address of a page that is made for you")
_CONFIG = re.compile(r"Config value '(?P<key>[^']*)': (?P<rest>.*)", re.DOTALL)


#: Of one complaint: the word to point at, what is wrong, what to do.
Told = tuple[str, str, str]


class _Collector(logging.Handler):
    """Puts the warnings and errors that are logged into a list."""

    def __init__(self, said: list[str]) -> None:
        super().__init__(logging.WARNING)
        self.said = said

    def emit(self, record: logging.LogRecord) -> None:
        self.said.append(record.getMessage())


@contextlib.contextmanager
def listening() -> Iterator[list[str]]:
    """Collect the warnings and errors the site builder logs, instead of letting them onto the screen."""
    logger, said = logging.getLogger("mkdocs"), list[str]()
    handler = _Collector(said)
    before = logger.level, logger.propagate
    logger.addHandler(handler)
    logger.setLevel(logging.WARNING)
    logger.propagate = False
    try:
        yield said
    finally:
        logger.removeHandler(handler)
        logger.level, logger.propagate = before


def without_ours(file: str) -> Fault:
    """Return the fault of settings that do not name the plugin which makes the pages."""
    return Fault(At(file), "mkdocs.yml does not name the plugin `sawside`", "write under `plugins:` a line `  - sawside`")


def faults(file: str, lines: Sequence[str], said: Sequence[str], otherwise: str) -> Faults:
    """Return what was said about mkdocs.yml as faults; `otherwise` is used when nothing was."""
    return Faults(_explain(file, lines, words) for words in said or [otherwise])


def page_faults(pages: Path, shown: str, said: Sequence[str], reading: str = "") -> Faults:
    """Return what was said while hand-written pages were built, each at its place in the page where it can be told.

    `reading` is the page that was being read when the building stopped; it is blamed for what names no page.
    """
    return Faults(_explain_page(pages, shown, words, reading) for words in said)


#: What the head of a hand-written page may say of it; the theme would take other keys for names of templates and pictures.
_HEAD = ("title", "description")


def head(meta: dict[str, Any]) -> dict[str, str]:
    """Return of a page's head what is plain words.

    >>> head({"title": "Notes", "template": "x.html", "description": ["a"]})
    {'title': 'Notes'}
    """
    return {key: meta[key] for key in _HEAD if isinstance(meta.get(key), str)}


#: What the site builder raises on purpose, with words for people.
_MEANT = ("ConfigurationError", "Abort", "BuildError", "PluginError")


def said_by(error: Exception) -> str:
    """Return the words of an error that were meant for people; of any other nothing."""
    return str(error) if type(error).__name__ in _MEANT else ""


def _explain_page(pages: Path, shown: str, words: str, reading: str) -> Fault:
    if hit := _LINK.search(words):
        file, link = pages / hit[1], hit[2]
        lines = file.read_text(encoding="utf-8", errors="replace").splitlines() if file.is_file() else []
        at = _place(f"{shown}/{hit[1]}", lines, "", link)
        if "anchor" in words[hit.end() :]:
            return Fault(
                at,
                f"there is no place `#{link.partition('#')[2]}` where the link `{link}` leads",
                "correct what follows the #, or take it out",
            )
        return Fault(
            at,
            f"the link `{link}` leads nowhere",
            "correct it; a generated page is named by its address, for example machines/my-saw.md",
        )
    if hit := _UNREAD.search(words):
        at = At(f"{shown}/{hit[1] or hit[2]}")
        return Fault(at, "this page is not UTF-8", "save it again with the encoding UTF-8")
    if hit := _TAKEN.search(words):
        what = "this page has the address of a page that is made for you"
        return Fault(At(f"{shown}/{hit[1]}"), what, "give it another name")
    if not words or words.startswith("Error reading page"):
        return Fault(
            At(f"{shown}/{reading}" if reading else shown),
            "this page cannot be read as Markdown",
            "look for brackets, quotes or lists deep within each other, and for addresses that are none",
        )
    return Fault(At(shown), f"the site cannot be built: {_tidy(words)}", "correct it, or take it out")


def _explain(file: str, lines: Sequence[str], words: str) -> Fault:
    """Return one fault: the commonest in our words, anything else as it was said.

    >>> words = "Config value 'site_nam': Unrecognised configuration name: site_nam"
    >>> fault = _explain("mkdocs.yml", ["site_nam: x"], words)
    >>> fault.what, fault.hint, fault.at.line
    ('unknown key `site_nam`', 'did you mean `site_name`?', 1)
    """
    found = _CONFIG.match(words)
    key, rest = (found["key"], found["rest"]) if found else ("", words)
    for pattern, make in _SAID:
        if hit := re.search(pattern, rest):
            word, what, hint = make(key, hit)
            return Fault(_place(file, lines, key, word), what, hint)
    why = f": {_tidy(rest)}" if rest else ""
    what = f"`{key}`{why}" if key else f"mkdocs.yml cannot be used{why}"
    return Fault(_place(file, lines, key, ""), what, "correct this setting, or take it out")


def _unknown_key(key: str, hit: re.Match[str]) -> Told:
    hint = meant(hit[1], KEYS if key == hit[1] else ("shop", "procedures", "saws"), "take the line out")
    return hit[1], f"unknown key `{hit[1]}`", hint


def _no_plugin(key: str, hit: re.Match[str]) -> Told:
    hint = meant(hit[1], PLUGINS, "take the line out, or install that plugin first")
    return hit[1], f"there is no plugin `{hit[1]}` on this computer", hint


def _no_theme(key: str, hit: re.Match[str]) -> Told:
    return hit[1], f"there is no theme `{hit[1]}` on this computer", "write under `theme:` the line `name: material`"


def _no_folder(key: str, hit: re.Match[str]) -> Told:
    name = Path(hit[1]).name
    return name, f"`{key}` names the folder `{name}`, which is not there", "make the folder, or correct the name"


def _wrong_type(key: str, hit: re.Match[str]) -> Told:
    return hit[2], f"`{hit[2]}` of the plugin `{hit[1]}` cannot be that", "put the value in quotes, or correct it"


def _no_choice(key: str, hit: re.Match[str]) -> Told:
    words = hit[2].replace("'", "")
    return hit[3], f"`{hit[1]}` cannot be `{hit[3]}`", f"write one of: {words}"


def _around(key: str, hit: re.Match[str]) -> Told:
    return "", "the site would take the place of the folder with your pages", "write for example: site_dir: site"


def _within(key: str, hit: re.Match[str]) -> Told:
    return "", "the site would be built into the folder with your pages", "write for example: site_dir: site"


def _no_keys(key: str, hit: re.Match[str]) -> Told:
    return "", "mkdocs.yml must hold lines of the form `key: value`", "write for example: site_name: My saws"


def _missing(key: str, hit: re.Match[str]) -> Told:
    return "", f"mkdocs.yml has no `{key}`", "write for example: site_name: My saws" if key == "site_name" else "add it"


_SAID = (
    (r"Unrecognised configuration name: (\S+)", _unknown_key),
    (r'The "([^"]*)" plugin is not installed', _no_plugin),
    (r"Unrecognised theme name: '([^']*)'", _no_theme),
    (r"The path '([^']*)' isn't an existing directory", _no_folder),
    (r"Required configuration not provided", _missing),
    (r"'docs_dir' should not be within the 'site_dir'", _around),
    (r"'site_dir' should not be within the 'docs_dir'", _within),
    (r"Expected a key-value mapping", _no_keys),
    (r"Plugin '([^']*)' option '([^']*)': Expected type", _wrong_type),
    (r"Plugin '[^']*' option '([^']*)': Expected one of: [(\[](.*?),?[)\]] but received: '([^']*)'", _no_choice),
)


def _tidy(words: str) -> str:
    """Return a message on one line, without the names of Python's types."""
    return re.sub(r"<class '(?:\w+\.)*(\w+)'>", r"\1", " ".join(words.split())).replace("(dict)", "")


def _place(file: str, lines: Sequence[str], key: str, word: str) -> At:
    """Return where a word stands in mkdocs.yml, else the key, else the file."""
    for wanted in (word, key):
        shape = re.compile(rf"(?<![\w-]){re.escape(wanted)}(?![\w-])")
        rows = enumerate(lines, 1) if wanted else ()
        for number, line in rows:
            if not line.lstrip().startswith("#") and (hit := shape.search(line)):
                return At(file, number, hit.start() + 1, len(wanted), line)
    return At(file)


def check_target(file: Path, shown: str, target: Path, shop: Path) -> list[Fault]:
    """Return a fault when the site may not be built where `site_dir` says."""
    told = place.refusal(target)
    if shop.resolve().is_relative_to(os.path.realpath(target)):
        told = "the site would take the place of the folder with the shop's files", "write for example: site_dir: built"
    if not told:
        return []
    if target.name != "site":  # what is to be emptied is never a folder of another name
        told = told[0], "write for example: site_dir: site"
    return [Fault(_place(shown, file.read_text(encoding="utf-8").splitlines(), "site_dir", target.name), *told)]
