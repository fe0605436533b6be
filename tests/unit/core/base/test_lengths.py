"""Spellings that setters use, spellings that are refused, and how lengths are shown."""

import math
import re
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest

import gaugerod
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import LengthError
from gaugerod.core.base.lengths import (
    FINE_IMPERIAL,
    FINE_METRIC,
    IMPERIAL,
    METRIC,
    MM_PER_INCH,
    Display,
    Rounding,
    Unit,
    parse_length,
    round_length,
    show_length,
)

PAGE = Path(__file__).parents[4] / "docs" / "reference" / "lengths.md"
CATALOGUE = Path(gaugerod.__file__).parent / "data" / "text" / "en.toml"
UNITS: tuple[Unit, ...] = ("in", "mm", "cm")


def F(text: str) -> Fraction:  # noqa: N802  (so that a table of cases can be read)
    """`63+1/8`: the sum, by Python's own reading of fractions."""
    return sum((Fraction(part) for part in text.split("+")), Fraction(0))


PLAIN_INCHES = [
    ("63 1/8", "63+1/8"),
    ("63-1/8", "63+1/8"),
    ("63 - 1/8", "63+1/8"),
    ("63 -1/8", "63+1/8"),
    ("63.125", "63+1/8"),
    ("63.", "63"),
    (".375", "3/8"),
    ("3/8", "3/8"),
    ("10/16", "5/8"),
    ("0/16", "0"),
    ("63/64 ", "63/64"),
    ("  59   13 / 16", "59+13/16"),
    ("\u00bd", "1/2"),
    ("59\u215c", "59+3/8"),
    ("59 \u215e", "59+7/8"),
    ("59-\u00bc", "59+1/4"),
    ("59 13\u204416", "59+13/16"),
    ("59\u201113/16", "59+13/16"),
    ("-1 1/2", "-3/2"),
    ("- 1-1/2", "-3/2"),
    ("\u22121\u00bd", "-3/2"),
    ("-.5", "-1/2"),
    ("-0", "0"),
    ("59-13/16+", "59+27/32"),
    ("59-13/16-", "59+25/32"),
    ("59 13/16 +", "59+27/32"),
    ("60-", "59+31/32"),
    ("59 13/16 strong", "59+27/32"),
    ("59 13/16 shy", "59+25/32"),
    ("60 heavy", "60+1/32"),
    ("60 light", "59+31/32"),
    ("60 Full", "60+1/32"),
    ("60 bare", "59+31/32"),
    ("-1/8 strong", "-5/32"),
    ("-1/8-", "-3/32"),
]

NAMED = [
    ('63 1/8"', "63+1/8"),
    ('63-1/8"', "63+1/8"),
    ("63 1/8\u201d", "63+1/8"),
    ("63 1/8\u201c", "63+1/8"),
    ("63 1/8\u2033", "63+1/8"),
    ("63 1/8''", "63+1/8"),
    ("63 1/8\u2019\u2019", "63+1/8"),
    ("63.125 in", "63+1/8"),
    ("63.125 in.", "63+1/8"),
    ("63 1/8inch", "63+1/8"),
    ("63 1/8 INCHES", "63+1/8"),
    ('59 13/16" +', "59+27/32"),
    ('59 13/16" shy', "59+25/32"),
    ("5' 3-1/8\"", "63+1/8"),
    ("5'3 1/8", "63+1/8"),
    ("5'-3-1/8\"", "63+1/8"),
    ("5' - 3-1/8\"", "63+1/8"),
    ("5'-\u215b\"", "60+1/8"),
    ("5'3/8", "60+3/8"),
    ("5' 3.125", "63+1/8"),
    ("5' .5\"", "60+1/2"),
    ("5' 0\"", "60"),
    ("5\u20323\u215b\u2033", "63+1/8"),
    ("5\u20193\u201d", "63"),
    ("5\u20183\u201c", "63"),
    ("5 ft 3 1/8 in", "63+1/8"),
    ("5ft3in", "63"),
    ("5 ft. 3 in.", "63"),
    ("5 foot 3", "63"),
    ("5 feet", "60"),
    ("5.0'", "60"),
    ("6'11 7/8\"", "83+7/8"),
    ("5' 3 1/8 strong", "63+5/32"),
    ("5'-", "59+31/32"),
    ("5' -", "59+31/32"),
    ("5'+", "60+1/32"),
    ("-5' 3\"", "-63"),
]

