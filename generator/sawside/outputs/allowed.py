"""What a shop's mkdocs.yml may say without being trusted: names, colours, links and the order of the pages.

Each key has a function that turns its node into plain data, or refuses it; whatever has none is a fault, unless the person
at the keyboard says `--trust`.
"""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from sawside import text_file
from sawside.errors import At, Fault, Faults
from sawside.families import FAMILIES
from sawside.nodes import Empty, List, Map, Node, Text, quote
from sawside.schema import suggest, texts
from sawside.suggest import meant

#: How a fault ends that only trust can lift.
TRUST = "take it out; if you wrote this file yourself, or trust who did, add --trust to the command"
#: Extensions of Markdown that change how text looks and neither read files nor run code (Python-Markdown, "Extensions").
EXTENSIONS = ("abbr", "admonition", "attr_list", "def_list", "fenced_code", "footnotes", "sane_lists", "smarty", "tables", "toc")
#: Plugins that a shop's settings may name.
PLUGINS = ("sawside", "search")
_ADDRESS = re.compile(r"https?://[A-Za-z0-9][A-Za-z0-9.-]*(:[0-9]{1,5})?(/[A-Za-z0-9./:@_~%?=&+#-]*)?")
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/-]*")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")
_LONGEST = 200
_DEEPEST_MENU = 6


def keys(node: Map, here: Path, faults: list[Fault]) -> dict[str, Any]:
    """Return as plain data what a mkdocs.yml in the folder `here` may say; add a fault for all it may not."""
    return _keys(node, _KEYS, "", here, faults)


def _keys(node: Map, known: dict[str, Callable[..., Any]], inside: str, here: Path, faults: list[Fault]) -> dict[str, Any]:
    """Return the plain data of the known keys of a map; add a fault for each other key, and for each bad value."""
    found = {}
    for name, (at, value) in node.items.items():
        if name not in known:
            faults.append(_unknown(name, at, known, inside))
            continue
        try:
            found[name] = known[name](name, value, here)
        except Faults as bad:
            faults += bad.faults
    return found


def _unknown(name: str, at: At, known: dict[str, Any], inside: str) -> Fault:
    where = f" of {inside}" if inside else ""
    if name in _DANGEROUS:
        return Fault(at, f"`{name}` {_DANGEROUS[name]}; a shop folder may not do that", TRUST)
    near = suggest(name, known)
    if near:
        return Fault(at, f"unknown key {quote(name)}{where}", f"did you mean `{near}`?")
    return Fault(at, f"the key {quote(name)}{where} is not one a shop folder may set", TRUST)


#: Keys that would make the site builder run something or read elsewhere, with what they do.
_DANGEROUS = {
    "INHERIT": "takes settings from another file",
    "hooks": "names a program to run",
    "custom_dir": "brings templates, which run as programs",
    "static_templates": "names templates, which run as programs",
    "extra_templates": "names templates, which run as programs",
    "extra_javascript": "names programs for the browser",
    "watch": "names folders to look into",
    "dev_addr": "says to which network the site is shown",
}


def _words(name: str, node: Node, here: Path) -> str:
    return texts.text(name, node, _LONGEST)


def _patterns(name: str, node: Node, here: Path) -> str:
    texts.text(name, node, 2000)
    return node.value if isinstance(node, Text) else ""


def _yes_no(name: str, node: Node, here: Path) -> bool:
    value = texts.text(name, node, _LONGEST).lower()
    if value not in ("true", "false"):
        raise texts.refuse(node.at, f"`{name}` must be `true` or `false`, not {quote(value)}", f"write {name}: true")
    return value == "true"


def _address(name: str, node: Node, here: Path) -> str:
    value = texts.text(name, node, _LONGEST)
    if not _ADDRESS.fullmatch(value):
        hint = f"write for example: {name}: https://saws.example.org/"
        raise texts.refuse(node.at, f"`{name}` must be the address of a site, but is {quote(value)}", hint)
    return value


def _below(name: str, node: Node, here: Path) -> str:
    """Return a path that stays below the folder of mkdocs.yml, whichever system reads it."""
    value = texts.text(name, node, _LONGEST)
    parts = value.replace("\\", "/").split("/")
    if ".." in parts or parts[0] == "" or ":" in value or value.startswith("~") or max(map(len, parts)) > 100:
        hint = (
            f"write the name of a folder below mkdocs.yml, for example: {name}: {_FOLDERS.get(name, 'images')}."
            " If you wrote this file yourself, or trust who did, add --trust to the command"
        )
        raise texts.refuse(node.at, f"`{name}` is {quote(value)}, which leads out of the folder of mkdocs.yml", hint)
    return value


_FOLDERS = {"docs_dir": "pages", "site_dir": "site", "shop": ".", "procedures": "procedures"}


def _inside(name: str, node: Node, here: Path) -> str:
    """Return a path below the folder that no link on the way leads out of."""
    value = _below(name, node, here)
    if text_file.leaves(here / value, here):
        raise texts.refuse(node.at, *link_out(value))
    return value


def link_out(name: str) -> tuple[str, str]:
    """Return what is wrong with a folder that is a link to elsewhere, and what to do."""
    what = f"{quote(name)} is a link that leads out of the folder of mkdocs.yml"
    return what, "put the folder itself here, or add --trust to the command if you trust this folder"


def _there(name: str, node: Node, here: Path) -> str:
    """Return a folder below that of mkdocs.yml which is there."""
    value = _inside(name, node, here)
    if not (here / value).is_dir():
        raise texts.refuse(node.at, f"`{name}` names the folder {quote(value)}, which is not there", _MAKE)
    return value


