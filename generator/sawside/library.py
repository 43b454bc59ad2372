"""The only reader of files: a shop's folder and the procedure library become one checked `Library`, or all faults."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from importlib import resources
from pathlib import Path

from sawside import checks, schema, source, units
from sawside.errors import At, Fault, Faults
from sawside.families import FAMILIES
from sawside.families.family import Family
from sawside.model import UNKNOWN, Notice, Procedure, Record, Source
from sawside.shop import SHOP, Shop


@dataclass(frozen=True)
class Library:
    """Everything read: the shop, its machines, blades and jobs, and the procedures, notices and sources they use."""

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

    def blade(self, blade_id: str | None) -> Record | None:
        """Return a blade by id, or None."""
        return next((blade for blade in self.blades if blade.id == blade_id), None)


def data_folder(name: str) -> Path:
    """Return the folder `procedures` or `site_templates`: inside the installed package, else of the checkout."""
    packaged = Path(str(resources.files("sawside"))) / "data" / name
    return packaged if packaged.is_dir() else Path(__file__).resolve().parents[2] / name


def load(shop_folder: Path, procedures: Path | None = None) -> Library:
    """Read and check a shop with the procedures of its machine family; raise Faults with every fault found."""
    reading = _Reading(shop_folder)
    family = FAMILIES[0]
    shop = reading.shop(family)
    machines = reading.machines(family)
    blades = reading.listed("blades.yaml", "blades", family.blade, "blade", family.assumptions)
    jobs = reading.listed("jobs.yaml", "jobs", family.job, "job")
    reading.check_fitted(machines, blades)
    texts = _procedures(procedures or data_folder("procedures"), family, reading.faults)
    if reading.faults:
        raise Faults(reading.faults)
    return Library(family, shop, machines, blades, jobs, *texts)


class _Reading:
    """One pass over a shop's folder that collects faults instead of stopping at the first."""

    def __init__(self, folder: Path):
        self.folder, self.faults = folder, []

    def node(self, path: Path):
        return _node(path, self.faults)

    def shop(self, family: Family) -> Shop | None:
        path = self.folder / "shop.yaml"
        if not self.folder.is_dir() or not path.is_file():
            hint = "make a shop folder with: sawside new my-shop"
            self.faults.append(Fault(At(shown(path)), "there is no shop.yaml here", hint))
            return None
        node = self.node(path)
        if node is None:
            return None
        settings = {key: value for key, value in node.items.items() if key == "units"}
        rest = replace(node, items={key: value for key, value in node.items.items() if key != "units"})
        record, faults = schema.record(rest, SHOP, "shop", family.assumptions)
        self.faults += faults
        systems = self.systems(settings.get("units"))
        return Shop(record, systems) if record else None

    def systems(self, item) -> dict[str, str]:
        """Read the `units:` block: print kind -> metric or inch."""
        if item is None:
            return {}
        _, node = item
        if not isinstance(node, source.Map):
            self.faults.append(Fault(node.at, "`units` must be a list of kinds, each with metric or inch",
                                     "write below it for example:   blade_width: inch"))
            return {}
        found = {}
        for kind, (at, value) in node.items.items():
            if kind not in units.KINDS:
                near = schema.suggest(kind, units.KINDS)
                hint = f"did you mean `{near}`?" if near else "kinds: " + ", ".join(sorted(units.KINDS))
                self.faults.append(Fault(at, f"unknown kind of quantity `{kind}`", hint))
            elif getattr(value, "value", None) not in ("metric", "inch"):
                self.faults.append(Fault(value.at, f"`{kind}` must be metric or inch", f"write: {kind}: metric"))
            else:
                found[kind] = value.value
        return found

    def machines(self, family: Family) -> tuple[Record, ...]:
        folder = self.folder / "machines"
        paths = sorted(folder.glob("*.yaml")) + sorted(folder.glob("*.yml")) if folder.is_dir() else []
        if not paths:
            self.faults.append(Fault(At(shown(folder)), "there is no machine file here",
                                     "put one file for each saw into this folder, ending in .yaml"))
        records: dict[str, Record] = {}
        for path in paths:
            node = self.node(path)
            if node is None:
                continue
            record, faults = schema.record(node, family.machine, "machine", family.assumptions)
            self.faults += faults
            if record and record.id in records:
                first = records[record.id].at
                self.faults.append(Fault(record.entries["id"].at, f"two machines have the id `{record.id}`",
                                         f"the other one is in {first.file}; give one of them another id"))
            elif record:
                records[record.id] = record
        return tuple(records.values())

    def listed(self, name: str, key: str, fields, kind: str, optional=()) -> tuple[Record, ...]:
        path = self.folder / name
        if not path.is_file():
            self.faults.append(Fault(At(shown(path)), f"there is no {name} here", f"make it; it starts with: {key}:"))
            return ()
        node = self.node(path)
        if node is None:
            return ()
        records, faults = schema.records(node, key, fields, kind, optional)
        self.faults += faults
        return tuple(records)

    def check_fitted(self, machines, blades) -> None:
        """Check that each machine's fitted blade exists."""
        ids = {blade.id for blade in blades}
        for machine in machines:
            entry = machine.entries.get("fitted_blade")
            if ids and entry and entry.status != UNKNOWN and entry.value not in ids:
                near = schema.suggest(str(entry.value), ids)
                hint = f"did you mean `{near}`?" if near else "write the id of a blade from blades.yaml, or unknown"
                self.faults.append(Fault(entry.at, f"there is no blade `{entry.value}` in blades.yaml", hint))


def shown(path: Path) -> str:
    """Return a path as people are shown it: relative to where they stand when it lies below, with forward slashes."""
    try:
        return Path(os.path.relpath(path)).as_posix() if path.resolve().is_relative_to(Path.cwd()) else path.as_posix()
    except (ValueError, OSError):
        return path.as_posix()


def _node(path: Path, faults: list[Fault]):
    try:
        return source.read_file(path, shown(path))
    except Faults as found:
        faults += found.faults
    except OSError as error:
        faults.append(Fault(At(shown(path)), f"the file cannot be read: {error.strerror}"))
    return None


def _procedures(folder: Path, family: Family, faults: list[Fault]):
    notices, when, standing, sources = {}, {}, (), {}
    node = _node(folder / "notices.yaml", faults)
    if node:
        listed, standing, when, found = schema.load_notices(node)
        notices = {notice.id: notice for notice in listed}
        faults += found
        for text in when.values():
            faults += checks.check_condition(text, family, lambda word, at=node.at: at)
    node = _node(folder / "sources.yaml", faults)
    if node:
        sources, found = schema.load_sources(node)
        faults += found
    procedures = []
    for path in sorted((folder / family.key).glob("*.yaml")):
        node = _node(path, faults)
        if node is None:
            continue
        procedure, found = schema.load_procedure(node, path.stem)
        faults += found
        if procedure:
            faults += checks.check_words(procedure, family, notices)
            procedures.append(procedure)
    return tuple(sorted(procedures, key=lambda p: p.stage)), notices, when, standing, sources
