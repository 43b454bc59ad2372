"""The rules of a shop: each a sentence, or a group that says since when and for which saw or stage it holds."""

from sawside.errors import Fault, Faults
from sawside.nodes import List, Map, Node, Text
from sawside.safety import Rule
from sawside.schema.dates import day
from sawside.schema.groups import Key, group, words
from sawside.schema.texts import each, identifier, name_of, refuse, text, unsplit

_SINCE = "Write year-month-day. Write for example `since: 2026-03-14`"


def rules(name: str, node: List, longest: int, in_machine: bool = False) -> tuple[Rule, ...]:
    """Return the rules of a list; raise Faults for every one that is wrong.

    Takes: longest, characters of one rule at most; in_machine, whether the list stands in a saw's own file, where no rule
    may name a saw.
    """
    keys = _keys(longest, in_machine)
    return each(node, lambda item: _rule(name, item, longest, keys))


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


def _rule(name: str, node: Node, longest: int, keys: tuple[Key, ...]) -> Rule:
    if not isinstance(node, Map):
        return Rule(text(name, node, longest), places={"rule": node.at})
    if not {key.name for key in keys} & node.items.keys():
        unsplit(name, node)
    faults: list[Fault] = []
    values = group(node, keys, "a rule", faults)
    if faults:
        raise Faults(faults)
    return Rule(**values, places={key: value.at for key, (_, value) in node.items.items()})
