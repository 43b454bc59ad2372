"""Tables of numbers entered a second time, row by row, from the printed source: a slip of the pen shows as a difference."""

import pytest

from sawside.calc import tables

#: Wood Handbook FPL-GTR-282 (2021), Tables 5-3a and 5-3b at 12 % moisture (read second-hand in two copies): specific gravity,
#: side hardness in pounds, in newtons; a dash where a table does not print the wood.
WOODS = """
quaking aspen 0.38 350 1600 | western red cedar 0.32 350 - | basswood 0.37 410 1800 | baldcypress 0.46 510 2300
yellow-poplar 0.42 540 2400 | red alder 0.41 590 2600 | Port-Orford cedar 0.43 630 - | Douglas-fir, interior west 0.50 660 2900
Douglas-fir, coast 0.48 710 3200 | silver maple 0.47 700 - | bigleaf maple 0.48 850 - | red maple 0.54 950 -
sugar maple 0.63 1450 6400 | northern red oak 0.63 1290 5700 | white oak 0.68 1360 6000 | cherrybark oak 0.68 1480 -
American beech 0.64 1300 5800 | white ash 0.60 1320 5900 | green ash 0.56 1200 5300 | black ash 0.49 850 -
sweet birch 0.65 1470 - | paper birch 0.55 910 4000 | black locust 0.69 1700 - | black cherry 0.50 - 4200
American elm 0.50 - 3700 | shagbark hickory 0.72 - 8400 | sweetgum 0.52 - 3800 | longleaf pine 0.59 - 3900
loblolly pine 0.51 - 3100 | western hemlock 0.45 - 2400 | western larch 0.52 - 3700 | lodgepole pine 0.41 - 2100
jack pine 0.43 - 2500 | Sitka spruce 0.40 - 2300 | redwood, old growth 0.40 - 2100 | balsam fir 0.35 - 1700
white fir 0.39 - 2100 | Engelmann spruce 0.35 - 1750 | grand fir 0.37 - 2200
"""
#: Smallest radius by width, both in inches, as fractions: a home-improvement article, two saw makers' manuals (read).
RADII = {
    "home-improvement article": "1/8 3/16, 3/16 5/16, 1/4 5/8, 3/8 3/2, 1/2 5/2, 3/4 11/2, 1 7",
    "saw maker's manual, 18 in saw": "1/8 1/8, 3/16 3/8, 1/4 5/8, 3/8 5/4, 1/2 5/2, 5/8 15/4, 3/4 11/2",
    "saw maker's manual, larger saw": "1/4 5/8, 3/8 11/8, 1/2 5/2, 5/8 4, 3/4 11/2, 1 61/8, 5/4 79/8",
}


def number(text: str) -> float:
    top, _, below = text.partition("/")
    return float(top) / float(below or 1)


def test_woods():
    rows = [part.split() for line in WOODS.strip().splitlines() for part in line.split("|")]
    wanted = {" ".join(words[:-3]): tuple(None if w == "-" else float(w) for w in words[-3:]) for words in rows}
    assert {row.name: (row.gravity, row.hardness_lbf, row.hardness_n) for row in tables.SPECIES} == wanted


def test_woods_in_both_units_agree_within_the_rounding_of_print():
    both = [row for row in tables.SPECIES if row.hardness_lbf and row.hardness_n]
    assert len(both) == 14
    # Pounds are printed to 10, newtons to 100 (one to 50): half of both steps.
    assert all(abs(row.hardness_lbf * tables.POUND_FORCE - row.hardness_n) <= 50 + 5 * tables.POUND_FORCE for row in both)


def test_radii():
    for table, text in RADII.items():
        wanted = [tuple(map(number, pair.split())) for pair in text.split(", ")]
        assert [(row.width_in, row.radius_in) for row in tables.RADIUS_TABLES if row.table == table] == wanted
    assert len(tables.RADIUS_TABLES) == 21


def test_speed_windows():
    # US Navy course on saw bands (read); Drvna industrija 2016, abstract (read); the shop's and plastics' are practice.
    wanted = [(50 * 0.3048 / 60, 1500 * 0.3048 / 60), (13, 25), (20, 40), (5, 15)]
    assert [window.window for window in tables.SPEED_WINDOWS] == [pytest.approx(pair) for pair in wanted]
