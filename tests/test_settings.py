"""Nothing that is printed to be set leads past what saw or blade may take: random saws and blades, every place of printing.

A printed number is read back as a person reads it and put back through the load by ways that share nothing with the package:
the push by a tensioned clamped beam with hyperbolic functions, the tone by a stiff string's series, the stretch by Hooke's law, the
mark by the line through two marks.
"""

import dataclasses
import math
import random
import re

import pytest

from sawside import guide, units
from sawside.model import Entry, Value
from sawside.outputs.view import machine_view
from sawside.outputs.worksheet_data import worksheet_data
from sawside.units import KINDS

#: Settings of a band saw: what a person sets or reads to set something. Each name with its kind of number.
SET = {"setting_push": "push", "setting_tone": "frequency", "setting_stretch": "stretch", "setting_mark": "scale_mark",
       "setting_stress": "stress", "strand_force": "force", "wheel_load": "force", "setting_deflection": "gap_wide",
       "screw_turns": "turns"}  # fmt: skip
SAWS = 60


def clamped(push, span, force, rigidity):
    """Deflection of a clamped beam under pull at mid-span: (P L / 4 F)(1 - tanh(u/2)/(u/2))."""
    half = span / 4 * math.sqrt(force / rigidity)
    return push * span / (4 * force) * (1 - math.tanh(half) / half)


def halved(function, target, low, high):
    for _ in range(200):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if function(middle) < target else (low, middle)
    return low


class Bench:
    """One saw with one blade, and the load on the upper wheel that a reading means."""

    def __init__(self, known):
        v = {name: known.value(name) for name in (
            "free_span", "body_width", "blade_thickness", "youngs_modulus", "mass_per_length", "gauge_length", "push_distance",
            "test_push", "scale_mark_low", "scale_mark_high", "scale_load_low", "scale_load_high", "loop_rate",
            "tension_screw_pitch", "wheel_load_max", "blade_stress_max")}  # fmt: skip
        self.v, self.area = v, v["body_width"] * v["blade_thickness"]
        self.rigidity = v["youngs_modulus"] * v["body_width"] * v["blade_thickness"] ** 3 / 12
        self.most = min(2 * v["blade_stress_max"] * self.area, v["wheel_load_max"] or math.inf)

    def load(self, name, reading):
        v, span = self.v, self.v["free_span"]
        if name == "setting_push":
            return 2 * halved(lambda f: v["push_distance"] / clamped(1.0, span, f, self.rigidity), reading, 1e-3, 1e6)
        if name == "setting_deflection":
            return 2 * halved(lambda f: -clamped(v["test_push"], span, f, self.rigidity), -reading, 1e-3, 1e6)
        if name == "setting_tone":

            def tone(force):  # stiff string with clamped ends (Morse; Fletcher: from memory)
                e = math.sqrt(self.rigidity / force) / span
                return math.sqrt(force / v["mass_per_length"]) / (2 * span) * (1 + 2 * e + (4 + math.pi**2 / 2) * e**2)

            return 2 * halved(tone, reading, 1.0, 1e6)
        if name == "setting_stretch":
            return 2 * v["youngs_modulus"] * reading / v["gauge_length"] * self.area
        if name == "setting_mark":
            slope = (v["scale_load_high"] - v["scale_load_low"]) / (v["scale_mark_high"] - v["scale_mark_low"])
            return v["scale_load_low"] + (reading - v["scale_mark_low"]) * slope
        if name == "screw_turns":
            return 4 * reading * v["loop_rate"] * v["tension_screw_pitch"]
        return {"setting_stress": 2 * self.area, "strand_force": 2.0, "wheel_load": 1.0}[name] * reading


def printed_numbers(item):
    """Every number a reader of an item may set, in SI: the aim, both ends of its range, and the same in other units."""
    kind, takes = KINDS[SET[item["name"]]], KINDS[SET[item["name"]]].takes
    texts = [item["text"], *item["small"].split(", ")]
    if item["good"]:
        low, _, high = item["good"].partition(" to ")
        unit = re.sub(r"^[\d\s./]*", "", (high or low).removeprefix("about "))
        texts += [low if not high or unit in low else f"{low} {unit}", high or low]
    for text in filter(None, texts):
        plain = text.removeprefix("about ")
        if text.startswith("under") or takes == "frequency":
            found = re.match(r"[\d.]+", plain)
            yield float(found[0]) if found else 0.0
        elif takes == "number":
            yield float(plain.split()[0])
        else:
            yield units.read(re.sub(r" kg$", " kgf", plain), takes).value
    assert kind


def items_of(thing):
    """Every printed setting anywhere in a view: tiles, tables, tags, cards, steps, notes on how it was found."""
    if isinstance(thing, dict):
        if thing.get("name") in SET and "good" in thing and thing["text"] and thing["status"] in ("computed", "assumed"):
            yield thing
        for part in thing.values():
            yield from items_of(part)
    elif isinstance(thing, (list, tuple)):
        for part in thing:
            yield from items_of(part)


