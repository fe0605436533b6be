import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.job.faults import Place
from gaugerod.store.toml_lines import line_of, lines_of

TEXT = '''# [no] header = here
format = 1
a.b = "x # no" # yes
"q r" = 3.5
day = 2026-01-01T07:00:00
[choices]
centre = { B = "module", L = "joint" }
[[wall]]
name = "L"
readings = [
  # a note with ] and [ and "
  {kind="width", at = 1.5, reads = '59 13/16"'},

  {kind="deck", at = [ 1, 2,
   3 ], note = """x
 ] """ },
]
[[wall.hole]]
name = "v"
[[wall.hole]]
name = "w"
[wall.hole.more]
none = []
empty = {}
last = 1
[[wall]]
name = "B"
[[wall.hole]]
name = "z"'''


@pytest.mark.parametrize(
    ("place", "line"),
    [
        (("format",), 2),
        (("a", "b"), 3),
        (("q r",), 4),
        (("day",), 5),
        (("choices",), 6),
        (("choices", "centre", "L"), 7),
        (("wall", 0), 8),
        (("wall", 0, "readings"), 10),
        (("wall", 0, "readings", 0, "reads"), 12),
        (("wall", 0, "readings", 1), 14),
        (("wall", 0, "readings", 1, "at", 2), 15),
        (("wall", 0, "readings", 1, "note"), 15),
        (("wall", 0, "hole", 0, "name"), 19),
        (("wall", 0, "hole", 1, "name"), 21),
        (("wall", 0, "hole", 1, "more", "empty"), 24),
        (("wall", 0, "hole", 1, "more", "last"), 25),
        (("wall", 1, "name"), 27),
        (("wall", 1, "hole", 0, "name"), 29),
    ],
)
def test_a_value_is_found_on_its_line(place: Place, line: int) -> None:
    assert lines_of(TEXT)[place] == line


def test_what_is_not_there_is_looked_for_where_it_would_be() -> None:
    lines = lines_of(TEXT)
    assert line_of(lines, ("wall", 1, "hole", 0, "diameter")) == 28
    assert line_of(lines, ("wall", 0, "readings", 1, "reads")) == 14
    assert line_of(lines, ("timezone",)) is None


def test_the_text_is_one_that_the_reader_takes() -> None:
    assert tomllib.loads(TEXT)["wall"][0]["hole"][1]["more"]["last"] == 1


KEYS = st.from_regex(r"[a-z]{1,4}", fullmatch=True)
SCALARS = st.one_of(
    st.integers(-99, 99).map(str),
    st.sampled_from(["true", "1.5e3", "08:00:00", "'a ] b'", '"c # = d"', '"\\" ["', "''"]),
)
ARRAYS = st.lists(SCALARS, max_size=3).map(lambda parts: f"[ {', '.join(parts)} ]")


@given(st.lists(st.tuples(KEYS, st.one_of(SCALARS, ARRAYS)), unique_by=lambda pair: pair[0]))
def test_each_key_of_a_plain_file_is_on_its_line(pairs: list[tuple[str, str]]) -> None:
    text = "\n".join(f"{key} = {value}" for key, value in pairs)
    lines = lines_of(text)
    assert tomllib.loads(text).keys() == {key for key, _ in pairs}
    assert [lines[key,] for key, _ in pairs] == list(range(1, len(pairs) + 1))
