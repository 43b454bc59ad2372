"""A shop whose names and texts are attacks: shown literally on every page and sheet, never markup, script or code.

The strings are the usual ones for HTML, Markdown, templates, Typst and YAML (OWASP, "Cross Site Scripting Prevention"
and "Server Side Template Injection", from memory). The yardstick is a twin shop with plain words in the same places:
whatever is written into a shop file, the pages must have the very same elements and attributes.
"""

import functools
import io
import json
import re
import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import html5lib
import pypdf
import pytest
from click.testing import CliRunner

import chromium
from sawside import library, slots, source
from sawside.cli import main
from sawside.errors import Faults
from sawside.outputs import sheets

GOOD = Path(__file__).parent / "faults" / "good"

#: Each is put where a shop may write text; `unquoted` never, because that is not what a person reads.
ATTACKS = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(2)>',
    "' onmouseover='alert(3)",
    "[x](javascript:alert(4))",
    "![x](https://evil.example/p.png)",
    "</script><script>alert(5)</script>",
    "<!--<script>",
    "]]><svg onload=alert(6)>",
    "</title><style>*{display:none}",
    "&lt;b&gt; &amp; &#60;i&#62;",
    "*b* _i_ **b** ~~s~~ `c` ^s^",
    '#panic() #read("/etc/passwd")',
    "$x$ \\u{41} @ref <label> // /* c */",
    "= head - item + item / term: x",
    "#set page(width: 1pt); #[*b*]",
    "${alert(7)} %(x)s {0} \\n \\\\",
    "!!python/object/apply:os.system",
    "<%= 7*7 %> {7*7} #{7*7} ?{7*7}",
    "https://evil.example/ www.evil.example",
    "--- ... 'x' \"y\" -- 1/2 (c) :)",
)
NAMES = ("\"><img src=x onerror=alert(8)> '</title>", "&lt;/title&gt;&lt;script&gt;alert(9)// </script> #panic()")
SITE = "Bob & Sons <b>'\"</b> </title><script>alert(10)</script>"


READ = functools.lru_cache(maxsize=None)(source.read)


