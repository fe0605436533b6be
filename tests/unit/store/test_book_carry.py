"""A job as one file. What is in the file is read here with the standard library alone."""

import json
import zipfile
from collections.abc import Callable
from functools import partial
from hashlib import sha256
from pathlib import Path

import pytest
from tests.books import JPEG, MORNING, PNG, NewBook, draft

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.store.book.book import Book
from gaugerod.store.book.carry import export_job, import_job


def refusal(act: Callable[[], object]) -> Message:
    with pytest.raises(BookError) as caught:
        act()
    return caught.value.message


def fill(book: Book) -> Book:
    choices = {"choices": {"material": "mine"}, "rates": "my-shop", "name": "Hall bath"}
    book.write(draft(1, name="mine", kind="material", document={"id": "mine"}))
    book.write(draft(1, name="my-shop", kind="rates", document={"id": "my-shop"}))
    book.write(draft(1, name="other", kind="material", document={"id": "other"}))
    book.write(draft(1, document=choices, note="first"))
    book.write(draft(2, document={**choices, "odd": "half \ud83d, nul \0"}, day={"set": [1.5]}))
    book.undo("job", "hall-bath", to=1, seen=2, key="undo", by="Helper", at=MORNING)
    book.hang("hall-bath", JPEG, subject="wall", name="B", by="Setter", at=MORNING)
    off = book.hang("hall-bath", PNG, subject="hole", name="valve", by="Setter", at=MORNING)
    book.take_off("hall-bath", off.sha256, subject="hole", name="valve", by="Setter", at=MORNING)
    return book


@pytest.fixture
def file(book: Book, tmp_path: Path) -> Path:
    path = tmp_path / "hall.zip"
    export_job(fill(book), "hall-bath", path)
    return path


def written_anew(path: Path, change: Callable[[str, bytes], bytes | None]) -> Path:
    """The same zip with other parts, and a manifest that fits them."""
    with zipfile.ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    manifest = json.loads(parts.pop("manifest.json"))
    changed = {name: change(name, part) for name, part in parts.items()}
    kept = {name: part for name, part in changed.items() if part is not None}
    manifest["files"] = {
        name: {"sha256": sha256(part).hexdigest(), "size": len(part)} for name, part in kept.items()
    }
    target = path.with_name("anew.zip")
    with zipfile.ZipFile(target, "w") as archive:
        archive.writestr("manifest.json", json.dumps(manifest))
        for name, part in kept.items():
            archive.writestr(name, part)
    return target


def with_manifest(path: Path, **other: object) -> Path:
    target = path.with_name("other.zip")
    with zipfile.ZipFile(path) as archive, zipfile.ZipFile(target, "w") as new:
        for name in archive.namelist():
            part = archive.read(name)
            if name == "manifest.json":
                part = json.dumps({**json.loads(part), **other}).encode()
            new.writestr(name, part)
    return target


def test_a_job_goes_from_book_to_book_whole(new_book: NewBook, file: Path) -> None:
    here, there = fill(new_book()), new_book()
    assert import_job(there, file) == "hall-bath"
    assert there.history("job", "hall-bath") == here.history("job", "hall-bath")
    assert there.head("job", "hall-bath").restores == 1
    (photo,) = there.photos("hall-bath")
    assert (photo.subject, photo.name, photo.by) == ("wall", "B", "Setter")
    assert there.files.checked(photo.sha256).read_bytes() == JPEG
    assert there.head("material", "mine") == here.head("material", "mine")
    assert there.head("rates", "my-shop") == here.head("rates", "my-shop")
    assert [head.id for head in there.contents("material")] == ["mine"]


def test_what_stands_here_and_there_goes_along(new_book: NewBook, tmp_path: Path) -> None:
    here, there = new_book(), new_book()
    for name in ("mine", "band"):
        here.write(draft(1, name=name, kind="material", document={"id": name}))
    accents = [{"material": "band"}, {"material": 7}, "no table"]
    here.write(draft(1, document={"choices": {"material": "mine", "accent": accents}}))
    here.write(draft(2, document={"choices": {"material": "mine", "accent": "none"}}))
    export_job(here, "hall-bath", tmp_path / "hall.zip")
    import_job(there, tmp_path / "hall.zip")
    assert [head.id for head in there.contents("material")] == ["band", "mine"]


