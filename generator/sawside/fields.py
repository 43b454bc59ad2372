"""What a person measures or states: the one description of every input.

A `Field` is used five times: to read and check the YAML, to word the fault, for the write-in line on a sheet,
for the comments of a starter file and for the reference page. Names are unique over all records, because they are
also the names that formulas and procedure slots use.
"""

from dataclasses import dataclass

#: What `Field.takes` may say, with how the fault names it.
TAKES = {
    "length": "a length",
    "pitch": "a tooth pitch",
    "force": "a force",
    "stress": "a stress",
    "rotation": "a speed of rotation",
    "speed": "a speed",
    "angle": "an angle",
    "power": "a power",
    "spring_rate": "a spring rate",
    "density": "a density",
    "per_temperature": "an expansion per degree",
    "temperature_difference": "a temperature difference",
    "mass": "a mass",
    "time": "a time",
    "pressure_work": "a cutting energy per volume",
    "force_per_width": "a force per width",
    "number": "a plain number",
    "count": "a whole number",
    "text": "text",
    "choice": "one of a few words",
    "choices": "a list of words",
    "yes_no": "`yes` or `no`",
    "date": "a date",
    "id": "an id",
    "lines": "a list of sentences",
    "rules": "a list of rules",
    "rules_of_a_saw": "a list of rules",
}

#: Takes that are read by the units grammar and end as an SI float.
QUANTITIES = tuple(TAKES)[:17]
#: Takes that are written as a list, each item with a hyphen.
LISTS = ("lines", "choices", "rules", "rules_of_a_saw")


@dataclass(frozen=True)
class Field:
    """One input. `low` and `high` are SI (or counts) and both allowed; `kind` names how it prints (units.KINDS).

    `no_more_than` names fields of the same record that this one may equal but not exceed. `doubt` is the usual standard
    uncertainty of such a measurement or statement in SI, `doubt_share` the same as a share of the value; the larger
    counts where the file gives no +/-. `assumed_inch` takes the place of `assumed` in a shop that prints the kind in inches.
    """

    name: str
    label: str
    takes: str
    measure: str
    example: str
    kind: str = ""
    low: float | None = None
    high: float | None = None
    required: bool = True
    unknown_ok: bool = False
    choices: tuple[str, ...] = ()
    assumed: str = ""
    basis: str = ""
    group: str = ""
    longest: int = 200
    no_more_than: tuple[str, ...] = ()
    doubt: float = 0.0
    doubt_share: float = 0.0
    assumed_inch: str = ""

    def usual_doubt(self, value: float) -> float | None:
        """Return the usual standard uncertainty of this field at a value, in SI; None when it is taken as exact."""
        return max(self.doubt, self.doubt_share * abs(value)) or None

    @property
    def is_quantity(self) -> bool:
        """Whether the value is a number with a unit."""
        return self.takes in QUANTITIES

    @property
    def is_list(self) -> bool:
        """Whether the value is written as a list, each item with a hyphen."""
        return self.takes in LISTS
