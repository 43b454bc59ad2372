"""What the site builder says about mkdocs.yml and the pages, in the words and with the places that every fault has."""

import contextlib
import logging
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from sawside.errors import At, Fault, Faults
from sawside.suggest import suggest

#: The settings a person may have meant (mkdocs, "Configuration").
KEYS = ("site_name", "site_url", "site_description", "site_author", "repo_url", "edit_uri", "docs_dir", "site_dir", "strict",
        "theme", "nav", "plugins", "extra", "extra_css", "extra_javascript", "markdown_extensions", "copyright", "hooks",
        "exclude_docs", "not_in_nav", "validation", "watch", "dev_addr")
#: Plugins a shop's mkdocs.yml names.
PLUGINS = ("search", "offline", "sawside")
_CONFIG = re.compile(r"Config value '(?P<key>[^']*)': (?P<rest>.*)", re.DOTALL)


@contextlib.contextmanager
def listening() -> Iterator[list[str]]:
    """Collect the warnings and errors the site builder logs, instead of letting them onto the screen."""
    logger, said = logging.getLogger("mkdocs"), []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: said.append(record.getMessage())
    before = logger.level, logger.propagate
    logger.addHandler(handler)
    logger.setLevel(logging.WARNING)
    logger.propagate = False
    try:
        yield said
    finally:
        logger.removeHandler(handler)
        logger.level, logger.propagate = before


def faults(file: str, lines: Sequence[str], said: Sequence[str], otherwise: str) -> Faults:
    """Return what was said about mkdocs.yml as faults; `otherwise` is used when nothing was."""
    return Faults([_explain(file, lines, words) for words in said] or [Fault(At(file), f"mkdocs.yml cannot be used: {otherwise}")])


def _explain(file: str, lines: Sequence[str], words: str) -> Fault:
    """Return one fault: the commonest four in our words, anything else as it was said.

    >>> fault = _explain("mkdocs.yml", ["site_nam: x"], "Config value 'site_nam': Unrecognised configuration name: site_nam")
    >>> fault.what, fault.hint, fault.at.line
    ('unknown key `site_nam`', 'did you mean `site_name`?', 1)
    """
    found = _CONFIG.match(words)
    key, rest = (found["key"], found["rest"]) if found else ("", words)
    for pattern, make in _SAID:
        if hit := re.search(pattern, rest):
            word, what, hint = make(key, hit)
            return Fault(_place(file, lines, key, word), what, hint)
    return Fault(_place(file, lines, key, ""), f"`{key}`: {_tidy(rest)}" if key else _tidy(rest))


def _unknown_key(key, hit):
    near = suggest(hit[1], KEYS if key == hit[1] else ("shop", "procedures"))
    return hit[1], f"unknown key `{hit[1]}`", f"did you mean `{near}`?" if near else "take the line out"


def _no_plugin(key, hit):
    near = suggest(hit[1], PLUGINS)
    hint = f"did you mean `{near}`?" if near else "take the line out, or install that plugin first"
    return hit[1], f"there is no plugin `{hit[1]}` on this computer", hint


def _no_theme(key, hit):
    return hit[1], f"there is no theme `{hit[1]}` on this computer", "write under `theme:` the line `name: material`"


def _no_folder(key, hit):
    name = Path(hit[1]).name
    return name, f"`{key}` names the folder `{name}`, which is not there", "make the folder, or correct the name"


def _missing(key, hit):
    return "", f"mkdocs.yml has no `{key}`", "write for example: site_name: My saws" if key == "site_name" else "add it"


_SAID = (
    (r"Unrecognised configuration name: (\S+)", _unknown_key),
    (r'The "([^"]*)" plugin is not installed', _no_plugin),
    (r"Unrecognised theme name: '([^']*)'", _no_theme),
    (r"The path '([^']*)' isn't an existing directory", _no_folder),
    (r"Required configuration not provided", _missing),
)


def _tidy(words: str) -> str:
    """Return a message on one line, without the names of Python's types."""
    return re.sub(r"<class '(\w+)'>", r"\1", " ".join(words.split())).replace("(dict)", "")


def _place(file: str, lines: Sequence[str], key: str, word: str) -> At:
    """Return where a word stands in mkdocs.yml, else the key, else the file."""
    for wanted in (word, key):
        shape = re.compile(rf"(?<![\w-]){re.escape(wanted)}(?![\w-])")
        for number, line in enumerate(lines, 1):
            if wanted and not line.lstrip().startswith("#") and (hit := shape.search(line)):
                return At(file, number, hit.start() + 1, len(wanted), line)
    return At(file)


def check_target(target: Path, shop: Path) -> None:
    """Raise Faults when the built site would take the place of a folder that holds something else."""
    target, shop = target.resolve(), shop.resolve()
    if shop == target or shop.is_relative_to(target):
        reason = "the site would take the place of the folder with the shop's files"
    elif target.is_dir() and any(target.iterdir()) and not (target / "index.html").is_file():
        reason = "the site would take the place of a folder that holds something else"
    else:
        return
    raise Faults([Fault(At(str(target)), reason, "set `site_dir:` in mkdocs.yml to a new or empty folder")])
