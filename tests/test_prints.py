"""Prints know their age: a mark of what they say, a list of what hangs in the shop, what changed since, what the page answers."""

import io
import random
import re
import shutil
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner
from dulwich import porcelain

from sawside import ledger
from sawside.cli import main
from sawside.kinds import contents, print_mark
from sawside.kinds import sheet_kinds as kinds
from sawside.outputs import publishing, sheets

ROOT = Path(__file__).resolve().parents[1]
LAYOUTS = ROOT / "site_templates" / "sheets"
GOOD = Path(__file__).parent / "faults" / "good"
#: What a layout calls from the shared file, and the part of the view that it prints.
SHARED = {"local-rules(": "local_rules", "out-of-service(": "out_of_service", "sign(": "sign_svgs"}
#: Keys whose words choose how something is set; another word there is none that a view can hold.
CHOOSING = {
    "id",
    "slug",
    "name",
    "status",
    "machine_state",
    "state",
    "states",
    "signal",
    "signs",
    "sign",
    "figure",
    "svg",
    "paper",
    "picture",
    "file",
    "best",
    "blade",
    "columns",
    "address",
    "site_address",
    "fitted_blade",
    "viewing_distance",
    "blade_name",
    "best_name",
}


@pytest.mark.parametrize("kind", kinds.KINDS)
def test_a_layout_is_given_what_it_names(kind):
    """A name that a layout asks for with a default would be missed in silence: a shop's rule, a saw out of service."""
    words = (LAYOUTS / f"{kind}.typ").read_text(encoding="utf-8")
    named = set(re.findall(r"\bview\.([a-z_]+)\b(?!\()", words)) - {"at"} | set(re.findall(r'\bview\.at\("([a-z_]+)"', words))
    named |= {part for call, part in SHARED.items() if call in words}
    content = kinds.KINDS[kind]
    assert named and named <= {*content.prints, *content.aside}, named - {*content.prints, *content.aside}


def text_of(data: bytes) -> str:
    """Return the words of a PDF."""
    return " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)


def leaves(data, path=()):
    """Yield the place of every text in a view that may say something else without breaking its shape."""
    if isinstance(data, dict):
        for key, inside in data.items():
            if key not in CHOOSING:
                yield from leaves(inside, (*path, key))
    elif isinstance(data, (list, tuple)):
        for number, inside in enumerate(data):
            yield from leaves(inside, (*path, number))
    elif isinstance(data, str) and re.search(r"[a-z]", data) and "<" not in data:
        yield path


def changed(view: dict, path: tuple) -> dict:
    """Return a view in which one text has another letter, as wide as the one before."""
    view = inside = dict(view)
    for step in path[:-1]:  # only what lies on the way is copied
        inside[step] = dict(inside[step]) if isinstance(inside[step], dict) else list(inside[step])
        inside = inside[step]
    word = inside[path[-1]]
    at = re.search(r"[a-z]", word).start()
    inside[path[-1]] = word[:at] + ("o" if word[at] == "n" else "n") + word[at + 1 :]
    return view


def said(kind: str, view: dict) -> str:
    """Return the words of a sheet without its mark."""
    mark = print_mark.spoken(contents.fingerprint(kind, view))
    words = " ".join(text_of(sheets.make(kind, view, publishing.usual_paper(kind, "A4")).data).split())
    assert mark in words, "a print bears its mark"
    return words.replace(mark, "")


def named(path: tuple, mask) -> bool:
    """Return whether the place of a text is among the parts that a kind of sheet says it prints."""
    for step in path:
        if mask is None:
            return True
        if not isinstance(step, int):
            if step not in mask:
                return False
            mask = mask[step]
    return True


