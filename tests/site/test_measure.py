"""The form to measure a saw with: everything a machine's and a blade's file needs, in the order of a walk round the saw."""

import html5lib

from sawside.families import FAMILIES
from sawside.outputs import layouts

HTML = "{http://www.w3.org/1999/xhtml}"
FAMILY = FAMILIES[0]


def test_every_field_once():
    asked = [field.name for stop in layouts.stops(FAMILY) for field in stop["fields"]]
    wanted = [field.name for field in FAMILY.machine + FAMILY.blade]
    assert sorted(asked) == sorted(wanted)


def test_the_order_of_the_walk():
    # Common practice, no source: what can be read with the doors closed comes before what needs the saw isolated.
    titles = [stop["title"].split(",")[0] for stop in layouts.stops(FAMILY)]
    assert titles[:6] == ["Outside", "Plate and papers", "Wheels", "Tension and tracking", "Guides", "Table and fence"]


def test_each_field_has_a_line_to_write_on_and_words_how(site):
    tree = html5lib.parse((site / "reference" / "measure.html").read_text(encoding="utf-8"))
    rows = [row for row in tree.iter(f"{HTML}tr") if row.find(f"{HTML}td") is not None]
    assert len(rows) == len(FAMILY.machine) + len(FAMILY.blade)
    for row in rows:
        name, write, how = row
        assert "".join(name.itertext()).strip()
        assert any(span.get("class") == "sw-blank" for span in write.iter(f"{HTML}span"))
        assert "".join(write.itertext()).strip() and len("".join(how.itertext())) > 10


def test_isolation_comes_before_the_doors(site):
    text = "".join(html5lib.parse((site / "reference" / "measure.html").read_text(encoding="utf-8")).itertext())
    assert text.index("Isolate the saw before you open a door") < text.index("2. Plate and papers")
