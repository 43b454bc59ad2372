"""The procedures of a machine family with the notices and sources they use, read and checked."""

from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import NamedTuple

from sawside import checks, files, schema
from sawside.errors import At, Fault
from sawside.families.family import Family
from sawside.files import Lacking, shown
from sawside.model import Procedure, Source
from sawside.safety import Notice
from sawside.text_file import ENDINGS

NOTICES = "notices.yaml"


class Texts(NamedTuple):
    """The procedures of a family with the notices, standing sentences and sources they use."""

    procedures: tuple[Procedure, ...]
    notices: Mapping[str, Notice]
    notice_when: Mapping[str, str]
    standing: tuple[str, ...]
    sources: Mapping[str, Source]


def read(folder: Path, family: Family, faults: list[Fault], lacking: Lacking) -> Texts:
    """Return the texts in a folder of procedures for one family; add what is wrong with them to `faults`."""
    notices: dict[str, Notice] = {}
    when: dict[str, str] = {}
    standing: tuple[str, ...] = ()
    sources: dict[str, Source] = {}
    notice_ids: set[str] | None = None
    own = folder / family.key
    # a family with other hazards keeps its own notices beside its procedures
    name = next((name for name in (NOTICES, "notices.yml") if (own / name).is_file()), "")
    node_of = partial(files.node, folder=folder, faults=faults, lacking=lacking)
    node = node_of(own / name if name else folder / NOTICES)
    if node:
        listed, standing, when, found = schema.load_notices(node)
        notices = {notice.id: notice for notice in listed}
        notice_ids = schema.ids(node, "notices")
        faults += found
        for text in when.values():
            faults += checks.check_condition(text, family, partial(checks.narrow, checks.condition_place(node, text)))
    node = node_of(folder / "sources.yaml")
    if node:
        sources, found = schema.load_sources(node)
        faults += found
    procedures = []
    here = sorted(own.iterdir()) if own.is_dir() else []
    paths = [path for path in here if path.suffix in ENDINGS and path.name[0] != "." and path.stem != Path(NOTICES).stem]
    if not paths:
        hint = "put the procedures of this kind of machine here"
        faults.append(Fault(At(shown(own)), "there is no procedure here", hint))
    for path in paths:
        node = node_of(path)
        procedure, found = schema.load_procedure(node, path.stem) if node else (None, [])
        faults += found
        if procedure:
            faults += checks.check_words(procedure, family, notice_ids)
            procedures.append(procedure)
    return Texts(tuple(sorted(procedures, key=lambda p: p.stage)), notices, when, standing, sources)
