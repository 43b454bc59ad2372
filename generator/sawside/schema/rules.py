"""The rules of a shop: each a sentence, or a group that says since when and for which saw or stage it holds."""

from sawside.errors import Fault, Faults
from sawside.safety import Rule
from sawside.nodes import List, Map, Node, Text
from sawside.schema.dates import day
from sawside.schema.groups import Key, group, words
from sawside.schema.texts import identifier, name_of, refuse, text, unsplit

_SINCE = "Write year-month-day. Write for example `since: 2026-03-14`"


def rules(name: str, node: List, longest: int, in_machine: bool = False) -> tuple[Rule, ...]:
    """Return the rules of a list; raise Faults for every one that is wrong.

    Takes: longest, characters of one rule at most; in_machine, whether the list stands in a saw's own file, where no rule
    may name a saw.
    """
    keys = _keys(longest, in_machine)
    found, faults = [], []
    for item in node.items:
        try:
            found.append(_rule(name, item, longest, keys, faults))
        except Faults as bad:
            faults += bad.faults
    if faults:
        raise Faults(faults)
    return tuple(found)


def _keys(longest: int, in_machine: bool) -> tuple[Key, ...]:
    keys = (
        Key("rule", words(longest), "write the sentence: `- rule: Never alone.`"),
        Key("since", _since, "", False),
        Key("saw", identifier, "", False),
        Key("stage", name_of, "", False),
    )
    return tuple(key for key in keys if key.name != "saw" or not in_machine)


def _since(name: str, node: Node) -> str:
    if not isinstance(node, Text):
        raise refuse(node.at, f"`{name}` must be a date", _SINCE)
    return day(name, node, _SINCE)


def _rule(name: str, node: Node, longest: int, keys: tuple[Key, ...], faults: list[Fault]) -> Rule:
    if not isinstance(node, Map):
        return Rule(text(name, node, longest), places={"rule": node.at})
    known = {key.name for key in keys}
    if not known & node.items.keys():
        unsplit(name, node)
    values = group(node, keys, "a rule", faults)
    return Rule(values.get("rule", ""), **{k: v for k, v in values.items() if k != "rule"},
                places={key: value.at for key, (_, value) in node.items.items()})

