import pytest
from tests.unit.app.conftest import FakeFolder, FakeLibrary

from gaugerod.app.blank_survey import NAME, blank_sheets
from gaugerod.app.ports import OutputError
from gaugerod.core.base.lengths import METRIC
from gaugerod.packet.paper import Paper


def sizes(paper: Paper) -> bytes:
    return paper.size.encode()


def test_blank_sheets_are_written(library: FakeLibrary, folder: FakeFolder) -> None:
    words = library.words(METRIC, currency="USD")
    blank_sheets(words, folder, sizes)
    assert folder.files == {NAME: b"a4"}
    blank_sheets(words, folder, sizes, size="us-letter")
    assert folder.files == {NAME: b"us-letter"}


def test_a_full_folder_is_told(library: FakeLibrary, full_folder: FakeFolder) -> None:
    with pytest.raises(OutputError):
        blank_sheets(library.words(METRIC, currency="USD"), full_folder, sizes)