def entry(record, name, value):
    if name not in record.entries and value is None:
        return {}
    field = record.entries[name].field
    return {name: Entry(field, value, None, "unknown" if value is None else "measured", "", guide.At(""))}


def altered(record, **changed):
    found = dict(record.entries)
    for name, value in changed.items():
        found |= entry(record, name, value)
    return dataclasses.replace(record, entries=found)


def random_shop(shop, dice):
    """The demonstration shop with one saw and every blade made over: sizes, limits, scale and papers drawn at random."""
    machine = dice.choice(shop.machines)
    wheel, low = dice.uniform(0.2, 0.6), dice.uniform(200, 900)
    centre = dice.uniform(1.4, 2.4) * wheel
    changes = {
        "wheel_diameter_upper": wheel, "wheel_diameter_lower": wheel * dice.choice([1.0, 1.01]), "centre_distance": centre,
        "centre_distance_min": None, "centre_distance_max": None, "tyre_width": dice.uniform(0.012, 0.04),
        "wheel_load_max": dice.choice([None, dice.uniform(300, 6000)]), "blade_width_max": dice.choice([None, 0.03]),
        "blade_width_min": None, "wheel_speed": 15.0 / (math.pi * wheel), "tension_spring_rate": dice.uniform(3e4, 2e5),
        "tension_screw_pitch": dice.uniform(1e-3, 2e-3), "rated_blade_length": None, "maker_tracking": None,
        "fitted_blade": None,
    }  # fmt: skip
    if "scale_mark_low" in machine.entries:
        changes |= {"scale_mark_low": dice.uniform(0, 3), "scale_load_low": low, "scale_mark_high": dice.uniform(5, 12),
                    "scale_load_high": low + dice.uniform(300, 3000)}  # fmt: skip
    length = 2 * centre + math.pi * wheel
    blades = []
    for blade in shop.blades:
        width = dice.uniform(3e-3, 30e-3)
        gullet = dice.choice([None, width * dice.uniform(0.1, 0.35)])
        blades.append(
            altered(
                blade,
                blade_length=length * dice.uniform(0.995, 1.005),
                blade_width=width,
                blade_thickness=dice.uniform(0.35e-3, 0.95e-3),
                gullet_depth=gullet,
                tooth_pitch=dice.uniform(1.5e-3, width * 0.6),
                **({"maker_stress": dice.uniform(70e6, 210e6)} if "maker_stress" in blade.entries else {}),
            )
        )
    saw = altered(machine, **changes)
    fitting = dataclasses.replace(shop, machines=(saw,), blades=tuple(blades))
    printer = guide.printer(fitting)
    fits = [b for b in blades if fitting.family.judge((k := guide.know(fitting, saw, b)).value, printer, k.doubt).fits]
    if fits:
        field = machine.entries["fitted_blade"].field
        on_it = Entry(field, dice.choice(fits).id, None, "measured", "", guide.At(""))
        saw = dataclasses.replace(saw, entries={**saw.entries, "fitted_blade": on_it})
        fitting = dataclasses.replace(fitting, machines=(saw,))
    return fitting


@pytest.mark.parametrize("seed", range(SAWS))
def test_a_setting_put_back_keeps_to_the_limits(shop, seed):
    dice = random.Random(seed)
    made = random_shop(shop, dice)
    systems = {} if seed % 3 else dict.fromkeys(("force", "push", "stress", "stretch", "gap_wide"), "inch")
    made = dataclasses.replace(made, shop=dataclasses.replace(made.shop, systems={**made.shop.systems, **systems}))
    (saw,) = made.machines
    view = machine_view(made, saw)
    knows = {blade.id: guide.know(made, saw, blade) for blade in made.blades}
    benches = {row["id"]: Bench(knows[row["id"]]) for row in view["blades"] if row["fits"]}
    fitted = saw.get("fitted_blade")
    rows = [(benches[row["id"]], item) for row in view["blades"] if row["fits"] for item in items_of(row)]
    rest = {name: part for name, part in view.items() if name not in ("blades", "worksheets", "blade", "for_blade")}
    rest["wall"] = {name: part for name, part in view["wall"].items() if name != "blades"}
    rows += [(benches[fitted], item) for item in items_of(rest)] if fitted else []
    for blade, one in view["for_blade"].items():
        kept = {"stages": one["stages"], "numbers": one["wall"]["numbers"]}
        rows += [(benches[blade], item) for item in items_of(kept)]
    for bench, item in rows:
        for reading in printed_numbers(item):
            room = 1e-3 if item["name"] == "setting_tone" else 1e-6  # the string's series is right to that
            assert bench.load(item["name"], reading) <= bench.most * (1 + room), (
                item["name"],
                item["text"],
                item["good"],
                item["small"],
            )
    assert not fitted or len(rows) > 20
    # The sentences of the guide print the same items, and nothing else that is set.
    if fitted:
        printer = guide.printer(made)
        for procedure in made.procedures:
            for name in set(procedure.slots.values()) & set(SET):
                item = dataclasses.asdict(knows[fitted].item(name, printer))
                if item["status"] in ("computed", "assumed"):
                    assert all(benches[fitted].load(name, r) <= benches[fitted].most * 1.001 for r in printed_numbers(item))


