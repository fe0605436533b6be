"""Use case: blank sheets to take a survey on."""

from collections.abc import Callable

from gaugerod.app.ports import Folder
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.packet.blank import blank_paper
from gaugerod.packet.paper import Paper, Size

NAME = "blank-survey.pdf"


def blank_sheets(
    words: Catalogue, folder: Folder, write: Callable[[Paper], bytes], *, size: Size | None = None
) -> None:
    """Write the sheets into a folder, under `NAME`.

    Raises
    ------
    OutputError
        They cannot be written.
    """
    folder.write({NAME: write(blank_paper(words, size=size))})
