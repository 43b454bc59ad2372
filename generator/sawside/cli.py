"""The command `sawside`: check, build, sheet, printed, changes, serve, new.

Exit codes: 0 good, 1 faults in the input, 2 wrong use, 3 sheets have to be renewed (`changes` only).
"""

import sys
import time
from functools import wraps
from pathlib import Path

import click
from tqdm import tqdm

from sawside import __version__, advice, ledger, library, place, starter
from sawside.errors import At, Fault, Faults, printable
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
    from sawside.outputs import prints, publishing, sheets

    if bool(machine) == every:
        raise click.UsageError("name one MACHINE, or say --every")
    kinds = _kinds(kinds, sheets.KINDS)
    _, read = _read(folder, trusted)
    chosen = read.machines if every else [_machine(read, machine)]
    wanted = () if "all" in kinds else kinds
    _check_target(target, one_file or len(chosen) * len(wanted) == 1)
    _check_place(target, one_file)
    made = [publishing.view_of(read, record) for record in chosen]
    _say_papers(publishing, publishing.wanted(made, wanted), paper or "", bool(wanted))
    if one_file:
        place.write_files({target or Path("sheets.pdf"): publishing.bound(made, wanted, paper or "", ink, prints.today()).data})
        click.echo(f"Wrote {target or 'sheets.pdf'}")
        return
    _write_sheets(publishing.printed(made, wanted, paper or "", ink, _bar("printing"), prints.today()), target)


def _kinds(named, known) -> list[str]:
    """Return kinds of sheet as they are called inside, or tell that there is none such."""
    kinds = [kind.lower().replace("-", "_") for kind in named]
    wrong = [kind for kind in kinds if kind not in (*known, "all")]
    if wrong:
        near = suggest(wrong[0], (*known, "all"))
        hint = f"did you mean `{near}`?" if near else f"kinds: {', '.join(known)}, all"
        raise click.UsageError(f"there is no kind `{wrong[0]}`; {hint}")
    return kinds


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
        near = suggest(name, ids)
        hint = f"did you mean `{near}`?" if near else "machines here: " + ", ".join(ids)
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


_PRINTED_EXAMPLES = """\b
Examples:
  sawside printed
  sawside printed bench-250
  sawside printed bench-250 --kind wall --kind notice
"""


@main.command(epilog=_PRINTED_EXAMPLES)
@click.argument("machine", required=False)
@click.option("--kind", "kinds", multiple=True,
              help="Kind of sheet, or all. May be repeated. Without it: the kinds that are in the list already; in an empty"
                   " list every kind.")
@_TRUST
@_FOLDER
@reports
def printed(machine, kinds, folder, trusted) -> None:
    """Write into the shop's list of prints what hangs in the shop now: today's sheets, of one MACHINE, of `rack`, or of all.

    Run it when the new sheets hang and the old ones are down. What a print said is kept with it, so that its code can be
    answered and `sawside changes` can tell old and new values.
    """
    from sawside.outputs import prints, publishing, sheets

    named = _kinds(kinds, sheets.KINDS)
    settings, read = _read(folder, trusted)
    shop = _shop_folder(settings)
    views = _every_view(read, publishing)
    chosen = [view for view in views if not machine or view["machine"]["id"] == machine]
    if not chosen:
        _machine(read, machine)
    files, new, same = {}, 0, 0
    for view in chosen:
        listed, count, kept = prints.noted(view, _to_note(view, named, prints, publishing), prints.today(), bool(named))
        files[ledger.path(shop, view["machine"]["id"])] = ledger.text(listed).encode()
        new, same = new + count, same + kept
    place.write_files(files)
    click.echo(f"{_numbered([(new, 'print')])} written into {library.shown(shop / ledger.FOLDER)}; {same} had not changed.")


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


@main.command(epilog=_CHANGES_EXAMPLES)
@click.argument("since", required=False)
@click.option("--kind", "kinds", multiple=True, help="Kind of sheet, or all. May be repeated. Default: all.")
@click.option("--to", "target", type=click.Path(dir_okay=False, path_type=Path), default=Path("changes.pdf"), show_default=True,
              help="PDF of the sheets to renew, in the order in which one walks.")
@click.option("--text", "as_text", is_flag=True, help="Write no PDF, and tell the changes as Markdown, for a pull request.")
@click.option("--paper", type=click.Choice(["A4", "Letter", "A5", "A5 on A4", "A3"], case_sensitive=False),
              help="Paper, instead of the shop's own.")
@click.option("--ink", type=click.Choice(["colour", "grey"]), default="colour", show_default=True,
              help="Grey for a black printer.")
@_TRUST
@_FOLDER
@reports
def changes(since, kinds, target, as_text, paper, ink, folder, trusted) -> None:
    """Tell which sheets have to be renewed, and print just those: what they say has changed since they were printed.

    SINCE is a git revision: a branch, a tag, a commit, HEAD~1. Without it today's sheets are compared with the list that
    `sawside printed` wrote. The order is the one in which one walks: saws by their `place`, then by their files, the rack last.
    Ends with 0 when nothing has to be renewed and with 3 when something has; 1 is for faults.
    """
    from sawside.outputs import changes as compared
    from sawside.outputs import prints, publishing, sheets

    named = _kinds(kinds, sheets.KINDS)
    if not as_text:
        if target.suffix.lower() != ".pdf":
            raise click.UsageError(f"the sheets are a PDF: write --to {target.with_suffix('.pdf')}")
        place.check_files([target])
    settings, read = _read(folder, trusted)
    views = _every_view(read, publishing)
    found = _changed(since, settings, read, views, compared, publishing)
    found = [change for change in found if not named or "all" in named or change.kind in named]
    click.echo(compared.markdown(found) if as_text else compared.words(found) or "No sheet has to be renewed.", nl=not as_text)
    pairs = [(change.view, change.kind) for change in found if change.view]
    if pairs and not as_text:
        sheet = publishing.bound_pairs(pairs, paper or "", ink, today=prints.today())
        place.write_files({target: sheet.data})
        click.echo(f"{_numbered([(len(pairs), 'sheet')])} to renew: wrote {target}")
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
