"""The views of a shop as it was at a git revision, made by today's program from the files of that day."""

import tempfile
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path, PurePosixPath

from sawside import history, library
from sawside.errors import Faults
from sawside.families.family import Family
from sawside.kinds.view_types import MachineView
from sawside.outputs import publishing
from sawside.text_file import ENDINGS


def views(shop: Path, procedures: Path, family: Family, revision: str) -> Sequence[MachineView]:
    """Return the saws' views at a revision; raise Faults when there is none such, or what it holds cannot be read.

    The procedures are taken from the revision when they lie in the shop's repository, else they are today's.
    """
    top = history.found(shop)
    inside = _below(procedures, top)
    with tempfile.TemporaryDirectory(prefix="sawside-") as room:
        at = Path(room).resolve()
        here = _below(shop, top)
        assert here is not None  # the repository was found from here
        wanted = [here, *([inside] if inside is not None else [])]
        history.take_out(top, revision, wanted, at, ENDINGS)
        there = at / inside if inside is not None and (at / inside / family.key).is_dir() else procedures
        try:
            return publishing.views(library.load(at / wanted[0], there, family))
        except Faults as found:
            raise Faults(
                [replace(fault, at=replace(fault.at, file=_named(fault.at.file, at, revision))) for fault in found.faults]
            ) from None


def _below(folder: Path, top: Path) -> PurePosixPath | None:
    here = folder.resolve()
    return PurePosixPath(here.relative_to(top).as_posix()) if here.is_relative_to(top) else None


def _named(file: str, room: Path, revision: str) -> str:
    """Return the name of a file of an earlier state as git writes it: revision, colon, path."""
    inside = Path(file).absolute()
    return f"{revision}:{inside.relative_to(room).as_posix()}" if inside.is_relative_to(room) else file