@pytest.fixture(autouse=True, scope="module")
def read_once():
    """Let a file that comes again be read once: reading depends on its bytes and its name alone."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(source, "read", READ)
        yield


def quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def write_shop(folder: Path, word) -> Path:
    """Write a shop with two saws; `word` turns each attack into what stands in its place."""
    shutil.copytree(GOOD, folder)
    good = {path: path.read_text(encoding="utf-8") for path in folder.rglob("*.y*ml")}
    names = f"site_name: {quoted(word(SITE))}\nsite_description: {quoted(word(SITE))}"
    settings = good[folder / "mkdocs.yml"].replace("      procedures: procedures\n", "")
    (folder / "mkdocs.yml").write_text(settings.replace("site_name: My saws", names), encoding="utf-8")
    rules = "".join(f"  - {quoted(word(attack))}\n" for attack in ATTACKS[:2])
    (folder / "shop.yaml").write_text(
        good[folder / "shop.yaml"]
        .replace("My workshop", quoted(word(ATTACKS[0])))
        .replace("whoever owns the saw", quoted(word(ATTACKS[1])))
        + f"local_rules:\n{rules}",
        encoding="utf-8",
    )
    saw = good[folder / "machines" / "my-saw.yaml"]
    for number, name in enumerate(NAMES):
        text = saw.replace("id: my-saw", f"id: saw-{number}").replace("My band saw", quoted(word(name)))
        text = text.replace("the little one", quoted(" ".join(map(word, ATTACKS[:6]))))
        text = text.replace("Bench room, north wall", quoted(word(ATTACKS[7])))
        text = text.replace("250 mm saw, year 2015", quoted(word(ATTACKS[10 + number])))
        text = text.replace("revision: 1", f"revision: {quoted(word('<b>1</b>'))}")
        (folder / "machines" / f"saw-{number}.yaml").write_text(text, encoding="utf-8")
    (folder / "machines" / "my-saw.yaml").unlink()
    blades = good[folder / "blades.yaml"]
    (folder / "blades.yaml").write_text(blades.replace("Hook 4", quoted(word(ATTACKS[1]))), encoding="utf-8")
    job = (
        "  - id: job-{}\n    name: {}\n    material: softwood\n    cut: rip\n"
        "    work_height_min: 19 mm\n    work_height_max: 40 mm\n"
    )
    jobs = "".join(job.format(number, quoted(word(attack))) for number, attack in enumerate(ATTACKS))
    (folder / "jobs.yaml").write_text("jobs:\n" + jobs, encoding="utf-8")
    return folder


def plain_word(attack: str) -> str:
    """Return a harmless word for an attack, always the same one."""
    return "plain" + str(([*ATTACKS, *NAMES, SITE, "<b>1</b>"]).index(attack))


def built(folder: Path) -> Path:
    result = CliRunner().invoke(main, ["build", "--project", str(folder)])
    assert result.exit_code == 0, result.output
    return folder / "site"


@pytest.fixture(scope="module")
def site(tmp_path_factory) -> Path:
    """The site of the shop full of attacks."""
    return built(write_shop(tmp_path_factory.mktemp("attack") / "shop", lambda attack: attack))


@pytest.fixture(scope="module")
def twin(tmp_path_factory) -> Path:
    """The site of the same shop with plain words instead."""
    with pytest.MonkeyPatch.context() as patch:  # its sheets are not looked at
        patch.setattr(sheets, "_typeset", lambda data, orders: (b"%PDF-", b""))
        return built(write_shop(tmp_path_factory.mktemp("plain") / "shop", plain_word))


def pages(site: Path) -> dict[str, object]:
    """Return the parsed tree of every page by its address."""
    parse = functools.partial(html5lib.parse, namespaceHTMLElements=False)
    paths = sorted(site.rglob("*.html"))
    return {path.relative_to(site).as_posix(): parse(path.read_text(encoding="utf-8")) for path in paths}


def elements(tree, depth: int = 0) -> list[tuple[int, str, tuple[str, ...]]]:
    """Return every element with its depth and the names of its attributes, comments included, in order."""
    own = (depth, str(tree.tag), tuple(sorted(map(str, tree.attrib))))
    return [own, *(found for node in tree for found in elements(node, depth + 1))]


def texts(tree) -> list[str]:
    """Return the texts of a tree that people read, and its labels and titles, each with its spaces drawn together."""
    found = [attribute for node in tree.iter() for attribute in node.attrib.values()]
    found += ["".join(node.itertext()) for node in tree.iter() if node.tag not in ("script", "style", "head", "html")]
    return [" ".join(text.split()) for text in found]


def test_no_attack_changes_the_elements_of_any_page(site, twin):
    attacked, plain = pages(site), pages(twin)
    assert attacked.keys() == plain.keys() and len(attacked) > 10
    for name in attacked:
        assert elements(attacked[name]) == elements(plain[name]), name


def test_every_attack_is_shown_as_it_was_written(site):
    shown = {name: texts(tree) for name, tree in pages(site).items()}
    titles = {name: tree.find("head/title").text for name, tree in pages(site).items()}
    everything = [text for found in shown.values() for text in found]
    for attack in (*ATTACKS, *NAMES, SITE):
        assert any(" ".join(attack.split()) in text for text in everything), attack
    for number, name in enumerate(NAMES):
        own = [page for page in shown if page.startswith(f"machines/saw-{number}")]
        assert len(own) >= 5
        for page in own:
            assert any(name in text for text in shown[page]), (page, name)
            assert name in titles[page], page
    for page, found in shown.items():
        assert any(SITE in text for text in found), page


def test_no_address_on_any_page_is_a_script_or_leads_to_another_host(site):
    allowed = re.compile(r"(?!javascript:|vbscript:|data:text|//|https?://)", re.IGNORECASE)
    links = 0
    for name, tree in pages(site).items():
        for node in tree.iter():
            for attribute in ("href", "src", "action", "formaction", "data", "poster", "srcset"):
                if value := node.attrib.get(attribute):
                    links += 1
                    assert allowed.match(value.strip()), (name, node.tag, value)
                    assert "alert" not in value and "evil" not in value, (name, node.tag, value)
    assert links > 100


def test_data_for_scripts_cannot_end_its_element(site):
    found = 0
    for name, tree in pages(site).items():
        for node in tree.iter("script"):
            if node.attrib.get("type") == "application/json":
                found += 1
                json.loads(node.text)
                assert "<" not in node.text, name
    assert found >= 2


def test_the_search_list_holds_the_words_and_no_markup(site):
    text = (site / "assets" / "find.js").read_text(encoding="utf-8")
    assert "<" not in text
    places = json.loads(re.fullmatch(r"window\.sawsidePlaces = (.*);\n", text, re.DOTALL)[1])
    words = [" ".join(" ".join(map(str, place)).split()) for place in places]
    for number, attack in enumerate(NAMES):
        assert any(attack in text for text in words), attack
        assert {page for url, page, *_ in places if url.partition("#")[0] == f"machines/saw-{number}.html"} == {attack}
    for path in site.rglob("*.html"):
        assert "search_index" not in path.read_text(encoding="utf-8"), "a list of another form, with titles not escaped"


def squeezed(text: str) -> str:
    """Return a text without its spaces and places to break: paper breaks lines where it likes."""
    return re.sub(r"[\s\u200b]+", "", text)


def test_every_sheet_shows_the_name_of_its_saw_as_it_was_written(site):
    made = [path for path in sorted(site.glob("sheets/saw-*.pdf")) if "guide" not in path.name]  # which is long
    made = [path for path in made if path.name.startswith("saw-0") or path.name == "saw-1.pdf"]
    assert len(made) >= 2
    for path in made:
        reader = pypdf.PdfReader(path)
        text = squeezed("".join(page.extract_text() for page in reader.pages))
        number = int(re.match(r"saw-(\d)", path.name)[1])
        assert squeezed(NAMES[number]) in text, path.name
    assert squeezed(ATTACKS[1]) in squeezed(pypdf.PdfReader(made[0]).pages[0].extract_text())


def test_no_sheet_holds_a_program_or_an_address_of_another_host(site):
    for path in site.glob("sheets/*.pdf"):
        reader = pypdf.PdfReader(io.BytesIO(path.read_bytes()))
        for number in range(1, reader.trailer["/Size"]):
            try:
                found = reader.get_object(number)
            except pypdf.errors.PdfReadError:
                continue
            if isinstance(found, dict):
                assert not {"/JS", "/JavaScript", "/Launch", "/AA", "/URI"} & set(found), path.name
                assert found.get("/S") not in ("/JavaScript", "/Launch", "/URI", "/SubmitForm"), path.name


def test_single_sheets_print_every_attack_in_a_name(tmp_path):
    """The job cards and the guide carry more of the shop's words than the wall sheet does."""
    folder = write_shop(tmp_path / "shop", lambda attack: attack)
    target = tmp_path / "cards.pdf"
    words = ["sheet", "saw-0", "--kind", "job_card", "--to", str(target), "--project", str(folder)]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 0, result.output
    text = squeezed("".join(page.extract_text() for page in pypdf.PdfReader(target).pages))
    missing = [attack for attack in ATTACKS if squeezed(attack) not in text]
    assert not missing


