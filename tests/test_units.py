"""How a shop writes a quantity and how it is printed: tables of both, held against published sizes of units.

Sources: SP 811 = NIST Special Publication 811 (2008), appendix B, conversion factors; 1959 = international yard and
pound agreement (1 in = 25.4 mm, 1 lb = 0.45359237 kg, both exact). Their figures are quoted from memory; psi and
horsepower were compared with two second-hand tables. Inch cases without a remark are sums on 25.4 mm.
"""

import math
import re
import subprocess
import sys
import time
import unicodedata
from fractions import Fraction
from pathlib import Path

import pytest

from sawside import fields, shop, units
from sawside.families.wood_band_saw import record
from sawside.families.wood_band_saw.values import VALUES
from sawside.units.names import WORDS, factor

READ = [
    # written, takes, SI, system
    ("25 mm", "length", 0.025, "metric"),
    ("25mm", "length", 0.025, "metric"),
    ("  25 mm ", "length", 0.025, "metric"),
    ("25\u00a0mm", "length", 0.025, "metric"),
    ("338 cm", "length", 3.38, "metric"),
    ("3.38 m", "length", 3.38, "metric"),
    ("3380 mm", "length", 3.38, "metric"),
    ("20 um", "length", 20e-6, "metric"),
    ("20 µm", "length", 20e-6, "metric"),
    ("20 \u03bcm", "length", 20e-6, "metric"),
    ("-3 mm", "length", -0.003, "metric"),
    ("\u22123 mm", "length", -0.003, "metric"),
    ("+3 mm", "length", 0.003, "metric"),
    ("6.5e-1 mm", "length", 0.65e-3, "metric"),
    ("1 in", "length", 0.0254, "inch"),
    ("1 1/2 in", "length", 0.0381, "inch"),
    ("1  1/2 in", "length", 0.0381, "inch"),
    ("1 1\u20442 in", "length", 0.0381, "inch"),
    ("1 1/2in", "length", 0.0381, "inch"),
    ("1-1/2 in", "length", 0.0381, "inch"),
    ("1\u20131/2 in", "length", 0.0381, "inch"),
    ("1½ in", "length", 0.0381, "inch"),
    ("1 ½ in", "length", 0.0381, "inch"),
    ("1-½ in", "length", 0.0381, "inch"),
    ("½ in", "length", 0.0127, "inch"),
    ("-1 1/2 in", "length", -0.0381, "inch"),
    ("-½ in", "length", -0.0127, "inch"),
    ("1.5 inches", "length", 0.0381, "inch"),
    ('1.5"', "length", 0.0381, "inch"),
    ('1 1/2"', "length", 0.0381, "inch"),
    ("1 1/2”", "length", 0.0381, "inch"),
    ("1 1/2″", "length", 0.0381, "inch"),
    (".004 in", "length", 0.0001016, "inch"),
    ("4 thou", "length", 0.0001016, "inch"),
    ("93 1/2 in", "length", 2.3749, "inch"),
    ("8/16 in", "length", 0.0127, "inch"),
    ("5 ft", "length", 1.524, "inch"),
    ("5 ft 3 1/2 in", "length", 1.6129, "inch"),
    ("5' 3 1/2\"", "length", 1.6129, "inch"),
    ("5'3½\"", "length", 1.6129, "inch"),
    ("5’ 3.5”", "length", 1.6129, "inch"),
    ("5′ 3-1/2″", "length", 1.6129, "inch"),
    ("-5 ft 3 1/2 in", "length", -1.6129, "inch"),
    ("5'1/2\"", "length", 1.5367, "inch"),
    ("5 1/2 ft", "length", 1.6764, "inch"),
    ("6 tpi", "pitch", 0.0254 / 6, "inch"),
    ("6 TPI", "pitch", 0.0254 / 6, "inch"),
    ("6tpi", "pitch", 0.0254 / 6, "inch"),
    ("1.3 tpi", "pitch", 0.0254 / 1.3, "inch"),
    ("6 teeth/in", "pitch", 0.0254 / 6, "inch"),
    ("6 teeth per inch", "pitch", 0.0254 / 6, "inch"),
    ("4.2 mm pitch", "pitch", 0.0042, "metric"),
    ("4.2 mm", "pitch", 0.0042, "metric"),
    ("1/4 in pitch", "pitch", 0.00635, "inch"),
    ("3/4 in", "pitch", 0.01905, "inch"),
    ("30 N", "force", 30.0, "metric"),
    ("1.2 kN", "force", 1200.0, "metric"),
    ("10 lbf", "force", 44.48222, "inch"),  # SP 811: 1 lbf = 4.448222 N
    ("5 kg", "force", 49.03325, "metric"),  # what a luggage scale shows, as a force: SP 811, kilogram-force
    ("10 lb", "force", 44.48222, "inch"),  # SP 811: pound-force
    ("5 kgf", "force", 49.03325, "metric"),  # SP 811: 1 kgf = 9.80665 N exactly
    ("15000 psi", "stress", 103.42136e6, "inch"),  # SP 811: 1 psi = 6894.757 Pa
    ("15 ksi", "stress", 103.42136e6, "inch"),
    ("29.7 Mpsi", "stress", 204.7743e9, "inch"),
    ("103 MPa", "stress", 103e6, "metric"),
    ("205 GPa", "stress", 205e9, "metric"),
    ("103 N/mm2", "stress", 103e6, "metric"),
    ("103 N/mm²", "stress", 103e6, "metric"),
    ("103 N/mm^2", "stress", 103e6, "metric"),
    ("103 N / mm2", "stress", 103e6, "metric"),
    ("850 rpm", "rotation", 850 / 60, "none"),
    ("850 RPM", "rotation", 850 / 60, "none"),
    ("1400 1/min", "rotation", 1400 / 60, "none"),
    ("1400 /min", "rotation", 1400 / 60, "none"),
    ("1400 min-1", "rotation", 1400 / 60, "none"),
    ("2 rev/s", "rotation", 2.0, "none"),
    ("15 m/s", "speed", 15.0, "metric"),
    ("900 m/min", "speed", 15.0, "metric"),
    ("3000 ft/min", "speed", 15.24, "inch"),  # SP 811: 1 ft/min = 5.08e-3 m/s exactly
    ("4000 fpm", "speed", 20.32, "inch"),
    ("0.1 deg", "angle", math.pi / 1800, "none"),
    ("0.1°", "angle", math.pi / 1800, "none"),
    ("2 mrad", "angle", 0.002, "none"),
    ("750 W", "power", 750.0, "metric"),
    ("0.75 kW", "power", 750.0, "metric"),
    ("1 hp", "power", 745.6999, "inch"),  # SP 811: horsepower (550 ft lbf/s) = 745.6999 W
    ("1 1/2 HP", "power", 1118.5498, "inch"),
    ("40 N/mm", "spring_rate", 40e3, "metric"),
    ("10 lbf/in", "spring_rate", 1751.268, "inch"),  # SP 811: 1 lbf/in = 175.1268 N/m
    ("7850 kg/m3", "density", 7850.0, "metric"),
    ("7.85 g/cm³", "density", 7850.0, "metric"),
    ("1 lb/in3", "density", 27679.90, "inch"),  # SP 811: 1 lb/in3 = 2.767990e4 kg/m3
    ("11.7e-6 /K", "per_temperature", 11.7e-6, "metric"),
    ("11.7e-6 1/K", "per_temperature", 11.7e-6, "metric"),
    ("11.7e-6 / °C", "per_temperature", 11.7e-6, "metric"),
    ("6.5e-6 /degF", "per_temperature", 11.7e-6, "inch"),  # 1 °F = 5/9 K exactly
    ("20 K", "temperature_difference", 20.0, "metric"),
    ("20 °C", "temperature_difference", 20.0, "metric"),
    ("36 degF", "temperature_difference", 20.0, "inch"),
    ("2 kg", "mass", 2.0, "metric"),
    ("1 lb", "mass", 0.45359237, "inch"),  # 1959, exactly
    ("16 oz", "mass", 0.45359237, "inch"),
    ("30 s", "time", 30.0, "none"),
    ("2 min", "time", 120.0, "none"),
    ("40 J/cm3", "pressure_work", 40e6, "metric"),
    ("40 MPa", "pressure_work", 40e6, "metric"),
    ("12 N/mm", "force_per_width", 12e3, "metric"),
    ("0.29", "number", 0.29, "none"),
    ("40 %", "number", 0.4, "none"),
    ("1/2", "number", 0.5, "none"),
    ("½", "number", 0.5, "none"),
]


