"""The command `sawside`: check, build, sheet, serve, new. Exit codes: 0 good, 1 faults in the input, 2 wrong use."""

import sys
import time
from functools import wraps
from pathlib import Path

import click
from tqdm import tqdm

from sawside import __version__, advice, library, place, starter
from sawside.errors import At, Fault, Faults, printable
from sawside.suggest import meant

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
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # a screen that lacks a letter gets its number
            stream.reconfigure(errors="backslashreplace")


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
        except KeyboardInterrupt:
            click.echo("\nStopped before it was finished.", err=True)
            sys.exit(130)  # what a shell reports after Ctrl+C
        except OSError as error:
            where = error.filename or options.get("folder", ".")
            click.echo(f"error: {printable(f'{where}: {error.strerror or error}')}", err=True)
            sys.exit(1)

    return run


_TRUST = click.option(
    "--trust", "trusted", is_flag=True,
    help="Let mkdocs.yml name programs, templates and other folders, and run them. Only for a folder you trust.",
)


@main.command(epilog="\b\nExamples:\n  sawside check\n  sawside check --quick\n  sawside check --project my-shop")
@click.option("--quick", is_flag=True, help="Do not try whether every text fits its sheet, which takes longest.")
@_TRUST
@_FOLDER
@reports
def check(folder: Path, trusted: bool, quick: bool) -> None:
    """Read everything and report every fault, with file, line and what to write instead; then give advice.

    What passes here will build: pages, links and sheets are tried as well, and nothing is written.
    """
    from sawside.outputs import proof, publishing

    _, read, views = proof.read(folder, trusted)
    if not quick:
        publishing.sheets_of(views, _bar("trying the sheets"))
    for words in advice.advice(read):
        click.echo(f"advice: {words}")
    click.echo(f"{_count(read)}: no faults{'; the sheets were not tried' * quick}.")


@main.command(epilog="\b\nExamples:\n  sawside build\n  sawside build --project my-shop")
@_TRUST
@_FOLDER
@reports
def build(folder: Path, trusted: bool) -> None:
    """Build the site and its sheets. If anything is wrong, the site you have stays as it is."""
    from sawside.outputs import proof, publishing, site

    began = time.monotonic()
    settings, read, views = proof.read(folder, trusted)
    target = Path(settings.site_dir)
    published = publishing.complete(read, views, publishing.sheets_of(views, _bar("working out")))
    with place.building(target) as fresh:
        site.render(site.project(folder, fresh, trusted), published)
    sheets = sum(file.path.endswith(".pdf") for file in published.files)
    made = _numbered([(len(published.pages), "page"), (len(published.views), "guide"), (sheets, "sheet")])
    click.echo(f"{_count(read)}: {made} in {time.monotonic() - began:.1f} s.")
    click.echo(f"Open {library.shown(target / 'index.html')}")


_SHEET_EXAMPLES = """\b
Examples:
  sawside sheet bench-250
  sawside sheet bench-250 --paper Letter --to bench.pdf
  sawside sheet bench-250 --kind guide --kind notice --to printed
  sawside sheet --every --kind all --one-file --to everything.pdf
"""


@main.command(epilog=_SHEET_EXAMPLES)
@click.argument("machine", required=False)
@click.option("--every", is_flag=True, help="Every machine of the shop.")
@click.option("--kind", "kinds", multiple=True, default=("wall",), show_default=True,
              help="wall, wall-back, guide, notice, blade-table, job-card, tags, worksheet, check-record, true-scale, or all."
                   " May be repeated.")
@click.option("--paper", type=click.Choice(["A4", "Letter", "A5", "A5 on A4", "A3"], case_sensitive=False),
              help="Paper, instead of the shop's own.")
@click.option("--ink", type=click.Choice(["colour", "grey"]), default="colour", show_default=True,
              help="Grey for a black printer.")
