"""Every figure: readable by all, true to the numbers, words apart, the same from run to run."""

import math
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import ImageFont

from sawside import units
from sawside.families.wood_band_saw import FAMILY
from sawside.families.wood_band_saw.figures import FIGURES
from sawside.families.wood_band_saw.figures.elevation import OFF
from sawside.figures import drawing as d
from sawside.figures import labels, lettering, svg
from sawside.printing import Printer

ROOT = Path(__file__).resolve().parents[1]
SPECS = {spec.name: spec for spec in FIGURES}
INCH = Printer(systems=dict.fromkeys(units.KINDS, "inch")).text
METRIC = Printer().text
SVG = "{http://www.w3.org/2000/svg}"


def lengthy(value, kind):
    """A shop whose every number prints as long as anything the units can print."""
    return value if isinstance(value, str) else "about 102 7/16 in"


def numbers(**given_values):
    """What is known of one small saw and its blade; the values derived here are plain geometry, not the package's."""
    v = {
        "wheel_diameter_upper": 0.35, "wheel_diameter_lower": 0.35, "centre_distance": 0.75, "cutting_height_max": 0.2,
        "lower_guide_below_table": 0.045, "throat": 0.34, "tyre_width": 0.025, "tyre_shape": "crowned",
        "blade_width": 0.013, "blade_thickness": 0.00065, "tooth_pitch": 25.4e-3 / 6, "gullet": 0.003, "kerf": 0.0011,
        "tooth_form": "regular", "maker_tracking": "gullet_centred", "side_guides": "block", "side_guide_contact": 0.01,
        "side_clearance": 1e-4, "thrust_gap": 3e-4, "guide_margin": 8e-4, "guide_post_gap": 0.01, "test_push": 30.0,
        "setting_deflection": 0.0062, "setting_push": 24.0, "push_distance": 0.005, "setting_tone": 90.4,
        "pluck_note": "F#2, 41 cents flat", "table_stop": True, "table_stop_arm": 0.09, "table_stop_pitch": 0.001,
        "square_tolerance": math.radians(0.1), "caliper_doubt": 2e-5, "coil_verdict": "three_loops", "teeth_least": 3.0,
        "teeth_most": 24.0, "strand_force": 1000.0, "youngs_modulus": 205e9, "poisson_ratio": 0.29,
        "work_height_max": 0.05, "fence": "adjustable", "fence_length": 0.3, "mitre_slot": True, "blade_length": 2.6,
    } | given_values  # fmt: skip
    r1, r2, c = v["wheel_diameter_upper"] / 2, v["wheel_diameter_lower"] / 2, v["centre_distance"]
    v["free_span"] = math.sqrt(c * c - (r1 - r2) ** 2)
    v["loop_length"] = 2 * v["free_span"] + math.pi * (r1 + r2) + 2 * (r1 - r2) * math.asin((r1 - r2) / c)
    v["body_width"] = v["blade_width"] - v["gullet"]
    v["guide_setback"] = v["gullet"] + v["guide_margin"]
    v["coil_diameter"] = v["blade_length"] / 3 / math.pi
    for school, line in (("gullet", v["tyre_width"] / 2),
                         ("blade", v["tyre_width"] / 2 - v["blade_width"] / 2 + v["gullet"])):  # fmt: skip
        v[f"gullet_line_{school}_school"] = line
        v[f"overhang_front_{school}_school"] = max(0.0, v["gullet"] - line, -line)
        v[f"overhang_back_{school}_school"] = max(0.0, v["body_width"] - (v["tyre_width"] - line))
    return v


def draw(name, show=METRIC, **given_values):
    spec, known = SPECS[name], numbers(**given_values)
    return spec.function(**{argument: known[need] for argument, need in spec.needs.items()}, show=show)


def label(drawing, words):
    """The one label of a drawing whose words begin so."""
    (found,) = [x for x in drawing.of(d.Label) if plain(x).startswith(words)]
    return found


def plain(shape):
    return " ".join(shape.lines).replace("\u00a0", " ")


