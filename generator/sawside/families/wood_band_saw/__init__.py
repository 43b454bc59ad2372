"""Band saws for wood: what is measured, what is computed, how a blade is judged, and what is drawn."""

from sawside import values as graph
from sawside.families.family import Family
from sawside.families.wood_band_saw import buying, figures, naming, record
from sawside.families.wood_band_saw.impossible import impossible
from sawside.families.wood_band_saw.judge import judge, limited
from sawside.families.wood_band_saw.margins import grades, margins, reason, separates
from sawside.families.wood_band_saw.shows import SHOWS
from sawside.families.wood_band_saw.values import VALUES
from sawside.families.wood_band_saw.words import WORDS

_FIELDS = record.MACHINE + record.BLADE + record.JOB + record.ASSUMPTIONS

FAMILY = Family(
    key="wood_band_saw",
    title="Band saws for wood",
    machine=record.MACHINE,
    blade=record.BLADE,
    job=record.JOB,
    assumptions=record.ASSUMPTIONS,
    values=VALUES,
    ordered=graph.order(VALUES, {field.name for field in _FIELDS}),
    words=WORDS,
    judge=judge,
    margins=margins,
    grades=grades,
    reason=reason,
    separates=separates,
    what_to_buy=buying.what_to_buy,
    few_blades=buying.fewest_words,
    sources_differ=buying.sources_differ,
    limited=limited,
    blade_words=naming.blade_words,
    job_words=naming.job_words,
    bigger="blade_width",
    figures=figures.FIGURES,
    impossible=impossible,
    shows=SHOWS,
)