@pytest.mark.parametrize(("written", "takes", "si", "system"), READ, ids=[f"{case[0]}, {case[1]}" for case in READ])
def test_what_is_read(written, takes, si, system):
    reading = units.read(written, takes)
    rounded_in_print = system == "inch" and takes not in ("length", "pitch")
    assert reading.value == pytest.approx(si, rel=3e-7 if rounded_in_print else 1e-15)
    assert reading.plus_minus is None
    assert reading.system == system


def test_kilograms_and_pounds_are_a_pull_only_where_a_force_is_asked():
    """SP 811, kilogram-force 9.80665 N; a mass stays a mass, a doubt goes with its value."""
    weighed = units.read("12 kg +/- 1 kg", "force")
    assert (weighed.value, weighed.plus_minus) == pytest.approx((117.6798, 9.80665), rel=1e-12)
    assert units.read("12 kg", "mass").value == 12
    for takes in set(units.UNITS) - {"force", "mass"}:
        assert not {"kg", "lb"} & set(units.UNITS[takes]), takes


def test_nought_has_no_sign():
    assert math.copysign(1, units.read("-0 mm", "length").value) == 1


def test_sizes_of_the_inch_units_are_exact():
    """From the definitions alone: 1959 for inch and pound, 9.80665 m/s2 for the pound as a force, 550 ft lbf/s."""
    inch, pound = Fraction("0.0254"), Fraction("0.45359237")
    force = pound * Fraction("9.80665")
    for expression, si, size in (
        ("inch", "meter", inch),
        ("foot", "meter", 12 * inch),
        ("thou", "meter", inch / 1000),
        ("foot/minute", "meter/second", 12 * inch / 60),
        ("turn/minute", "turn/second", Fraction(1, 60)),
        ("pound", "kilogram", pound),
        ("ounce", "kilogram", pound / 16),
        ("force_pound", "newton", force),
        ("force_pound/inch", "newton/meter", force / inch),
        ("psi", "pascal", force / inch**2),
        ("ksi", "pascal", 1000 * force / inch**2),
        ("megapsi", "pascal", 10**6 * force / inch**2),
        ("horsepower", "watt", 550 * 12 * inch * force),
        ("pound/inch**3", "kilogram/meter**3", pound / inch**3),
        ("force_kilogram", "newton", Fraction("9.80665")),
        ("delta_degree_Fahrenheit", "kelvin", Fraction(5, 9)),
    ):
        assert factor(expression, si) == size, expression


