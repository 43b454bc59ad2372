"""Renewing a folder file by file, where it cannot be exchanged as a whole: a journal says what is to be done.

Everything needed is laid ready in a room within the folder, so that each step is one rename. A kill leaves the journal, and the
next run does the rest of it; a file that somebody holds open makes the journal turn round, and what was there comes back.
"""

import json
from collections.abc import Collection
from contextlib import suppress
from pathlib import Path
from typing import Any

from sawside.place import tree
from sawside.place.system import System, prune

_JOURNAL = "steps.json"


def renew(system: System, room: Path, folder: Path, old: Collection[str]) -> None:
    """Put the files of `room/new` into a folder and take away those of `old` that are not among them.

    Raises OSError when it cannot be done; the folder is then as it was, or the journal that brings it back stays.
    """
    new = [name for name in tree.leaves(room / "new") if not (room / "new" / name).is_dir()]
    changed = [name for name in new if not _same(room / "new" / name, folder / name)]
    gone = [name for name in sorted(set(old) - set(new)) if (folder / name).is_file() and tree.direct(folder, name)]
    for name in (*changed, *gone):
        if (folder / name).is_file():
            system.mkdir((room / "old" / name).parent)
            system.copy(folder / name, room / "old" / name)
    if tree.MARK in changed:
        system.write(room / "both", tree.mark({*old, *new}))
    _write(system, room, {"way": "on", "steps": _steps(folder, changed, gone)})
    finish(system, room, folder)


def _steps(folder: Path, changed: list[str], gone: list[str]) -> list[list[Any]]:
    """Return the steps [what, name, was it there] in their order.

    The first mark claims old and new files, the last one the new. What stands in the way of a new file goes before it.
    """
    put = set(changed)
    above = {over.as_posix() for name in changed for over in Path(name).parents}
    early = [name for name in gone if name in above or any(over.as_posix() in put for over in Path(name).parents)]
    late = [name for name in gone if name not in early]
    usual = sorted((name for name in changed if name != tree.MARK), key=lambda name: (name == "index.html", name))
    marks = [tree.MARK] if tree.MARK in put else []
    order = [("mark", marks), ("drop", early), ("put", usual), ("drop", late), ("put", marks)]
    return [[what, name, (folder / name).is_file()] for what, names in order for name in names]


def pending(room: Path) -> bool:
    """Return whether a room holds a journal that was begun and not ended."""
    return (room / _JOURNAL).is_file()


def finish(system: System, room: Path, folder: Path) -> None:
    """Do what a journal says, from wherever it was left; nothing when there is none. Raises OSError when that is denied."""
    journal = _read(room)
    if journal is None:
        return
    if journal["way"] == "on":
        try:
            _on(system, room, folder, journal["steps"])
        except OSError:
            _write(system, room, journal | {"way": "back"})
            _back(system, room, folder, journal["steps"])
            system.remove(room / _JOURNAL)
            raise
    else:
        _back(system, room, folder, journal["steps"])
    system.remove(room / _JOURNAL)


def _on(system: System, room: Path, folder: Path, steps: list[Any]) -> None:
    for what, name, _ in steps:
        source = room / "both" if what == "mark" else room / "new" / name
        if what == "drop":
            _drop(system, folder, name)
        elif source.is_file():
            system.mkdir((folder / name).parent)
            system.rename(source, folder / name)


def _back(system: System, room: Path, folder: Path, steps: list[Any]) -> None:
    for _, name, was in reversed(steps):
        kept = room / "old" / name
        if not was:
            _drop(system, folder, name)
        elif kept.is_file() and not _same(kept, folder / name):
            system.mkdir((folder / name).parent)
            system.rename(kept, folder / name)


def _drop(system: System, folder: Path, name: str) -> None:
    if (folder / name).is_file():
        system.remove(folder / name)
    prune(system, (folder / name).parent, folder)


def _same(one: Path, other: Path) -> bool:
    return other.is_file() and one.stat().st_size == other.stat().st_size and one.read_bytes() == other.read_bytes()


def _write(system: System, room: Path, journal: dict[str, Any]) -> None:
    system.write(room / "steps.part", json.dumps(journal).encode())
    system.rename(room / "steps.part", room / _JOURNAL)


def _read(room: Path) -> dict[str, Any] | None:
    """Return a journal; steps that would lead out of the folder are left out, one that is none counts as not there."""
    with suppress(OSError, ValueError, KeyError, TypeError, RecursionError):
        read = json.loads((room / _JOURNAL).read_bytes())
        steps = [
            [str(what), name, bool(was)]
            for what, name, was in read["steps"]
            if tree.safe(name)
            and all(tree.direct(top, name) and not top.is_symlink() for top in (room.parent, room / "new", room / "old"))
        ]
        return {"way": read["way"], "steps": steps}
    return None
