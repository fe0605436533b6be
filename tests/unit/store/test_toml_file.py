from pathlib import Path

import pytest

from gaugerod.core.base.errors import JobError, MaterialError
from gaugerod.core.base.messages import Message
from gaugerod.store.toml_file import MOST_BYTES, read_bytes, read_toml


def refusal(source: bytes) -> Message:
    with pytest.raises(MaterialError) as caught:
        read_toml(source, name="file", error=MaterialError)
    return caught.value.message


def inner(message: Message) -> Message:
    wrong = message.values["wrong"]
    assert isinstance(wrong, Message)
    return wrong


def test_a_file_is_tables_with_their_lines() -> None:
    file = read_toml(b"a = 1\r\n\r\n[t]\r\nb = 2\r\n", name="file", error=JobError)
    assert file.tables == {"a": 1, "t": {"b": 2}}
    assert file.lines["t", "b"] == 4


def test_a_mark_of_byte_order_is_passed_over() -> None:
    assert read_toml(b"\xef\xbb\xbfa = 1", name="file", error=JobError).tables == {"a": 1}


def test_a_place_is_told_with_its_line_where_it_has_one() -> None:
    file = read_toml(b"\na = 1", name="file", error=JobError)
    wrong = Message("job.no-readings")
    assert file.at(("a",), wrong) == Message("read.in-line", file="file", line=2, wrong=wrong)
    assert file.at(("b",), wrong) == Message("read.in-file", file="file", wrong=wrong)


@pytest.mark.parametrize(
    ("source", "key"),
    [
        (b"x" * (MOST_BYTES + 1), "read.too-large"),
        (b"a = '\xff'", "read.not-text"),
        (b"a = '" + b"x" * 10_000 + b"'", "read.line-too-long"),
        (b"a = " + b"[\n" * 50_000, "read.nested-too-deep"),
        (b"a = " + b"9" * 5000, "read.number-too-long"),
        (b"a = '''b", "read.not-toml-at-end"),
    ],
)
def test_what_is_no_file_of_ours_is_refused(source: bytes, key: str) -> None:
    message = refusal(source)
    assert (message.key, message.values["file"]) == ("read.in-file", "file")
    assert inner(message).key == key


def test_bytes_that_are_no_text_are_told_by_line() -> None:
    assert inner(refusal(b"a = 1\nb = '\xff'")) == Message("read.not-text", line=2)


def test_a_slip_of_grammar_is_told_by_line_and_column() -> None:
    message = refusal(b"a = 1\nb 2")
    assert (message.key, message.values["line"]) == ("read.in-line", 2)
    assert inner(message).key == "read.not-toml"
    assert inner(message).values["column"] == 3


def test_a_file_is_read_no_further_than_needed(tmp_path: Path) -> None:
    path = tmp_path / "large"
    path.write_bytes(b"x" * (3 * MOST_BYTES))
    assert len(read_bytes(path, error=JobError)) == MOST_BYTES + 1


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    path = tmp_path / "none"
    with pytest.raises(JobError) as caught:
        read_bytes(path, error=JobError)
    assert caught.value.message == Message("read.no-file", file=str(path))


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(JobError) as caught:
        read_bytes(tmp_path, error=JobError)
    assert caught.value.message.key == "read.not-readable"
