"""The commands on good jobs: what they print, what they write, how they end."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TypeVar

import jsonschema
import pytest
from pypdf import PdfReader
from typer.testing import Result

from gaugerod import __version__
from gaugerod.app.ports import StoppedError
from gaugerod.app.story import MOST_LINES
from gaugerod.cli import main
from gaugerod.cli.alarm import Alarm
from gaugerod.core.base.messages import Message
from gaugerod.store.shelf import DATA, Library

T = TypeVar("T")
Run = Callable[..., Result]
Start = Callable[..., "subprocess.CompletedProcess[str]"]

PAPERS = {
    "plan.json",
    "elevation-L.svg",
    "elevation-B.svg",
    "elevation-R.svg",
    "picture.svg",
    "alcove.glb",
    "wall-L.dxf",
    "wall-B.dxf",
    "wall-R.dxf",
    "packet.pdf",
    "rod.pdf",
    "templates.pdf",
    "customer.pdf",
    "order.pdf",
    "order.csv",
    "order.xlsx",
    "days.ics",
}
TILE = (DATA / "materials" / "tile-600x300.toml").read_text(encoding="utf-8")


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(Library().template(), encoding="utf-8")
    return path


def test_the_demo_plans_every_packaged_job(start: Start, tmp_path: Path) -> None:
    done = start("demo", "--out", "papers", cwd=tmp_path)
    folders = {path.name: path for path in (tmp_path / "papers").iterdir()}
    assert folders.keys() == {Path(demo.name).stem for demo in Library().demos()}
    forbids = 0
    for folder in folders.values():
        assert {path.name for path in folder.iterdir()} >= PAPERS
        plan = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
        assert "nvented" in plan["job"]["scenario"]
        forbids += any(found["severity"] == "forbid" for found in plan["findings"])
    assert done.returncode == (1 if forbids else 0)
    assert len(done.stderr.splitlines()) == forbids
    assert all(len(story.splitlines()) <= MOST_LINES + 2 for story in done.stdout.split("\n\n"))


def test_a_new_job_can_be_planned_as_it_is(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "hall.toml"
    assert run("new", path).exit_code == 0
    text = path.read_text(encoding="utf-8")
    (start,) = [line for line in text.splitlines() if line.startswith("start = ")]
    day = date.fromisoformat(start.split()[2])
    assert (day - date.today()).days in range(8)  # noqa: DTZ011  (the day on this computer is meant)
    assert day.weekday() == 0
    result = run("plan", path, "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (0, "")
    assert path.read_text(encoding="utf-8") == text


def test_a_job_that_is_there_is_never_written_over(run: Run, job: Path) -> None:
    before = job.read_bytes()
    result = run("new", job)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{job}: It is there already and stays as it is. Name a new file.\n"
    assert job.read_bytes() == before


def test_a_plan_is_told_and_written(run: Run, job: Path, tmp_path: Path) -> None:
    out = tmp_path / "deep" / "out"
    result = run("plan", job, "--out", out)
    assert (result.exit_code, result.stderr) == (0, "")
    assert {path.name for path in out.iterdir()} == PAPERS
    assert (out / "packet.pdf").read_bytes().startswith(b"%PDF")
    assert (out / "elevation-B.svg").read_text(encoding="utf-8").startswith(("<svg", "<?xml"))
    assert "New alcove" in result.stdout
    assert str(out) in result.stdout.splitlines()[-1]


@pytest.mark.parametrize(("paper", "short"), [("letter", 215.9), ("a4", 210.0)])
def test_all_paper_has_the_size_asked_for(
    run: Run, job: Path, tmp_path: Path, paper: str, short: float
) -> None:
    assert run("plan", job, "--out", tmp_path, "--paper", paper).exit_code == 0
    for name in ("packet.pdf", "customer.pdf", "rod.pdf", "templates.pdf"):
        for page in PdfReader(tmp_path / name).pages:
            sides = (float(page.mediabox.width), float(page.mediabox.height))
            assert min(sides) / 72 * 25.4 == pytest.approx(short, abs=0.1)


def test_walls_without_holes_have_no_templates(run: Run, job: Path, tmp_path: Path) -> None:
    text = job.read_text(encoding="utf-8")
    lines = [line for line in text.split("[[wall.hole]]")[0].splitlines() if '"hole"' not in line]
    rest = text[text.index("[[wall]]", text.index("[[wall.hole]]")) :]
    kept = [line for line in lines if "rough-in" not in line]
    job.write_text("\n".join([*kept, rest]), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    assert {path.name for path in (tmp_path / "out").iterdir()} == PAPERS - {"templates.pdf"}


def test_the_same_job_gives_the_same_papers(run: Run, job: Path, tmp_path: Path) -> None:
    for name in ("one", "two"):
        assert run("plan", job, "--out", tmp_path / name).exit_code == 0
    for name in PAPERS:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_findings_that_forbid_cutting_end_with_one(run: Run, job: Path, tmp_path: Path) -> None:
    # Readings to the studs may be priced from, not cut from.
    text = job.read_text(encoding="utf-8")
    studs = 'surface = "stud"\nlayers = { backer = "12.7 mm" }'
    job.write_text(text.replace('surface = "backer"', studs), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 1
    assert "Do not cut yet." in result.stdout
    assert result.stderr.startswith(f"{job}: Not to be cut from yet")
    assert {path.name for path in (tmp_path / "out").iterdir()} == PAPERS


def test_a_material_of_ones_own_lies_beside_the_job(run: Run, job: Path, tmp_path: Path) -> None:
    folder = tmp_path / "materials"
    folder.mkdir()
    (folder / "mine.toml").write_text(
        TILE.replace('id = "tile-600x300"', 'id = "mine"').replace("Porcelain", "My own"),
        encoding="utf-8",
    )
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("keyed-24x12", "mine"), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 0
    assert "Material: My own wall tile" in result.stdout


def test_a_saw_that_takes_nothing_away_is_planned_for(run: Run, job: Path, tmp_path: Path) -> None:
    folder = tmp_path / "materials"
    folder.mkdir()
    assert "kerf = 2\n" in TILE
    (folder / "mine.toml").write_text(TILE.replace("kerf = 2\n", "kerf = 0\n"), encoding="utf-8")
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("keyed-24x12", "tile-600x300"), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (0, "")
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    assert plan["buy"][0]["proven"]


def test_an_offcut_of_next_to_nothing_changes_nothing(run: Run, job: Path, tmp_path: Path) -> None:
    assert run("plan", job, "--out", tmp_path / "one").exit_code == 0
    speck = '\n[[offcut]]\nname = "speck"\nsize = ["1/64", "1/64"]\n'
    job.write_text(job.read_text(encoding="utf-8") + speck, encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "two")
    assert (result.exit_code, result.stderr) == (0, "")
    plans = [json.loads((tmp_path / n / "plan.json").read_text("utf-8")) for n in ("one", "two")]
    assert plans[0]["buy"] == plans[1]["buy"]


def test_corner_channels_are_set_first_and_nobody_laps(run: Run, job: Path, tmp_path: Path) -> None:
    folder = tmp_path / "materials"
    folder.mkdir()
    channel = '[[trim]]\nid = "channel"\nname = "Channel"\nuse = "inside corner"\n'
    own = TILE.replace("corner = 3\n", "inside = 4\ncorner = 3\n").replace(
        "[sealant]", f"{channel}stock = 2500\nprice = 11.00\n\n[sealant]", 1
    )
    (folder / "mine.toml").write_text(own, encoding="utf-8")
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("keyed-24x12", "tile-600x300"), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert "Set the corner channels first" in result.stdout
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    ends = [(wall["left"], wall["right"]) for wall in plan["layout"]["walls"]]
    assert ends == [("open", "trim"), ("trim", "trim"), ("trim", "open")]
    # Lengths of up to 1.8 m: two corners take two stock lengths of 2.5 m.
    assert "  2 lengths: Channel" in result.stdout


def with_short_edges(job: Path, *fields: str) -> None:
    """Let the job use a tile of which the edge profile comes in lengths of 1.2 m."""
    folder = job.parent / "materials"
    folder.mkdir()
    edge = 'use = "edge"\nstock = 2500\n'
    assert edge in TILE
    more = "".join(f"{field}\n" for field in fields)
    own = TILE.replace(edge, f'use = "edge"\nstock = 1200\n{more}').replace("tile-600x300", "mine")
    (folder / "mine.toml").write_text(own, encoding="utf-8")
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("keyed-24x12", "mine"), encoding="utf-8")


def test_an_edge_longer_than_its_profile_is_jointed(run: Run, job: Path, tmp_path: Path) -> None:
    with_short_edges(job)
    result = run("plan", job, "--out", tmp_path / "out")
    assert "the fewest possible with their joints where they are (proven)." in result.stdout
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    cuts = [cut for stock in plan["trims"] for cut in stock["runs"] if stock["trim"] == "edge"]
    # Two ends of 1.69 m are over two lengths of 1.2 m. Halves would take four; with a whole
    # length and 0.49 m each, both rests come from a third.
    (edge,) = [count for count in plan["trim_counts"] if count["trim"] == "edge"]
    assert (edge["lengths"], edge["proven"]) == (3, True)
    assert sorted((cut["wall"], cut["part"], cut["parts"]) for cut in cuts) == [
        ("L", 1, 2),
        ("L", 2, 2),
        ("R", 1, 2),
        ("R", 2, 2),
    ]
    assert sorted(round(cut["length"], -1) for cut in cuts) == [490, 490, 1200, 1200]


def test_a_profile_that_may_be_jointed_nowhere_is_told_in_one_line(
    run: Run, job: Path, tmp_path: Path
) -> None:
    with_short_edges(job, "no_joint_from_end = 1000")
    result = run("plan", job, "--out", tmp_path / "out")
    assert (result.exit_code, result.stdout) == (2, "")
    (line,) = result.stderr.splitlines()
    assert "Edge profile, 10 mm, wall L, left end: " in line
    assert "longer than the stock of " in line


def test_or_in_a_folder_that_is_named(run: Run, job: Path, tmp_path: Path) -> None:
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    own = TILE.replace('id = "tile-600x300"', 'id = "keyed-24x12"').replace("Porcelain", "My own")
    (folder / "mine.toml").write_text(own, encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out", "--materials", folder)
    assert result.exit_code == 0
    assert "Material: My own wall tile" in result.stdout


def test_a_material_to_be_mended_is_told_in_one_line(run: Run, job: Path, tmp_path: Path) -> None:
    folder = tmp_path / "materials"
    folder.mkdir()
    path = folder / "mine.toml"
    path.write_text(TILE.replace('kind = "grouted"', 'kind = "keyed"'), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 2
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{path}: A keyed module has tongues and grooves.")


def test_rates_of_ones_own_change_the_price(run: Run, job: Path, tmp_path: Path) -> None:
    shop = (DATA / "rates" / "shop.toml").read_text(encoding="utf-8")
    folder = tmp_path / "rates"
    folder.mkdir()
    own = shop.replace('currency = "USD"', 'currency = "EUR"')
    (folder / "shop.toml").write_text(own, encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 0
    assert "Price €" in result.stdout


@pytest.mark.parametrize("name", ["materials", "rates"])
def test_a_folder_that_is_not_there_is_told(run: Run, job: Path, tmp_path: Path, name: str) -> None:
    result = run("plan", job, f"--{name}", tmp_path / "none")
    assert result.exit_code == 2
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{tmp_path / 'none'}: It cannot be read")


def test_papers_that_cannot_be_written_are_told(run: Run, job: Path) -> None:
    result = run("plan", job, "--out", job)
    assert (result.exit_code, result.stdout) == (2, "")
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{job}: It cannot be written to")


def test_planning_that_takes_too_long_is_planned_at_once(
    run: Run, job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A bell that rings at once the first time, so that no clock is in the test.
    rung: list[float] = []

    class Bell(Alarm):
        def run(self, work: Callable[[], T]) -> T:
            rung.append(self.seconds or 0.0)
            if len(rung) == 1:
                raise StoppedError(Message("app.stopped", seconds=self.seconds or 0.0))
            return work()

    monkeypatch.setattr(main, "Alarm", Bell)
    result = run("plan", job, "--out", tmp_path / "out", "--within", "5")
    assert (result.exit_code, rung) == (0, [5.0, 5.0])
    assert "not found within 5" in result.stdout
    (bought,) = json.loads((tmp_path / "out" / "plan.json").read_text("utf-8"))["buy"]
    assert bought["proven"] == (bought["lower_bound"] == bought["modules"])


def test_planning_within_a_time_that_is_enough(run: Run, job: Path, tmp_path: Path) -> None:
    assert run("plan", job, "--out", tmp_path / "out", "--within", "60").exit_code == 0


@pytest.mark.parametrize("name", ["job", "plan", "material", "rates", "past"])
def test_a_schema_is_a_schema(run: Run, name: str) -> None:
    result = run("schema", name)
    assert result.exit_code == 0
    jsonschema.Draft202012Validator.check_schema(json.loads(result.stdout))


def test_the_version_is_told(start: Start) -> None:
    assert start("--version").stdout == f"gaugerod {__version__}\n"


def test_without_a_command_help_is_told(run: Run) -> None:
    result = run()
    assert "demo" in result.output
    assert "plan" in result.output


@pytest.mark.parametrize("words", [("plan",), ("plan", "a", "b"), ("nothing",), ("schema", "x")])
def test_a_command_that_is_none_ends_with_two(run: Run, words: tuple[str, ...]) -> None:
    result = run(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Traceback" not in result.stderr


def test_a_terminal_without_typographic_signs_is_no_trouble(job: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "gaugerod", "plan", "none.toml"],
        check=False,
        capture_output=True,
        cwd=job.parent,
        env={**os.environ, "PYTHONIOENCODING": "ascii:strict"},
    )
    assert (done.returncode, done.stderr.count(b"\n")) == (2, 1)
