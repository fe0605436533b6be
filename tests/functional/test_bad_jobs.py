"""Job files with something to mend: one line on stderr, exit 2, no traceback."""

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import Result

from gaugerod.store.shelf import Library

Run = Callable[..., Result]

GOOD = Library().template()
IN_MM = GOOD[: GOOD.index("[[wall]]")].replace('unit = "in"', 'unit = "mm"')
WIDTH = '{ kind = "width", at = -28, reads = "60" },'
WINDOW = """
  { kind = "opening", of = "window", edge = "left", from = "left", reads = "REPLACED" },
  { kind = "opening", of = "window", edge = "width", from = "itself", reads = "24" },
  { kind = "opening", of = "window", edge = "sill", from = "datum", reads = "10" },
  { kind = "opening", of = "window", edge = "head", from = "datum", reads = "34" },
"""


def edited(old: str, new: str) -> str:
    """The template with the first `old` replaced."""
    assert old in GOOD
    return GOOD.replace(old, new, 1)


def with_window(left: str, opening: str = '[[wall.opening]]\nname = "window"\n') -> str:
    """The template with a window on the back wall, so far from the left corner."""
    text = edited(WIDTH, WIDTH + WINDOW.replace("REPLACED", left))
    table = opening and opening + 'kind = "window"\n'
    return text.replace("[[wall]]                       # right", f"{table}\n[[wall]] # right")


def line_of(text: str, part: str) -> int:
    return text[: text.index(part)].count("\n") + 1


def with_accent(row: str) -> str:
    """The template with a row in its table of other products."""
    return edited("[calendar]", f"[[choices.accent]]\n{row}\n\n[calendar]")


