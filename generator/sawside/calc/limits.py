"""The edge of each formula: a function refuses what its method does not cover and says so in fields."""

import math


class OutsideMethod(ValueError):
    """An argument a formula does not cover: which, its value in SI, and the range in words.

    >>> raise OutsideMethod("blade_thickness", 0.65, "more than 0 and below 0.005 m")
    Traceback (most recent call last):
    ...
    sawside.calc.limits.OutsideMethod: blade_thickness is 0.65, but must be more than 0 and below 0.005 m
    """

    def __init__(self, name: str, value: float, must_be: str) -> None:
        self.name, self.value, self.must_be = name, value, must_be
        super().__init__(f"{name} is {value:.4g}, but must be {must_be}")


def require(holds: bool, name: str, value: float, must_be: str) -> None:
    """Raise OutsideMethod unless `holds` is true and `value` is a finite number.

    >>> require(0.65e-3 > 0, "blade_thickness", 0.65e-3, "more than 0 m")
    """
    if not (holds and math.isfinite(value)):
        raise OutsideMethod(name, value, must_be)


def positive(**values: float) -> None:
    """Raise OutsideMethod unless every value is finite and more than zero.

    >>> positive(span=0.5, strand_force=650.0)
    >>> positive(span=0.0)
    Traceback (most recent call last):
    ...
    sawside.calc.limits.OutsideMethod: span is 0, but must be more than 0
    """
    for name, value in values.items():
        require(value > 0, name, value, "more than 0")


def not_negative(**values: float) -> None:
    """Raise OutsideMethod unless every value is finite and zero or more.

    >>> not_negative(push=0.0)
    """
    for name, value in values.items():
        require(value >= 0, name, value, "0 or more")


def finite(**values: float) -> None:
    """Raise OutsideMethod unless every value is a number, of any sign.

    >>> finite(offset_start=-0.05)
    >>> finite(offset_start=math.nan)
    Traceback (most recent call last):
    ...
    sawside.calc.limits.OutsideMethod: offset_start is nan, but must be a finite number
    """
    for name, value in values.items():
        require(True, name, value, "a finite number")
