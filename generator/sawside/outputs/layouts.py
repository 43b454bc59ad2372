"""Pages of the site from the printed views: Jinja with everything escaped, so shop text is never markup."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, TypedDict

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from sawside import guide, units
from sawside.families.family import Family
from sawside.fields import Field
from sawside.files import data_folder
from sawside.kinds import page_kinds
from sawside.kinds.view_types import MachineView, SheetList, ShopData
from sawside.kinds.view_words import CardPart, StageData, StepData
from sawside.library import Library
from sawside.model import Page, Source
from sawside.outputs import layout_check, stage_pages, working
from sawside.shop import SAW, SHOP


class Stop(TypedDict):
    """One stop of the walk round a saw: what to do there, and the fields to fill in."""

    id: str
    title: str
    words: str
    fields: Sequence[Field]


_SHARED: dict[str, Any] = {"root": str, "shop": ShopData, "always": list[str]}
_OF_MACHINE = _SHARED | {"view": MachineView, "sheets": list[SheetList], "set_values": tuple[str, ...]}
_OF_STAGE = {"stage": StageData, "number": int, "before": StageData | None, "after": StageData | None, "region": stage_pages.Region}

#: Layout -> the names it is given, with their types. `layout_check` holds it against them.
GIVEN: dict[str, dict[str, Any]] = {
    "home": _SHARED | {"views": list[MachineView], "sheets": list[SheetList]},
    **dict.fromkeys(page_kinds.PAGES, _OF_MACHINE),
    "machine": _OF_MACHINE | {"regions": stage_pages.Regions},
    "stage": _SHARED | _OF_STAGE | {"view": MachineView},
    "sheets": _SHARED | {"sheets": list[SheetList]},
    "out_of_service": {"view": MachineView},
    "fields": _SHARED | {"groups": dict[str, tuple[Field, ...]], "usual": dict[str, str]},
    "values": _SHARED
    | {"family": Family, "sources": dict[str, Source], "words": dict[str, dict[str, str]], "formulas": dict[str, str]},
    "measure": _SHARED | {"stops": list[Stop]},
    "filled": {"root": str},
}
#: Macros that are called from here, with the types of their arguments.
CALLED: dict[str, tuple[Any, ...]] = {
    "on_it": (MachineView,),
    "card_part": (CardPart, str, str),
    "step": (str, StepData, MachineView, str),
}


def environment() -> Environment:
    """Return the template environment of the layouts folder: autoescape on, an unknown name is an error."""
    env = Environment(
        loader=FileSystemLoader(data_folder("site_templates") / "layouts"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_on_one_line,
    )
    env.globals["pages_of"] = page_kinds.offered
    env.filters["sentence"] = lambda words: words[:1].upper() + words[1:]
    env.filters["strong_numbers"] = _strong_numbers
    env.filters["words"] = lambda words: Markup(re.sub("`([^`]*)`", r"<code>\1</code>", str(escape(words))))
    return env


def _on_one_line(value: object) -> object:
    """Return what a layout prints with its numbers and units kept together; what is markup already has been here before."""
    return units.together(value) if isinstance(value, str) and not isinstance(value, Markup) else value


#: A number of a card's line with what belongs to it: a second end, a range, a unit.
_NUMBER = re.compile(r"\d[\d.,/]*(?: to \d[\d.,/]*)?(?:\s(?:mm|m|in|kg|N|lbf|MPa|psi|Hz|TPI|s)\b)?")


def _strong_numbers(words: str) -> Markup:
    """Return a line of the card with its numbers in strong type.

    >>> _strong_numbers("Push 5 mm = 20 N (18 to 22 N).")
    Markup('Push <b>5\xa0mm</b> = <b>20\xa0N</b> (<b>18 to 22\xa0N</b>).')
    """
    return Markup(_NUMBER.sub(r"<b>\g<0></b>", str(escape(units.together(words)))))


def pages(library: Library, views: list[MachineView], sheets: list[SheetList]) -> list[Page]:
    """Return every generated page: home, the pages of each machine, and the reference."""
    env = environment()
    layout_check.check(env, GIVEN, CALLED)
    shared: dict[str, Any] = {"shop": views[0]["shop"] if views else {}, "always": list(library.standing)}
    made = [Page("index.html", library.shop.name, render(env, "home", root="", views=views, sheets=sheets, **shared))]
    for view in views:
        for kind, page in page_kinds.offered(view).items():
            name = view["machine"]["id"] + page.ending
            more = {"regions": stage_pages.regions(env, view, "../")} if kind == "machine" else {}
            html = render(
                env, kind, root="../", view=view, sheets=sheets, set_values=library.family.shows.set_values, **more, **shared
            )
            made.append(Page(f"machines/{name}.html", view["machine"]["name"] + page.title, html, view["machine"]["file"]))
        made += stage_pages.pages(env, view, shared)
    made.append(Page("sheets/index.html", "Sheets to print", render(env, "sheets", root="../", sheets=sheets, **shared)))
    banners = {view["machine"]["file"]: render(env, "out_of_service", view=view) for view in views if view["out_of_service"]}
    made = [replace(page, html=banners.get(page.edit, "") + page.html) for page in made]
    return made + reference(library, env, shared)


def reference(library: Library, env: Environment, shared: dict[str, Any]) -> list[Page]:
    """Return the form to measure a saw with, and the reference of all fields, of all values and of the sources."""
    family = library.family
    groups = {
        "Machine": family.machine + SAW,
        "Blade": family.blade,
        "Job": family.job,
        "Shop": SHOP,
        "Assumptions, set in a machine, a blade or the shop": family.assumptions,
    }
    printer = guide.printer(library)
    usual = {field.name: printer.doubt(field.doubt, field.kind) for group in groups.values() for field in group}
    fields = render(env, "fields", root="../", groups=groups, usual=usual, **shared)
    values = render(
        env,
        "values",
        root="../",
        family=family,
        sources=library.sources,
        words=working.all_words(family),
        formulas=working.all_formulas(family),
        **shared,
    )
    measure = render(env, "measure", root="../", stops=stops(family), **shared)
    return [
        Page("reference/measure.html", "Measure your saw", measure),
        Page("reference/fields.html", "What you can measure and state", fields),
        Page("reference/values.html", "What is computed, and from what", values),
    ]


def stops(family: Family) -> list[Stop]:
    """Return the stops of the walk with the fields to fill in at each: every field of machine and blade exactly once."""
    known = {group for _, _, groups in family.shows.stops for group in groups}
    found = [
        _stop(title, words, [field for group in groups for field in family.machine if field.group == group])
        for title, words, groups in family.shows.stops
    ]
    rest = [field for field in family.machine if field.group not in known]
    found.append(_stop("And", "What this kind of saw has besides.", rest))
    words = "Once for each blade on the rack; the one on the saw only while the saw is isolated."
    found.append(_stop("The blades", words, family.blade))
    return [stop for stop in found if stop["fields"]]


def _stop(title: str, words: str, fields: Sequence[Field]) -> Stop:
    return {"id": title.lower().replace(",", "").replace(" ", "-"), "title": title, "words": words, "fields": fields}


def render(env: Environment, name: str, **data: Any) -> str:
    """Return one layout filled in."""
    return env.get_template(f"{name}.html.j2").render(**data)
