from concurrent.futures import ThreadPoolExecutor
from threading import Barrier, Event

import pytest

from gaugerod.web.cache import Cache


def test_a_result_is_made_once_however_many_ask() -> None:
    cache: Cache[int] = Cache()
    together = Barrier(8)
    made: list[int] = []

    def ask(number: int) -> int:
        together.wait(timeout=30)

        def work() -> int:
            made.append(number)
            return 7

        return cache.get("plan", work)

    with ThreadPoolExecutor(8) as pool:
        assert list(pool.map(ask, range(8))) == [7] * 8
    assert len(made) == 1


def test_one_result_may_rest_on_another() -> None:
    cache: Cache[int] = Cache()
    assert cache.get("papers", lambda: cache.get("plan", lambda: 3) + 1) == 4


def test_what_would_have_to_wait_is_not_made() -> None:
    cache: Cache[int] = Cache()
    assert cache.get_now("there", lambda: 1) == 1
    begun, go = Event(), Event()

    def slow() -> int:
        begun.set()
        assert go.wait(30)
        return 2

    with ThreadPoolExecutor(1) as pool:
        made = pool.submit(cache.get, "slow", slow)
        assert begun.wait(30)
        assert cache.get_now("other", lambda: 3) is None
        assert cache.get_now("there", lambda: 4) == 1
        go.set()
        assert made.result(30) == 2
    # Nothing came in place of the result, and the next in turn makes it.
    assert cache.get_now("other", lambda: 5) == 5


def test_a_failure_lets_the_next_have_its_turn() -> None:
    cache: Cache[int] = Cache()
    with pytest.raises(ZeroDivisionError):
        cache.get_now("plan", lambda: 1 // 0)
    with ThreadPoolExecutor(1) as pool:
        assert pool.submit(cache.get_now, "plan", lambda: 5).result(30) == 5


def test_a_failure_is_not_kept() -> None:
    cache: Cache[int] = Cache()
    with pytest.raises(ZeroDivisionError):
        cache.get("plan", lambda: 1 // 0)
    assert cache.get("plan", lambda: 5) == 5


def test_what_was_asked_for_longest_ago_goes_first() -> None:
    cache: Cache[int] = Cache(most=2)
    for key in "aba":
        cache.get(key, lambda: 1)
    cache.get("c", lambda: 1)
    assert cache.get("a", lambda: 2) == 1
    assert cache.get("b", lambda: 2) == 2
