"""The commands `backup` and `restore` on real files."""

import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from tests.books import JPEG, MORNING, draft
from tests.functional.conftest import Run, Start
from tests.postgres import Server

from gaugerod.store.book.opening import open_book


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a book in it: two jobs, three revisions, one photo."""
    with closing(open_book(tmp_path / "jobs")) as book:
        book.write(draft(1, name="attic"))
        book.write(draft(1))
        book.write(draft(2))
        book.hang("hall-bath", JPEG, subject="wall", name="B", by="Setter", at=MORNING)
    return tmp_path / "jobs"


def test_a_book_is_backed_up_and_brought_back(start: Start, folder: Path, tmp_path: Path) -> None:
    made = start("backup", "jobs", "backup.zip", cwd=tmp_path)
    assert (made.returncode, made.stderr) == (0, "")
    assert made.stdout == "backup.zip is made: documents: 2; revisions: 3; photos: 1.\n"
    back = start("restore", "backup.zip", "again", cwd=tmp_path)
    assert (back.returncode, back.stderr) == (0, "")
    assert back.stdout == (
        "backup.zip is whole and laid out: documents: 2; revisions: 3; photos: 1.\n"
    )
    with (
        closing(open_book(folder)) as book,
        closing(open_book(tmp_path / "again", new=False)) as again,
    ):
        assert again.history("job", "hall-bath") == book.history("job", "hall-bath")
        assert again.photos("hall-bath") == book.photos("hall-bath")


def test_a_book_moves_to_a_server_and_back(
    run: Run, folder: Path, tmp_path: Path, postgres: Server
) -> None:
    url, photos = postgres.new_place(), ("--photos", tmp_path / "photos")
    assert run("backup", folder, tmp_path / "1.zip").exit_code == 0
    assert run("restore", tmp_path / "1.zip", url, *photos).exit_code == 0
    assert run("backup", url, tmp_path / "2.zip", *photos).exit_code == 0
    assert run("restore", tmp_path / "2.zip", tmp_path / "again").exit_code == 0
    with closing(open_book(folder)) as book, closing(open_book(tmp_path / "again")) as again:
        assert again.history("job", "hall-bath") == book.history("job", "hall-bath")


def test_a_backup_is_made_while_another_process_writes(run: Run, tmp_path: Path) -> None:
    words = (tmp_path / "jobs", tmp_path / "jobs" / "photos", "0", "0", "400")
    with subprocess.Popen(
        [sys.executable, "-m", "tests.book_writer", *map(str, words)],
        cwd=Path(__file__).parents[2],
        stdout=subprocess.PIPE,
        text=True,
    ) as writer:
        assert writer.stdout
        acknowledged = [writer.stdout.readline() for _ in range(20)]
        made = run("backup", tmp_path / "jobs", tmp_path / "backup.zip")
        assert writer.poll() is None  # it was still at it
        writer.kill()
    assert (made.exit_code, made.stderr) == (0, "")
    assert run("restore", tmp_path / "backup.zip", tmp_path / "again").exit_code == 0
    with closing(open_book(tmp_path / "again")) as book:
        kept = sum(head.n for head in book.contents("job"))
        kept += sum(len(book.photos(head.id)) for head in book.contents("job"))
    assert kept >= len(acknowledged)


def test_what_is_damaged_is_told_and_the_rest_is_kept(
    run: Run, folder: Path, tmp_path: Path
) -> None:
    (photo,) = (path for path in (folder / "photos").rglob("*") if path.is_file())
    photo.unlink()
    made = run("backup", folder, tmp_path / "backup.zip")
    assert made.exit_code == 1
    assert made.stderr == (
        f"Photo {photo.name} is not there. Was it taken off, or its file removed?\n"
    )
    assert run("restore", tmp_path / "backup.zip", tmp_path / "again").exit_code == 1
    with closing(open_book(tmp_path / "again")) as book:
        assert len(book.history("job", "hall-bath")) == 2


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("backup", "none", "x.zip"), "none: There is no book of jobs."),
        (("backup", "jobs", "notes.txt"), "notes.txt: It is there already and stays as it is."),
        (("backup", "jobs", "none/x.zip"), "none/x.zip: It cannot be made"),
        (("backup", "mysql://host/x", "x.zip", "--photos", "p"), "“mysql” is no database"),
        (("backup", "postgresql://host/x", "x.zip"), "A database on a server keeps no photos"),
        (("restore", "none.zip", "again"), "none.zip: There is no such file."),
        (("restore", "notes.txt", "again"), "notes.txt: It cannot be used (File is not a zip"),
        (("restore", "jobs", "again"), "jobs: It cannot be used"),
    ],
)
def test_what_has_to_be_mended_is_told_in_one_line(
    start: Start, folder: Path, words: tuple[str, ...], line: str
) -> None:
    (folder.parent / "notes.txt").write_text("a letter", encoding="utf-8")
    done = start(*words, cwd=folder.parent)
    assert (done.returncode, done.stdout) == (2, "")
    (told,) = done.stderr.splitlines()
    assert told.startswith(line)
    assert not (folder.parent / "again").exists()
    assert not (folder.parent / "none").exists()


def test_a_book_that_is_there_is_never_written_over(run: Run, folder: Path, tmp_path: Path) -> None:
    run("backup", folder, tmp_path / "backup.zip")
    back = run("restore", tmp_path / "backup.zip", folder)
    assert back.exit_code == 2
    assert back.stderr.startswith(f"{folder}: There is a book of jobs already")
