"""The value graph: a value is a function, and the names of its arguments are what it needs.

`order` refuses circles and gaps before anything runs. `resolve` computes every value that can be computed for the
inputs at hand, carries each input's doubt to first order, and says of every other value what it waits for.
"""

import inspect
import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from sawside.calc.limits import OutsideMethod
from sawside.model import UNKNOWN, Missing, Value, ValueSpec


class BrokenGraph(ValueError):
    """The tuple of values itself is wrong: a circle, a gap or a name given twice. A programmer's mistake."""


@dataclass(frozen=True)
class Given:
    """One input of the graph: its SI value or word, its doubt in SI, and whether it was measured or assumed."""

    value: Any
    plus_minus: float | None = None
    status: str = "measured"


def needs(spec: ValueSpec) -> dict[str, tuple[str, bool]]:
    """Return argument -> (graph name, is it optional) for a value, read from its function's signature.

    >>> def area(width, thickness, kerf=None): ...
    >>> needs(ValueSpec("a", "A", area, "area", takes={"width": "body_width"}))
    {'width': ('body_width', False), 'thickness': ('thickness', False), 'kerf': ('kerf', True)}
    """
    return {name: (spec.takes.get(name, name), optional) for name, optional in _parameters(spec.function)}


@cache
def _parameters(function: Callable[..., Any]) -> tuple[tuple[str, bool], ...]:
    """Return a function's argument names and whether each is optional; reading a signature is slow, so once only."""
    return tuple((p.name, p.default is None) for p in inspect.signature(function).parameters.values())


def order(specs: Iterable[ValueSpec], inputs: Iterable[str]) -> tuple[ValueSpec, ...]:
    """Return the specs so that each comes after what it needs.

    Raises BrokenGraph for a value defined twice, for an argument that nothing provides, and for a circle.
    """
    specs, inputs = tuple(specs), set(inputs)
    by_name = {spec.name: spec for spec in specs}
    if len(by_name) != len(specs):
        raise BrokenGraph("a value is defined twice")
    done: dict[str, ValueSpec] = {}

    def visit(name: str, path: tuple[str, ...]) -> None:
        if name in done or name in inputs:
            return
        if name in path:
            raise BrokenGraph("a circle of values: " + " -> ".join((*path[path.index(name) :], name)))
        if name not in by_name:
            raise BrokenGraph(f"{path[-1]} needs {name}, which nothing provides")
        for needed, _ in needs(by_name[name]).values():
            visit(needed, (*path, name))
        done[name] = by_name[name]

    for spec in specs:
        visit(spec.name, ())
    return tuple(done.values())


def depending(ordered: Iterable[ValueSpec], inputs: Iterable[str]) -> tuple[ValueSpec, ...]:
    """Return the specs that need any of these inputs, directly or through other values, in order.

    >>> force = ValueSpec("force", "F", lambda area, stress: area * stress, "force")
    >>> [spec.name for spec in depending([force], ["stress"])], depending([force], ["width"])
    (['force'], ())
    """
    touched = set(inputs)
    found = []
    for spec in ordered:
        if any(name in touched for name, _ in needs(spec).values()):
            touched.add(spec.name)
            found.append(spec)
    return tuple(found)


def resolve(
    ordered: Iterable[ValueSpec], given: Mapping[str, Given], before: Mapping[str, Value | Missing] | None = None
) -> dict[str, Value | Missing]:
    """Compute every value whose inputs are at hand; the others come back as Missing with what they wait for.

    `given` holds inputs by name; an input that is not there at all leaves out the values that need it (a value of a
    job is not asked for when there is no job). A Given whose value is None is unknown: what needs it waits for it.
    `before` holds values resolved earlier, to add to.
    """
    found: dict[str, Value | Missing] = dict(before or {})
    for spec in ordered:
        result = _one(spec, given, found)
        if result is not None:
            found[spec.name] = result
    return found


