"""Files as they are read and shown: a YAML file with its faults, a path in a person's words, the folders of the package."""

import os
from collections.abc import Callable
from importlib import resources
from pathlib import Path

from sawside import checks, source, text_file
from sawside.errors import At, Fault, Faults, printable

#: Names the characters of a text that cannot be printed, and gives nothing when all can.
Lacking = Callable[[str], str] | None


def data_folder(name: str) -> Path:
    """Return the folder `procedures` or `site_templates`: inside the installed package, else of the checkout."""
    packaged = Path(str(resources.files("sawside"))) / "data" / name
    return packaged if packaged.is_dir() else Path(__file__).resolve().parents[2] / name


def shown(path: Path) -> str:
    """Return a path as people are shown it: relative to where they stand when it lies below, with forward slashes."""
    try:
        below = Path(os.path.abspath(path)).is_relative_to(Path.cwd())
        return printable((Path(os.path.relpath(path)) if below else path).as_posix())
    except (ValueError, OSError):
        return printable(path.as_posix())


def node(path: Path, folder: Path, faults: list[Fault], lacking: Lacking) -> source.Map | None:
    """Return what a file holds, or None and its faults. A link that leads out of `folder` is not followed."""
    if text_file.leaves(path, folder):
        name = "the shop folder" if shown(folder) == "." else shown(folder)
        what = f"this is, or lies behind, a link that leads out of {name}"
        faults.append(Fault(At(shown(path)), what, "put the file itself here"))
        return None
    try:
        found = source.read_file(path, shown(path))
    except Faults as bad:
        faults += bad.faults
        return None
    faults += checks.check_print(found, lacking) if lacking else []
    return found
