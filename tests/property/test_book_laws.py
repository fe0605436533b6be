"""A book against a plain dict that says the same: whatever is done to both, they agree."""

import json
from collections import defaultdict
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import count as numbers
from pathlib import Path
from typing import Any, TypeAlias

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, precondition, rule, run_state_machine_as_test
from tests.books import JPEG, MORNING, PNG, NewBook, where

from gaugerod.app.job_book import KINDS, BookError, ConflictError, Draft, Kind, Revision
from gaugerod.store.book.book import Book
from gaugerod.store.book.carry import export_job, import_job
from gaugerod.store.book.connect import reading
from gaugerod.store.book.opening import open_book
from gaugerod.store.book.safe import back_up, restore
from gaugerod.store.book.soundness import look_over

Known: TypeAlias = tuple[Kind, str]
Place: TypeAlias = tuple[bytes, str]

# Halves of characters too: a page may send them.
_TEXT = st.text(st.characters(codec=None), max_size=8)
_LEAF = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | _TEXT
_FINITE = _LEAF.filter(lambda leaf: leaf not in (float("inf"), float("-inf")))
_VALUE = st.recursive(
    _FINITE,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_TEXT, inner, max_size=3),
    max_leaves=8,
)
DOCUMENTS = st.dictionaries(_TEXT, _VALUE, max_size=4)
NAMES = st.sampled_from(["hall", "attic", "1962.guest-bath"])


def said(document: object) -> str:
    """A document as text, in which 1, 1.0 and true differ."""
    return json.dumps(document, sort_keys=True)


