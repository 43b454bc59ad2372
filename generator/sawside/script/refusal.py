"""What is said when a formula has no translation."""

import ast
from collections.abc import Callable

#: Makes the refusal of what is named.
Refuse = Callable[[str], Exception]


class Untranslatable(Exception):
    """A formula, or a part of one, that cannot be written in JavaScript with the same meaning: where, and what it is."""

    def __init__(self, file: str, line: int, what: str) -> None:
        self.file, self.line, self.what = file, line, what
        super().__init__(f"{file}:{line}: {what}")


class Place:
    """Where the translator stands: makes the refusal of a node of one file."""

    def __init__(self, file: str) -> None:
        self.file = file

    def refuse(self, node: ast.AST, what: str) -> Untranslatable:
        """Return the refusal of a node.

        >>> str(Place("band.py").refuse(ast.parse("x = yield").body[0], "a generator"))
        'band.py:1: a generator has no translation into JavaScript'
        """
        return Untranslatable(self.file, getattr(node, "lineno", 0), f"{what} has no translation into JavaScript")