@pytest.fixture(scope="module")
def served(site) -> str:
    with chromium.serving(site) as address:
        yield address


def visit(addresses: list[str], queries: tuple[str, ...]) -> tuple[list[str], int]:
    """Open pages in a real browser, search, and type into every field; return what went wrong, and results found."""
    from playwright.sync_api import sync_playwright

    wrong, results = [], 0
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium.path(), args=list(chromium.QUIET))
        page = browser.new_context().new_page()
        page.on("dialog", lambda dialog: (wrong.append(f"dialog: {dialog.message}"), dialog.dismiss()))
        page.on("pageerror", lambda error: wrong.append(f"error: {error}"))
        page.on("request", lambda request: wrong.append(f"request: {request.url}") if foreign(request.url) else None)
        for address in addresses:
            page.goto(address)
            for query in queries:
                page.fill(".sw-search input", query)
                page.wait_for_selector("#sw-found:not([hidden]) p:not(:empty)")
                results += page.locator("#sw-found li").count()
                assert page.locator("#sw-found img, #sw-found script").count() == 0
            for field in page.locator("main input[type=text]:visible, main input[type=number]:visible").all():
                field.fill("7" if field.get_attribute("type") == "number" else "<img src=x onerror=alert(11)>")
            page.wait_for_timeout(50)
        browser.close()
    return wrong, results


