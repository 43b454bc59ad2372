"""The first page of every kind of sheet looks as it did when somebody last looked at it.

The pictures in tests/golden were made by `make golden`; after a wanted change make them anew, look at each, and read the diff.
"""

import io
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageStat

from sawside.kinds import sheet_kinds as kinds
from sawside.outputs import publishing, sheets
from sheet_views import fit_for, view

GOLDEN = Path(__file__).parent / "golden"
#: Grey levels of 255 a page may differ by on average, and the share of its points that may differ visibly: room for a
#: newer layout engine that moves a letter by a hair, not for a line that moves.
MEAN, SHARE, VISIBLE = 1.5, 0.01, 48


@pytest.mark.parametrize("kind, size", [*((kind, "A4") for kind in kinds.KINDS), ("wall", "A5 on A4"), ("guide", "A5 on A4")])
def test_the_first_page_looks_as_before(kind, size, golden):
    made = sheets.make(kind, view() | fit_for(kind), publishing.paper_for(kind, size))
    file = GOLDEN / f"{kind}{'' if size == 'A4' else '_in_pairs'}.png"
    if golden:
        GOLDEN.mkdir(exist_ok=True)
        file.write_bytes(made.preview)
    now, before = (Image.open(data).convert("L") for data in (io.BytesIO(made.preview), file))
    assert now.size == before.size
    difference = ImageChops.difference(now, before)
    changed = sum(difference.histogram()[VISIBLE:]) / (now.width * now.height)
    assert ImageStat.Stat(difference).mean[0] < MEAN and changed < SHARE, f"{kind}: {changed:.1%} of the page has changed"


def test_a_moved_line_would_be_seen():
    before = Image.open(GOLDEN / "wall.png").convert("L")
    moved = before.copy()
    moved.paste(before.crop((0, 300, before.width, before.height - 6)), (0, 306))
    difference = ImageChops.difference(before, moved)
    assert sum(difference.histogram()[VISIBLE:]) / (before.width * before.height) > SHARE
