from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError
from tests.books import JPEG, MORNING, NewBook, draft, where

from gaugerod.app.job_book import BookError, ConflictError, Draft, Heading, Revision
from gaugerod.store.book.book import Book
from gaugerod.store.book.opening import open_book


def refusal(act: Callable[[], object]) -> str:
    with pytest.raises(BookError) as caught:
        act()
    return caught.value.message.key


def test_what_was_written_is_read(book: Book) -> None:
    document = {"name": "Bad im Süden", "wall": [{"name": "B", "reads": '59 13/16"'}], "n": 1.5}
    day = {"set": {"B1-1": True}, "found": [], "ticks": {"water off": None}}
    made = book.write(draft(1, document=document, day=day, note="Two lines\nof a note 🛁"))
    assert made == book.head("job", "hall-bath") == book.revision("job", "hall-bath", 1)
    assert (made.n, made.by, made.note) == (1, "Setter", "Two lines\nof a note 🛁")
    assert (made.document, made.day) == (document, day)
    assert made.at == datetime(2026, 3, 5, 8, 1, tzinfo=UTC)
    assert made.title == "Bad im Süden"
    assert made.changed == (
        *("/day/found", "/day/set", "/day/ticks"),
        *("/document/n", "/document/name", "/document/wall"),
    )


def test_a_moment_of_another_zone_is_the_same_moment(book: Book) -> None:
    east = timezone(timedelta(hours=9))
    made = book.write(replace(draft(1), at=datetime(2026, 3, 5, 17, tzinfo=east)))
    assert made.at == datetime(2026, 3, 5, 8, tzinfo=UTC)


def test_every_revision_stays_and_says_what_changed(book: Book) -> None:
    book.write(draft(1, document={"wall": [{"reads": [1, 2]}]}))
    book.write(draft(2, document={"wall": [{"reads": [1, 3]}]}, day={"set": ["B1-1"]}))
    book.write(draft(3, document={"wall": [{"reads": [1, 3, 4]}]}, day={"set": ["B1-1"]}))
    first, second, third = book.history("job", "hall-bath")
    assert first.document == {"wall": [{"reads": [1, 2]}]}
    assert second.changed == ("/day/set", "/document/wall/0/reads/1")
    assert third.changed == ("/document/wall/0/reads",)
    assert len({first.sha256, second.sha256, third.sha256}) == 3


def test_a_stale_write_is_refused_with_both_revisions(book: Book) -> None:
    book.write(draft(1))
    seen = book.write(draft(2, document={"reading": 60}))
    head = book.write(draft(3, document={"reading": 61}, by="Helper"))
    late = draft(3, key="late", document={"reading": 62})
    with pytest.raises(ConflictError) as caught:
        book.write(late)
    assert (caught.value.draft, caught.value.seen, caught.value.head) == (late, seen, head)
    assert [one.n for one in book.history("job", "hall-bath")] == [1, 2, 3]


def test_two_first_revisions_of_one_id_conflict(book: Book) -> None:
    head = book.write(draft(1))
    with pytest.raises(ConflictError) as caught:
        book.write(draft(1, key="other", document={}))
    assert (caught.value.seen, caught.value.head) == (None, head)


@pytest.mark.parametrize("written", [0, 1])
def test_nobody_saw_a_revision_that_is_not_there(book: Book, written: int) -> None:
    for n in range(1, written + 1):
        book.write(draft(n))
    assert refusal(lambda: book.write(draft(9))) == "book.no-revision"


def test_a_key_sent_twice_is_written_once(book: Book) -> None:
    made = book.write(draft(1))
    book.write(draft(2))
    later = replace(draft(1), at=MORNING + timedelta(days=1))
    assert book.write(later) == made
    assert len(book.history("job", "hall-bath")) == 2


def test_a_key_is_not_used_for_two_changes(book: Book) -> None:
    book.write(draft(1))
    other = draft(1, document={"name": "Another"})
    assert refusal(lambda: book.write(other)) == "book.key-used"
    book.write(replace(other, id="another-job"))  # elsewhere it is free


def test_an_undo_is_a_revision_of_its_own(book: Book) -> None:
    for n in (1, 2, 3):
        book.write(draft(n, day={"set": n}))

    def undo(seen: int = 3) -> Revision:
        return book.undo("job", "hall-bath", to=1, seen=seen, key="u", by="Setter", at=MORNING)

    made = undo()
    assert (made.n, made.restores, made.document["reading"], made.day) == (4, 1, 1, {"set": 1})
    assert made.changed == ("/day/set", "/document/reading")
    assert [one.day for one in book.history("job", "hall-bath")][:3] == [
        {"set": 1},
        {"set": 2},
        {"set": 3},
    ]
    assert undo() == made
    with pytest.raises(ConflictError):
        book.undo("job", "hall-bath", to=1, seen=2, key="v", by="Setter", at=MORNING)
    assert refusal(lambda: book.revision("job", "hall-bath", 9)) == "book.no-revision"


