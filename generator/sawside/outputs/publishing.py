"""Everything that is published: pages and printable files, made in memory from one checked library."""

from collections.abc import Callable
from dataclasses import dataclass

from sawside.errors import Faults
from sawside.figures import signs, svg
from sawside.library import Library
from sawside.model import Page, Sheet
from sawside.outputs import layouts, sheets
from sawside.outputs.view import machine_view


@dataclass(frozen=True)
class Published:
    """A whole site before it is written: pages, printable files, and the machines' views they came from."""

    pages: tuple[Page, ...]
    files: tuple[Sheet, ...]
    views: tuple[dict, ...]


def views(library: Library, progress: Callable = iter) -> list[dict]:
    """Return the printed view of every machine."""
    return [view_of(library, machine) for machine in progress(library.machines)]


def view_of(library: Library, machine) -> dict:
    """Return one machine's view with the texts and pictures of the signs its notices use."""
    view = machine_view(library, machine)
    view["signs"] = {code: sign.title for code, sign in signs.SIGNS.items()}
    view["sign_svgs"] = {code: svg.text(signs.draw(code)) for code in _codes(view)}
    return view


def _codes(view: dict) -> list[str]:
    return sorted({code for notice in view["notices"] for code in notice["signs"]})


#: How much of the whole the one page carries; the rest stands in the guide and on the safety notice.
WALL_SENTENCES, WALL_AVOID = 4, 2


def wall_view(view: dict) -> dict:
    """Return a view cut down to what the one page on the wall carries: blades that fit, hazards in few words."""
    hazards = [notice | {"consequence": "", "avoid": notice["avoid"][:WALL_AVOID]} for notice in view["wall"]["hazards"]]
    return view | {"blades": view["wall"]["blades"], "always": view["always"][:WALL_SENTENCES],
                   "wall": view["wall"] | {"hazards": hazards}}


def wall_sheets(made: list[dict], progress: Callable = iter) -> list[Sheet]:
    """Return the wall sheet of every machine; raise Faults with everything that does not fit its page."""
    done, faults = [], []
    for view in progress(made):
        try:
            sheet = sheets.make("wall", wall_view(view), view["shop"]["paper"])
            done.append(Sheet(f"sheets/{view['machine']['id']}.pdf", sheet.data))
        except Faults as found:
            faults += found.faults
    if faults:
        raise Faults(faults)
    return done


def publish(library: Library, progress: Callable = iter) -> Published:
    """Return the site's pages and files; raise Faults when a sheet cannot be made."""
    made = views(library, progress)
    printed = wall_sheets(made, progress)
    pictures = {code: picture for view in made for code, picture in view["sign_svgs"].items()}
    files = [*printed, *(Sheet(f"assets/signs/{code}.svg", text.encode()) for code, text in sorted(pictures.items()))]
    return Published(tuple(layouts.pages(library, made, [])), tuple(files), tuple(made))