def test_the_file_is_a_plain_zip_with_a_manifest(file: Path) -> None:
    with zipfile.ZipFile(file) as archive:
        assert archive.testzip() is None
        names = archive.namelist()
        manifest = json.loads(archive.read("manifest.json"))
        parts = {name: archive.read(name) for name in names[1:]}
    assert names == [
        "manifest.json",
        "job/hall-bath.jsonl",
        "material/mine.jsonl",
        "photos.jsonl",
        f"photos/{sha256(JPEG).hexdigest()}",
        "rates/my-shop.jsonl",
    ]
    assert (manifest["what"], manifest["format"]) == ("gaugerod job", 1)
    assert manifest["files"] == {
        name: {"sha256": sha256(part).hexdigest(), "size": len(part)}
        for name, part in parts.items()
    }
    first = json.loads(parts["job/hall-bath.jsonl"].splitlines()[0])
    assert first["document"]["choices"] == {"material": "mine"}


def test_the_same_job_gives_the_same_bytes(new_book: NewBook, file: Path, tmp_path: Path) -> None:
    export_job(fill(new_book()), "hall-bath", tmp_path / "again.zip")
    assert (tmp_path / "again.zip").read_bytes() == file.read_bytes()


def test_and_so_does_one_that_was_taken_in(new_book: NewBook, file: Path, tmp_path: Path) -> None:
    there = new_book()
    import_job(there, file)
    export_job(there, "hall-bath", tmp_path / "again.zip")
    assert (tmp_path / "again.zip").read_bytes() == file.read_bytes()


def test_taken_in_twice_it_is_there_once(book: Book, file: Path) -> None:
    before = book.history("job", "hall-bath")
    import_job(book, file)
    assert book.history("job", "hall-bath") == before
    assert len(book.photos("hall-bath")) == 1


def test_a_book_that_is_behind_catches_up(new_book: NewBook, book: Book, file: Path) -> None:
    there = new_book()
    import_job(there, file)
    ahead = book.write(draft(4, note="later"))
    file.unlink()
    export_job(book, "hall-bath", file)
    import_job(there, file)
    assert there.head("job", "hall-bath") == ahead


def test_a_book_that_is_ahead_stays_so(book: Book, file: Path) -> None:
    ahead = book.write(draft(4))
    import_job(book, file)
    assert book.head("job", "hall-bath") == ahead


def test_two_ways_are_not_made_one(book: Book, new_book: NewBook, file: Path) -> None:
    there = new_book()
    import_job(there, file)
    mine = there.write(draft(4, note="here"))
    book.write(draft(4, note="there"))
    file.unlink()
    export_job(book, "hall-bath", file)
    told = refusal(lambda: import_job(there, file))
    assert (told.key, told.values["n"]) == ("book.other-ways", 4)
    assert there.head("job", "hall-bath") == mine
    assert import_job(there, file, name="hall-bath-2") == "hall-bath-2"
    assert [one.note for one in there.history("job", "hall-bath-2")][3] == "there"


def test_a_photo_that_was_taken_off_here_stays_off(book: Book, file: Path) -> None:
    (photo,) = book.photos("hall-bath")
    book.take_off("hall-bath", photo.sha256, subject="wall", name="B", by="S", at=MORNING)
    import_job(book, file)
    assert book.photos("hall-bath") == ()


def test_a_job_that_is_not_there_makes_no_file(book: Book, tmp_path: Path) -> None:
    told = refusal(lambda: export_job(book, "none", tmp_path / "x.zip"))
    assert told.key == "book.no-document"
    assert list(tmp_path.glob("*.zip")) == []


def test_a_file_that_is_there_is_never_written_over(book: Book, file: Path) -> None:
    before = file.read_bytes()
    assert refusal(lambda: export_job(book, "hall-bath", file)).key == "app.already-there"
    assert file.read_bytes() == before


