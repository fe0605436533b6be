"""Every file of a demo as it lies in its folder: whole, readable, the same each time."""

import os
import re
import subprocess
import sys
import zipfile
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from ezdxf import recover
from ezdxf.lldxf.tagwriter import TagCollector
from pypdf import PdfReader
from tests.functional.conftest import Run

JOBS = files("gaugerod") / "data" / "jobs"
DEMOS = ("alcove-1962", "niche-tile")
PAPERS = ["customer.pdf", "order.pdf", "packet.pdf", "rod.pdf", "templates.pdf"]
HANDLES = {5, 330}
"""Group codes of an entity's handle and its owner's. Source: DXF reference, found."""


@pytest.fixture(scope="module", params=DEMOS)
def twice(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, Path]:
    """One demo planned in two processes that hash words otherwise."""
    made = tmp_path_factory.mktemp("twice")
    job = made / f"{request.param}.toml"
    job.write_text((JOBS / job.name).read_text(encoding="utf-8"), encoding="utf-8")
    folders = (made / "one", made / "two")
    for seed, folder in zip(("1", "4242"), folders, strict=True):
        subprocess.run(
            [sys.executable, "-m", "gaugerod", "plan", str(job), "--out", str(folder)],
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONHASHSEED": seed},
            timeout=120,
        )
    return folders


def named(folder: Path, *suffixes: str) -> list[Path]:
    return sorted(path for path in folder.iterdir() if path.suffix in suffixes)


def undated(path: Path) -> bytes:
    """A file without the day it was made on, which a calendar must bear."""
    return re.sub(rb"DTSTAMP:[^\r]*", b"", path.read_bytes())


def test_the_same_job_gives_the_same_bytes(twice: tuple[Path, Path]) -> None:
    one, two = twice
    assert [path.name for path in one.iterdir()] == [path.name for path in two.iterdir()]
    alike = named(one, ".json", ".svg", ".pdf", ".csv", ".glb", ".ics")
    assert {path.suffix for path in alike} == {".json", ".svg", ".pdf", ".csv", ".glb", ".ics"}
    assert [path.name for path in alike if undated(path) != undated(two / path.name)] == []


def drawn(path: Path) -> list[tuple[int, str]]:
    """Every tag of every entity of a drawing, but for the handles that it is filed under."""
    document, audit = recover.read(BytesIO(path.read_bytes()))
    assert (audit.errors, audit.fixes) == ([], [])
    tags = [tag for entity in document.modelspace() for tag in TagCollector.dxftags(entity)]
    return [(tag.code, str(tag.value)) for tag in tags if tag.code not in HANDLES]


def test_the_same_job_draws_the_same_walls(twice: tuple[Path, Path]) -> None:
    one, two = twice
    walls = named(one, ".dxf")
    assert len(walls) == 3
    for path in walls:
        tags = drawn(path)
        assert len(tags) > 1000
        assert tags == drawn(two / path.name)


def parts(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as book:
        return {name: book.read(name) for name in book.namelist()}


def test_the_same_job_orders_the_same(twice: tuple[Path, Path]) -> None:
    one, two = twice
    assert parts(one / "order.xlsx") == parts(two / "order.xlsx")


def assert_whole(path: Path) -> None:
    """Let qpdf read every object of a document, its cross-reference table and its streams."""
    done = subprocess.run(["qpdf", "--check", path], check=False, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    assert "No syntax or stream encoding errors found" in done.stdout


def test_a_torn_paper_is_found_out(tmp_path: Path) -> None:
    (tmp_path / "torn.pdf").write_bytes(b"%PDF-1.7\n1 0 obj\n<< /Type /Catalog")
    with pytest.raises(AssertionError):
        assert_whole(tmp_path / "torn.pdf")


def test_every_paper_is_whole(twice: tuple[Path, Path]) -> None:
    papers = named(twice[0], ".pdf")
    assert [path.name for path in papers] == PAPERS
    for path in papers:
        done = subprocess.run(
            ["qpdf", "--check", path], check=False, capture_output=True, text=True
        )
        assert (done.returncode, done.stderr) == (0, "")
        assert "No syntax or stream encoding errors found" in done.stdout


def test_every_sheet_can_be_read_and_bears_job_revision_and_number(
    twice: tuple[Path, Path],
) -> None:
    name = re.search(r'^name = "(.*)"', job_of(twice), re.MULTILINE)
    assert name
    for path in named(twice[0], ".pdf"):
        texts = [page.extract_text() for page in PdfReader(path).pages]
        for number, text in enumerate(texts, start=1):
            assert name[1] in text
            assert "Revision 1" in text
            assert f"Page {number} of {len(texts)}" in text
            assert len(text.split()) > 15


def job_of(twice: tuple[Path, Path]) -> str:
    (job,) = twice[0].parent.glob("*.toml")
    return job.read_text(encoding="utf-8")


def test_every_drawing_is_well_formed(twice: tuple[Path, Path]) -> None:
    drawings = named(twice[0], ".svg")
    assert len(drawings) == 4
    for path in drawings:
        root = ET.parse(path).getroot()  # noqa: S314  (our own output)
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        # Every fill that points at a pattern finds it.
        ids = {node.get("id") for node in root.iter()}
        fills = {node.get("fill", "") for node in root.iter()}
        pointed = {fill[5:-1] for fill in fills if fill.startswith("url(#")}
        assert pointed <= ids


def test_no_file_weighs_two_megabytes(twice: tuple[Path, Path]) -> None:
    assert all(path.stat().st_size < 2_000_000 for path in twice[0].iterdir())


def test_papers_of_the_other_commands_are_whole_too(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text((JOBS / "alcove-1962.toml").read_text(encoding="utf-8"), encoding="utf-8")
    for command in ("measure", "options"):
        assert run(command, job, "--out", tmp_path / command).exit_code == 0
        papers = named(tmp_path / command, ".pdf")
        assert papers
        for path in papers:
            assert_whole(path)
        for drawing in named(tmp_path / command, ".svg"):
            ET.parse(drawing)  # noqa: S314  (our own output)


def test_the_licence_of_the_fonts_goes_wherever_they_go() -> None:
    shelf = files("gaugerod") / "data" / "paper" / "fonts"
    licence = (shelf / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    fonts = [one.name for one in shelf.iterdir() if one.name.endswith(".otf")]
    assert sorted(fonts) == ["Inter-Bold.otf", "Inter-Regular.otf"]
