"""Safety notices and sources: the words that go with every machine."""

import re
from collections.abc import Mapping
from functools import partial
from typing import Any

from sawside.errors import At, Fault, Faults
from sawside.model import Source
from sawside.nodes import List, Map, quote
from sawside.safety import Notice
from sawside.schema.groups import MACHINE_STATES, Key, group, list_of, one_of, words, yes_no
from sawside.schema.records import listed
from sawside.schema.texts import name_of, one_or_more, texts

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
#: ISO 7010: wear protective gloves; do not wear gloves.
GLOVES, NO_GLOVES = "M009", "P028"

#: What a line at the head of a stage may hold: two lines on a phone.
LONGEST_LINE = 120

_SIGN = re.compile(r"[WMPEF][0-9]{3}")
_NOTICE = (
    Key("id", name_of, "give each notice an id: `- id: blade-ejection`"),
    Key("signal", partial(one_of, SIGNALS), "write one of: " + ", ".join(SIGNALS)),
    Key("hazard", words(160), "name what can hurt: `hazard: A tensioned blade springs open`"),
    Key("consequence", words(200), "say what happens to a person"),
    Key("avoid", list_of(300), "say how to avoid it, one line each"),
    Key("signs", partial(one_or_more, longest=10), "", False),
    Key("machine_state", partial(one_of, MACHINE_STATES), "", False),
    Key("when", words(300, True), "", False),
    Key("line", words(LONGEST_LINE), "", False),
    Key("group", yes_no, "", False),
)
_SOURCE = (
    Key("key", words(60), "give each source a short key"),
    Key("text", words(600), "name the source: author, title, year"),
    Key("mark", words(40), "say how far it was seen"),
    Key("where", words(300), "", False),
)


def load_notices(node: Map) -> tuple[tuple[Notice, ...], tuple[str, ...], dict[str, str], list[Fault]]:
    """Return the notices of a file, its standing sentences, the conditions by notice id, and all faults."""
    items, faults = listed(node, "notices", "notice", ("standing",))
    standing: tuple[str, ...] = ()
    if "standing" in node.items:
        try:
            standing = texts("standing", node.items["standing"][1], 300)
        except Faults as found:
            faults += found.faults
    notices: dict[str, Notice] = {}
    conditions: dict[str, str] = {}
    first: dict[str, At] = {}
    for item in items:
        before = len(faults)
        values = group(item, _NOTICE, "a notice", faults)
        faults += _check_signs(item, values)
        _check_twice(item, "id", values.get("id"), first, faults)
        if len(faults) == before:
            condition = values.pop("when", "")
            if condition:
                conditions[values["id"]] = condition
            values.setdefault("line", f"{values['hazard']} {values['avoid'][0]}")
            notices[values["id"]] = Notice(**values)
    return tuple(notices.values()), standing, conditions, faults


def _check_signs(item: Map, values: Mapping[str, Any]) -> list[Fault]:
    """Refuse what is no sign code, and gloves where they can be drawn in: at a saw that runs or may run."""
    signs = values.get("signs", ())
    if not signs:
        return []
    node = item.items["signs"][1]
    nodes = node.items if isinstance(node, List) else (node,)
    faults = [
        Fault(n.at, f"{quote(sign)} is no ISO 7010 code", "write a letter W, M, P, E or F and three digits: W001")
        for sign, n in zip(signs, nodes, strict=True)
        if not _SIGN.fullmatch(sign)
    ]
    if GLOVES in signs:
        at = nodes[signs.index(GLOVES)].at
        if NO_GLOVES in signs:
            faults.append(
                Fault(
                    at,
                    f"{GLOVES} (wear gloves) and {NO_GLOVES} (no gloves) stand in one notice",
                    "make two notices: one for handling the blade, one for the running saw",
                )
            )
        elif values.get("machine_state", "any") != "isolated":
            faults.append(
                Fault(
                    at,
                    f"{GLOVES} (wear gloves) is only for an isolated machine",
                    "write `machine_state: isolated`, or take the sign out",
                )
            )
    return faults


def _check_twice(item: Map, key: str, value: str | None, first: dict[str, At], faults: list[Fault]) -> None:
    if value is None:
        return
    at = item.items[key][1].at
    if value in first:
        faults.append(Fault(at, f"the {key} {quote(str(value))} comes twice", f"the first one is in line {first[value].line}"))
    first.setdefault(value, at)


def load_sources(node: Map) -> tuple[dict[str, Source], list[Fault]]:
    """Return the sources of a file by key, and all faults."""
    items, faults = listed(node, "sources", "source")
    sources: dict[str, Source] = {}
    first: dict[str, At] = {}
    for item in items:
        before = len(faults)
        values = group(item, _SOURCE, "a source", faults)
        _check_twice(item, "key", values.get("key"), first, faults)
        if len(faults) == before:
            sources[values["key"]] = Source(**values)
    return sources, faults
