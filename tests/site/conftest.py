"""The built demonstration site for the tests in this folder."""

import shutil
from pathlib import Path

import pytest

import demonstration


@pytest.fixture(scope="session")
def site() -> Path:
    return demonstration.built()


def pytest_sessionfinish():
    if demonstration.built.cache_info().currsize:
        shutil.rmtree(demonstration.built().parent, ignore_errors=True)
