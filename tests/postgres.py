"""A PostgreSQL server for the time of a test run: made in a folder of its own, reached by a socket.

No server that is there already is touched, and nothing listens on the network.
"""

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from tempfile import mkdtemp

from psycopg import connect
from psycopg.sql import SQL, Identifier

_NUMBERS = count(1)
_DEBIAN = Path("/usr/lib/postgresql")


@dataclass(frozen=True, slots=True, kw_only=True)
class Server:
    """A running server."""

    folder: Path
    durable: bool

    def new_place(self) -> str:
        """Return the URL of an empty schema: to a client it is a database of its own."""
        name = f"book{next(_NUMBERS)}"
        url = f"postgresql://test@/postgres?host={self.folder}"
        with connect(url, autocommit=True) as connection:
            connection.execute(SQL("CREATE SCHEMA {}").format(Identifier(name)))
        return f"{url}&options=-csearch_path%3D{name}"

    def stop_at_once(self) -> None:
        """Stop as a power cut would: nothing is tidied up."""
        self.run("pg_ctl", "-D", self.folder / "data", "-m", "immediate", "-w", "stop")

    def start(self) -> None:
        """Start, or start again."""
        sure = "" if self.durable else "-F"
        options = f"-k {self.folder} -c listen_addresses= {sure}"
        log = self.folder / "log"
        self.run(
            "pg_ctl", "-D", self.folder / "data", "-w", "-s", "-l", log, "-o", options, "start"
        )

    def run(self, command: str, *words: object) -> None:
        """Run one of the server's commands; it refuses to be run by root."""
        us = ["runuser", "-u", "postgres", "--"] if os.geteuid() == 0 else []
        subprocess.run(
            [*us, str(_programs() / command), *map(str, words)],
            check=True,
            cwd="/",
            stdout=subprocess.DEVNULL,
        )


@contextmanager
def server(*, durable: bool = False) -> Iterator[Server]:
    """Run a server; its folder goes when it stops.

    One that need not outlive its machine leaves out the waiting for the disk.
    """
    folder = Path(mkdtemp(prefix="gaugerod-"))
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres")
    made = Server(folder=folder, durable=durable)
    try:
        words = ("-A", "trust", "-U", "test", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")
        made.run("initdb", "-D", folder / "data", *words)
        made.start()
        try:
            yield made
        finally:
            made.stop_at_once()
    finally:
        shutil.rmtree(folder)


def _programs() -> Path:
    """Return where the server's commands are; Debian keeps them off the PATH."""
    found = sorted(_DEBIAN.glob("*/bin"), key=lambda path: int(path.parent.name))
    return found[-1] if found else Path(str(shutil.which("initdb"))).parent
