"""Publishing a site: built beside the old one, then exchanged with it in one step, or put into it by a journal."""

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path

from sawside.errors import At, Fault, Faults
from sawside.place import rooms, tree
from sawside.place.lock import alone
from sawside.place.system import THIS_COMPUTER, System, hint

_CLASH = (
    "this is not from a build, and the site needs its place",
    "move it away, or name your page otherwise: a build does not write over what it has not made",
)


@contextlib.contextmanager
def building(site: Path, system: System = THIS_COMPUTER, patience: float | None = None) -> Iterator[Path]:
    """Give a fresh folder to build into; on a clean end its files become the site, else they are removed.

    What a build made earlier and does not make again goes; every other file in the site stays. A link is followed. Raises
    Faults when the folder is not ours, when another build lasts longer than the patience [s], or when it cannot be written.
    """
    try:
        _refuse(site)
        site = Path(os.path.realpath(site))
        system.mkdir(site.parent)
        with alone(_lock(site), site, patience) as still_alone:
            rooms.heal(system, site)
            _refuse(site)
            room = rooms.make(system, site, rooms.within(site))
            try:
                system.mkdir(room / "new")
                yield room / "new"
                still_alone()
                _publish(system, room, site)
            finally:
                rooms.clear(system, site)
    except OSError as error:
        raise Faults([Fault(At(str(site)), f"the site cannot be written: {error.strerror or error}", hint(error))]) from error


def refusal(site: Path) -> tuple[str, str] | None:
    """Return why a folder may not become the site and what to do instead, in words; None when it may.

    It may when it is not there, when it is empty, and when it carries the mark of a site.
    """
    name = site.name
    if site.is_symlink() and not _leads_somewhere(site):
        return f"`{name}` is a link to a place that is not there", "correct the link, or take it away"
    if site.exists() and not site.is_dir():
        return f"`{name}` is a file, and the site is a folder", f"move the file away, or choose another name than {name}"
    if site.is_dir() and tree.made(site) is None and tree.leaves(site):
        return (
            "the site would take the place of a folder that holds something else",
            f"choose another folder, or empty `{name}` first if nothing in it is needed any more",
        )
    return None


def _leads_somewhere(link: Path) -> bool:
    end = Path(os.path.realpath(link))
    return end.parent.is_dir() and not end.is_symlink()  # one that ends in a link is a circle


def _refuse(site: Path) -> None:
    if told := refusal(site):
        raise Faults([Fault(At(str(site)), *told)])


def _lock(site: Path) -> Path:
    return site / ".sawside-building" if rooms.within(site) else site.with_name(f".{site.name}-building")


def _publish(system: System, room: Path, site: Path) -> None:
    new = room / "new"
    names = tree.leaves(new)
    system.write(new / tree.MARK, tree.mark(names))
    if clash := tree.clashes(site, names):
        raise Faults([Fault(At(str(site / name)), *_CLASH) for name in clash])
    if not site.exists():
        system.rename(new, site)
        return
    if not rooms.within(site) and not tree.foreign(site):
        system.write(room / rooms.SWAPPED, b"")
        if system.exchange(new, site):
            return
        system.remove(room / rooms.SWAPPED)
    rooms.put_in(system, room, site, tree.made(site) or ())
