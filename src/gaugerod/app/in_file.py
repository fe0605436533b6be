"""What goes wrong in a job is told with the name of its file."""

from collections.abc import Iterator
from contextlib import contextmanager

from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message


@contextmanager
def in_file(name: str) -> Iterator[None]:
    """Put the name of a file before whatever a person has to mend in it."""
    try:
        yield
    except GaugerodError as error:
        wrong = Message("read.in-file", file=name, wrong=error.message)
        raise type(error)(wrong) from error
