"""Shared by all tests: the demonstration shop read once, and the switch that renews expected texts."""

from pathlib import Path

import pytest

from sawside import library

ROOT = Path(__file__).resolve().parents[1]
DEMONSTRATION = ROOT / "procedures" / "shops" / "demonstration"


def pytest_addoption(parser):
    parser.addoption("--golden", action="store_true", help="write the expected texts and pictures anew, then read the diff")


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