def test_every_fraction_sign():
    signs = [
        chr(code)
        for code in (*range(0xA0, 0x100), *range(0x2000, 0x2200))
        if unicodedata.name(chr(code), "").startswith("VULGAR FRACTION")
    ]
    signs.remove("↉")  # nought thirds
    assert len(signs) == 18
    for sign in signs:
        expected = 2 + unicodedata.numeric(sign)
        assert units.read(f"2{sign} in", "length").value == pytest.approx(expected * 0.0254, rel=1e-14)


def test_inches_are_exact_to_the_last_bit():
    """1959: 1 in = 25.4 mm exactly; the float is the nearest there is, not the last of a row of products."""
    for sixty_fourths in range(1, 64 * 12):
        whole, part = divmod(sixty_fourths, 64)
        written = " ".join(str(n) for n in (whole, Fraction(part, 64)) if n) + " in"
        assert units.read(written, "length").value == float(Fraction(sixty_fourths, 64) * Fraction(254, 10000))


@pytest.mark.parametrize(
    ("written", "takes", "doubt"),
    [
        ("0.65 mm +/- 0.02 mm", "length", 0.02e-3),
        ("0.65 mm ± 0.02 mm", "length", 0.02e-3),
        ("0.65mm±20um", "length", 0.02e-3),
        ("1 1/2 in +/- 1/64 in", "length", 0.0254 / 64),
        ("5 ft 3 in +/- 1/8 in", "length", 0.0254 / 8),
        ("25 mm +/- 1/64 in", "length", 0.0254 / 64),
        ("25 mm +/- 0 mm", "length", 0.0),
        ("850 rpm +/- 6 rpm", "rotation", 0.1),
        ("0.29 +/- 0.01", "number", 0.01),
        ("6 tpi +/- 0.05 mm", "pitch", 0.05e-3),
    ],
)
def test_doubts(written, takes, doubt):
    assert units.read(written, takes).plus_minus == pytest.approx(doubt, rel=1e-15)


def test_doubt_of_teeth_per_inch_becomes_a_doubt_of_pitch():
    """6 +/- 0.1 teeth in an inch: the pitch lies between 1/6.1 and 1/5.9 in; half of that, to first order."""
    half = (1 / 5.9 - 1 / 6.1) / 2 * 0.0254
    assert units.read("6 tpi +/- 0.1 tpi", "pitch").plus_minus == pytest.approx(half, rel=1e-3)