@click.option("--one-file", is_flag=True, help="Bind all sheets into one PDF with an outline.")
@click.option("--to", "target", type=click.Path(path_type=Path), help="File for one sheet, folder for several.")
@_TRUST
@_FOLDER
@reports
def sheet(machine, every, kinds, paper, ink, one_file, target, folder, trusted) -> None:
    """Make printable sheets: the wall sheet of one MACHINE, named by its id, or what the options ask for."""
    from sawside.outputs import asking, publishing

    if bool(machine) == every:
        raise click.UsageError("name one MACHINE, or say --every")
    kinds = [kind.lower().replace("-", "_") for kind in kinds]
    if words := asking.wrong(kinds, paper):
        raise click.UsageError(words)
    _, read = _read(folder, trusted)
    chosen = read.machines if every else [_machine(read, machine)]
    wanted = () if "all" in kinds else kinds
    _check_target(target, one_file or len(chosen) * len(wanted) == 1)
    _check_place(target, one_file)
    made = [publishing.view_of(read, record) for record in chosen]
    _say_papers(publishing, publishing.wanted(made, wanted), paper or "", bool(wanted))
    if one_file:
        place.write_files({target or Path("sheets.pdf"): publishing.bound(made, wanted, paper or "", ink).data})
        click.echo(f"Wrote {target or 'sheets.pdf'}")
        return
    _write_sheets(publishing.printed(made, wanted, paper or "", ink, _bar("printing")), target)


def _check_target(target: Path | None, one: bool) -> None:
    """Refuse a file name that is none of a PDF, and one where a folder is needed."""
    if target and one and target.suffix.lower() not in ("", ".pdf"):
        raise click.UsageError(f"a sheet is a PDF: write --to {target.with_suffix('.pdf')}")
    if target and not one and target.suffix:
        raise click.UsageError(f"several sheets go into a folder: write --to {target.with_suffix('')}, or say --one-file")


def _check_place(target: Path | None, one_file: bool) -> None:
    """Refuse a place that cannot be written to before the long work begins."""
    if target and (one_file or target.suffix):
        place.check_files([target])
    else:
        place.check_files([target or Path()], folder=True)


def _say_papers(publishing, pairs, asked: str, named: bool) -> None:
    """Say once for each kind of sheet when it comes on another paper than the one asked for or the shop's own."""
    papers = {kind: (asked or view["shop"]["paper"], publishing.paper_of(kind, asked, view, named)) for view, kind in pairs}
    for kind, (wished, made_on) in papers.items():
        if made_on != wished:
            click.echo(f"{kind.replace('_', ' ')}: not made on {wished}, but on {made_on}.")


def _machine(read, name: str):
    """Return a machine by its id, or raise a fault that says which there are."""
    chosen = next((record for record in read.machines if record.id == name), None)
    if chosen is None:
        ids = [record.id for record in read.machines]
        hint = meant(name, ids, "machines here: " + ", ".join(ids))
        raise Faults([Fault(At("machines"), f"there is no machine `{name}`", hint)])
    return chosen


def _write_sheets(made, target: Path | None) -> None:
    """Write one sheet to the file named, several into the folder named."""
    if len(made) == 1 and (target is None or target.suffix):
        paths = [target or Path(made[0].path)]
    else:
        paths = [(target or Path("sheets")) / one.path for one in made]
    place.write_files({path: one.data for path, one in zip(paths, made, strict=True)})
    for path in paths:
        click.echo(f"Wrote {path}")


@main.command(epilog="\b\nExamples:\n  sawside serve\n  sawside serve --port 8123")
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True, help="Port on this computer.")
@_TRUST
@_FOLDER
@reports
def serve(folder: Path, port: int, trusted: bool) -> None:
    """Show the site on this computer and renew it whenever a YAML file or a template changes."""
    from sawside.outputs import serving, site

    places = [*site.sources(folder, trusted), folder / "mkdocs.yml"]
    for told in serving.show(port, places, lambda fresh: site.make(folder, fresh, trusted)):
        click.echo(told)


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
    quoted = f'"{folder}"' if " " in str(folder) else folder
    click.echo(f"Made {folder}. Next:\n  cd {quoted}\n  sawside check\n  sawside build")


def _read(folder: Path, trusted: bool):
    """Return the mkdocs settings of a project and its library, read and checked."""
    from sawside.outputs import paper, site

    settings = site.project(folder, trusted=trusted)
    return settings, library.load(*site.folders(settings), paper.lacking)


def _count(read) -> str:
    parts = [(read.machines, "machine"), (read.blades, "blade"), (read.jobs, "job"), (read.procedures, "procedure")]
    return _numbered([(len(items), name) for items, name in parts])


def _numbered(parts: list[tuple[int, str]]) -> str:
    return ", ".join(f"{number} {name}{'s' * (number != 1)}" for number, name in parts)


def _bar(title: str):
    def progress(items):
        return tqdm(items, desc=title, ascii=True, leave=False, disable=None)

    return progress