_MAKE = "correct the name, or make a shop folder with: sawside new my-shop"


def _plain(name: str, node: Node, here: Path) -> str:
    value = texts.text(name, node, 40)
    if not _PLAIN.fullmatch(value):
        raise texts.refuse(node.at, f"`{name}` cannot be {quote(value)}", "write plain words, for example: indigo")
    return value


def _plains(name: str, node: Node, here: Path) -> list[str]:
    if not isinstance(node, List):
        raise texts.refuse(node.at, f"`{name}` must be a list", "write one line for each, beginning with a hyphen and a space")
    return [_plain(name, item, here) for item in node.items]


def _font(name: str, node: Node, here: Path) -> bool:
    if texts.text(name, node, 40) != "false":
        what = f"`{name}` can only be `false`: no page asks another host for anything"
        raise texts.refuse(node.at, what, f"write {name}: false")
    return False


def _one_theme(name: str, node: Node, here: Path) -> str:
    value = texts.text(name, node, 40)
    if value != "material":
        what = f"there is no theme {quote(value)} for a shop"
        raise texts.refuse(node.at, what, "write under `theme:` the line `name: material`")
    return value


def _theme(name: str, node: Node, here: Path) -> dict[str, Any] | str:
    if isinstance(node, Map):
        return _group(_THEME, f"`{name}`", node, here)
    return _one_theme(name, node, here)


def _palette(name: str, node: Node, here: Path) -> dict[str, Any] | list[Any]:
    if isinstance(node, List):
        return [_palette(name, item, here) for item in node.items]
    if not isinstance(node, Map):
        raise texts.refuse(node.at, f"`{name}` must be a group of keys", "write below it for example: primary: indigo")
    return _group(dict.fromkeys(("scheme", "primary", "accent"), _plain), f"`{name}`", node, here)


def _group(known: dict[str, Callable[..., Any]], inside: str, node: Map, here: Path) -> dict[str, Any]:
    faults: list[Fault] = []
    found = _keys(node, known, inside, here, faults)
    if faults:
        raise Faults(faults)
    return found


def _menu(name: str, node: Node, here: Path, depth: int = 1) -> list[Any]:
    """Return the order of the pages: names of pages, links, and groups of them."""
    if not isinstance(node, List) or depth > _DEEPEST_MENU:
        raise texts.refuse(node.at, f"`{name}` must be a list", "write one line for each page, for example: `  - Notes: notes.md`")
    found: list[Any] = []
    for item in node.items:
        if not isinstance(item, Map):
            found.append(_link(name, item, here))
            continue
        for title, (at, value) in item.items.items():
            texts.text(name, Text(title, at), _LONGEST)
            found.append({title: _menu(name, value, here, depth + 1) if isinstance(value, List) else _link(name, value, here)})
    return found


def _link(name: str, node: Node, here: Path) -> str:
    value = texts.text(name, node, _LONGEST)
    return _address(name, node, here) if _SCHEME.match(value) or value.startswith("//") else _below(name, node, here)


def _plugins(name: str, node: Node, here: Path) -> list[Any]:
    return [_named(item, PLUGINS, "plugin", here) for item in _items(name, node, "  - sawside")]


def _extensions(name: str, node: Node, here: Path) -> list[Any]:
    return [_named(item, EXTENSIONS, "extension of Markdown", here) for item in _items(name, node, "  - tables")]


def _items(name: str, node: Node, example: str) -> tuple[Node, ...]:
    if not isinstance(node, List):
        raise texts.refuse(node.at, f"`{name}` must be a list", f"write below it for example: `{example}`")
    return node.items


def _named(item: Node, allowed: tuple[str, ...], thing: str, here: Path) -> str | dict[str, Any]:
    """Return one plugin or extension: its name, or the name with the settings of ours."""
    if isinstance(item, Map) and len(item.items) == 1:
        ((name, (at, value)),) = item.items.items()
    else:
        name, at, value = texts.text(thing, item, _LONGEST), item.at, None
    if name not in allowed:
        what = f"the {thing} {quote(name)} is not one a shop folder may use: it would run as a program"
        raise texts.refuse(at, what, meant(name, allowed, TRUST))
    if value is None or isinstance(value, Empty):
        return name
    if name != "sawside":
        raise texts.refuse(value.at, f"the {thing} `{name}` takes no settings from a shop folder", TRUST)
    if not isinstance(value, Map):
        raise texts.refuse(value.at, "`sawside` must be a group of keys", "write below it for example: `shop: .`")
    return {name: _group(_OURS, f"the plugin `{name}`", value, here)}


def _saws(name: str, node: Node, here: Path) -> str:
    value, kinds = texts.text(name, node, _LONGEST), [family.key for family in FAMILIES]
    if value not in kinds:
        raise texts.refuse(node.at, f"`{name}` cannot be {quote(value)}", f"write one of: {', '.join(kinds)}")
    return value


_OURS = {"shop": _there, "procedures": _there, "saws": _saws}
_THEME = {
    "name": _one_theme,
    "language": _plain,
    "font": _font,
    "palette": _palette,
    "features": _plains,
    "favicon": _below,
    "logo": _below,
}
_KEYS: dict[str, Callable[..., Any]] = {
    "site_name": _words, "site_description": _words, "site_author": _words, "copyright": _words, "site_url": _address,
    "repo_url": _address, "repo_name": _words, "edit_uri": _below, "docs_dir": _below, "site_dir": _below, "strict": _yes_no,
    "theme": _theme, "nav": _menu, "plugins": _plugins, "markdown_extensions": _extensions, "exclude_docs": _patterns,
    "not_in_nav": _patterns,
}  # fmt: skip
