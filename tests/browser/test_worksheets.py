"""The worksheets on the real page: they start from this saw, say what Python says, remember, print, export, and take nonsense."""

import csv
import io
import math
import random
import re
from types import SimpleNamespace

import pypdf
import pytest

from demonstration import KINDS, ROOT
from sawside import guide, library
from sawside.calc import choice, drift, strand, tension, testcut, vibration
from sawside.outputs import bench

PATH, MACHINE = KINDS["worksheets"], "lever-350"
#: Typed into every field: things that are no numbers, that are too large or too small, or that try to be something else.
NONSENSE = (
    "abc",
    "-5",
    "0",
    "1e400",
    "99999999999",
    "0.0000000001",
    "1,234",
    "NaN",
    "Infinity",
    "1/0",
    "<b>x</b>",
    "1.2.3",
    "--1",
    "٣",
    "  ",
    "0x10",
    "½",
)


@pytest.fixture
def sheet(page, site):
    page.goto(f"{site.as_uri()}/{PATH}")
    return page


@pytest.fixture(scope="module")
def shop():
    return library.load(ROOT / "procedures" / "shops" / "demonstration")


@pytest.fixture(scope="module")
def saw(shop):
    """What Python knows of the saw with the blade on it."""
    machine = next(machine for machine in shop.machines if machine.id == MACHINE)
    return guide.know(shop, machine, shop.blade(machine.get("fitted_blade")))


def answer(page, name):
    return page.locator(f"#{name}-answer").inner_text()


def fill(page, name, **readings):
    for field, typed in readings.items():
        page.locator(f"#{name}-{field}").fill(str(typed))
    return answer(page, name)


def number(words, after):
    """Return the first number behind a phrase of an answer."""
    return float(re.search(re.escape(after) + r"[^-\d]*(-?[\d.]+)", words)[1])


FILL_ALL = """(row) => {
    document.querySelectorAll(".sw-worksheet input[inputmode]").forEach((box, i) => { box.value = row[i]; });
    document.querySelectorAll(".sw-worksheet form").forEach((form) => form.dispatchEvent(new Event("input")));
    return sawside.sheets.map((one) => [one.id, document.getElementById(`${one.id}-answer`).textContent]);
}"""


class TestStartsFromThisSaw:
    def test_with_its_numbers_and_its_blade(self, sheet, saw):
        for field, name, unit in (
            ("push-span", "free_span", 1e-3),
            ("push-push", "test_push", 1),
            ("stretch-gauge", "gauge_length", 1e-3),
            ("drift-fence", "fence_length", 1e-3),
            ("turned-cut-spread", "caliper_doubt", 1e-3),
        ):
            assert float(sheet.locator(f"#{field}").input_value()) == pytest.approx(saw.value(name) / unit), field
        assert sheet.locator("#push-blade").input_value() == "b13-3"

    def test_another_saw_has_other_numbers(self, page, site):
        page.goto(f"{site.as_uri()}/machines/bench-250-worksheets.html")
        first = page.locator("#push-span").input_value()
        page.goto(f"{site.as_uri()}/{PATH}")
        assert page.locator("#push-span").input_value() != first


