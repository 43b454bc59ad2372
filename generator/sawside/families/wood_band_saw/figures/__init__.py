"""Every figure drawn for a wood band saw, each from numbers alone; what a figure needs are its argument names."""

from sawside.families.wood_band_saw.figures.charts import height_chart, pitch_chart
from sawside.families.wood_band_saw.figures.coiling import coiling
from sawside.families.wood_band_saw.figures.elevation import saw_elevation, saw_parts
from sawside.families.wood_band_saw.figures.guides import guides_from_above
from sawside.families.wood_band_saw.figures.pieces import test_piece
from sawside.families.wood_band_saw.figures.strand import deflection_test, pluck_spot
from sawside.families.wood_band_saw.figures.table import fence_drift, table_and_square
from sawside.families.wood_band_saw.figures.tooth import tooth
from sawside.families.wood_band_saw.figures.tyre import blade_on_tyre
from sawside.figures.spec import FigureSpec, figure

FIGURES: tuple[FigureSpec, ...] = tuple(figure(draw) for draw in (
    saw_elevation, saw_parts, blade_on_tyre, guides_from_above, tooth, deflection_test, pluck_spot, table_and_square,
    fence_drift, test_piece, coiling, pitch_chart, height_chart,
))  # fmt: skip