def test_every_byte_that_is_lost_is_found_out(file: Path, new_book: NewBook) -> None:
    """One byte in each of forty places is turned over: refused, or the same job."""
    there, whole, refused = new_book(), file.read_bytes(), 0
    path = file.with_name("bad.zip")
    for at in range(0, len(whole), len(whole) // 40):
        path.write_bytes(whole[:at] + bytes([whole[at] ^ 0xFF]) + whole[at + 1 :])
        try:
            import_job(there, path, name=f"job-{at}")
        except BookError as error:
            refused += error.message.key == "book.not-bundle"
            assert there.history("job", f"job-{at}") == ()
        else:
            assert there.head("job", f"job-{at}").restores == 1
    assert refused > 30  # what a zip says twice, and never looks at, may be lost


@pytest.mark.parametrize("share", [0, 0.3, 0.9, 0.999])
def test_half_a_file_is_refused(file: Path, book: Book, share: float) -> None:
    file.write_bytes(file.read_bytes()[: int(file.stat().st_size * share)])
    assert refusal(lambda: import_job(book, file, name="x")).key == "book.not-bundle"


def test_what_is_no_job_is_refused(file: Path, book: Book) -> None:
    def told(**other: object) -> Message:
        return refusal(lambda: import_job(book, with_manifest(file, **other), name="x"))

    assert told(what="a letter").key == "book.not-bundle"
    assert told(format="one").key == "book.not-bundle"
    assert told(files=[]).key == "book.not-bundle"
    newer = told(format=2, more={"than": "is known"})
    assert (newer.key, newer.values["found"], newer.values["known"]) == ("book.newer", 2, 1)
    assert refusal(lambda: import_job(book, file.with_name("none"))).key == "read.no-file"
    assert book.history("job", "x") == ()


CHANGES: dict[str, Callable[[str, bytes], bytes | None]] = {
    "a reading is another": lambda name, part: (
        part.replace(b"1.5", b"2.5") if name.startswith("job/") else part
    ),
    "a revision is left out": lambda name, part: (
        b"\n".join(part.splitlines()[1:]) if name.startswith("job/") else part
    ),
    "no revision is left": lambda name, part: b"" if name.startswith("job/") else part,
    "there is no job": lambda name, part: None if name.startswith("job/") else part,
    "no list of photos": lambda name, part: None if name == "photos.jsonl" else part,
    "a photo is gone": lambda name, part: None if name.startswith("photos/") else part,
    "a photo is another": lambda name, part: PNG if name.startswith("photos/") else part,
    "a line is no line": lambda name, part: b"[1]\n" if name.startswith("job/") else part,
    "a number is endless": lambda name, part: (
        part.replace(b"1.5", b"1e999") if name.startswith("job/") else part
    ),
    "a photo is a page": lambda name, part: (
        part.replace(b"image/jpeg", b"text/html") if name == "photos.jsonl" else part
    ),
}


@pytest.mark.parametrize("what", CHANGES)
def test_a_manifest_that_fits_does_not_hide_it(file: Path, new_book: NewBook, what: str) -> None:
    there = new_book()
    told = refusal(lambda: import_job(there, written_anew(file, CHANGES[what])))
    assert told.key in {"book.not-bundle", "book.not-json"}
    assert there.contents("job") == there.contents("material") == ()


@pytest.mark.parametrize("part", ["manifest.json", "photos.jsonl", "rates/my-shop.jsonl"])
def test_a_part_that_was_packed_anew_is_refused(file: Path, book: Book, part: str) -> None:
    """A zip that is whole by its own sums, and yet not what was written: smaller, or another."""
    with zipfile.ZipFile(file) as archive, zipfile.ZipFile(file.with_name("x.zip"), "w") as new:
        for name in archive.namelist():
            content = archive.read(name)
            shape = zipfile.ZIP_STORED
            if name == part:
                content = content.replace(b"Setter", b"Helper")
                shape = shape if "rates" in name else zipfile.ZIP_DEFLATED
            new.writestr(name, content, shape)
    told = refusal(lambda: import_job(book, file.with_name("x.zip"), name="x"))
    assert told.key == "book.not-bundle"
    assert book.history("job", "x") == ()


def test_a_name_that_leads_elsewhere_is_refused(file: Path, book: Book) -> None:
    for name in ("../up", "", "a/b"):
        elsewhere = with_manifest(file, about={"job": name})
        assert refusal(partial(import_job, book, elsewhere)).key == "book.not-id"