class TestSaysWhatPythonSays:
    def test_push(self, sheet, saw):
        stiffness = strand.flexural_rigidity(saw.value("body_width"), saw.value("blade_thickness"), saw.value("youngs_modulus"))
        force = strand.force_from_deflection(30.0, 14e-3, saw.value("free_span"), stiffness)
        words = fill(sheet, "push", push=30, deflection=14)
        assert number(words, "Stress in the blade") == round(force / saw.value("body_area") / 1e6)
        assert number(words, "Pull in the strand") == pytest.approx(force, rel=5e-3)
        share = (saw.value("strand_force") - force) / saw.value("strand_force")
        turns = saw.value("screw_turns") or saw.value("solid_spring_turns")
        assert "Too slack" in words and "tighter" in words
        assert number(words, "Tension screw") == pytest.approx(share * turns, abs=0.051)

    def test_tone(self, sheet, saw):
        stiffness = strand.flexural_rigidity(saw.value("body_width"), saw.value("blade_thickness"), saw.value("youngs_modulus"))
        force = vibration.force_from_frequency(70.0, saw.value("free_span"), saw.value("mass_per_length"), stiffness)
        words = fill(sheet, "tone", tone=70)
        assert number(words, "Stress in the blade") == round(force / saw.value("body_area") / 1e6)
        assert vibration.pluck_note(70.0) in words

    def test_stretch(self, sheet, saw):
        words = fill(sheet, "stretch", stretch=0.065)
        assert number(words, "Stress in the blade") == round(
            0.065e-3 * saw.value("youngs_modulus") / saw.value("gauge_length") / 1e6
        )

    @pytest.mark.parametrize(
        "share, words",
        [(0.71, "Too slack"), (0.89, "Too slack"), (0.91, "Good"), (1.09, "Good"), (1.12, "Too tight"), (1.51, "STOP")],
    )
    def test_one_tolerance_for_push_tone_and_stretch(self, sheet, saw, share, words):
        """The weighed push is good within one tenth: three ways to the same pull, one verdict."""
        force = share * saw.value("strand_force")
        stiffness = strand.flexural_rigidity(saw.value("body_width"), saw.value("blade_thickness"), saw.value("youngs_modulus"))
        push = strand.push_for_deflection(5e-3, saw.value("free_span"), force, stiffness)
        tone = vibration.clamped_frequency(saw.value("free_span"), force, saw.value("mass_per_length"), stiffness)
        stretch = force / saw.value("body_area") * saw.value("gauge_length") / saw.value("youngs_modulus")
        assert fill(sheet, "push", push=f"{push:.9f}", deflection=5).startswith(f"Verdict: {words}")
        assert fill(sheet, "tone", tone=f"{tone:.9f}").startswith(f"Verdict: {words}")
        assert fill(sheet, "stretch", stretch=f"{stretch * 1e3:.9f}").startswith(f"Verdict: {words}")

    def test_turned_cut(self, sheet, saw):
        words = fill(sheet, "turned-cut", ft="20.32", bt="20.28", fb="20.01", bb="19.99", height="50")
        tilt = testcut.turned_cut_tilt(20.3e-3, 20e-3, 50e-3)
        assert number(words, "Table off square") == pytest.approx(math.degrees(tilt), abs=6e-4)
        assert words.startswith("Verdict: Adjust")
        turns = testcut.stop_bolt_turns(tilt, saw.value("table_stop_arm"), saw.value("table_stop_pitch"))
        assert number(words, "Stop bolt") == pytest.approx(turns, abs=6e-3)

    def test_the_square_has_one_pair_of_limits(self, sheet, site, saw, shop):
        """Guide on page and paper, printed worksheet and phone give the same two differences, and the phone turns at them."""
        printer = guide.printer(shop)
        printed = bench.worksheet(saw.value, printer)
        (row,) = [row for row in printed["limits"] if row["height"] == printed["height"]]
        accept, adjust = saw.value("square_accept"), saw.value("square_adjust")
        assert (row["accept"], row["adjust"]) == (printer.text(accept, "gap", "down"), printer.text(adjust, "gap", "up"))
        assert float(sheet.locator("#turned-cut-height").input_value()) == pytest.approx(saw.value("test_height") * 1e3)
        for difference, word in (
            (accept - 2e-6, "Accept"),
            (accept + 2e-6, "Cannot tell"),
            (adjust - 2e-6, "Cannot tell"),
            (adjust + 2e-6, "Adjust"),
        ):
            top = f"{20 + difference * 1e3:.6f}"
            words = fill(sheet, "turned-cut", ft=top, bt=top, fb="20", bb="20")
            assert words.startswith(f"Verdict: {word}"), (difference, words)
        shown = re.search(r"accept up to ([\d.]+) mm[^,]*, adjust over ([\d.]+) mm", words)
        assert [float(x) for x in shown.groups()] == pytest.approx([accept * 1e3, adjust * 1e3], abs=5.1e-3)  # two places
        sheet.goto(sheet.url.replace("-worksheets", "/test_cut"))
        assert f"Up to {row['accept']} of difference, either way: accept. More than {row['adjust']}: adjust." in " ".join(
            sheet.locator("main").inner_text().split()
        )
        paper = " ".join(page.extract_text() for page in pypdf.PdfReader(site / "sheets" / f"{MACHINE}-guide.pdf").pages)
        assert f"Up to {row['accept']} of difference, either way: accept. More than {row['adjust']}: adjust." in " ".join(
            paper.split()
        )

    def test_drift(self, sheet, saw):
        words = fill(sheet, "drift", start=20, end=22, length=300)
        angle = drift.drift_angle(20e-3, 22e-3, 0.3)
        assert number(words, "Drift") == pytest.approx(math.degrees(angle), abs=6e-4)
        shift = drift.fence_shift(angle, saw.value("fence_length")) * 1e3
        assert float(re.search(r"move its far fixing ([\d.]+) mm \([\d.]+ in\) away from", words)[1]) == pytest.approx(
            shift, rel=6e-3
        )
        assert "towards" in fill(sheet, "drift", start=22, end=20) and "cure the blade" in words

    def test_scale(self, sheet, saw):
        words = fill(sheet, "scale", r1=1, s1=60, r2=2, s2=100, r3=3, s3=141)
        fit = tension.fit_scale([1, 2, 3], [2 * s * 1e6 * saw.value("body_area") for s in (60, 100, 141)])
        assert number(words, "b13-3: 13 mm x 0.65 mm, 3 TPI: set the scale to") == pytest.approx(
            (saw.value("wheel_load") - fit.offset) / fit.slope, rel=6e-3
        )