MILLIMETRES = [
    ("1603.4 mm", "1603.4"),
    ("1603mm", "1603"),
    ("1603 MM", "1603"),
    ("160.3 cm", "1603"),
    ("1.6 m", "1600"),
    (".5 mm", "0.5"),
    ("-12 mm", "-12"),
    # 1/32 in = 25.4 / 32 = 0.79375 mm
    ("1520 mm strong", "1520.79375"),
    ("1520 mm bare", "1519.20625"),
]

REFUSED: list[tuple[str, Unit, str, int, str]] = [
    ("", "in", "empty", 1, ""),
    ("   ", "in", "empty", 4, ""),
    ("-", "in", "no-number", 2, ""),
    ("+5", "in", "no-number", 1, "+"),
    ("--5", "in", "no-number", 2, "-"),
    ("--1/8", "in", "no-number", 2, "-"),
    ("5'--1/8", "in", "no-number", 4, "-"),
    ("nan", "in", "no-number", 1, "nan"),
    ("NaN", "mm", "no-number", 1, "NaN"),
    ("inf", "in", "no-number", 1, "inf"),
    ("-inf", "mm", "no-number", 2, "inf"),
    ("mm", "in", "no-number", 1, "mm"),
    ("\u0665", "in", "no-number", 1, "\u0665"),
    ("/8", "in", "no-number", 1, "/"),
    ("5'-x", "in", "no-number", 4, "x"),
    ("1 2 3", "in", "left-over", 3, "2"),
    ("1 2 3/8", "in", "left-over", 3, "2"),
    ("1e3", "mm", "left-over", 2, "e"),
    ("1.5/8", "in", "left-over", 4, "/"),
    ("1/2/4", "in", "left-over", 4, "/"),
    ("63.5 1/8", "in", "left-over", 6, "1/8"),
    ("63-5", "in", "left-over", 4, "5"),
    ("63+1/8", "in", "left-over", 4, "1/8"),
    ("60 + 1", "in", "left-over", 6, "1"),
    ("60 shy strong", "in", "left-over", 8, "strong"),
    ("5\" 3'", "in", "left-over", 4, "3"),
    ("5\u201d 3\u2019", "in", "left-over", 4, "3"),
    ("5' 3'", "in", "left-over", 5, "'"),
    ("5' 3 mm", "in", "left-over", 6, "mm"),
    ("5' foo", "in", "left-over", 4, "foo"),
    ("5 ft.5", "in", "left-over", 3, "ft.5"),
    ("1 m 60 cm", "mm", "left-over", 5, "60"),
    ("60 furlongs", "in", "left-over", 4, "furlongs"),
    ("1_000", "mm", "left-over", 2, "_"),
    ("1\x005", "mm", "left-over", 2, "\x00"),
    ("3,5", "in", "comma", 2, ","),
    ("1,603 mm", "mm", "comma", 2, ","),
    ("5/0", "in", "denominator", 1, "5/0"),
    ("2/3", "in", "denominator", 1, "2/3"),
    ("63 1/10", "in", "denominator", 4, "1/10"),
    ("63 1/128", "in", "denominator", 4, "1/128"),
    ("5/1", "in", "denominator", 1, "5/1"),
    ("63 \u2153", "in", "denominator", 4, "\u2153"),
    ("63 \u2152", "in", "denominator", 4, "\u2152"),
    ("63 9/8", "in", "improper", 4, "9/8"),
    ("63 9/8", "mm", "improper", 4, "9/8"),
    ("8/8", "in", "improper", 1, "8/8"),
    ("5' 14\"", "in", "too-many-inches", 4, "14"),
    ("5' 12\"", "in", "too-many-inches", 4, "12"),
    ("5' 12-1/2", "in", "too-many-inches", 4, "12-1/2"),
    ("5.5'", "in", "feet-not-whole", 1, "5.5"),
    ("5 1/2' 3\"", "in", "feet-not-whole", 1, "5 1/2"),
]

# text, unit, what was found, what would be read
METRIC_FRACTIONS: list[tuple[str, Unit, str, str]] = [
    ("63 1/8", "mm", "63 1/8", '63 1/8"'),
    ("63-1/8", "cm", "63-1/8", '63-1/8"'),
    ("\u215b", "mm", "\u215b", '\u215b"'),
    ("-63 1/8 strong", "mm", "63 1/8", '-63 1/8"strong'),
    ("63 1/8-", "mm", "63 1/8", '63 1/8"-'),
    ("63 1/8 mm", "in", "63 1/8", '63 1/8"'),
    ("1/2 cm", "in", "1/2", '1/2"'),
    ("1/2 m", "in", "1/2", '1/2"'),
]


