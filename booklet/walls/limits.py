"""Floor 12: the walls round a worker, set by the system: memory, processor time, size and number of files.

Where the system has no such limits (Windows) the master's watch over the clock is all there is. The limits are
those of POSIX `setrlimit`; a system that refuses one leaves the others. Network and reading are not walled off: for
Landlock there is no well-kept library in Python yet, and pages carry all they need in `data:` addresses.
"""

from __future__ import annotations

import sys
from contextlib import suppress

from booklet.bounds import WORKER_FILE, WORKER_OPEN

if sys.platform != "win32":
    import resource

HAS_WALLS = sys.platform != "win32"


def raise_walls(memory: int) -> None:
    """Limit this process for good; `memory` is in bytes of address space."""
    if sys.platform == "win32":
        return
    for kind, most in (
        (resource.RLIMIT_AS, memory),
        (resource.RLIMIT_FSIZE, WORKER_FILE),
        (resource.RLIMIT_NOFILE, WORKER_OPEN),
        (resource.RLIMIT_CORE, 0),
    ):
        hard = resource.getrlimit(kind)[1]
        least = most if hard == resource.RLIM_INFINITY else min(most, hard)
        with suppress(ValueError, OSError):
            resource.setrlimit(kind, (least, least))


def allow(seconds: int) -> None:
    """Let this process use so much more processor time; beyond it the system ends it (SIGXCPU)."""
    if sys.platform == "win32":
        return
    used = resource.getrusage(resource.RUSAGE_SELF)
    until = int(used.ru_utime + used.ru_stime) + 1 + seconds
    hard = resource.getrlimit(resource.RLIMIT_CPU)[1]
    with suppress(ValueError, OSError):
        resource.setrlimit(
            resource.RLIMIT_CPU,
            (until if hard == resource.RLIM_INFINITY else min(until, hard), hard),
        )
