"""Laws of reading and showing lengths."""

from fractions import Fraction

from hypothesis import assume, example, given
from hypothesis import strategies as st

from gaugerod.core.base.errors import LengthError
from gaugerod.core.base.lengths import (
    FINE_IMPERIAL,
    FINE_METRIC,
    IMPERIAL,
    METRIC,
    Display,
    Rounding,
    Unit,
    parse_length,
    round_length,
    show_length,
)
from gaugerod.core.base.stations import rounded_stations

INCH = Fraction("25.4")  # NIST SP 811, from memory
NOISE = Fraction(1, 10**6)
UNITS: tuple[Unit, ...] = ("in", "mm", "cm")
STEPS = {
    IMPERIAL: INCH / 16,
    FINE_IMPERIAL: INCH / 32,
    METRIC: Fraction(1),
    FINE_METRIC: Fraction(1, 2),
}
SPACE = st.sampled_from(["", " ", "  ", "\N{NO-BREAK SPACE}"])
GLYPHS = {(1, 2): "½", (1, 4): "¼", (3, 4): "¾", (1, 8): "⅛", (3, 8): "⅜", (5, 8): "⅝", (7, 8): "⅞"}
KEYPAD = "0123456789" * 2 + " /.-+'\"½⅜,’”−" + "infshymcdtrongbael"

displays = st.sampled_from(list(STEPS))
roundings: st.SearchStrategy[Rounding] = st.sampled_from(["nearest", "down", "up"])
lengths = st.floats(-1e5, 1e5) | st.fractions(-(10**5), 10**5)


@st.composite
def tape_fractions(draw: st.DrawFn) -> tuple[Fraction, str]:
    below = draw(st.sampled_from([2, 4, 8, 16, 32, 64]))
    above = draw(st.integers(0, below - 1))
    spellings = [f"{above}/{below}", f"{above} / {below}", f"{above}\N{FRACTION SLASH}{below}"]
    if (above, below) in GLYPHS:
        spellings.append(GLYPHS[above, below])
    return Fraction(above, below), draw(st.sampled_from(spellings))


@st.composite
def inches(draw: st.DrawFn, most: int) -> tuple[Fraction, str]:
    """A number of inches and one way to write it: decimal, whole, fraction or mixed."""
    whole = draw(st.integers(0, most))
    form = draw(st.sampled_from(["decimal", "whole", "fraction", "mixed"]))
    if form == "decimal":
        thousandths = draw(st.integers(0, 999))
        return whole + Fraction(thousandths, 1000), f"{whole}.{thousandths:03}"
    if form == "whole":
        return Fraction(whole), str(whole)
    fraction, spelling = draw(tape_fractions())
    if form == "fraction":
        return fraction, spelling
    joint = draw(st.sampled_from([" ", "-", "  ", " - ", "\N{EN DASH}"]))
    return whole + fraction, f"{whole}{joint}{spelling}"


@st.composite
def written_inches(draw: st.DrawFn) -> tuple[Fraction, str]:
    """A length in inches, or feet and inches, that names its unit, and its value in mm."""
    feet = ""
    value = Fraction(0)
    if draw(st.booleans()):
        count = draw(st.integers(0, 20))
        foot = draw(st.sampled_from(["'", "’", "′", "ft", "ft. ", " feet", "FT"]))
        joint = draw(st.sampled_from(["", " ", "-", " - "]))
        feet, value = f"{count}{foot}{joint}", Fraction(12 * count)
    rest, spelling = draw(inches(11 if feet else 300))
    # After feet, inches need no mark; without feet they do, so that no unit is guessed.
    marks = ['"', "”", "″", "''", "in", " in.", " inches"] + ([""] if feet else [])
    mark = draw(st.sampled_from(marks))
    strength, name = draw(
        st.sampled_from(
            [
                (0, ""),
                (1, "+"),
                (-1, "-"),
                (1, " strong"),
                (-1, " shy"),
                (1, " full"),
                (-1, " bare"),
            ]
        )
    )
    sign = draw(st.sampled_from(["", "-", "−", "- "]))
    size = (value + rest + Fraction(strength, 32)) * INCH
    text = f"{draw(SPACE)}{sign}{feet}{spelling}{mark}{name}{draw(SPACE)}"
    return (-size if sign else size), text


@given(written_inches(), st.sampled_from(UNITS))
def test_what_is_composed_is_read(written: tuple[Fraction, str], unit: Unit) -> None:
    mm, text = written
    assume(len(text) <= 40)
    assert parse_length(text, unit=unit) == mm


