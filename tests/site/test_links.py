"""Every link of the built site leads somewhere: pages, places on pages, sheets, pictures, scripts."""

from html.parser import HTMLParser
from urllib.parse import unquote, urlsplit

from demonstration import pages

#: The page for a wrong address is written for a server's root and is looked at in the browser tests.
LEFT_OUT = "404.html"


class Reader(HTMLParser):
    """The ids of a page and everything it points to."""

    def __init__(self):
        super().__init__()
        self.ids, self.kept, self.links, self.inside = [], [], [], 0

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        self.inside += tag == "template"
        if "id" in found:
            # what is kept for another blade takes the place of what is shown: the page never has both
            (self.kept if self.inside else self.ids).append(found["id"])
        self.links += [found[name] for name in ("href", "src", "data-index") if found.get(name)]
        for name in ("aria-labelledby", "aria-describedby", "for"):
            self.links += [f"#{one}" for one in (found.get(name) or "").split()]

    def handle_endtag(self, tag):
        self.inside -= tag == "template"


def read(file):
    reader = Reader()
    reader.feed(file.read_text(encoding="utf-8"))
    return reader


def test_every_link_leads_somewhere(site):
    found = {file.resolve(): read(file) for file in pages(site)}
    broken, count, sheets = [], 0, 0
    for file, reader in found.items():
        if file.name == LEFT_OUT:
            continue
        for link in reader.links:
            parts = urlsplit(link)
            assert not parts.scheme and not parts.netloc, f"{file.name} leads out of the site: {link}"
            count += 1
            target = (file.parent / unquote(parts.path)).resolve() if parts.path else file
            sheets += target.suffix == ".pdf"
            if not target.is_file():
                broken.append(f"{file.name}: {link}")
            elif parts.fragment and unquote(parts.fragment) not in (*found[target].ids, *found[target].kept):
                broken.append(f"{file.name}: no place {link}")
    assert not broken
    assert count > 2000 and sheets > 10


def test_no_id_twice(site):
    for file in pages(site):
        ids = read(file).ids
        assert len(ids) == len(set(ids)), f"{file.name}: {sorted({one for one in ids if ids.count(one) > 1})}"


def test_every_page_can_be_reached_from_home(site):
    home = (site / "index.html").resolve()
    seen, waiting = {home}, [home]
    while waiting:
        here = waiting.pop()
        for link in read(here).links:
            path = urlsplit(link).path
            target = (here.parent / unquote(path)).resolve() if path else here
            if target.suffix == ".html" and target not in seen:
                seen.add(target)
                waiting.append(target)
    assert {file.resolve() for file in pages(site) if file.name != LEFT_OUT} == seen


def test_everything_found_by_the_search_exists(site):
    import json

    words = (site / "assets" / "find.js").read_text(encoding="utf-8")
    places = json.loads(words.removeprefix("window.sawsidePlaces = ").rstrip().removesuffix(";"))
    assert len(places) > 500
    ids = {file.relative_to(site).as_posix(): set(read(file).ids) for file in pages(site)}
    for url, page, heading, *_ in places:
        path, _, place = url.partition("#")
        assert path in ids and (not place or place in ids[path]), url
        assert page and heading