# name: (text, words on the line; LINE is the line on which the third stands)
CASES: dict[str, tuple[str, list[str], str]] = {
    "no format": (edited("format = 1\n", ""), ["“format” is missing", "format = …"], ""),
    "another format": (edited("format = 1", "format = 2"), ["format: 2 is none of: 1"], "format ="),
    "no unit": (edited('unit = "in" ', "# "), ["“unit” is missing"], ""),
    "unit unknown": (
        edited('unit = "in"', 'unit = "inch"'),
        ["unit:", "“inch”", "in, mm, cm"],
        "unit =",
    ),
    "a list for a unit": (
        edited('unit = "in"', 'unit = ["in"]'),
        ["unit: […] is none of: in, mm, cm"],
        "unit =",
    ),
    "value missing": (
        edited('at = -28, reads = "60"', "at = -28"),
        ["wall B, readings 1 (width)", "“reads” is missing", "reads = …"],
        '{ kind = "width", at = -28 }',
    ),
    "table missing": (
        edited("[choices]", "[survey.choices]"),
        ["survey: “choices” means nothing here"],
        "[survey.choices]",
    ),
    "a key misspelled": (
        edited('reads = "60"', 'raeds = "60"'),
        ["wall B, readings 1 (width)", "“raeds”", "Was “reads” meant?"],
        "raeds",
    ),
    "a kind misspelled": (
        edited(WIDTH, WIDTH.replace("width", "widht")),
        ["readings 1", "“widht” is none of", "Was “width” meant?"],
        "widht",
    ),
    "a negative width": (
        edited('reads = "60"', 'reads = "-60"'),
        ["wall B, readings 1 (width), reads", "“-60”", "More than nought"],
        '"-60"',
    ),
    "a width that is no number": (
        edited('reads = "60"', "reads = nan"),
        ["wall B, readings 1 (width), reads", "“nan” is no length"],
        "nan",
    ),
    "an endless width": (
        edited('reads = "60"', "reads = inf"),
        ["readings 1 (width), reads", "“inf” is no length"],
        "= inf",
    ),
    "an absurd width": (
        edited('reads = "60"', "reads = 1e9"),
        ["readings 1 (width), reads", "longer than 30 m", "another unit"],
        "1e9",
    ),
    "a yes for a length": (
        edited('reads = "60"', "reads = true"),
        ["readings 1 (width), reads", "“true” is no length"],
        "true },",
    ),
    "a fraction of more than one": (
        edited('reads = "60"', 'reads = "63 9/8"'),
        ["readings 1 (width), reads", "“63 9/8”", "9/8"],
        "63 9/8",
    ),
    "millimetres where inches were meant": (
        edited('reads = "60"', 'reads = "60 mm"'),
        ["readings 1 (width), reads", "2.36 in was read", "was 60 in meant?"],
        '"60 mm"',
    ),
    "inches in a file of millimetres": (
        IN_MM + '[[wall]]\nname = "B"\nreadings = [{ kind = "width", at = 0, reads = 60 }]\n',
        [
            "wall B, readings 1 (width), reads",
            "60 mm was read",
            "150 mm to 6000 mm",
            "60 in meant?",
        ],
        "readings",
    ),
    "millimetres in a file of inches": (
        edited('reads = "60"', "reads = 1524"),
        ["readings 1 (width), reads", "“1524” is longer than 30 m", "“in”"],
        "1524",
    ),
    "a hole as large as a tub": (
        edited('diameter = "3" ', 'diameter = "30" '),
        ["wall L, hole valve, diameter", "30 in was read", "was 30 mm meant?"],
        'diameter = "30"',
    ),
    "a material that is not at hand": (
        edited("keyed-24x12", "no-such"),
        ["choices, material", "“no-such”", "keyed-24x12, sheet-96x48, tile-600x300"],
        "no-such",
    ),
    "another product that is not at hand": (
        with_accent('material = "slate"\nwalls = ["B"]'),
        ["choices, accent 1, material", "“slate”", "keyed-24x12, sheet-96x48, tile-600x300"],
        'material = "slate"',
    ),
    "another product on a wall that is not there": (
        with_accent('material = "keyed-24x12"\nwalls = ["B", "Q"]'),
        ["choices, accent 1, walls 2", "no wall “Q”", "L, B, R"],
        "walls =",
    ),
    "another product in a course that is not there": (
        with_accent('material = "keyed-24x12"\ncourses = [3, 40]'),
        ["Other products, row 1", "no wall has a course 40", "courses run from 1 to "],
        "",
    ),
    "another product in a course that its wall has not": (
        with_accent('material = "keyed-24x12"\nwalls = ["R"]\ncourses = [0]'),
        ["Other products, row 1", "wall R has no course 0", "its courses run from 1 to "],
        "",
    ),
    "another product of another size": (
        with_accent('material = "tile-600x300"\nwalls = ["B"]'),
        [
            "accent 1, material",
            "“tile-600x300” is not set out as keyed-24x12",
            "face, joint, edges",
        ],
        'material = "tile-600x300"',
    ),
    "another product nowhere": (
        with_accent('material = "keyed-24x12"'),
        ["choices, accent 1:", "Give walls, courses or inside"],
        "[[choices.accent]]",
    ),
    "another product inside of nothing": (
        with_accent('material = "keyed-24x12"\ninside = "niche"'),
        ["choices, accent 1, inside", "no niche or window “niche”", "There are: none"],
        "inside =",
    ),
    "a course by halves": (
        with_accent('material = "keyed-24x12"\ncourses = [2.5]'),
        ["choices, accent 1, courses 1", "2.5"],
        "courses =",
    ),
    "an offcut of no product of the job": (
        edited(
            "[calendar]",
            '[[offcut]]\nname = "a"\nsize = [9, 9]\nmaterial = "tile-600x300"\n\n[calendar]',
        ),
        ["offcut a, material", "“tile-600x300” is no product of this job", "keyed-24x12"],
        'material = "tile-600x300"',
    ),
    "rates that are not at hand": (
        edited("[site]", 'rates = "mine"\n[site]'),
        ["rates: “mine”", "shop"],
        'rates = "mine"',
    ),
    "a slip of grammar": (
        edited("[choices]", "[choices"),
        ["At column 9 this is not TOML"],
        "[choices",
    ),
    "an open quote at the end": (GOOD + 'a = """', ["At its end this is not TOML"], ""),
    "a wall twice": (
        edited('name = "R"', 'name = "B"'),
        ["wall B, name", "“B” is given twice"],
        'name = "B"\nreadings = [\n  { kind = "width", at = -28, reads = "32"',
    ),
    "a wall in small letters": (
        edited('name = "R"', 'name = "r"'),
        ["“r” is no name of a wall", "such as B"],
        'name = "r"',
    ),
    "a reading of no hole": (
        edited('of = "valve"', 'of = "vavle"'),
        ["wall L, readings 11 (hole), of", "“vavle”", "valve, spout, arm"],
        "vavle",
    ),
    "a hole without a height": (
        edited('{ kind = "hole", of = "arm", from = "datum", reads = "35" },', ""),
        ["wall L, hole arm", "no reading from the datum"],
        '[[wall.hole]]\nname = "arm"',
    ),
    "a window outside its wall": (
        with_window("55"),
        ['Wall B: the window runs from 55" to 79"', "outside the wall"],
        "",
    ),
    "a window without its table": (
        with_window("18", opening=""),
        ["wall B, readings 2 (opening), of", "“window”", "[[wall.opening]]"],
        '"18"',
    ),
    "no readings": (
        edited("readings = [", "readings = []\nnote = ["),
        ["“note” means nothing here", "wall L"],
        "note = [",
    ),
    "empty readings": (
        GOOD[: GOOD.index("[[wall]]")] + '[[wall]]\nname = "B"\nreadings = []\n',
        ["wall B, readings", "There is no reading"],
        "readings = []",
    ),
    "no widths": (
        GOOD.replace('{ kind = "width"', '# { kind = "width"'),
        ["Wall L", "width"],
        "",
    ),
    "no walls": (GOOD[: GOOD.index("[[wall]]")], ["“wall” is missing", "[[wall]]"], ""),
    "an unknown time zone": (
        edited('"UTC"', '"Mars/Olympus"'),
        ["timezone", "“Mars/Olympus”", "America/Chicago"],
        "Mars",
    ),
    "a time without its minutes": (
        edited("opens = 08:00:00", "opens = 8"),
        ["calendar, opens", "“8” is no time of day", "08:00:00"],
        "opens = 8",
    ),
    "a day as a number": (
        edited("start = 2026-03-02", "start = 20260302"),
        ["calendar, start", "“20260302” is no day", "2026-03-02"],
        "20260302",
    ),
    "a week without work": (
        edited('days = ["mon", "tue", "wed", "thu", "fri"]', "days = []"),
        ["calendar, days", "No day of the week"],
        "days = []",
    ),
    "a centre on no window": (
        edited('bond = "stack"', 'centre = { B = "opening" }\nbond = "stack"'),
        ["choices, centre, B", "no opening to centre on"],
        "centre =",
    ),
    "signs that steer a terminal": (
        edited('reads = "60"', 'reads = "\\u001b[31m\\n60"'),
        ["readings 1 (width), reads", "[31m 60"],
        "\\u001b",
    ),
    "an empty file": ("", ["“format” is missing"], ""),
    "a line without end": ("x" * 20_000, ["Line 1 has more than 10000 characters"], ""),
    "nothing but brackets": ("x = " + "[\n" * 50_000, ["nested too deep"], ""),
    "a number without end": ("x = " + "9" * 5000, ["thousands of digits"], ""),
}