class TestNeverPastALimit:
    """Every saw of the shop, every blade of its list: what the phone advises, put back through the load, stays under the limit."""

    def test_advice_on_the_way(self, page, site, shop):
        """A strand brought up from slack in steps: tighter only below the setting, and the turns lead to it, never past a limit."""
        source, stopped, limited = random.Random(7), 0, 0
        for machine in shop.machines:
            page.goto(f"{site.as_uri()}/machines/{machine.id}-worksheets.html")
            data = page.evaluate("JSON.parse(document.getElementById('sw-data').textContent)")
            load = machine.get("wheel_load_max")
            for blade in data["blades"]:
                page.locator("#stretch-blade").select_option(blade["id"])
                most = min(blade["blade_stress_max"], load / (2 * blade["body_area"]) if load else math.inf)
                assert blade["setting_stress_to"] <= most * (1 + 1e-12)
                limited += bool(blade["limited"])
                for share in (0.3, 0.85, 0.95, 1.05, 1.2, source.uniform(0.2, 1.6), source.uniform(1.3, 2.5)):
                    stress = share * blade["setting_stress"] * (1 - 1e-9)  # never on a limit itself: typed digits decide there
                    words = fill(page, "stretch", stretch=f"{stress * data['gauge_length'] / data['youngs_modulus'] * 1e3:.12f}")
                    assert ("STOP" in words) == (stress > most), (machine.id, blade["id"], share, words)
                    assert ("Too slack" in words) == (stress < blade["setting_stress_from"])
                    assert ("Verdict: Good" in words) == (blade["setting_stress_from"] <= stress <= blade["setting_stress_to"])
                    assert ("tighter" in words or "Tighten" in words) == (stress < blade["setting_stress_from"])
                    stopped += "STOP" in words
                    if "turns tighter" in words and blade["screw_turns"]:
                        turned = number(words, "Tension screw") - 0.051
                        assert stress * (1 + turned / blade["screw_turns"] / share) <= blade["setting_stress"] * (1 + 1e-9)
        assert stopped > 20 and limited >= 4


