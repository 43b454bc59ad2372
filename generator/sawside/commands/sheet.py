"""The command `sheet`: printable sheets of one saw or of all."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from sawside import place
from sawside.commands.common import FOLDER, INK, PAPER, TRUST, bar, machine_of, read_shop, reports
from sawside.errors import Faults
from sawside.kinds.sheet_kinds import ASKED, BY_BLADE, KINDS, USUAL, written
from sawside.library import Library
from sawside.model import Sheet

if TYPE_CHECKING:  # what takes long to load is loaded by the commands that need it
    from sawside.kinds.view_types import MachineView

_SHEET_EXAMPLES = """\b
Examples:
  sawside sheet bench-250
  sawside sheet bench-250 --blade a6-6
  sawside sheet bench-250 --paper Letter --to bench.pdf
  sawside sheet bench-250 --kind guide --kind notice --to printed
  sawside sheet --every --kind all --one-file --to everything.pdf
"""


@click.command(epilog=_SHEET_EXAMPLES)
@click.argument("machine", required=False)
@click.option("--every", is_flag=True, help="Every machine of the shop.")
@click.option(
    "--kind",
    "kinds",
    multiple=True,
    default=(USUAL,),
    show_default=True,
    help=f"{', '.join(map(written, KINDS))}, or all. May be repeated. {', '.join(map(written, ASKED)).capitalize()}: only"
    " when named.",
)
@click.option(
    "--blade",
    help="The blade that goes on, by its id, instead of the one on the saw. For the kinds"
    f" {', '.join(map(written, BY_BLADE))}; with --every for the saws that it fits.",
)
@PAPER
@INK
@click.option("--one-file", is_flag=True, help="Bind all sheets into one PDF with an outline.")
@click.option("--to", "target", type=click.Path(path_type=Path), help="File for one sheet, folder for several.")
@TRUST
@FOLDER
@reports
def sheet(
    machine: str | None,
    every: bool,
    kinds: tuple[str, ...],
    blade: str | None,
    paper: str | None,
    ink: str,
    one_file: bool,
    target: Path | None,
    folder: Path,
    trusted: bool,
) -> None:
    """Make printable sheets: the blade-change card of one MACHINE, named by its id, or what the options ask for."""
    from sawside.outputs import asking, prints, publishing
    from sawside.outputs.view import machine_view

    if bool(machine) == every:
        raise click.UsageError("name one MACHINE, or say --every")
    meant = asking.kinds_meant(kinds, blade)
    if words := asking.wrong(meant, paper, blade):
        raise click.UsageError(words)
    _, read = read_shop(folder, trusted)
    chosen = [machine_of(read, machine)] if machine else read.machines
    wanted = () if "all" in meant else meant
    _check_target(target, one_file or len(chosen) * len(wanted) == 1)
    _check_place(target, one_file)
    made = [machine_view(read, record) for record in chosen]
    if blade:
        made = _going_on(made, blade, read)
    _say_papers(publishing.wanted(made, wanted), paper or "", bool(wanted))
    if one_file:
        place.write_files({target or Path("sheets.pdf"): publishing.bound(made, wanted, paper or "", ink, prints.today()).data})
        click.echo(f"Wrote {target or 'sheets.pdf'}")
        return
    _write_sheets(publishing.printed(made, wanted, paper or "", ink, bar("printing"), prints.today()), target)


def _going_on(made: "list[MachineView]", blade: str, read: Library) -> "list[MachineView]":
    """Return the views of the saws that a blade fits, as it goes on; say which it does not fit, raise Faults when it fits none."""
    from sawside.outputs import asking, publishing

    asking.known_blade(blade, [one.id for one in read.blades])
    fitting = [view for view in made if not asking.not_on(view, blade)]
    if not fitting:
        raise Faults([asking.refuse(view, blade) for view in made])
    for view in made:
        if words := asking.not_on(view, blade):
            click.echo(f"{view['machine']['id']}: nothing made, {blade} does not fit: {words}.")
    return [publishing.going_on(view, blade) for view in fitting]


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


def _say_papers(pairs: "list[tuple[MachineView, str]]", asked: str, named: bool) -> None:
    """Say once for each kind of sheet when it comes on another paper than the one asked for or the shop's own."""
    from sawside.outputs import publishing

    papers = {kind: (asked or view["shop"]["paper"], publishing.paper_of(kind, asked, view, named)) for view, kind in pairs}
    for kind, (wished, made_on) in papers.items():
        if made_on != wished:
            click.echo(f"{kind.replace('_', ' ')}: not made on {wished}, but on {made_on}.")


def _write_sheets(made: list[Sheet], target: Path | None) -> None:
    """Write one sheet to the file named, several into the folder named."""
    if len(made) == 1 and (target is None or target.suffix):
        paths = [target or Path(made[0].path)]
    else:
        paths = [(target or Path("sheets")) / one.path for one in made]
    place.write_files({path: one.data for path, one in zip(paths, made, strict=True)})
    for path in paths:
        click.echo(f"Wrote {path}")
