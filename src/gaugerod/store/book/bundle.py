"""One file that holds many: a zip with a manifest, the same bytes on every machine.

Nothing in it is compressed: compression differs between builds, and photos gain nothing. What is
read is held against size and checksum, and never by a name that the file chose.
"""

import json
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import file_digest, sha256
from io import BufferedReader, BytesIO
from pathlib import Path
from shutil import copyfileobj
from typing import IO, Annotated, Any, Literal, TypeAlias
from zipfile import ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.store.book.canon import canonical
from gaugerod.store.book.files import new_file

What: TypeAlias = Literal["gaugerod job", "gaugerod backup"]
Parts: TypeAlias = Mapping[str, bytes | Path]
FORMAT = 1
_MANIFEST = "manifest.json"
_MOST_MANIFEST = 50_000_000
_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest moment that a zip can name."""


class Entry(BaseModel):
    """One file in the bundle."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    size: Annotated[int, Field(ge=0)]


class Manifest(BaseModel):
    """What a bundle says of itself."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    what: What
    format: int
    about: dict[str, Any]
    files: dict[str, Entry]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """A bundle that was opened."""

    file: str
    archive: ZipFile
    about: Mapping[str, Any]
    files: Mapping[str, Entry]

    def copy(self, name: str, target: IO[bytes]) -> None:
        """Copy one of the files out, and hold it against its checksum.

        Raises
        ------
        BookError
            It is not there, or is not what it was.
        """
        entry = self.files.get(name)
        if entry is None:
            raise refused(self.file, f"{name} is missing")
        with _told(self.file):
            info = self.archive.getinfo(name)
            if info.compress_type != ZIP_STORED or info.file_size != entry.size:
                raise refused(self.file, f"{name} is not as it was written")
            found = sha256()
            with self.archive.open(info) as source:
                while part := source.read(1 << 20):
                    found.update(part)
                    target.write(part)
        if found.hexdigest() != entry.sha256:
            raise refused(self.file, f"{name} is damaged")

    def check(self, name: str) -> None:
        """Read one of the files against its checksum, and keep none of it."""
        with Path(os.devnull).open("wb") as nowhere:
            self.copy(name, nowhere)

    def read(self, name: str) -> bytes:
        """Return one of the files, held against its checksum."""
        target = BytesIO()
        self.copy(name, target)
        return target.getvalue()


def write_bundle(path: Path, what: What, about: Mapping[str, Any], parts: Parts) -> None:
    """Write a new bundle.

    Raises
    ------
    BookError
        The file is there already, or cannot be written.
    """
    entries = {name: _entry(parts[name]) for name in sorted(parts)}
    manifest = {"what": what, "format": FORMAT, "about": about, "files": entries}

    def fill(file: IO[bytes]) -> None:
        with ZipFile(file, "w", ZIP_STORED) as archive:
            for name, part in [(_MANIFEST, canonical(manifest).encode()), *sorted(parts.items())]:
                info = ZipInfo(name, date_time=_EPOCH)
                info.create_system = 3
                info.external_attr = 0o644 << 16
                info.file_size = _size(part)
                with _stream(part) as source, archive.open(info, "w") as target:
                    copyfileobj(source, target)

    new_file(path, fill)


@contextmanager
def opened(path: Path, what: What) -> Iterator[Bundle]:
    """Open a bundle to read from.

    Raises
    ------
    BookError
        It is no such bundle, or a newer program wrote it.
    """
    with _told(str(path)), ZipFile(path) as archive:
        manifest = _manifest(archive, str(path), what)
        files = manifest.files
        yield Bundle(file=str(path), archive=archive, about=manifest.about, files=files)


def refused(file: str, why: str) -> BookError:
    """Return the error that says why a bundle will not do."""
    return BookError(Message("book.not-bundle", file=file, why=why))


def _manifest(archive: ZipFile, file: str, what: What) -> Manifest:
    info = archive.getinfo(_MANIFEST)
    if info.file_size > _MOST_MANIFEST or info.compress_type != ZIP_STORED:
        raise refused(file, "its manifest is not as it was written")
    tables = json.loads(archive.read(info))
    if not isinstance(tables, dict) or tables.get("what") != what:
        raise refused(file, f"it is no {what}")
    found = tables.get("format")
    if isinstance(found, int) and found > FORMAT:
        raise BookError(Message("book.newer", name=file, found=found, known=FORMAT))
    return Manifest.model_validate(tables)


@contextmanager
def _told(file: str) -> Iterator[None]:
    try:
        yield
    except FileNotFoundError as error:
        raise BookError(Message("read.no-file", file=file)) from error
    except ValidationError as error:
        raise refused(file, "its manifest is not as it was written") from error
    except (BadZipFile, OSError, EOFError, KeyError, ValueError, RuntimeError) as error:
        raise refused(file, " ".join(str(error).split())[:100] or type(error).__name__) from error


def _entry(part: bytes | Path) -> dict[str, Any]:
    with _stream(part) as source:
        return {"sha256": file_digest(source, "sha256").hexdigest(), "size": _size(part)}


def _size(part: bytes | Path) -> int:
    return len(part) if isinstance(part, bytes) else part.stat().st_size


def _stream(part: bytes | Path) -> BytesIO | BufferedReader:
    return BytesIO(part) if isinstance(part, bytes) else part.open("rb")