class TestReads:
    @pytest.mark.parametrize(
        "typed, size", [("12.5", 12.5), ("12,5", 12.5), ("3 1/8", 3.125), ("1/2", 0.5), (" 7 ", 7.0), (".5", 0.5)]
    )
    def test_numbers_as_people_write_them(self, sheet, typed, size):
        found = sheet.evaluate("(typed) => sawside.number(typed).value", typed)
        assert found == pytest.approx(size)

    def test_says_which_field_is_wrong_and_why(self, sheet):
        words = fill(sheet, "push", push="thirty", deflection=8)
        assert "Push" in words and "thirty" in words and "no number" in words
        assert sheet.locator("#push-push").get_attribute("aria-invalid") == "true"
        assert "1234 or 1.234" in fill(sheet, "push", push="1,234")

    def test_nonsense_gets_words(self, sheet):
        names = sheet.evaluate("sawside.sheets.map((one) => one.id)")
        assert len(names) == 8
        source, said = random.Random(1), 0
        count = sheet.locator(".sw-worksheet input[inputmode]").count()
        for typed in NONSENSE * 3:
            row = [typed if source.random() < 0.3 else str(source.randint(1, 400)) for _ in range(count)]
            for name, words in sheet.evaluate(FILL_ALL, row):
                words = re.sub("\u201c.*?\u201d", "", words)  # what was typed is repeated in quotation marks
                assert words.strip() and not re.search(r"NaN|Infinity|undefined|null|\be[+-]?\d", words), f"{name}, {row}: {words}"
                said += "No answer" in words
        assert said > 50

    def test_units_switch_keeps_the_size(self, sheet):
        fill(sheet, "push", push=30, deflection=8)
        before = answer(sheet, "push")
        sheet.get_by_label("Units").select_option("inch")
        assert sheet.locator("#push-deflection-unit").inner_text() == "in"
        assert float(sheet.locator("#push-deflection").input_value()) == pytest.approx(8 / 25.4, rel=1e-5)
        assert float(sheet.locator("#push-push").input_value()) == pytest.approx(30 / 4.4482216, rel=1e-5)
        assert answer(sheet, "push") == before
        sheet.get_by_label("Units").select_option("metric")
        assert float(sheet.locator("#push-deflection").input_value()) == pytest.approx(8, rel=1e-5)


class TestKeeps:
    def test_readings_on_this_device_only(self, sheet, browser, site):
        fill(sheet, "push", deflection=8.25)
        sheet.get_by_label("Units").select_option("inch")
        sheet.get_by_label("Units").select_option("metric")
        sheet.reload()
        assert sheet.locator("#push-deflection").input_value() == "8.25"
        sheet.goto(f"{site.as_uri()}/machines/bench-250-worksheets.html")
        assert sheet.locator("#push-deflection").input_value() == "", "each saw has its own readings"
        other = browser.new_context()
        elsewhere = other.new_page()
        elsewhere.goto(f"{site.as_uri()}/{PATH}")
        assert elsewhere.locator("#push-deflection").input_value() == ""
        other.close()

    def test_forgets_when_told(self, sheet):
        fill(sheet, "push", deflection=8.25, push=44)
        sheet.get_by_role("button", name="Forget all readings").click()
        assert sheet.locator("#push-deflection").input_value() == "" and sheet.locator("#push-push").input_value() == "30"
        sheet.reload()
        assert sheet.locator("#push-deflection").input_value() == ""

    def test_saves_a_table(self, page, address):
        page.goto(f"{address}/{PATH}")
        fill(page, "push", push="31,5", deflection=8)
        with page.expect_download() as caught:
            page.locator("[data-csv=push]").click()
        assert caught.value.suggested_filename == "push.csv"
        rows = list(csv.reader(io.StringIO(caught.value.path().read_text(encoding="utf-8"))))
        table = {row[0]: row[1] for row in rows}
        assert all(len(row) == 2 for row in rows)
        assert table["worksheet"] == "Tension by push" and table["Push"] == "31,5 N" and table["Deflection"] == "8 mm"
        assert "Lever saw" in table["saw"] and re.match(r"\d{4}-\d\d-\d\dT", table["when"])
        assert table["Stress in the blade"] in answer(page, "push")

    @pytest.mark.parametrize("typed", ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)"])
    def test_no_cell_is_a_formula(self, sheet, typed):
        fill(sheet, "push", push=typed, deflection=8)
        with sheet.expect_download() as caught:
            sheet.locator("[data-csv=push]").click()
        rows = list(csv.reader(io.StringIO(caught.value.path().read_text(encoding="utf-8"))))
        assert dict(row for row in rows if len(row) == 2)["Push"].startswith("'")
        assert not [
            cell
            for row in rows
            for cell in row
            if cell.startswith(("=", "+", "@")) or (cell[:1] == "-" and not cell[1:2].isdigit())
        ]

    def test_prints_filled_in(self, sheet, tmp_path):
        words = fill(sheet, "push", push="31.5", deflection="8.125")
        sheet.pdf(path=tmp_path / "filled.pdf", format="A4")
        text = " ".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "filled.pdf").pages)
        assert "31.5" in text and "8.125" in text and words.splitlines()[0].split(": ")[1][:7] in text
        assert "Save as CSV" not in text


