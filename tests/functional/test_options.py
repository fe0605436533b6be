"""The options at the prompt: told, drawn, asked about, refused."""

from collections.abc import Callable
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import Result

from gaugerod.store.shelf import DATA, Library

Run = Callable[..., Result]


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "alcove.toml"
    path.write_bytes((DATA / "jobs" / "alcove-1962.toml").read_bytes())
    return path


@pytest.mark.parametrize("demo", [demo.name for demo in Library().demos()])
def test_options_are_told_on_one_screen(run: Run, tmp_path: Path, demo: str) -> None:
    path = tmp_path / demo
    path.write_bytes((DATA / "jobs" / demo).read_bytes())
    result = run("options", path)
    assert (result.exit_code, result.stderr) == (0, "")
    lines = result.stdout.splitlines()
    assert len(lines) < 40
    for pick in ("looks first", "saw least", "buy least"):
        assert sum(pick in line for line in lines if not line.startswith("The job picks")) == 1
    assert [entry.name for entry in tmp_path.iterdir()] == [demo]


def test_options_are_drawn(run: Run, job: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    result = run("options", job, "--out", out)
    assert result.exit_code == 0
    names = sorted(entry.name for entry in out.iterdir())
    assert names[-1] == "options.pdf"
    assert names[0] == "option-A.svg"
    text = "".join(page.extract_text() for page in PdfReader(out / "options.pdf").pages)
    assert text.count("Gives up:") == len(names) - 1


def test_why_not_this_one(run: Run, job: Path) -> None:
    asked = ("--ask", "bond=half", "--ask", "centre.B=joint", "--ask", "centre.L=front")
    result = run("options", job, *asked)
    assert result.exit_code == 0
    assert "Asked about: lying, half; first course " in result.stdout
    assert ", against 35 of the pick." in result.stdout


@pytest.mark.parametrize(
    ("asked", "starts"),
    [
        ("colour=blue", "--ask colour=blue: what may be asked about is turn, bond, "),
        ("turn", "--ask turn: what may be asked about is "),
        ("phase=3", "--ask phase=3: what may be asked about is "),
        ("turn.B=standing", "--ask turn.B=standing: what may be asked about is "),
        ("turn=sideways", "--ask turn=sideways: this cannot be so."),
        ("bond=2", "--ask bond=2: this cannot be so."),
        ("first_height=tall", "--ask first_height=tall: this cannot be so."),
    ],
)
def test_what_cannot_be_asked_is_said_in_one_line(
    run: Run, job: Path, asked: str, starts: str
) -> None:
    result = run("options", job, "--ask", asked)
    assert result.exit_code == 2
    assert result.stderr.startswith(starts)
    assert len(result.stderr.splitlines()) == 1


def test_a_wall_that_is_not_there_is_named(run: Run, job: Path) -> None:
    result = run("options", job, "--ask", "centre.Z=joint")
    assert result.exit_code == 2
    assert "Z" in result.stderr
    assert len(result.stderr.splitlines()) == 1
