"""What a print's code is answered: current, or replace it and why; and the date a print bears."""

import datetime
import os
from collections.abc import Sequence

from sawside.kinds import contents, print_mark
from sawside.kinds import sheet_kinds as kinds
from sawside.kinds.view_types import Answer, MachineView
from sawside.ledger import Print, added
from sawside.outputs import changes, said


def today() -> str:
    """Return the day for prints that are made now; SOURCE_DATE_EPOCH, where it is set, stands for the clock."""
    stated = os.environ.get("SOURCE_DATE_EPOCH", "")
    moment = datetime.datetime.fromtimestamp(int(stated), datetime.UTC) if stated.isdecimal() else datetime.datetime.now()
    return moment.date().isoformat()


def date_of(kind: str, view: MachineView) -> str:
    """Return the date that a print has in the list of prints; nothing when it is not in it."""
    mark = contents.fingerprint(kind, view)
    found = [one.date for one in _listed(view) if (one.kind, one.mark) == (kind, mark)]
    return max(found, default="")


def sheet_of(kind: str, view: MachineView) -> kinds.Leaf:
    """Return what tells a sheet of a saw from its others: its kind, and the blade it is about."""
    return kind, contents.about(kind, view)


def is_for(kind: str, view: MachineView, blade: str) -> bool:
    """Return whether a sheet is one of those that are about a blade, and about this one."""
    on_it = view.get("blade")
    return kinds.KINDS[kind].by_blade and on_it is not None and on_it["fits"] and on_it["id"] == blade


def answers(view: MachineView, pairs: Sequence[tuple[MachineView, str]]) -> list[Answer]:
    """Return what is answered to each print of one saw that is known: today's of these pairs of view and kind, and the listed.

    Each answer has an id, the sheet's title, the mark as printed, its date, whether it is current, and what changed since.
    """
    today_is = {sheet_of(kind, one): (one, contents.fingerprint(kind, one)) for one, kind in pairs}
    found = [_answer(kind, mark, kinds.title(kind, blade), date_of(kind, one)) for (kind, blade), (one, mark) in today_is.items()]
    current = {(kind, mark) for (kind, _), (_, mark) in today_is.items()}
    for one in reversed(_listed(view)):
        if (one.kind, one.mark) not in current:
            now, _ = today_is.get((one.kind, one.blade), (None, ""))
            lines = changes.differences(one, said.said(one.kind, now)) if now else [_NOT_MADE]
            found.append(_answer(one.kind, one.mark, kinds.title(one.kind, one.blade), one.date, lines))
    return found


_NOT_MADE = "a sheet of this kind is no longer made: take it down"


def _answer(kind: str, mark: str, title: str, date: str, lines: Sequence[str] = ()) -> Answer:
    return {
        "id": f"print-{kinds.written(kind)}-{mark}",
        "title": title,
        "mark": print_mark.spoken(mark),
        "date": date,
        "current": not lines,
        "lines": list(lines),
    }


def _listed(view: MachineView) -> tuple[Print, ...]:
    listed: tuple[Print, ...] = view.get("listed", {}).get(view["machine"]["id"], ())
    return listed


def usual(view: MachineView, pairs: Sequence[tuple[MachineView, str]]) -> list[tuple[MachineView, str]]:
    """Return the sheets a saw has in the list of prints, else the kinds that other saws have, else all it can have."""
    mine = {(one.kind, one.blade) for one in _listed(view)}
    others = {one.kind for listed in view.get("listed", {}).values() for one in listed}
    return [pair for pair in pairs if (sheet_of(pair[1], pair[0]) in mine if mine else pair[1] in others)] or list(pairs)


def noted(
    view: MachineView, pairs: Sequence[tuple[MachineView, str]], date: str, named: bool
) -> tuple[tuple[Print, ...], int, int]:
    """Return a saw's list with today's prints of some sheets, how many are new in it and how many were there.

    Prints of a sheet that is not among them go, unless the sheets were `named`.
    """
    wanted = {sheet_of(kind, one) for one, kind in pairs}
    before = listed = tuple(one for one in _listed(view) if named or (one.kind, one.blade) in wanted)
    for one, kind in pairs:
        listed = added(listed, said.as_print(kind, one, date))
    new = len(set(map(_key, listed)) - set(map(_key, before)))
    return listed, new, len(pairs) - new


def _key(one: Print) -> tuple[str, str, str, str]:
    return one.kind, one.blade, one.mark, one.date