def test_the_contents_have_a_heading_for_each(book: Book) -> None:
    assert book.contents("job") == ()
    book.write(draft(1, name="b"))
    book.write(draft(1, name="a", document={}))
    last = book.write(draft(2, name="b", document={"name": "Hall"}, by="Helper"))
    book.write(draft(1, name="mine", kind="material"))
    heads = book.contents("job")
    assert [(head.id, head.n, head.title) for head in heads] == [("a", 1, "a"), ("b", 2, "Hall")]
    assert heads[1] == Heading(kind="job", id="b", n=2, by="Helper", at=last.at, title="Hall")
    assert [head.id for head in book.contents("material")] == ["mine"]
    assert book.contents("rates") == ()


def test_a_job_and_a_material_may_have_one_id(book: Book) -> None:
    book.write(draft(1, name="x", document={"a": 1}))
    book.write(draft(1, name="x", kind="material", document={"a": 2}))
    assert book.head("job", "x").document == {"a": 1}
    assert book.head("material", "x").document == {"a": 2}


def test_what_is_not_there_is_told(book: Book) -> None:
    assert refusal(lambda: book.head("job", "none")) == "book.no-document"
    assert refusal(lambda: book.revision("job", "none", 1)) == "book.no-revision"
    assert book.history("job", "none") == ()


@pytest.mark.parametrize(
    ("wrong", "key"),
    [
        (replace(draft(1), id="../up"), "book.not-id"),
        (replace(draft(1), id="a" * 65), "book.not-id"),
        (replace(draft(1), key=""), "book.not-id"),
        (replace(draft(1), by="\0"), "book.not-text"),
        (replace(draft(1), note="\udc80"), "book.not-text"),
        (replace(draft(1), note="x" * 2001), "book.too-long"),
        (replace(draft(1), document={"day": MORNING}), "book.not-json"),
        (replace(draft(1), document={"n": float("nan")}), "book.not-json"),
        (replace(draft(1), day={"text": "x" * 4_000_001}), "book.too-large"),
    ],
)
def test_what_cannot_be_kept_is_refused(book: Book, wrong: Draft, key: str) -> None:
    assert refusal(lambda: book.write(wrong)) == key
    assert book.contents("job") == ()


def test_signs_that_databases_stumble_over_are_kept(book: Book) -> None:
    document = {"nul": "\0", "half": "\ud83d", "quote": "'\"\\", "": "empty key", "big": 10**30}
    book.write(draft(1, document=document))
    assert book.head("job", "hall-bath").document == document


def test_a_moment_without_a_zone_is_a_slip_of_the_caller(book: Book) -> None:
    with pytest.raises(ValueError, match="2026-03-05"):
        book.write(replace(draft(1), at=MORNING.replace(tzinfo=None)))


@pytest.mark.parametrize("table", ["revision", "photo"])
@pytest.mark.parametrize("change", ["UPDATE {} SET note = 'x'", "DELETE FROM {}"])
def test_the_database_itself_refuses_to_change_a_row(book: Book, table: str, change: str) -> None:
    book.write(draft(1))
    book.hang("hall-bath", JPEG, subject="wall", name="B", by="Setter", at=MORNING)
    with (
        pytest.raises(DBAPIError, match="never changed"),
        book.engine.begin() as connection,
    ):
        connection.execute(text(change.format(table)))
    assert len(book.history("job", "hall-bath")) == 1


def test_a_book_that_is_opened_again_has_all(new_book: NewBook) -> None:
    book = new_book()
    made = book.write(draft(1))
    book.close()
    again = open_book(where(book), photos=book.files.folder)
    assert again.head("job", "hall-bath") == made
    again.close()


def test_threads_share_a_book_and_lose_nothing(book: Book) -> None:
    """Eight writers add their own readings to one job, each anew when somebody was quicker."""
    book.write(draft(1, key="begin", document={"readings": []}))
    conflicts = []

    def add(reading: int) -> None:
        while True:
            seen = book.head("job", "hall-bath")
            readings = [*seen.document["readings"], reading]
            try:
                book.write(draft(seen.n + 1, key=f"r{reading}", document={"readings": readings}))
            except ConflictError as error:
                conflicts.append(error)
            else:
                return

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(add, range(40)))
    history = book.history("job", "hall-bath")
    assert [one.n for one in history] == list(range(1, 42))
    assert sorted(history[-1].document["readings"]) == list(range(40))
    assert all(error.seen and error.head.n > error.seen.n for error in conflicts)


def test_one_key_from_many_threads_is_one_revision(book: Book) -> None:
    with ThreadPoolExecutor(8) as pool:
        made = list(pool.map(lambda _: book.write(draft(1)), range(16)))
    assert {one.sha256 for one in made} == {book.head("job", "hall-bath").sha256}
    assert len(book.history("job", "hall-bath")) == 1
