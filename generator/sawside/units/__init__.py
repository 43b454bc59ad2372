"""The two edges where units live: `read` takes what a shop writes into SI, `show` prints SI as a shop reads it."""

from sawside.units.grammar import LONGEST, Reading, read
from sawside.units.kinds import KINDS, Kind, Scale
from sawside.units.names import UNITS, Unit
from sawside.units.printing import DENOMINATORS, Shown, scales, show, show_doubt, show_pair
from sawside.units.refusal import NotUnderstood
from sawside.units.settings import Setting, show_setting
from sawside.units.together import PATTERN, together

__all__ = [
    "DENOMINATORS",
    "KINDS",
    "LONGEST",
    "PATTERN",
    "UNITS",
    "Kind",
    "NotUnderstood",
    "Reading",
    "Scale",
    "Setting",
    "Shown",
    "Unit",
    "read",
    "scales",
    "show",
    "show_doubt",
    "show_pair",
    "show_setting",
    "together",
]
