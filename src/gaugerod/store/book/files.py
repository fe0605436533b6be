"""Files that are whole or not there, and on disk when the call returns."""

import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import IO, TypeAlias

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message

Fill: TypeAlias = Callable[[IO[bytes]], None]


def keep_file(path: Path, content: bytes | Fill) -> None:
    """Fill a file, and give it its name once all of it is on disk; one of that name is replaced.

    Raises
    ------
    BookError
        It cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with NamedTemporaryFile(dir=path.parent, prefix=".", suffix=".part", delete=False) as part:
            _fill(Path(part.name), part.file, content)
        Path(part.name).replace(path)
        _settle(path.parent)
    except OSError as error:
        raise not_written(path, error) from error


def new_file(path: Path, content: bytes | Fill) -> None:
    """Fill a file as above, where there is none yet.

    Raises
    ------
    BookError
        It is there already, or cannot be written.
    """
    try:
        path.open("xb").close()  # takes the name, so that of two makers one is told
    except FileExistsError as error:
        raise BookError(Message("app.already-there", file=str(path))) from error
    except OSError as error:
        raise not_written(path, error) from error
    try:
        keep_file(path, content)
    except BaseException:
        path.unlink(missing_ok=True)
        raise


def not_written(path: Path, error: OSError) -> BookError:
    """Return the error that says why a file cannot be written."""
    why = error.strerror or type(error).__name__
    return BookError(Message("app.not-made", file=str(path), why=why))


def _fill(name: Path, part: IO[bytes], content: bytes | Fill) -> None:
    try:
        if isinstance(content, bytes):
            part.write(content)
        else:
            content(part)
        part.flush()
        os.fsync(part.fileno())
    except BaseException:
        name.unlink(missing_ok=True)
        raise


def _settle(folder: Path) -> None:
    """Bring the name itself to disk, on systems where a folder can be asked to."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
