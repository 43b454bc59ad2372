"""The demonstration site, built once for all tests that look at it, as a user builds it: in a folder of its own."""

import atexit
import functools
import os
import shutil
import tempfile
import time
from pathlib import Path

from click.testing import CliRunner

ROOT = Path(__file__).resolve().parents[1]
#: Page kind -> one page of that kind.
KINDS = {
    "home": "index.html",
    "machine": "machines/lever-350.html",
    "guide": "machines/lever-350-guide.html",
    "stage": "machines/lever-350/tension.html",
    "checks": "machines/lever-350-checks.html",
    "commissioning": "machines/lever-350-commissioning.html",
    "numbers": "machines/lever-350-numbers.html",
    "blades": "machines/lever-350-blades.html",
    "safety": "machines/lever-350-safety.html",
    "worksheets": "machines/lever-350-worksheets.html",
    "working": "machines/lever-350-working.html",
    "measure": "reference/measure.html",
    "fields": "reference/fields.html",
    "values": "reference/values.html",
    "sheets": "sheets/index.html",
    "written": "limits.html",
}


def build(project: Path) -> Path:
    """Build the demonstration shop in a new folder and return its site."""
    from sawside.cli import main

    for name in ("procedures", "site_templates"):
        shutil.copytree(ROOT / name, project / name)
    shutil.copy(ROOT / "mkdocs.yml", project)
    result = CliRunner().invoke(main, ["build", "--project", str(project)])
    assert result.exit_code == 0, result.output
    return project / "site"


#: Longest wait for another worker's build [s].
PATIENCE = 600


@functools.cache
def built() -> Path:
    """Return the site that all tests share, of all workers of a run; nobody may change it."""
    folder = shared_folder()
    if not folder:
        folder = Path(tempfile.mkdtemp(prefix="sawside-"))
        atexit.register(shutil.rmtree, folder, ignore_errors=True)
        return build(folder)
    try:
        folder.mkdir()
    except FileExistsError:
        return _from_another_worker(folder)
    try:
        build(folder)
    except BaseException:
        (folder / "failed").touch()
        raise
    (folder / "done").touch()
    return folder / "site"


def shared_folder() -> Path | None:
    """Return where the workers of one run build the site that they share; nothing in a run without workers."""
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID")
    return Path(tempfile.gettempdir()) / f"sawside-{run}" if run else None


def _from_another_worker(folder: Path) -> Path:
    for _ in range(10 * PATIENCE):
        if (folder / "done").exists():
            return folder / "site"
        assert not (folder / "failed").exists(), "another worker could not build the site"
        time.sleep(0.1)
    raise AssertionError("another worker did not finish building the site")


def pages(site: Path) -> list[Path]:
    """Return every page of a site."""
    found = sorted(site.rglob("*.html"))
    assert len(found) > 25
    return found
