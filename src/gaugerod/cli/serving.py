"""Pages from the command line: served to this computer, until somebody stops it.

What serves pages and speaks to a database is slow to load, so only this command loads it.
"""

import signal
import socket
from contextlib import closing
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Annotated

import typer

from gaugerod.app.ports import OutputError
from gaugerod.cli.clock import SystemClock
from gaugerod.cli.keeping import place_of
from gaugerod.cli.planning import plan_writers
from gaugerod.cli.speech import spoken
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message
from gaugerod.store.shelf import Library

LOOPBACK = "127.0.0.1"
PORT = 8765
WITHIN = 120.0
"""Seconds that a plan may take before it is stopped."""
_SURVEY = 30.0
"""Seconds that the readings of a job may take to be held against each other."""
_NICE = 10
"""How far what plans lets the pages go first."""
_GRACE = 10
"""Seconds that a page which is being sent has to get there, when the pages are stopped."""


def add_serve(cli: typer.Typer, words: Catalogue) -> None:
    """Add the command `serve`."""

    @cli.command(help=words.text("cli.serve"))
    def serve(
        book: Annotated[
            str, typer.Option(metavar="BOOK", help=words.text("cli.serve-book"))
        ] = "jobs",
        *,
        photos: Annotated[
            Path | None, typer.Option(metavar="DIR", help=words.text("cli.photos"))
        ] = None,
        port: Annotated[
            int, typer.Option(metavar="N", min=0, max=65535, help=words.text("cli.port"))
        ] = PORT,
        within: Annotated[
            float, typer.Option(metavar="SECONDS", min=1, help=words.text("cli.serve-within"))
        ] = WITHIN,
    ) -> None:
        with spoken(words), closing(listening(port)) as door:
            _serve(place_of(book), photos, door, words, within=within)


def listening(port: int) -> socket.socket:
    """Return a socket of this computer alone; port 0 takes any that is free.

    Raises
    ------
    OutputError
        Another program has the port.
    """
    # Told so, what serves sends each part of an answer at once, and no phone waits for a delayed
    # acknowledgement.
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((LOOPBACK, port))
    except OSError as error:
        door.close()
        why = error.strerror or type(error).__name__
        raise OutputError(Message("cli.port-taken", port=port, why=why)) from error
    return door


def _serve(
    where: Path | str, photos: Path | None, door: socket.socket, words: Catalogue, *, within: float
) -> None:
    import uvicorn  # noqa: PLC0415  (see above)

    from gaugerod.store.book.opening import open_book  # noqa: PLC0415  (see above)
    from gaugerod.web.bench.bench import Bench  # noqa: PLC0415  (see above)
    from gaugerod.web.bench.worker import Process  # noqa: PLC0415  (see above)

    # Asked to end, it ends as Ctrl-C ends it: nothing that it started is left running.
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    with (
        closing(open_book(where, photos=photos)) as book,
        closing(Bench(within=within, start=partial(Process, nice=_NICE))) as bench,
        closing(
            Bench(within=_SURVEY, workers=1, too_long="web.planning.survey-too-long")
        ) as survey_bench,
    ):
        # What plans is loading by now, in processes of its own, while the pages load here.
        from gaugerod.web.app import make_app  # noqa: PLC0415  (see above)
        from gaugerod.web.desk import Desk  # noqa: PLC0415  (see above)

        desk = Desk(
            book=book,
            shelf=Library(),
            writers=plan_writers(SystemClock()),
            now=lambda: datetime.now(UTC),
            bench=bench,
            survey_bench=survey_bench,
        )
        config = uvicorn.Config(
            make_app(desk),
            log_level="warning",
            server_header=False,  # nobody needs to know what serves
            timeout_graceful_shutdown=_GRACE,
        )
        door.listen()
        address = f"http://{LOOPBACK}:{door.getsockname()[1]}/"
        kept = {"book": book.name, "photos": str(book.files.folder)}
        typer.echo(words.text("cli.serving", address=address, **kept))
        uvicorn.Server(config).run(sockets=[door])