class TestWhichBlade:
    def test_same_order_as_the_printed_table(self, sheet, shop):
        machine = next(machine for machine in shop.machines if machine.id == MACHINE)
        printer = guide.printer(shop)
        known = {blade.id: guide.know(shop, machine, blade) for blade in shop.blades}
        fitting = {name: found for name, found in known.items() if shop.family.judge(found.value, printer, found.doubt).fits}
        assert len(fitting) > 3
        highest = int(sheet.get_by_label("Thickness of the work").get_attribute("max"))
        source, firsts = random.Random(11), set()
        for _ in range(60):
            height, radius = source.randint(3, highest), source.choice([0, source.randint(10, 300)])
            cut, wood = source.choice(["rip", "crosscut", "curve", "resaw"]), source.choice(["solid", "sheet"])
            expected = ranked(
                shop, fitting, printer, height * 1e-3, radius * 1e-3 or None, cut, "plywood" if wood == "sheet" else "hardwood"
            )
            got = choose(sheet, height, radius, cut, wood)
            assert got == expected, f"{height} mm, radius {radius} mm, {cut}, {wood}"
            firsts.add(got[0])
        assert len(firsts) > 3, "the settings make a difference"

    def test_says_why(self, sheet):
        choose(sheet, 100, 0, "resaw", "solid")
        words = sheet.locator("#choose li").all_inner_texts()
        assert all(re.search(r"\d", line.split(":", 2)[2]) for line in words)
        assert any(line.startswith("Out:") and "wanted for a straight cut" in line for line in words)

    def test_remembers(self, sheet):
        choose(sheet, 77, 0, "resaw", "solid")
        sheet.reload()
        assert sheet.get_by_label("Thickness of the work").input_value() == "77"


def choose(page, height, radius, cut, wood):
    """Set the sliders and return (blade, fits) in the order of the answer."""
    page.evaluate(
        """(wanted) => { Object.entries(wanted).forEach(([name, value]) => { document.getElementById(`choose-${name}`).value = value; });
            document.querySelector("#choose form").dispatchEvent(new Event("input")); }""",
        {"height": height, "radius": radius, "cut": cut, "wood": wood},
    )
    found = page.eval_on_selector_all(
        "#choose li", "(lines) => lines.map((e) => [e.dataset.blade, e.dataset.fits === 'true', Number(e.dataset.place)])"
    )
    return [tuple(one) for one in found]


def ranked(shop, fitting, printer, height, radius, cut, material):
    """Return what the printed table would say: the family's margins, put in order by `choice.rank`."""
    job = {"material": material, "cut": cut, "work_height_min": height, "work_height_max": height, "cut_radius": radius}
    fields = {field.name: field for field in shop.family.fields}
    entries = {
        name: guide.Entry(fields[name], value, None, "measured", "", guide.At(""))
        for name, value in job.items()
        if value is not None
    }
    order, marks = {}, {}
    for name, found in fitting.items():
        known = guide.know_job(shop, found, SimpleNamespace(entries=entries, get=job.get))
        judgement = shop.family.judge(found.value, printer, found.doubt)
        order[name] = {"job": shop.family.margins(known.value, judgement, printer)}
        marks[name] = {"job": shop.family.grades(known.value, printer)}
    ranking = choice.rank(order, marks, {name: fitting[name].value("blade_width") for name in fitting})
    return [(one.blade, one.fits, one.place) for one in ranking]
