"""Floor 13: the way in. Loads the commands; whoever presses Ctrl-C, even while they load, gets one sentence."""

from __future__ import annotations

import atexit
import gc
import os
import sys
from collections.abc import Sequence

from booklet.kit.running.doing import stopped_at
from booklet.kit.running.stopping import Stopped, watching


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status (128 and the signal's number where one stopped it)."""
    gc.set_threshold(2_000_000, 20, 100)  # most of what a run makes it keeps to its end
    atexit.register(gc.freeze)  # what is left then goes with the process, and is not looked through
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # numpy's threads cost more than our sums
    try:
        with watching():
            from booklet.commands import run  # takes a second, in which Ctrl-C may come

            return run(arguments)
    except Stopped as stop:
        return _stopped(stop.status)
    except KeyboardInterrupt:
        return _stopped(130)


def _stopped(status: int) -> int:
    """Say what was being worked out, and that nothing was changed; the exit status."""
    what = stopped_at()
    nothing = f" while {what}; nothing was changed," if what else ";"
    print(f"booklet: stopped{nothing} what was built before is still there", file=sys.stderr)
    return status


if __name__ == "__main__":
    sys.exit(main())
