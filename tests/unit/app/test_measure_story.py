from dataclasses import replace

import pytest
from tests.unit.app.conftest import FakeLibrary, FakeSource

from gaugerod.app.measure_job import Measured, measure
from gaugerod.app.measure_story import tell_survey
from gaugerod.app.plan_job import make_ready
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.readings import Gap
from gaugerod.core.survey.flatness import WallFlatness
from gaugerod.core.survey.walls import Suspect, Walls

TAKE = Message("survey.take-diagonal", wall="B")
GUESS = Message("survey.slip-swapped", one="B width 1", other="B width 2")


@pytest.fixture
def made(source: FakeSource, library: FakeLibrary) -> Measured:
    return measure(make_ready(source, library), library.tolerances())


@pytest.fixture
def words(source: FakeSource, library: FakeLibrary) -> Catalogue:
    return make_ready(source, library).words


def changed(made: Measured, **changes: object) -> Measured:
    walls: Walls = replace(made.walls, **changes)  # type: ignore[arg-type]  # names are the test's
    return replace(made, walls=walls)


def test_what_is_wrong_comes_first(made: Measured, words: Catalogue) -> None:
    bad = replace(made.closures[0], verdict="re-measure", ratio=9.0)
    worse = replace(made, closures=(bad, *made.closures))
    lines = tell_survey(worse, words)
    assert lines[0] == "Sample alcove. Invented."
    assert lines[1].endswith("0 to look at again, 1 to measure again.")
    assert lines[2].startswith("  MEASURE AGAIN: ")
    assert lines[3].startswith("  go: ")


def test_a_suspect_has_a_letter_and_a_guess(made: Measured, words: Catalogue) -> None:
    suspects = (
        Suspect(readings=("B width 1", "B width 2"), w=7.0, guess=GUESS),
        Suspect(readings=("L deck 1",), w=-4.25, guess=None, decide=TAKE),
    )
    lines = tell_survey(changed(made, suspects=suspects), words)
    start = lines.index("Suspect readings, the worst first:") + 1
    assert lines[start : start + 3] == [
        "  A: B width 1 and B width 2 fit if they change places: written the wrong way round?",
        "  B: Suspect: L deck 1 (4.25 sigmas off). Take it again.",
        "     Wall B: read a diagonal from corner to corner.",
    ]


def test_a_suspect_is_no_reason_twice(made: Measured, words: Catalogue) -> None:
    reasons = (
        Message("survey.suspect", readings="B width 1", w=7.0),
        Message("survey.scattered"),
    )
    lines = tell_survey(changed(made, fit_for="price", reasons=reasons), words)
    verdict = lines.index("The survey may be priced and ordered from, not cut from.")
    assert lines[verdict + 1].startswith("  The readings scatter more")
    assert len(lines) == verdict + 3


def test_the_last_line_is_the_statistics(made: Measured, words: Catalogue) -> None:
    lines = tell_survey(changed(made, readings=(), dof=5, sigma0=1.5, chance=0.0625), words)
    assert lines[-1] == (
        "0 readings, 5 more than are needed. Variance factor 2.25 (1 is as expected); by chance "
        "alone it would be larger 6.2 % of the time."
    )


def test_without_a_spare_reading_there_are_none(made: Measured, words: Catalogue) -> None:
    lines = tell_survey(replace(changed(made, dof=0), closures=()), words)
    assert lines[1].startswith("No closure: ")
    assert lines[-1].endswith("none more than are needed: nothing checks them.")


def test_flatness_is_told_wall_by_wall(made: Measured, words: Catalogue) -> None:
    note = Message("flatness.one-line", wall="B", surface="backer")
    flat = WallFlatness(wall="L", verdict="within", judged=(), surfaces=(), shims=None, notes=())
    bumpy = replace(flat, wall="B", notes=(note,))
    lines = tell_survey(replace(made, flatness=(flat, bumpy)), words)
    start = lines.index("Flatness:") + 1
    assert lines[start] == "  Wall L: flat, plumb and level enough by what was read."
    assert lines[start + 1].startswith("  Wall B: depths on the backer")


def test_the_worst_survey_still_fits_a_screen(made: Measured, words: Catalogue) -> None:
    suspects = [Suspect(readings=("L deck 1",), w=9.0, guess=GUESS, decide=TAKE)] * 6
    reason = Message("survey.unsure", where="here", sigma=Length(3.0))
    note = Message("flatness.one-line", wall="B", surface="backer")
    flat = WallFlatness(
        wall="B", verdict="out", judged=(), surfaces=(), shims=None, notes=(note,) * 30
    )
    worst = changed(
        made,
        suspects=tuple(suspects),
        take=(TAKE,) * 3,
        notes=(reason,) * 30,
        reasons=(reason,) * 30,
        fit_for="price",
    )
    worst = replace(worst, closures=made.closures * 9, flatness=(flat,) * 24)
    lines = tell_survey(worst, words)
    assert len(lines) < 40
    assert sum(line.startswith("  And ") for line in lines) == 5


def test_gaps_are_summed_up(source: FakeSource, library: FakeLibrary) -> None:
    gap = Gap(kind="gap", at=750, height=300, straightedge=1800, held="level", reads=30)
    left, back, right = source.job.wall
    back = back.model_copy(update={"readings": (*back.readings, gap)})
    job = source.job.model_copy(update={"wall": (left, back, right)})
    ready = replace(make_ready(source, library), job=job)
    lines = tell_survey(measure(ready, library.tolerances()), ready.words)
    assert "a hollow of 30 mm" in lines[lines.index("Flatness:") + 1]
