"""A survey held against itself at the prompt: what is told, drawn, and how it ends."""

import re
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import Result

from gaugerod.store.shelf import DATA, Library

Run = Callable[..., Result]
Start = Callable[..., "subprocess.CompletedProcess[str]"]

ALCOVE = (DATA / "jobs" / "alcove-1962.toml").read_text(encoding="utf-8")
# The tape's end was held at its first inch, and the inch was not taken off.
BURNED = ALCOVE.replace('at = -28, reads = "60 3/16"', 'at = -28, reads = "61 3/16"')


@pytest.fixture
def burned(tmp_path: Path) -> Path:
    assert BURNED != ALCOVE
    path = tmp_path / "burned.toml"
    path.write_text(BURNED, encoding="utf-8")
    return path


@pytest.mark.parametrize("demo", [demo.name for demo in Library().demos()])
def test_the_packaged_surveys_close(run: Run, tmp_path: Path, demo: str) -> None:
    path = tmp_path / demo
    path.write_bytes((DATA / "jobs" / demo).read_bytes())
    result = run("measure", path)
    assert (result.exit_code, result.stderr) == (0, "")
    lines = result.stdout.splitlines()
    assert lines[1].endswith("0 to look at again, 0 to measure again.")
    assert "The survey may be cut from." in lines
    assert len(lines) < 40
    assert [entry.name for entry in tmp_path.iterdir()] == [demo]


def test_a_burned_inch_is_named(run: Run, burned: Path) -> None:
    result = run("measure", burned)
    assert result.exit_code == 1
    assert "MEASURE AGAIN" in result.stdout.splitlines()[2]
    assert (
        '  A: B width 1 reads 61 3/16", the others say 60 3/16" ± 1/16": burned inch not taken off?'
    ) in result.stdout.splitlines()
    assert len(result.stdout.splitlines()) < 40
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{burned}: Take readings again: suspects: 1;")


def test_the_template_closes_too(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(Library().template(), encoding="utf-8")
    assert run("measure", path).exit_code == 0


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('reads = "61 3/16"', 'reads = "61 3/17"', "on no tape"),
        ('name = "B"  ', 'name = "back"  ', "wall"),
        ('{ kind = "deck"', '{ kind = "dock"', "deck"),
    ],
)
def test_bad_input_is_one_line(run: Run, burned: Path, old: str, new: str, told: str) -> None:
    burned.write_text(BURNED.replace(old, new), encoding="utf-8")
    result = run("measure", burned)
    assert (result.exit_code, result.stdout) == (2, "")
    (line,) = result.stderr.splitlines()
    assert line.startswith(str(burned))
    assert told in line


def test_walls_that_cannot_be_made_are_one_line(run: Run, burned: Path) -> None:
    text = "\n".join(line for line in ALCOVE.splitlines() if '"width", at' not in line)
    burned.write_text(text, encoding="utf-8")
    result = run("measure", burned)
    assert (result.exit_code, result.stdout) == (2, "")
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{burned}: Wall L has no width.")


def test_a_file_that_is_not_there_is_told(run: Run, tmp_path: Path) -> None:
    result = run("measure", tmp_path / "none.toml")
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 1


def test_a_survey_is_drawn(run: Run, burned: Path, tmp_path: Path) -> None:
    out = tmp_path / "deep" / "out"
    result = run("measure", burned, "--out", out)
    assert result.exit_code == 1
    papers = {"survey-L.svg", "survey-B.svg", "survey-R.svg", "survey.pdf"}
    assert {path.name for path in out.iterdir()} == papers
    assert str(out) in result.stdout.splitlines()[-1]
    assert len(result.stdout.splitlines()) < 40
    pages = [page.extract_text() for page in PdfReader(out / "survey.pdf").pages]
    assert len(pages) == 4
    assert "burned inch not taken off?" in " ".join(pages[0].split())
    assert 'A: 61 3\N{FRACTION SLASH}16"' in pages[2]
    assert "lean, bow and fall × 10" in pages[2]
    assert all("lean, bow and fall × " in page for page in pages[1:])


def test_the_same_survey_gives_the_same_papers(run: Run, burned: Path, tmp_path: Path) -> None:
    for name in ("one", "two"):
        run("measure", burned, "--out", tmp_path / name)
    for path in (tmp_path / "one").iterdir():
        assert path.read_bytes() == (tmp_path / "two" / path.name).read_bytes()


def test_drawings_that_cannot_be_written_are_told(run: Run, burned: Path) -> None:
    result = run("measure", burned, "--out", burned)
    assert (result.exit_code, result.stdout) == (2, "")
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{burned}: It cannot be written to")


@pytest.mark.parametrize("units", ["imperial", "metric"])
@pytest.mark.parametrize(("paper", "width"), [("letter", 612), ("a4", 595)])
def test_blank_sheets_are_black_and_legible(
    run: Run, tmp_path: Path, units: str, paper: str, width: int
) -> None:
    result = run("measure", "--blank", "--units", units, "--paper", paper, "--out", tmp_path)
    assert (result.exit_code, result.stderr) == (0, "")
    reader = PdfReader(tmp_path / "blank-survey.pdf")
    assert len(reader.pages) == 4
    unit = {"imperial": "inches and sixteenths", "metric": "millimetres"}[units]
    sizes: list[float] = []
    for page in reader.pages:

        def size(text: str, page: list[float], line: list[float], _: object, points: float) -> None:
            if text.strip():
                sizes.append(points * abs(page[3] * line[3]))

        text = page.extract_text(visitor_text=size)
        assert unit in text
        for word in ("datum", "width", "diagonal, rising", "deck to floor", "hump / hollow"):
            assert word in text
        assert round(page.mediabox.width) == width
        contents = page.get_contents()
        assert contents is not None
        assert set(colours(contents.get_data().decode("latin-1"))) == {"black", "white"}
    assert min(sizes) >= 9.99


def colours(content: str) -> Iterator[str]:
    """Every colour that a page is painted with: grey or red, green and blue."""
    for paint in re.findall(r"((?:[\d.]+ )+)(?:g|G|rg|RG|scn|SCN|k|K)\b", content):
        parts = {float(part) for part in paint.split()}
        yield {frozenset({0.0}): "black", frozenset({1.0}): "white"}.get(frozenset(parts), paint)


def test_blank_sheets_go_where_other_papers_go(start: Start, tmp_path: Path) -> None:
    done = start("measure", "--blank", cwd=tmp_path)
    assert done.returncode == 0
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["blank-survey.pdf"]


@pytest.mark.parametrize("words", [(), ("job.toml", "--blank")])
def test_a_job_or_blank_sheets(run: Run, words: tuple[str, ...]) -> None:
    result = run("measure", *words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == (
        "Name a job file, or ask for blank sheets with --blank: one of the two.\n"
    )
