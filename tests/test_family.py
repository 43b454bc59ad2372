"""A second kind of saw, made here from nothing but fields, values and words, goes all the way to pages and sheets.

It proves that nothing above `families` knows a band saw: the circular saw bench below has no tension, no wheels, no test cut.
Its numbers are checked by hand: a chord by Pythagoras, the play of a riving knife by subtraction.
"""

import io
import math

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from sawside import advice, library
from sawside import values as graph
from sawside.calc import other_saws
from sawside.calc.margins import margin
from sawside.cli import main
from sawside.errors import Faults
from sawside.families import FAMILIES
from sawside.families.family import MACHINE_NAMES, Family, Judgement, Shows
from sawside.fields import Field
from sawside.model import ValueSpec
from sawside.outputs import publishing, sheets

NAMING = tuple(field for field in FAMILIES[0].machine if field.name in MACHINE_NAMES)
MACHINE = NAMING + (
    Field(
        "blade_above_table",
        "Blade above the table",
        "length",
        "Rule, saw isolated.",
        "80 mm",
        kind="work_size",
        low=1e-3,
        high=0.3,
        unknown_ok=True,
        group="Setting",
    ),
    Field("knife_thickness", "Riving knife thickness", "length", "Calipers.", "2.5 mm", kind="thickness", low=1e-3, high=6e-3),
)
BLADE = (
    Field("id", "Short name", "id", "Make it up.", "c250-24"),
    Field("blade_diameter", "Blade diameter", "length", "From the blade.", "250 mm", kind="wheel_size", low=0.1, high=0.6),
    Field(
        "blade_body",
        "Body thickness",
        "length",
        "Calipers.",
        "2.2 mm",
        kind="thickness",
        low=1e-3,
        high=6e-3,
        no_more_than=("blade_kerf",),
    ),
    Field("blade_kerf", "Kerf", "length", "Calipers over a tooth.", "3.2 mm", kind="thickness", low=1e-3, high=8e-3),
)
JOB = (
    Field("id", "Short name", "id", "Make it up.", "rip"),
    Field("name", "Job", "text", "In a few words.", "Rip boards"),
    Field("board", "Board", "length", "Thickness of the board.", "30 mm", kind="work_size", low=1e-3, high=0.2),
)
VALUES = (
    ValueSpec("chord", "Length of blade at the table", other_saws.table_chord, "work_size", "c", group="Blade"),
    ValueSpec(
        "knife_play",
        "Play of the riving knife to each side",
        other_saws.knife_side_play,
        "gap",
        "j",
        group="Knife",
        takes={"body_thickness": "blade_body", "kerf": "blade_kerf"},
    ),
)


def judged(value, printer, doubt):
    play = value("knife_play")
    return (
        Judgement(True, "fits", (), ()) if play else Judgement(False, "does not fit", ("the knife is too thick or too thin",), ())
    )


def margins(value, judgement, printer):
    height = value("blade_above_table")
    return [margin("tension", (height or value("board")) / value("board"))]


BENCH = Family(
    key="circular_saw_bench", title="Circular saw benches", machine=MACHINE, blade=BLADE, job=JOB, assumptions=(), values=VALUES,
    ordered=graph.order(VALUES, {f.name for f in MACHINE + BLADE + JOB}), words={}, judge=judged, margins=margins,
    what_to_buy=lambda value, printer: "a blade", few_blades=lambda able: f"{len(able)} jobs",
    sources_differ=lambda value, printer: (),
    blade_words=lambda blade, printer: {"section": f"{printer.text(blade.get('blade_diameter'), 'wheel_size')} across", "length": "",
                                        "back": "carbide", "also_written": ["10 in"]},
    job_words=lambda job, printer: printer.text(job.get("board"), "work_size"), bigger="blade_diameter",
    grades=lambda value, printer: [], reason=lambda value, printer: "deep enough", separates=lambda one, other, printer: "nothing",
    limited=lambda value, printer: "",
    shows=Shows(wall_numbers=(("chord", ""), ("knife_play", ""), ("blade_above_table", "")), blade_numbers=("chord", "knife_play"),
                set_values=("knife_play",), checks=(("Riving knife looked at", "knife_play"),), table_columns=("knife_play",),
                wall_columns=("knife_play",), card_numbers=("chord",), tag_numbers=("knife_play",)),
)  # fmt: skip

