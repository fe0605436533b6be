"""The bench: done once, ended on time, stopped, begun again; with workers of this process."""

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from functools import partial
from threading import Barrier, Event, Lock
from time import monotonic
from types import MappingProxyType

import pytest

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.messages import Length, Message
from gaugerod.web.bench import bench as module
from gaugerod.web.bench.bench import Bench
from gaugerod.web.bench.errors import EndedError, NotYetError, UnfinishedError
from gaugerod.web.bench.parcel import attempt, packed, raised, unpacked
from gaugerod.web.bench.worker import Process

Started = Callable[..., Bench]


class Hands:
    """A worker that is no process: it holds each work until it is told to go on, or killed."""

    def __init__(self) -> None:
        self.go, self.dead = Event(), False

    def do(self, parcel: bytes) -> bytes | None:
        assert self.go.wait(30)
        self.go.clear()
        return None if self.dead else packed(attempt(unpacked(parcel)))

    def kill(self) -> None:
        self.dead = True
        self.go.set()

    def close(self) -> None:
        self.kill()


class Shop:
    """Workers, and how many of them were ever started."""

    def __init__(self) -> None:
        self.hands: list[Hands] = []
        self.lock = Lock()

    def start(self, within: float) -> Hands:
        assert within > 0
        with self.lock:
            self.hands.append(Hands())
            return self.hands[-1]

    def go(self) -> None:
        for one in self.hands:
            one.go.set()


@pytest.fixture
def shop() -> Shop:
    return Shop()


@pytest.fixture
def started(shop: Shop) -> Iterator[Started]:
    """Benches with that shop's workers, closed at the end."""
    benches: list[Bench] = []

    def start(**settings: float) -> Bench:
        made = Bench(**{"within": 30.0, "patience": 30.0, **settings}, start=shop.start)  # type: ignore[arg-type]  # a count of workers is a whole number
        benches.append(made)
        return made

    yield start
    for one in benches:
        one.close()


def not_yet(bench: Bench, key: str, work: Callable[[], object]) -> NotYetError:
    with pytest.raises(NotYetError) as told:
        bench.get(key, work)
    return told.value


def refuse() -> None:
    raise LayoutError(Message("layout.none", wall="B", least=Length(25.4)))


def test_the_same_work_is_done_once_however_many_ask(shop: Shop, started: Started) -> None:
    bench, together = started(), Barrier(6)
    shop.go()

    def ask(_: int) -> int:
        together.wait(30)
        return bench.get("plan", partial(int, "7"))

    with ThreadPoolExecutor(6) as pool:
        found = list(pool.map(ask, range(6)))
    assert found == [7] * 6
    # Nobody has told the workers to go on: it is there already.
    assert bench.get("plan", partial(int, "8")) == 7


def test_two_works_go_on_at_once_and_a_third_waits_for_its_turn(
    shop: Shop, started: Started
) -> None:
    bench = started(patience=0.05)
    befores = [not_yet(bench, key, partial(int, "1")).before for key in "abcd"]
    assert befores == [0, 0, 1, 2]
    assert not_yet(bench, "d", partial(int, "1")).most == 30.0
    shop.go()
    assert not_yet(bench, "e", partial(int, "1")).before == 1


def test_what_is_wrong_with_a_job_is_kept_as_its_result_is(shop: Shop, started: Started) -> None:
    bench = started()
    shop.go()
    for _ in range(2):
        with pytest.raises(LayoutError) as told:
            bench.get("plan", refuse)
        assert told.value.message == Message("layout.none", wall="B", least=Length(25.4))


def test_a_fault_of_the_program_is_not_kept(shop: Shop, started: Started) -> None:
    bench = started(workers=1)
    shop.go()
    with pytest.raises(ValueError, match="invalid literal"):
        bench.get("plan", partial(int, "x"))
    shop.go()
    assert bench.get("plan", partial(int, "3")) == 3


def test_work_without_a_name_cannot_be_sent(shop: Shop, started: Started) -> None:
    bench = started(workers=1)
    with pytest.raises(RuntimeError):
        bench.get("plan", lambda: 3)
    shop.go()
    assert bench.get("next", partial(int, "3")) == 3
    assert len(shop.hands) == 1