def dimension_at(drawing, words):
    """The dimension that a label's leader points at."""
    end = label(drawing, words).leader[-1]
    return min(drawing.of(d.Dimension), key=lambda m: _distance(end, m.start, m.end))


def _distance(point, start, end):
    along = math.dist(start, end) or 1.0
    share = ((point[0] - start[0]) * (end[0] - start[0]) + (point[1] - start[1]) * (end[1] - start[1])) / along**2
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])))


EXTREMES = {
    "typical": {},
    "largest": {"wheel_diameter_upper": 1.6, "wheel_diameter_lower": 1.6, "centre_distance": 4.0, "throat": 1.5,
                "cutting_height_max": 1.5, "lower_guide_below_table": 0.3, "tyre_width": 0.2, "blade_width": 0.15,
                "blade_thickness": 0.0025, "gullet": 0.03, "tooth_pitch": 0.06, "kerf": 0.006, "tooth_form": "hook",
                "side_guides": "disc", "side_guide_contact": 0.08, "side_clearance": 1e-3, "thrust_gap": 2e-3,
                "guide_post_gap": 0.05, "fence": "fixed", "maker_tracking": "blade_centred", "tyre_shape": "flat",
                "coil_verdict": "hang_open", "blade_length": 12.0, "work_height_max": 1.2},
    "smallest": {"wheel_diameter_upper": 0.1, "wheel_diameter_lower": 0.1, "centre_distance": 0.15,
                 "cutting_height_max": 0.02, "lower_guide_below_table": 0.005, "throat": 0.05, "tyre_width": 0.005,
                 "blade_width": 0.003, "blade_thickness": 2e-4, "gullet": 7e-4, "tooth_pitch": 7e-4, "kerf": 3e-4,
                 "tooth_form": "skip", "side_guides": "roller", "side_clearance": 1e-5, "thrust_gap": 2e-5,
                 "guide_post_gap": 0.001, "fence": "none", "blade_length": 0.8, "table_stop": False},
    "unequal": {"wheel_diameter_upper": 0.1, "wheel_diameter_lower": 1.6, "centre_distance": 1.0, "tyre_width": 0.2,
                "blade_width": 0.003, "gullet": 0.0015},
    "overhanging": {"tyre_width": 0.005, "blade_width": 0.1},
    "little known": dict.fromkeys(("throat", "tyre_shape", "maker_tracking", "side_guide_contact", "kerf", "tooth_form",
                                   "test_push", "setting_deflection", "pluck_note", "square_tolerance", "table_stop",
                                   "table_stop_arm", "table_stop_pitch", "fence_length", "mitre_slot", "caliper_doubt",
                                   "coil_verdict", "work_height_max")),
}  # fmt: skip


@pytest.mark.parametrize("show", (METRIC, INCH, lengthy), ids=("metric", "inch", "lengthy"))
@pytest.mark.parametrize("case", EXTREMES)
@pytest.mark.parametrize("name", SPECS)
def test_words_stay_apart_and_inside(name, case, show):
    drawing = draw(name, show, **EXTREMES[case])
    assert labels.overlaps(drawing) == []
    assert labels.struck(drawing) == []


def lengths(low, high):
    return st.floats(low, high, allow_nan=False)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(upper=lengths(0.1, 1.6), ratio=lengths(0.5, 2.0), room=lengths(0.02, 1.5), wide=lengths(0.003, 0.1),
       tyre=lengths(0.005, 0.2), share=lengths(0.1, 0.6), pitch=lengths(0.0007, 0.06),
       show=st.sampled_from((METRIC, INCH)), gap=lengths(1e-5, 1e-3),
       guides=st.sampled_from(("roller", "block", "disc")))  # fmt: skip
def test_words_stay_apart_on_any_saw(upper, ratio, room, wide, tyre, share, pitch, show, gap, guides):
    lower = min(max(upper * ratio, 0.1), 1.6)
    known = {
        "wheel_diameter_upper": upper, "wheel_diameter_lower": lower,
        "centre_distance": (upper + lower) / 2 + 1.2 * room, "cutting_height_max": room, "blade_width": wide,
        "tyre_width": tyre, "gullet": share * wide, "tooth_pitch": pitch, "side_clearance": gap, "thrust_gap": 2 * gap,
        "side_guides": guides, "guide_post_gap": min(0.01, room / 4), "throat": upper * 0.9,
    }  # fmt: skip
    for name in SPECS:
        drawing = draw(name, show, **known)
        assert labels.overlaps(drawing) == []
        assert labels.struck(drawing) == []