REFUSED = [
    # written, takes, words of the reason, words of the hint, part that is underlined
    ("25", "length", "has no unit", "write 25 mm or 25 in", "25"),
    ("1/2", "length", "has no unit", "write 1/2 in", "1/2"),
    ("½", "length", "has no unit", "write ½ in", "½"),
    ("6", "pitch", "has no unit", "write 6 tpi or 6 mm pitch", "6"),
    ("1 1/2 mm", "length", "fraction with a metric unit", "write 1.5 mm", "1 1/2 mm"),
    ("3/2 in", "length", "not how a ruler is read", "write 1 1/2 in", "3/2 in"),
    ("4/4 in", "length", "not how a ruler is read", "write 1 in", "4/4 in"),
    ("1 5/4 in", "length", "not how a ruler is read", "write 2 1/4 in", "1 5/4 in"),
    ("0/4 in", "length", "not how a ruler is read", "write 0 in", "0/4 in"),
    ("1/0 in", "length", "divides by 0", "1 1/2 in", "1/0"),
    ("1.5 1/2 in", "length", "more than one number", "1 1/2 in", "1.5 1/2 in"),
    ("1 / 2 in", "length", "gap", "1/2 in", "1 / 2 in"),
    ("0,65 mm", "length", "has a comma", "write 0.65 mm", "0,65 mm"),
    ("12,5 mm", "length", "has a comma", "write 12.5 mm", "12,5 mm"),
    ("0,650 mm", "length", "has a comma", "write 0.650 mm", "0,650 mm"),
    ("1,925 mm", "length", "two ways", "write 1925 mm or 1.925 mm", "1,925 mm"),
    ("1,925.5 mm", "length", "has a comma", "1925.5 mm", "1,925.5 mm"),
    ("1.925,5 mm", "length", "has a comma", "1925.5 mm", "1.925,5 mm"),
    ("0,4", "number", "has a comma", "write 0.4", "0,4"),
    ("15 000 psi", "stress", "more than one number", "write 15000 psi", "15 000 psi"),
    ("1'925 mm", "length", "feet", "5 ft 3 1/2 in", "1'925 mm"),
    ("5 ft 6", "length", "no unit after", "write 5 ft 6 in", "5 ft 6"),
    ("5 ft 14 in", "length", "12 or more inches", "fewer than 12", "5 ft 14 in"),
    ("5 ft 12 in", "length", "12 or more inches", "fewer than 12", "5 ft 12 in"),
    ("5.5 ft 3 in", "length", "more than one number", "only feet and inches", "5.5 ft 3 in"),
    ("3 m 2 cm", "length", "more than one number", "one number and one unit", "3 m 2 cm"),
    ("6-10 mm", "length", "more than one number", "one value", "6-10 mm"),
    ("1 - 1/2 in", "length", "more than one number", "one value", "1 - 1/2 in"),
    ("6/10 tpi", "pitch", "mixed pitch", "25.4 mm", "6/10 tpi"),
    ("14/10 tpi", "pitch", "mixed pitch", "25.4 mm", "14/10 tpi"),
    ("4-6 tpi", "pitch", "mixed pitch", "25.4 mm", "4-6 tpi"),
    ("0 tpi", "pitch", "0 teeth", "6 tpi", "0 tpi"),
    ("6 / in", "pitch", "not clear", "6 tpi", "/ in"),
    ("6 tpi", "length", "is a tooth pitch", "25 mm", "6 tpi"),
    ("0.6 m/s", "length", "is a speed", "25 mm", "0.6 m/s"),
    ("5 ft 3 in", "speed", "is a length", "m/s", "5 ft 3 in"),
    ("25 mm", "angle", "is a length", "0.1 deg", "25 mm"),
    ("6 TPI skip", "pitch", "more than a number and its unit", "write 6 TPI; anything more", "skip"),
    ("4.2 mm pitch hook", "pitch", "more than a number and its unit", "write 4.2 mm pitch;", "hook"),
    ("750 W (1 hp)", "power", "more than a number and its unit", "write 750 W; one unit is enough", "(1 hp)"),
    ("750 W / 1 hp", "power", "more than a number and its unit", "write 750 W; one unit", "/ 1 hp"),
    ("13 mm wide", "length", "more than a number and its unit", "write 13 mm;", "wide"),
    ("13 mm, new", "length", "more than a number and its unit", "write 13 mm;", ", new"),
    ("5 g", "force", "is a mass", "30 N", "5 g"),
    ("5 kg", "length", "is a mass", "25 mm", "5 kg"),
    ("10 lbf", "mass", "is a force", "write 10 lb ", "10 lbf"),
    ("103 N/mm", "stress", "is a spring rate", "write 103 N/mm2", "103 N/mm"),
    ("50 Hz", "rotation", "not clear", "rpm", "Hz"),
    ("10 mil", "length", "not clear", "thou", "mil"),
    ("25 MM", "length", "not a unit", "write mm", "MM"),
    ("103 MPA", "stress", "not a unit", "write MPa", "MPA"),
    ("3 furlongs", "length", "not a unit", "mm, cm, m, um, in, ft, thou", "furlongs"),
    ("1_000 mm", "length", "not a unit", "mm", "_000 mm"),
    ("nan", "length", "begin with a number", "25 mm", "nan"),
    ("inf mm", "length", "begin with a number", "25 mm", "inf mm"),
    ("- 3 mm", "length", "begin with a number", "25 mm", "- 3 mm"),
    ("٣ mm", "length", "begin with a number", "25 mm", "٣ mm"),
    ("1e400 mm", "length", "no size of anything", "25 mm", "1e400"),
    ("1e-99 mm", "length", "no size of anything", "25 mm", "1e-99"),
    ("5. mm", "length", "a point too many", "1.5 mm", "5. mm"),
    ("1.5.2 mm", "length", "a point too many", "1.5 mm", "1.5.2 mm"),
    ("mm", "length", "begin with a number", "25 mm", "mm"),
    ("", "length", "no value", "25 mm", ""),
    ("+/- 0.02 mm", "length", "no value", "25 mm", "+"),
    ("0.65 mm +/- 0.02", "length", "`0.02` has no unit", "write 0.65 mm +/- 0.02 mm", "0.02"),
    ("  0.65 mm +/- 0.02", "length", "`0.02` has no unit", "write 0.65 mm +/- 0.02 mm", "0.02"),
    ("0.65 +/- 0.02 mm", "length", "`0.65` has no unit", "write 0.65 mm +/- 0.02 mm", "0.65"),
    ("0.65 mm +/-", "length", "not a doubt", "0.65 mm +/- 0.02 mm", "+/-"),
    ("0.65 mm +/- -0.02 mm", "length", "not a doubt", "0.65 mm +/- 0.02 mm", "+/- -0.02 mm"),
    ("0.65 mm +/- 3 %", "length", "is a plain number", "25 mm", "3 %"),
    ("1 mm +/- 1 mm +/- 1 mm", "length", "not a unit", "mm", "mm +/- 1 mm"),
    ("9" * 58 + " mm", "length", "longer than 60", "25 mm", "9" * 58 + " mm"),
]


