"""Floor 0: the walls round a worker, set by the system: memory, processor time, size and number of files, and where
the system is Linux with Landlock, no network and no file but those it needs. The door to landlockpy.

Where the system has no such limits (Windows) the master's watch over the clock is all there is. Limits are those of
POSIX `setrlimit`; a system that refuses one leaves the others.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from contextlib import suppress

from booklet.kit.bounds import WORKER_FILE, WORKER_OPEN
from booklet.kit.records import Record

if sys.platform != "win32":
    import resource

HAS_WALLS = sys.platform != "win32"


class Limits(Record):
    """Seconds of processor time for each request; bytes of address space, and of the largest file."""

    seconds: int
    memory: int
    file: int = WORKER_FILE

    def raised(self) -> None:
        """Limit this process for good."""
        if sys.platform == "win32":
            return
        for kind, most in (
            (resource.RLIMIT_AS, self.memory),
            (resource.RLIMIT_FSIZE, self.file),
            (resource.RLIMIT_NOFILE, WORKER_OPEN),
            (resource.RLIMIT_CORE, 0),
        ):
            hard = resource.getrlimit(kind)[1]
            least = most if hard == resource.RLIM_INFINITY else min(most, hard)
            with suppress(ValueError, OSError):
                resource.setrlimit(kind, (least, least))

    def renewed(self) -> None:
        """Let this process use its processor time anew; beyond it the system ends it (SIGXCPU)."""
        if sys.platform == "win32":
            return
        used = resource.getrusage(resource.RUSAGE_SELF)
        until = int(used.ru_utime + used.ru_stime) + 1 + self.seconds
        hard = resource.getrlimit(resource.RLIMIT_CPU)[1]
        with suppress(ValueError, OSError):
            resource.setrlimit(
                resource.RLIMIT_CPU,
                (until if hard == resource.RLIM_INFINITY else min(until, hard), hard),
            )


def shut_in(readable: Iterable[str], aside: str) -> None:
    """Take from this process for good, where the system can, the network (TCP) and all files but those in the
    `readable` folders and in `aside`, where it may write. Libraries are loaded before."""
    if sys.platform != "linux":
        return
    from landlockpy import AccessFS, LandlockError, Ruleset, Scope

    look = AccessFS.READ_FILE | AccessFS.READ_DIR
    change = look | AccessFS.WRITE_FILE | AccessFS.TRUNCATE | AccessFS.MAKE_REG
    change |= AccessFS.REMOVE_FILE
    paths = (*((path, look) for path in readable), (aside, change))
    with (
        suppress(LandlockError),  # a kernel without it, or one that is told not to let us
        Ruleset(scoped=Scope.ABSTRACT_UNIX_SOCKET | Scope.SIGNAL) as rules,
    ):
        for path, access in paths:
            with suppress(OSError):  # what is not there, or no folder, stays out of reach
                rules.allow_path(path, access)
        rules.restrict()