def test_a_label_put_on_another_is_found():
    one = d.Label((5.0, 5.0), ("Upper wheel",))
    struck = d.Label((5.0, 40.0), ("Far below",), ((40.0, 42.0), (5.0, 6.0)))
    texts = (d.Text((6.0, 7.0), "250 mm"), d.Text((45.0, 20.0), "outside"), d.Text((5.0, 30.0), "tiny", 2.0))
    crowded = d.Drawing("x", "x", "x", 50.0, 50.0, (one, *texts, struck))
    wrong = " ".join(labels.overlaps(crowded))
    for kind in ("overlap: Upper wheel / 250 mm", "outside: outside", "smaller than 3.95 mm: tiny", "through: Upper"):
        assert kind in wrong
    crossed = d.Drawing("x", "x", "x", 50.0, 50.0, (one, d.Line((0.0, 7.0), (40.0, 7.0))))
    assert labels.struck(crossed) == ["Upper wheel"]


@pytest.mark.parametrize("weight", ("Regular", "Bold"))
@pytest.mark.parametrize("words", ("about 102 7/16 in", "Free strand between the wheels", "0.65 mm, 6 TPI", "W @ 50 %"))
def test_no_word_is_wider_than_reckoned(words, weight):
    """Measured in the typeface that the sheets carry: the advances in its font file, by an image library."""
    font = ImageFont.truetype(ROOT / "site_templates" / "sheets" / "fonts" / f"Inter-{weight}.ttf", 1000)
    real = font.getlength(words) / 1000
    assert real <= lettering.width(words, 1.0, weight == "Bold") <= 1.4 * real


@pytest.mark.parametrize("ink", ("currentColor", "#111111"))
@pytest.mark.parametrize("name", SPECS)
def test_the_file_is_well_formed_and_stands_alone(name, ink):
    drawing = draw(name)
    text = svg.text(drawing, ink)
    root = ET.fromstring(text)
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert root.get("role") == "img" and root.get("aria-labelledby").split() == ids and len(set(ids)) == 2
    assert root.find(f"{SVG}title").text == drawing.title and root.find(f"{SVG}desc").text == drawing.alt
    assert {e.tag.removeprefix(SVG) for e in root.iter()} <= {
        "svg", "title", "desc", "line", "polyline", "polygon", "circle", "path", "text"}  # fmt: skip
    attributes = {key for e in root.iter() for key in e.attrib}
    assert not attributes & {"href", "style", "class", "onload", "onclick"} and "url(" not in text
    colours = {e.get(key) for e in root.iter() for key in ("fill", "stroke")} - {None, "none"}
    assert colours == {ink}


@pytest.mark.parametrize("name", SPECS)
def test_the_same_numbers_give_the_same_bytes_and_others_do_not(name):
    assert svg.text(draw(name)) == svg.text(draw(name))
    assert svg.text(draw(name)) != svg.text(draw(name, show=lengthy))


def test_figures_of_two_machines_can_stand_on_one_page():
    one, two = (svg.text(draw("tooth", tooth_pitch=pitch)) for pitch in (0.004, 0.005))
    marks = [set(ET.fromstring(text).get("aria-labelledby").split()) for text in (one, two)]
    assert not marks[0] & marks[1]


