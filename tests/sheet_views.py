"""Machines' printed views made in code, for the tests of sheets: invented words, as much or as little as asked for."""

from sawside.occasions import METHOD, OCCASIONS
from sawside.outputs import bench, occasion_view
from sawside.printing import Printer

BOTH = ["setting_push", "strand_force"]
GLYPHS = "#let $x$ *b* _c_ <script>[[ \\ @a `q` ~ // /*"
DRAWN = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="128mm" height="20mm" viewBox="0 0 128 20"><path d="M0 9H128"'
    ' stroke="#111"/><text x="9" y="8" font-size="3.15" font-family="Inter">lettering</text></svg>'
)
#: As wide and as lettered as the narrow drawing of the saw for the wall sheet, and about as tall.
PARTS = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="98mm" viewBox="0 0 100 98"><path d="M0 9H100V97"'
    ' stroke="#111"/><text x="9" y="8" font-size="3.95" font-family="Inter">Upper wheel</text></svg>'
)
SIGN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle cx="4" cy="4" r="4" fill="{}"/></svg>'

STOPPED = {"out_of_service": {"reason": "cracked upper tyre", "since": "2026-03-10", "by": "the steward"}}


def fit_for(kind):
    """What a view needs besides for a kind of sheet."""
    return STOPPED if kind == "out_of_service" else {}


def item(label, text="", status="computed", **more):
    """One printed number; without a text it is unknown."""
    status = status if text else "unknown"
    return {
        "name": label,
        "label": label,
        "text": text,
        "small": "",
        "plus_minus": "",
        "status": status,
        "note": "",
        "symbol": "",
        "waits_for": [],
    } | more


def notice(name, signal, signs, state="any"):
    """One safety notice."""
    return {
        "id": name,
        "signal": signal,
        "hazard": f"Hazard {name}.",
        "consequence": "Somebody is hurt badly.",
        "avoid": ["Keep the hands away from it.", "Ask first."],
        "signs": signs,
        "machine_state": state,
        "line": f"Hazard {name} hurts badly. Hands away.",
        "group": True,
    }


NOTICES = [
    notice("coil", "CAUTION", ["M009"], "isolated"),
    notice("dust", "CAUTION", []),
    notice("contact", "DANGER", ["P028"], "running"),
    notice("sleeves", "WARNING", ["P028"], "running"),
]


def blade(number, fits=True, fitted=False):
    """One blade of the rack on this saw."""
    items = [item("Push at mid-strand for 5 mm", "24.6 N", name="setting_push"), item("Pull", "", name="strand_force")]
    return {
        "id": f"b{number}",
        "name": f"b{number}",
        "section": "13 mm x 0.65 mm, 6 TPI",
        "length": "1925 mm",
        "back": "carbon",
        "rack_place": "Hook 3",
        "fits": fits,
        "verdict": "good" if fits else "does not fit",
        "advice": [],
        "reasons": [] if fits else ["60 mm too long for this saw"],
        "items": items,
        "fitted": fitted,
    }


STATES = ("stopped", "isolated", "isolated", "running")


def stage(title, count, line):
    """One procedure with `count` steps, the last of which does not advance the work where there are more than two."""
    steps = [
        {
            "number": 0 if n > 1 and n == count - 1 else n + 1,
            "step": line,
            "id": f"step_{n}",
            "state": STATES[n % 4],
            "unit": "",
            "advances": not (n > 1 and n == count - 1),
            "key_points": ["Fingers outside the loop."],
            "reason": "It bites.",
            "check": "",
            "put_right": "Ask first.",
            "card": f"Gap {n} = 0.1 mm.",
            "sets": [item("Gap", "0.1 mm")],
            "notices": [],
            "figure": "drawn",
            "record": f"Gap {n}",
            "summary": line,
        }
        for n in range(count)
    ]
    return {
        "id": title.lower().replace(" ", "_"),
        "title": title,
        "purpose": "So that it runs true.",
        "card": "Off",
        "states": list(STATES[:count]),
        "steps": steps,
        "notices": [],
        "lines": [{"id": "contact", "signal": "DANGER", "sign": "P028", "line": "The blade cuts a finger off. Hands away."}],
        "local_rules": [],
    }


