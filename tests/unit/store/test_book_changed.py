"""Pointers as in RFC 6901, section 5; where they point was worked by hand."""

import pytest

from gaugerod.store.book.changed import changed


@pytest.mark.parametrize(
    ("before", "after", "pointers"),
    [
        ({}, {}, ()),
        ({"a": 1}, {"a": 1}, ()),
        ({"a": 1}, {"a": 2}, ("/a",)),
        ({"a": 1}, {}, ("/a",)),
        ({"b": {"c": 1, "d": 2}}, {"b": {"c": 1, "d": 3}, "a": 0}, ("/a", "/b/d")),
        ({"a": [1, {"b": 2}]}, {"a": [1, {"b": 3}]}, ("/a/1/b",)),
        ({"a": [1]}, {"a": [1, 2]}, ("/a",)),
        ({"a": 1}, {"a": 1.0}, ("/a",)),
        ({"a": 1}, {"a": True}, ("/a",)),
        ({"a": {"b": 1}}, {"a": None}, ("/a",)),
        ({}, {"a/b": 1, "m~n": 8, "": 0}, ("/", "/a~1b", "/m~0n")),
    ],
)
def test_what_differs_is_named(
    before: dict[str, object], after: dict[str, object], pointers: tuple[str, ...]
) -> None:
    assert changed(before, after) == pointers


def test_more_than_a_hundred_places_are_named_by_what_holds_them() -> None:
    before = {"wall": {"B": {"reads": dict.fromkeys(map(str, range(101)), 1)}}, "note": "old"}
    after = {"wall": {"B": {"reads": dict.fromkeys(map(str, range(101)), 2)}}, "note": "new"}
    assert changed(before, after) == ("/note", "/wall/B/reads")
