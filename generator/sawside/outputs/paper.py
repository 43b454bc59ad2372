"""What must hold before and after a sheet is set: safe notices, printable characters, room for every block."""

import datetime
import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from sawside.errors import At, Fault, printable
from sawside.kinds.view_types import MachineView
from sawside.outputs.typeface import shipped

#: Paper sizes [mm], upright. ISO 216 and the North American letter sheet (8 1/2 x 11 in).
PAPERS = {"A3": (297.0, 420.0), "A4": (210.0, 297.0), "A5": (148.0, 210.0), "Letter": (215.9, 279.4), "A5 on A4": (297.0, 210.0)}

#: Panel colours by ink. Source: screen values given for the colours of ISO 3864-4 (signal red, orange, yellow, blue);
#: which word takes which colour: ANSI Z535.4. Text colour: the one whose contrast is at least 4.5 (WCAG 2 formula).
#: In grey the word itself, the triangle and the tone differ, so a copy in black and white loses nothing.
PALETTE = {
    "colour": {
        "DANGER": {"fill": "#9B2423", "text": "#FFFFFF"},
        "WARNING": {"fill": "#D05D29", "text": "#000000"},
        "CAUTION": {"fill": "#F9A800", "text": "#000000"},
        "NOTICE": {"fill": "#005387", "text": "#FFFFFF"},
    },
    "grey": {
        "DANGER": {"fill": "#111111", "text": "#FFFFFF"},
        "WARNING": {"fill": "#B4B4B4", "text": "#000000"},
        "CAUTION": {"fill": "#E4E4E4", "text": "#000000"},
        "NOTICE": {"fill": "#FFFFFF", "text": "#000000"},
    },
}


def grey(svg: str) -> str:
    """Return a drawing with each colour as the grey of the same luminance (WCAG 2 formula, sRGB).

    >>> grey('<path fill="#F9A800" stroke="#000000"/>')
    '<path fill="#B8B8B8" stroke="#000000"/>'
    """
    return re.sub("#[0-9A-Fa-f]{6}", lambda found: _grey(found[0]), svg)


def _grey(colour: str) -> str:
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    light = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    level = 0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2]
    share = 12.92 * level if level <= 0.0031308 else 1.055 * level ** (1 / 2.4) - 0.055
    return "#" + 3 * f"{round(255 * share):02X}"


#: Block of a sheet -> (room it usually takes [mm], what the person who wrote it can do). Used to name what is too long.
USUAL = {
    "title": (22, "shorten the machine's name or place"),
    "standing sentences": (12, "shorten the standing sentences in notices.yaml"),
    "numbers": (60, "let fewer values be unknown: each takes a line to write on"),
    "label grid": (0, "correct the label measures in shop.yaml, or print on the paper the labels are on"),
    "hazards": (72, "shorten the hazard, consequence and avoid lines"),
    "drawing": (100, "shorten other texts of this sheet"),
    "name and date": (9, "shorten other texts of this sheet"),
    "steps": (190, "shorten the `summary:` lines of the procedures, or give fewer steps one"),
    "lines of the card": (300, "shorten the `card:` lines of the procedures, or give fewer steps one"),
    "reason": (0, "shorten `out_of_service`"),
    "out of service": (14, "shorten `out_of_service`"),
    "local rules": (16, "shorten `local_rules` in shop.yaml"),
    "lines to write in": (48, "measure some of the unknowns and fill them in"),
    "blade table": (66, "shorten the blades' names, or print the blade table as its own sheet"),
    "foot": (6, "shorten the shop's name or whom to ask"),
}