#: Words of each alternative text, printed by hand from the numbers of `numbers()`.
TOLD = {
    "saw_elevation": ("350 mm", "750 mm", "2600 mm", "200 mm", "45 mm", "340 mm"),
    "saw_parts": ("750 mm", "upper wheel", "lower wheel", "upper guides", "table", "lower guides", "column"),
    "blade_on_tyre": ("25 mm", "13 mm", "12.5 mm", "9 mm", "nothing over the rim"),
    "guides_from_above": ("3.8 mm", "0.8 mm", "0.1 mm", "0.3 mm", "0.65 mm", "block"),
    "tooth": ("4.23 mm pitch", "3 mm", "1.1 mm", "0.65 mm"),
    "deflection_test": ("750 mm", "24 N", "5 mm", "30 N", "6.2 mm"),
    "pluck_spot": ("750 mm", "90.4 Hz", "F#2, 41 cents flat"),
    "table_and_square": ("0.1°", "90 mm", "13 mm"),
    "fence_drift": ("13 mm", "300 mm", "5.2 mm"),
    "test_piece": ("200 mm", "0.1°", "0.02 mm"),
    "coiling": ("2600 mm", "276 mm"),
    "pitch_chart": ("4.23 mm pitch", "12.7 mm to 102 mm", "3 to 24 teeth"),
    "height_chart": ("50 mm", "100 %"),
}


@pytest.mark.parametrize("name", SPECS)
def test_the_alternative_text_tells_the_numbers(name):
    alt = draw(name).alt.replace("\u00a0", " ")
    for told in TOLD[name]:
        assert told in alt, alt


def test_every_need_is_a_name_of_the_family():
    for spec in FIGURES:
        assert set(spec.needs.values()) <= FAMILY.names, spec.name
        assert set(spec.optional) <= set(spec.needs)
    assert len(SPECS) == len(FIGURES) == 13


@pytest.mark.parametrize("case", ("typical", "largest", "smallest", "unequal"))
def test_the_elevation_is_in_proportion(case):
    v, drawing = numbers(**EXTREMES[case]), draw("saw_elevation", **EXTREMES[case])
    centres = dimension_at(drawing, "Wheel centres")
    scale = centres.length / v["centre_distance"]
    for words, name in (("Upper wheel", "wheel_diameter_upper"), ("Lower wheel", "wheel_diameter_lower"),
                        ("Free strand", "free_span"), ("Largest height", "cutting_height_max"), ("Throat", "throat"),
                        ("Lower guides", "lower_guide_below_table")):  # fmt: skip
        assert dimension_at(drawing, words).length == pytest.approx(scale * v[name], rel=1e-6), words
    (band,) = [shape for shape in drawing.of(d.Polyline) if shape.stroke == d.BOLD]
    drawn = sum(map(math.dist, band.points, band.points[1:]))
    # lines set off outwards by OFF make any closed band longer by a full circle of that radius
    assert drawn - math.tau * OFF == pytest.approx(scale * v["loop_length"], rel=2e-3)


@pytest.mark.parametrize("case", ("typical", "largest", "smallest"))
def test_guides_and_table_stand_between_the_axles(case):
    drawing = draw("saw_elevation", **EXTREMES[case])
    height, below = dimension_at(drawing, "Largest height"), dimension_at(drawing, "Lower guides")
    centres = dimension_at(drawing, "Wheel centres")
    down = [centres.start[1], height.start[1], height.end[1], below.end[1], centres.end[1]]
    assert down == sorted(down) and below.start == height.end


#: A 25 mm tyre, gullets in the middle: 19 mm with 4 mm gullets hangs 2.5 mm off the back, 25 mm with 5 mm 7.5 mm; with
#: the blade in the middle both fit. Plain arithmetic: body width less half the tyre.
@pytest.mark.parametrize(("wide", "gullet", "hangs"), ((0.019, 0.004, 2.5), (0.025, 0.005, 7.5)))
def test_the_overhang_is_drawn_in_scale(wide, gullet, hangs):
    drawing = draw("blade_on_tyre", blade_width=wide, gullet=gullet)
    rims = [p for p in drawing.of(d.Polygon) if p.fill == d.HATCH]
    scale = (max(x for x, _ in rims[0].points) - min(x for x, _ in rims[0].points)) / 25.0
    (hang,) = drawing.of(d.Dimension)
    assert hang.length / scale == pytest.approx(hangs)
    bodies = [p for p in drawing.of(d.Polygon) if p.fill == d.SHADE]
    edge = max(x for x, _ in rims[0].points)
    assert max(x for x, _ in bodies[0].points) == pytest.approx(edge + hangs * scale)
    assert all(edge >= x for x, _ in bodies[1].points)
    assert "2.5 mm over the rim" in drawing.alt or hangs != 2.5


