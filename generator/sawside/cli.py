"""The command `sawside`: check, build, sheet, serve, new. Exit codes: 0 good, 1 faults in the input, 2 wrong use."""

import sys
import time
from functools import wraps
from pathlib import Path

import click
from tqdm import tqdm

from sawside import __version__, advice, library, starter
from sawside.errors import At, Fault, Faults
from sawside.suggest import suggest

_FOLDER = click.option(
    "--project", "folder", type=click.Path(file_okay=False, path_type=Path), default=Path(),
    help="Folder with mkdocs.yml. Default: where you are.",
)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__)
def main() -> None:
    """Set-up guides, safety notices and blade tables for the saws of your shop.

    \b
    Start with your own saw:
      sawside new my-shop
      cd my-shop
      sawside check
      sawside build
    """


def reports(command):
    """Print faults as people read them and end with 1: never a traceback for wrong input."""

    @wraps(command)
    def run(**options):
        try:
            return command(**options)
        except Faults as faults:
            click.echo(str(faults), err=True)
            number = len(faults.faults)
            click.echo(f"\n{number} fault{'s' * (number != 1)}. Nothing was changed.", err=True)
            sys.exit(1)

    return run


@main.command(epilog="\b\nExamples:\n  sawside check\n  sawside check --project my-shop")
@_FOLDER
@reports
def check(folder: Path) -> None:
    """Read everything and report every fault, with file, line and what to write instead; then give advice."""
    _, read = _read(folder)
    for words in advice.advice(read):
        click.echo(f"advice: {words}")
    click.echo(f"{_count(read)}: no faults.")


@main.command(epilog="\b\nExamples:\n  sawside build\n  sawside build --project my-shop")
@_FOLDER
@reports
def build(folder: Path) -> None:
    """Build the site and its sheets. If anything is wrong, the site you have stays as it is."""
    from sawside.outputs import place, publishing, site
    from sawside.outputs.settings import check_target

    began = time.monotonic()
    settings, read = _read(folder)
    published = publishing.publish(read, _bar("working out"))
    target = Path(settings.site_dir)
    check_target(target, site.folders(settings)[0])
    with place.building(target) as fresh:
        site.render(site.project(folder, fresh), published)
    sheets = sum(file.path.startswith("sheets/") for file in published.files)
    click.echo(
        f"{_count(read)}: {len(published.pages)} pages, {len(published.views)} guides, {sheets} sheets"
        f" in {time.monotonic() - began:.1f} s."
    )
    click.echo(f"Open {library.shown(target / 'index.html')}")


@main.command(epilog="\b\nExamples:\n  sawside sheet bench-250\n  sawside sheet bench-250 --paper Letter --to bench.pdf")
@click.argument("machine")
@click.option("--paper", type=click.Choice(["A4", "Letter", "A5"]), help="Paper, instead of the shop's own.")
@click.option("--to", "target", type=click.Path(dir_okay=False, path_type=Path), help="File to write. Default: MACHINE.pdf")
@_FOLDER
@reports
def sheet(machine: str, paper: str | None, target: Path | None, folder: Path) -> None:
    """Make only the wall sheet of one MACHINE, named by its id."""
    from sawside.outputs import publishing
    from sawside.outputs import sheets

    _, read = _read(folder)
    chosen = next((record for record in read.machines if record.id == machine), None)
    if chosen is None:
        ids = [record.id for record in read.machines]
        near = suggest(machine, ids)
        hint = f"did you mean `{near}`?" if near else "machines here: " + ", ".join(ids)
        raise Faults([Fault(At("machines"), f"there is no machine `{machine}`", hint)])
    view = publishing.wall_view(publishing.view_of(read, chosen))
    made = sheets.make("wall", view, paper or read.shop.paper)
    target = target or Path(f"{machine}.pdf")
    _write(target, made.data)
    click.echo(f"Wrote {target}")


@main.command(epilog="\b\nExamples:\n  sawside serve\n  sawside serve --port 8123")
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True, help="Port on this computer.")
@_FOLDER
@reports
def serve(folder: Path, port: int) -> None:
    """Show the site on this computer and renew it whenever a YAML file or a template changes."""
    from sawside.outputs import site

    _read(folder)
    click.echo(f"Open http://localhost:{port}/ - stop with Ctrl+C")
    site.serve(folder, port)


@main.command(epilog="\b\nExamples:\n  sawside schema my-shop/schemas")
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@reports
def schema(folder: Path) -> None:
    """Write a JSON Schema for every kind of YAML file into FOLDER, for editors that complete and check while you type."""
    starter.write(folder, starter.schemas())
    click.echo(f"Wrote {', '.join(sorted(starter.schemas()))} into {folder}")


@main.command(epilog="\b\nExamples:\n  sawside new my-shop")
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@reports
def new(folder: Path) -> None:
    """Make FOLDER with a starter shop for your own saw: files to fill in, with every line explained."""
    starter.make(folder)
    click.echo(f"Made {folder}. Next:\n  cd {folder}\n  sawside check\n  sawside build")


def _read(folder: Path):
    """Return the mkdocs settings of a project and its library, read and checked."""
    from sawside.outputs import site

    settings = site.project(folder)
    return settings, library.load(*site.folders(settings))


def _count(read) -> str:
    parts = [(read.machines, "machine"), (read.blades, "blade"), (read.jobs, "job"), (read.procedures, "procedure")]
    return ", ".join(f"{len(items)} {name}{'s' * (len(items) != 1)}" for items, name in parts)


def _bar(title: str):
    def progress(items):
        return tqdm(items, desc=title, ascii=True, leave=False, disable=None)

    return progress


def _write(target: Path, data: bytes) -> None:
    try:
        target.write_bytes(data)
    except OSError as error:
        raise Faults([Fault(At(str(target)), f"the file cannot be written: {error.strerror}")]) from error
