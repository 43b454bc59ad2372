"""Every value computed for a wood band saw: one visible tuple, each entry a pure function wired by argument name.

What a formula takes, where it holds and where it comes from stands in its docstring; here stands how it prints.
The equation of a closed formula is read from the formula itself. `equation` is given only where that says it less well than people
write it: the formula decides between forms, or holds a fixed quantity, which then names its unit: mm(5), MPa(700), h(1). A
value found by halving, from a table or by a choice has none, and its docstring says in words how it is found.
"""

from dataclasses import replace

from sawside.families.wood_band_saw.values_cut import CUT
from sawside.families.wood_band_saw.values_running import RUNNING
from sawside.families.wood_band_saw.values_saw import SAW
from sawside.script import closed

VALUES = tuple(replace(spec, equation=spec.equation or closed.expression(spec.function)) for spec in SAW + CUT + RUNNING)