@pytest.mark.parametrize("name", CASES)
def test_one_line_says_where_and_what(run: Run, tmp_path: Path, name: str) -> None:
    text, words, part = CASES[name]
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    told = the_line(run("plan", path, "--out", tmp_path / "out"))
    assert told.startswith(f"{path}:{line_of(text, part)}:" if part else f"{path}:")
    assert [word for word in words if word not in told] == []
    assert not (tmp_path / "out").exists()


def the_line(result: Result) -> str:
    assert (result.exit_code, result.stdout) == (2, "")
    assert isinstance(result.exception, SystemExit)
    (line,) = result.stderr.splitlines()
    return line


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"\x7fELF\x02\x01\x01" + bytes(range(256)), "Line 2 is not UTF-8 text"),
        (b"junk " * 2_000_000, "more than 1000 kB"),
        (GOOD.encode("utf-16"), "Line 1 is not UTF-8 text"),
    ],
    ids=["a program", "10 MB of junk", "another encoding"],
)
def test_what_is_no_job_at_all(run: Run, tmp_path: Path, content: bytes, words: str) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(content)
    assert words in the_line(run("plan", path))


def test_a_file_that_is_not_there(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "none.toml"
    assert the_line(run("plan", path)) == f"{path}: There is no such file."


def test_a_folder_is_no_job(run: Run, tmp_path: Path) -> None:
    assert the_line(run("plan", tmp_path)).startswith(f"{tmp_path}: It cannot be read")


def test_the_job_that_all_these_are_made_from_is_good(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(with_window("18"), encoding="utf-8")
    result = run("plan", path, "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (0, "")


@pytest.mark.parametrize("name", ["a slip of grammar", "a window outside its wall"])
def test_as_a_process_it_is_the_same(
    start: Callable[..., "subprocess.CompletedProcess[str]"], tmp_path: Path, name: str
) -> None:
    text, words, _ = CASES[name]
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    done = start("plan", "job.toml", cwd=tmp_path)
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (2, "", 1)
    assert done.stderr.startswith("job.toml:")
    assert [word for word in words if word not in done.stderr] == []
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]
