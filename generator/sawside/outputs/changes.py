"""What is different between two prints, in words: of two states of a shop, or of a print in the list and today's.

A print that is in hand as a whole is told word by word. Of one in the list only numbers and rules are known in words, of its
other texts only the marks: a new text is told, one that went is counted.
"""

import difflib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from sawside.ledger import FOLDER, Print, latest
from sawside.outputs import contents, sheets
from sawside.outputs.print_mark import mark_of
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
    """One sheet to renew: of which saw, which kind, why in words, and the view to print it from; None: take it down."""

    saw: str
    name: str
    kind: str
    lines: tuple[str, ...]
    view: dict | None


def title(kind: str) -> str:
    """Return what a kind of sheet is called; one that is no longer made by its key."""
    return sheets.KINDS[kind].title if kind in sheets.KINDS else kind.replace("_", " ").capitalize()


def since_prints(views: Sequence[dict], listed: Mapping[str, tuple[Print, ...]], offered) -> list[Change]:
    """Return the sheets whose last print says something else than a print of today would.

    Takes: the views of the saws and of the rack, in the order in which they are told; the list of prints; `offered`, which
    gives the kinds a view can have. A saw with no print in the list is new: all its sheets are.
    """
    found = []
    for view in views:
        mine = listed.get(view["machine"]["id"], ())
        kinds = dict.fromkeys(one.kind for one in mine) if mine else offered(view) if not view.get("rack") else ()
        for kind in sorted(kinds, key=_place):
            found += _since_print(view, kind, mine, kind in offered(view))
    here = {view["machine"]["id"] for view in views}
    for saw in sorted(set(listed) - here):
        kinds = sorted({one.kind for one in listed[saw]}, key=_place)
        gone = f"this saw is gone: take the sheet down, then remove {FOLDER}/{saw}.yaml"
        found += [Change(saw, saw, kind, (gone,), None) for kind in kinds]
    return found


def _since_print(view: dict, kind: str, mine: Sequence[Print], made: bool) -> list[Change]:
    saw, name = view["machine"]["id"], view["machine"]["name"]
    if not made:
        return [Change(saw, name, kind, ("this sheet is no longer made: take it down",), None)]
    last = latest(mine, kind)
    if last is None:
        return [Change(saw, name, kind, ("never printed",), view)]
    mark = contents.fingerprint(kind, view)
    if any((one.kind, one.mark, one.date) == (kind, mark, last.date) for one in mine):  # a merge may leave two of one day
        return []
    return [Change(saw, name, kind, tuple(differences(last, said(kind, view))), view)]


def since_state(before: Sequence[dict], views: Sequence[dict], offered) -> list[Change]:
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
        for kind in sorted(offered(view), key=_place):
            found += _since_view(was, view, kind, offered)
        for kind in sorted(set(offered(was)) - set(offered(view)), key=_place) if was else ():
            found.append(Change(saw, name, kind, ("this sheet is no longer made: take it down",), None))
    for saw in sorted(set(old) - used):
        name = old[saw]["machine"]["name"]
        found += [Change(saw, name, kind, ("this saw is gone: take the sheet down",), None) for kind in offered(old[saw])]
    return found


def _since_view(was: dict | None, view: dict, kind: str, offered) -> list[Change]:
    saw, name = view["machine"]["id"], view["machine"]["name"]
    if was is None:
        return [Change(saw, name, kind, ("new saw: print it",), view)]
    if kind not in offered(was):
        return [Change(saw, name, kind, ("new sheet: print it",), view)]
    if contents.fingerprint(kind, was) == contents.fingerprint(kind, view):
        return []
    return [Change(saw, name, kind, tuple(differences(said(kind, was), said(kind, view))), view)]


def _place(kind: str) -> tuple[int, str]:
    """Return where a kind comes in the order of all kinds."""
    return (list(sheets.KINDS).index(kind) if kind in sheets.KINDS else len(sheets.KINDS), kind)


def walk(views: Iterable[dict]) -> list[dict]:
    """Return views in the order in which one walks through the shop: by the saws' places, in one place in the files' order.

    Places are sorted as words; a saw without one comes after those, and the rack last.
    """
    return sorted(views, key=lambda view: (
        bool(view.get("rack")), not view["machine"]["place"], view["machine"]["place"].casefold()))