#: Line breaks, tab, soft hyphen, joiners and zero-width spaces: they print nothing by themselves.
_SILENT = frozenset("\n\t\r\u00ad\u200b\u200c\u200d\u2060\ufeff")
#: Marks that change the direction of writing. A safety text that prints turned round is worse than none.
_TURNS = frozenset("\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def check_text(view: Mapping[str, Any]) -> list[Fault]:
    """Return a fault for each text of the view with characters that cannot be printed, naming text and characters."""
    found = {text: lacking(text) for text in set(strings(view))}  # most words of a view stand in it many times
    return [
        Fault(_at(view), f"the sheets' typeface cannot print {named}, in: {_shown(text)}", "write it in words")
        for text, named in sorted(found.items())
        if named
    ]


def lacking(text: str) -> str:
    """Return the characters of a text that cannot be printed, by number and name; nothing when all can.

    >>> lacking("25 mm"), lacking("saw " + chr(0x05D0))
    ('', 'U+05D0 hebrew letter alef')
    """
    found = sorted(character for character in set(text) if not _prints(character))
    named = ", ".join(f"U+{ord(c):04X} {unicodedata.name(c, 'control character').lower()}" for c in found[:5])
    return named + f" and {len(found) - 5} more" * (len(found) > 5)


def _prints(character: str) -> bool:
    """Whether the typeface has a character, or nothing has to be printed for it; turning marks are refused."""
    if character in _TURNS:
        return False
    return character in _SILENT or 0xFE00 <= ord(character) <= 0xFE0F or ord(character) in shipped().characters


def _shown(text: str) -> str:
    shown = printable(text)
    return shown if len(shown) <= 60 else shown[:57] + "..."


def strings(data: object, key: str = "") -> Iterator[str]:
    """Yield every text that may be printed; of a drawing only what stands between its tags."""
    if isinstance(data, str):
        yield from re.findall(r">([^<>]+)<", data) if key in ("svg", "paper") and data.startswith("<") else (data,)
    elif isinstance(data, dict):
        for name, value in data.items():
            if name not in ("sign_svgs", "file"):
                yield from strings(value, name)
    elif isinstance(data, (list, tuple)):
        for value in data:
            yield from strings(value)


def check_notices(view: Mapping[str, Any]) -> list[Fault]:
    """Return a fault for each notice whose signs contradict each other or its machine state.

    Gloves are for handling a blade with the saw isolated (M009); at a running blade they are forbidden (P028).
    Common practice; a band saw maker's manual and school rules, names withheld.
    """
    faults = []
    for notice in view["notices"] + view["wall"]["hazards"] + view.get("more_notices", []):
        signs, name = set(notice["signs"]), notice["id"]
        if {"M009", "P028"} <= signs:
            faults.append(
                Fault(
                    _at(view),
                    f"notice `{name}` shows M009 (wear gloves) and P028 (no gloves) on one panel",
                    "write two notices: gloves for the isolated saw, no gloves for the running saw",
                )
            )
        elif "M009" in signs and notice["machine_state"] == "running":
            faults.append(
                Fault(
                    _at(view),
                    f"notice `{name}` tells people to wear gloves (M009) at the running saw",
                    "show P028 there, and M009 only with `machine_state: isolated`",
                )
            )
    return faults


def letters(distance: float) -> dict[str, Any]:
    """Return the type sizes [pt] of a notice read from `distance` [m]: capitals of the signal word and of the message.

    signal word capitals = D / 150, message capitals = D / 300; never under 9 pt.
    Source: ANSI Z535.4, annex on letter height, favourable conditions, as quoted by a label maker (second hand).

    >>> round(letters(1.0)["signal"] / letters(1.0)["message"], 6)
    2.0
    """
    size = shipped().size_for_capital
    return {
        "signal": max(9.0, size(1000 * distance / 150)),
        "message": max(9.0, size(1000 * distance / 300)),
        "distance": f"{distance:g} m",
        "metres": distance,
    }


def labels(paper: str, columns: int = 2, edge: float = 10.0) -> dict[str, Any]:
    """Return a label grid that fills a plain sheet, with lines to cut along; all measures in mm.

    A shop with label sheets gives its own measures instead, `lines` false.

    >>> grid = labels("A4")
    >>> grid["width"], grid["height"]
    (95.0, 55.4)
    """
    wide, high = PAPERS[paper]
    rows = 3 if paper == "A5" else 5
    return {
        "columns": columns,
        "rows": rows,
        "left": edge,
        "top": edge,
        "gap_x": 0.0,
        "gap_y": 0.0,
        "width": (wide - 2 * edge) / columns,
        "height": (high - 2 * edge) / rows,
        "lines": True,
    }


def weeks(revised: str, count: int = 52) -> list[str]:
    """Return the dates of a year of weekly checks, from the first Monday after the revision.

    >>> weeks("2026-03-14", 2)      # a Saturday
    ['2026-03-16', '2026-03-23']
    """
    day = datetime.date.fromisoformat(revised)
    monday = day + datetime.timedelta(days=7 - day.weekday())
    return [(monday + datetime.timedelta(weeks=week)).isoformat() for week in range(count)]


def is_larger(paper: str, papers: Iterable[str]) -> bool:
    """Return whether any of these papers has larger pages; of a pair of half pages the half counts.

    >>> is_larger("A5 on A4", ["A5", "A5 on A4"]), is_larger("A4", ["A4", "Letter", "A3"])
    (False, True)
    """
    return any(_page_area(other) > 1.1 * _page_area(paper) for other in papers)  # A4 and Letter are alike


def _page_area(paper: str) -> float:
    wide, high = PAPERS[paper]
    return wide * high / (2 if paper == "A5 on A4" else 1)


def check_room(view: MachineView, title: str, paper: str, rooms: list[dict[str, Any]], larger: bool = False) -> list[Fault]:
    """Return a fault for a sheet taller than its paper, naming the block furthest above its usual size.

    Takes: larger, whether the sheet is laid out for larger paper, which is then advised too.
    """
    over = [room for room in rooms if room["need"] > room["left"] + 0.01]
    if not over:
        return []
    room = max(over, key=lambda r: r["need"] - USUAL.get(r["block"], (0, ""))[0])
    count = f" ({room['characters']} characters)" if room["characters"] else ""
    needs = "needs" if room["block"].startswith(("notice", "tag ", "reason", "out of")) else "need"
    what = (
        f"{title} of `{view['machine']['id']}` does not fit on {paper}: {room['block']}{count} {needs}"
        f" {room['need']:.0f} mm, {max(0.0, room['left']):.0f} mm left"
    )
    hint = USUAL.get(room["block"], (0, "shorten this text"))[1]
    if room["block"].startswith(("notice", "reason")):
        reach = room.get("reach", 0.0)
        hint = "shorten this text, or " + (
            f"write `viewing_distance: {reach:g} m` in shop.yaml: so far off it can be read"
            if reach >= 0.5
            else "state a shorter `viewing_distance` in shop.yaml"
        )
    return [Fault(_at(view), what, hint + ", or print on larger paper" * larger)]


def _at(view: Mapping[str, Any]) -> At:
    return At(view["machine"].get("file") or f"machine {view['machine']['id']}")