def refusal(text: str, unit: Unit) -> LengthError:
    with pytest.raises(LengthError) as caught:
        parse_length(text, unit=unit)
    return caught.value


@pytest.mark.parametrize(("text", "inches"), PLAIN_INCHES)
def test_a_plain_number_takes_the_unit(text: str, inches: str) -> None:
    assert parse_length(text, unit="in") == F(inches) * F("25.4")


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize(("text", "inches"), NAMED)
def test_named_inches_are_inches_whatever_the_unit(text: str, inches: str, unit: Unit) -> None:
    assert parse_length(text, unit=unit) == F(inches) * F("25.4")


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize(("text", "mm"), MILLIMETRES)
def test_named_metric_is_metric_whatever_the_unit(text: str, mm: str, unit: Unit) -> None:
    assert parse_length(text, unit=unit) == F(mm)


def test_plain_metric_takes_the_unit() -> None:
    assert parse_length("1520", unit="mm") == 1520
    assert parse_length("152.05", unit="cm") == F("1520.5")


@pytest.mark.parametrize(("text", "unit", "key", "at", "found"), REFUSED)
def test_what_is_refused_and_where(text: str, unit: Unit, key: str, at: int, found: str) -> None:
    message = refusal(text, unit).message
    assert message.key == f"length.{key}"
    assert dict(message.values) == {"text": text, "at": at, "found": found}


@pytest.mark.parametrize(("text", "unit", "found", "would"), METRIC_FRACTIONS)
def test_a_fraction_is_never_metric(text: str, unit: Unit, found: str, would: str) -> None:
    message = refusal(text, unit).message
    assert message.key == "length.fraction-of-metric"
    assert (message.values["found"], message.values["would"]) == (found, would)
    assert parse_length(would, unit=unit) == parse_length(would, unit="in")


@pytest.mark.parametrize("junk", ["9" * 10_000, " " * 10_000, "1/" * 5_000, "'\"-+½x" * 2_000])
def test_a_flood_of_text_is_refused_with_a_short_message(junk: str) -> None:
    message = refusal(junk, "in").message
    assert message.key == "length.too-long"
    assert message.values["text"] == junk[:39] + "…"
    assert (message.values["at"], message.values["found"]) == (41, str(len(junk)))


def test_forty_characters_are_read() -> None:
    assert parse_length("63 1/8".ljust(40), unit="in") == F("1603.375")
    assert parse_length("9" * 40, unit="mm") == 10**40 - 1


@pytest.mark.parametrize(
    ("text", "unit", "sentence"),
    [
        ("5' 14\"", "in", "“5' 14\"”: 14 inches after feet. From 12 on they are another foot."),
        (
            "63 1/8",
            "mm",
            (
                '“63 1/8”: 63 1/8 is read in inches only. Write 63 1/8" if that is meant, '
                "or mm or cm with a decimal point."
            ),
        ),
        ("1e3", "in", "“1e3”: e at character 2 does not belong to one length."),
    ],
)
def test_the_catalogue_says_it(text: str, unit: Unit, sentence: str) -> None:
    length = tomllib.loads(CATALOGUE.read_text(encoding="utf-8"))["length"]
    sentences = {f"length.{key}": text for key, text in length.items()}
    words = Catalogue(sentences=sentences, display=IMPERIAL)
    assert words.say(refusal(text, unit).message) == sentence


def rows(heading: str) -> list[list[str]]:
    """The cells in backquotes of each row of the page's table under a heading."""
    section = PAGE.read_text(encoding="utf-8").split(f"## {heading}\n")[1].split("\n## ")[0]
    cells = (re.findall(r"`([^`]+)`", line) for line in section.splitlines() if line[:1] == "|")
    return [row for row in cells if row]


def test_the_page_tells_the_truth_about_what_is_read() -> None:
    read = rows("What is read")
    assert len(read) > 15
    for *spellings, shown in read:
        for text in spellings:
            assert parse_length(text, unit="in") == parse_length(shown, unit="in"), text


def test_the_page_tells_the_truth_about_what_is_refused() -> None:
    refused = rows("What is refused")
    assert len(refused) > 9
    for spellings in refused:
        for text in spellings:
            refusal(text, "in")