def _one(spec: ValueSpec, given: Mapping[str, Given], found: Mapping[str, Value | Missing]) -> Value | Missing | None:
    arguments: dict[str, Any] = {}
    doubts: dict[str, Mapping[str, float]] = {}
    made_from: dict[str, Any] = {}
    waits_for: list[str] = []
    outside: list[str] = []
    for argument, (name, optional) in needs(spec).items():
        source = found.get(name) or given.get(name)
        if source is None:
            if not optional:
                return None
            arguments[argument] = None
        elif isinstance(source, Missing) or source.value is None:
            if optional:
                arguments[argument] = None
            elif isinstance(source, Missing) and source.outside:
                outside.append(source.outside)
            else:
                waits_for += source.waits_for if isinstance(source, Missing) else [name]
        else:
            arguments[argument] = made_from[name] = source.value
            doubts[argument] = _contributions(name, source)
    if waits_for or outside:
        return Missing(spec.name, spec, tuple(dict.fromkeys(waits_for)), "; ".join(dict.fromkeys(outside)))
    try:
        value = spec.function(**arguments)
    except OutsideMethod as error:
        return Missing(spec.name, spec, outside=str(error))
    if isinstance(value, float) and not math.isfinite(value):
        return Missing(spec.name, spec, outside=f"{spec.name} has no finite value for these inputs")
    doubt = _propagate(spec, arguments, value, doubts) | _own_doubt(spec, arguments, value)
    return Value(spec.name, value, spec, doubt, made_from)


def _own_doubt(spec: ValueSpec, arguments: Mapping[str, Any], value: Any) -> dict[str, float]:
    """Return what the method itself adds, under the value's own name."""
    if not spec.method_doubt or (spec.method_when and arguments[spec.method_when] is not None):
        return {}
    return {spec.name: spec.method_doubt * abs(value)}


def _contributions(name: str, source: Given | Value) -> Mapping[str, float]:
    """Return input name -> signed first-order contribution to `source`."""
    if isinstance(source, Value):
        return source.doubt
    return {name: source.plus_minus} if source.plus_minus else {}


def _propagate(
    spec: ValueSpec, arguments: Mapping[str, Any], value: object, doubts: Mapping[str, Mapping[str, float]]
) -> dict[str, Any]:
    """Carry contributions through one function: slope of each argument times what the inputs put into it.

    Contributions stay signed and separate by input, so an input that reaches a value by two ways is not counted twice
    (JCGM 100, 5.1.2 with the inputs independent).
    """
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return {}
    total: dict[str, float] = {}
    for argument, parts in doubts.items():
        if not parts or isinstance(arguments[argument], (str, bool)):
            continue
        slope = _slope(spec.function, arguments, argument, max(abs(part) for part in parts.values()))
        for name, part in parts.items():
            total[name] = total.get(name, 0.0) + slope * part
    return {name: part for name, part in total.items() if part}


def _slope(function: Callable[..., Any], arguments: Mapping[str, Any], argument: str, doubt: float) -> float:
    """Return the slope of `function` along one argument: central difference, one-sided at the edge of the method.

    The step is a hundredth of the doubt: small against the curve of any formula here, large against rounding. A doubt so
    small that its hundredth would be lost in the last digits gets a larger step.
    """
    middle = arguments[argument]
    step = max(doubt / 100, abs(middle) * 1e-7)

    def at(x: float) -> float | None:
        try:
            found: float = function(**{**arguments, argument: x})
        except OutsideMethod:
            return None
        return found

    here, below, above = at(middle), at(middle - step), at(middle + step)
    if here is None or (below is None and above is None):
        return 0.0
    low, high = (middle if below is None else middle - step), (middle if above is None else middle + step)
    return ((here if above is None else above) - (here if below is None else below)) / float(high - low)


def ancestors(ordered: Iterable[ValueSpec]) -> dict[str, frozenset[str]]:
    """Return each value's name with the names of all values it is made from, itself among them.

    >>> force = ValueSpec("force", "F", lambda area, stress: area * stress, "force")
    >>> push = ValueSpec("push", "P", lambda force, span: force / span, "force")
    >>> sorted(ancestors([force, push])["push"])
    ['force', 'push']
    """
    found: dict[str, frozenset[str]] = {}
    for spec in ordered:
        above = (found.get(name, frozenset()) for name, _ in needs(spec).values())
        found[spec.name] = frozenset((spec.name,)).union(*above)
    return found


def waiting(found: Mapping[str, Value | Missing]) -> dict[str, list[str]]:
    """Return unknown field -> names of the values that wait for it, most waited-for first."""
    table: dict[str, list[str]] = {}
    for name, result in found.items():
        if isinstance(result, Missing):
            for field in result.waits_for:
                table.setdefault(field, []).append(name)
    return dict(sorted(table.items(), key=lambda pair: (-len(pair[1]), pair[0])))


def unknown() -> Given:
    """Return the input that stands for `unknown`."""
    return Given(None, None, UNKNOWN)
