from pathlib import Path

import pytest

from gaugerod.app.ports import OutputError
from gaugerod.store.folder import NewFile, OutputFolder


def test_papers_go_to_a_folder_that_is_made_for_them(tmp_path: Path) -> None:
    folder = tmp_path / "a" / "b"
    OutputFolder(path=folder).write({"one": b"1", "two": b"2"})
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == {
        "one": b"1",
        "two": b"2",
    }


def test_older_papers_are_replaced_and_other_files_stay(tmp_path: Path) -> None:
    (tmp_path / "one").write_bytes(b"old")
    (tmp_path / "mine").write_bytes(b"mine")
    OutputFolder(path=tmp_path).write({"one": b"new"})
    assert (tmp_path / "one").read_bytes() == b"new"
    assert (tmp_path / "mine").read_bytes() == b"mine"


def test_when_one_cannot_be_written_none_is_changed(tmp_path: Path) -> None:
    (tmp_path / "one").write_bytes(b"old")
    (tmp_path / ".two.part").mkdir()
    with pytest.raises(OutputError) as caught:
        OutputFolder(path=tmp_path).write({"one": b"new", "two": b"2"})
    assert caught.value.message.values["folder"] == str(tmp_path)
    assert (tmp_path / "one").read_bytes() == b"old"
    assert sorted(path.name for path in tmp_path.iterdir()) == [".two.part", "one"]


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    path = tmp_path / "file"
    path.write_bytes(b"mine")
    with pytest.raises(OutputError) as caught:
        OutputFolder(path=path).write({"one": b"1"})
    assert caught.value.message.key == "app.not-written"
    assert path.read_bytes() == b"mine"


def test_a_new_file_is_written_once(tmp_path: Path) -> None:
    path = tmp_path / "job"
    NewFile(path=path).create(b"first")
    with pytest.raises(OutputError) as caught:
        NewFile(path=path).create(b"second")
    assert caught.value.message.key == "app.already-there"
    assert path.read_bytes() == b"first"


def test_a_new_file_needs_its_folder(tmp_path: Path) -> None:
    with pytest.raises(OutputError) as caught:
        NewFile(path=tmp_path / "none" / "job").create(b"first")
    assert caught.value.message.key == "app.not-made"
