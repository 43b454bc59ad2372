"""The rack as one view: every blade once, with all the saws it fits, for the sheets that hang there."""

from collections.abc import Sequence

from sawside.kinds.view_types import BladeRow, MachineData, MachineView, RackRow, RackView
from sawside.library import RACK


def page(site: str) -> str:
    """Return the address of the page that says whether a print of the rack is current: the one of all sheets.

    >>> page("https://saws.example.org/"), page("")
    ('https://saws.example.org/sheets/index.html', '')
    """
    return site and f"{site.rstrip('/')}/sheets/index.html"


def view(made: Sequence[MachineView]) -> RackView:
    """Return the view of the whole rack: every blade once, with all the saws it fits."""
    rows: dict[str, list[tuple[str, BladeRow]]] = {}
    for one in made:
        for row in one["blades"]:
            rows.setdefault(row["id"], []).append((one["machine"]["name"], row))
    first = made[0]
    machine: MachineData = {
        **first["machine"],
        "id": RACK,
        "slug": RACK,
        "name": "The blade rack",
        "place": "",
        "revised": max(one["machine"]["revised"] for one in made),
        "address": page(first["shop"]["site_address"]),
        "revision": "of the saws",
    }
    blades: list[BladeRow] = [_row(found) for found in rows.values()]
    return {**first, "machine": machine, "blades": blades, "jobs": [], "rack": True, "out_of_service": {}}


def _row(found: list[tuple[str, BladeRow]]) -> RackRow:
    """Return one blade of the rack from its rows on every saw: only numbers that are the same on each saw it fits."""
    fitting = [(saw, row) for saw, row in found if row["fits"]]
    if not fitting:
        none = "no saw of this shop"
        _, any_of = found[0]
        return {**any_of, "saw_names": [], "saws": "", "verdict": none, "fitted": False, "reasons": [], "advice": [], "items": []}
    names, rows = [saw for saw, _ in fitting], [row for _, row in fitting]
    texts = [{item["name"]: item["text"] for item in row["items"]} for row in rows]
    same = [item for item in rows[0]["items"] if all(text.get(item["name"]) == item["text"] for text in texts)]
    # the verdict names the saws; with several, advice says which of them it is about
    advice = [f"{saw}: {line}" if len(fitting) > 1 else line for saw, row in fitting for line in row["advice"]]
    listed = ", ".join(names)
    return {**rows[0], "saw_names": names, "saws": listed, "verdict": listed, "fitted": False, "items": same, "advice": advice}
