"""Laws that hold for every number: what is printed can be read again, the safe side is safe, and pint agrees."""

import math
import re
from fractions import Fraction

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from sawside import units
from sawside.units.kinds import FRACTION

TAKES = st.sampled_from(sorted(units.UNITS))
NUMBERS = sorted(set(units.KINDS) - {"word"})
#: Kinds whose printed text is also a way to write the quantity.
READABLE = [name for name in NUMBERS if units.KINDS[name].takes in units.UNITS and name not in ("turns", "expansion")]
SIZES = st.floats(1e-7, 1e7)
SIGNED = st.one_of(SIZES, SIZES.map(lambda size: -size), st.just(0.0))


@pytest.fixture(scope="module")
def registry():
    import pint

    return pint.UnitRegistry()


def si_of(text: str, kind: str) -> float:
    """Read a printed text back; words that are not part of the number are taken off first."""
    assert not text.startswith("under")
    return units.read(text.removeprefix("about "), units.KINDS[kind].takes).value


@settings(deadline=None, max_examples=400)
@given(st.text(max_size=70), TAKES)
@example("0" * 57 + "/00", "number")
@example("+/-", "number")
@example("0 tpi +/- 0 tpi", "pitch")
def test_any_text_is_read_or_refused(text, takes):
    try:
        reading = units.read(text, takes)
    except units.NotUnderstood as bad:
        assert bad.what and bad.hint and bad.length >= 1
        assert 0 <= bad.start <= len(text)
    else:
        assert math.isfinite(reading.value)


@settings(deadline=None, max_examples=400)
@given(st.text(alphabet="0123456789 ./-+±½⅞'\"”,eEmincftpsMPaN²%K°", max_size=24), TAKES)
def test_nearly_right_text_is_read_or_refused(text, takes):
    try:
        reading = units.read(text, takes)
    except units.NotUnderstood as bad:
        assert bad.what and bad.hint and 0 <= bad.start <= len(text)
    else:
        assert math.isfinite(reading.value)
        assert reading.plus_minus is None or reading.plus_minus >= 0


@settings(deadline=None, max_examples=300)
@given(st.integers(1, 64 * 200), st.sampled_from([16, 32, 64]), st.sampled_from(["{} in", '{}"', "{}”", "-{} in"]))
def test_ruler_fractions_go_round_exactly(steps, denominator, form):
    inches = Fraction(steps, denominator)
    whole, part = divmod(inches, 1)
    written = form.format(" ".join(str(n) for n in (whole, part) if n))
    value = units.read(written, "length").value
    assert value == float(inches * Fraction(127, 5000)) * (-1 if "-" in form else 1)
    shown = units.show(value, "blade_width", "inch", denominator)
    assert shown.exact and shown.text == written.replace('"', " in").replace("”", " in")


@settings(deadline=None, max_examples=300)
@given(
    st.integers(-(10**6), 10**6),
    st.sampled_from([name for name in READABLE if not units.KINDS[name].metric[0].figures and len(units.KINDS[name].metric) == 1]),
)
def test_metric_steps_go_round_exactly(steps, kind):
    scale = units.KINDS[kind].metric[0]
    written = f"{float(Fraction(scale.step) * steps):.6f}".rstrip("0").rstrip(".") + f" {scale.unit}".rstrip()
    shown = units.show(units.read(written, units.KINDS[kind].takes).value, kind, "metric")
    assert shown.exact and shown.text.replace(" ", "").replace("°", "") == written.replace(" ", "").replace("°", "")


@settings(deadline=None, max_examples=600)
@given(
    SIGNED,
    st.sampled_from([name for name in READABLE if name != "pitch"]),
    st.sampled_from(["metric", "inch"]),
    st.sampled_from([16, 32, 64]),
)
def test_the_safe_side_is_safe_and_no_further_off_than_a_step(value, kind, system, denominator):
    # what is nothing beside the finest step printed (100 psi, say) prints as nothing
    assume(value == 0 or abs(value) >= 1e-9 * si_of(f"1 {units.KINDS[kind].scales(system)[-1].unit}".rstrip(), kind))
    low, near, high = (units.show(value, kind, system, denominator, rounding) for rounding in ("down", "nearest", "up"))
    noise = 3e-9 * abs(value)
    below, above = si_of(low.text, kind), si_of(high.text, kind)
    assert below <= value + noise and above >= value - noise
    if not near.text.startswith("under"):
        between = si_of(near.text, kind)
        assert below - noise <= between <= above + noise
        assert abs(between - value) <= (above - below) / 2 * 1.0001 + noise
        if near.exact:
            assert between == pytest.approx(value, rel=2e-9, abs=1e-9)
    else:
        assert 0 < value < above