@pytest.mark.parametrize(
    "kind",
    [
        "card",
        "wall",
        "guide",
        "commissioning",
        "checks",
        "numbers",
        "notice",
        "blade_table",
        "job_card",
        "tags",
        "worksheet",
        "check_record",
    ],
)
def test_what_is_printed_changes_the_mark_and_nothing_else_does(kind, views):
    """Texts all over the view are changed, one at a time: the words on paper and the mark change together.

    A sheet of one page leaves out what has no room; there a mark may change that the eye cannot tell, never the other way.
    """
    view = views["lever-350"]
    # a number is called the same at every blade: one of them alone cannot get another label
    whole = [
        path
        for path in leaves(view)
        if path[0] not in ("worksheets", "working", "for_blade") and (path[0], path[-1]) != ("blades", "label")
    ]
    likely = [
        path for path in whole if named(path, kinds.KINDS[kind].prints) and (path[0] != "blades" or view["blades"][path[1]]["fits"])
    ]
    if kind in ("commissioning", "checks"):  # these are made of lists that a cut takes out of the view
        likely += [path for path in whole if path[0] == "lists" and (path[1] == "commissioning") == (kind == "commissioning")]
    chance, some = random.Random(kind), 8 if kind == "guide" else 16  # a guide takes long to set
    before, mark = said(kind, view), contents.fingerprint(kind, view)
    seen = 0
    for path in chance.sample(likely, min(some, len(likely))) + chance.sample(whole, 4):
        other = changed(view, path)
        after = said(kind, other)
        if after != before:
            seen += 1
            assert contents.fingerprint(kind, other) != mark, path
        elif kind not in ("wall", "notice"):
            assert contents.fingerprint(kind, other) == mark, path
    assert seen, "no change came to be seen"


def test_what_no_sheet_prints_leaves_every_mark(views):
    view = views["bench-250"]
    other = view | {"working": [], "worksheets": {}}
    for kind in publishing.offered(view):
        assert contents.fingerprint(kind, view) == contents.fingerprint(kind, other)


def test_the_mark_does_not_depend_on_paper_or_ink(views):
    view = views["bench-250"]
    mark = print_mark.spoken(contents.fingerprint("notice", view))
    for size, ink in (("A4", "colour"), ("Letter", "grey"), ("A5", "colour"), ("A3", "grey")):
        assert mark in " ".join(text_of(sheets.make("notice", view, size, ink).data).split())


@pytest.fixture
def workshop(tmp_path, monkeypatch) -> Path:
    """A good shop under version control, and the test stands in its folder."""
    folder = tmp_path / "shop"
    shutil.copytree(GOOD, folder)
    settings = folder / "mkdocs.yml"
    settings.write_text(settings.read_text(encoding="utf-8").replace("      procedures: procedures\n", ""), encoding="utf-8")
    monkeypatch.chdir(folder)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1790000000")  # 2026-09-21
    porcelain.init(str(folder))
    keep(folder, "as it was")
    return folder


def keep(folder: Path, message: str) -> None:
    porcelain.add(str(folder), [str(path) for path in folder.rglob("*") if path.is_file() and ".git" not in path.parts])
    porcelain.commit(str(folder), message=message.encode(), author=b"A <a@example.org>", committer=b"A <a@example.org>")


def run(*words: str):
    result = CliRunner().invoke(main, list(words))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def new_rule(folder: Path) -> None:
    path = folder / "shop.yaml"
    path.write_text(path.read_text(encoding="utf-8") + "local_rules:\n  - Never alone in the machine room.\n", encoding="utf-8")


def other_limit(folder: Path) -> None:
    (path,) = (folder / "machines").glob("*.yaml")
    words = path.read_text(encoding="utf-8")
    assert "revision:" in words
    path.write_text(re.sub(r"(?m)^revision:.*$", "revision: 99", words), encoding="utf-8")


def test_nothing_changed_since_a_revision(workshop):
    result = run("changes", "HEAD")
    assert result.exit_code == 0 and "No sheet has to be renewed." in result.output
    assert not Path("changes.pdf").exists()


def test_changes_since_a_revision_tell_old_and_new_and_print_just_those(workshop):
    new_rule(workshop)
    keep(workshop, "a rule")
    assert run("changes", "HEAD").exit_code == 0
    result = run("changes", "HEAD~1")
    assert result.exit_code == 3, result.output
    assert "new rule: Never alone in the machine room." in result.output
    told = set(re.findall(r"(?m)^  (\S.*)$", result.output))
    assert {"Wall sheet", "Safety notice"} <= told and "Blade tags" not in told
    titles = [item.title for item in pypdf.PdfReader("changes.pdf").outline if not isinstance(item, list)]
    assert titles and not any("tags" in title.lower() for title in titles)


