"""The pictures inside the safety signs, drawn for this project after what each sign means.

Each takes the colour of its body and of its ground, and returns shapes on a sign 50 mm across with a 1.25 mm edge:
its middle is at (26.25, 26.25) mm. Bodies are round-ended limbs and filled faces, so that they hold at 8 mm on paper.
"""

import math

from sawside.figures.drawing import OUTLINE, Polygon, Shape, rectangle
from sawside.figures.limbs import Picture, X, Y, curve, face, glove, hand, limb, oval, spot


def _bust(colour: str) -> list[Shape]:
    """Return a head with neck and shoulders from the front."""
    shoulders = (
        (X - 4, 36),
        (X + 4, 36),
        (X + 5, 38.5),
        (X + 11.5, 41),
        (X + 13, 44.5),
        (X - 13, 44.5),
        (X - 11.5, 41),
        (X - 5, 38.5),
    )
    return [face(oval((X, 22.5), 9.2, 11.5), colour, 0.2), face(rectangle(X - 4, 30, X + 4, 37), colour), face(shoulders, colour)]


def _exclamation(top: float, foot: float, colour: str) -> list[Shape]:
    tall = foot - top
    return [
        face(((X - 2.3, top), (X + 2.3, top), (X + 1.2, top + 0.66 * tall), (X - 1.2, top + 0.66 * tall)), colour, 1.6),
        spot((X, foot - 0.11 * tall), 0.115 * tall, colour),
    ]


def general_action(body: str, ground: str) -> list[Shape]:
    """Draw an exclamation mark."""
    return _exclamation(11.0, 42.0, body)


def read_manual(body: str, ground: str) -> list[Shape]:
    """Draw a person from the front reading an open booklet."""
    shoulders = ((X - 8, 21.5), (X + 8, 21.5), (X + 13, 25.5), (X + 15, 36), (X - 15, 36), (X - 13, 25.5))
    shapes: list[Shape] = [spot((X, 12.8), 5.6, body), face(shoulders, body, 1.2)]
    for way in (-1, 1):
        page = tuple((X + way * x, y) for x, y in ((0.0, 30.0), (13.0, 26.8), (13.0, 40.0), (0.0, 43.2)))
        shapes.append(Polygon(page, OUTLINE, body, ground, 1.3))
        for i in range(3):
            y = 31.6 + 3.2 * i
            shapes.append(limb(((X + way * 3.0, y + 0.9), (X + way * 10.3, y - 0.9)), 1.1, ground))
    return shapes


def ear_protection(body: str, ground: str) -> list[Shape]:
    """Draw a head with ear muffs joined by a band over the crown."""
    shapes = _bust(body)
    shapes.append(limb(curve((X, 21.5), 12.8, math.pi * 1.0, math.pi * 2.0), 2.2, body))
    for way in (-1, 1):
        cup = oval((X + way * 11.3, 23.8), 3.3, 6.3)
        shapes.append(Polygon(cup, OUTLINE, body, ground, 1.1))
    return shapes


def eye_protection(body: str, ground: str) -> list[Shape]:
    """Draw a head with glasses: two dark lenses, a bridge and side arms."""
    shapes = _bust(body)
    for way in (-1, 1):
        lens = tuple((X + way * x, y) for x, y in ((1.5, 19.2), (8.6, 18.6), (8.9, 21.5), (7.2, 24.8), (3.2, 24.8), (1.5, 22.6)))
        shapes += [face(lens, ground, 1.0), limb(((X + way * 8.5, 19.5), (X + way * 10.5, 19.0)), 1.4, ground)]
    return [*shapes, limb(((X - 2, 20), (X + 2, 20)), 1.4, ground)]


def mask(body: str, ground: str) -> list[Shape]:
    """Draw a head with a dust mask over nose and mouth, held by two straps."""
    shapes = _bust(body)
    shapes += [limb(((X + w * 5.5, y), (X + w * 10.0, z)), 1.2, ground) for w in (-1, 1) for y, z in ((25.0, 22.0), (30.0, 29.0))]
    cover = tuple(
        (X + x, y) for x, y in ((-6, 24), (-1.6, 22), (1.6, 22), (6, 24), (6.4, 28), (4, 32), (0, 33.4), (-4, 32), (-6.4, 28))
    )
    shapes.append(Polygon(cover, OUTLINE, body, ground, 1.4))
    return [*shapes, *(limb(((X - 3.2, y), (X + 3.2, y)), 0.9, ground) for y in (26.4, 29.2))]


def gloves(body: str, ground: str) -> list[Shape]:
    """Draw a pair of gloves."""
    return [*glove((X - 8.4, 25.0), 0.92, -0.16, True, body), *glove((X + 8.4, 25.0), 0.92, 0.16, False, body)]


def no_gloves(body: str, ground: str) -> list[Shape]:
    """Draw one glove, large enough to be known behind the bar."""
    return glove((X + 0.8, 24.0), 1.12, 0.0, False, body)


def disconnect(body: str, ground: str) -> list[Shape]:
    """Draw a plug pulled out of its socket."""
    plug = ((X - 8.0, 19.5), (X + 8.0, 19.5), (X + 6.2, 12.0), (X - 6.2, 12.0))
    socket = rectangle(X - 8.0, 33.5, X + 8.0, 41.0)
    shapes: list[Shape] = [
        face(plug, body, 1.6),
        face(socket, body, 1.6),
        limb(((X, 12), (X, 6.0)), 3.4, body),
        limb(((X, 41), (X, 46.5)), 3.4, body),
    ]
    for way in (-1, 1):
        shapes.append(limb(((X + way * 4.0, 20), (X + way * 4.0, 27.0)), 2.8, body))
        shapes.append(limb(((X + way * 4.0, 32.0), (X + way * 4.0, 37.0)), 3.2, ground))
    return shapes


