"""Shared by all tests: the demonstration shop read once, the switch that renews expected texts, and what a quick run holds."""

import shutil
import tempfile
from pathlib import Path

import pytest

from sawside import library

ROOT = Path(__file__).resolve().parents[1]
SOURCE = ROOT / "generator"
#: Test files of a quick run: fast, and broken by most changes that break anything.
QUICK = {
    "test_blade_properties.py",
    "test_by_hand.py",
    "test_choice.py",
    "test_code.py",
    "test_guide.py",
    "test_judge.py",
    "test_layers.py",
    "test_publishing.py",
    "test_reached.py",
    "test_schema.py",
    "test_slots.py",
    "test_source.py",
    "test_units.py",
    "test_units_properties.py",
    "test_values.py",
    "test_worked_examples.py",
    "test_wrong_formulas.py",
    "test_one_of_each.py",
}
DEMONSTRATION = ROOT / "procedures" / "shops" / "demonstration"


def pytest_addoption(parser):
    parser.addoption("--golden", action="store_true", help="write the expected texts and pictures anew, then read the diff")
    parser.addoption("--quick", action="store_true", help="only what a change most often breaks: see QUICK")


def pytest_collection_modifyitems(config, items):
    """Keep of a quick run what QUICK names, and the doctests."""
    if config.getoption("--quick"):
        kept = [item for item in items if SOURCE in item.path.parents or item.path.name in QUICK]
        config.hook.pytest_deselected(items=[item for item in items if item not in set(kept)])
        items[:] = kept


def pytest_sessionfinish(session):
    """Remove the site that the workers of this run shared."""
    workers = getattr(session.config.pluginmanager.get_plugin("dsession"), "nodemanager", None)  # only where they are led from
    if workers:
        shutil.rmtree(Path(tempfile.gettempdir()) / f"sawside-{workers.testrunuid}", ignore_errors=True)


@pytest.fixture(scope="session")
def golden(request) -> bool:
    """Whether expected files are to be written instead of compared."""
    return request.config.getoption("--golden")


@pytest.fixture(scope="session")
def shop():
    """The demonstration shop, read and checked."""
    return library.load(DEMONSTRATION)


@pytest.fixture(scope="session")
def views(shop):
    """The printed view of every demonstration machine, by id."""
    from sawside.outputs import publishing

    return {view["machine"]["id"]: view for view in publishing.views(shop)}
