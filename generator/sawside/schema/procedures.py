"""The procedure format: what gets done at which stage, as steps with key points and reasons."""

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from sawside.errors import At, Fault, Faults
from sawside.model import Procedure, StepText
from sawside.nodes import List, Map, Node, Text, find, quote
from sawside.occasions import METHOD, OCCASIONS
from sawside.schema.groups import STEP_STATES, Key, group, list_of, one_of, words, yes_no
from sawside.schema.records import groups
from sawside.schema.texts import name_of, one_or_more, refuse, text
from sawside.suggest import meant

_NAME = re.compile(r"[a-z][a-z0-9_]{0,59}")


def _stage(name: str, node: Node) -> int:
    value = text(name, node, 200)
    if not re.fullmatch(r"[0-9]{1,2}", value):
        raise refuse(node.at, f"`{name}` must be a whole number from 0 to 99, but is {quote(value)}", "write for example: stage: 3")
    return int(value)


def _id(name: str, node: Node) -> str:
    value = text(name, node, 60)
    if not _NAME.fullmatch(value):
        raise refuse(node.at, f"a step cannot have the id {quote(value)}", "use small letters, digits and _, a letter first")
    return value


def _occasions(name: str, node: Node) -> tuple[str, ...]:
    chosen = one_or_more(name, node, longest=60)
    faults = []
    for number, value in enumerate(chosen):
        if value not in OCCASIONS:
            at = node.items[number].at if isinstance(node, List) else node.at
            hint = meant(value, OCCASIONS, "occasions: " + ", ".join(OCCASIONS))
            faults.append(Fault(at, f"there is no occasion {quote(value)}", hint))
    if faults:
        raise Faults(faults)
    return chosen


def _slots(name: str, node: Node) -> dict[str, str]:
    if not isinstance(node, Map):
        raise refuse(node.at, f"`{name}` must be a group of keys", "write below it for example: `push: setting_push`")
    faults: list[Fault] = []
    found: dict[str, str] = {}
    for local, (at, value) in node.items.items():
        try:
            if not _NAME.fullmatch(local):
                raise refuse(at, f"a slot cannot be called {quote(local)}", "use small letters, digits and _, a letter first")
            found[local] = text(local, value, 60)
        except Faults as bad:
            faults += bad.faults
    if faults:
        raise Faults(faults)
    return found


def _steps(name: str, node: Node) -> tuple[StepText, ...]:
    hint = "begin each step with a hyphen: `  - step: Lift the guide post`, its other keys below `step`"
    if not isinstance(node, List):
        raise refuse(node.at, f"`{name}` must be a list", hint)
    faults: list[Fault] = []
    items = groups(node, name, hint, faults)
    steps = [_step(item, faults) for item in items]
    seen: set[str] = set()
    for item, step in zip(items, steps, strict=True):
        if step.id and step.id in seen:
            faults.append(Fault(item.items["id"][1].at, f"two steps have the id `{step.id}`", "give one of them another id"))
        seen.add(step.id)
    if faults:
        raise Faults(faults)
    return tuple(steps)


_STEP = (
    Key("step", words(200, True), "say what to do, verb first: `step: Lift the guide post`"),
    Key("key_points", list_of(600, True), "say how, one line each; what keeps people safe is always one"),
    Key("id", _id, "give it a short name that never changes: links and records point to it: `id: lift_post`"),
    Key("reason", words(500, True), "", False),
    Key("state", partial(one_of, STEP_STATES), "", False),
    Key("occasions", _occasions, "", False),
    Key("unit", words(60), "", False),
    Key("advances", yes_no, "", False),
    Key("card", words(200, True), "", False),
    Key("put_right", words(500, True), "", False),
    Key("when", words(300, True), "", False),
    Key("sets", partial(one_or_more, longest=60), "", False),
    Key("check", words(400, True), "", False),
    Key("notice", partial(one_or_more, longest=60), "", False),
    Key("figure", words(60), "", False),
    Key("record", words(120, True), "", False),
    Key("summary", words(200, True), "", False),
)
_PROCEDURE = (
    Key("procedure", name_of, "write the id of the procedure, the same as the file's name"),
    Key("title", words(80), "say what gets done: `title: Set the side guides`"),
    Key("stage", _stage, "write its place in the order of the procedures: `stage: 3`"),
    Key("purpose", words(400, True), "say in one sentence what is right afterwards"),
    Key("machine_state", partial(one_of, STEP_STATES), "write one of: " + ", ".join(STEP_STATES)),
    Key("occasions", _occasions, "", False),
    Key("card", words(40), "", False),
    Key("slots", _slots, "", False),
    Key("notices", partial(one_or_more, longest=60), "", False),
    Key("steps", _steps, "write `steps:`, then each step with a hyphen: `  - step: Lift the guide post`"),
    Key("when", words(300, True), "", False),
)


def _step(node: Map, faults: list[Fault]) -> StepText:
    before = len(faults)
    values = group(node, _STEP, "a step", faults)
    if len(faults) > before:
        return StepText("", ())
    if not {"reason", "put_right"} & values.keys():
        hint = "say why the step is done this way; a check may say `put_right` instead"
        faults.append(Fault(node.at, "a step needs `reason`", hint))
    values["notices"] = values.pop("notice", ())
    return StepText(**values, places=_places(node))


def _places(node: Map) -> dict[str, At]:
    """Return where each text of a step or procedure stands: `step`, `key_points.0`, `+1.reason` for the second line of one."""
    places: dict[str, At] = {}
    for name, (_, value) in node.items.items():
        items = value.items if isinstance(value, List) else (value,)
        for number, item in enumerate(items):
            key = f"{name}.{number}" if isinstance(value, List) else name
            places[key] = item.at
            lines = item.places if isinstance(item, Text) else ()
            places |= {f"+{line}.{key}": at for line, at in enumerate(lines) if at != item.at}
    return places


def place_of(places: Mapping[str, At], name: str, word: str) -> At:
    """Return the place of a word in one text of a step, on whichever line it stands, or the place of the whole text.

    >>> at = At("a.yaml", 7, 9, 1, "      - >-")
    >>> further = At("a.yaml", 8, 9, 21, "        Push with {{ push }}.")
    >>> place_of({"key_points.0": at, "+0.key_points.0": further}, "key_points.0", "{{ push }}").line
    8
    """
    rest = [at for key, at in places.items() if key.startswith("+") and key.partition(".")[2] == name]
    return find((places[name], *rest), word) or places[name]


def load_procedure(node: Map, stem: str) -> tuple[Procedure | None, list[Fault]]:
    """Return the procedure a file holds, or None, and all faults. `stem` is the file's name without `.yaml`."""
    faults: list[Fault] = []
    values = group(node, _PROCEDURE, "a procedure", faults)
    if values.get("procedure", stem) != stem:
        at = node.items["procedure"][1].at
        faults.append(
            Fault(
                at,
                f"the procedure is called `{values['procedure']}` but its file {quote(stem + '.yaml')}",
                "give both the same name",
            )
        )
    if faults:
        return None, faults
    slots = node.items.get("slots")
    when = node.items.get("when")
    places = {local: value.at for local, (_, value) in slots[1].items.items()} if slots and isinstance(slots[1], Map) else {}
    values["id"] = values.pop("procedure")
    values["steps"] = tuple(
        replace(step, state=step.state or values["machine_state"], occasions=step.occasions or values.get("occasions", (METHOD,)))
        for step in values["steps"]
    )
    return Procedure(**values, slot_places=places, when_at=when[1].at if when else node.at, at=node.at, places=_places(node)), []
