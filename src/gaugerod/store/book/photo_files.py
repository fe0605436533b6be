"""The files of photos, each named by its checksum, so that one photo is kept once."""

from dataclasses import dataclass
from hashlib import file_digest, sha256
from pathlib import Path

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.store.book.files import keep_file

MOST_BYTES = 50_000_000
_BEGINNINGS = (
    (0, b"\xff\xd8\xff", "image/jpeg"),
    (0, b"\x89PNG\r\n\x1a\n", "image/png"),
    (8, b"WEBP", "image/webp"),
    (4, b"ftyphei", "image/heic"),
    (4, b"ftypmif1", "image/heic"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoFiles:
    """A folder of photos beside the database."""

    folder: Path

    def put(self, content: bytes) -> str:
        """Keep a photo; return its checksum. It is on disk when this returns.

        Raises
        ------
        BookError
            It cannot be written.
        """
        name = sha256(content).hexdigest()
        path = self.path(name)
        if not path.exists():
            keep_file(path, content)
        return name

    def path(self, name: str) -> Path:
        """Return where a photo lies, or would lie."""
        return self.folder / name[:2] / name

    def checked(self, name: str) -> Path:
        """Return where a photo lies, after it was read against its checksum.

        Raises
        ------
        BookError
            It is not there, or is no longer what it was.
        """
        path = self.path(name)
        try:
            with path.open("rb") as file:
                sound = file_digest(file, "sha256").hexdigest() == name
        except OSError as error:
            raise BookError(Message("book.no-photo", photo=name)) from error
        if not sound:
            raise BookError(Message("book.photo-damaged", photo=name))
        return path


def type_of(content: bytes) -> str:
    """Return the media type of a photo, by how its file begins.

    Raises
    ------
    BookError
        It is no photo, or far too large for one.
    """
    if len(content) > MOST_BYTES:
        raise BookError(Message("book.photo-too-large", most=MOST_BYTES // 1_000_000))
    for at, beginning, name in _BEGINNINGS:
        if content[at:].startswith(beginning):
            return name
    raise BookError(Message("book.not-photo"))
