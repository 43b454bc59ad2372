"""What a machine family is: its fields, its values, its figures and how it judges a blade. Families never import another."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from sawside.fields import Field
from sawside.model import ValueSpec


@dataclass(frozen=True)
class Family:
    """One machine family. `judge`, `margins` and the words on buying read resolved values, in SI, by name.

    `wall_numbers`, `blade_numbers`, `set_values` and `checks` name what the one-page sheet, a blade's row, the table of
    other blades in the guide and the record of checks show.
    """

    key: str
    title: str
    machine: tuple[Field, ...]
    blade: tuple[Field, ...]
    job: tuple[Field, ...]
    assumptions: tuple[Field, ...]
    values: tuple[ValueSpec, ...]
    ordered: tuple[ValueSpec, ...]
    words: Mapping[str, str]
    judge: Callable
    margins: Callable
    what_to_buy: Callable
    few_blades: Callable
    sources_differ: Callable
    figures: tuple = ()
    checks: tuple[tuple[str, str], ...] = ()
    wall_numbers: tuple[str, ...] = ()
    blade_numbers: tuple[str, ...] = ()
    set_values: tuple[str, ...] = ()

    @property
    def fields(self) -> tuple[Field, ...]:
        """Return every field of the family."""
        return self.machine + self.blade + self.job + self.assumptions

    @property
    def names(self) -> frozenset[str]:
        """Return every name a slot or a condition may use."""
        return frozenset(f.name for f in self.fields) | {spec.name for spec in self.values}
