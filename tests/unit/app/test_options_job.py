from dataclasses import replace

import pytest
from tests.unit.app.conftest import FakeLibrary, FakeSource

from gaugerod.app.options_job import Weighed, asked_of, options_papers, weigh_job
from gaugerod.app.options_story import tell_options
from gaugerod.app.plan_job import Ready, make_ready
from gaugerod.app.writers import SheetWriters
from gaugerod.core.base.errors import GaugerodError, LayoutError
from gaugerod.core.options.option import Options


@pytest.fixture
def ready(source: FakeSource, library: FakeLibrary) -> Ready:
    return make_ready(source, library)


def told(made: Weighed) -> list[str]:
    return tell_options(made, made.ready.words)


def test_options_are_told_with_what_they_give_up(ready: Ready) -> None:
    lines = told(weigh_job(ready, None))
    assert lines[0] == "Sample alcove. Invented."
    assert lines[2].startswith("A (looks first")
    assert lines[3].startswith("  Smallest piece ")
    assert lines[4].startswith("  For the eye: ")
    assert lines[5].startswith("  Gives up: ")
    assert lines[-1].startswith("The job picks A (looks first")


def test_the_job_keeps_the_options_that_it_leaves_open(ready: Ready) -> None:
    open_ = ready.job.choices.model_copy(update={"bond": "any"})
    job = ready.job.model_copy(update={"choices": open_})
    fixed, free = (weigh_job(one, None) for one in (ready, replace(ready, job=job)))
    for key in ("looks", "cuts", "modules"):
        best, again = (
            min(getattr(option, key) for option in made.options.options) for made in (fixed, free)
        )
        assert again <= best


def test_why_not_another_is_answered_in_figures(ready: Ready) -> None:
    lines = told(weigh_job(ready, asked_of(ready, {"bond": "third", "step": "left"})))
    at = next(i for i, line in enumerate(lines) if line.startswith("Asked about: lying, third to"))
    assert "third to the left" in lines[at]
    assert lines[at + 1].startswith("It keeps every limit.")
    assert lines[at + 2].startswith("  price: $")
    assert [line.split(":")[0].strip() for line in lines[at + 2 : at + 7]] == [
        "price",
        "cuts",
        "modules",
        "looks",
        "For the eye",
    ]


def test_what_cannot_be_laid_says_which_wall_breaks_what(ready: Ready) -> None:
    lines = told(weigh_job(ready, asked_of(ready, {"first_height": "30 mm"})))
    at = lines.index("It can't be laid without breaking a limit:")
    assert lines[at + 1] == "  Wall L: a piece would be under the least the material allows."


def test_a_choice_is_read_in_the_unit_of_the_job(ready: Ready) -> None:
    asked = asked_of(ready, {"phase": {"B": "10 in"}, "turn": "any"})
    assert (asked.phase, asked.turn, asked.bond) == ({"B": 254.0}, "any", "stack")
    with pytest.raises(ValueError, match="turn"):
        asked_of(ready, {"turn": "hanging"})


def test_what_the_material_cannot_do_is_refused(ready: Ready) -> None:
    with pytest.raises(GaugerodError) as caught:
        weigh_job(ready, asked_of(ready, {"turn": "standing"}))
    assert "standing" in ready.words.say(caught.value.message)


def test_a_job_without_a_layout_is_named(ready: Ready) -> None:
    low = ready.job.choices.model_copy(update={"first_height": 30.0})
    with pytest.raises(LayoutError) as caught:
        weigh_job(replace(ready, job=ready.job.model_copy(update={"choices": low})), None)
    assert ready.words.say(caught.value.message).startswith("sample.toml: No layout keeps")


def test_a_screen_holds_seven_and_says_how_many_more(ready: Ready) -> None:
    made = weigh_job(ready, None)
    plain = replace(made.options.options[0], picks=())
    many = (made.options.options[0], *(replace(plain, id=f"N{i}") for i in range(9)))
    options = Options(options=many, tried=made.options.tried, refused=())
    lines = told(replace(made, options=options))
    assert "And 3 more: the paper has them all." in lines
    assert len(lines) < 40
    # Nothing is said of what an option that nobody picked gives up.
    assert sum(line.startswith("  Gives up: ") for line in lines) == 1


def test_an_eye_with_nothing_to_mind_is_told_so(ready: Ready) -> None:
    made = weigh_job(ready, None)
    first = made.options.options[0]
    fair = replace(first, layout=replace(first.layout, faults=()))
    options = Options(options=(fair,), tried=1, refused=())
    assert "  For the eye: nothing to mind." in told(replace(made, options=options))


def test_every_option_has_a_drawing_and_all_share_a_paper(ready: Ready) -> None:
    made = weigh_job(ready, None)
    writers = SheetWriters(
        drawing=lambda drawing: drawing.name, paper=lambda paper: paper.job.encode()
    )
    files = options_papers(made, ready.words, writers)
    ids = [option.id for option in made.options.options]
    assert list(files) == [*(f"option-{one}.svg" for one in ids), "options.pdf"]
    assert files["option-A.svg"] == b"option-A"
