from collections.abc import Callable
from datetime import timedelta
from hashlib import sha256

import pytest
from tests.books import JPEG, MORNING, PNG, draft

from gaugerod.app.job_book import BookError, Photo
from gaugerod.store.book import photo_files
from gaugerod.store.book.book import Book


def refusal(act: Callable[[], object]) -> str:
    with pytest.raises(BookError) as caught:
        act()
    return caught.value.message.key


@pytest.fixture
def job(book: Book) -> Book:
    book.write(draft(1))
    return book


def hang(book: Book, content: bytes, name: str = "B", minutes: int = 0) -> Photo:
    return book.hang(
        "hall-bath",
        content,
        subject="wall",
        name=name,
        by="Setter",
        at=MORNING + timedelta(minutes=minutes),
        note="before",
    )


def test_a_photo_hangs_where_it_was_taken(job: Book) -> None:
    made = hang(job, JPEG)
    assert made == Photo(
        job="hall-bath",
        m=1,
        sha256=sha256(JPEG).hexdigest(),
        type="image/jpeg",
        size=len(JPEG),
        subject="wall",
        name="B",
        by="Setter",
        at=MORNING,
        note="before",
    )
    assert job.photos("hall-bath") == (made,)
    assert job.files.checked(made.sha256).read_bytes() == JPEG


def test_a_photo_sent_twice_hangs_once_and_is_kept_once(job: Book) -> None:
    first = hang(job, JPEG)
    assert hang(job, JPEG, minutes=5) == first
    second = hang(job, JPEG, name="L")
    assert job.photos("hall-bath") == (first, second)
    files = [path for path in job.files.folder.rglob("*") if path.is_file()]
    assert [path.name for path in files] == [first.sha256]


def test_photos_do_not_make_a_change_stale(job: Book) -> None:
    hang(job, JPEG)
    assert job.write(draft(2)).n == 2


def test_a_photo_is_taken_off_and_hung_again(job: Book) -> None:
    first, other = hang(job, JPEG), hang(job, PNG)

    def off() -> Photo:
        return job.take_off(
            "hall-bath", first.sha256, subject="wall", name="B", by="Helper", at=MORNING
        )

    taken = off()
    assert (taken.sha256, taken.type, taken.size) == (first.sha256, "image/jpeg", len(JPEG))
    assert off() == taken
    assert job.photos("hall-bath") == (other,)
    assert job.files.checked(first.sha256).read_bytes() == JPEG
    hang(job, JPEG)  # the first one, sent again by somebody who had no answer
    assert job.photos("hall-bath") == (other,)
    again = hang(job, JPEG, minutes=9)
    assert job.photos("hall-bath") == (other, again)


def test_what_is_no_photo_is_refused(job: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    assert refusal(lambda: hang(job, b"<svg onload=alert(1)>")) == "book.not-photo"
    assert refusal(lambda: hang(job, b"")) == "book.not-photo"
    monkeypatch.setattr(photo_files, "MOST_BYTES", 20)
    assert refusal(lambda: hang(job, JPEG)) == "book.photo-too-large"
    assert job.photos("hall-bath") == ()


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        (PNG, "image/png"),
        (b"RIFF\x00\x00\x00\x00WEBPVP8 ", "image/webp"),
        (b"\x00\x00\x00\x18ftypheic", "image/heic"),
        (b"\x00\x00\x00\x18ftypmif1", "image/heic"),
    ],
)
def test_a_photo_is_known_by_how_it_begins(content: bytes, kind: str) -> None:
    """Source: the PNG specification 5.2, RFC 9649 (WebP) and ISO 14496-12 (`ftyp`; from memory)."""
    assert photo_files.type_of(content) == kind


def test_a_photo_belongs_to_a_job(book: Book) -> None:
    assert refusal(lambda: hang(book, JPEG)) == "book.no-document"


def test_what_does_not_hang_is_not_taken_off(job: Book) -> None:
    made = hang(job, JPEG)

    def off(name: str) -> Photo:
        return job.take_off(
            "hall-bath", made.sha256, subject="hole", name=name, by="Setter", at=MORNING
        )

    assert refusal(lambda: off("B")) == "book.no-photo"


def test_a_photo_that_changed_on_disk_is_found_out(job: Book) -> None:
    made = hang(job, JPEG)
    path = job.files.path(made.sha256)
    path.write_bytes(JPEG + b"!")
    assert refusal(lambda: job.files.checked(made.sha256)) == "book.photo-damaged"
    path.unlink()
    assert refusal(lambda: job.files.checked(made.sha256)) == "book.no-photo"


def test_photos_that_cannot_be_written_are_told(job: Book) -> None:
    job.files.folder.write_text("a file where the folder should be", encoding="utf-8")
    assert refusal(lambda: hang(job, JPEG)) == "app.not-made"
    assert job.photos("hall-bath") == ()


def test_a_photo_is_given_other_words_and_says_the_last(job: Book) -> None:
    first = hang(job, JPEG)

    def said(note: str, minutes: int) -> Photo:
        at = MORNING + timedelta(minutes=minutes)
        return job.caption(
            "hall-bath",
            first.sha256,
            subject="wall",
            name="B",
            by="Helper",
            at=at,
            note=note,
        )

    mended = said("after", 5)
    assert (mended.note, mended.by, mended.type) == ("after", "Helper", "image/jpeg")
    assert said("after", 6) == mended
    assert job.photos("hall-bath") == (mended,)
    # Sent again without words, a photo keeps those that it has; with others it takes them.
    again = job.hang(
        "hall-bath", JPEG, subject="wall", name="B", by="Setter", at=MORNING + timedelta(minutes=7)
    )
    assert again == mended
    other = job.hang(
        "hall-bath",
        JPEG,
        subject="wall",
        name="B",
        by="Setter",
        at=MORNING + timedelta(minutes=8),
        note="later",
    )
    assert other.note == "later"
    assert said("", 9).note == ""
    assert [one.note for one in job.photos("hall-bath")] == [""]


def test_what_does_not_hang_is_given_no_words(job: Book) -> None:
    first = hang(job, JPEG)

    def words(sha256: str) -> Photo:
        return job.caption(
            "hall-bath", sha256, subject="wall", name="B", by="S", at=MORNING, note="words"
        )

    assert refusal(lambda: words("0" * 64)) == "book.no-photo"
    later = MORNING + timedelta(minutes=1)
    job.take_off("hall-bath", first.sha256, subject="wall", name="B", by="S", at=later)
    assert refusal(lambda: words(first.sha256)) == "book.no-photo"
