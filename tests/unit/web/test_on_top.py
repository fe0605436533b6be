"""Two changes to one document: each expected document is what a person would write by hand."""

import pytest

from gaugerod.web.on_top import on_top

A, B, C, D = ({"reads": text} for text in ("60", "61", "62", "63"))


@pytest.mark.parametrize(
    ("before", "mine", "now", "both"),
    [
        # Different keys, the same key, a key taken out by one, by the other, by both.
        ({"a": 1, "b": 1}, {"a": 2, "b": 1}, {"a": 1, "b": 2}, {"a": 2, "b": 2}),
        ({"a": 1}, {"a": 2}, {"a": 3}, {"a": 2}),
        ({"a": 1, "b": 1}, {"b": 1}, {"a": 1, "b": 2}, {"b": 2}),
        ({"a": 1, "b": 1}, {"a": 2, "b": 1}, {"a": 1}, {"a": 2}),
        ({"a": 1, "b": 1, "c": 1}, {"b": 2, "c": 1}, {"b": 1, "c": 2}, {"b": 2, "c": 2}),
        # A table that both begin.
        ({}, {"t": {"a": 1}}, {"t": {"b": 2}}, {"t": {"b": 2, "a": 1}}),
        ({}, {"t": [1]}, {"t": [2]}, {"t": [2, 1]}),
        # What became another kind of thing.
        ({"a": [1]}, {"a": "x"}, {"a": [1, 2]}, {"a": "x"}),
        # Entries of a list: both add, both add the same, both mend, one takes out.
        ([A], [A, B], [A, C], [A, C, B]),
        ([A], [A, B], [A, B], [A, B]),
        ([A], [A, B], [A, C, B], [A, C, B]),
        ([A, B], [C, B], [A, D], [C, D]),
        ([A, B, C], [A, B, D], [B, C], [B, D]),
        ([A, B, C], [A, C], [A, B, C, D], [A, C, D]),
        ([A], [B], [C], [B]),
        ([A, B], [A, D], [A], [A, D]),
        # One mended an entry, the other the same entry's neighbour and added one.
        ([A, B], [A, C], [D, B, C], [D, C, C]),
        # The same entry, in different keys of it.
        ([{"a": 1, "b": 1}], [{"a": 2, "b": 1}], [{"a": 1, "b": 2}], [{"a": 2, "b": 2}]),
    ],
)
def test_both_changes_stand(before: object, mine: object, now: object, both: object) -> None:
    assert on_top(before, mine, now) == both


@pytest.mark.parametrize("document", [{"a": [1, {"b": 2}]}, [A, B], "x"])
def test_without_another_change_mine_stands_and_without_mine_the_other(document: object) -> None:
    other = {"else": 1}
    assert on_top(document, document, other) == other
    assert on_top(document, other, document) == other
    assert on_top(document, other, other) == other