@pytest.mark.parametrize("seed", range(SAWS))
def test_the_phone_is_given_no_number_past_a_limit(shop, seed):
    made = random_shop(shop, random.Random(1000 + seed))
    (saw,) = made.machines
    knows = {blade.id: guide.know(made, saw, blade) for blade in made.blades}
    rows = list(machine_view(made, saw)["blades"])
    data = worksheet_data(made, knows[rows[0]["id"]], knows, rows)
    for blade in data["blades"]:
        bench = Bench(knows[blade["id"]])
        for name in ("setting_stress_from", "setting_stress", "setting_stress_to"):
            assert 2 * bench.area * blade[name] <= bench.most * (1 + 1e-9)
        assert blade["setting_stress_from"] <= blade["setting_stress"] <= blade["setting_stress_to"]
        # Where the saw's limit is not known, the setting is the least that serves, and the phone says why.
        if knows[blade["id"]].value("wheel_load_max") is None:
            assert blade["setting_stress"] == knows[blade["id"]].value("target_stress_low") and "not known" in blade["limited"]


def test_the_two_blades_that_were_set_past_their_saw(shop):
    """`bench-250` with `a13-3` and `lever-350` with `b13-4`: limited, with the reason wherever it is printed."""
    for saw, blade, most in (("bench-250", "a13-3", 1100.0), ("lever-350", "b13-4", 2200.0)):
        machine = next(m for m in shop.machines if m.id == saw)
        view = machine_view(shop, machine)
        row = next(row for row in view["blades"] if row["id"] == blade)
        bench = Bench(guide.know(shop, machine, shop.blade(blade)))
        pushes = [item for item in row["items"] if item["name"] == "setting_push"]
        assert len(pushes) == 1 and f"limited by the saw: {most:.0f} N" in pushes[0]["limited"]
        assert all(bench.load("setting_push", reading) <= most for reading in printed_numbers(pushes[0]))
        assert any("limited by the saw" in line for line in row["advice"]) and row["verdict"] == "fits, with care"


def test_a_setting_says_what_is_good_enough(shop):
    """On wall sheet, tag, card and table: aim and range, kilograms beside newtons, the gauge length in the label."""
    machine = next(m for m in shop.machines if m.id == "lever-350")
    view = machine_view(shop, machine)
    tiles = {item["name"]: item for item in view["wall"]["numbers"]}
    push = tiles["setting_push"]
    aim, low, high = (float(x) for x in (push["text"].split()[0], *re.findall(r"[\d.]+", push["good"])))
    assert (
        low < aim < high
        and high - low == pytest.approx(0.2 * aim, rel=0.2)
        and push["small"].endswith("lbf")
        and " kg" in push["small"]
    )
    assert tiles["setting_stretch"]["label"] == "Stretch over 127 mm"
    assert next(iter(tiles)) == "setting_mark" and "gullet_line_gullet_school" in tiles and "gullet_line_blade_school" not in tiles
    for name in (*view["columns"]["tag"], *view["columns"]["card"]):
        item = next((i for i in view["blade"]["items"] if i["name"] == name), None)
        assert item is None or not name.startswith("setting_") or item["good"], name


def test_a_number_on_an_estimate_says_so_everywhere(shop):
    machine = next(m for m in shop.machines if m.id == "lever-350")
    printer = guide.printer(shop)
    known = guide.know(shop, machine, shop.blade("b6-6"))  # its gullet was never measured
    for name in (
        "gullet",
        "guide_setback",
        "setting_push",
        "strand_force",
        "wheel_load",
        "setting_tone",
        "setting_mark",
        "body_area",
    ):
        item = known.item(name, printer)
        assert (item.status, item.note) == ("assumed", "gullet depth estimated: measure it first"), name
    measured = guide.know(shop, machine, shop.blade("b13-3"))
    assert measured.item("setting_push", printer).status == "computed"
    # The estimate is in doubt, and what rests on it with it.
    assert known.results["gullet"].plus_minus >= 0.12 * known.value("gullet")
    assert isinstance(known.results["strand_force"], Value)


def test_a_mark_above_the_highest_compared_is_marked(shop):
    machine = next(m for m in shop.machines if m.id == "lever-350")
    printer = guide.printer(shop)
    item = guide.know(shop, machine, shop.blade("b13-4")).item("setting_mark", printer)
    assert float(item.text) > machine.get("scale_mark_high")
    assert item.status == "assumed" and item.note == "above the highest mark that was compared with a load"


def test_an_inch_shop_pushes_a_quarter_inch(shop):
    inch = dataclasses.replace(shop, shop=dataclasses.replace(shop.shop, systems=dict.fromkeys(KINDS, "inch")))
    machine = next(m for m in shop.machines if m.id == "lever-350")
    item = guide.know(inch, machine, shop.blade("b13-3")).item("setting_push", guide.printer(inch))
    assert item.label == "Push at mid-strand for 1/4 in" and item.text.endswith("lbf") and item.small.endswith("N")