@pytest.mark.parametrize(("written", "takes", "reason", "hint", "part"), REFUSED, ids=lambda v: repr(v)[:30])
def test_what_is_refused_and_what_to_write_instead(written, takes, reason, hint, part):
    with pytest.raises(units.NotUnderstood) as caught:
        units.read(written, takes)
    bad = caught.value
    assert reason in bad.what and hint in bad.hint
    assert written[bad.start : bad.start + bad.length] == part
    assert str(bad) == bad.what


def test_what_a_hint_offers_in_place_of_the_text_can_be_read():
    """Every `write A or B` that repeats the user's own number is itself understood."""
    tried = 0
    for written, takes, *_ in REFUSED:
        with pytest.raises(units.NotUnderstood) as caught:
            units.read(written, takes)
        offered = re.split(" if that is|, or check|; ", caught.value.hint)[0]
        if offered.startswith("write ") and offered[6] in "0123456789½":
            for one in offered.removeprefix("write ").split(" or "):
                assert math.isfinite(units.read(one, takes).value)
                tried += 1
    assert tried >= 25


def test_control_characters_do_not_reach_the_message():
    with pytest.raises(units.NotUnderstood) as caught:
        units.read("1\x1b[31m\nmm", "length")
    assert caught.value.what.isprintable() and caught.value.hint.isprintable()


def test_the_names_of_quantities_are_those_of_the_fields():
    assert tuple(units.UNITS) == tuple(WORDS) == fields.QUANTITIES
    for takes, words in WORDS.items():
        assert words[0] == fields.TAKES[takes]


@pytest.mark.parametrize("takes", fields.QUANTITIES)
def test_every_unit_name_is_read_and_every_example_too(takes):
    for name in units.UNITS[takes]:
        assert units.read(f"2 {name}", takes).value > 0
    for example in WORDS[takes][2].split(" or "):
        assert units.read(example, takes).value > 0