@pytest.mark.parametrize(
    ("inches", "display", "shown"),
    [
        ("59+13/16", IMPERIAL, '59 13/16"'),
        ("3/8", IMPERIAL, '3/8"'),
        ("10/16", IMPERIAL, '5/8"'),
        ("0", IMPERIAL, '0"'),
        ("-3/2", IMPERIAL, '-1 1/2"'),
        ("-1/40", IMPERIAL, '0"'),
        ("12+31/32", IMPERIAL, '13"'),
        ("63+1/8", IMPERIAL, '63 1/8"'),
        ("59+13/16+1/32", FINE_IMPERIAL, '59 27/32"'),
        ("59+13/16", FINE_IMPERIAL, '59 13/16"'),
        ("-31/32", FINE_IMPERIAL, '-31/32"'),
        ("12+63/64", FINE_IMPERIAL, '13"'),
        ("60", METRIC, "1524 mm"),
        ("60", FINE_METRIC, "1524 mm"),
        ("1/64", METRIC, "0 mm"),  # 0.397 mm
        ("1/64", FINE_METRIC, "0.5 mm"),
        ("-1/64", METRIC, "0 mm"),
        ("-1/64", FINE_METRIC, "-0.5 mm"),
        ("59+13/16", FINE_METRIC, "1519 mm"),  # 1519.2375 mm
        ("59+13/16+1/64", FINE_METRIC, "1519.5 mm"),  # 1519.634 mm
        ("50/127", METRIC, "10 mm"),
        ("5000/127", METRIC, "1000 mm"),
    ],
)
def test_a_length_is_shown_as_on_a_tape(inches: str, display: Display, shown: str) -> None:
    assert show_length(F(inches) * MM_PER_INCH, display) == shown
    assert show_length(float(F(inches) * MM_PER_INCH), display) == shown


@pytest.mark.parametrize(
    ("mm", "display", "rounding", "shown"),
    [
        # Ties go away from zero, left as right.
        ("0.5", METRIC, "nearest", "1 mm"),
        ("-0.5", METRIC, "nearest", "-1 mm"),
        ("1.5", METRIC, "nearest", "2 mm"),
        ("2.5", METRIC, "nearest", "3 mm"),
        ("0.25", FINE_METRIC, "nearest", "0.5 mm"),
        ("0.79375", IMPERIAL, "nearest", '1/16"'),
        ("-0.79375", IMPERIAL, "nearest", '-1/16"'),
        # A float's noise leaves a tie a tie, and no more than that.
        ("0.4999995", METRIC, "nearest", "1 mm"),
        ("-0.4999995", METRIC, "nearest", "-1 mm"),
        ("0.499998", METRIC, "nearest", "0 mm"),
        # Down shrinks the size, up grows it, and noise moves no mark by a step.
        ("2.9", METRIC, "down", "2 mm"),
        ("2.9999995", METRIC, "down", "3 mm"),
        ("2.999998", METRIC, "down", "2 mm"),
        ("-2.9", METRIC, "down", "-2 mm"),
        ("-0.9", METRIC, "down", "0 mm"),
        ("2.1", METRIC, "up", "3 mm"),
        ("2.0000005", METRIC, "up", "2 mm"),
        ("2.000002", METRIC, "up", "3 mm"),
        ("-2.1", METRIC, "up", "-3 mm"),
        ("-0.0000005", METRIC, "up", "0 mm"),
        ("0", METRIC, "up", "0 mm"),
        # 25 mm = 15.748 sixteenths
        ("25", IMPERIAL, "down", '15/16"'),
        ("25", IMPERIAL, "nearest", '1"'),
        ("25", IMPERIAL, "up", '1"'),
        ("25", FINE_IMPERIAL, "down", '31/32"'),
    ],
)
def test_which_way_a_length_rounds(
    mm: str, display: Display, rounding: Rounding, shown: str
) -> None:
    assert show_length(F(mm), display, rounding=rounding) == shown
    assert show_length(float(mm), display, rounding=rounding) == shown


def test_the_rounded_length_is_exact() -> None:
    assert round_length(1519.0, IMPERIAL) == F("59+13/16") * F("25.4")
    assert round_length(0.1 + 0.2, FINE_METRIC, rounding="up") == F("1/2")


@pytest.mark.parametrize(
    ("mm", "error"), [(math.nan, ValueError), (math.inf, OverflowError), (-math.inf, OverflowError)]
)
def test_what_is_no_number_is_not_shown(mm: float, error: type[Exception]) -> None:
    with pytest.raises(error, match="integer ratio"):
        show_length(mm, METRIC)
