"""File systems that deny or die like others do: Windows with its open files, a full disk, a computer that is switched off.

Rules of Windows from Microsoft's documentation ("CreateFile": dwShareMode; "MoveFileEx": MOVEFILE_REPLACE_EXISTING), from memory:
a file opened without FILE_SHARE_DELETE can be neither renamed, nor replaced, nor deleted; a folder that holds such a file, or is
a process's current folder, can be neither renamed nor removed; a rename never replaces a folder; folders cannot be exchanged.
"""

import errno
from pathlib import Path

from sawside.place.system import ThisComputer


class Killed(BaseException):
    """The process is gone: no clean-up of its own gets through to the disk any more."""


class Windows(ThisComputer):
    """Denies what Windows denies while `held` files are open and shells stand in `cwds`."""

    def __init__(self, held=(), cwds=()):
        self.held, self.cwds = set(held), set(cwds)

    def _deny(self, path: Path, replaced: bool = False):
        inside = any(path == held or path in held.parents for held in self.held)
        stands = not replaced and any(path == cwd or path in cwd.parents for cwd in self.cwds)
        if inside or stands:
            raise PermissionError(errno.EACCES, "The process cannot access the file because it is being used", str(path))

    def rename(self, one, other):
        self._deny(one)
        self._deny(other, replaced=True)
        if other.is_dir():
            raise PermissionError(errno.EACCES, "Access is denied", str(other))
        super().rename(one, other)

    def exchange(self, one, other):
        return False

    def write(self, path, data):
        self._deny(path, replaced=True)
        super().write(path, data)

    def remove(self, path):
        self._deny(path)
        super().remove(path)

    def rmdir(self, path):
        self._deny(path)
        super().rmdir(path)


class Mount(ThisComputer):
    """Refuses to rename across the border of a folder that is a file system of its own."""

    def __init__(self, border: Path):
        self.border = border

    def rename(self, one, other):
        if self.border in (one, other):
            raise OSError(errno.EBUSY, "Device or resource busy", str(self.border))
        if (self.border in one.parents) != (self.border in other.parents):
            raise OSError(errno.EXDEV, "Invalid cross-device link", str(one))
        super().rename(one, other)

    def exchange(self, one, other):
        return False


class Counted:
    """Passes every change on, until the one with the number `last`: before it, `stop` happens. Later changes do not happen."""

    def __init__(self, system, last: int = 10**9, stop=Killed):
        self.system, self.last, self.stop, self.number = system, last, stop, 0

    def __getattr__(self, name):
        change = getattr(self.system, name)

        def counted(*words):
            self.number += 1
            if self.number >= self.last:
                if name == "write" and self.number == self.last:
                    words[0].write_bytes(words[1][: len(words[1]) // 2])  # a kill may come in the middle
                raise self.stop()
            return change(*words)

        return counted


class Full(ThisComputer):
    """Has room for so many more bytes."""

    def __init__(self, room: int):
        self.room = room

    def _take(self, path: Path, size: int):
        if size > self.room:
            path.write_bytes(b"")
            raise OSError(errno.ENOSPC, "No space left on device", str(path))
        self.room -= size

    def write(self, path, data):
        self._take(path, len(data))
        super().write(path, data)

    def copy(self, one, other):
        self._take(other, one.stat().st_size)
        super().copy(one, other)
