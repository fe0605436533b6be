"""Writing papers: each file is whole or not there, and nothing of a person's is overwritten."""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from gaugerod.app.ports import OutputError
from gaugerod.core.base.messages import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class OutputFolder:
    """A folder that papers go to; it is made when the first is written."""

    path: Path

    def write(self, files: Mapping[str, bytes]) -> None:
        """Write all files; each takes the place of an older one only when all are ready.

        Raises
        ------
        OutputError
            The folder cannot be made or written to.
        """
        parts = {self.path / name: self.path / f".{name}.part" for name in files}
        try:
            self.path.mkdir(parents=True, exist_ok=True)
            for target, part in parts.items():
                part.write_bytes(files[target.name])
            for target, part in parts.items():
                part.replace(target)
        except OSError as error:
            for part in parts.values():
                with suppress(OSError):
                    part.unlink(missing_ok=True)
            why = error.strerror or type(error).__name__
            message = Message("app.not-written", folder=str(self.path), why=why)
            raise OutputError(message) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class NewFile:
    """A file to be made, where there is none yet."""

    path: Path

    def create(self, content: bytes) -> None:
        """Write the file.

        Raises
        ------
        OutputError
            It is there already, or cannot be written.
        """
        try:
            with self.path.open("xb") as file:
                file.write(content)
        except FileExistsError as error:
            raise OutputError(Message("app.already-there", file=str(self.path))) from error
        except OSError as error:
            why = error.strerror or type(error).__name__
            message = Message("app.not-made", file=str(self.path), why=why)
            raise OutputError(message) from error