# pint alone reads a shop's text without complaint, and wrongly --------------------------------------------------------

MISREAD = [
    # written, takes, what pint makes of it (its number, its unit), what it is in SI
    ("1 1/2 in", "length", (0.5, "inch"), 0.0381),
    ("93 1/2 in", "length", (46.5, "inch"), 2.3749),
    ("1½ in", "length", (1, "inch"), 0.0381),
    ('1.5"', "length", (1.5, "dimensionless"), 0.0381),
    ("5 ft 3 1/2 in", "length", (7.5, "foot * inch"), 1.6129),
    ("0,65 mm", "length", (0, "millimeter"), None),
    ("1,925 mm", "length", (1925, "millimeter"), None),
    ("15 000 psi", "stress", (0, "pound_force_per_square_inch"), None),
    ("1.5 1/2 in", "length", (0.75, "inch"), None),
    ("nan mm", "length", (math.nan, "millimeter"), None),
]


@pytest.mark.parametrize(("written", "takes", "misread", "si"), MISREAD, ids=[case[0] for case in MISREAD])
def test_pint_misreads_it_and_this_grammar_does_not(registry, written, takes, misread, si):
    quantity = registry.Quantity(registry(written))  # older versions give a bare number for what has no unit
    assert quantity.magnitude == pytest.approx(misread[0], nan_ok=True) and str(quantity.units) == misread[1]
    if si is None:
        with pytest.raises(units.NotUnderstood):
            units.read(written, takes)
    else:
        assert units.read(written, takes).value == si


def test_pint_counts_rotation_in_radians(registry):
    """1 rpm is 2 pi / 60 rad/s to pint; here it is 1/60 turn a second."""
    assert registry("60 rpm").to_base_units().magnitude == pytest.approx(2 * math.pi)
    assert units.read("60 rpm", "rotation").value == 1.0


@pytest.fixture(scope="module")
def registry():
    import pint

    return pint.UnitRegistry()


# printing -------------------------------------------------------------------------------------------------------------