@given(st.decimals(0, 10**5, places=3), st.sampled_from([("mm", 1), ("cm", 10), ("m", 1000)]))
def test_metric_that_is_composed_is_read(number: object, named: tuple[str, int]) -> None:
    name, mm = named
    for unit in UNITS:
        assert parse_length(f"{number} {name}", unit=unit) == Fraction(str(number)) * mm


@given(st.decimals(-(10**5), 10**5, places=3))
def test_the_unit_scales_a_plain_number_and_nothing_else(number: object) -> None:
    as_mm, as_cm, as_inches = (parse_length(str(number), unit=u) for u in ("mm", "cm", "in"))
    assert as_mm == Fraction(str(number))
    assert as_cm == 10 * as_mm
    assert as_inches == INCH * as_mm


@given(st.text(KEYPAD, max_size=20), st.sampled_from(UNITS))
@example("5'-+", "in")
@example("0-", "in")
def test_keypad_text_is_read_or_refused(text: str, unit: Unit) -> None:
    read_or_refused(text, unit)


@given(st.text(), st.sampled_from(UNITS))
def test_any_text_is_read_or_refused(text: str, unit: Unit) -> None:
    read_or_refused(text, unit)


def read_or_refused(text: str, unit: Unit) -> None:
    try:
        mm = parse_length(text, unit=unit)
    except LengthError as error:
        message = error.message
    else:
        assert isinstance(mm, Fraction)
        assert any(character.isnumeric() for character in text)
        return
    at = message.values["at"]
    assert message.key.startswith("length.")
    assert isinstance(at, int)
    assert 1 <= at <= len(text) + 1


@given(lengths, displays, st.sampled_from(UNITS))
def test_what_is_shown_reads_back_within_half_a_step(
    mm: float | Fraction, display: Display, unit: Unit
) -> None:
    read = parse_length(show_length(mm, display), unit=unit)
    assert read == round_length(mm, display)
    assert abs(read - Fraction(mm)) <= STEPS[display] / 2 + NOISE


@given(lengths, displays)
def test_down_and_up_hold_the_length_between_them(mm: float | Fraction, display: Display) -> None:
    size = abs(Fraction(mm))
    down = abs(round_length(mm, display, rounding="down"))
    up = abs(round_length(mm, display, rounding="up"))
    assert down - NOISE <= size <= up + NOISE
    assert size - STEPS[display] < down
    assert up < size + STEPS[display]
    assert abs(round_length(mm, display)) in {down, up}


@given(lengths, displays, roundings)
def test_a_lean_left_mirrors_a_lean_right(
    mm: float | Fraction, display: Display, rounding: Rounding
) -> None:
    right = round_length(mm, display, rounding=rounding)
    assert round_length(-mm, display, rounding=rounding) == -right
    shown = [show_length(x, display, rounding=rounding) for x in (mm, -mm)]
    assert shown[0].removeprefix("-") == shown[1].removeprefix("-")


@given(lengths, displays)
def test_a_shown_length_is_in_lowest_terms_and_zero_has_no_sign(
    mm: float | Fraction, display: Display
) -> None:
    shown = show_length(mm, display)
    number = shown.removeprefix("-").removesuffix(" mm").removesuffix('"')
    if not number.strip("0"):
        assert not shown.startswith("-")
    if "/" in number:
        above, below = map(int, number.split()[-1].split("/"))
        assert above % 2 == 1
        assert 0 < above < below <= display.step.denominator


@given(st.integers(-4000, 4000), displays, st.floats(-4e-7, 4e-7))
def test_noise_moves_neither_a_tie_nor_a_step(half: int, display: Display, noise: float) -> None:
    exact = half * STEPS[display] / 2
    noisy = float(exact) + noise
    assert round_length(noisy, display) == round_length(exact, display)
    if half % 2 == 0:
        assert round_length(noisy, display, rounding="down") == exact
        assert round_length(noisy, display, rounding="up") == exact


@given(lengths, st.floats(-1e3, 1e3), st.integers(0, 60), displays)
def test_no_mark_strays_by_more_than_half_a_step(
    start: float | Fraction, pitch: float, count: int, display: Display
) -> None:
    marks = rounded_stations(start=start, pitch=pitch, count=count, display=display)
    assert len(marks) == count
    for number, mark in enumerate(marks):
        exact = Fraction(start) + number * Fraction(pitch)
        assert abs(mark - exact) <= STEPS[display] / 2 + NOISE
