"""What comes out of the printer: true-scale gauges measured in pixels, bytes, ink, signs, characters, bound sheets.

The gauges are measured on a picture by poppler, 20 pixels a millimetre; a tooth of 6 TPI is 25.4 / 6 mm by definition.
"""

import functools
import io
import math
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from sawside.calc import decision, testcut
from sawside.errors import Faults
from sawside.kinds import sheet_kinds as kinds
from sawside.outputs import bench, paper, sheets
from sawside.printing import Printer
from sawside.safety import SEVERITY
from sheet_views import GLYPHS, NOTICES, fit_for, notice, view
from test_sheets import text_of

ROOT = Path(__file__).resolve().parents[1]
DOTS = 20  # pixels a millimetre
MARGIN = 10.0  # of the gauge sheet [mm]


def picture(sheet, dots_per_inch, *arguments, page=1):
    """Render one page."""
    done = subprocess.run(
        ["pdftoppm", "-r", str(dots_per_inch), "-f", str(page), "-l", str(page), "-singlefile", *arguments, "-"],
        input=sheet.data,
        capture_output=True,
    )
    assert done.returncode == 0, done.stderr
    return Image.open(io.BytesIO(done.stdout))


@functools.cache
def gauges(size, page):
    """Return the pixels of one page of the gauge sheet, true where there is ink."""
    image = picture(sheets.make("true_scale", view(), size), DOTS * 25.4, "-gray", page=page)
    return image.load(), image.size


def runs(size, x1, x2, y, page=1):
    """Return the inked stretches of one row as (from, to) [mm inside the margin]."""
    pixels, _ = gauges(size, page)
    row, first = round((y + MARGIN) * DOTS), round((x1 + MARGIN) * DOTS)
    dark = [pixels[x, row] < 128 for x in range(first, round((x2 + MARGIN) * DOTS))] + [False]
    edges = [i for i, now in enumerate(dark) if now != (dark[i - 1] if i else False)]
    return [((a + first) / DOTS - MARGIN, (b + first) / DOTS - MARGIN) for a, b in zip(edges[::2], edges[1::2], strict=True)]


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_bars_and_widths_are_true(size):
    (bar,), (inches,) = runs(size, -5, 101, 31.5), runs(size, -5, 102.5, 41.5)
    assert bar[1] - bar[0] == pytest.approx(100, abs=0.1) and inches[1] - inches[0] == pytest.approx(4 * 25.4, abs=0.1)
    assert [b - a for a, b in runs(size, -1, 180, 113)] == pytest.approx([3, 6, 10, 13, 16, 20, 25], abs=0.1)
    inch = [b - a for a, b in runs(size, -1, 185, 130)]
    assert inch == pytest.approx([25.4 * n / 16 for n in (2, 3, 4, 6, 8, 10, 12, 16)], abs=0.1)