def test_old_and_new_value_and_markdown_for_a_pull_request(workshop):
    before = re.search(
        r"(?m)^revision: *(.*?)\s*(#.*)?$", next((workshop / "machines").glob("*.yaml")).read_text(encoding="utf-8")
    )[1]
    other_limit(workshop)
    result = run("changes", "HEAD", "--text")
    assert result.exit_code == 3 and not Path("changes.pdf").exists()
    assert f"Revision: {before.strip(chr(34))} -\\> 99" in result.output and re.search(
        r"(?m)^\*\*\d+ sheets? to renew\*\*$", result.output
    )


def test_the_list_of_prints_answers_what_hangs(workshop):
    assert run("changes").exit_code == 1, "there is no list yet"
    first = run("printed")
    assert first.exit_code == 0 and " 0 had not changed" in first.output
    assert "0 prints written" in run("printed").output
    assert run("changes").exit_code == 0
    new_rule(workshop)
    result = run("changes", "--to", "renew.pdf")
    assert result.exit_code == 3 and "new rule: Never alone in the machine room." in result.output and Path("renew.pdf").exists()
    assert run("printed").exit_code == 0 and run("changes").exit_code == 0


def test_the_page_says_which_print_is_current_and_what_changed(workshop):
    assert run("printed").exit_code == 0
    (path,) = [path for path in (workshop / ledger.FOLDER).glob("*.yaml") if path.stem != "rack"]
    old = re.search(r'sheet: wall\n    mark: "(\w+)"', path.read_text(encoding="utf-8"))[1]
    new_rule(workshop)
    assert run("build").exit_code == 0
    page = (workshop / "site" / "machines" / f"{path.stem}.html").read_text(encoding="utf-8")
    answers = {found[1]: found[0] for found in re.findall(r'<aside class="sw-print (sw-print-\w+)" id="print-wall-(\w+)"', page)}
    assert answers.pop(old) == "sw-print-old" and set(answers.values()) == {"sw-print-good"}, "also for other blades"
    text = page[page.index(f'id="print-wall-{old}"') :]
    assert "Replace it" in text[:400] and "new rule: Never alone" in text[: text.index("</aside>")].replace("New rule", "new rule")
    words = " ".join(text_of((workshop / "site" / "sheets" / f"{path.stem}.pdf").read_bytes()).split())
    assert sum(print_mark.spoken(mark) in words for mark in answers) == 1


def test_cards_of_blades_are_listed_each_by_itself(workshop):
    assert run("printed").exit_code == 0
    (path,) = [path for path in (workshop / ledger.FOLDER).glob("*.yaml") if path.stem != "rack"]
    listed = re.findall(r'sheet: card\n    mark: "\w+"\n    date: [\d-]+\n    blade: "([^"]+)"', path.read_text(encoding="utf-8"))
    assert listed == sorted(set(listed)) and listed
    path.unlink()
    assert run("printed", path.stem, "--blade", listed[0]).exit_code == 0
    assert re.findall(r"sheet: (\w+)", path.read_text(encoding="utf-8")) == ["card"]
    new_rule(workshop)
    result = run("changes", "--text")
    assert result.exit_code == 3 and f"Blade-change card, blade {listed[0]}" in result.output


@pytest.mark.parametrize(
    ("revision", "words"), [("no-such-branch", "there is no such revision here"), ("HEAD~99", "there is no such revision here")]
)
def test_a_revision_that_is_not_there(workshop, revision, words):
    result = run("changes", revision)
    assert result.exit_code == 1 and words in result.output and "git log --oneline" in result.output


def test_a_shop_without_version_control(workshop):
    shutil.rmtree(workshop / ".git")
    result = run("changes", "HEAD")
    assert result.exit_code == 1 and "not in a git repository" in result.output


def test_a_list_somebody_spoilt_is_a_fault_with_its_line(workshop):
    assert run("printed").exit_code == 0
    path = sorted((workshop / ledger.FOLDER).glob("*.yaml"))[0]
    path.write_text(path.read_text(encoding="utf-8").replace("    mark: ", "    mark: x", 1), encoding="utf-8")
    result = run("check", "--quick")
    assert result.exit_code == 1 and f"prints/{path.name}:" in result.output and "sawside printed" in result.output


def test_marks_have_no_letter_that_is_misread():
    assert not set(print_mark.ALPHABET) & set("ILOU") and len(set(print_mark.ALPHABET)) == 32