class Agreement(RuleBasedStateMachine):
    """One book, and lists in a dict."""

    def __init__(self, new_book: NewBook, folder: Path) -> None:
        super().__init__()
        self.book = new_book()
        self.folder = folder
        self.numbers = numbers()
        self.lists: dict[Known, list[tuple[str, str]]] = defaultdict(list)
        self.drafts: list[Draft] = []
        self.hung: dict[str, list[Place]] = defaultdict(list)

    def draft(self, known: Known, seen: int, document: Any, day: Any) -> Draft:  # noqa: ANN401  (JSON)
        number = next(self.numbers)
        return Draft(
            kind=known[0],
            id=known[1],
            seen=seen,
            key=f"k{number}",
            by="Setter",
            at=MORNING + timedelta(seconds=number),
            document=document,
            day=day,
        )

    def now(self) -> datetime:
        return MORNING + timedelta(seconds=next(self.numbers))

    def known(self, data: st.DataObject) -> Known:
        return data.draw(st.sampled_from([known for known, rows in self.lists.items() if rows]))

    def agrees(self, revision: Revision) -> bool:
        rows = self.lists[revision.kind, revision.id]
        return rows[revision.n - 1] == (said(revision.document), said(revision.day))

    @rule(kind=st.sampled_from(KINDS), name=NAMES, document=DOCUMENTS, day=DOCUMENTS)
    def write(self, kind: Kind, name: str, document: Any, day: Any) -> None:  # noqa: ANN401  (JSON)
        rows = self.lists[kind, name]
        draft = self.draft((kind, name), len(rows), document, day)
        made = self.book.write(draft)
        rows.append((said(document), said(day)))
        self.drafts.append(draft)
        assert made.n == len(rows)
        assert self.agrees(made)

    @precondition(lambda self: self.drafts)
    @rule(data=st.data(), document=DOCUMENTS)
    def write_late(self, data: st.DataObject, document: Any) -> None:  # noqa: ANN401  (JSON)
        known = self.known(data)
        rows = self.lists[known]
        seen = data.draw(st.integers(0, len(rows) - 1))
        draft = self.draft(known, seen, document, {})
        with pytest.raises(ConflictError) as caught:
            self.book.write(draft)
        assert caught.value.draft == draft
        assert caught.value.head.n == len(rows)
        assert self.agrees(caught.value.head)
        assert (caught.value.seen.n if caught.value.seen else 0) == seen
        assert caught.value.seen is None or self.agrees(caught.value.seen)

    @precondition(lambda self: self.drafts)
    @rule(data=st.data())
    def write_again(self, data: st.DataObject) -> None:
        draft = data.draw(st.sampled_from(self.drafts))
        made = self.book.write(draft)
        assert (made.n, made.at) == (draft.seen + 1, draft.at)
        assert self.agrees(made)

    @precondition(lambda self: self.drafts)
    @rule(data=st.data())
    def use_a_key_again(self, data: st.DataObject) -> None:
        draft = data.draw(st.sampled_from(self.drafts))
        with pytest.raises(BookError) as caught:
            self.book.write(replace(draft, note="another change"))
        assert caught.value.message.key == "book.key-used"

    @precondition(lambda self: self.drafts)
    @rule(data=st.data())
    def undo(self, data: st.DataObject) -> None:
        known = self.known(data)
        rows = self.lists[known]
        to = data.draw(st.integers(1, len(rows)))
        draft = self.draft(known, len(rows), {}, {})
        made = self.book.undo(*known, to=to, seen=len(rows), key=draft.key, by="S", at=draft.at)
        rows.append(rows[to - 1])
        assert (made.n, made.restores) == (len(rows), to)
        assert self.agrees(made)

    @precondition(lambda self: self.jobs())
    @rule(data=st.data(), content=st.sampled_from([JPEG, PNG]), name=st.sampled_from("LBR"))
    def hang(self, data: st.DataObject, content: bytes, name: str) -> None:
        job = data.draw(st.sampled_from(self.jobs()))
        self.book.hang(job, content, subject="wall", name=name, by="S", at=self.now())
        if (content, name) not in self.hung[job]:
            self.hung[job].append((content, name))

    @precondition(lambda self: any(self.hung.values()))
    @rule(data=st.data())
    def take_off(self, data: st.DataObject) -> None:
        job = data.draw(st.sampled_from([job for job, photos in self.hung.items() if photos]))
        number = data.draw(st.integers(0, len(self.hung[job]) - 1))
        photo = self.book.photos(job)[number]
        self.book.take_off(job, photo.sha256, subject="wall", name=photo.name, by="S", at=MORNING)
        del self.hung[job][number]

    @precondition(lambda self: self.jobs())
    @rule(data=st.data())
    def carry(self, data: st.DataObject) -> None:
        job = data.draw(st.sampled_from(self.jobs()))
        file = self.folder / f"job-{next(self.numbers)}.zip"
        copy = f"copy-{next(self.numbers)}"
        export_job(self.book, job, file)
        assert import_job(self.book, file) == job
        assert import_job(self.book, file, name=copy) == copy
        self.lists["job", copy] = list(self.lists["job", job])
        self.hung[copy] = list(self.hung[job])

    @rule()
    def open_again(self) -> None:
        self.book.close()
        self.book = open_book(where(self.book), photos=self.book.files.folder, new=False)

    def jobs(self) -> list[str]:
        return [name for (kind, name), rows in self.lists.items() if kind == "job" and rows]

    def all_agree(self, book: Book) -> None:
        for kind in KINDS:
            wanted = {name: len(rows) for (k, name), rows in self.lists.items() if k == kind}
            assert {head.id: head.n for head in book.contents(kind)} == wanted
            for name, newest in wanted.items():
                history = book.history(kind, name)
                assert [one.n for one in history] == list(range(1, newest + 1))
                assert all(self.agrees(one) for one in history)
        for job in self.jobs():
            photos = [
                (book.files.checked(photo.sha256).read_bytes(), photo.name)
                for photo in book.photos(job)
            ]
            assert photos == self.hung[job]
        with reading(book.engine) as connection:
            assert look_over(connection).sound

    def teardown(self) -> None:
        self.all_agree(self.book)
        assert back_up(self.book, self.folder / "backup.zip").sound
        self.book.close()
        assert restore(self.folder / "backup.zip", self.folder / "place").sound
        with closing(open_book(self.folder / "place", new=False)) as again:
            self.all_agree(again)


def test_a_book_agrees_with_a_dict(
    new_book: NewBook,
    tmp_path_factory: pytest.TempPathFactory,
    count: Callable[[int, int], int],
) -> None:
    class Started(Agreement):
        def __init__(self) -> None:
            super().__init__(new_book, tmp_path_factory.mktemp("carried"))

    few = settings(max_examples=count(10, 100), stateful_step_count=25)
    run_state_machine_as_test(Started, settings=few)