def test_what_takes_too_long_is_ended_and_can_be_begun_again(shop: Shop, started: Started) -> None:
    bench = started(within=0.05, workers=1)
    for _ in range(2):
        with pytest.raises(EndedError) as told:
            bench.get("plan", partial(int, "7"))
        assert told.value.message == Message("web.planning.too-long", seconds=0.05)
    bench.again("another")
    with pytest.raises(EndedError):
        bench.get("plan", partial(int, "7"))
    bench.within = 30.0
    bench.again(told.value.ticket)
    while len(shop.hands) < 2:  # its place is taken by a new one
        Event().wait(0.01)
    shop.go()
    assert bench.get("plan", partial(int, "7")) == 7


def test_work_is_stopped_while_it_is_done_and_while_it_waits(shop: Shop, started: Started) -> None:
    bench = started(workers=1, patience=0.05)
    tickets = [not_yet(bench, key, partial(int, "7")).ticket for key in "ab"]
    for ticket, key in zip(reversed(tickets), "ba", strict=True):
        bench.stop(ticket)
        with pytest.raises(EndedError) as told:
            bench.get(key, partial(int, "7"))
        assert told.value.message.key == "web.planning.stopped"
        assert told.value.ticket == ticket
    bench.stop(tickets[0])  # once more does nothing
    bench.again(tickets[1])
    not_yet(bench, "b", partial(int, "7"))
    shop.go()


def test_a_worker_that_dies_is_told_and_replaced(shop: Shop, started: Started) -> None:
    bench = started(workers=1, patience=0.05)
    not_yet(bench, "plan", partial(int, "7"))
    shop.hands[0].kill()
    while len(shop.hands) < 2:
        Event().wait(0.01)
    with pytest.raises(EndedError) as told:
        bench.get("plan", partial(int, "7"))
    assert told.value.message.key == "web.planning.died"
    shop.go()
    assert bench.get("next", partial(int, "7")) == 7


def test_what_nobody_asks_about_any_more_is_not_begun(
    shop: Shop, started: Started, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench = started(workers=1, patience=0.05)
    not_yet(bench, "a", partial(int, "1"))
    not_yet(bench, "forgotten", partial(int, "2"))
    now = monotonic()
    monkeypatch.setattr("gaugerod.web.bench.bench.monotonic", lambda: now + 60)
    assert not_yet(bench, "b", partial(int, "3")).before == 2
    shop.go()
    while bench._queue:
        Event().wait(0.01)
    shop.go()
    assert bench.get("b", partial(int, "4")) == 3
    assert "forgotten" not in bench._tasks


def test_what_was_asked_for_longest_ago_goes_first(
    shop: Shop, started: Started, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "MOST", 2)
    bench = started(workers=1)
    for key in "abac":
        shop.go()
        bench.get(key, partial(int, "1"))
    assert [*bench._tasks] == ["a", "c"]


def test_pages_that_find_no_place_to_wait_are_told_at_once(
    started: Started, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_WAITING", 1)
    bench = started()
    with ThreadPoolExecutor(1) as pool:
        first = pool.submit(bench.get, "plan", partial(int, "1"))
        while bench._waiting._value:
            Event().wait(0.01)
        not_yet(bench, "plan", partial(int, "1"))
        bench.close()
        with pytest.raises(EndedError):
            first.result(30)


def test_closing_ends_what_is_done_and_what_waits(started: Started) -> None:
    bench = started(workers=1, patience=0.05)
    for key in "ab":
        not_yet(bench, key, partial(int, "1"))
    bench.close()
    for key in "abc":
        with pytest.raises(UnfinishedError) as told:
            bench.get(key, partial(int, "1"))
        assert told.value.message.key == "web.planning.closed"


def test_errors_and_views_of_tables_are_packed_whole() -> None:
    how, what = unpacked(packed(attempt(refuse)))
    error = raised(*what)
    assert how == "error"
    assert isinstance(error, LayoutError)
    assert error.message.values["least"] == Length(25.4)
    assert unpacked(packed(MappingProxyType({"a": 1}))) == {"a": 1}


def test_a_process_works_is_killed_and_is_gone() -> None:
    with closing(Process(30.0)) as worker:
        made = worker.do(packed(partial(print, "a solver prints")))
        assert made is not None
        assert unpacked(made) == ("result", None)
        how, (kind, *_) = unpacked(worker.do(packed(partial(int, "x"))) or b"")
        assert (how, kind) == ("error", ValueError)
        how, (kind, *_) = unpacked(worker.do(packed(Lock)) or b"")  # a lock goes into no parcel
        assert (how, kind) == ("error", RuntimeError)
        worker.kill()
        assert worker.do(packed(partial(int, "1"))) is None
    assert worker._process.returncode is not None
