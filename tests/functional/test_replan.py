"""Planning again from the command line, after days on site."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import Result

from gaugerod.store.shelf import Library

Run = Callable[..., Result]

LINE = """format = 1
unit = "in"

[[day]]
on = 2027-03-04
set = [ "B1" ]

[[day.line]]
wall = "B"
course = 1
right = "-3/16"
"""


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    (source,) = (demo for demo in Library().demos() if demo.name == "alcove-1962.toml")
    file = tmp_path_factory.mktemp("job") / "alcove.toml"
    file.write_bytes(source.source)
    return file


def test_a_line_that_lies_low_is_followed(run: Run, job: Path, tmp_path: Path) -> None:
    days = tmp_path / "days.toml"
    days.write_text(LINE, encoding="utf-8")
    result = run("replan", job, days, "--out", tmp_path / "out")
    assert result.exit_code == 0, result.output
    first, second, *rest = result.stdout.splitlines()
    assert first == "Day 1: 3 of 41 pieces hang."
    assert second.startswith("B: the top of course 1 lies true at the left end and 3/16")
    assert " low at the right; " in second
    assert any(line.startswith("B2-1: ") for line in rest)
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    assert plan["hangs"] == ["B1-1", "B1-2", "B1-3"]
    tilts = {piece["tag"]: piece["tilt"] for piece in plan["pieces"]}
    assert tilts["B2-1"] < 0
    assert tilts["B1-1"] == tilts["L1-1"] == 0


def test_all_that_hangs_is_told(run: Run, job: Path, tmp_path: Path) -> None:
    days = tmp_path / "days.toml"
    walls = 'set = [ "L", "B", "R" ]'
    days.write_text(f'format = 1\nunit = "in"\n[[day]]\n{walls}\n', encoding="utf-8")
    result = run("replan", job, days, "--out", tmp_path / "out")
    assert "All pieces hang." in result.stdout
    assert "Nothing changes for what is left: the cards stay as they are." in result.stdout


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('set = [ "B9" ]', "days.toml:4: day 1, set 1: “B9” is no piece, course or wall"),
        ("broken = -1", "days.toml:4: day 1, broken: -1 is too small."),
        ('sett = [ "B1" ]', "days.toml:4: day 1: “sett” means nothing here. Was “set” meant?"),
        (
            '[[day.line]]\nwall = "B"\ncourse = 1\nright = "1/16"',
            "days.toml:4: day 1, line 1: a line can be told of a course that hangs whole",
        ),
    ],
)
def test_days_that_are_not_of_the_job_are_refused(
    run: Run, job: Path, tmp_path: Path, text: str, said: str
) -> None:
    days = tmp_path / "days.toml"
    days.write_text(f'format = 1\nunit = "in"\n[[day]]\n{text}\n', encoding="utf-8")
    result = run("replan", job, days, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert said in result.stderr.replace("\n", "")
    assert len(result.stderr.splitlines()) == 1
    assert not (tmp_path / "out").exists()


def test_a_file_that_is_not_there_is_told(run: Run, job: Path, tmp_path: Path) -> None:
    result = run("replan", job, tmp_path / "none.toml", "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert "none.toml: There is no such file." in result.stderr


def test_what_hangs_has_no_template_any_more(run: Run, job: Path, tmp_path: Path) -> None:
    days = tmp_path / "days.toml"
    walls = 'set = [ "L", "B", "R" ]'
    days.write_text(f'format = 1\nunit = "in"\n[[day]]\n{walls}\n', encoding="utf-8")
    result = run("replan", job, days, "--out", tmp_path / "out", "--paper", "a4")
    assert result.exit_code == 0, result.output
    (page,) = PdfReader(tmp_path / "out" / "templates.pdf").pages
    assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(210.0, abs=0.1)