def foreign(url: str) -> bool:
    """Return whether a request leaves this computer."""
    return not url.startswith(("file:", "http://localhost", "data:", "blob:"))


def in_a_thread(function, *arguments):
    """Run a function in a thread of its own: another test's browser may be open in this one."""
    with ThreadPoolExecutor(1) as pool:
        return pool.submit(function, *arguments).result()


def test_nothing_runs_and_nothing_leaves_in_a_real_browser(site, served):
    names = ["index.html", *(f"machines/{path.name}" for path in sorted(site.glob("machines/saw-*.html")))]
    wrong, results = in_a_thread(visit, [f"{served}/{name}" for name in names], ("alert", "<img src=x", "saw"))
    assert not wrong
    assert results > 20


def test_nothing_runs_from_disk_either(site):
    addresses = [(site / name).as_uri() for name in ("index.html", "machines/saw-0.html")]
    wrong, _ = in_a_thread(visit, addresses, ("alert",))
    assert not wrong


@pytest.mark.parametrize("text", ["{{ 7 * 7 }}", "{% import os %}", "{# x #}", "{{ ''.__class__ }}"])
def test_template_marks_in_a_shop_text_are_refused(text, tmp_path):
    folder = write_shop(tmp_path / "shop", plain_word)
    path = folder / "machines" / "saw-0.yaml"
    path.write_text(re.sub("name: .*", f"name: {quoted(text)}", path.read_text(encoding="utf-8")), encoding="utf-8")
    with pytest.raises(Faults, match="slots belong in procedures"):
        library.load(folder)


@pytest.mark.parametrize("character", ["\u202e", "\u2066", "\x00", "\x1b", "\u2028", "\ufeff", "\x85"])
def test_characters_that_hide_or_turn_words_are_refused(character):
    with pytest.raises(Faults, match="is not allowed"):
        source.read(f"name: saw {character}was\n", "a.yaml")


@pytest.mark.parametrize(
    "name, letter", [("\U0001fa9a saw", "U+1FA9A"), ("\u05de\u05e1\u05d5\u05e8", "U+05D5"), ("\u92f8", "U+92F8")]
)
def test_letters_the_sheets_cannot_print_are_a_fault_and_not_a_box(name, letter, tmp_path):
    folder = write_shop(tmp_path / "shop", plain_word)
    path = folder / "machines" / "saw-0.yaml"
    path.write_text(re.sub("name: .*", f"name: {name}", path.read_text(encoding="utf-8")), encoding="utf-8")
    result = CliRunner().invoke(main, ["sheet", "saw-0", "--to", str(tmp_path / "a.pdf"), "--project", str(folder)])
    assert result.exit_code == 1
    assert letter in result.output and "machines/saw-0.yaml" in result.output and "write it in words" in result.output
    assert not (tmp_path / "a.pdf").exists()


@pytest.mark.parametrize(
    "identity",
    [
        "../../evil",
        "..",
        ".",
        "/etc/x",
        "a/b",
        "a\\b",
        "c:",
        "con",
        "a.b",
        "a b",
        "A",
        "\u0430",
        "",
        "-a",
        "a" * 41,
        "%2e%2e",
        "~",
        "a\0",
    ],
)
@pytest.mark.parametrize(
    "file, marker", [("machines/saw-0.yaml", "id: saw-0"), ("blades.yaml", "id: b6-6"), ("jobs.yaml", "id: job-3")]
)
def test_no_id_leads_out_of_the_site(identity, file, marker, tmp_path):
    text = (small := write_shop(tmp_path / "shop", plain_word) / file).read_text(encoding="utf-8")
    small.write_text(text.replace(marker, f"id: {quoted(identity)}"), encoding="utf-8")
    with pytest.raises(Faults):
        library.load(tmp_path / "shop")


def link(target: Path, place: Path) -> None:
    target.unlink(missing_ok=True)
    try:
        target.symlink_to(place)
    except OSError:
        pytest.skip("this system makes no links")


