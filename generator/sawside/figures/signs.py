"""Safety signs: which code means what, and each sign drawn by us to the shapes and colours of ISO 3864.

The pictures are our own, after the meaning of each sign, not copies of the registered originals; a shop that must show
registered signs buys them. Colours are the screen approximations of the colours named in ISO 3864-4, read in an
encyclopaedia's copy. That a prohibition sign is at least 35 percent red with a bar falling from left to right at 45
degrees was read second-hand; a bar 0.8 times as thick as the ring too. All other proportions are from memory.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from sawside.figures import pictograms
from sawside.figures.drawing import NO_LINE, OUTLINE, Circle, Drawing, Line, Point, Polygon, Shape, rectangle
from sawside.figures.limbs import Picture

MANDATORY, PROHIBITION, WARNING, SAFE = "mandatory", "prohibition", "warning", "safe"
#: RAL 5005, 3001, 1003, 9004 and 9003 for the screen.
BLUE, RED, YELLOW, BLACK, WHITE = "#005387", "#9B2423", "#F9A800", "#2B2B2C", "#ECECE7"
#: RAL 6032 for the screen, from memory.
GREEN = "#237F52"

#: Drawn size of a sign [mm]: diameter of a round one, base of a triangle; a drawing is this plus its edge.
SIZE = 50.0
#: Shares of the diameter or the base.
EDGE, RING, BAR, BORDER = 0.025, 0.10, 0.08, 0.06
#: Sharp base of the yellow face before its corners are rounded, and of the middle of the black border.
OUTER, BETWEEN = 0.90, 0.89

#: How far a title was seen. A sign added from memory says so here.
READ = "title seen in a public listing"
MEMORY = "code and title from memory"


@dataclass(frozen=True)
class Sign:
    """One registered sign: ISO 7010 code, title, what it asks or warns of, its kind, how far its title was seen."""

    code: str
    title: str
    referent: str
    kind: str
    mark: str


SIGNS = {
    sign.code: sign
    for sign in (
        Sign("M001", "General mandatory action sign", "Do what the words beside it say", MANDATORY, READ),
        Sign("M002", "Refer to instruction manual/booklet", "Read the maker's manual first", MANDATORY, READ),
        Sign("M003", "Wear ear protection", "Wear hearing protection", MANDATORY, READ),
        Sign("M004", "Wear eye protection", "Wear safety glasses or goggles", MANDATORY, READ),
        Sign("M009", "Wear protective gloves", "Wear gloves: for handling blades with the saw isolated", MANDATORY, READ),
        Sign("M016", "Wear a mask", "Wear a dust mask", MANDATORY, READ),
        Sign("M021", "Disconnect before carrying out maintenance or repair", "Isolate the saw before you open it", MANDATORY, READ),
        Sign("P015", "No reaching in", "Keep hands out", PROHIBITION, READ),
        Sign("P028", "Do not wear gloves", "No gloves while the saw can run", PROHIBITION, READ),
        Sign("P031", "Do not alter the state of the switch", "Leave the switch alone while a tag hangs on it", PROHIBITION, MEMORY),
        Sign("E003", "First aid", "First aid", SAFE, MEMORY),
        Sign("W017", "Hot surface", "Hot blade, guides or weld", WARNING, MEMORY),
        Sign("W021", "Flammable material", "Dust that can burn", WARNING, MEMORY),
        Sign("W001", "General warning sign", "Danger: read the words beside it", WARNING, READ),
        Sign("W012", "Electricity", "Live parts", WARNING, READ),
        Sign("W022", "Sharp element", "Sharp teeth", WARNING, READ),
        Sign("W024", "Crushing of hands", "Hands can be crushed", WARNING, READ),
    )
}

#: Signs that contradict each other: gloves belong to a blade in the hand, never to a saw that can run.
CONTRARY = (frozenset({"M009", "P028"}),)


def compatible(codes: Iterable[str]) -> bool:
    """Return whether signs may stand on one panel: no two of them contradict each other.

    Source: common practice; M009 and P028 ask for the opposite.

    >>> compatible(["M004", "P028"]), compatible(["M009", "P028"])
    (True, False)
    """
    shown = set(codes)
    return not any(pair <= shown for pair in CONTRARY)


def draw(code: str) -> Drawing:
    """Return the drawing of a sign, SIZE plus its edge across [mm]; KeyError for a code that is not in SIGNS.

    >>> draw("P028").title
    'Do not wear gloves'
    """
    sign = SIGNS[code]
    picture = pictograms.PICTURES[code]
    shapes = _FACES[sign.kind](picture)
    across = SIZE * (1 + 2 * EDGE)
    alt = f"{sign.title} ({code}): {sign.referent}."
    return Drawing(f"sign_{code.lower()}", sign.title, alt, across, across, tuple(shapes))


MIDDLE: Point = (SIZE * (0.5 + EDGE), SIZE * (0.5 + EDGE))


def _disc(radius: float, colour: str) -> Circle:
    return Circle(MIDDLE, radius, NO_LINE, colour)


def _mandatory(picture: Picture) -> list[Shape]:
    """Return a blue disc with a light edge and a light picture."""
    return [_disc(SIZE * (0.5 + EDGE), WHITE), _disc(SIZE / 2, BLUE), *picture(WHITE, BLUE)]


def _prohibition(picture: Picture) -> list[Shape]:
    """Return a red ring on a light ground over a black picture, the bar falling from left to right at 45 degrees."""
    radius = SIZE * (0.5 - RING / 2)
    end = radius * math.sqrt(0.5)
    (x, y) = MIDDLE
    return [
        _disc(SIZE * (0.5 + EDGE), WHITE),
        *picture(BLACK, WHITE),
        Circle(MIDDLE, radius, OUTLINE, colour=RED, width=SIZE * RING),
        Line((x - end, y - end), (x + end, y + end), OUTLINE, RED, SIZE * BAR),
    ]


def triangle(base: float) -> tuple[Point, ...]:
    """Return an equilateral triangle standing on its base [mm], its box in the middle of the sign.

    >>> [round(math.dist(a, b), 6) for a, b in zip(triangle(50.0), triangle(50.0)[1:])]
    [50.0, 50.0]
    """
    tall = base * math.sqrt(3) / 2
    x, foot = MIDDLE[0], MIDDLE[1] + SIZE * math.sqrt(3) / 4
    # smaller triangles keep the same centre of gravity as the one of full size
    foot -= (SIZE - base) * math.sqrt(3) / 6
    return (x, foot - tall), (x + base / 2, foot), (x - base / 2, foot)


def _warning(picture: Picture) -> list[Shape]:
    """Return a yellow triangle with a black border, rounded corners and a narrow yellow edge, and a black picture."""
    return [
        Polygon(triangle(SIZE * OUTER), OUTLINE, YELLOW, YELLOW, SIZE * 0.10),
        Polygon(triangle(SIZE * BETWEEN), OUTLINE, YELLOW, BLACK, SIZE * BORDER),
        *picture(BLACK, YELLOW),
    ]


def _safe(picture: Picture) -> list[Shape]:
    """Return a green square with a narrow light edge and a light picture."""
    side, inner = SIZE * (1 + 2 * EDGE), SIZE * EDGE
    return [
        Polygon(rectangle(0.0, 0.0, side, side), NO_LINE, WHITE),
        Polygon(rectangle(inner, inner, side - inner, side - inner), NO_LINE, GREEN),
        *picture(WHITE, GREEN),
    ]


_FACES = {SAFE: _safe, MANDATORY: _mandatory, PROHIBITION: _prohibition, WARNING: _warning}
