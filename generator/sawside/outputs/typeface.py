"""What the shipped typeface can print: its characters and the height of its capitals, read from the font files."""

import struct
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from sawside.files import data_folder

POINT = 25.4 / 72  # mm
FILES = ("Inter-Regular.ttf", "Inter-Bold.ttf")


@dataclass(frozen=True)
class Typeface:
    """Characters that every shipped weight has, and the smallest capital height as a share of the type size."""

    characters: frozenset[int]
    cap_share: float

    def size_for_capital(self, height: float) -> float:
        """Return the type size [pt] whose capitals are `height` [mm] tall.

        >>> round(Typeface(frozenset(), 0.7).size_for_capital(3.3333), 1)   # 1 m away, message: 1/300
        13.5
        """
        return height / POINT / self.cap_share


def folder() -> Path:
    """Return the folder of the shipped fonts."""
    return data_folder("site_templates") / "sheets" / "fonts"


@cache
def shipped() -> Typeface:
    """Read the shipped typeface once.

    >>> 0.70 < shipped().cap_share < 0.75
    True
    """
    fonts = [(folder() / name).read_bytes() for name in FILES]
    characters = frozenset.intersection(*(characters_of(font) for font in fonts))
    return Typeface(characters, min(cap_share(font) for font in fonts))


def tables(font: bytes) -> dict[str, int]:
    """Return where each table of an OpenType font begins. Source: OpenType specification, table directory."""
    count = struct.unpack_from(">H", font, 4)[0]
    records = (struct.unpack_from(">4sLLL", font, 12 + 16 * number) for number in range(count))
    return {tag.decode("ascii"): offset for tag, _, offset, _ in records}


def cap_share(font: bytes) -> float:
    """Return sCapHeight of table OS/2 over unitsPerEm of table head."""
    at = tables(font)
    units_per_em = struct.unpack_from(">H", font, at["head"] + 18)[0]
    return float(struct.unpack_from(">h", font, at["OS/2"] + 88)[0] / units_per_em)


def characters_of(font: bytes) -> frozenset[int]:
    """Return the code points of the font's full Unicode character map (cmap format 12)."""
    at = tables(font)["cmap"]
    for number in range(struct.unpack_from(">H", font, at + 2)[0]):
        start = at + struct.unpack_from(">HHL", font, at + 4 + 8 * number)[2]
        if struct.unpack_from(">H", font, start)[0] == 12:
            groups = struct.unpack_from(">L", font, start + 12)[0]
            return frozenset(
                code
                for group in range(groups)
                for first, last, _ in [struct.unpack_from(">LLL", font, start + 16 + 12 * group)]
                for code in range(first, last + 1)
            )
    raise ValueError("the font has no full Unicode character map")
