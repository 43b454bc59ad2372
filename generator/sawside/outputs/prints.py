"""What a print's code is answered: current, or replace it and why; and the date a print bears."""

import datetime
import os
from collections.abc import Mapping, Sequence

from sawside.ledger import Print, added
from sawside.outputs import changes, contents, print_mark, said


def today() -> str:
    """Return the day for prints that are made now; SOURCE_DATE_EPOCH, where it is set, stands for the clock."""
    stated = os.environ.get("SOURCE_DATE_EPOCH", "")
    moment = datetime.datetime.fromtimestamp(int(stated), datetime.UTC) if stated.isdecimal() else datetime.datetime.now()
    return moment.date().isoformat()


def date_of(kind: str, view: dict) -> str:
    """Return the date that a print has in the list of prints; nothing when it is not in it."""
    mark = contents.fingerprint(kind, view)
    found = [one.date for one in _listed(view) if (one.kind, one.mark) == (kind, mark)]
    return max(found, default="")


def answers(view: dict, titles: Mapping[str, str]) -> list[dict]:
    """Return what is answered to each print of one saw that is known: today's of these kinds, and those in the list.

    Each answer has an id, the sheet's title, the mark as printed, its date, whether it is current, and what changed since.
    """
    current = {kind: contents.fingerprint(kind, view) for kind in titles}
    today_says = {kind: said.said(kind, view) for kind in titles}
    found = [_answer(kind, mark, titles[kind], date_of(kind, view)) for kind, mark in current.items()]
    for one in reversed(_listed(view)):
        if current.get(one.kind) != one.mark:
            lines = changes.differences(one, today_says[one.kind]) if one.kind in today_says else [_NOT_MADE]
            found.append(_answer(one.kind, one.mark, changes.title(one.kind), one.date, lines))
    return found


_NOT_MADE = "a sheet of this kind is no longer made: take it down"


def _answer(kind: str, mark: str, title: str, date: str, lines=()) -> dict:
    return {"id": f"print-{kind.replace('_', '-')}-{mark}", "title": title, "mark": print_mark.spoken(mark), "date": date,
            "current": not lines, "lines": list(lines)}


def _listed(view: dict) -> tuple[Print, ...]:
    return view.get("listed", {}).get(view["machine"]["id"], ())


def usual(view: dict, offered: Sequence[str]) -> tuple[str, ...]:
    """Return the kinds of sheet a saw has in the list of prints, else those that other saws have, else all it can have."""
    mine = {one.kind for one in _listed(view)}
    others = {one.kind for listed in view.get("listed", {}).values() for one in listed}
    return tuple(kind for kind in offered if kind in (mine or others)) or tuple(offered)


def noted(view: dict, kinds: Sequence[str], date: str, named: bool) -> tuple[tuple[Print, ...], int, int]:
    """Return a saw's list with today's prints of some kinds, how many are new in it and how many were there.

    Prints of a kind that is not among them go, unless the kinds were `named`.
    """
    before = listed = tuple(one for one in _listed(view) if named or one.kind in kinds)
    for kind in kinds:
        listed = added(listed, said.as_print(kind, view, date))
    new = len(set(map(_key, listed)) - set(map(_key, before)))
    return listed, new, len(kinds) - new


def _key(one: Print) -> tuple[str, str, str]:
    return one.kind, one.mark, one.date
