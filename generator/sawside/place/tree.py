"""What is in a site: the mark that says which files were made by a build, and what else lies there and is the user's."""

import json
import os
from collections.abc import Collection
from pathlib import Path

#: The file in a site that makes it ours, and how the working files of a build inside a site begin.
MARK, WORKING = ".sawside-site", (".sawside-work", ".sawside-building")
_NOTE = "sawside made this folder. A build renews the files named here and leaves every other file alone."


def mark(names: Collection[str]) -> bytes:
    """Return the content of the mark for a site of these files; the same names give the same bytes."""
    text = json.dumps({"note": _NOTE, "files": sorted({*names, MARK})}, indent=0)
    return text.encode() + b"\n"


def made(site: Path) -> frozenset[str] | None:
    """Return the names of the files that the mark of a site claims; None when there is no mark that can be read."""
    try:
        names = json.loads((site / MARK).read_bytes())["files"]
        return frozenset(name for name in names if safe(name))
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None


def safe(name: object) -> bool:
    """Return whether a name read from a file stays within the folder it is used in: a shop may come from a stranger."""
    path = Path(name) if isinstance(name, str) and name and "\0" not in name else Path("..")
    return bool(path.parts) and not path.is_absolute() and not path.drive and ".." not in path.parts


def direct(folder: Path, name: str) -> bool:
    """Return whether a name leads to its place without passing through a link."""
    path = Path(name)
    return not any((folder / above).is_symlink() for above in (path, *path.parents[:-1]))


def leaves(folder: Path) -> list[str]:
    """Return the names of all files, links and empty folders below a folder, without the working files of a build."""
    found = []
    for here, folders, files in os.walk(folder):
        place = Path(here)
        if place == folder:
            folders[:] = [name for name in folders if not name.startswith(WORKING)]
            files = [name for name in files if not name.startswith(WORKING)]
        links = [name for name in folders if (place / name).is_symlink()]
        empty = [] if folders or files or place == folder else [""]
        found += [(place / name).relative_to(folder).as_posix() for name in (*files, *links, *empty)]
    return sorted(found)


def foreign(site: Path) -> list[str]:
    """Return what lies in a site and was not made by a build."""
    names = made(site) or frozenset()
    return [name for name in leaves(site) if name not in names]


def clashes(site: Path, names: Collection[str]) -> list[str]:
    """Return what of the user's lies where a build would put one of these files."""
    mine, above = set(), {str(over) for name in names for over in Path(name).parents}
    places = {str(Path(name)) for name in names}
    for name in foreign(site):
        path = Path(name)
        if str(path) in places or (str(path) in above and not plain_folder(site / path)):
            mine.add(name)
        if any(str(over) in places for over in path.parents):
            mine.add(name)
    return sorted(mine | {name for name in names if (site / name).is_symlink()})


def plain_folder(path: Path) -> bool:
    """Return whether a path is a folder and no link to one."""
    return path.is_dir() and not path.is_symlink()
