"""What is different between two prints, in words: of two states of a shop, or of a print in the list and today's.

A print that is in hand as a whole is told word by word. Of one in the list only numbers and rules are known in words, of its
other texts only the marks: a new text is told, one that went is counted.
"""

import difflib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from sawside.kinds import contents
from sawside.kinds.print_mark import mark_of
from sawside.kinds.sheet_kinds import KINDS, Leaf, title
from sawside.kinds.view_types import MachineView
from sawside.ledger import FOLDER, Print, latest
from sawside.outputs.said import SHORT, Said, said


def differences(before: Said | Print, now: Said) -> list[str]:
    """Return in words what a print says now and did not say before, and the other way round; numbers first, then rules."""
    lines = list(_of_values(before.values, now.values))
    lines += [f"new rule: {rule}" for rule in now.rules if rule not in before.rules]
    lines += [f"rule taken out: {rule}" for rule in before.rules if rule not in now.rules]
    lines += _of_texts(before.texts, now.texts) if isinstance(before, Said) else _of_marks(before.texts, now.texts)
    return lines or ["the same words in another order or another place"]


def _of_values(before: Mapping[str, str], now: Mapping[str, str]) -> Iterator[str]:
    for label, text in now.items():
        if label not in before:
            yield f"{label}: {text} (new)"
        elif before[label] != text:
            yield f"{label}: {before[label]} -> {text}"
    yield from (f"{label}: no longer there, was {text}" for label, text in before.items() if label not in now)


def _of_texts(before: Sequence[str], now: Sequence[str]) -> Iterator[str]:
    gone = list((Counter(before) - Counter(now)).elements())
    for text in (Counter(now) - Counter(before)).elements():
        near = difflib.get_close_matches(text, gone, 1)
        if near:
            gone.remove(near[0])
            yield f"text: {near[0]} -> {text}"
        else:
            yield f"new text: {text}"
    yield from (f"text taken out: {text}" for text in gone)


def _of_marks(before: Iterable[str], now: Sequence[str]) -> Iterator[str]:
    kept = Counter(before)
    for text in now:
        mark = mark_of(text, SHORT)
        if not kept[mark]:
            yield f"new text: {text}"
        kept[mark] -= kept[mark] > 0
    gone = sum(kept.values())
    if gone:
        yield "1 text is no longer there" if gone == 1 else f"{gone} texts are no longer there"


@dataclass(frozen=True)
class Change:
    """One sheet to renew: of which saw, its title, why in words, and kind and view to print it from; None: take it down."""

    saw: str
    name: str
    kind: str
    title: str
    lines: tuple[str, ...]
    view: MachineView | None


_NO_MORE = ("this sheet is no longer made: take it down",)


def since_prints(
    views: Sequence[MachineView], listed: Mapping[str, tuple[Print, ...]], hung: Callable[..., Any], answered: Callable[..., Any]
) -> list[Change]:
    """Return the sheets whose last print says something else than a print of today would.

    Takes: the views of the saws and of the rack, in the order in which they are told; the list of prints; `hung`, which gives
    the sheets that may hang at a saw as pairs of view and kind, and `answered`, the same for all that can be printed of it.
    A saw with no print in the list is new: all its sheets are.
    """
    found = []
    for view in views:
        mine = listed.get(view["machine"]["id"], ())
        made = _by_sheet(answered(view))
        wanted = {(one.kind, one.blade) for one in mine} if mine else _by_sheet(hung(view)) if not view.get("rack") else ()
        for sheet in sorted(wanted, key=_in_order(made)):
            found += _since_print(view, sheet, mine, made.get(sheet))
    here = {view["machine"]["id"] for view in views}
    for saw in sorted(set(listed) - here):
        sheets = sorted({(one.kind, one.blade) for one in listed[saw]}, key=_in_order({}))
        gone = f"this saw is gone: take the sheet down, then remove {FOLDER}/{saw}.yaml"
        found += [Change(saw, saw, kind, title(kind, blade), (gone,), None) for kind, blade in sheets]
    return found


def _since_print(view: MachineView, sheet: Leaf, mine: Sequence[Print], made: MachineView | None) -> list[Change]:
    kind, blade = sheet
    told = partial(Change, view["machine"]["id"], view["machine"]["name"], kind, title(kind, blade))
    if made is None:
        return [told(_NO_MORE, None)]
    last = latest(mine, kind, blade)
    if last is None:
        return [told(("never printed",), made)]
    mark = contents.fingerprint(kind, made)
    if any((one.kind, one.mark, one.date) == (kind, mark, last.date) for one in mine):  # a merge may leave two of one day
        return []
    return [told(tuple(differences(last, said(kind, made))), made)]


def since_state(before: Sequence[MachineView], views: Sequence[MachineView], hung: Callable[..., Any]) -> list[Change]:
    """Return the sheets that say something else than in an earlier state of the shop, which is given as views, too.

    A saw that is gone and one that is new are the same saw under another id when they have the same name.
    """
    old = {view["machine"]["id"]: view for view in before}
    ids = {view["machine"]["id"] for view in views}
    by_name = {view["machine"]["name"]: view for saw, view in old.items() if saw not in ids}
    found, used = [], set()
    for view in views:
        saw, name = view["machine"]["id"], view["machine"]["name"]
        was = old.get(saw) or by_name.get(name)
        used.add(was["machine"]["id"] if was else "")
        now, then = _by_sheet(hung(view)), _by_sheet(hung(was)) if was else None
        for sheet in sorted(now, key=_in_order(now)):
            found += _since_view(then, now[sheet], sheet)
        gone = sorted(set(then or ()) - set(now), key=_in_order(then or {}))
        found += [Change(saw, name, kind, title(kind, blade), _NO_MORE, None) for kind, blade in gone]
    for saw in sorted(set(old) - used):
        name, lines = old[saw]["machine"]["name"], ("this saw is gone: take the sheet down",)
        found += [Change(saw, name, kind, title(kind, blade), lines, None) for kind, blade in _by_sheet(hung(old[saw]))]
    return found


def _since_view(then: Mapping[Leaf, MachineView] | None, view: MachineView, sheet: Leaf) -> list[Change]:
    kind, blade = sheet
    told = partial(Change, view["machine"]["id"], view["machine"]["name"], kind, title(kind, blade))
    if then is None:
        return [told(("new saw: print it",), view)]
    if sheet not in then:
        return [told(("new sheet: print it",), view)]
    if contents.fingerprint(kind, then[sheet]) == contents.fingerprint(kind, view):
        return []
    return [told(tuple(differences(said(kind, then[sheet]), said(kind, view))), view)]


def _by_sheet(pairs: Iterable[tuple[MachineView, str]]) -> dict[Leaf, MachineView]:
    """Return pairs of view and kind by kind and blade."""
    return {(kind, contents.about(kind, view)): view for view, kind in pairs}


def _in_order(made: Mapping[Leaf, MachineView]) -> Any:
    """Return where a sheet comes in the order of all kinds, and among those of one kind in the order in which they are made."""
    places, every = list(made), list(KINDS)

    def place(sheet: Leaf) -> tuple[Any, ...]:
        return (
            every.index(sheet[0]) if sheet[0] in every else len(every),
            places.index(sheet) if sheet in places else len(places),
            sheet,
        )

    return place


def walk(views: Iterable[MachineView]) -> list[MachineView]:
    """Return views in the order in which one walks through the shop: by the saws' places, in one place in the files' order.

    Places are sorted as words; a saw without one comes after those, and the rack last.
    """
    return sorted(
        views, key=lambda view: (bool(view.get("rack")), not view["machine"]["place"], view["machine"]["place"].casefold())
    )
