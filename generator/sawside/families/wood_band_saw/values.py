"""Every value computed for a wood band saw: one visible tuple, each entry a pure function wired by argument name.

What a formula takes, where it holds and where it comes from stands in its docstring; here stands how it prints.
`equation` is given where the value is one closed expression over the function's argument names; a value found by
halving, from a table or by a choice has none, and its docstring says in words how it is found. A fixed quantity in an
equation names its unit: mm(5), MPa(700), h(1).
"""

from sawside.families.wood_band_saw.values_cut import CUT
from sawside.families.wood_band_saw.values_running import RUNNING
from sawside.families.wood_band_saw.values_saw import SAW

VALUES = SAW + CUT + RUNNING
