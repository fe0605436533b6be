"""Pages from the command line: served to this computer, until somebody stops it.

What serves pages and speaks to a database is slow to load, so only this command loads it.
"""

import socket
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated

import typer

from gaugerod.app.ports import OutputError
from gaugerod.cli.clock import SystemClock
from gaugerod.cli.planning import plan_writers
from gaugerod.cli.speech import spoken
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message
from gaugerod.store.shelf import Library

LOOPBACK = "127.0.0.1"
PORT = 8765


def add_serve(cli: typer.Typer, words: Catalogue) -> None:
    """Add the command `serve`."""

    @cli.command(help=words.text("cli.serve"))
    def serve(
        book: Annotated[
            Path, typer.Option(metavar="DIR", help=words.text("cli.serve-book"))
        ] = Path("jobs"),
        *,
        port: Annotated[
            int, typer.Option(metavar="N", min=0, max=65535, help=words.text("cli.port"))
        ] = PORT,
    ) -> None:
        with spoken(words), closing(listening(port)) as door:
            _serve(book, door, words)


def listening(port: int) -> socket.socket:
    """Return a socket of this computer alone; port 0 takes any that is free.

    Raises
    ------
    OutputError
        Another program has the port.
    """
    door = socket.socket()
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((LOOPBACK, port))
    except OSError as error:
        door.close()
        why = error.strerror or type(error).__name__
        raise OutputError(Message("cli.port-taken", port=port, why=why)) from error
    return door


def _serve(where: Path, door: socket.socket, words: Catalogue) -> None:
    import uvicorn  # noqa: PLC0415  (see above)

    from gaugerod.store.book.opening import open_book  # noqa: PLC0415  (see above)
    from gaugerod.web.app import make_app  # noqa: PLC0415  (see above)
    from gaugerod.web.desk import Desk  # noqa: PLC0415  (see above)

    with closing(open_book(where)) as book:
        desk = Desk(
            book=book,
            shelf=Library(),
            writers=plan_writers(SystemClock()),
            now=lambda: datetime.now(UTC),
        )
        # "server_header" would tell what serves: nobody needs to know.
        config = uvicorn.Config(make_app(desk), log_level="warning", server_header=False)
        door.listen()
        address = f"http://{LOOPBACK}:{door.getsockname()[1]}/"
        typer.echo(words.text("cli.serving", address=address, book=str(where)))
        uvicorn.Server(config).run(sockets=[door])