def stated(drawing, words):
    """The scale a foot line states after some words, as a factor of life size."""
    text = " ".join(t.text for t in drawing.of(d.Text)).replace("\u00a0", " ")
    ratio = text.split(words, 1)[1].split()[0].rstrip(".,;")
    over, under = map(float, ratio.split(":"))
    return 1000 * over / under


@pytest.mark.parametrize("case", ("typical", "largest", "smallest"))
def test_guides_are_drawn_at_the_scales_they_state(case):
    v, drawing = numbers(**EXTREMES[case]), draw("guides_from_above", **EXTREMES[case])
    along = stated(drawing, "Along the blade ")
    for words, name, scale in (
        ("Side guide behind the tooth", "guide_setback", along),
        ("Side guide behind the gullets", "guide_margin", along),
        ("Gap on each side", "side_clearance", stated(drawing, "gap on each side ")),
        ("Gap to the thrust", "thrust_gap", stated(drawing, "gap to the thrust bearing ")),
    ):  # fmt: skip
        assert dimension_at(drawing, words).length == pytest.approx(scale * v[name], rel=1e-3), words
    body = next(p for p in drawing.of(d.Polygon) if p.fill == d.SHADE)
    xs, ys = zip(*body.points, strict=True)
    assert max(ys) - min(ys) == pytest.approx(along * v["body_width"])
    assert max(xs) - min(xs) == pytest.approx(stated(drawing, "thickness ") * v["blade_thickness"], rel=1e-3)


def test_each_kind_of_guide_looks_different():
    kinds = ("roller", "block", "disc")
    pictures = {kind: svg.text(draw("guides_from_above", side_guides=kind)).split("</desc>")[1] for kind in kinds}
    assert len({picture.replace(kind, "") for kind, picture in pictures.items()}) == 3


@pytest.mark.parametrize("form", ("regular", "skip", "hook"))
def test_teeth_are_drawn_at_the_scale_they_state(form):
    v, drawing = numbers(), draw("tooth", tooth_form=form)
    side, across = stated(drawing, "From the side "), stated(drawing, "end on ")
    assert dimension_at(drawing, "Teeth").length == pytest.approx(side * v["tooth_pitch"])
    assert dimension_at(drawing, "Gullet depth").length == pytest.approx(side * v["gullet"])
    assert dimension_at(drawing, "Kerf").length == pytest.approx(across * v["kerf"])
    assert dimension_at(drawing, "Blade thickness").length == pytest.approx(across * v["blade_thickness"])
    body = max(drawing.of(d.Polygon), key=lambda p: len(p.points))
    tips = [x for x, y in body.points if y == pytest.approx(min(y for _, y in body.points))]
    steps = [b - a for a, b in zip(tips, tips[1:])]
    assert len(tips) >= 2 and steps == pytest.approx([side * v["tooth_pitch"]] * len(steps))


def test_the_push_is_drawn_five_millimetres_aside():
    drawing = draw("deflection_test")
    assert dimension_at(drawing, "to move it aside by").length == pytest.approx(0.005 * stated(drawing, "Sideways "))


#: 6 TPI has three teeth in 12.7 mm of work (25.4 / 6 x 3), the three-tooth rule of an open textbook's chapter on saws.
def test_the_pitch_chart_meets_the_three_tooth_rule():
    drawing = draw("pitch_chart")
    span = next(iter(drawing.of(d.Dimension)))
    (rough,) = [p for p in drawing.of(d.Polygon) if p.fill == d.HATCH]
    own = next(line.start[1] for line in drawing.of(d.Line) if line.stroke == d.BOLD)
    meets = next(a[0] + (b[0] - a[0]) * (own - a[1]) / (b[1] - a[1])
                 for a, b in zip(rough.points, rough.points[1:]) if (a[1] - own) * (b[1] - own) < 0)  # fmt: skip
    assert meets == pytest.approx(span.start[0], abs=0.01)
    words = [(t.text.replace("\u00a0", " "), t.at[0]) for t in drawing.of(d.Text) if t.at[1] > own]
    ticks = [(float(text.removesuffix(" mm")), at) for text, at in words if re.fullmatch(r"\d+ mm", text)]
    (low, here), (high, there) = min(ticks), max(ticks)  # the axis is logarithmic between the first and the last tick
    drawn = low * (high / low) ** ((span.start[0] - here) / (there - here))
    assert drawn == pytest.approx(12.7, rel=1e-6)


