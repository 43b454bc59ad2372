"""What somebody asks for when sheets are to be made, told apart from what there is before anything is read or set."""

from collections.abc import Sequence

from sawside.outputs.sheets import EVERYDAY, KINDS
from sawside.suggest import meant


def wrong(kinds: Sequence[str], paper: str | None) -> str:
    """Return in words what is wrong with the kinds of sheet and the paper asked for, or nothing.

    Takes: kinds, as they are called inside, or `all`; paper, a name from a kind's papers, or None for the shop's own.

    >>> wrong(["wal"], None), wrong(["wall"], "A4")
    ('there is no kind `wal`; did you mean `wall`?', '')
    """
    unknown = next((kind for kind in kinds if kind not in (*KINDS, "all")), None)
    if unknown:
        return f"there is no kind `{unknown}`; " + meant(unknown, (*KINDS, "all"), f"kinds: {', '.join(KINDS)}, all")
    asked = ["wall"] if "all" in kinds and paper not in (None, *EVERYDAY) else [kind for kind in kinds if kind != "all"]
    none = next((kind for kind in asked if paper and paper not in KINDS[kind].papers), None)
    if not none:
        return ""
    others = ", ".join(name.replace("_", "-") for name, kind in KINDS.items() if paper in kind.papers)
    papers = ", ".join(KINDS[none].papers)
    return f"there is no {KINDS[none].title.lower()} on {paper}: choose {papers}. On {paper} there is --kind {others}."
