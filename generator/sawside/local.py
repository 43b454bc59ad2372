"""What a shop says for itself: its rules for all saws, one saw or one stage, and which saw is out of service."""

from collections.abc import Collection, Iterable
from typing import Any

from sawside.errors import Fault
from sawside.model import Record
from sawside.safety import Rule
from sawside.shop import Shop
from sawside.suggest import meant


def rules_for(shop: Shop, machine: Record, stage: str = "") -> tuple[Rule, ...]:
    """Return the rules that hold for a saw at a stage (empty: always), the shop's before the saw's own."""
    of_shop = [rule for rule in shop.record.get("local_rules") or () if rule.saw in ("", machine.id)]
    return tuple(rule for rule in (*of_shop, *(machine.get("local_rules") or ())) if rule.stage == stage)


def out_of_service(machine: Record) -> dict[str, Any]:
    """Return why, since when and by whom a saw is out of service, or nothing when it is not."""
    reason = machine.get("out_of_service")
    if not reason:
        return {}
    return {"reason": reason, "since": machine.get("out_of_service_since"), "by": machine.get("out_of_service_by") or ""}


def check(shop: Shop | None, machines: Collection[Record], stages: Collection[str]) -> list[Fault]:
    """Return what is wrong with a shop's own words though each of them may be read.

    Without a shop the rules are passed over: a saw with a fault of its own is not among the machines, and would be missed.
    """
    return _check_service(machines) + (_check_rules(shop, machines, stages) if shop else [])


def _check_service(machines: Iterable[Record]) -> list[Fault]:
    """Return a fault for each saw that is out of service without a date, or has a date or a role but no reason."""
    faults = []
    for machine in machines:
        entries = {name: machine.entries[name] for name in machine.entries if name.startswith("out_of_service")}
        reason = entries.get("out_of_service")
        if reason and "out_of_service_since" not in entries:
            faults.append(
                Fault(
                    reason.at,
                    "a saw that is out of service needs the date since when",
                    "write below it for example: out_of_service_since: 2026-03-14",
                )
            )
        if not reason:
            faults += [
                Fault(
                    entry.at,
                    f"`{name}` is given, but no `out_of_service`",
                    "write the reason: `out_of_service: broken guard`, or take this line out",
                )
                for name, entry in entries.items()
            ]
    return faults


def _check_rules(shop: Shop, machines: Collection[Record], stages: Collection[str]) -> list[Fault]:
    """Return a fault for each rule that names a saw or a stage there is none of."""
    ids = [machine.id for machine in machines]
    every = [*(shop.record.get("local_rules") or ()), *(rule for one in machines for rule in one.get("local_rules") or ())]
    return [fault for rule in every for key, known in (("saw", ids), ("stage", stages)) for fault in _named(rule, key, known)]


def _named(rule: Rule, key: str, known: Collection[str]) -> list[Fault]:
    name = getattr(rule, key)
    if not name or name in known:
        return []
    hint = meant(name, known, "write one of: " + ", ".join(known))
    return [Fault(rule.places[key], f"a rule is for the {key} `{name}`, and there is none", hint)]
