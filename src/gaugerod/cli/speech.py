"""What commands print, and the code they end with."""

from collections.abc import Iterator
from contextlib import contextmanager

import typer

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import GaugerodError
from gaugerod.store.complaints import printable

FORBIDDEN, BAD_INPUT, INTERRUPTED = 1, 2, 130


@contextmanager
def spoken(words: Catalogue) -> Iterator[None]:
    """End the command with one line where a person has something to mend."""
    try:
        yield
    except GaugerodError as error:
        complain(words.say(error.message))
        raise typer.Exit(BAD_INPUT) from error
    except KeyboardInterrupt as error:
        complain(words.text("cli.interrupted"))
        raise typer.Exit(INTERRUPTED) from error


def complain(sentence: str) -> None:
    """Print one line for errors."""
    typer.echo(printable(sentence), err=True)
