"""The list of places to find: every page cut at its headings, written as a script that also loads from a file."""

import json
import re
from collections.abc import Iterable
from html.parser import HTMLParser

HEADINGS = ("h1", "h2", "h3")
#: What is inside these is not what people look for.
SILENT = ("script", "style", "nav", "svg", "math", "noscript", "template")
#: Words in neighbouring elements of these kinds run together on paper; here they must not.
INLINE = ("b", "i", "em", "strong", "a", "code", "small", "sub", "sup")


#: How much of a part's words the list keeps as they stand, at most: what is shown beside a hit. The list is loaded on a phone
#: beside the saw, and grows with every saw of the shop; of the rest it keeps each word once.
LONGEST = 160
#: Shorter words than this are not looked for on their own.
SHORTEST = 4
#: Ends of pages of which only the headings are listed: they hold formulas, which nobody looks for by a word inside.
HEADINGS_ONLY = ("-working.html", "reference/values.html")


class _Cutter(HTMLParser):
    """Cut HTML at its headings; the nearest id at or before a heading is where its place is."""

    def __init__(self) -> None:
        super().__init__()
        self.places: list[list[str]] = []
        self.anchor, self.silent, self.in_heading = "", 0, False

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.silent += tag in SILENT
        found = None if self.silent else dict(attributes).get("id")
        if found and (tag in HEADINGS or tag == "section"):
            self.anchor = found
        if self.silent:
            return
        if tag in HEADINGS:
            self.places.append([self.anchor, "", ""])
            self.anchor, self.in_heading = "", True
        elif tag not in INLINE:
            self._add(" ")

    def handle_endtag(self, tag: str) -> None:
        self.silent -= tag in SILENT
        if tag in HEADINGS:
            self.in_heading = False
        elif tag not in INLINE:
            self._add(" ")

    def handle_data(self, data: str) -> None:
        self._add(data)

    def _add(self, words: str) -> None:
        if self.places and not self.silent:
            self.places[-1][1 if self.in_heading else 2] += words


def places(url: str, page: str, html: str) -> list[tuple[str, str, str, str, str]]:
    """Return address, page title, heading, the first words and each further word of each part of a page.

    >>> places("a.html", "Saw", "<h1>Saw</h1><p>Big</p><section id='x'><h2>Tune &amp; go</h2><td>1</td><td>2</td></section>")
    [('a.html', 'Saw', 'Saw', 'Big', ''), ('a.html#x', 'Saw', 'Tune & go', '1 2', '')]
    """
    cutter = _Cutter()
    cutter.feed(html)
    cutter.close()
    longest = 0 if url.endswith(HEADINGS_ONLY) else LONGEST
    return [
        (f"{url}#{anchor}" if anchor else url, page, " ".join(heading.split()), *_cut(" ".join(text.split()), longest))
        for anchor, heading, text in cutter.places
    ]


def _cut(words: str, longest: int) -> tuple[str, str]:
    """Return the first words of a text that fit a length, and of the rest each word that is not among them, once.

    >>> _cut("tension before use, tension after", 9), _cut("tension", 9), _cut("tension", 0)
    (('tension', 'before after'), ('tension', ''), ('', ''))
    """
    first = words if len(words) <= longest else words[: longest + 1].rpartition(" ")[0]
    if not longest:
        return "", ""
    known, more = set(_words(first)), dict.fromkeys(_words(words[len(first) :]))
    return first, " ".join(word for word in more if word not in known)


def _words(text: str) -> list[str]:
    return [word for word in re.findall(r"[a-z]+|[0-9/]+", text.lower()) if len(word) >= SHORTEST]


def anchors(html: str) -> set[str]:
    """Return every place of a page that a link can lead to.

    >>> sorted(anchors('<h2 id="a">A</h2><p data-id="x" id="b">'))
    ['a', 'b']
    """
    return set(re.findall(r'\sid="([^"]+)"', html))


def script(found: Iterable[tuple[str, str, str, str, str]]) -> str:
    """Return the list as a script; `<` is written so that the file cannot end a script element wherever it is put.

    >>> script([("a.html", "A", "B", "</script>", "")])
    'window.sawsidePlaces = [["a.html", "A", "B", "\\\\u003c/script>", ""]];\\n'
    """
    return f"window.sawsidePlaces = {json.dumps(list(found), ensure_ascii=True)};\n".replace("<", "\\u003c")
