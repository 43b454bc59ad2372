"""The command `sawside`: check, build, sheet, printed, changes, serve, new.

Exit codes: 0 good, 1 faults in the input, 2 wrong use, 3 sheets have to be renewed (`changes` only).
"""

import sys
import time
from pathlib import Path

import click

from sawside import __version__, advice, files, library, place, starter
from sawside.commands.common import FOLDER, TRUST, bar, numbered, reports
from sawside.commands.sheet import sheet
from sawside.commands.wall import changes, printed


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


@main.command(epilog="\b\nExamples:\n  sawside check\n  sawside check --quick\n  sawside check --project my-shop")
@click.option("--quick", is_flag=True, help="Do not try whether every text fits its sheet, which takes longest.")
@TRUST
@FOLDER
@reports
def check(folder: Path, trusted: bool, quick: bool) -> None:
    """Read everything and report every fault, with file, line and what to write instead; then give advice.

    What passes here will build: pages, links and sheets are tried as well, and nothing is written.
    """
    from sawside.outputs import proof, publishing

    _, read, views = proof.read(folder, trusted)
    if not quick:
        publishing.sheets_of(views, bar("trying the sheets"))
    for words in advice.advice(read):
        click.echo(f"advice: {words}")
    click.echo(f"{_count(read)}: no faults{'; the sheets were not tried' * quick}.")


@main.command(epilog="\b\nExamples:\n  sawside build\n  sawside build --project my-shop")
@TRUST
@FOLDER
@reports
def build(folder: Path, trusted: bool) -> None:
    """Build the site and its sheets. If anything is wrong, the site you have stays as it is."""
    from sawside.outputs import proof, publishing, site

    began = time.monotonic()
    settings, read, views = proof.read(folder, trusted)
    target = Path(settings.site_dir)
    published = publishing.complete(read, views, publishing.sheets_of(views, bar("working out")))
    with place.building(target) as fresh:
        site.render(site.project(folder, fresh, trusted), published)
    sheets = sum(file.path.endswith(".pdf") for file in published.files)
    made = numbered([(len(published.pages), "page"), (len(published.views), "guide"), (sheets, "sheet")])
    click.echo(f"{_count(read)}: {made} in {time.monotonic() - began:.1f} s.")
    click.echo(f"Open {files.shown(target / 'index.html')}")


@main.command(epilog="\b\nExamples:\n  sawside serve\n  sawside serve --port 8123")
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True, help="Port on this computer.")
@TRUST
@FOLDER
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


def _count(read: library.Library) -> str:
    parts = [(read.machines, "machine"), (read.blades, "blade"), (read.jobs, "job"), (read.procedures, "procedure")]
    return numbered([(len(items), name) for items, name in parts])


for command in (sheet, printed, changes):
    main.add_command(command)