PROCEDURE = (
    """\
procedure: knife
title: Set the riving knife
stage: 1
purpose: The knife keeps the cut open behind the blade.
machine_state: isolated
slots: {play: knife_play}
notices: [kickback]
steps:
  - step: Look along the blade
    id: look
    key_points:
      - "The knife stands within {{ play }} of the middle."
      - "Safety: the saw is isolated."
    reason: A board that closes on the blade is thrown back.
    sets: [knife_play]
    summary: "Knife within {{ play }}."
""".replace("{play: knife_play}", "\n  play: knife_play")
    .replace("[kickback]", "\n  - kickback")
    .replace("[knife_play]", "\n      - knife_play")
)
NOTICES = """\
standing:
  - The maker's manual comes first.
notices:
  - id: kickback
    signal: DANGER
    hazard: Kickback.
    consequence: The board hits you.
    avoid:
      - Stand to one side.
    signs:
      - W001
    machine_state: running
"""
SOURCES = """\
sources:
  - key: circle
    text: Geometry of a circle.
    mark: derived
"""
SAW = """\
id: bench
name: Circular saw by the door
maker_plate: Bench saw 315 mm
revision: 1
revised: 2026-03-14
fitted_blade: c250
blade_above_table: {height}
knife_thickness: 2.5 mm
"""
BLADES = """\
blades:
  - id: c250
    blade_diameter: 250 mm
    blade_body: 2.2 mm
    blade_kerf: 3.2 mm
  - id: thin
    blade_diameter: 250 mm
    blade_body: 1.6 mm
    blade_kerf: 2.2 mm
"""


def write(folder, name, text):
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


@pytest.fixture
def project(tmp_path):
    """A shop and procedures of the second family; `project(height)` reads them."""

    def read(height="80 mm"):
        shop, procedures = tmp_path / "shop", tmp_path / "procedures"
        write(shop, "shop.yaml", "shop: A school\nask: the technician\npaper: A4\nviewing_distance: 1 m\n")
        write(shop, "machines/bench.yaml", SAW.format(height=height))
        write(shop, "blades.yaml", BLADES)
        write(shop, "jobs.yaml", "jobs:\n  - id: rip\n    name: Rip boards\n    board: 30 mm\n")
        write(procedures, "circular_saw_bench/knife.yaml", PROCEDURE)
        write(procedures, "circular_saw_bench/notices.yaml", NOTICES)
        write(procedures, "sources.yaml", SOURCES)
        return library.load(shop, procedures, BENCH)

    return read


def test_pages_and_sheets_of_another_kind_of_saw(project):
    made = publishing.publish(project())
    pages = {page.path: page.html.replace("\u00a0", " ") for page in made.pages}
    chord = 2 * math.sqrt(125**2 - 45**2)  # half the chord, the radius and the axle below the table make a right triangle
    assert f"{chord:.0f} mm" in pages["machines/bench-numbers.html"] and "0.35 mm" in pages["machines/bench-numbers.html"]
    assert "The knife stands within 0.35 mm of the middle." in pages["machines/bench/knife.html"]
    assert (
        "The knife is too thick or too thin." in pages["machines/bench-numbers.html"]
        and "Kickback." in pages["machines/bench-safety.html"]
    )
    assert "machines/bench-worksheets.html" not in pages and not any("bench-worksheets" in html for html in pages.values())
    files = {file.path for file in made.files if file.path.endswith(".pdf")}
    assert "sheets/bench.pdf" in files and "sheets/bench-guide.pdf" in files and "sheets/bench-notice.pdf" in files
    assert not files & {"sheets/bench-worksheet.pdf", "sheets/bench-true-scale.pdf"}, "it has no test cut and no band to lay on"
    (wall,) = [file.data for file in made.files if file.path == "sheets/bench.pdf"]
    text = PdfReader(io.BytesIO(wall)).pages[0].extract_text()
    assert "0.35 mm" in text and "Kickback." in text and "Knife within 0.35 mm." in text
    words = " ".join(pages.values()).lower()
    assert not [word for word in ("tyre", "strand", "gullet", "tracking") if word in words], "words of a band saw"


def test_what_is_unknown_waits_there_too(project):
    read = project(height="unknown")
    assert "bench: worth measuring first: Blade above the table (1 number waits)" in advice.advice(read)
    (view,) = publishing.views(read)
    assert [item["name"] for item in view["wall"]["write_in"]] == ["blade_above_table"]
    with pytest.raises(Faults, match="needs `test_cut`"):
        sheets.make("worksheet", view, "A4")


def test_a_project_names_its_kind_of_saw(tmp_path, monkeypatch):
    runner = CliRunner()
    monkeypatch.chdir(tmp_path)
    assert runner.invoke(main, ["new", "shop"]).exit_code == 0
    file = tmp_path / "shop" / "mkdocs.yml"
    text = file.read_text(encoding="utf-8")
    for saws, code in (("wood_band_saw", 0), ("fret_saw", 1)):
        file.write_text(text.replace("- sawside:", f"- sawside:\n      saws: {saws}"), encoding="utf-8")
        result = runner.invoke(main, ["check", "--project", "shop"])
        assert result.exit_code == code, result.output
    assert "`saws` cannot be `fret_saw`" in result.output and "write one of: wood_band_saw" in result.output
    assert "mkdocs.yml:" in result.output
