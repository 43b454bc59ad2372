"""The commands `printed` and `changes`: what hangs in the shop, and which of it has to be renewed."""

import sys
from pathlib import Path

import click

from sawside import ledger, library, place
from sawside.commands.common import FOLDER, INK, PAPER, TRUST, machine_of, numbered, read_shop, reports
from sawside.errors import At, Fault, Faults

_PRINTED_EXAMPLES = """\b
Examples:
  sawside printed
  sawside printed bench-250
  sawside printed bench-250 --kind wall --kind notice
"""


@click.command(epilog=_PRINTED_EXAMPLES)
@click.argument("machine", required=False)
@click.option("--kind", "kinds", multiple=True,
              help="Kind of sheet, or all. May be repeated. Without it: the kinds that are in the list already; in an empty"
                   " list every kind.")
@TRUST
@FOLDER
@reports
def printed(machine, kinds, folder, trusted) -> None:
    """Write into the shop's list of prints what hangs in the shop now: today's sheets, of one MACHINE, of `rack`, or of all.

    Run it when the new sheets hang and the old ones are down. What a print said is kept with it, so that its code can be
    answered and `sawside changes` can tell old and new values.
    """
    from sawside.outputs import prints, publishing

    named = _named(kinds)
    settings, read = read_shop(folder, trusted)
    shop = _shop_folder(settings)
    views = _every_view(read, publishing)
    chosen = [view for view in views if not machine or view["machine"]["id"] == machine]
    if not chosen:
        machine_of(read, machine)
    files, new, same = {}, 0, 0
    for view in chosen:
        listed, count, kept = prints.noted(view, _to_note(view, named, prints, publishing), prints.today(), bool(named))
        files[ledger.path(shop, view["machine"]["id"])] = ledger.text(listed).encode()
        new, same = new + count, same + kept
    place.write_files(files)
    click.echo(f"{numbered([(new, 'print')])} written into {library.shown(shop / ledger.FOLDER)}; {same} had not changed.")


def _to_note(view, named, prints, publishing) -> tuple[str, ...]:
    """Return the kinds of sheet to note for one saw: those named, or those of the list; raise a fault for none such."""
    offered = publishing.offered(view)
    if named and "all" not in named:
        wrong = [] if view.get("rack") else [kind for kind in named if kind not in offered]
        if wrong:
            what = f"there is no sheet `{wrong[0].replace('_', '-')}` for `{view['machine']['id']}`"
            raise Faults([Fault(At("machines"), what, "sheets here: " + ", ".join(kind.replace("_", "-") for kind in offered))])
        return tuple(kind for kind in named if kind in offered)
    return offered if named else prints.usual(view, offered)


def _every_view(read, publishing) -> list[dict]:
    """Return the views of all saws and of the rack, in the order in which one walks."""
    from sawside.outputs import changes

    views = publishing.views(read)
    return changes.walk([*views, publishing.rack_view(views)])


def _shop_folder(settings) -> Path:
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
@click.option("--to", "target", type=click.Path(dir_okay=False, path_type=Path), default=Path("changes.pdf"), show_default=True,
              help="PDF of the sheets to renew, in the order in which one walks.")
@click.option("--text", "as_text", is_flag=True, help="Write no PDF, and tell the changes as Markdown, for a pull request.")
@PAPER
@INK
@TRUST
@FOLDER
@reports
def changes(since, kinds, target, as_text, paper, ink, folder, trusted) -> None:
    """Tell which sheets have to be renewed, and print just those: what they say has changed since they were printed.

    SINCE is a git revision: a branch, a tag, a commit, HEAD~1. Without it today's sheets are compared with the list that
    `sawside printed` wrote. The order is the one in which one walks: saws by their `place`, then by their files, the rack last.
    Ends with 0 when nothing has to be renewed and with 3 when something has; 1 is for faults.
    """
    from sawside.outputs import changes as compared
    from sawside.outputs import prints, publishing, telling

    named = _named(kinds)
    if not as_text:
        if target.suffix.lower() != ".pdf":
            raise click.UsageError(f"the sheets are a PDF: write --to {target.with_suffix('.pdf')}")
        place.check_files([target])
    settings, read = read_shop(folder, trusted)
    views = _every_view(read, publishing)
    found = _changed(since, settings, read, views, compared, publishing)
    found = [change for change in found if not named or "all" in named or change.kind in named]
    click.echo(telling.markdown(found) if as_text else telling.words(found) or "No sheet has to be renewed.", nl=not as_text)
    pairs = [(change.view, change.kind) for change in found if change.view]
    if pairs and not as_text:
        sheet = publishing.bound_pairs(pairs, paper or "", ink, today=prints.today())
        place.write_files({target: sheet.data})
        click.echo(f"{numbered([(len(pairs), 'sheet')])} to renew: wrote {target}")
    if found:
        sys.exit(3)


def _changed(since, settings, read, views, compared, publishing):
    """Return the changes since a revision, or since the last prints in the list."""
    from sawside.outputs import earlier, site

    if since:
        before = earlier.views(*site.folders(settings), since)
        return compared.since_state([*before, publishing.rack_view(before)], views, publishing.offered)
    if not read.prints:
        hint = "run: sawside printed   Or name a git revision: sawside changes HEAD~1"
        raise Faults([Fault(At(library.shown(_shop_folder(settings) / ledger.FOLDER)), "there is no list of prints yet", hint)])
    return compared.since_prints(views, read.prints, publishing.offered)


def _named(kinds) -> list[str]:
    """Return kinds of sheet as they are called inside; refuse one there is none of."""
    from sawside.outputs import asking

    found = [kind.lower().replace("-", "_") for kind in kinds]
    if words := asking.wrong(found, None):
        raise click.UsageError(words)
    return found
