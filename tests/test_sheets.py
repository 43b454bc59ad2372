"""Sheets on paper, read back with tools that are not ours: poppler (text, fonts), pypdf (structure), pillow (typeface).

Values from outside: letter heights D/150 and D/300 (ANSI Z535.4 annex, second hand), contrast 4.5 (WCAG 2.1, 1.4.3),
signs M009 and P028 (ISO 7010, second hand), least type 9 pt (our own rule).
"""

import io
import re
import subprocess

import pytest
from PIL import ImageFont
from pypdf import PdfReader

from sawside.errors import Faults
from sawside.kinds import contents
from sawside.kinds import sheet_kinds as kinds
from sawside.outputs import paper, sheets, typeface
from sheet_views import NOTICES, fit_for, notice, view


def poppler(command, data, *arguments):
    """Run a poppler program on a PDF and return what it prints; a machine without poppler fails here."""
    done = subprocess.run([command, *arguments, "-", *(["-"] if command == "pdftotext" else [])], input=data, capture_output=True)
    assert done.returncode == 0, done.stderr
    return done.stdout.decode("utf-8", "replace")


def text_of(sheet):
    """Return the text of a sheet in the order it was written."""
    return poppler("pdftotext", sheet.data, "-raw")


def type_sizes(sheet):
    """Return every piece of text with the size it has on paper [pt]."""
    found = []
    for page in PdfReader(io.BytesIO(sheet.data)).pages:
        page.extract_text(visitor_text=lambda text, cm, tm, font, size: found.append((text.strip(), abs(size * tm[3] * cm[3]))))
    return [(text, size) for text, size in found if text]


ALL = [(kind, size) for kind, entry in kinds.KINDS.items() for size in entry.papers]


