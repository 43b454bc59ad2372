"""The moments at which somebody works on a saw, and which steps belong to each."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from sawside.model import Stage, Step


@dataclass(frozen=True)
class Occasion:
    """One moment: its id as procedures write it, its title, and in words when it has come."""

    id: str
    title: str
    when: str


#: The change of a blade is the method; all others are lists of what is looked at, how, and within which limit.
METHOD, COMMISSIONING = "blade_change", "commissioning"

#: In the order of the pages and sheets. Inspection after installation, after assembly at a new place, at suitable intervals
#: and after exceptional circumstances: PUWER 1998, regulation 6.
OCCASIONS = {one.id: one for one in (
    Occasion(METHOD, "Change of blade", "A blade goes on that was not on the saw."),
    Occasion(COMMISSIONING, "Commissioning", "Once: the saw is new, has been moved or overhauled, or nobody knows it."),
    Occasion("start_of_day", "Start of the day", "Before the first cut of a day."),
    Occasion("before_cut", "Before a cut", "Before each new piece or set-up."),
    Occasion("weekly", "Every week", "Once a week while the saw is in use."),
    Occasion("monthly", "Every month", "Once a month while the saw is in use."),
    Occasion("yearly", "Every year", "Once a year, and after a long repair."),
    Occasion("after_moving", "After moving the saw", "The saw has been lifted, rolled or wired anew."),
    Occasion("after_broken_blade", "After a broken blade", "A blade has broken or come apart at its weld."),
    Occasion("after_jam", "After a jam", "Work has stuck in the saw, or the blade has come off a wheel."),
    Occasion("after_standing", "After standing", "The saw has not run for three months or more."),
)}  # fmt: skip

#: The lists for the pages and sheets of checks: every occasion but the two that have a text of their own.
LISTS = tuple(name for name in OCCASIONS if name not in (METHOD, COMMISSIONING))


def stages_for(stages: Iterable[Stage], occasion: str) -> tuple[Stage, ...]:
    """Return the stages of an occasion with its steps only, those that advance the work numbered from 1 in each."""
    kept = (replace(stage, steps=_numbered(step for step in stage.steps if occasion in step.occasions)) for stage in stages)
    return tuple(stage for stage in kept if stage.steps)


def _numbered(steps: Iterable[Step]) -> tuple[Step, ...]:
    numbered, last = [], 0
    for step in steps:
        last += step.advances
        numbered.append(replace(step, number=last if step.advances else 0))
    return tuple(numbered)


def states(stage: Stage) -> tuple[str, ...]:
    """Return the states of the saw through a stage, in order, each as long as it lasts named once."""
    found: list[str] = []
    for step in stage.steps:
        found += [step.state] if not found or step.state != found[-1] else []
    return tuple(found)


def isolations(stages: Iterable[Stage]) -> int:
    """Return how often the saw is isolated in the course of these stages: each time after it was not."""
    walk = [state for stage in stages for state in states(stage)]
    return sum(now == "isolated" != before for before, now in zip(["", *walk], walk, strict=False))


def card(stages: Iterable[Stage]) -> list[dict[str, Any]]:
    """Return the lines of the one-sheet card: parts with a title, each line made of the steps of one unit.

    A line has `number` (through all parts), `state` (of its first step), `text` and `steps` (their anchors).
    """
    parts: list[dict[str, Any]] = []
    number, unit = 0, ""
    for stage in stages:
        for step in (step for step in stage.steps if step.card):
            anchor, here = f"{stage.id}-{step.id}", f"{stage.card}/{step.unit}" if step.unit else ""
            if not parts or parts[-1]["title"] != stage.card:
                parts.append({"title": stage.card, "lines": []})
                unit = ""
            if here and here == unit:
                line = parts[-1]["lines"][-1]
                line["text"] += " " + step.card
                line["steps"].append(anchor)
            else:
                number += 1
                parts[-1]["lines"].append({"number": number, "state": step.state, "text": step.card, "steps": [anchor]})
            unit = here
    return parts
