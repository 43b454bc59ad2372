"""What a careful reader of a shop's files would mention, though nothing is wrong: for `sawside check`."""

from collections.abc import Iterator
from datetime import date
from typing import Any

from sawside import guide, selection, values
from sawside.guide import Known
from sawside.library import Library
from sawside.model import Missing, Record
from sawside.printing import Printer

#: How far the maker's blade length may lie from the way round the wheels before it is worth a word [m]: our choice.
LENGTH_GAP = 0.010


def advice(library: Library, today: str = "") -> list[str]:
    """Return advice in words, machine by machine, then about the rack; `today` is a date as written, else the system's."""
    lines, chosen, printer = [], set(), guide.printer(library)
    today = today or date.today().isoformat()
    undone = {job.id for job in library.jobs}
    for machine in library.machines:
        known = {blade.id: guide.know(library, machine, blade) for blade in library.blades}
        if machine.get("revised") > today:
            lines.append(f"{machine.id}: the date of this revision, {machine.get('revised')}, is still to come: check `revised`")
        lines += _machine(library, machine, known)
        rows = selection.job_rows(library, known, printer)
        chosen |= {row["best"] for row in rows}
        undone -= {row["id"] for row in rows if row["best"]}
    if undone:
        lines.append(f"jobs: no blade on any saw does {_list([job.id for job in library.jobs if job.id in undone])}")
    never = [blade.id for blade in library.blades if blade.id not in chosen]
    if library.jobs and never:
        lines.append(f"blades: no job on any saw chooses {_list(never)}")
    return lines + _on_two_saws(library)


def _on_two_saws(library: Library) -> list[str]:
    """Say which blade is on more than one saw: it can be on one only, unless the rack has several of it."""
    saws: dict[str, list[str]] = {}
    for machine in library.machines:
        if fitted := machine.get("fitted_blade"):
            saws.setdefault(fitted, []).append(machine.id)
    return [
        f"blades: {blade} is fitted on {_list(on)}: give each coil an id of its own, or correct `fitted_blade`"
        for blade, on in saws.items()
        if len(on) > 1
    ]


def _machine(library: Library, machine: Record, known: dict[str, Any]) -> list[str]:
    printer = guide.printer(library)
    fitted = library.blade(machine.get("fitted_blade"))
    now = guide.know(library, machine, fitted)
    lines = [f"{machine.id}: {words}" for words in (*_length(now, printer), *_fitted(library, fitted, now, printer))]
    if not any(found.judge(printer).fits for found in known.values()):
        lines.append(f"{machine.id}: no blade on the rack fits this saw")
    quiet = guide.unasked(library, now)
    waiting = {name: len(waits) for name, waits in values.waiting(now.results).items() if name not in quiet}
    if waiting:
        named = [f"{printer.label(name)} ({count} number{' waits' if count == 1 else 's wait'})" for name, count in waiting.items()]
        lines.append(f"{machine.id}: worth measuring first: {_list(named[:3])}")
    if guessed := list(now.guessed().values()):
        more = [f"{len(guessed) - 6} more"] * (len(guessed) > 6)
        lines.append(f"{machine.id}: guessed, not measured: {_list(guessed[:6] + more)}; trust no number that rests on them")
    lines += [f"{machine.id}: {words}" for words in _half_given(library, now, printer)]
    outside = [r.spec.title for r in now.results.values() if isinstance(r, Missing) and r.outside]
    if outside:
        lines.append(f"{machine.id}: outside the method: {_list(outside)}")
    return lines


def _length(known: Known, printer: Printer) -> Iterator[str]:
    gap = known.value("rated_length_gap")
    if gap is not None and abs(gap) > LENGTH_GAP:
        words = "longer" if gap > 0 else "shorter"
        yield (
            f"the maker's blade length is {printer.text(abs(gap), 'blade_length')} {words} than the way round the wheels:"
            " measure wheels and centre distance again"
        )


def _half_given(library: Library, known: Known, printer: Printer) -> Iterator[str]:
    """Say what a value still needs when some of the optional measures it takes are given and others left out."""
    given = library.family.optional & known.entries.keys()
    quiet = guide.unasked(library, known)
    for result in known.results.values():
        if isinstance(result, Missing) and result.waits_for and set(result.waits_for) <= quiet:
            if any(name in given for name, _ in values.needs(result.spec).values()):
                yield f"{result.spec.title} needs also {_list([printer.label(name) for name in result.waits_for])}"


def _fitted(library: Library, fitted: Record | None, known: Known, printer: Printer) -> Iterator[str]:
    if fitted is None:
        return
    judgement = known.judge(printer)
    for words in judgement.reasons + judgement.advice:
        yield f"the fitted blade {fitted.id}: {words}"


def _list(words: list[str]) -> str:
    return ", ".join(words[:-1]) + " and " + words[-1] if len(words) > 1 else words[0]
