"""The pages for the work itself: the card on a saw's page and a page for each stage, with their parts for every blade."""

from collections.abc import Callable
from typing import Any, TypedDict

from jinja2 import Environment
from markupsafe import Markup

from sawside.kinds.view_types import MachineView
from sawside.model import Page
from sawside.outputs.filling import Filling, Part, fillings


class Region(TypedDict):
    """A region of a page that changes with the blade: its parts as shown, and what differs in them for each blade."""

    shown: list[tuple[str, Markup]]
    fillings: tuple[Filling, ...]


class Regions(TypedDict):
    """The regions of a saw's own page."""

    on_it: Region
    card: Region


def regions(env: Environment, view: MachineView, root: str) -> Regions:
    """Return the regions of the saw's own page that change with the blade: each with its parts and its fillings."""
    module, saw = _parts(env, root), view["machine"]["id"]

    def card(one: MachineView) -> list[Part]:
        named = [(f"part-{number}", part) for number, part in enumerate(one["card"])]
        return [(name, str(module.card_part(part, saw, name))) for name, part in named]

    return {"on_it": _region(view, lambda one: [("blade", str(module.on_it(one)))]), "card": _region(view, card)}


def pages(env: Environment, view: MachineView, shared: dict[str, Any]) -> list[Page]:
    """Return one page for each stage of the change of blade."""
    saw, stages = view["machine"], view["stages"]
    made = []
    for number, stage in enumerate(stages):
        region = stage_region(env, view, stage["id"], "../../")
        html = env.get_template("stage.html.j2").render(
            root="../../",
            view=view,
            stage=stage,
            number=number + 1,
            region=region,
            before=stages[number - 1] if number else None,
            after=stages[number + 1] if number + 1 < len(stages) else None,
            **shared,
        )
        made.append(Page(f"machines/{saw['id']}/{stage['id']}.html", f"{saw['name']}: {stage['title']}", html, saw["file"]))
    return made


def stage_region(env: Environment, view: MachineView, stage_id: str, root: str) -> Region:
    """Return the steps of a stage as they are shown, and what differs in them for each blade that fits."""
    module = _parts(env, root)
    return _region(view, lambda one: _steps(module, one, stage_id))


def _region(view: MachineView, parts_of: Callable[[MachineView], list[Part]]) -> Region:
    shown = parts_of(view)
    return {
        "shown": [(name, Markup(html)) for name, html in shown],
        "fillings": fillings(shown, {blade: parts_of({**view, **one}) for blade, one in view["for_blade"].items()}),
    }


def _parts(env: Environment, root: str) -> Any:
    """Return the macros that write the parts, for a page from which `root` leads to the site's first page."""
    return env.get_template("filled.html.j2").make_module({"root": root})


def _steps(module: Any, one: MachineView, stage_id: str) -> list[Part]:
    """Return each step of a stage as a part, with the state of the saw where it changes."""
    stage = next((stage for stage in one["stages"] if stage["id"] == stage_id), None)
    if stage is None:
        return []
    made, state = [], stage["steps"][0]["state"]
    for step in stage["steps"]:
        turned = "" if step["state"] == state else step["state"]
        made.append((f"{stage_id}-{step['id']}", str(module.step(stage_id, step, one, turned))))
        state = step["state"]
    return made
