from dataclasses import replace

import pytest
from tests.fixtures_plan import INCHES, words_in
from tests.odd_surveys import demo
from tests.unit.core.survey.test_flatness import FLAT, HOLLOW, judged

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job, Survey
from gaugerod.core.survey.closures import closures
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.flatness import WallFlatness
from gaugerod.core.survey.walls import Suspect, Walls
from gaugerod.packet.paper import Heading, PageBreak, Paper, Paragraph, Picture, Table
from gaugerod.packet.survey import flatness_drawings, survey_drawings, survey_paper

WORDS = words_in(INCHES)
GUESS = Message("survey.slip-swapped", one="B width 1", other="B width 2")


@pytest.fixture(scope="module")
def job() -> Job:
    return demo("alcove-1962")


@pytest.fixture(scope="module")
def walls(job: Job) -> Walls:
    return fit_walls(job)


def paper_of(job: Job, walls: Walls, *flatness: WallFlatness) -> Paper:
    return survey_paper(job, closures(job), walls, flatness, WORDS)


def headings(paper: Paper) -> list[str]:
    return [block.text for block in paper.sections if isinstance(block, Heading)]


def paragraphs(paper: Paper, style: str) -> list[str]:
    return [b.text for b in paper.sections if isinstance(b, Paragraph) and b.style == style]


def test_a_sound_survey_says_so_and_shows_every_wall(job: Job, walls: Walls) -> None:
    paper = paper_of(job, walls)
    assert paragraphs(paper, "strong") == ["The survey may be cut from."]
    assert paragraphs(paper, "boxed") == []
    assert headings(paper) == [
        "Survey",
        "Take next:",
        "Closures, the worst first",
        "L, the left end wall",
        "B, the back wall",
        "R, the right end wall",
    ]
    pictures = [block.drawing for block in paper.sections if isinstance(block, Picture)]
    assert pictures == list(survey_drawings(job, walls, WORDS))
    assert sum(isinstance(block, PageBreak) for block in paper.sections) == 3
    assert paper.size == "us-letter"


def test_every_closure_has_a_row_the_worst_boxed(job: Job, walls: Walls) -> None:
    bad = replace(closures(job)[0], verdict="re-measure")
    paper = survey_paper(job, (bad, *closures(job)[1:]), walls, (), WORDS, size="a4")
    (table,) = [block for block in paper.sections if isinstance(block, Table)]
    assert len(table.rows) == len(closures(job))
    assert table.boxed == (0,)
    assert (table.rows[0][0], table.rows[1][0], paper.size) == ("measure again", "go", "a4")


def test_a_suspect_is_told_in_front_and_on_its_wall(job: Job, walls: Walls) -> None:
    suspects = (
        Suspect(readings=("B width 1", "B width 2"), w=7.0, guess=GUESS),
        Suspect(readings=("L deck 1",), w=-5.0, guess=None),
    )
    reasons = (Message("survey.suspect", readings="B width 1", w=7.0), Message("survey.scattered"))
    worse = replace(walls, suspects=suspects, fit_for="price", reasons=reasons)
    paper = paper_of(job, worse)
    front, *on_walls = paragraphs(paper, "boxed")
    assert front == "The survey may be priced and ordered from, not cut from."
    assert on_walls == [f"A: {WORDS.say(GUESS)}"]
    assert any(text.startswith("The readings scatter") for text in paragraphs(paper, "plain"))
    table = next(block for block in paper.sections if isinstance(block, Table))
    assert [row[0] for row in table.rows] == ["A", "B"]
    assert table.rows[1][1] == "Suspect: L deck 1 (5 sigmas off). Take it again."
    heights = [block.height for block in paper.sections if isinstance(block, Picture)]
    assert heights[1] < heights[0] == heights[2]


def test_notes_and_flatness_are_told(job: Job, walls: Walls) -> None:
    note = Message("flatness.one-line", wall="B", surface="backer")
    flat = WallFlatness(
        wall="B", verdict="within", judged=(), surfaces=(), shims=None, notes=(note,)
    )
    paper = survey_paper(job, (), replace(walls, notes=(GUESS,)), (flat,), WORDS)
    assert {"To know:", "Flatness:"} <= set(headings(paper))
    assert "Closures, the worst first" not in headings(paper)
    assert WORDS.say(note) in paragraphs(paper, "plain")


def test_patch_maps_and_shims_have_pages_of_their_own(job: Job, walls: Walls) -> None:
    flat = judged(HOLLOW, FLAT)
    studs = judged(HOLLOW, FLAT, survey=Survey(surface="stud"))
    drawings = flatness_drawings(walls, (flat, studs), WORDS)
    assert [one.name for one in drawings] == ["patch-B-backer-flat", "patch-B-shims"]
    paper = survey_paper(job, (), walls, (flat, studs), WORDS)
    pictures = [block.drawing for block in paper.sections if isinstance(block, Picture)]
    assert pictures[-2:] == list(drawings)
    told = paragraphs(paper, "small")
    assert told[-2].startswith("Hatched: to be filled.")
    assert told[-1].startswith("The thickness stands")
