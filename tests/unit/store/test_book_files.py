from pathlib import Path
from typing import IO

import pytest

from gaugerod.app.job_book import BookError
from gaugerod.store.book.files import keep_file, new_file


def broken(file: IO[bytes]) -> None:
    file.write(b"half")
    raise KeyboardInterrupt


def test_a_file_takes_the_place_of_an_older_one(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "file"
    keep_file(path, b"old")
    keep_file(path, b"new")
    assert path.read_bytes() == b"new"
    assert [found.name for found in path.parent.iterdir()] == ["file"]


def test_a_file_that_was_not_filled_is_not_there(tmp_path: Path) -> None:
    keep_file(tmp_path / "file", b"old")
    with pytest.raises(KeyboardInterrupt):
        keep_file(tmp_path / "file", broken)
    with pytest.raises(KeyboardInterrupt):
        new_file(tmp_path / "new", broken)
    assert [found.name for found in tmp_path.iterdir()] == ["file"]
    assert (tmp_path / "file").read_bytes() == b"old"


def test_a_new_file_is_new(tmp_path: Path) -> None:
    new_file(tmp_path / "file", b"first")
    with pytest.raises(BookError) as caught:
        new_file(tmp_path / "file", b"second")
    assert caught.value.message.key == "app.already-there"
    assert (tmp_path / "file").read_bytes() == b"first"
    with pytest.raises(BookError) as caught:
        new_file(tmp_path / "file" / "below", b"third")
    assert caught.value.message.key == "app.not-made"
