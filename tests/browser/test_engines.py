"""Firefox and WebKitGTK show, find and answer what Chromium does, from disk, and none of them has anything to complain of."""

import json
import random
import shutil

import pytest

import engines
from demonstration import KINDS

#: Notes whatever goes wrong on a page: loaded before the page's own scripts.
LISTEN = """window.wrong = [];
for (const kind of ["error", "unhandledrejection", "securitypolicyviolation"]) {
    window.addEventListener(kind, (told) => window.wrong.push(kind + ": " + (told.message || told.reason || told.blockedURI || "a file")), true);
}
console.error = (...told) => window.wrong.push("said: " + told.join(" "));
"""
#: How each dial may be off from where the page starts, or from what a saw gives: row after row by chance, near and far.
CHANCE = random.Random(20)
READINGS = [
    [
        round(CHANCE.uniform(0.85, 1.2) if row % 2 else CHANCE.choice((0.02, 0.3, 1, 3, 40)) * CHANCE.uniform(0.5, 2), 4)
        for _ in range(60)
    ]
    for row in range(120)
]
#: What stands in a box that the page leaves empty, by the end of its name.
GIVES = {"deflection": 12, "tone": 80, "stretch": 0.06}
WORDS = ("the little one", "grandfather", "1/2 x 6", "13mm x 6", "maker's tension value", "unobtainium zeppelin", "<b>")

SEEN = """const unseen = [];
for (const image of document.images) {
    image.loading = "eager";
    await image.decode().catch(() => unseen.push(image.getAttribute("src")));
}
return {
    title: document.title, words: document.querySelector("main").textContent.replace(/\\s+/g, " "),
    links: [...document.querySelectorAll("a")].map((link) => link.getAttribute("href")),
    unseen, wide: document.documentElement.scrollWidth > innerWidth,
};"""
ANSWERS = """const boxes = [...document.querySelectorAll(".sw-worksheet input[inputmode]")];
const starts = boxes.map((box) => Number(box.value) || gives[box.id.split("-").pop()] || 1);
return rows.map((row) => {
    boxes.forEach((box, i) => { box.value = starts[i] * row[i]; });
    document.querySelectorAll(".sw-worksheet form").forEach((form) => form.dispatchEvent(new Event("input")));
    return [boxes.length, ...sawside.sheets.map((one) => document.getElementById(`${one.id}-answer`).textContent)];
});"""
CHOICES = """return rows.map((row) => {
    const [height, radius] = [row[0] * 60 % 300, row[1] * 50 % 200];
    Object.entries({ height, radius }).forEach(([name, value]) => { document.getElementById(`choose-${name}`).value = value; });
    document.querySelector("#choose form").dispatchEvent(new Event("input"));
    return document.querySelector("#choose").textContent.replace(/\\s+/g, " ");
});"""
FOUND = """const box = document.querySelector("input[type=search]"), told = [];
for (const word of words) {
    box.value = word;
    box.dispatchEvent(new Event("input"));
    const until = Date.now() + 10000;
    let before = "", now = null;
    while (Date.now() < until && (now !== before || !now)) {
        before = now;
        await new Promise((next) => setTimeout(next, 400));
        now = document.getElementById("sw-found").innerHTML;
    }
    told.push([word, [...document.querySelectorAll("#sw-found a")].map((link) => [link.getAttribute("href"), link.textContent])]);
}
return told;"""


@pytest.fixture(scope="module")
def listening(site, tmp_path_factory):
    """The site with an ear in the head of every page."""
    folder = tmp_path_factory.mktemp("listening") / "site"
    shutil.copytree(site, folder)
    (folder / "ear.js").write_text(LISTEN)
    for page in folder.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        assert text.count("<head>") == 1, page
        page.write_text(text.replace("<head>", f'<head><script src="{(folder / "ear.js").as_uri()}"></script>'), encoding="utf-8")
    return folder.as_uri()


def visit(engine: engines.Engine, site: str) -> dict:
    """Walk through one page of each kind as people do; return all that was shown, answered and found."""
    told, wrong = {}, []
    for kind, path in KINDS.items():
        engine.show(f"{site}/{path}")
        told[kind] = engine.run(SEEN)
        wrong += engine.run("return window.wrong")
    engine.show(f"{site}/{KINDS['worksheets']}")
    told["answers"] = engine.run(f"const rows = {json.dumps(READINGS)}, gives = {json.dumps(GIVES)}; {ANSWERS}")
    told["choices"] = engine.run(f"const rows = {json.dumps(READINGS)}; {CHOICES}")
    wrong += engine.run("return window.wrong")
    engine.show(f"{site}/index.html")
    told["found"] = engine.run(f"const words = {json.dumps(WORDS)}; {FOUND}")
    wrong += engine.run("return window.wrong")
    assert not wrong
    engine.run("setTimeout(() => { throw new Error('heard') }, 0); await new Promise((next) => setTimeout(next, 200)); return 1")
    assert len(engine.run("return window.wrong")) == 1, "the ear is deaf"
    return told


@pytest.fixture(scope="module")
def chromium_told(browser, listening):
    """What Chromium tells of the visit."""
    page = browser.new_page()
    told = visit(engines.Engine(page.goto, lambda script: page.evaluate(f"async () => {{ {script} }}")), listening)
    page.close()
    return told


def test_the_visit_meets_every_kind_of_answer(chromium_told):
    """Equal answers prove something only when there are many different ones."""
    rows = [tuple(row) for row in chromium_told["answers"]]
    assert len(set(rows)) == len(READINGS)
    words = " ".join(word for row in rows for word in row[1:])
    for verdict in ("Good", "Too slack", "Too tight", "STOP", "No answer"):
        assert verdict in words, verdict
    assert len(set(chromium_told["choices"])) > 10
    assert {kind: (chromium_told[kind]["unseen"], chromium_told[kind]["wide"]) for kind in KINDS} == dict.fromkeys(
        KINDS, ([], False)
    )
    assert [bool(hits) for _, hits in chromium_told["found"]] == [True] * 5 + [False, True]


@pytest.mark.parametrize("open_one", [engines.firefox, engines.webkit], ids=["firefox", "webkit"])
def test_another_engine_tells_the_same(open_one, listening, chromium_told):
    with open_one() as engine:
        told = visit(engine, listening)
    for part, want in chromium_told.items():
        assert told[part] == want, part