@settings(deadline=None, max_examples=300)
@given(st.floats(3e-4, 0.1), st.sampled_from(["metric", "inch"]))
def test_the_safe_side_of_a_pitch(pitch, system):
    down, up = (units.show(pitch, "pitch", system, rounding=rounding) for rounding in ("down", "up"))
    assert si_of(down.text, "pitch") <= pitch * (1 + 3e-9)
    assert si_of(up.text, "pitch") >= pitch * (1 - 3e-9)
    near = si_of(units.show(pitch, "pitch", system).text, "pitch")
    if system == "metric":
        assert abs(near - pitch) <= 0.00501e-3
    else:
        teeth = 0.0254 / pitch
        assert abs(0.0254 / near - teeth) <= max(0.0501, 0.00501 * teeth)


@settings(deadline=None, max_examples=300)
@given(SIGNED, st.sampled_from(NUMBERS), st.sampled_from(["metric", "inch"]), st.sampled_from(["nearest", "up", "down"]))
def test_what_is_printed_looks_like_a_number(value, kind, system, rounding):
    text = units.show(value, kind, system, rounding=rounding).text
    number = r"[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]*[1-9])?"
    assert re.fullmatch(rf"(?:about |under )?-?(?:{number})(?: \D.*|°)?", text), text
    assert not re.search(r"-0(?:[^.0-9]|$)", text), text


@settings(deadline=None, max_examples=200)
@given(
    SIZES, st.sampled_from([name for name in NUMBERS if name not in ("turns", "expansion")]), st.sampled_from(["metric", "inch"])
)
def test_a_printed_doubt_is_never_smaller_and_has_two_figures(doubt, kind, system):
    text = units.show_doubt(doubt, kind, system)
    digits = re.match(r"± ([0-9.]+)", text)[1].replace(".", "").strip("0")
    assert len(digits) <= 2
    if units.KINDS[kind].takes in units.UNITS:
        printed = units.read(text.removeprefix("± "), units.KINDS[kind].takes).value
        assert doubt * (1 - 3e-9) <= printed <= doubt * 1.1001


#: Unit names that pint alone reads the same way when a plain decimal stands before them.
COMMON = {
    "length": ("m", ["mm", "cm", "m", "um", "in", "inch", "ft", "foot", "thou"]),
    "force": ("N", ["N", "kN", "kgf", "lbf"]),
    "stress": ("Pa", ["Pa", "kPa", "MPa", "GPa", "psi", "ksi"]),
    "speed": ("m/s", ["m/s", "m/min", "mm/s", "ft/min", "ft/s", "in/min"]),
    "angle": ("rad", ["deg", "rad", "mrad", "degree"]),
    "power": ("W", ["W", "kW", "hp"]),
    "mass": ("kg", ["kg", "g", "lb", "oz"]),
    "time": ("s", ["s", "min", "h", "ms"]),
    "spring_rate": ("N/m", ["N/mm", "N/m", "kN/m", "lbf/in"]),
}
PAIRS = [(takes, si, name) for takes, (si, names) in COMMON.items() for name in names]


@settings(deadline=None, max_examples=300)
@given(st.decimals("0.001", "99999", places=3), st.sampled_from(PAIRS))
def test_pint_reads_the_same_from_a_plain_decimal(registry, number, pair):
    takes, si, name = pair
    written = f"{number} {name}"
    assert units.read(written, takes).value == pytest.approx(registry(written).to(si).magnitude, rel=1e-12)


@settings(deadline=None)
@given(st.sampled_from(NUMBERS), SIZES)
def test_a_pair_is_the_two_single_texts(kind, value):
    for system, other in (("metric", "inch"), ("inch", "metric")):
        main, small = units.show_pair(value, kind, system)
        assert main == units.show(value, kind, system).text
        assert small in ("", units.show(value, kind, other).text) and small != main
        assert units.show_pair(value, kind, system, both=False) == (main, "")


def test_which_kinds_are_fractions_of_an_inch():
    """Sizes read off a ruler or a tape are fractions; what calipers and feelers read is decimal (common practice)."""
    rulers = {name for name, kind in units.KINDS.items() if kind.inch[0].step == FRACTION}
    assert rulers == {"wheel_size", "blade_length", "blade_width", "gap_wide", "small_length", "work_size", "radius"}
