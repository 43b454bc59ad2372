"""The only reader of files: a shop's folder and the procedure library become one checked `Library`, or all faults."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import Any

from sawside import checks, files, ledger, local, schema, source, text_file, texts, units
from sawside.errors import At, Fault, Faults
from sawside.families import FAMILIES
from sawside.families.family import Family
from sawside.fields import Field
from sawside.files import Lacking, shown
from sawside.kinds import sheet_kinds
from sawside.kinds.page_kinds import PAGES
from sawside.model import Procedure, Record, Source
from sawside.nodes import quote
from sawside.safety import Notice
from sawside.shop import SAW, SHOP, Shop
from sawside.suggest import meant
from sawside.text_file import ENDINGS

#: What the addresses of a machine's further pages add to its id: a machine `x-guide` would take the guide of `x`.
PAGE_ENDINGS = tuple(kind.ending for kind in PAGES.values() if kind.ending)
#: The same for its sheets, which lie together in one folder with those of the rack.
SHEET_ENDINGS = tuple(sheet_kinds.ending(kind) for kind in sheet_kinds.KINDS if sheet_kinds.ending(kind))
#: After these the id of a blade may follow, in the sheets for a blade that goes on.
BLADE_SHEETS = tuple(f"-{sheet_kinds.written(kind)}-" for kind in sheet_kinds.BY_BLADE)
RACK = "rack"

_ADDRESS = re.compile(r"https?://[A-Za-z0-9][A-Za-z0-9./:@_~%?=&+-]*")


@dataclass(frozen=True)
class Library:
    """Everything read: the shop, its machines, blades and jobs, the procedures, notices and sources they use, what was printed."""

    family: Family
    shop: Shop
    machines: tuple[Record, ...]
    blades: tuple[Record, ...]
    jobs: tuple[Record, ...]
    procedures: tuple[Procedure, ...]
    notices: Mapping[str, Notice]
    notice_when: Mapping[str, str]
    standing: tuple[str, ...]
    sources: Mapping[str, Source]
    prints: Mapping[str, tuple[ledger.Print, ...]] = field(default_factory=dict)

    def blade(self, blade_id: str | None) -> Record | None:
        """Return a blade by id, or None."""
        return next((blade for blade in self.blades if blade.id == blade_id), None)


def load(shop_folder: Path, procedures: Path | None = None, family: Family = FAMILIES[0], lacking: Lacking = None) -> Library:
    """Read and check a shop with the procedures of its machine family; raise Faults with every fault found.

    `lacking` names the characters of a text that cannot be printed, and gives nothing when all can.
    """
    if not shop_folder.is_dir():
        hint = "check the line `shop:` in mkdocs.yml, or make a shop folder with: sawside new my-shop"
        raise Faults([Fault(At(shown(shop_folder)), "there is no such folder", hint)])
    reading = _Reading(shop_folder, family, lacking)
    shop = reading.shop()
    machines = reading.machines()
    blades = reading.listed("blades.yaml", "blades", family.blade, "blade", family.assumptions)
    jobs = reading.listed("jobs.yaml", "jobs", family.job, "job")
    reading.faults += checks.check_fitted(machines, reading.blade_ids)
    printed = ledger.read_all(
        shop_folder, partial(files.node, folder=shop_folder, faults=reading.faults, lacking=None), reading.faults
    )
    words = texts.read(procedures or files.data_folder("procedures"), family, reading.faults, lacking)
    reading.faults += checks.check_possible((*machines, *blades), family)
    reading.faults += local.check(None if reading.faults else shop, machines, [procedure.id for procedure in words.procedures])
    if reading.faults or shop is None:
        raise Faults(reading.faults)
    return Library(family, shop, machines, blades, jobs, *words, printed)


Fields = tuple[Field, ...]


class _Reading:
    """One pass over a shop's folder that collects faults instead of stopping at the first."""

    def __init__(self, folder: Path, family: Family, lacking: Lacking) -> None:
        self.folder, self.family, self.lacking = folder, family, lacking
        self.faults: list[Fault] = []
        self.blade_ids: set[str] | None = None

    def elsewhere(self, kind: str) -> dict[str, tuple[Any, ...]]:
        """Return the fields of the other kinds of record, so that a key in the wrong file is told where it belongs."""
        all_of = {"machine": self.family.machine + SAW, "blade": self.family.blade, "job": self.family.job, "shop": SHOP}
        return {other: fields for other, fields in all_of.items() if other != kind}

    def file(self, name: str, start: str) -> source.Map | None:
        """Return what one of the shop's own files holds, or None."""
        path = self.folder / name
        if path.exists() or path.is_symlink():
            return files.node(path, self.folder, self.faults, self.lacking)
        near = text_file.looks_like(path)
        hint = f"rename {near} to {name}" if near else f"make it; it starts with: {start}"
        hint += "; or make a whole shop with: sawside new my-shop" * (name == "shop.yaml" and not near)
        self.faults.append(Fault(At(shown(path)), f"there is no {name} here", hint))
        return None

    def shop(self) -> Shop | None:
        node = self.file("shop.yaml", "shop: My workshop")
        if node is None:
            return None
        settings = {key: value for key, value in node.items.items() if key == "units"}
        rest = replace(node, items={key: value for key, value in node.items.items() if key != "units"})
        record, faults = schema.record(rest, SHOP, "shop", self.family.assumptions, self.elsewhere("shop"))
        self.faults += faults
        systems = self.systems(settings.get("units"))
        address = record and record.entries.get("site_address")
        if address and not _ADDRESS.fullmatch(address.value):
            self.faults.append(
                Fault(
                    address.at,
                    "`site_address` must be the address of a site",
                    f"write for example: site_address: {address.field.example}",
                )
            )
        return Shop(record, systems) if record else None

    def systems(self, item: Any) -> dict[str, str]:
        """Read the `units:` block: print kind -> metric or inch."""
        if item is None:
            return {}
        _, node = item
        if not isinstance(node, source.Map):
            self.faults.append(
                Fault(
                    node.at,
                    "`units` must be a list of kinds, each with metric or inch",
                    "write below it for example:   blade_width: inch",
                )
            )
            return {}
        found = {}
        for kind, (at, value) in node.items.items():
            if kind not in units.KINDS:
                hint = meant(kind, units.KINDS, "kinds: " + ", ".join(sorted(units.KINDS)))
                self.faults.append(Fault(at, f"unknown kind of quantity `{kind}`", hint))
            elif isinstance(value, source.Text) and value.value in ("metric", "inch"):
                found[kind] = value.value
            else:
                system = "inch" if str(getattr(value, "value", "")).lower().startswith("in") else "metric"
                self.faults.append(Fault(value.at, f"`{kind}` must be metric or inch", f"write: {kind}: {system}"))
        return found

    def machines(self) -> tuple[Record, ...]:
        records: dict[str, Record] = {}
        for path in self.machine_files():
            node = files.node(path, self.folder, self.faults, self.lacking)
            if node is None:
                continue
            record, faults = schema.record(
                node, self.family.machine, "machine", (*self.family.assumptions, *SAW), self.elsewhere("machine")
            )
            self.faults += faults
            if record and record.id in records:
                first = records[record.id].at
                self.faults.append(
                    Fault(
                        record.entries["id"].at,
                        f"two machines have the id `{record.id}`",
                        f"the other one is in {first.file}; give one of them another id",
                    )
                )
            elif record:
                records[record.id] = record
        for record in records.values():
            ending = next(
                (
                    end
                    for end in (*PAGE_ENDINGS, *SHEET_ENDINGS, *_of_blades(record.id))
                    if record.id.endswith(end) and record.id.removesuffix(end) in records
                ),
                "",
            )
            if ending:
                other, thing = record.id.removesuffix(ending), "page" if ending in PAGE_ENDINGS else "sheet"
                what = f"the {thing} of `{record.id}` would have the address of a {thing} of `{other}`"
                self.faults.append(Fault(record.entries["id"].at, what, "give one of the two machines another id"))
            if record.id == RACK:
                what = "`rack` is the name of the sheets of the whole rack"
                self.faults.append(Fault(record.entries["id"].at, what, "give the machine another id"))
        return tuple(records.values())

    def machine_files(self) -> list[Path]:
        """Return the machine files; add a fault for a file that was surely meant to be one."""
        folder = self.folder / "machines"
        here = sorted(path for path in folder.iterdir() if path.name[0] not in ".#~") if folder.is_dir() else []
        for path in here:
            if path.suffix not in ENDINGS and (name := text_file.meant_name(path)):
                self.faults.append(
                    Fault(At(shown(path)), "this file is not read: its name does not end in .yaml", f"rename it to {quote(name)}")
                )
        found = [path for path in here if path.suffix in ENDINGS]
        if not found and not any(text_file.meant_name(path) for path in here):
            self.faults.append(
                Fault(
                    At(shown(folder)),
                    "there is no machine file here",
                    "put one file for each saw into this folder, ending in .yaml",
                )
            )
        return found

    def listed(self, name: str, key: str, fields: Fields, kind: str, optional: Fields = ()) -> tuple[Record, ...]:
        none = kind == "job" and text_file.says_nothing(self.folder / name, f"{key}:")  # a shop may have no jobs yet
        if none or (node := self.file(name, f"{key}:")) is None:
            return ()
        if kind == "blade":
            self.blade_ids = schema.ids(node, key)
        records, faults = schema.records(node, key, fields, kind, optional, self.elsewhere(kind))
        self.faults += faults
        return tuple(records)


def _of_blades(saw: str) -> Iterator[str]:
    """Yield the endings of an id that may be those of a sheet for a blade, whatever blades there are."""
    yield from (saw[saw.index(part) :] for part in BLADE_SHEETS if part in saw)
