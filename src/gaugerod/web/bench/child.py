"""The program of a process that works: `python -m gaugerod.web.bench.child SECONDS NICE`.

It takes work from its standard input and gives results on its standard output, until the input
ends: then whoever asked is gone, however he went.
"""

import os
import signal
import sys
from importlib import import_module
from queue import SimpleQueue
from threading import Thread
from typing import IO

from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.pipeline import plan
from gaugerod.web.bench.parcel import attempt, packed, receive, send, unpacked

_WARM = ("csv_order", "dxf", "glb", "ics", "pdf", "plan_json", "svg", "xlsx_order")
"""Writers, which are slow to load: loaded before anybody waits for them."""
_GRACE = 10


def main() -> None:
    """Do one work after another."""
    within = int(float(sys.argv[1]))
    os.nice(int(sys.argv[2]))
    inward, outward = sys.stdin.buffer, os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # what a solver prints must not get between the results
    works: SimpleQueue[bytes] = SimpleQueue()
    Thread(target=_take_in, args=(inward, works), daemon=True).start()
    _warm_up()
    while True:
        parcel = works.get()
        _ring_in(within + _GRACE)
        made = _done(parcel)
        _ring_in(0)
        send(made, outward)


def _warm_up() -> None:
    """Load what planning needs, and what is only loaded when the first job is planned."""
    for name in _WARM:
        import_module(f"gaugerod.writers.{name}")
    materials = Materials(systems={"sample": sample_system()})
    plan(sample_job(), materials, Rules(format=1, unit="mm", rule=()), sample_rates())


def _take_in(inward: IO[bytes], works: "SimpleQueue[bytes]") -> None:
    """Take work in while some is being done, so that an end is noticed at once."""
    while (parcel := receive(inward)) is not None:
        works.put(parcel)
    os._exit(0)  # the other thread may be busy for minutes


def _done(parcel: bytes) -> bytes:
    try:
        return packed(attempt(unpacked(parcel)))
    except Exception as error:  # noqa: BLE001  (a result, or an error, that does not go into bytes)
        return packed(("error", (RuntimeError, (repr(error),), {})))


def _ring_in(seconds: int) -> None:
    """Let the system end this process, should a solver keep it from noticing anything else."""
    if hasattr(signal, "alarm"):
        signal.alarm(seconds)


if __name__ == "__main__":
    main()
