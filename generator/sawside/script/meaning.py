"""What the parts of the translator know of each other: who gives names their meaning, and who writes an expression."""

import ast
from collections.abc import Callable
from typing import Any, Protocol

from sawside.script.refusal import Place, Refuse


class Namer(Protocol):
    """Knows how functions, classes and constants are called in the script."""

    @property
    def replace(self) -> Callable[..., Any]:
        """Return the function that copies a record with changes."""

    def is_refusal(self, thing: object) -> bool:
        """Tell whether something stands for the refusal of a formula."""

    def named(self, name: str, thing: Any, refuse: Refuse) -> str:
        """Return how a function, class or constant of a module is called, translating it first."""

    def parameters(self, called: Callable[..., Any]) -> tuple[list[str], bool]:
        """Return the names of the arguments in order, and whether named ones are gathered besides."""


class Translator(Protocol):
    """Writes the expressions of one function."""

    place: Place
    names: dict[str, Any]
    local: frozenset[str]
    program: Namer

    def __call__(self, node: ast.expr) -> str:
        """Return an expression in JavaScript."""
