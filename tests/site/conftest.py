"""The built demonstration site for the tests in this folder."""

from pathlib import Path

import pytest

import demonstration


@pytest.fixture(scope="session")
def site() -> Path:
    return demonstration.built()
