"""What the search can find: cut at headings, nothing from scripts and menus, blades by the names people use."""

from sawside.families.wood_band_saw import naming
from sawside.outputs import finder


def test_leaves_out_what_people_do_not_look_for():
    html = "<nav>Menu</nav><h1>Saw</h1><nav>Pages</nav><p>Big<script>var x</script> wheel</p><svg><text>drawn</text></svg>"
    assert finder.places("a.html", "Saw", html) == [("a.html", "Saw", "Saw", "Big wheel", "")]


def test_keeps_neighbouring_cells_apart_and_words_together():
    html = "<h1>S</h1><table><tr><td>1/2</td><td>x</td></tr></table><p>ti<b>gh</b>ten</p>"
    assert finder.places("a.html", "S", html)[0][3] == "1/2 x tighten"


def test_a_place_is_the_nearest_id():
    html = "<section id='a'><h2>A</h2></section><h2 id='b'>B</h2><h2>C</h2>"
    assert [place[0] for place in finder.places("p.html", "P", html)] == ["p.html#a", "p.html#b", "p.html"]


def test_trade_names_of_blades():
    # Widths that band blades are sold in, in inches: common practice, no source.
    inch, six = 25.4e-3, 25.4e-3 / 6
    for width, name in (
        (inch / 8, "1/8"),
        (inch / 4, "1/4"),
        (inch * 3 / 8, "3/8"),
        (inch / 2, "1/2"),
        (inch, "1"),
        (inch * 1.25, "1 1/4"),
    ):
        assert naming.also_written(width, six)[0] == f"{name} x 6"
    for width, name in ((0.006, "1/4"), (0.010, "3/8"), (0.013, "1/2"), (0.016, "5/8"), (0.025, "1")):
        written = naming.also_written(width, six)
        assert f"{name} x 6" in written and f"{width * 1e3:g} x 6" in written
    assert naming.also_written(0.0175, inch / 1.3) == ["18 x 1.3", "17.5 x 1.3"]