@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("row, column, tpi", [(n % 5, n // 5, t) for n, t in enumerate((2, 3, 4, 6, 8, 10, 14, 18, 24, 32))])
def test_teeth_have_their_pitch(size, row, column, tpi):
    """The upright edge of every tooth, from the first to the last, stands at its multiple of the pitch."""
    pitch, x = 25.4 / tpi, 96 * column
    tall = min(4.5, 0.6 * pitch)
    found = [a - x for a, _ in runs(size, x - 1, x + 61, 57 + 8.4 * row + 4.5 - tall / 2)]
    assert found == pytest.approx([n * pitch for n in range(int(60 / pitch))], abs=0.1)


def test_bars_and_widths_are_true_on_both_sides_of_a_half_page():
    (bar,), (inches,), (again,) = runs("A5", -5, 101, 31.5), runs("A5", -5, 102.5, 41.5), runs("A5", -5, 101, 13.5, page=2)
    assert [b - a for a, b in (bar, inches, again)] == pytest.approx([100, 101.6, 100], abs=0.1)
    millimetres = runs("A5", -1, 127, 153) + runs("A5", -1, 127, 168)
    assert [b - a for a, b in millimetres] == pytest.approx([3, 6, 10, 13, 16, 20, 25], abs=0.1)
    inch = [b - a for a, b in runs("A5", -1, 127, 28, page=2) + runs("A5", -1, 127, 43, page=2)]
    assert inch == pytest.approx([25.4 * n / 16 for n in (2, 3, 4, 6, 8, 10, 12, 16)], abs=0.1)
    for row, tpi in enumerate((2, 3, 4, 6, 8, 10, 14, 18, 24, 32)):
        pitch = 25.4 / tpi
        found = [a for a, _ in runs("A5", -1, 61, 57 + 8.4 * row + 4.5 - min(4.5, 0.6 * pitch) / 2)]
        assert found == pytest.approx([n * pitch for n in range(int(60 / pitch))], abs=0.1)


#: Paper -> page, foot of the arcs, largest of them, then middle, top and reach of the first coil [mm inside the margin].
ARCS = {"A4": (1, 238, 75, 142, 162, 40), "Letter": (1, 238, 75, 142, 162, 40), "A5": (2, 128, 60, 64, 138, 32)}


@pytest.mark.parametrize("size", ARCS)
def test_arcs_are_round(size):
    page, foot, largest, middle, top, reach = ARCS[size]
    for degrees in (5, 45, 85):
        for radius in (r for r in (10, 15, 20, 25, 30, 40, 50, 60, 75) if r <= largest):
            x, y = radius * math.cos(math.radians(degrees)), foot - radius * math.sin(math.radians(degrees))
            assert _ink_near(size, page, x, y, 0.1), f"radius {radius} mm at {degrees} degrees"
            assert not _ink_near(size, page, x * (1 - 1 / radius), foot - (foot - y) * (1 - 1 / radius), 0.1)
    for share in (-1, -0.5, 0, 0.5, 1):  # the coil of 204 mm: y = R - sqrt(R^2 - x^2) below its top
        across = share * reach
        assert _ink_near(size, page, middle + across, top + 102 - math.sqrt(102**2 - across**2), 0.12)


def _ink_near(size, page, x, y, within):
    pixels, _ = gauges(size, page)
    reach = math.ceil(within * DOTS)
    cx, cy = (x + MARGIN) * DOTS, (y + MARGIN) * DOTS
    spots = [(i, j) for i in range(int(cx) - reach, int(cx) + reach + 2) for j in range(int(cy) - reach, int(cy) + reach + 2)]
    return any(pixels[i, j] < 128 for i, j in spots if math.hypot(i + 0.5 - cx, j + 0.5 - cy) <= reach)


def test_gauges_warn_of_the_printer():
    text = text_of(sheets.make("true_scale", view(), "A4")).replace("\n", " ")
    assert "not fitted to the page" in text and "throw this sheet away" in text


def test_same_view_same_bytes_in_another_process(tmp_path):
    code = (
        "import hashlib; from sheet_views import STOPPED, view; from sawside.kinds import sheet_kinds as kinds\nfrom sawside.outputs import sheets\n"
        "print([hashlib.sha256(sheets.make(k, view() | STOPPED, 'A4').data).hexdigest() for k in kinds.KINDS])"
    )
    path = os.pathsep.join([str(ROOT / "generator"), str(ROOT / "tests")])
    told = {
        subprocess.run(
            [sys.executable, "-c", code],
            cwd=where,
            check=True,
            capture_output=True,
            text=True,
            env=os.environ | {"PYTHONPATH": path, "PYTHONHASHSEED": seed, "TZ": zone},
        ).stdout
        for where, seed, zone in ((ROOT, "1", "UTC"), (tmp_path, "2", "Asia/Tokyo"))
    }
    assert len(told) == 1
    later = view()
    later["machine"]["revised"] = "2026-03-15"
    assert sheets.make("wall", later, "A4").data != sheets.make("wall", view(), "A4").data


def test_grey_needs_no_colour():
    for kind in ("wall", "notice", "guide"):
        coloured, grey = (_colour(picture(sheets.make(kind, view(), "A4", ink), 60)) for ink in ("colour", "grey"))
        assert coloured > 60 and grey <= 2


def _colour(image):
    red, green, blue = (band.tobytes() for band in image.convert("RGB").split())
    return max(max(p) - min(p) for p in zip(red, green, blue, strict=True))


def test_panels_can_be_read():
    """Contrast of words on panels by the WCAG 2.1 formula; two pairs as wcag-contrast-ratio 0.9 gives them."""
    for ink, panels in paper.PALETTE.items():
        assert set(panels) == set(SEVERITY)
        assert all(_contrast(panel["fill"], panel["text"]) >= 4.5 for panel in panels.values()), ink
    assert _contrast("#D05D29", "#FFFFFF") == pytest.approx(3.98, abs=0.01), "white on orange would fail"
    assert _contrast("#9B2423", "#FFFFFF") == pytest.approx(7.86, abs=0.01)
    tones = [_light(panel["fill"]) for panel in paper.PALETTE["grey"].values()]
    assert tones == sorted(tones) and len(set(tones)) == 4, "darker is worse, and all four differ"


def _light(colour):
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one, other):
    low, high = sorted((_light(one), _light(other)))
    return (high + 0.05) / (low + 0.05)


def test_gloves_on_and_off_never_share_a_panel():
    both = NOTICES + [notice("change", "WARNING", ["M009", "P028"])]
    for kind in kinds.KINDS:
        with pytest.raises(Faults, match="notice `change` shows M009 .* and P028"):
            sheets.make(kind, view(notices=both) | fit_for(kind), "A4")
    with pytest.raises(Faults, match="tells people to wear gloves"):
        sheets.make("notice", view(notices=[notice("run", "WARNING", ["M009"], "running")]), "A4")


@pytest.mark.parametrize("kind", kinds.KINDS)
def test_shop_text_is_never_markup(kind):
    printed = "".join(text_of(sheets.make(kind, view(name=GLYPHS) | fit_for(kind), "A4")).split())  # a line may end inside the name
    assert "".join(GLYPHS.split()) in printed


def test_a_character_the_typeface_lacks_is_named():
    with pytest.raises(Faults) as caught:
        sheets.make("wall", view(name="Saw \U0001f600 one"), "A4")
    assert caught.value.faults[0].what == "the sheets' typeface cannot print U+1F600 grinning face, in: Saw \U0001f600 one"
    for hostile in ("bell \x07", "turned \u202e round", "\u05e9"):
        with pytest.raises(Faults, match="cannot print"):
            sheets.make("wall", view(name=hostile), "A4")
    spoken = "Žaga, Säge, Пила, πριόνι 1½ ±"
    assert spoken in text_of(sheets.make("wall", view(name=spoken), "A4"))


def test_a_sheet_without_its_hazards_is_refused():
    with pytest.raises(Faults, match="needs `notices`"):
        sheets.make("wall", view(notices=[]), "A4")
    with pytest.raises(Faults, match="no wall sheet on A3"):
        sheets.make("wall", view(), "A3")


def test_bound_sheets_have_an_outline():
    orders = [
        sheets.Order(kind, view(name=name) | fit_for(kind), "A4") for name in ("First saw", "Second saw") for kind in kinds.KINDS
    ]
    bound = sheets.combine(orders)
    reader = PdfReader(io.BytesIO(bound.data))
    assert len(reader.pages) == sum(len(PdfReader(io.BytesIO(sheets.make(o.kind, o.view, o.paper).data)).pages) for o in orders)
    tops = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert (
        tops.count("First saw") == len(kinds.KINDS) - 3
        and "Safety notice, Second saw, page 1 of 1" in tops
        and "True-scale gauges: Second saw" in tops
    )
    text = text_of(bound)
    last = re.compile(r"page (\d+) of \1\b")
    alone = [found[0] for o in orders if (found := last.search(text_of(sheets.make(o.kind, o.view, o.paper))))]
    assert sorted(found[0] for found in last.finditer(text)) == sorted(alone) != [], "pages are counted within each sheet"


def test_worksheet_says_what_the_rule_of_decision_says():
    """The printed limits of every height are where `decision.decide` changes its word; turns follow from similar triangles."""
    text = text_of(sheets.make("worksheet", view(), "A4"))
    assert "H ACCEPT: d up to ADJUST: d over" in text and "50 mm 0.14 mm 0.21 mm" in text and "1 mm 0.57\u00b0 1\n" in text
    tolerance, doubt = 1.745e-3, 0.02e-3
    rows = re.findall(r"(\d+) mm ([\d.]+) mm ([\d.]+) mm\n", text[text.index("ADJUST: d over") :])
    assert len(rows) >= 3
    for height, accept, adjust in [[float(n) * 1e-3 for n in row] for row in rows]:
        angle_doubt = testcut.turned_cut_doubt(doubt / math.sqrt(2), height)  # top and bottom are means of two readings
        for difference, word in (
            (accept, "accept"),
            (accept + 0.01e-3, "cannot tell"),
            (adjust - 0.01e-3, "cannot tell"),
            (adjust, "adjust"),
        ):
            tilt = testcut.turned_cut_tilt(20e-3 + difference, 20e-3, height)
            assert decision.decide(tilt, -tolerance, tolerance, angle_doubt) == word, (height, difference)
    given = {"test_height": 0.05, "caliper_doubt": 0.2e-3, "square_tolerance": tolerance, "table_stop": False}
    coarse = text_of(sheets.make("worksheet", view() | {"test_cut": bench.worksheet(given.get, Printer())}, "A4"))
    assert "Stop bolt" not in coarse, coarse
    assert "never: finer calipers" in " ".join(coarse.split())
