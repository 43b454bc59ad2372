"""Changes of prints in words: for a person at the screen, and as Markdown for a pull request."""

from collections.abc import Sequence

from sawside.outputs import changes

#: Most lines told of one sheet.
MOST_LINES = 12


def _told(lines: Sequence[str]) -> list[str]:
    rest = len(lines) - MOST_LINES
    return [*lines[:MOST_LINES], *([f"and {rest} more"] if rest > 0 else [])]


def words(found: Sequence[changes.Change]) -> str:
    """Return the changes as a person reads them at the screen."""
    parts: list[tuple[str, list[str]]] = []
    for change in found:
        if not parts or change.saw != parts[-1][0]:
            parts.append((change.saw, [f"{change.name} ({change.saw})"]))
        parts[-1][1].append(f"  {change.title}")
        parts[-1][1].extend(f"    {line}" for line in _told(change.lines))
    return "\n".join(line for _, lines in parts for line in lines)


def markdown(found: Sequence[changes.Change]) -> str:
    """Return the changes as Markdown, for a pull request; what a shop wrote cannot become markup in it."""
    if not found:
        return "No sheet changed.\n"
    lines = [f"**{len(found)} sheet{'s' * (len(found) != 1)} to renew**"]
    saw = None
    for change in found:
        if change.saw != saw:
            saw = change.saw
            lines += ["", f"### {_literal(change.name)} ({_literal(change.saw)})", ""]
        lines.append(f"- **{change.title}**")
        lines += [f"  - {_literal(line)}" for line in _told(change.lines)]
    return "\n".join(lines) + "\n"


def _literal(text: str) -> str:
    r"""Return a text that Markdown shows as it stands.

    >>> _literal("a_b <i> @somebody -> 3")
    'a\\_b \\<i\\> @\u200bsomebody -\\> 3'
    """
    flat = " ".join(text.split())
    marked = "".join("\\" + c if c in "\\`*_{}[]<>()#+!|~&$" else c for c in flat)
    return marked.replace("@", "@\u200b")  # nobody is called by it
