"""Which word somebody may have meant."""

from collections.abc import Iterable
from difflib import get_close_matches

LONGEST = 60


def suggest(word: str, words: Iterable[str]) -> str | None:
    """Return the known word nearest to a mistyped one, or None when none is near. Case, blanks and hyphens do not count.

    >>> suggest("tire_width", ["tyre_width", "tyre_shape"])
    'tyre_width'
    >>> suggest("Blade Width", ["blade_width", "blade_length"])
    'blade_width'
    >>> suggest("colour", ["tyre_width"]) is None
    True
    """
    plain: dict[str, str] = {}
    for known in words:
        plain.setdefault(_plain(known), known)
    asked = _plain(word[:LONGEST])
    if asked in plain:
        return plain[asked]
    near = get_close_matches(asked, plain, n=1)
    return plain[near[0]] if near else None


def meant(word: str, words: Iterable[str], otherwise: str) -> str:
    """Return a hint that names the known word nearest to a mistyped one, or what to write when none is near.

    >>> meant("tire_width", ["tyre_width"], "measure it"), meant("colour", ["tyre_width"], "take the line out")
    ('did you mean `tyre_width`?', 'take the line out')
    """
    near = suggest(word, words)
    return f"did you mean `{near}`?" if near else otherwise


def _plain(word: str) -> str:
    return word.strip().lower().replace("-", "_").replace(" ", "_")
