from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

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
