"""The heads of a view: how shop and machine are named."""

from sawside.kinds.view_types import Labels, MachineData, ShopData
from sawside.library import Library
from sawside.model import Record
from sawside.outputs import occasion_view


def shop(library: Library) -> ShopData:
    """Return how the shop is named, what it prints on, and the rules that hold at every saw."""
    record = library.shop.record
    found: ShopData = {
        "name": record.get("shop"),
        "paper": record.get("paper"),
        "site_address": record.get("site_address") or "",
        "ask": record.get("ask"),
        "local_rules": [occasion_view.rule(rule) for rule in record.get("local_rules") or () if not rule.saw and not rule.stage],
        "viewing_distance": record.get("viewing_distance") or 2.0,
    }
    if labels := _labels(record):
        found["labels"] = labels
    return found


def _labels(record: Record) -> Labels | None:
    """Return the measures [mm] of the shop's label sheet, or nothing when it has not stated them all."""
    counts = [record.get(name) for name in ("label_columns", "label_rows")]
    sizes = [record.get(f"label_{name}") for name in ("width", "height", "left", "top")]
    if None in (*counts, *sizes):
        return None
    gaps = [record.get(name) or 0.0 for name in ("label_gap_across", "label_gap_down")]
    width, height, left, top, gap_x, gap_y = (size * 1e3 for size in (*sizes, *gaps))
    return {
        "columns": counts[0],
        "rows": counts[1],
        "width": width,
        "height": height,
        "left": left,
        "top": top,
        "gap_x": gap_x,
        "gap_y": gap_y,
        "lines": False,
    }


def machine(library: Library, record: Record) -> MachineData:
    """Return how a machine is named, where it stands, and the address of its page."""
    address = library.shop.record.get("site_address") or ""
    page = f"{address.rstrip('/')}/machines/{record.id}.html" if address else ""
    plate = record.get("maker_plate")
    return {
        "id": record.id,
        "slug": record.id,
        "name": record.get("name"),
        "also_called": record.get("also_called") or "",
        "place": record.get("place") or "",
        "plate": plate or "",
        "revision": record.get("revision"),
        "revised": str(record.get("revised")),
        "address": page,
        "file": record.at.file,
    }
