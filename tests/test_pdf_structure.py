"""What a screen reader gets of every kind of sheet: walked with pikepdf, which knows nothing of how the sheets are set.

PDF/UA-1 (ISO 14289-1, memory): steps and points are lists with labels and bodies, tables have header cells, and no words of the sheet
hide among the artifacts, which a reader passes over; only running heads and feet do.
"""

import collections
import io

import pikepdf
import pytest

from sawside.kinds import sheet_kinds as kinds
from sawside.outputs import publishing, sheets
from sheet_views import fit_for

LISTS = ("card", "wall", "guide")


def elements(node, found, inside=()):
    """Count structure elements by kind, and note what stands right inside what."""
    if isinstance(node, pikepdf.Array):
        for part in node:
            elements(part, found, inside)
    elif isinstance(node, pikepdf.Dictionary):
        kind = str(node.get("/S", "")).removeprefix("/")
        if kind:
            found[kind] += 1
            found[(inside[-1] if inside else "", kind)] += 1
        if "/K" in node:
            elements(node.K, found, (*inside, kind) if kind else inside)


def hidden_words(pdf):
    """Return how often words are set inside an artifact that is no running head or foot."""
    count = 0
    for page in pdf.pages:
        stack = []
        for operands, operator in pikepdf.parse_content_stream(page):
            name = str(operator)
            if name in ("BMC", "BDC"):
                kind = (
                    str(operands[1].get("/Type", "")) if len(operands) > 1 and isinstance(operands[1], pikepdf.Dictionary) else ""
                )
                stack.append((str(operands[0]), kind))
            elif name == "EMC":
                stack.pop()
            elif name in ("Tj", "TJ", "'", '"'):
                count += any(tag == "/Artifact" and kind != "/Pagination" for tag, kind in stack)
    return count


@pytest.mark.parametrize("kind", kinds.KINDS)
def test_the_structure_of_a_sheet(views, kind):
    view = views["bench-250"] | fit_for(kind)
    if kind == "wall":  # where there is no room for the steps they go to a sheet of their own
        view |= {
            "wall": view["wall"] | {"steps": view["wall"]["steps"][:2], "write_in": [], "picture": ""},
            "blades": view["blades"][:1],
        }
    made = sheets.make(kind, view, publishing.usual_paper(kind, "A4"))
    with pikepdf.open(io.BytesIO(made.data)) as pdf:
        found = collections.Counter()
        elements(pdf.Root.StructTreeRoot.K, found)
        assert hidden_words(pdf) == 0
        assert pdf.Root.MarkInfo.Marked and str(pdf.Root.Lang)
    assert found["H1"] >= 1
    assert found["L"] == 0 or found["LI"] == found["Lbl"] == found["LBody"] >= found["L"]
    assert found["Table"] == found["THead"] and (found["Table"] == 0 or found["TH"] >= 2 * found["Table"])
    if kind in LISTS:
        parts = {"wall": view["wall"]["steps"], "card": view["card"], "guide": view["stages"]}[kind]
        steps = sum(len(part["steps"] if kind == "guide" else part["lines"]) for part in parts)
        assert found["LI"] >= steps