@pytest.mark.parametrize("name", ["shop.yaml", "blades.yaml", "jobs.yaml", "machines/saw-0.yaml", "machines/new.yaml"])
def test_a_link_does_not_let_a_shop_read_other_files(name, tmp_path):
    """What the link leads to stays unread: no word of it is in the fault."""
    secret = tmp_path / "secret.txt"
    secret.write_text("secret-word: 1\n", encoding="utf-8")
    folder = write_shop(tmp_path / "shop", plain_word)
    link(folder / name, secret)
    with pytest.raises(Faults, match="leads out of") as caught:
        library.load(folder)
    assert "secret-word" not in str(caught.value)


def test_a_folder_that_is_a_link_does_not_let_a_shop_read_other_files(tmp_path):
    folder = write_shop(tmp_path / "shop", plain_word)
    (folder / "machines").rename(tmp_path / "elsewhere")
    link(folder / "machines", tmp_path / "elsewhere")
    with pytest.raises(Faults, match="leads out of"):
        library.load(folder)


@pytest.mark.parametrize(
    "text",
    [
        "a: !!python/object/apply:os.system ['echo']",
        "a: !!python/name:os.system",
        "a: !!python/module:os",
        "a: !include /etc/passwd",
        "a: !ENV HOME",
        "a: &a [*a]",
        "<<: *a",
        "a: !!binary aGk=",
        "--- !!python/object:os\na: b",
        "? !!python/tuple [1]\n: b",
        "%YAML 1.2\n---\na: b",
        "%TAG ! tag:yaml.org,2002:python/\n--- !name:os.system\na: b",
    ],
)
def test_yaml_that_builds_objects_or_repeats_itself_is_refused(text):
    with pytest.raises(Faults):
        source.read(text, "a.yaml")


def test_many_aliases_are_refused_before_they_grow(tmp_path):
    """Nine levels of nine would be 387 million texts."""
    bomb = "a0: &a0 x\n" + "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 10))
    with pytest.raises(Faults) as caught:
        source.read(bomb, "a.yaml")
    assert len(caught.value.faults) <= 50


CONDITIONS = [
    "().__class__.__mro__",
    "__import__('os')",
    "side_guides.__class__",
    "side_guides|attr('x')",
    "lipsum.__globals__",
    "1 + 1",
    "cycler.__init__",
    "range(10 ** 9)",
    "side_guides[0]",
    "self",
    "'a' * 10 ** 9",
    "x if y",
    "namespace()",
    "joiner()",
    "caller()",
    "config",
    "request.application",
    "''.join(['a'])",
    "known(known)",
    "known('x')",
    "known(a.b)",
    "(side_guides == 'x')()",
]


@pytest.mark.parametrize("text", CONDITIONS)
def test_a_condition_never_reaches_python(text, tmp_path):
    """Either it is refused while parsed, or its names are unknown to the family and the check refuses them."""
    from sawside import checks
    from sawside.errors import At
    from sawside.families import FAMILIES

    assert checks.check_condition(text, FAMILIES[0], lambda word: At("a.yaml", 1, 1, 1, text))


def test_a_value_is_never_read_as_a_template():
    assert slots.fill("{{ name }}", {"name": "{{ 7 * 7 }}{% set x = 1 %}"}) == "{{ 7 * 7 }}{% set x = 1 %}"


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "data:text/html,x",
        "file:///etc/passwd",
        "//evil.example",
        "x y",
        'https://a.example/"><script>',
        "ftp://a.example",
    ],
)
def test_the_address_of_the_site_must_be_an_address(address, tmp_path):
    folder = write_shop(tmp_path / "shop", plain_word)
    with (folder / "shop.yaml").open("a", encoding="utf-8") as stream:
        stream.write(f"site_address: {quoted(address)}\n")
    with pytest.raises(Faults, match="site_address"):
        library.load(folder)


def test_a_good_address_of_the_site_is_taken(tmp_path):
    folder = write_shop(tmp_path / "shop", plain_word)
    with (folder / "shop.yaml").open("a", encoding="utf-8") as stream:
        stream.write("site_address: https://saws.example.org/shop/\n")
    assert library.load(folder).shop.record.get("site_address") == "https://saws.example.org/shop/"
