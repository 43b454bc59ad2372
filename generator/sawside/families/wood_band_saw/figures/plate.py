"""How the figures of this family are laid out: picture in the middle, labels in two columns, a foot line below."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sawside.figures import labels
from sawside.figures.drawing import LABEL_SIZE, LEADING, SMALL_SIZE, Drawing, Label, Shape, Text, moved
from sawside.figures.labels import Note
from sawside.figures.lettering import wrap

#: Turns (SI value, kind) into printed text in the shop's system.
Show = Callable[[Any, str], str]

WIDTH = 128.0
#: The columns of words end and begin here [mm]; the picture stays between LEFT and RIGHT.
LEFT_WORDS, RIGHT_WORDS, COLUMN = 31.0, 97.0, 30.0
LEFT, RIGHT = 35.0, 93.0
ROOM = RIGHT - LEFT
MIDDLE = WIDTH / 2
MARGIN = 2.0


@dataclass(frozen=True)
class Frame:
    """How a figure is divided [mm]: its width, where the left words end and the right ones begin, how wide both columns are."""

    width: float = WIDTH
    left_words: float = LEFT_WORDS
    right_words: float = RIGHT_WORDS
    column: float = COLUMN


def compose(
    name: str, title: str, says: str, picture: Iterable[Shape], height: float, left: Sequence[Note] = (),
    right: Sequence[Note] = (), foot: Sequence[str] = (), frame: Frame = Frame(),
) -> Drawing:  # fmt: skip
    """Return the figure: as tall as the picture or the longer column needs, the picture in the middle of that height.

    Takes `picture` and the notes' targets with x on the paper and y from 0 to `height` [mm]. The alternative text is
    what the figure `says`, then every note.
    """
    alt = f"{says}: {listed(left, right)}"
    tall = max([height, *(labels.column_height(notes, frame.column) for notes in (left, right))]) + 2 * MARGIN
    down = (tall - height) / 2
    lefts, rights = ([_lowered(note, down) for note in notes] for notes in (left, right))
    shapes = [moved(shape, 0.0, down) for shape in picture]
    shapes += labels.column(lefts, "left", frame.left_words, frame.column, 0.0, tall)
    shapes += labels.column(rights, "right", frame.right_words, frame.column, 0.0, tall)
    return _footed(name, title, alt, shapes, tall, foot, frame.width)


def _lowered(note: Note, down: float) -> Note:
    return Note(note.words, note.value, (note.target[0], note.target[1] + down) if note.target else None)


def centred(x: float, y: float, words: str, size: float = LABEL_SIZE, strong: bool = False) -> Text:
    """Return one line of words centred on a point [mm]."""
    return Text((x, y), words, size, "middle", strong)


def listed(*parts: str | Iterable[Note]) -> str:
    """Return words and notes as one sentence for those who cannot see the picture.

    >>> listed("wheel 250 mm", [Note("Blade", "13 mm"), Note("Teeth point down", "")])
    'wheel 250 mm; blade 13 mm; teeth point down.'
    """
    said = []
    for part in parts:
        notes = [] if isinstance(part, str) else part
        said += [part] if isinstance(part, str) else []
        said += [f"{note.words[0].lower()}{note.words[1:]} {note.value}".strip() for note in notes]
    return "; ".join(said) + "."


@dataclass(frozen=True)
class Cell:
    """One picture of a row, drawn round (0, 0) [mm], and the words below it."""

    shapes: tuple[Shape, ...]
    note: Note
    half: float = 18.0


def row(name: str, title: str, alt: str, cells: Sequence[Cell], foot: Sequence[str] = ()) -> Drawing:
    """Return pictures side by side, each with its words centred below, then the foot line."""
    return rows(name, title, alt, (("", cells),), foot)


def rows(name: str, title: str, alt: str, all_rows: Sequence[tuple[str, Sequence[Cell]]], foot: Sequence[str] = ()) -> Drawing:
    """Return rows of pictures one below the other, each row below its title, then the foot line."""
    shapes: list[Shape] = []
    top = MARGIN
    for heading, cells in all_rows:
        if heading:
            shapes.append(Text((MARGIN, top + LABEL_SIZE), heading, LABEL_SIZE, "start", True))
            top += 2 * LABEL_SIZE
        room = (WIDTH - 2 * MARGIN) / len(cells)
        half = max(cell.half for cell in cells)
        tallest = 0.0
        for i, cell in enumerate(cells):
            x = MARGIN + (i + 0.5) * room
            shapes += [moved(shape, x, top + half) for shape in cell.shapes]
            lines, strong = labels.block(cell.note, room - 3.0)
            tallest = max(tallest, labels.height(lines))
            shapes.append(Label((x, top + 2 * half + 1), lines, (), "middle", LABEL_SIZE, strong))
        top += 2 * half + tallest + 3
    return _footed(name, title, alt, shapes, top, foot)


def _footed(name: str, title: str, alt: str, shapes: list[Shape], tall: float, foot: Sequence[str], wide: float = WIDTH) -> Drawing:
    """Return the drawing with its foot lines below everything else."""
    lines = [line for words in foot for line in wrap(words, wide - 2 * MARGIN, SMALL_SIZE)]
    step = SMALL_SIZE * LEADING
    below = [Text((MARGIN, tall + (i + 0.5) * step), line, SMALL_SIZE) for i, line in enumerate(lines)]
    return Drawing(name, title, alt, wide, tall + len(lines) * step + MARGIN, (*shapes, *below))
