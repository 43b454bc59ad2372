"""The site is swapped in one step: whatever happens to a build, a reader finds one whole site, the old or the new."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sawside.errors import Faults
from sawside.outputs import place

FILES = 40

#: Builds a site of FILES files, all holding the number of the build, again and again until it is killed.
BUILDER = f"""
import sys
from pathlib import Path
from sawside.outputs import place
site, number = Path(sys.argv[1]), int(sys.argv[2])
while True:
    number += 1
    with place.building(site) as fresh:
        for name in range({FILES}):
            (fresh / str(name)).write_text(str(number))
"""


def whole(site: Path) -> int:
    """Return the number of the build a site is from; fail when it is a mixture or has gaps."""
    numbers = [(site / str(name)).read_text() for name in range(FILES)]
    assert len(set(numbers)) == 1, f"a mixture of builds {sorted(set(numbers))}"
    return int(numbers[0])


def write(site: Path, number: int) -> None:
    with place.building(site) as fresh:
        for name in range(FILES):
            (fresh / str(name)).write_text(str(number))


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system has no SIGKILL")
def test_a_build_killed_at_any_moment_leaves_a_whole_site(tmp_path):
    site = tmp_path / "site"
    write(site, 0)
    moments = random.Random(7)
    numbers = []
    for _ in range(50):
        builder = subprocess.Popen([sys.executable, "-c", BUILDER, str(site), str(whole(site))])
        time.sleep(0.12 + moments.random() * 0.08)
        builder.send_signal(signal.SIGKILL)
        builder.wait()
        numbers.append(whole(site))
    assert numbers == sorted(numbers) and numbers[-1] > numbers[0] > 0
    write(site, 10**6)
    assert whole(site) == 10**6
    assert sorted(p.name for p in tmp_path.iterdir()) == [".site-lock", "site"]


def test_a_build_that_fails_leaves_the_old_site_and_nothing_else(tmp_path):
    site = tmp_path / "site"
    write(site, 1)
    with pytest.raises(ZeroDivisionError), place.building(site) as fresh:
        (fresh / "0").write_text("2")
        raise ZeroDivisionError
    assert whole(site) == 1
    assert sorted(p.name for p in tmp_path.iterdir()) == [".site-lock", "site"]


def test_two_renames_do_where_the_system_cannot_exchange(tmp_path, monkeypatch):
    monkeypatch.setattr(place, "_exchange", lambda one, other: False)
    site = tmp_path / "site"
    write(site, 1)
    write(site, 2)
    assert whole(site) == 2
    # Killed between the two renames: the next build puts the old site back before it starts.
    site.rename(tmp_path / ".site-old")
    with pytest.raises(ZeroDivisionError), place.building(site):
        assert whole(site) == 2
        raise ZeroDivisionError
    assert whole(site) == 2


def test_two_builds_at_once(tmp_path):
    site = tmp_path / "site"
    with place.building(site) as fresh:
        (fresh / "0").write_text("1")
        with pytest.raises(Faults, match="another build is writing this site"), place.building(site):
            pytest.fail("the second build was let in")
    assert (site / "0").read_text() == "1"


def test_a_folder_one_may_not_write_to_is_a_fault(tmp_path):
    blocker = tmp_path / "file"
    blocker.write_text("in the way")
    with pytest.raises(Faults, match="the site cannot be written"), place.building(blocker / "site"):
        pytest.fail("built inside a file")


def test_a_full_disk_is_a_fault_and_leaves_the_old_site(tmp_path):
    site = tmp_path / "site"
    write(site, 1)
    with pytest.raises(Faults, match="No space left"), place.building(site) as fresh:
        (fresh / "0").write_text("2")
        with open("/dev/full", "w") as full:
            full.write("x" * 10**6)
    assert whole(site) == 1


if not os.path.exists("/dev/full"):
    del test_a_full_disk_is_a_fault_and_leaves_the_old_site