SHOWN = [
    # SI, kind, system, printed
    (0.35, "wheel_size", "metric", "350 mm"),
    (0.3556, "wheel_size", "inch", "14 in"),
    (2.3749, "blade_length", "inch", "93 1/2 in"),
    (2.3749, "blade_length", "metric", "2375 mm"),
    (-0.003, "blade_length", "metric", "-3 mm"),
    (0.013, "blade_width", "metric", "13 mm"),
    (0.00635, "blade_width", "metric", "6.4 mm"),
    (0.0381, "blade_width", "inch", "1 1/2 in"),
    (0.039, "blade_width", "inch", "about 1 17/32 in"),
    (0.00065, "thickness", "metric", "0.65 mm"),
    (0.00065, "thickness", "inch", "0.026 in"),
    (0.0001, "gap", "inch", "0.004 in"),
    (0.000004, "gap", "metric", "under 0.01 mm"),
    (0.0003, "small_length", "inch", "under 1/32 in"),
    (0.0, "small_length", "inch", "0 in"),
    (-0.0, "small_length", "metric", "0 mm"),
    (-0.0003, "small_length", "inch", "about 0 in"),
    (0.1 + 0.2 - 0.3, "small_length", "metric", "0 mm"),
    (-0.0127, "small_length", "inch", "-1/2 in"),
    (0.0005, "work_size", "metric", "0.5 mm"),
    (0.1983, "work_size", "metric", "198 mm"),
    (-0.1983, "work_size", "metric", "-198 mm"),
    (0.127, "work_size", "inch", "5 in"),
    (0.0254 / 6, "pitch", "inch", "6 TPI"),
    (0.0042, "pitch", "inch", "6 TPI"),
    (0.0035, "pitch", "inch", "7.3 TPI"),
    (0.0042, "pitch", "metric", "4.2 mm pitch"),
    (0.0, "pitch", "inch", "0 in pitch"),
    (20.32, "speed", "metric", "20.3 m/s"),
    (20.32, "speed", "inch", "4000 ft/min"),
    (1 / 60, "feed", "metric", "1 m/min"),
    (0.0005, "feed", "metric", "0.03 m/min"),
    (850 / 60, "rotation", "metric", "850 rpm"),
    (850 / 60, "rotation", "inch", "850 rpm"),
    (1234.0, "force", "metric", "1230 N"),
    (44.482216, "force", "inch", "10 lbf"),
    (103.42136e6, "stress", "inch", "15000 psi"),
    (103.42136e6, "stress", "metric", "103 MPa"),
    (205e9, "modulus", "metric", "205 GPa"),
    (205e9, "modulus", "inch", "29.7 Mpsi"),
    (6.5e-6, "area", "metric", "6.5 mm²"),
    (645.16e-6, "area", "inch", "1 in²"),
    (0.0583, "mass_per_length", "metric", "58.3 g/m"),
    (40e3, "spring_rate", "metric", "40 N/mm"),
    (1751.268, "stiffness", "inch", "10 lbf/in"),
    (350.0, "power", "metric", "350 W"),
    (1500.0, "power", "metric", "1.5 kW"),
    (745.6999, "power", "inch", "1 hp"),
    (82.46, "frequency", "inch", "82.5 Hz"),
    (math.radians(0.1), "angle", "metric", "0.1°"),
    (4.857, "ratio", "metric", "4.86"),
    (0.29, "ratio", "inch", "0.29"),
    (538.46, "ratio_whole", "metric", "538"),
    (0.507, "percent", "metric", "51 %"),
    (3, "count", "metric", "3"),
    (4.5549, "scale_mark", "inch", "4.6"),
    (52275.4, "count_large", "metric", "52300"),
    (3172.9, "frequency", "metric", "3173 Hz"),
    (1.0, "turns", "metric", "1 turn"),
    (1.25, "turns", "metric", "1.25 turns"),
    (7850.0, "density", "metric", "7850 kg/m³"),
    (90.0, "time", "metric", "90 s"),
    (600.0, "time", "metric", "10 min"),
    (20.0, "temperature_difference", "inch", "36 °F"),
    (0.45359237, "mass", "inch", "1 lb"),
    (0.0635e-3, "stretch", "metric", "0.064 mm"),
    (0.0635e-3, "stretch", "inch", "0.0025 in"),
    (11.7e-6, "expansion", "metric", "11.7 µm/m per K"),
    (11.7e-6, "expansion", "inch", "6.5 µin/in per °F"),
    (0.0063, "gap_wide", "metric", "6.3 mm"),
    (0.008, "gap_wide", "inch", "about 5/16 in"),
    (0.0309, "radius", "metric", "31 mm"),
    (12e3, "force_per_width", "metric", "12 N/mm"),
    (40e6, "cutting_energy", "metric", "40 J/cm³"),
    (103.42136e6, "cutting_energy", "inch", "15000 in-lbf/in³"),
    ("carbon", "word", "inch", "carbon"),
    (0.025, "wheel_size", "none", "25 mm"),
    (19.57, "push", "metric", "19.6 N"),
    (19.57, "push", "inch", "4.4 lbf"),
    (2.6, "teeth", "metric", "2.6"),
    (14.2, "teeth", "inch", "14"),
]


@pytest.mark.parametrize(("value", "kind", "system", "text"), SHOWN, ids=[case[3] for case in SHOWN])
def test_how_it_is_printed(value, kind, system, text):
    assert units.show(value, kind, system).text == text


def test_every_kind_is_printed_in_a_case_above():
    assert {case[1] for case in SHOWN} == set(units.KINDS)


@pytest.mark.parametrize(
    ("value", "rounding", "metric", "inch"),
    [
        (0.01268, "down", "12.6 mm", "15/32 in"),
        (0.01268, "up", "12.7 mm", "1/2 in"),
        (0.013, "down", "13 mm", "1/2 in"),
        (0.013, "up", "13 mm", "17/32 in"),
        (-0.01268, "down", "-12.7 mm", "-1/2 in"),
        (-0.01268, "up", "-12.6 mm", "-15/32 in"),
        (0.00002, "down", "0 mm", "0 in"),
        (-0.00002, "up", "0 mm", "0 in"),
        (1e-12, "up", "0.1 mm", "1/32 in"),
        (0.1 + 0.2 - 0.3, "up", "0 mm", "0 in"),
    ],
)
def test_safe_side(value, rounding, metric, inch):
    assert units.show(value, "blade_width", "metric", rounding=rounding).text == metric
    assert units.show(value, "blade_width", "inch", rounding=rounding).text == inch


def test_a_coarsest_pitch_is_safe_as_teeth_per_inch_too():
    """4.3 mm is 5.907 teeth per inch: a pitch of at most that has at least 6 teeth, at least that at most 5.9."""
    assert units.show(0.0043, "pitch", "inch", rounding="down").text == "6 TPI"
    assert units.show(0.0043, "pitch", "inch", rounding="up").text == "5.9 TPI"


