"""What the kinds of sheet leave out of a machine's view, or put in another order: each takes a view and gives one."""

import re
from collections.abc import Iterable
from typing import Any

from sawside import occasions, units
from sawside.safety import by_severity

#: A view, or a part of one, on its way to a kind of sheet: what `view_types` says, less what has been left out.
Part = dict[str, Any]


def only(column: str, view: Part) -> Part:
    """Keep of each blade's numbers those of one list of columns, and of a blade that does not fit none."""
    wanted = view["columns"][column]

    def row(blade: Part) -> Part:
        return blade | {"items": [item for item in blade["items"] if blade["fits"] and item["name"] in wanted]}

    return view | {"blades": [row(blade) for blade in view["blades"]]}


def starred(view: Part) -> Part:
    """Keep of what limits a blade's number that something does: the sheet prints a star."""

    def row(blade: Part) -> Part:
        return blade | {"items": [item | {"limited": "*" if item.get("limited") else ""} for item in blade["items"]]}

    return view | {"blades": [row(blade) for blade in view["blades"]]}


def first_sentences(count: int, view: Part) -> Part:
    """Keep of the standing sentences the first few."""
    return view | {"always": view["always"][:count]}


def fitting(view: Part) -> Part:
    """Keep the blades that fit; the sheets of the rack name every blade."""
    return view if view.get("rack") else view | {"blades": [row for row in view["blades"] if row["fits"]]}


def hanging(view: Part) -> Part:
    """Keep the blades that fit and the one on the saw, of each either what speaks for it or what against it."""
    rows = [row for row in view["blades"] if row["fits"] or row["fitted"]]
    kept = [row | _either(row) for row in rows]
    return view | {"blades": kept}


def _either(row: Part) -> Part:
    if row["fits"]:
        return {"reasons": []}
    return {"verdict": ""} if row["reasons"] else {}


def unfit(view: Part) -> Part:
    """Keep of the numbers to set none when the blade on the saw does not fit, and why not only then."""
    blade = view["blade"]
    if blade and blade["fits"]:
        return view | {"blade": blade | {"reasons": []}}
    return view | {"wall": view["wall"] | {"numbers": []}} if blade else view


def severe(view: Part) -> Part:
    """Put the hazards in order, worst first."""
    return view | {"notices": by_severity(view["notices"])}


#: How many hazards the wall sheet says in words. Of the others it says how many, and shows the signs of the running saw.
WALL_HAZARDS, WALL_SIGNS = 4, 5


def hazards(view: Part) -> Part:
    """Keep the worst hazards in words and of the others the signs that are shown, all at the first of them."""
    every = by_severity(view["wall"]["hazards"])
    rest = every[WALL_HAZARDS:]
    codes = dict.fromkeys(
        code
        for notice in rest
        if notice["machine_state"] != "isolated"
        for code in notice["signs"]
        if code not in ("M009", "W001", "M002")
    )
    signs = [list(codes)[:WALL_SIGNS], *([] for _ in rest[1:])]
    silent = [{"signs": shown, "machine_state": "any", "avoid": []} for shown in signs[: len(rest)]]
    return view | {"wall": view["wall"] | {"hazards": every[:WALL_HAZARDS] + silent}}


def next_best(count: int, nearest: bool, view: Part) -> Part:
    """Keep of a job's other blades the first few that would do, and what was refused or the reason, whichever is said."""

    def row(job: Part) -> Part:
        others = [cell for cell in job["cells"] if cell["fits"] and cell["blade"] != job["best"]]
        failed = job["cells"][:1] if nearest and not job["best"] and not job["refused"] else []
        return job | {"cells": failed + others[:count]} | ({"reason": ""} if job["refused"] else {})

    return view | {"jobs": [row(job) for job in view["jobs"]]}


def in_short(view: Part) -> Part:
    """Keep of a blade that does not fit its first reason and how many more there are; of one that fits no reason."""

    def row(blade: Part) -> Part:
        if blade["fits"]:
            return blade | {"reasons": []}
        reasons = [*blade["reasons"][:1], *("" for _ in blade["reasons"][1:])]
        return blade | {"reasons": reasons, "back": "", "rack_place": "", "verdict": "", "advice": [], "items": []}

    return view | {"blades": [row(blade) for blade in view["blades"]]}


