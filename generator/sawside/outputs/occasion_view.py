"""The moments of one machine as plain printed data: the change of a blade, and a list for each other occasion."""

from dataclasses import asdict
from typing import cast

from sawside import occasions
from sawside.kinds.view_types import Method
from sawside.kinds.view_words import CardPart, LineData, OccasionData, RuleData, StageData
from sawside.model import Guide, Stage
from sawside.safety import Rule, by_severity


def method(made: Guide) -> Method:
    """Return the stages of a change of blade, and its lines on the card."""
    stages = occasions.stages_for(made.stages, occasions.METHOD)
    return {"stages": [_stage(stage) for stage in stages], "card": cast(list[CardPart], occasions.card(stages))}


def listed(made: Guide, name: str) -> OccasionData:
    """Return one other occasion: its title, when it has come, its stages, and their hazards in a line each, worst first."""
    one, stages = occasions.OCCASIONS[name], [_stage(stage) for stage in occasions.stages_for(made.stages, name)]
    return {"title": one.title, "when": one.when, "stages": stages, "hazards": hazards(stages)}


def hazards(stages: list[StageData]) -> list[LineData]:
    """Return the hazard lines of some stages, each once, worst first."""
    return by_severity(list({line["line"]: line for stage in stages for line in stage["lines"]}.values()))


def _stage(stage: Stage) -> StageData:
    found = asdict(stage) | {"states": list(occasions.states(stage)), "local_rules": [rule(one) for one in stage.local_rules]}
    return cast(StageData, found)


def rule(one: Rule) -> RuleData:
    """Return a rule of the shop as it is printed."""
    return {"rule": one.rule, "since": one.since}
