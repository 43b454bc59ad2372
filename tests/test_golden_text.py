"""What two saws print stays what it was: the view's data, the words of every sheet, and the figures, as text.

A changed digit fails with the lines that differ. After a wanted change `make golden` writes the files in tests/golden_text anew;
read the difference. The expected texts are our own output of an earlier day: they notice a change, they prove no number right.
"""

import difflib
import re
from pathlib import Path

import pytest

from sawside.kinds import sheet_kinds as kinds
from sawside.outputs import sheets
from test_sheets import text_of

EXPECTED = Path(__file__).parent / "golden_text"
#: Two saws, and of which sheets the words are kept: all of the first, those full of numbers of the second.
SAWS = {
    "lever-350": tuple(kind for kind in kinds.KINDS if kind != "out_of_service"),
    "old-18-inch": ("wall", "blade_table", "job_card"),
}
#: Parts of a view that are printed word for word on the sheets, or are pictures.
ELSEWHERE = {
    "stages",
    "card",
    "lists",
    "for_blade",
    "few_blades",
    "notices",
    "more_notices",
    "wall",
    "blade",
    "always",
    "drawings",
    "sign_svgs",
    "working",
}
#: Longest difference shown [lines].
SHOWN = 60


def data_lines(value, path: str = ""):
    """Yield one line for each thing in a view; one printed number is one line, and what is empty is left out."""
    if isinstance(value, dict) and {"name", "text", "status"} <= value.keys():
        words = (
            value["text"],
            value["small"],
            value["plus_minus"],
            value["good"],
            value["limited"],
            value["status"],
            value["note"],
        )
        yield f"{path.rpartition('[')[0]}: {value['name']} = " + " | ".join(word for word in words if word)
    elif (
        isinstance(value, dict)
        and path.endswith("]")
        and not any(isinstance(part, (dict, list, tuple)) and part for part in value.values())
    ):
        yield f"{path.rpartition('[')[0]}: " + " | ".join(str(part) for part in value.values() if part not in ("", [], {}, ()))
    elif isinstance(value, dict):
        for key, part in value.items():
            yield from data_lines(part, f"{path}.{key}" if path else key)
    elif isinstance(value, (list, tuple)) and any(isinstance(part, (dict, list, tuple)) for part in value):
        for number, part in enumerate(value):
            yield from data_lines(part, f"{path}[{part.get('id', number) if isinstance(part, dict) else number}]")
    elif value not in ("", None, [], (), {}):
        yield f"{path} = {value}"


def sheet_lines(view: dict, chosen):
    """Return the words of some sheets of one saw, a line of paper a line here."""
    orders = [sheets.Order(kind, view, "A4") for kind in chosen]
    return [line.rstrip() for line in text_of(sheets.combine(orders)).replace("\f", "---- next page\n").splitlines()]


def figure_lines(svg: str):
    """Return a drawing with one element a line."""
    return re.sub(r"(?<=>)(?=<)", "\n", svg).splitlines()


def compare(file: Path, lines, golden: bool) -> None:
    """Fail with the lines that differ from an expected file, or write it."""
    lines = list(lines)
    if golden:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")
    before = file.read_text(encoding="utf-8").split("\n")[:-1]
    changed = list(difflib.unified_diff(before, lines, f"expected: {file.name}", "now", n=0, lineterm=""))
    assert not changed, "\n".join(changed[:SHOWN])


@pytest.mark.parametrize("saw", SAWS)
def test_the_data_of_a_view(saw, views, golden):
    shown = {key: part for key, part in views[saw].items() if key not in ELSEWHERE}
    compare(EXPECTED / saw / "view.txt", data_lines(shown), golden)


@pytest.mark.parametrize("saw", SAWS)
def test_the_words_of_the_sheets(saw, views, golden):
    compare(EXPECTED / saw / "sheets.txt", sheet_lines(views[saw], SAWS[saw]), golden)


@pytest.mark.parametrize("saw", SAWS)
def test_the_figures(saw, views, golden):
    drawings = views[saw]["drawings"]
    for name, drawing in drawings.items():
        compare(EXPECTED / saw / f"{name}.svg", figure_lines(drawing["svg"]), golden)
    assert {file.stem for file in (EXPECTED / saw).glob("*.svg")} == set(drawings), "a figure came or went"


def test_a_changed_digit_is_shown():
    file = EXPECTED / "lever-350" / "view.txt"
    whole = file.read_text(encoding="utf-8")
    changed = whole.replace("wheel_diameter_upper = 350 mm", "wheel_diameter_upper = 351 mm").splitlines()
    with pytest.raises(AssertionError, match=r"(?s)-numbers[^\n]*350 mm.*\+numbers[^\n]*351 mm"):
        compare(file, changed, golden=False)
