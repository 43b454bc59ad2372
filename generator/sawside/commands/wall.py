"""The commands `printed` and `changes`: what hangs in the shop, and which of it has to be renewed."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sawside import files, ledger, library, place
from sawside.commands.common import FOLDER, INK, PAPER, TRUST, machine_of, numbered, read_shop, reports
from sawside.errors import At, Fault, Faults

if TYPE_CHECKING:  # what takes long to load is loaded by the commands that need it
    from sawside.kinds.view_types import MachineView
    from sawside.outputs.changes import Change
    from sawside.outputs.site import Project

_PRINTED_EXAMPLES = """\b
Examples:
  sawside printed
  sawside printed bench-250
  sawside printed bench-250 --kind wall --kind notice
  sawside printed bench-250 --blade a6-6
"""


@click.command(epilog=_PRINTED_EXAMPLES)
@click.argument("machine", required=False)
@click.option(
    "--kind",
    "kinds",
    multiple=True,
    help="Kind of sheet, or all. May be repeated. Without it: the sheets that are in the list already; in an empty"
    " list every sheet.",
)
@click.option("--blade", help="Only the sheets for this blade, where it fits. Without --kind: its card.")
@TRUST
@FOLDER
@reports
def printed(machine: str | None, kinds: tuple[str, ...], blade: str | None, folder: Path, trusted: bool) -> None:
    """Write into the shop's list of prints what hangs in the shop now: today's sheets, of one MACHINE, of `rack`, or of all.

    Run it when the new sheets hang and the old ones are down. What a print said is kept with it, so that its code can be
    answered and `sawside changes` can tell old and new values.
    """
    from sawside.outputs import asking, prints

    named = _named(kinds or ("card",) * bool(blade), blade)
    settings, read = read_shop(folder, trusted)
    if blade:
        asking.known_blade(blade, [one.id for one in read.blades])
    shop = _shop_folder(settings)
    views = _every_view(read)
    chosen = [view for view in views if not machine or view["machine"]["id"] == machine]
    if machine and not chosen:
        machine_of(read, machine)
    lists, new, same = {}, 0, 0
    for view in chosen:
        listed, count, kept = prints.noted(view, _to_note(view, named, blade), prints.today(), bool(named))
        lists[ledger.path(shop, view["machine"]["id"])] = ledger.text(listed).encode()
        new, same = new + count, same + kept
    place.write_files(lists)
    click.echo(f"{numbered([(new, 'print')])} written into {files.shown(shop / ledger.FOLDER)}; {same} had not changed.")


def _to_note(view: "MachineView", named: list[str], blade: str | None) -> "list[tuple[MachineView, str]]":
    """Return the sheets to note for one saw, as pairs of view and kind: those named, or those of the list.

    Raises a fault for a kind that the saw has not. Of a kind that is named, guide and wall sheet for the blade on the saw are
    meant, and the cards for all blades; those for one blade where that is named.
    """
    from sawside.outputs import prints, publishing

    hung, possible = publishing.hung(view), publishing.offered(view, asked=True)
    if not named:
        return prints.usual(view, hung)
    if "all" not in named and not view.get("rack"):
        wrong = [kind for kind in named if kind not in possible]
        if wrong:
            what = f"there is no sheet `{wrong[0].replace('_', '-')}` for `{view['machine']['id']}`"
            raise Faults([Fault(At("machines"), what, "sheets here: " + ", ".join(kind.replace("_", "-") for kind in possible))])
    every = [pair for pair in publishing.answered(view) if pair[0] is view] + [pair for pair in hung if pair[0] is not view]
    if blade:
        every = [pair for pair in publishing.answered(view) if prints.is_for(pair[1], pair[0], blade)]
    kinds = {kind for _, kind in hung} if "all" in named else set(named)
    return [pair for pair in every if pair[1] in kinds]


def _every_view(read: library.Library) -> "list[MachineView]":
    """Return the views of all saws and of the rack, in the order in which one walks."""
    from sawside.outputs import changes, publishing, rack

    views = publishing.views(read)
    return changes.walk([*views, rack.view(views)])


def _shop_folder(settings: "Project") -> Path:
    from sawside.outputs import site

    return site.folders(settings)[0]


_CHANGES_EXAMPLES = """\b
Examples:
  sawside changes
  sawside changes --to renew.pdf
  sawside changes HEAD~1
  sawside changes main --text
"""


@click.command(epilog=_CHANGES_EXAMPLES)
@click.argument("since", required=False)
@click.option("--kind", "kinds", multiple=True, help="Kind of sheet, or all. May be repeated. Default: all.")
@click.option(
    "--to",
    "target",
    type=click.Path(dir_okay=False, path_type=Path),
    default=Path("changes.pdf"),
    show_default=True,
    help="PDF of the sheets to renew, in the order in which one walks.",
)
@click.option("--text", "as_text", is_flag=True, help="Write no PDF, and tell the changes as Markdown, for a pull request.")
@PAPER
@INK
@TRUST
@FOLDER
@reports
def changes(
    since: str | None, kinds: tuple[str, ...], target: Path, as_text: bool, paper: str | None, ink: str, folder: Path, trusted: bool
) -> None:
    """Tell which sheets have to be renewed, and print just those: what they say has changed since they were printed.

    SINCE is a git revision: a branch, a tag, a commit, HEAD~1. Without it today's sheets are compared with the list that
    `sawside printed` wrote. The order is the one in which one walks: saws by their `place`, then by their files, the rack last.
    Ends with 0 when nothing has to be renewed and with 3 when something has; 1 is for faults.
    """
    from sawside.outputs import prints, publishing, telling

    named = _named(kinds)
    if not as_text:
        if target.suffix.lower() != ".pdf":
            raise click.UsageError(f"the sheets are a PDF: write --to {target.with_suffix('.pdf')}")
        place.check_files([target])
    settings, read = read_shop(folder, trusted)
    views = _every_view(read)
    found = _changed(since, settings, read, views)
    found = [change for change in found if not named or "all" in named or change.kind in named]
    click.echo(telling.markdown(found) if as_text else telling.words(found) or "No sheet has to be renewed.", nl=not as_text)
    pairs = [(change.view, change.kind) for change in found if change.view]
    if pairs and not as_text:
        sheet = publishing.bound_pairs(pairs, paper or "", ink, today=prints.today())
        place.write_files({target: sheet.data})
        click.echo(f"{numbered([(len(pairs), 'sheet')])} to renew: wrote {target}")
    if found:
        sys.exit(3)


def _changed(since: str | None, settings: "Project", read: library.Library, views: "list[MachineView]") -> "list[Change]":
    """Return the changes since a revision, or since the last prints in the list."""
    from sawside.outputs import changes as compared
    from sawside.outputs import earlier, publishing, rack, site

    if since:
        before = earlier.views(*site.folders(settings), since)
        return compared.since_state([*before, rack.view(before)], views, publishing.hung)
    if not read.prints:
        hint = "run: sawside printed   Or name a git revision: sawside changes HEAD~1"
        raise Faults([Fault(At(files.shown(_shop_folder(settings) / ledger.FOLDER)), "there is no list of prints yet", hint)])
    return compared.since_prints(views, read.prints, publishing.hung, publishing.answered)


def _named(kinds: tuple[str, ...], blade: str | None = None) -> list[str]:
    """Return kinds of sheet as they are called inside; refuse one there is none of."""
    from sawside.outputs import asking

    found = asking.kinds_meant(kinds, blade) if kinds else []
    if words := asking.wrong(found, None, blade):
        raise click.UsageError(words)
    return found
