"""The HTML of every page follows the standard, and says in its structure what it says to the eye."""

import html5lib
import pytest

from demonstration import KINDS, pages

HTML = "{http://www.w3.org/1999/xhtml}"
MATH = "{http://www.w3.org/1998/Math/MathML}"
SVG = "{http://www.w3.org/2000/svg}"


def parse(file):
    """Return the tree of a page; html5lib is the reference parser of the HTML standard, `strict` stops at the first error."""
    return html5lib.HTMLParser(strict=True).parse(file.read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def trees(site):
    return {kind: parse(site / path) for kind, path in KINDS.items()}


def test_every_page_parses_without_an_error(site, trees):
    assert len(trees) == len(KINDS)
    for file in pages(site):
        if file.relative_to(site).as_posix() not in KINDS.values() and "lever-350" not in file.name:
            if "guide" not in file.name and "working" not in file.name:
                parse(file)


def test_the_parser_does_find_errors(tmp_path):
    (tmp_path / "wrong.html").write_text("<!doctype html><p><table><p>x</table>", encoding="utf-8")
    with pytest.raises(html5lib.html5parser.ParseError):
        parse(tmp_path / "wrong.html")


def test_no_page_speaks_to_programmers(site):
    for file in pages(site):
        words = " ".join("".join(parse(file).itertext()).split())
        assert "Return the" not in words and "Return whether" not in words, file.name


def test_one_first_heading_and_none_left_out(trees):
    for kind, tree in trees.items():
        levels = [int(e.tag[-1]) for e in tree.iter() if isinstance(e.tag, str) and e.tag in {f"{HTML}h{n}" for n in range(1, 7)}]
        assert levels[0] == 1 and levels.count(1) == 1, kind
        assert all(b <= a + 1 for a, b in zip(levels, levels[1:], strict=False)), kind


def test_every_page_says_its_language_and_title(trees):
    for kind, tree in trees.items():
        assert tree.get("lang") == "en", kind
        assert tree.find(f"{HTML}head/{HTML}title").text.strip(), kind


def test_every_picture_has_words(trees):
    pictures = 0
    for kind, tree in trees.items():
        for image in tree.iter(f"{HTML}img"):
            pictures += 1
            # On the page of sheets each picture stands in a link that says the same in words.
            assert image.get("alt", None) is not None and (image.get("alt").strip() or kind == "sheets"), kind
        for drawing in tree.iter(f"{SVG}svg"):
            if drawing.get("aria-hidden") != "true":
                pictures += 1
                assert drawing.get("role") == "img" and (drawing.find(f"{SVG}desc").text or "").strip(), kind
    assert pictures > 20


def test_formulas_are_marked_up_as_mathematics(trees):
    formulas = list(trees["working"].iter(f"{MATH}math"))
    assert len(formulas) > 20
    for formula in formulas:
        assert any((e.text or "").strip() for e in formula.iter() if e.tag in (f"{MATH}mi", f"{MATH}mn"))


def test_shop_text_is_never_markup(site):
    from sawside.outputs import layouts

    template = layouts.environment().from_string("{{ name }}")
    assert template.render(name="<script>x</script>") == "&lt;script&gt;x&lt;/script&gt;"
    assert layouts.environment().from_string("{{ how|words }}").render(how="<b> `<i>`") == "&lt;b&gt; <code>&lt;i&gt;</code>"
