"""The blade-selection table of one saw: for each job every blade on the rack with its place or what puts it out."""

from typing import Any

from sawside import guide
from sawside.calc import choice
from sawside.calc.margins import Margin
from sawside.guide import Known
from sawside.library import Library
from sawside.model import Record
from sawside.printing import Printer


def job_rows(library: Library, by_blade: dict[str, Known], printer: Printer) -> list[dict[str, Any]]:
    """Return one printed row for each job. `by_blade` holds what is known of the saw with each blade."""
    judged = {blade: known.judge(printer) for blade, known in by_blade.items()}
    return [_row(library, job, by_blade, judged, printer) for job in library.jobs]


def _row(library: Library, job: Record, by_blade: dict[str, Known], judged: dict[str, Any], printer: Printer) -> dict[str, Any]:
    """Only blades that fit the saw compete; of the others one is asked for the speed, which is the saw's."""
    margins: dict[str, list[Margin]] = {}
    grades: dict[str, list[choice.Grade]] = {}
    widths: dict[str, float] = {}
    with_job: dict[str, Known] = {}
    for blade, known in by_blade.items():
        if judged[blade].fits or not margins:
            with_job[blade] = guide.know_job(library, known, job)
            margins[blade] = library.family.margins(with_job[blade].value, judged[blade], printer)
            grades[blade] = library.family.grades(with_job[blade].value, printer)
            widths[blade] = known.value(library.family.bigger) or 0.0
    fitting = {blade: {"job": found} for blade, found in margins.items() if judged[blade].fits}
    ranking = choice.rank(fitting, {blade: {"job": grades[blade]} for blade in fitting}, widths) if fitting else ()
    cells = [_cell(library, ranked, with_job, printer) for ranked in ranking]
    cells += [_unfit(blade, judged[blade].reasons[0]) for blade in by_blade if not judged[blade].fits]
    row = {
        "id": job.id,
        "name": job.get("name"),
        "work": library.family.job_words(job, printer),
        "cells": cells,
        **_best(cells),
        "refused": _refused(margins),
    }
    nearest = cells[0]["blade"] if cells else ""
    with_nearest = with_job.get(nearest) or (guide.know_job(library, by_blade[nearest], job) if nearest else None)
    return row | _words(library, with_nearest, row, printer)


def _words(library: Library, known: Known | None, row: dict[str, Any], printer: Printer) -> dict[str, Any]:
    """Return what to buy when no blade on the rack serves, and where sources disagree about this job."""
    if known is None:
        return {"buy": "", "differ": []}
    buy = "" if row["best"] or row["refused"] else library.family.what_to_buy(known.value, printer)
    return {"buy": buy, "differ": list(library.family.sources_differ(known.value, printer))}


def few_blades(library: Library, rows: list[dict[str, Any]]) -> str:
    """Return in words how few blades of the rack do all jobs of one saw."""
    able = {row["name"]: [cell["blade"] for cell in row["cells"] if cell["fits"]] for row in rows if not row["refused"]}
    return library.family.few_blades(able) if able else ""


def _cell(library: Library, ranked: choice.Ranked, with_job: dict[str, Known], printer: Printer) -> dict[str, Any]:
    return {
        "blade": ranked.blade,
        "blade_name": ranked.blade,
        "fits": ranked.fits,
        "rank": ranked.place if ranked.fits else None,
        "reason": _why(library, ranked, with_job, printer),
        "beaten_by": list(ranked.beaten_by),
        "on_this_saw": True,
    }


def _why(library: Library, ranked: choice.Ranked, with_job: dict[str, Known], printer: Printer) -> str:
    """Say why a blade does a job or what puts it out; what holds it behind others; and what would separate equals."""
    if not ranked.fits:
        return ranked.binding.words
    value = with_job[ranked.blade].value
    words = [library.family.reason(value, printer)]
    if ranked.place > 1 and ranked.worst and ranked.worst.words and ranked.worst.words not in words[0]:
        words.append(ranked.worst.words)
    if ranked.equal_to:
        other = ranked.equal_to[0]
        words.append(f"as good as {', '.join(ranked.equal_to)}: {library.family.separates(value, with_job[other].value, printer)}")
    return "; ".join(words)


def _unfit(blade: str, reason: str) -> dict[str, Any]:
    return {
        "blade": blade,
        "blade_name": blade,
        "fits": False,
        "rank": None,
        "reason": reason,
        "beaten_by": [],
        "on_this_saw": False,
    }


def _best(cells: list[dict[str, Any]]) -> dict[str, Any]:
    """Return the blade to take and its narrowest margin, or why not even the nearest blade serves."""
    if not cells:
        return {"best": "", "best_name": "", "reason": "there is no blade on the rack"}
    first = cells[0]
    name = first["blade"] if first["fits"] else ""
    return {"best": name, "best_name": name, "reason": first["reason"]}


def _refused(margins: dict[str, Any]) -> str:
    """Return why the saw refuses the job whatever the blade: its speed for the material; empty when it does not."""
    speeds = [margin for found in margins.values() for margin in found if margin.name == "speed"]
    return speeds[0].words if speeds and not any(margin.met for margin in speeds) else ""
