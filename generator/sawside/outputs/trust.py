"""What reaches the site builder of a shop's mkdocs.yml: all of it when it is trusted, else only what `allowed` lets through.

A shop folder is data from strangers. The site builder would run code that its settings name (plugins, hooks, templates,
extensions, settings inherited from another file), so it never reads that file itself: it is given what is left of it.
"""

import io
import json
from pathlib import Path
from typing import Any

from sawside import source, text_file
from sawside.errors import At, Fault, Faults
from sawside.nodes import Map, quote
from sawside.outputs.allowed import keys, link_out
from sawside.outputs.settings import without_ours
from sawside.text_file import MOST_FAULTS


class _Kept(io.BytesIO):
    """Settings that stay readable: the site builder closes what it has read and would then open the file itself."""

    name = ""

    def close(self) -> None:
        """Stay open."""


def read(file: Path, shown: str, trusted: bool = False) -> tuple[io.BytesIO, list[str]]:
    """Return what the site builder is given to read in the place of a mkdocs.yml, and the file's lines.

    A trusted file is given as it stands; of any other only what it may say, written anew. Raises Faults.
    """
    if not file.is_file():
        hint = "go to the folder that holds mkdocs.yml, or make a new one with: sawside new my-shop"
        raise Faults([Fault(At(shown), "there is no mkdocs.yml here", hint)])
    if trusted:
        lines = source.scan(file, shown)
        stream = _Kept(text_file.load(file, shown))
    else:
        found, lines = settings(file, shown)
        stream = _Kept(json.dumps(found, ensure_ascii=False).encode())  # JSON is YAML without surprises
    stream.name = str(file.absolute())
    return stream, lines


def settings(file: Path, shown: str) -> tuple[dict[str, Any], list[str]]:
    """Return what a mkdocs.yml from strangers says, as plain data, and its lines; raise Faults for all it may not say."""
    here, faults = file.parent, list[Fault]()
    if text_file.leaves(file, here):
        raise Faults([Fault(At(shown), "this is a link that leads out of the folder", "put the file itself here")])
    node = source.read_file(file, shown)
    lines = source.lines(file, shown)
    found = keys(node, here, faults)
    if not faults:
        _check_names(node, found, faults)
        _check_folders(node, found, here, faults)
    if faults:
        raise Faults(faults[:MOST_FAULTS])
    return found, lines


def _check_names(node: Map, found: dict[str, Any], faults: list[Fault]) -> None:
    """Add a fault for what is missing: the site's name, and the plugin that makes its pages."""
    top = At(node.at.file)
    if "site_name" not in found:
        faults.append(Fault(top, "mkdocs.yml has no `site_name`", "write for example: site_name: My saws"))
    if not any(plugin == "sawside" or "sawside" in plugin for plugin in found.get("plugins", ())):
        faults.append(without_ours(node.at.file))


def _check_folders(node: Map, found: dict[str, Any], here: Path, faults: list[Fault]) -> None:
    """Add a fault where the folder of the pages is not there."""
    name = found.setdefault("docs_dir", "docs")
    at = node.items["docs_dir"][1].at if "docs_dir" in node.items else At(node.at.file)
    if not (here / name).is_dir():
        what = f"`docs_dir` names the folder {quote(name)}, which is not there"
        faults.append(Fault(at, what, "make the folder, or correct the name"))
    if text_file.leaves(here / name, here):
        faults.append(Fault(at, *link_out(name)))
