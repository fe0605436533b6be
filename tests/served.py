"""Pages served by the command itself: a process of its own, on a free port, with a book."""

import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

_STOPPED, _INTERRUPTED = "Stopped. Nothing more was written.\n", 130
_LONG = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """Pages that are being served: their address without a slash at its end, and their book."""

    url: str
    book: Path


@contextmanager
def serving(book: Path) -> Iterator[Served]:
    """Serve a book; stop as Ctrl-C does, and see that nothing was complained of meanwhile."""
    command = [sys.executable, "-u", "-m", "gaugerod", "serve", "--port", "0", "--book", str(book)]
    log = book.with_name(f"{book.name}.log")
    with (
        log.open("w", encoding="utf-8") as complaints,
        subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=complaints, encoding="utf-8"
        ) as process,
    ):
        try:
            assert process.stdout is not None
            said = process.stdout.readline()
            address = re.search(r"http://127\.0\.0\.1:\d+", said)
            assert address is not None, said + log.read_text(encoding="utf-8")
            yield Served(url=address[0], book=book)
        finally:
            process.send_signal(signal.SIGINT)
            rest, _ = process.communicate(timeout=_LONG)
    assert (rest, log.read_text(encoding="utf-8")) == ("", _STOPPED)
    assert process.returncode == _INTERRUPTED