@pytest.mark.parametrize("kind, size", ALL)
def test_every_sheet_on_every_paper(kind, size):
    sheet = sheets.make(kind, view() | fit_for(kind), size)
    reader = PdfReader(io.BytesIO(sheet.data))
    box = reader.pages[0].mediabox
    millimetres = sorted(float(side) * 25.4 / 72 for side in (box.width, box.height))
    assert millimetres == pytest.approx(sorted(paper.PAPERS[size]), abs=0.05)
    most = {"A5": kinds.KINDS[kind].most_halves, "A5 on A4": kinds.KINDS[kind].most_halves // 2}
    if most.get(size, kinds.KINDS[kind].most_pages):
        assert len(reader.pages) == most.get(size, kinds.KINDS[kind].most_pages)
    assert min(point for _, point in type_sizes(sheet)) >= 8.99
    fonts = [line.split() for line in poppler("pdffonts", sheet.data).splitlines()[2:]]
    assert fonts and all(line[-5] == "yes" and "Inter" in line[0] for line in fonts), "every font embedded, only the shipped one"
    catalog = reader.trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"] and catalog["/Lang"] == "en" and b"pdfuaid" in catalog["/Metadata"].get_data()
    assert reader.metadata.title == f"Bench saw: {kinds.title(kind, contents.about(kind, view()))}"
    assert "The maker's manual comes first" in text_of(sheet).replace("\n", " ") or kind == "tags"


@pytest.mark.parametrize("kind, size", ALL)
def test_no_word_leaves_the_paper(kind, size):
    """Printers leave up to 5 mm unprinted (common practice, no source); nothing may stand there."""
    distance = 1.0 if kind in ("notice", "out_of_service") and size.startswith("A5") else 2.0  # letters for 2 m need a larger panel
    wordy = (
        view(name="W" * 60, blades=40, viewing_distance=distance)
        | {"always": ["The maker's manual comes first. " * 4]}
        | fit_for(kind)
    )
    wordy["machine"]["place"] = "W" * 60
    wordy["wall"]["always"] = ["The maker's manual comes first."]
    wordy["blades"][0] |= {"name": "bandsaw-blade-with-a-long-id", "verdict": "fits with care", "reasons": ["Donaudampfschiff" * 3]}
    edge, words = 5 * 72 / 25.4, 0
    for line in poppler("pdftotext", sheets.make(kind, wordy, size).data, "-bbox").splitlines():
        numbers = [float(n) for n in re.findall(r'="([\d.-]+)"', line)]
        if "<page " in line:
            wide, high = numbers
        elif "<word " in line:
            left, top, right, bottom = numbers
            assert left > edge and top > edge - 5 and right < wide - edge and bottom < high - edge + 5, line
            words += 1
    assert words > 30


#: Nothing on the wall that is read at the saw is smaller [pt]: ten points is what print for adults is commonly set in
#: (common practice, no source).
READ_AT_THE_SAW = 10.0


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_wall_sheet_holds_what_it_promises(size):
    full = view(steps=5, unknown=4, blades=6) | {"always": ["The maker's manual comes first."]}
    sheet = sheets.make("wall", full, size)
    text = text_of(sheet)
    assert text.count("Slacken, lift the blade off") == 5, "the steps where there is room"
    assert all(f"Unknown {n}" in text for n in range(4)) and all((f"\nb{n} " in text) == (n % 4 != 3) for n in range(6))
    assert text.index("DANGER") < text.index("WARNING") < text.index("CAUTION") < text.index("Procedure 0")
    assert text.index("Set to these numbers") < text.index("DANGER") < text.index("Blades on the rack")
    assert "NO: 60 mm too long for this saw" not in text, "a blade that hangs on the rack and does not fit"
    assert "https://saws.example.org/machines/saw.html" in text
    assert text.index("Blades on the rack") < text.index("Set up by") < text.index("Date") < text.index("Checked by")
    assert drawings_of(sheet) == 1, "the saw with its parts named"


def drawings_of(sheet):
    """Return how many of the tagged pictures of a sheet are the drawing of the saw."""
    tree = PdfReader(io.BytesIO(sheet.data)).trailer["/Root"]["/StructTreeRoot"]
    return list(alternatives(tree)).count("The saw with its parts")


def alternatives(element):
    """Yield the alternative texts of a structure tree."""
    element = element.get_object()
    if not isinstance(element, dict):
        for child in element if isinstance(element, list) else ():
            yield from alternatives(child)
        return
    if "/Alt" in element:
        yield str(element["/Alt"])
    if "/K" in element:
        yield from alternatives(element["/K"])


@pytest.mark.parametrize("size", ["A4", "Letter", "A5"])
@pytest.mark.parametrize("full", [{}, {"steps": 4, "unknown": 0, "blades": 3}], ids=["full", "little"])
def test_what_is_read_on_the_wall_is_ten_points_or_more(size, full):
    foot = ("Some shop", ". Ask ", "the steward", "https://saws.example.org")
    small = {text for text, point in type_sizes(sheets.make("wall", view(**full), size)) if point < READ_AT_THE_SAW - 0.01}
    assert all(any(part in text or text in part for part in foot) for text in small), small


def test_too_many_steps_leave_the_wall_for_a_sheet_of_their_own():
    for size in ("A4", "A5"):
        text = " ".join(text_of(sheets.make("wall", view(steps=60), size)).split())
        assert "Slacken" not in text and "Step by step: on a sheet of its own" in text
        assert all(word in text for word in ("DANGER", "WARNING", "Set up by"))


def words_of(sheet):
    """Return the words of every half or whole page with their left and right edges [pt], in the order they are drawn."""
    pages = []
    for line in poppler("pdftotext", sheet.data, "-bbox", "-raw").splitlines():
        if "<page " in line:
            pages.append([])
        elif "<word " in line:
            left, right = (float(n) for n in re.findall(r'xM(?:in|ax)="([\d.-]+)"', line))
            pages[-1].append((re.sub("<[^>]+>", "", line).strip(), left, right))
    return pages


@pytest.mark.parametrize("kind", [kind for kind, entry in kinds.KINDS.items() if "A5 on A4" in entry.papers])
def test_a_pair_of_half_pages_says_what_two_leaves_say(kind):
    """Cut along the middle, each half is one A5 page: the same words in the same order, none of them across the cut."""
    full = view()
    full["jobs"] = [job | {"id": f"j{n}"} for n in range(7) for job in full["jobs"]]  # two pages of cards
    single, pairs = words_of(sheets.make(kind, full, "A5")), words_of(sheets.make(kind, full, "A5 on A4"))
    middle, halves = 148.5 * 72 / 25.4, []
    for page in pairs:
        assert all(right < middle - 14 or left > middle + 14 for _, left, right in page), "5 mm clear of the cut"
        halves += [[w for w in page if w[2] < middle], [w for w in page if w[1] > middle]]
    assert len(pairs) == (len(single) + 1) // 2 and len(single) > 1
    for half, alone in zip(halves, single, strict=False):
        assert [word for word, *_ in half] == [word for word, *_ in alone]
    spare = [word for word, *_ in halves[-1]] if len(halves) > len(single) else []
    assert not spare or (len(spare) < 40 and "page" not in spare), "an empty last half has only its head and foot"
    marks = [" ".join(w for w, *_ in half).count(f"of {len(single)}") for half in halves[: len(single)]]
    assert marks == [1] * len(single) or kind in ("wall", "notice"), "every half is numbered"


def test_the_half_page_on_the_wall_has_numbers_and_hazards_in_front_and_the_saw_behind():
    sheet = sheets.make("wall", view(), "A5")
    front, back = (poppler("pdftotext", sheet.data, "-raw", "-f", page, "-l", page) for page in ("1", "2"))
    assert "Set to these numbers" in front and all(word in front for word in ("DANGER", "WARNING", "Rules of this shop"))
    assert "DANGER" not in back and "Set up by" in back and drawings_of(sheet) == 1
    shown, lines = sum(f"\nb{n} " in back for n in range(12)), back.count("Unknown ")
    assert shown == 9 or f"{9 - shown} more: see the blade table" in back, "nine of the twelve fit"
    assert shown > 1
    assert lines == 6 or f"{6 - lines} more: see the pages" in back
    with pytest.raises(Faults, match="Wall sheet of `saw` does not fit on A5: local rules .* need .* mm left"):
        sheets.make("wall", view(rules=("Nobody works on the saws alone. " * 7,) * 12), "A5")


def test_what_the_wall_sheet_leaves_out_it_names():
    text = text_of(sheets.make("wall", view(blades=40, unknown=30, notices=NOTICES + [notice("x", "NOTICE", [])]), "A4"))
    shown = sum(f"\nb{n} " in text for n in range(40))
    assert f"{30 - shown} more: see the blade table" in text and "1 more: see the safety notice" in text
    assert f"{30 - text.count('Unknown ')} more: see the pages" in text


def test_overfull_sheet_says_what_to_shorten():
    rule = "Nobody works on the saws alone. " * 7
    with pytest.raises(Faults) as caught:
        sheets.make("wall", view(rules=(rule,) * 14), "A4")
    (fault,) = caught.value.faults
    assert fault.at.file == "machines/saw.yaml" and fault.hint == "shorten `local_rules` in shop.yaml"
    words = fault.what.split(" need ")
    assert words[0] == "Wall sheet of `saw` does not fit on A4: local rules (3136 characters)"
    need, left = (int(part.split()[0]) for part in words[1].split(", "))
    assert 14 * 3 * 3 < need < 14 * 5 * 5 and left < need, "14 rules of 3 to 5 lines, a line 3 to 5 mm"
    assert sheets.make("wall", view(rules=(rule,) * int(14 * left / need)), "A4"), "and so much really fits"
    with pytest.raises(Faults, match="notice `x` .* need"):
        sheets.make(
            "notice",
            view(notices=[notice("x", "DANGER", []) | {"line": "Very bad. " * 130, "consequence": "Very bad. " * 130}]),
            "A4",
        )


def test_labels_that_do_not_lie_on_the_paper_are_a_fault():
    grid = {
        "columns": 2,
        "rows": 7,
        "left": 4.65,
        "top": 15.1,
        "gap_x": 2.5,
        "gap_y": 0.0,
        "width": 99.1,
        "height": 38.1,
        "lines": False,
    }
    assert sheets.make("tags", view(labels=grid), "A4")
    with pytest.raises(Faults) as caught:
        sheets.make("tags", view(labels=grid), "A5")
    (fault,) = caught.value.faults  # 4.65 + 2 * 99.1 + 2.5 = 205 across 148, 15.1 + 7 * 38.1 = 282 down 210: the second is more
    assert fault.what == "Blade tags of `saw` does not fit on A5: label grid need 282 mm, 210 mm left"
    assert fault.hint.startswith("correct the label measures in shop.yaml") and fault.hint.endswith("or print on larger paper")


def test_larger_paper_is_advised_only_where_there_is_some():
    loud = [
        notice("x", "DANGER", []) | {"line": "Very bad. " * 400, "consequence": "Very bad. " * 400}
    ]  # the least that a notice can be shortened to
    for size, advised in (("A5", True), ("A4", True), ("A3", False)):
        with pytest.raises(Faults) as caught:
            sheets.make("notice", view(notices=loud), size)
        assert caught.value.faults[0].hint.endswith("or print on larger paper") == advised, size
    with pytest.raises(Faults) as caught:
        sheets.make("wall", view(rules=("Nobody works on the saws alone. " * 7,) * 30), "A4")
    assert "larger paper" not in caught.value.faults[0].hint


@pytest.mark.parametrize("distance", [1.0, 2.0, 3.5])
@pytest.mark.parametrize("size", ["A3", "A4"])
def test_letters_of_the_notice_are_tall_enough(distance, size):
    """Capitals: signal word D/150, every other line D/300, title and foot too. How tall a capital is, is measured by another
    font engine. Where there is room they are taller, and the sheet says from how far off it can be read."""
    capital = min(_capital(typeface.folder() / name) for name in typeface.FILES)
    if (distance, size) == (3.5, "A4"):
        with pytest.raises(Faults, match="does not fit on A4"):
            sheets.make("notice", view(viewing_distance=distance), size)
        return
    sheet = sheets.make("notice", view(viewing_distance=distance), size)
    tall = [(text, points * 25.4 / 72 * capital) for text, points in type_sizes(sheet)]
    reach = float(re.search(r"For reading\s+from\s+([\d.]+)\s+m\.", text_of(sheet))[1])
    assert reach >= distance
    assert min(height for text, height in tall if text == "DANGER") >= 1000 * reach / 150 * 0.99
    assert min(height for _, height in tall) >= 1000 * reach / 300 * 0.99
    # taller by no more than the tenth of a metre that is cut off
    assert min(height for _, height in tall) <= 1000 * (reach + 0.1) / 300 * 1.01


def _capital(path):
    _, top, _, bottom = ImageFont.truetype(str(path), 2000).getbbox("H")
    return (bottom - top) / 2000


def test_notice_is_worst_first_and_says_when():
    text = text_of(sheets.make("notice", view(viewing_distance=1.0), "A4"))  # from 2 m there is no room to say when
    assert text.index("DANGER") < text.index("WARNING") < text.index("CAUTION")
    assert "while the saw runs" in text and "with the saw isolated" in text
