"""One build at a time: the only home of filelock.

The lock is a file that is there while a build runs, renewed every few seconds. That works on a share without locks, and
one left behind by a killed build is taken over: at once on the same computer, after LEASE seconds from another.
"""

import contextlib
from collections.abc import Callable, Iterator
from pathlib import Path

from filelock import SoftFileLease, Timeout

from sawside.errors import At, Fault, Faults

#: After how long without a sign of life a build counts as dead [s]; every sawside has to agree on it.
LEASE = 15.0
#: How long to wait for another build [s]: longer than LEASE, so that the death of one on another computer is seen.
PATIENCE = LEASE + 3


@contextlib.contextmanager
def alone(file: Path, site: Path, patience: float | None = None) -> Iterator[Callable[[], None]]:
    """Hold the lock and give a function that asks for it again.

    Raises Faults, and so does the function, when another build holds it: still after the patience [s], or since a long sleep.
    """
    other = Faults([Fault(At(str(site)), "another build is writing this site", "wait until it has finished")])

    def still_alone() -> None:
        if lease.compromise:
            raise other

    lease = SoftFileLease(file, lease_duration=LEASE)
    try:
        lease.acquire(timeout=PATIENCE if patience is None else patience, poll_interval=0.1)
    except Timeout:
        raise other from None
    try:
        yield still_alone
    finally:
        lease.release()
