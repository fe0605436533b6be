from collections.abc import Mapping
from typing import Annotated, Literal

import pytest
from pydantic import Field, ValidationError

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Document, Identifier, Name, PositiveLength, WallName
from gaugerod.core.job.readings import Deck, Width
from gaugerod.store.complaints import Complaint, complaint, one_line, printable, shown
from gaugerod.store.expected import beginning_of, keys_at


class Part(Document):
    inner: Annotated[int, Field(strict=True)] = 1


class Sheet(Document):
    name: Name = "sheet"
    id: Identifier = "a"
    wall: WallName = "B"
    whole: Annotated[int, Field(strict=True, ge=1, lt=10)] = 1
    share: Annotated[float, Field(strict=True, gt=0, le=1)] = 1
    flag: bool = True
    word: Literal["stack", "half"] = "stack"
    finish: Literal["line", "ceiling"] | PositiveLength = "line"
    many: tuple[int, ...] = Field(default=(1,), min_length=1, max_length=2)
    part: Part | None = None
    parts: tuple[Part, ...] = ()
    by: dict[WallName, Literal["x"]] = Field(default_factory=dict)
    other: Annotated[str, Field(pattern="^x$")] = "x"
    readings: tuple[Annotated[Width | Deck, Field(discriminator="kind")], ...] = ()


class Strict(Document):
    part: Part
    parts: tuple[Part, ...]
    word: Name


def complain(tables: Mapping[str, object], model: type[Document] = Sheet) -> Complaint:
    with pytest.raises(ValidationError) as caught:
        model.model_validate(tables)
    return complaint(caught.value, tables, model)


def told(tables: Mapping[str, object]) -> Message:
    message = complain(tables).message
    wrong = message.values["wrong"] if message.key == "job.at" else message
    assert isinstance(wrong, Message)
    return wrong


@pytest.mark.parametrize(
    ("tables", "key", "read"),
    [
        ({"name": 3}, "read.text", "3"),
        ({"name": ""}, "read.characters-at-least", "“”"),
        ({"name": "x" * 81}, "read.characters-at-most", "“" + "x" * 39 + "…”"),
        ({"id": "a b"}, "read.identifier", "“a b”"),
        ({"wall": "b"}, "read.wall-name", "“b”"),
        ({"whole": 1.5}, "read.whole-number", "1.5"),
        ({"whole": True}, "read.whole-number", "true"),
        ({"whole": 0}, "read.at-least", "0"),
        ({"whole": 10}, "read.below", "10"),
        ({"share": "1"}, "read.number", "“1”"),
        ({"share": float("nan")}, "read.number", "nan"),
        ({"share": 0.0}, "read.above", "0.0"),
        ({"share": 2}, "read.at-most", "2"),
        ({"flag": "maybe"}, "read.yes-or-no", "“maybe”"),
        ({"flag": [1]}, "read.yes-or-no", "[…]"),
        ({"word": "half way"}, "read.not-one-of-near", "“half way”"),
        ({"word": "zigzag"}, "read.not-one-of", "“zigzag”"),
        ({"finish": "lien"}, "read.not-one-of-near", "“lien”"),
        ({"finish": -3}, "read.value", "-3"),
        ({"many": 3}, "read.list", "3"),
        ({"many": []}, "read.entries-at-least", "[…]"),
        ({"many": [1, 2, 3]}, "read.entries-at-most", "[…]"),
        ({"part": 3}, "read.table", "3"),
        ({"parts": [3]}, "read.table", "3"),
        ({"by": 3}, "read.table", "3"),
        ({"by": {"b": "x"}}, "read.wall-name", "“b”"),
        ({"readings": [3]}, "read.table", "3"),
        ({"readings": [{"kind": "widht"}]}, "read.not-one-of-near", "“widht”"),
        ({"name": {}}, "read.text", "{…}"),
    ],
)
def test_a_value_that_will_not_do(tables: Mapping[str, object], key: str, read: str) -> None:
    message = told(tables)
    assert (message.key, message.values["read"]) == (key, read)


def test_bounds_and_words_are_told() -> None:
    assert told({"whole": 0}).values["bound"] == 1
    assert told({"many": [1, 2, 3]}).values["bound"] == 2
    message = told({"word": "half way"})
    assert (message.values["known"], message.values["near"]) == ("stack, half", "half")


def test_what_the_library_says_is_a_last_resort() -> None:
    message = told({"other": "y"})
    assert (message.key, message.values["read"]) == ("read.refused", "“y”")
    assert "^x$" in str(message.values["why"])


def test_a_length_says_what_is_wrong_with_it() -> None:
    message = told({"finish": "63 9/8"})
    assert (message.key, message.values["found"]) == ("length.improper", "9/8")


def test_a_missing_key_is_told_with_the_way_to_write_it() -> None:
    found = complain({"parts": (), "word": "w"}, Strict)
    assert found.message == Message("read.missing", key="part", would="[part]")
    assert complain({"part": {}, "word": "w"}, Strict).message.values["would"] == "[[parts]]"
    assert complain({"part": {}, "parts": []}, Strict).message.values["would"] == "word = …"


def test_a_reading_without_a_kind_lacks_it() -> None:
    found = complain({"readings": [{"at": 0, "reads": 1}]})
    assert found.at == ("readings", 0)
    wrong = Message("read.missing", key="kind", would="kind = …")
    assert found.message == Message("job.at", where="readings 1", wrong=wrong)


def test_a_place_is_the_files_own() -> None:
    found = complain({"readings": [{"kind": "width", "at": 0, "reads": -1}]})
    assert found.at == ("readings", 0, "reads")
    assert found.message.values["where"] == "readings 1 (width), reads"


def test_a_key_that_means_nothing() -> None:
    found = complain({"whoel": 1})
    assert found.message == Message("read.unknown-key-near", key="whoel", near="whole")
    found = complain({"part": {"qqq": 1}})
    wrong = Message("read.unknown-key", key="qqq", known="inner")
    assert found.message == Message("job.at", where="part", wrong=wrong)


def test_a_key_misspelled_is_told_once() -> None:
    reading = {"kind": "width", "at": 0, "raeds": 60}
    found = complain({"readings": [reading]})
    assert found.at == ("readings", 0, "raeds")
    assert found.others == 0


def test_other_places_are_counted() -> None:
    assert complain({"whole": 0, "share": 2, "finish": "lien"}).others == 2


def test_keys_are_those_of_the_place() -> None:
    assert keys_at(Sheet, ("parts", 0)) == ["inner"]
    assert "reads" in keys_at(Sheet, ("readings", 2, "deck"))
    assert "part" in keys_at(Sheet, ("readings", 2, "deck"))
    assert "part" not in keys_at(Sheet, ("readings", 2, "width"))
    assert keys_at(Sheet, ("name",)) == []
    assert beginning_of(Sheet, ("readings", 2, "deck", "at")) == "at = …"


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (True, "true"),
        ("a\n\x1b[31mb", "“a  [31mb”"),
        ("x" * 41, "“" + "x" * 39 + "…”"),
        (1.5, "1.5"),
        (10**60, "1" + "0" * 38 + "…"),
        ({"a": 1}, "{…}"),
        ([1], "[…]"),
    ],
)
def test_a_value_is_shown_short_and_plain(value: object, text: str) -> None:
    assert shown(value) == text


def test_a_line_is_one_line() -> None:
    assert printable("a\r\nb\tc\x00“d”") == "a  b c “d”"
    assert one_line("a" * 40) == "a" * 40