def no_reaching(body: str, ground: str) -> list[Shape]:
    """Draw a hand reaching in between two rollers."""
    return [*hand((21.0, 31.5), 0.98, math.pi / 4, False, body), spot((27.5, 13.5), 4.4, body), spot((39.0, 25.0), 4.4, body)]


def warning(body: str, ground: str) -> list[Shape]:
    """Draw an exclamation mark inside the triangle."""
    return _exclamation(20.0, 41.5, body)


def electricity(body: str, ground: str) -> list[Shape]:
    """Draw a flash with its arrowhead pointing down."""
    flash = (
        (-0.6, 20.0),
        (-4.6, 31.0),
        (-0.9, 30.4),
        (-2.6, 37.4),
        (-4.6, 36.4),
        (-2.6, 42.6),
        (2.2, 38.6),
        (0.0, 38.0),
        (4.2, 27.4),
        (0.3, 28.0),
        (3.0, 20.6),
    )
    return [face(((X + x, y) for x, y in flash), body, 0.5)]


def sharp(body: str, ground: str) -> list[Shape]:
    """Draw a hand whose fingers meet the teeth of a blade."""
    edge = [(31.2, 26.2)]
    for i in range(4):
        edge += [(28.4, 27.6 + 3.9 * i), (31.2, 30.1 + 3.9 * i)]
    return [*hand((21.6, 36.6), 0.56, math.pi / 2, False, body), face((*edge, (34.0, 41.8), (34.0, 28.0)), body, 0.4)]


def crushing(body: str, ground: str) -> list[Shape]:
    """Draw a hand between two closing jaws, an arrow above the upper one."""
    arrow = ((X - 1.1, 20.5), (X + 1.1, 20.5), (X + 1.1, 22.8), (X + 3.0, 22.8), (X, 26.0), (X - 3.0, 22.8), (X - 1.1, 22.8))
    return [
        face(arrow, body, 0.4),
        face(rectangle(X - 3.0, 27.6, X + 7.0, 30.2), body, 0.4),
        face(rectangle(X - 3.0, 41.2, X + 9.0, 43.0), body, 0.4),
        *hand((X - 4.4, 35.6), 0.58, math.pi / 2, True, body),
    ]


def leave_switch(body: str, ground: str) -> list[Shape]:
    """Draw a hand at the lever of a switch box."""
    return [
        face(rectangle(X - 0.5, 12.0, X + 9.5, 28.0), body, 1.2),
        face(rectangle(X + 3.4, 14.5, X + 5.6, 25.5), ground, 0.6),
        limb(((X + 4.5, 18.0), (X - 5.0, 22.0)), 2.4, body),
        *hand((X - 4.6, 34.4), 0.7, math.pi / 9, False, body),
    ]


def first_aid(body: str, ground: str) -> list[Shape]:
    """Draw an upright cross with arms of equal length."""
    return [face(rectangle(X - 5.5, 9.5, X + 5.5, 43.0), body, 0.2), face(rectangle(9.5, Y - 5.5, 43.0, Y + 5.5), body, 0.2)]


def hot_surface(body: str, ground: str) -> list[Shape]:
    """Draw three waves of heat that rise from a surface."""
    wave = tuple((1.5 * math.sin(i * math.tau / 24), 24.0 + 12.5 * i / 24) for i in range(25))
    waves = [limb(((X + x + dx, y + down) for dx, y in wave), 1.9, body) for x, down in ((-6.0, 1.5), (0.0, 0.0), (6.0, 1.5))]
    return [*waves, face(rectangle(X - 12.0, 40.2, X + 12.0, 42.6), body, 0.4)]


def flammable(body: str, ground: str) -> list[Shape]:
    """Draw a flame above a line."""
    flame = (
        (0.8, 19.0), (3.0, 24.0), (2.6, 27.0), (4.6, 25.6), (7.4, 31.0), (6.6, 35.6), (3.6, 38.4), (-3.6, 38.4), (-6.8, 35.0),
        (-7.0, 30.6), (-4.4, 26.2), (-3.4, 29.4), (-1.6, 25.4),
    )  # fmt: skip
    inner = ((0.4, 29.0), (2.8, 33.4), (1.6, 36.6), (-1.6, 36.6), (-2.8, 33.6))
    return [
        face(((X + x, y) for x, y in flame), body, 0.8),
        face(((X + x, y) for x, y in inner), ground, 0.8),
        face(rectangle(X - 8.0, 41.0, X + 8.0, 42.4), body, 0.4),
    ]


PICTURES: dict[str, Picture] = {
    "M001": general_action, "M002": read_manual, "M003": ear_protection, "M004": eye_protection, "M009": gloves,
    "M016": mask, "M021": disconnect, "P015": no_reaching, "P028": no_gloves, "W001": warning, "W012": electricity,
    "W022": sharp, "W024": crushing, "P031": leave_switch, "E003": first_aid, "W017": hot_surface, "W021": flammable,
}  # fmt: skip
