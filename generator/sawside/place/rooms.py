"""The rooms a build does its work in, beside the site or within it, and what a killed build left in them."""

import contextlib
import errno
import os
from collections.abc import Collection
from pathlib import Path

from sawside.place import steps, tree
from sawside.place.system import System, prune, remove

#: The file that makes a room ours, and the one that says that its `new` may be the old site.
_ABOUT, SWAPPED = "about.txt", "swapped"
_ABOUT_TEXT = b"sawside is building here. The next build removes this folder, or finishes what was begun.\n"


def within(site: Path) -> bool:
    """Return whether a build has to do its work within the site: it is a file system of its own, or stands among others' files."""
    return site.is_dir() and (os.path.ismount(site) or not os.access(site.parent, os.W_OK))


def _rooms(site: Path, inside: bool) -> list[Path]:
    """Return where a build may do its work; the first is enough unless the system does not let go of a file in it."""
    stem = site / ".sawside-work" if inside else site.with_name(f".{site.name}-work")
    return [stem, *(stem.with_name(f"{stem.name}-{number}") for number in range(2, 10))]


def make(system: System, site: Path, inside: bool) -> Path:
    """Make a room beside a site or within it, and return it; raise OSError when that cannot be done."""
    rooms = _rooms(site, inside)
    room = next((room for room in rooms if not os.path.lexists(room)), None)
    if room is None:
        raise OSError(errno.EEXIST, "there are leftovers that cannot be removed", str(rooms[0]))
    system.mkdir(room)
    try:
        system.write(room / _ABOUT, _ABOUT_TEXT)
    except OSError:
        remove(system, room)
        raise
    return room


def _ours(room: Path) -> bool:
    return not room.is_symlink() and room.is_dir() and ((room / _ABOUT).is_file() or not any(room.iterdir()))


def heal(system: System, site: Path) -> bool:
    """Finish or clear what a killed build left behind; return whether a journal was finished. Raises OSError when denied."""
    begun = False
    for room in _rooms(site, True):
        if _ours(room) and steps.pending(room):
            begun = True
            steps.finish(system, room, site)
    clear(system, site)
    return begun


def clear(system: System, site: Path) -> None:
    """Remove the rooms of a site that no journal waits in, as far as the system lets go of them."""
    for room in _rooms(site, False) + _rooms(site, True):
        _clear(system, room, site)


def _clear(system: System, room: Path, site: Path) -> None:
    """Remove a room, unless a journal in it still waits. A file of the user's that came along goes back into the site."""
    if not _ours(room) or steps.pending(room):
        return
    if (room / SWAPPED).is_file() and tree.plain_folder(room / "new"):
        _empty_old(system, room / "new", site)
        if (room / "new").exists():
            return
    for path in list(room.iterdir()):
        if path.name != _ABOUT:
            remove(system, path)
    if [path.name for path in room.iterdir()] in ([], [_ABOUT]):
        remove(system, room)


def _empty_old(system: System, old: Path, site: Path) -> None:
    """Remove from a folder what its mark claims; what is left is the user's and goes into the site if there is place."""
    names = sorted(tree.made(old) or (), key=lambda name: name == tree.MARK)
    with contextlib.suppress(OSError):
        for name in tree.foreign(old):
            target = site / name
            if not os.path.lexists(target) and site.is_dir():
                system.mkdir(target.parent)
                system.rename(old / name, target)
                prune(system, (old / name).parent, old)
            elif tree.plain_folder(old / name):  # emptied by a run that was killed
                prune(system, old / name, old)
    for name in names:
        with contextlib.suppress(OSError):
            if (old / name).is_file() and tree.direct(old, name):
                system.remove(old / name)
                prune(system, (old / name).parent, old)
    with contextlib.suppress(OSError):
        system.rmdir(old)


def put_in(system: System, room: Path, folder: Path, old: Collection[str] = ()) -> None:
    """Renew a folder from `room/new` by a journal that is kept within the folder, where every step is one rename."""
    if room.parent != folder:
        inner = make(system, folder, True)
        try:
            system.rename(room / "new", inner / "new")
        except OSError as error:
            if error.errno != errno.EXDEV:
                raise
            for name in tree.leaves(room / "new"):
                system.mkdir((inner / "new" / name).parent)
                system.copy(room / "new" / name, inner / "new" / name)
        room = inner
    steps.renew(system, room, folder, old)
