"""What every command has: its options, how faults are told, and reading the shop."""

import sys
from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import Any

import click
from tqdm import tqdm

from sawside import library
from sawside.errors import At, Fault, Faults, printable
from sawside.model import Record
from sawside.suggest import meant

FOLDER = click.option(
    "--project",
    "folder",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path(),
    help="Folder with mkdocs.yml. Default: where you are.",
)
TRUST = click.option(
    "--trust",
    "trusted",
    is_flag=True,
    help="Let mkdocs.yml name programs, templates and other folders, and run them. Only for a folder you trust.",
)
PAPER = click.option(
    "--paper",
    type=click.Choice(["A4", "Letter", "A5", "A5 on A4", "A3"], case_sensitive=False),
    help="Paper, instead of the shop's own.",
)
INK = click.option(
    "--ink", type=click.Choice(["colour", "grey"]), default="colour", show_default=True, help="Grey for a black printer."
)


def reports(command: Callable[..., None]) -> Callable[..., None]:
    """Print faults as people read them and end with 1: never a traceback for wrong input."""

    @wraps(command)
    def run(**options: Any) -> None:
        try:
            command(**options)
        except Faults as faults:
            click.echo(str(faults), err=True)
            number = len(faults.faults)
            click.echo(f"\n{number} fault{'s' * (number != 1)}. Nothing was changed.", err=True)
            sys.exit(1)
        except KeyboardInterrupt:
            click.echo("\nStopped before it was finished.", err=True)
            sys.exit(130)  # what a shell reports after Ctrl+C
        except OSError as error:
            where = error.filename or options.get("folder", ".")
            click.echo(f"error: {printable(f'{where}: {error.strerror or error}')}", err=True)
            sys.exit(1)

    return run


def read_shop(folder: Path, trusted: bool) -> tuple[Any, library.Library]:
    """Return the mkdocs settings of a project and its library, read and checked."""
    from sawside.outputs import paper, site

    settings = site.project(folder, trusted=trusted)
    return settings, library.load(*site.folders(settings), paper.lacking)


def machine_of(read: library.Library, name: str) -> Record:
    """Return a machine by its id, or raise a fault that says which there are."""
    chosen = next((record for record in read.machines if record.id == name), None)
    if chosen is None:
        ids = [record.id for record in read.machines]
        hint = meant(name, ids, "machines here: " + ", ".join(ids))
        raise Faults([Fault(At("machines"), f"there is no machine `{name}`", hint)])
    return chosen


def numbered(parts: list[tuple[int, str]]) -> str:
    """Return counted things in words: 1 saw, 2 blades."""
    return ", ".join(f"{number} {name}{'s' * (number != 1)}" for number, name in parts)


def bar(title: str) -> Callable[[Iterable[Any]], Iterable[Any]]:
    """Return what shows on a screen how far a loop is."""

    def progress(items: Iterable[Any]) -> Iterable[Any]:
        shown: Iterable[Any] = tqdm(items, desc=title, ascii=True, leave=False, disable=None)
        return shown

    return progress
