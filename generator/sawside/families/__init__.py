"""The machine families Sawside knows: one visible tuple, in order."""

from sawside.families import wood_band_saw

FAMILIES = (wood_band_saw.FAMILY,)