def test_finest_fraction():
    texts = [units.show(0.013, "blade_width", "inch", denominator).text for denominator in units.DENOMINATORS]
    assert texts == ["about 1/2 in", "about 1/2 in", "about 33/64 in"]
    with pytest.raises(ValueError):
        units.show(0.013, "blade_width", "inch", 10)


def test_exact_is_said_only_where_nothing_was_rounded_away():
    assert units.show(0.0381, "blade_width", "inch").exact
    assert not units.show(0.03811, "blade_width", "inch").exact
    assert units.show(0.013, "blade_width", "metric").exact
    assert not units.show(0.01303, "blade_width", "metric").exact
    assert units.show(0.0254 / 6, "pitch", "inch").exact
    assert not units.show(0.0042, "pitch", "inch").exact


@pytest.mark.parametrize(
    ("doubt", "kind", "system", "text"),
    [
        (0.0003, "blade_width", "metric", "± 0.3 mm"),
        (0.000311, "blade_width", "metric", "± 0.32 mm"),
        (0.00002, "thickness", "metric", "± 0.02 mm"),
        (0.0254 / 64, "blade_width", "inch", "± 0.016 in"),
        (0.0127, "blade_width", "inch", "± 0.5 in"),
        (0.00005, "pitch", "metric", "± 0.05 mm"),
        (0.0000254, "pitch", "inch", "± 0.001 in"),
        (1234.0, "force", "metric", "± 1300 N"),
        (math.radians(0.02), "angle", "metric", "± 0.02°"),
        (0.02, "ratio", "metric", "± 0.02"),
        (None, "force", "metric", ""),
        (0.0, "force", "metric", ""),
        (1.0, "word", "metric", ""),
    ],
)
def test_doubts_as_printed(doubt, kind, system, text):
    assert units.show_doubt(doubt, kind, system) == text


def test_what_cannot_be_printed_is_an_error():
    for wrong in (math.nan, math.inf, -math.inf):
        with pytest.raises(ValueError):
            units.show(wrong, "force", "metric")
    with pytest.raises(ValueError):
        units.show_doubt(math.inf, "force", "metric")
    with pytest.raises(ValueError):
        units.show(1.0, "force", "imperial")
    with pytest.raises(ValueError):
        units.show(1.0, "force", "metric", rounding="outward")


# the product's own fields and values ----------------------------------------------------------------------------------

FIELDS = [*record.MACHINE, *record.BLADE, *record.JOB, *record.ASSUMPTIONS, *shop.SHOP]


@pytest.mark.parametrize("field", [field for field in FIELDS if field.is_quantity], ids=lambda field: field.name)
def test_every_measured_field_prints_what_it_takes(field):
    kind = units.KINDS[field.kind]
    assert kind.takes == field.takes or {kind.takes, field.takes} == {"length", "pitch"}
    for written in filter(None, (field.example, field.assumed)):
        reading = units.read(written, field.takes)
        system = "inch" if reading.system == "inch" else "metric"
        again = units.read(units.show(reading.value, field.kind, system).text, field.takes)
        assert again.value == pytest.approx(reading.value, rel=5e-3)


@pytest.mark.parametrize("value", VALUES, ids=lambda value: value.name)
def test_every_computed_value_has_a_kind(value):
    assert value.kind in units.KINDS


# time -----------------------------------------------------------------------------------------------------------------


def test_pint_is_not_imported_before_a_unit_is_needed():
    folder = str(Path(fields.__file__).parents[1])
    code = (
        f"import sys; sys.path.insert(0, {folder!r}); from sawside import units; print('pint' in sys.modules);"
        " units.read('1 in', 'length'); print('pint' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["False", "True"]


@pytest.mark.parametrize(
    "text",
    [
        "1" * 60,
        "1 " * 30,
        "1/" * 30,
        "1 1/" * 15,
        "½" * 60,
        "1e" * 30,
        "' " * 30,
        "5' " * 20,
        "+/-" * 20,
        "±" * 60,
        "1," * 30,
        "1-" * 30,
        " " * 10**6,
        "1" * 10**6,
        "1 mm +/- " * 10**5,
        ("m" * 59) + "1",
        "." * 60,
        "1 " + "a" * 58,
        "1 " + "a 1" * 19,
    ],
)
def test_no_text_takes_long(text):
    units.read("1 mm", "length")
    start = time.perf_counter()
    with pytest.raises(units.NotUnderstood):
        units.read(text, "length")
    assert time.perf_counter() - start < 1.0
