"""What a figure can be drawn from: wired by the names of its arguments, as computed values are."""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from sawside.figures.drawing import Drawing


@dataclass(frozen=True)
class FigureSpec:
    """A figure that can be drawn from values: its function, what feeds each argument, which may be unknown (None)."""

    name: str
    function: Callable[..., Drawing]
    needs: Mapping[str, str] = field(default_factory=dict)
    optional: tuple[str, ...] = ()


def figure(function: Callable[..., Drawing]) -> FigureSpec:
    """Return the FigureSpec of a function: its argument names are the names of what it needs, None marks the optional.

    `show(value, kind)` is given by the caller and is not a need.

    >>> def dot(blade_width, gullet=None, *, show): ...
    >>> figure(dot).needs, figure(dot).optional
    ({'blade_width': 'blade_width', 'gullet': 'gullet'}, ('gullet',))
    """
    arguments = {name: p for name, p in inspect.signature(function).parameters.items() if name != "show"}
    optional = tuple(name for name, p in arguments.items() if p.default is None)
    return FigureSpec(function.__name__, function, {name: name for name in arguments}, optional)
