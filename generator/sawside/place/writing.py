"""Writing single files and new folders: everything is written beside its place first, then renamed."""

import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from sawside.errors import At, Fault, Faults
from sawside.place import rooms, tree
from sawside.place.system import THIS_COMPUTER, System, hint


def check_files(paths: Iterable[Path], folder: bool = False) -> None:
    """Raise Faults when a file, or with `folder` a file in each of these folders, could not be written: before the work."""
    faults = []
    for path in paths:
        there = path.resolve()
        if not folder and there.is_dir():
            faults.append(Fault(At(str(path)), "the file cannot be written: this is a folder", "name a file in it"))
        above = there if folder else there.parent
        while not os.path.lexists(above) and above != above.parent:
            above = above.parent
        if not above.is_dir():
            what = f"the file cannot be written: `{above.name}` is not a folder"
            faults.append(Fault(At(str(path)), what, "choose another place"))
        elif not os.access(above, os.W_OK):
            faults.append(
                Fault(
                    At(str(path)),
                    f"the file cannot be written: you may not write to `{above.name or above}`",
                    "choose another place",
                )
            )
    if faults:
        raise Faults(faults)


def write_files(files: Mapping[Path, bytes], system: System = THIS_COMPUTER) -> None:
    """Write several files, all or none: raise Faults when one cannot be written, and leave what was there."""
    places = {path: path.resolve() for path in files}
    parts = {path: there.with_name(f".{there.name}.part") for path, there in places.items()}
    before: dict[Path, bytes | None] = {}
    path = Path()
    try:
        for path, data in files.items():
            system.mkdir(places[path].parent)
            if not _device(places[path]):
                system.write(parts[path], data)
        for path, data in files.items():
            if _device(places[path]):
                system.write(places[path], data)
                continue
            kept = places[path].read_bytes() if places[path].is_file() else None
            system.rename(parts[path], places[path])
            before[path] = kept
    except OSError as error:
        for done, kept in before.items():
            _restore(system, parts[done], places[done], kept)
        reason = f"the file cannot be written: {error.strerror or error}"
        raise Faults([Fault(At(str(path)), reason, hint(error))]) from error
    finally:
        for part in parts.values():
            with suppress(OSError):
                if part.is_file():
                    system.remove(part)


def _device(path: Path) -> bool:
    """Return whether something is there that takes bytes but cannot be renamed over, like a pipe."""
    return path.exists() and not path.is_file() and not path.is_dir()


def _restore(system: System, part: Path, place: Path, kept: bytes | None) -> None:
    with suppress(OSError):
        if kept is None:
            system.remove(place)
        else:
            system.write(part, kept)
            system.rename(part, place)


def new_folder(folder: Path, files: Mapping[str, bytes], system: System = THIS_COMPUTER) -> None:
    """Make a folder with files by name in one step; one that is there has to be empty.

    Raises Faults when something is in it or it cannot be written; nothing is left behind then. Killed half way, the same call
    finishes it.
    """
    folder = folder.resolve()
    try:
        if folder.is_dir() and rooms.heal(system, folder):
            return
        if os.path.lexists(folder) and (not folder.is_dir() or tree.leaves(folder)):
            raise Faults([Fault(At(str(folder)), "this folder is already there and not empty", "choose another name")])
        system.mkdir(folder.parent)
        rooms.heal(system, folder)
        room = rooms.make(system, folder, folder.is_dir())
        try:
            for name, data in files.items():
                system.mkdir((room / "new" / name).parent)
                system.write(room / "new" / name, data)
            if folder.is_dir():
                rooms.put_in(system, room, folder)
            else:
                system.rename(room / "new", folder)
        finally:
            rooms.clear(system, folder)
    except OSError as error:
        reason = f"the folder cannot be written: {error.strerror or error}"
        raise Faults([Fault(At(str(folder)), reason, hint(error))]) from error
