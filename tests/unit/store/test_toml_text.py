"""A document written as TOML is read back as it was: by the reader of the standard library."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.store.shelf import Library
from gaugerod.store.toml_text import toml_text

TEXT = st.text(st.characters(codec="utf-8"), max_size=8)
PLAIN = st.one_of(
    st.booleans(),
    st.integers(-(2**53), 2**53),
    st.floats(allow_nan=False, allow_infinity=False),
    TEXT,
)
VALUES = st.recursive(
    PLAIN,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXT, inner, max_size=3),
    max_leaves=12,
)


@given(tables=st.dictionaries(TEXT, VALUES, max_size=4))
def test_what_is_written_is_read_as_it_was(tables: dict[str, object]) -> None:
    assert tomllib.loads(toml_text(tables)) == tables


def test_tables_among_other_values_are_written_in_their_line() -> None:
    tables: dict[str, object] = {"a": [1, {"b c": "\x7f"}], "d": [[{"e": True}]]}
    text = toml_text(tables)
    assert text == 'a = [1, { "b c" = "\\u007f" }]\nd = [[{ e = true }]]\n'
    assert tomllib.loads(text) == tables


@pytest.mark.parametrize("kind", ["materials", "rates"])
def test_packaged_data_are_written_as_they_are_read(kind: str) -> None:
    files = Library().files("materials" if kind == "materials" else "rates")
    for file in files.values():
        assert tomllib.loads(toml_text(file.tables)) == file.tables


def test_keys_come_in_the_order_that_is_asked_for() -> None:
    text = toml_text({"a": 1, "b": {"c": [1, 2]}, "d": [{"e": "x"}]}, first=("d", "a"))
    assert text == 'a = 1\n\n[[d]]\ne = "x"\n\n[b]\nc = [1, 2]\n'