#: 50 mm work, lower guides 45 mm below the table, 13 x 0.65 mm at 100 MPa: 17.8 N/mm with the guides 10 mm above the
#: work and 9.1 N/mm at 100 mm, from the closed formula that beam and plate finite elements had confirmed.
def test_the_height_chart_falls_as_the_stiffness_does():
    drawing = draw("height_chart", cutting_height_max=0.15, strand_force=650.0)
    (curve,) = [p.points for p in drawing.of(d.Polyline) if p.stroke == d.BOLD]
    (foot,) = {p.points[-1][1] for p in drawing.of(d.Polygon) if p.fill == d.TINT}
    assert (foot - curve[-1][1]) / (foot - curve[0][1]) == pytest.approx(9.1 / 17.8, rel=0.01)
    assert [a[1] < b[1] for a, b in zip(curve, curve[1:])] == [True] * (len(curve) - 1)


def turning_number(points):
    """How often a closed run of points turns round, from its angles alone."""
    angles = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in zip(points, points[1:])]
    turns = [(b - a + math.pi) % math.tau - math.pi for a, b in zip(angles, angles[1:] + angles[:1])]
    return round(sum(turns) / math.tau)


def test_folding_goes_from_one_turn_to_three():
    """A flat untwisted loop can only lie in an odd number of turns: one before, three after folding."""
    drawing = draw("coiling")
    loops = [p.points for p in drawing.of(d.Polyline) if len(p.points) > 100]  # the others are hands
    assert [turning_number(points) for points in loops] == [1, 3, 3, 1, 3, 3], "in the hands, then with a foot"
    assert dimension_at_any(drawing).length == pytest.approx(19.0)


def dimension_at_any(drawing):
    (only,) = drawing.of(d.Dimension)
    return only


@pytest.mark.parametrize(("verdict", "title"), ((None, "Storing the blade"), ("hang_open", "Storing the blade"),
                                                ("three_loops", "Folding the blade")))  # fmt: skip
def test_a_blade_is_folded_only_when_it_is_known_to_bear_it(verdict, title):
    drawing = draw("coiling", coil_verdict=verdict)
    assert drawing.title == title
    assert ("Do not fold" in drawing.alt) == (title == "Storing the blade")


def test_the_test_piece_shows_the_error_twice():
    """Turned end for end with the same face down, a lean of one cut shows as twice that lean between both."""
    drawing = draw("test_piece")
    first, _, last = [p.points for p in drawing.of(d.Polygon) if p.fill == d.TINT][-3:]
    lean = first[1][0] - first[2][0]
    wider = (last[1][0] - last[0][0]) - (last[2][0] - last[3][0])
    assert lean > 0 and wider == pytest.approx(2 * lean)
    corners = {t.text for t in drawing.of(d.Text) if t.strong}
    assert {"FT", "FB", "BT", "BB"} <= corners


def test_a_saw_without_a_stop_bolt_shows_none():
    with_bolt, without = draw("table_and_square"), draw("table_and_square", table_stop=False)
    assert "stop bolt" in with_bolt.alt and "stop bolt" not in without.alt
    assert len(with_bolt.shapes) > len(without.shapes)
    assert INCH(math.atan2(0.001, 0.09), "angle") in with_bolt.alt


FENCES = (("adjustable", "set the fence"), ("fixed", "cannot be turned"), ("none", "no fence"))


@pytest.mark.parametrize(("fence", "says"), FENCES)
def test_the_fence_is_told_as_it_is(fence, says):
    assert says in draw("fence_drift", fence=fence).alt
