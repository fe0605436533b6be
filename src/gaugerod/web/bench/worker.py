"""A process that works, as seen by the one that asks."""

import subprocess
import sys
from contextlib import suppress
from typing import Protocol

from gaugerod.web.bench.parcel import receive, send


class Worker(Protocol):
    """Does one work after another, each a parcel, until it is killed."""

    def do(self, parcel: bytes) -> bytes | None:
        """Return the result, as a parcel; None where it was killed first."""
        ...

    def kill(self) -> None:
        """End it at once, whatever it does; any thread may ask for it."""
        ...

    def close(self) -> None:
        """End it and wait until it is gone."""
        ...


class Process:
    """A worker that is a process: loaded beforehand, and deaf to Ctrl-C, which is for the pages.

    The larger `nice`, the more it lets the pages go first: what moves under a finger is worked out
    there.
    """

    def __init__(self, within: float, *, nice: int = 0) -> None:
        self._process = subprocess.Popen(  # noqa: S603  (our own program)
            # Without "-P" it would look for its parts in the folder that it is started in first.
            [sys.executable, "-P", "-m", "gaugerod.web.bench.child", str(within), str(nice)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            # In the session of the pages: between sessions a system may share out its time evenly,
            # however nice their processes are.
            process_group=0,
        )

    def do(self, parcel: bytes) -> bytes | None:
        """Return the result, as a parcel; None where the process ended first."""
        assert self._process.stdin  # noqa: S101  (it was asked for)
        assert self._process.stdout  # noqa: S101  (it was asked for)
        try:
            send(parcel, self._process.stdin)
        except OSError:
            return None
        return receive(self._process.stdout)

    def kill(self) -> None:
        """End the process at once, whatever it does."""
        self._process.kill()

    def close(self) -> None:
        """End the process and wait until it is gone."""
        with suppress(OSError), self._process:  # what was not yet sent has nobody to go to
            self.kill()
