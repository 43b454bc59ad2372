"""Putting a finished folder in the place of the old one in one step, so that a reader never meets half a site."""

import contextlib
import ctypes
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

from sawside.errors import At, Fault, Faults

_EXCHANGE = 2  # RENAME_EXCHANGE of renameat2(2)
_HERE = -100  # AT_FDCWD


@contextlib.contextmanager
def building(site: Path) -> Iterator[Path]:
    """Give a fresh folder beside `site` to build into; on a clean end it takes the place of `site`, else it is removed.

    Raises Faults when another build holds the place or the folder cannot be written.
    """
    fresh, old = site.with_name(f".{site.name}-new"), site.with_name(f".{site.name}-old")
    try:
        site.parent.mkdir(parents=True, exist_ok=True)
        with _alone(site):
            _tidy(site, fresh, old)
            fresh.mkdir()
            try:
                yield fresh
                _swap(fresh, site, old)
            finally:
                shutil.rmtree(fresh, ignore_errors=True)
                shutil.rmtree(old, ignore_errors=True)
    except OSError as error:
        reason = f"the site cannot be written: {error.strerror or error}"
        raise Faults([Fault(At(str(site)), reason, "free some room or choose a folder you may write to")]) from error


def _tidy(site: Path, fresh: Path, old: Path) -> None:
    """Clear what a build that was killed left behind; if it had moved the site away, put it back."""
    if old.exists() and not site.exists():
        old.rename(site)
    for leftover in (fresh, old):
        shutil.rmtree(leftover, ignore_errors=True)


def _swap(fresh: Path, site: Path, old: Path) -> None:
    """Exchange two folders: in one step where the system can, else in two renames that `_tidy` can mend."""
    if not site.exists():
        fresh.rename(site)
    elif not _exchange(fresh, site):
        site.rename(old)
        fresh.rename(site)


def _exchange(one: Path, other: Path) -> bool:
    if not sys.platform.startswith("linux"):
        return False
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    return call(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0


@contextlib.contextmanager
def _alone(site: Path) -> Iterator[None]:
    """Hold a lock beside the site; the system drops it when the process ends, however it ends."""
    with open(site.with_name(f".{site.name}-lock"), "a+b") as handle:
        if not _lock(handle):
            raise Faults([Fault(At(str(site)), "another build is writing this site", "wait until it has finished")])
        yield


def _lock(handle) -> bool:
    try:
        if os.name == "nt":
            import msvcrt

            msvcrt.locking(handle.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
