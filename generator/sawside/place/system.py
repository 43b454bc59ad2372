"""The few things done to a file system, as an interface: the tests put one in that denies, or dies, like others do."""

import ctypes
import errno
import os
import shutil
import sys
from contextlib import suppress
from pathlib import Path
from typing import Protocol

_EXCHANGE = 2  # RENAME_EXCHANGE of renameat2(2)
_HERE = -100  # AT_FDCWD


class System(Protocol):
    """What changes files. Each call raises OSError when it is denied; looking goes past it, straight to `pathlib`."""

    def mkdir(self, path: Path) -> None:
        """Make a folder and those above it; one that is there is good."""

    def write(self, path: Path, data: bytes) -> None:
        """Write a file, down to the disk."""

    def copy(self, one: Path, other: Path) -> None:
        """Copy the content of a file."""

    def rename(self, one: Path, other: Path) -> None:
        """Rename within one file system; a file takes the place of a file, a folder that of nothing."""

    def exchange(self, one: Path, other: Path) -> bool:
        """Exchange two folders in one step; False, and nothing done, where the system cannot."""

    def remove(self, path: Path) -> None:
        """Remove a file or a link."""

    def rmdir(self, path: Path) -> None:
        """Remove an empty folder."""


class ThisComputer:
    """The file system as it is."""

    def mkdir(self, path: Path) -> None:
        """Make a folder and those above it."""
        path.mkdir(parents=True, exist_ok=True)

    def write(self, path: Path, data: bytes) -> None:
        """Write and wait for the disk, where the file system knows how to wait."""
        with open(path, "wb") as file:
            file.write(data)
            file.flush()
            try:
                os.fsync(file.fileno())
            except OSError as error:
                if error.errno not in (errno.EINVAL, errno.ENOSYS, errno.ENOTSUP):
                    raise

    def copy(self, one: Path, other: Path) -> None:
        """Copy the content."""
        shutil.copyfile(one, other)

    def rename(self, one: Path, other: Path) -> None:
        """Rename, over a file that is there."""
        os.replace(one, other)

    def exchange(self, one: Path, other: Path) -> bool:
        """Exchange by renameat2(2), which Linux has."""
        if not sys.platform.startswith("linux"):
            return False
        try:
            call = ctypes.CDLL(None, use_errno=True).renameat2
        except (OSError, AttributeError):
            return False
        return bool(call(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0)

    def remove(self, path: Path) -> None:
        """Remove a file or a link."""
        path.unlink()

    def rmdir(self, path: Path) -> None:
        """Remove an empty folder."""
        path.rmdir()


THIS_COMPUTER = ThisComputer()


def remove(system: System, path: Path) -> None:
    """Remove as much of a file or folder as the system lets go; links in it are removed, never followed."""
    with suppress(OSError):
        if path.is_dir() and not path.is_symlink():
            for below in list(path.iterdir()):
                remove(system, below)
            system.rmdir(path)
        else:
            system.remove(path)


def prune(system: System, folder: Path, top: Path) -> None:
    """Remove a folder and those above it as long as they are empty, but not `top`."""
    with suppress(OSError):
        while folder != top and not any(folder.iterdir()):
            system.rmdir(folder)
            folder = folder.parent


def hint(error: OSError) -> str:
    """Return what a person may do about something that cannot be written."""
    if error.errno in (errno.EACCES, errno.EPERM, errno.EBUSY) and error.filename:
        return f"close {Path(error.filename).name} if a program has it open, or choose a folder you may write to"
    return "free some room or choose a folder you may write to"