def taken(view: Part) -> Part:
    """Keep the blades that are the best for some job."""
    best = {job["best"] for job in view["jobs"]}
    return view | {"blades": [row for row in view["blades"] if row["id"] in best]}


def drawn(view: Part, names: Iterable[str]) -> Part:
    """Keep these drawings, each as it is on paper."""
    found = {name: view["drawings"][name] for name in names if name in view["drawings"]}
    return view | {
        "drawings": {
            name: {"paper": one.get("paper") or one["svg"], "title": one["title"], "alt": one["alt"]} for name, one in found.items()
        }
    }


def waited(view: Part) -> Part:
    """Keep of how a number is measured or why there is none only what stands in the place of the number."""

    def step(one: Part) -> Part:
        return one | {"sets": [item if item["status"] in ("unknown", "outside") else item | {"note": ""} for item in one["sets"]]}

    return view | {"stages": [stage | {"steps": [step(one) for one in stage["steps"]]} for stage in view["stages"]]}


def outside(view: Part) -> Part:
    """Keep of the notes of all numbers those that say why a formula does not hold."""

    def group(one: Part) -> Part:
        return one | {"items": [item if item["status"] == "outside" else item | {"note": ""} for item in one["items"]]}

    return view | {"numbers": [group(one) for one in view["numbers"]]}


def seen(view: Part) -> Part:
    """Keep the drawings that a step shows, of a family that names some for paper only those."""
    some = view.get("guide_pictures")
    names = dict.fromkeys(step["figure"] for stage in view["stages"] for step in stage["steps"])
    return drawn(view, [name for name in names if not some or name in some])


def pictured(view: Part) -> Part:
    """Keep the one drawing that the wall sheet shows."""
    return drawn(view, [view["wall"].get("picture", "")])


def one_line(view: Part) -> Part:
    """Keep of each hazard one line and one sign."""
    return view | {
        "notices": [
            {"signal": notice["signal"], "sign": "".join(notice["signs"][:1]), "line": notice["line"]} for notice in view["notices"]
        ]
    }


def carded(view: Part) -> Part:
    """Mark in the lines of the card the numbers that are set, and keep the drawings that it may show."""
    steps = {f"{stage['id']}-{step['id']}": step for stage in view["stages"] for step in stage["steps"]}
    of_blade = (view.get("blade") or {}).get("items", [])

    def line(one: Part) -> Part:
        items = [item for name in one["steps"] for item in steps.get(name, {}).get("sets", ())]
        return one | {"runs": runs(one["text"], [item["text"] for item in (*items, *of_blade)])}

    parts = [part | {"lines": [line(one) for one in part["lines"]]} for part in view["card"]]
    return drawn(view | {"card": parts}, view.get("card_pictures", ()))


def runs(text: str, strong: Iterable[str]) -> list[Part]:
    """Return a text cut into runs, those in which one of the `strong` numbers stands by itself marked so.

    >>> [run["text"] for run in runs("Push 5 mm aside = 19.6 N (18 to 22 N), mark 6.5.", ["19.6 N", "6.5", "5"]) if run["strong"]]
    ['19.6 N', '6.5']
    """
    numbers = sorted({units.together(number) for number in strong if re.search(r"\d", number)}, key=len, reverse=True)
    if not numbers:
        return [{"text": text, "strong": False}]
    # not inside a longer number, and not before a unit: that is what the mark of a together stands for
    found = re.split(r"(?<![\w.,])(" + "|".join(map(re.escape, numbers)) + r")(?![.,]?\w|\u00a0)", units.together(text))
    return [{"text": part.replace("\u00a0", " "), "strong": place % 2 == 1} for place, part in enumerate(found) if part]


def commissioning(view: Part) -> Part:
    """Keep what is looked at when a saw is new, has moved or is not known, and before it the hazards of all its stages."""
    book = view["lists"].get(occasions.COMMISSIONING, {})
    return view | {"commissioning": book.get("stages", []), "hazards": book.get("hazards", [])}


#: How many hazards a check list says: it hangs beside the sheets that say them all, and a short one is to take half a page.
LISTED_HAZARDS = 2


def check_lists(view: Part) -> Part:
    """Keep the check lists that have something in them, in their order, each with its worst hazards."""
    found = [view["lists"][name] for name in occasions.LISTS if view["lists"].get(name, {}).get("stages")]
    return view | {"lists": [one | {"lines": one["hazards"][:LISTED_HAZARDS]} for one in found]}