def card(stages, most=22):
    """The lines of the card: one each for the first steps of the stages, in two parts."""
    every = [(s["id"], step) for s in stages for step in s["steps"]][:most]
    lines = [
        {"number": n, "state": step["state"], "text": f"{step['step']} {step['card']}", "steps": [f"{of}-{step['id']}"]}
        for n, (of, step) in enumerate(every, 1)
    ]
    half = len(lines) // 2
    return [{"title": title, "lines": some} for title, some in (("Off", lines[:half]), ("On", lines[half:])) if some]


def lists(stages):
    """The other occasions: commissioning, a short list and a long one; all others are empty."""
    some = {"commissioning": stages[:3], "start_of_day": stages[:1], "before_cut": stages[:1], "weekly": stages[:4]}
    return {
        name: {
            "title": one.title,
            "when": one.when,
            "stages": some.get(name, []),
            "hazards": occasion_view.hazards(some.get(name, [])),
        }
        for name, one in OCCASIONS.items()
        if name != METHOD
    }


def view(name="Bench saw", blades=12, steps=26, rules=("Never alone.",), unknown=6, notices=NOTICES, **shop):
    """A machine's view: the largest content that the wall sheet promises to hold, unless told otherwise."""
    line = "Slacken, lift the blade off, coil it and hang a tag on."
    stages = [stage(f"Procedure {n}", min(5, steps - 5 * n), line) for n in range((steps + 4) // 5)]
    missing = [item(f"Unknown {n}", note="Steel rule, saw isolated.", needed_by=["Push"]) for n in range(unknown)]
    rack = [blade(n, fits=n % 4 != 3, fitted=n == 2) for n in range(blades)]
    numbers = [item(f"Distance between things {n}", f"{n + 1}.5 mm", small="1/16 in") for n in range(11)] + [item("Load")]
    given = {
        "test_height": 50e-3,
        "cutting_height_max": 0.15,
        "caliper_doubt": 0.02e-3,
        "square_tolerance": 1.745e-3,
        "table_stop_arm": 0.1,
        "table_stop_pitch": 1e-3,
    }
    return {
        "shop": {"name": "Some shop", "ask": "the steward", "viewing_distance": 2.0, "site_address": ""} | shop,
        "machine": {
            "id": "saw",
            "slug": "saw",
            "name": name,
            "place": "North wall",
            "plate": "",
            "revision": "3",
            "revised": "2026-03-14",
            "address": "https://saws.example.org/machines/saw.html",
            "file": "machines/saw.yaml",
        },
        "numbers": [{"group": "Wheels", "items": numbers}],
        "unknowns": missing,
        "assumed": [],
        "blade": rack[2] if blades else None,
        "blades": rack,
        "stages": stages,
        "card": card(stages),
        "card_pictures": ["drawn"],
        "lists": lists(stages),
        "for_blade": {},
        "checks": [{"what": "Side gaps", "limit": "0.1 mm"}, {"what": "Guards looked at", "limit": ""}],
        "notices": notices,
        "more_notices": [],
        "local_rules": [{"rule": rule, "since": ""} for rule in rules],
        "out_of_service": {},
        "drawings": {
            "drawn": {"svg": DRAWN, "title": "A line", "alt": "A line with a word"},
            "parts": {"svg": PARTS, "paper": PARTS, "title": "Parts", "alt": "The saw with its parts"},
        },
        "jobs": [
            {
                "id": "j",
                "name": "Rip oak",
                "best": "b0",
                "best_name": "b0",
                "reason": "teeth in the work",
                "refused": "",
                "cells": [{"blade": "b0", "blade_name": "b0", "fits": True, "rank": 1, "reason": "teeth"}],
            }
        ],
        "wall": {
            "blades": [row for row in rack if row["fits"]],
            "numbers": numbers,
            "hazards": notices,
            "write_in": missing,
            "picture": "parts",
            "steps": [{"title": s["title"], "states": ["isolated"], "lines": [t["summary"] for t in s["steps"]]} for s in stages],
        },
        "always": ["The maker's manual comes first.", "This sheet is not an instruction handbook."],
        "signs": {"M009": "Wear protective gloves", "P028": "Do not wear gloves"},
        "sign_svgs": {"M009": SIGN.format("#005387"), "P028": SIGN.format("#9B2423")},
        "gauges": True,
        "columns": {"wall": BOTH, "table": BOTH, "card": BOTH[:1], "tag": BOTH[:1]},
        "test_cut": bench.worksheet(given.get, Printer()),
        "coils": [{"name": "b2", "diameter": 204.0, "text": "204 mm"}],
    }
