"""The built package works by itself: installed into an empty environment, away from the checkout."""

import os
import subprocess
import sys
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


def run(*command, cwd: Path) -> str:
    """Run a command away from the checkout and return what it printed; fail with all of it when it fails."""
    env = {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}
    done = subprocess.run([str(c) for c in command], cwd=cwd, capture_output=True, text=True, env=env, timeout=600)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def sawside(tmp_path_factory) -> Path:
    """Build a wheel, install it with its requirements into an empty environment, return the command."""
    place = tmp_path_factory.mktemp("wheel")
    pip = (sys.executable, "-m", "pip", "--disable-pip-version-check")
    run(*pip, "wheel", "--quiet", "--no-deps", "--no-build-isolation", "--wheel-dir", place, ROOT, cwd=place)
    (wheel,) = place.glob("*.whl")
    venv.create(place / "env", with_pip=True)
    scripts = place / "env" / ("Scripts" if os.name == "nt" else "bin")
    run(
        scripts / "python",
        "-m",
        "pip",
        "--disable-pip-version-check",
        "install",
        "--quiet",
        "--constraint",
        ROOT / "constraints.txt",
        wheel,
        cwd=place,
    )
    return scripts / "sawside"


def test_new_check_and_build_away_from_the_checkout(sawside, tmp_path):
    run(sawside, "new", "my-shop", cwd=tmp_path)
    shop = tmp_path / "my-shop"
    assert "no faults" in run(sawside, "check", cwd=shop)
    assert "Open" in run(sawside, "build", cwd=shop)
    assert (shop / "site" / "index.html").is_file()
    assert (shop / "site" / "sheets" / "my-saw.pdf").read_bytes().startswith(b"%PDF")
    assert "my-saw" in run(sawside, "sheet", "my-saw", cwd=shop)
