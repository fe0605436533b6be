from itertools import combinations

import pytest
import shapely
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in
from tests.odd_surveys import crowded, demo, depths, odd_surveys, repeated

from gaugerod.core.base.geometry import Box
from gaugerod.core.base.lengths import Display
from gaugerod.core.job.document import Job
from gaugerod.core.sheet.drawing import Area, Circle, Drawing, Item, Line, Text
from gaugerod.core.sheet.lettering import extent, text_box
from gaugerod.core.sheet.survey_drawing import draw_survey
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Suspect

SURVEYS = odd_surveys()


def drawn(job: Job, wall: str, *suspects: Suspect, display: Display = MILLIMETRES) -> Drawing:
    fitted = fit_walls(job).walls
    place = [one.name for one in job.wall].index(wall)
    return draw_survey(job.wall[place], fitted[place], suspects, words_in(display))


def texts(drawing: Drawing) -> list[Text]:
    return [item for item in drawing.items if isinstance(item, Text)]


def said(drawing: Drawing) -> list[str]:
    return [text.text for text in texts(drawing)]


def overlap(a: Box, b: Box) -> bool:
    return a.left < b.right and b.left < a.right and a.bottom < b.top and b.bottom < a.top


@pytest.mark.parametrize("display", [MILLIMETRES, INCHES], ids=["mm", "in"])
@pytest.mark.parametrize("name", SURVEYS)
def test_no_two_texts_overlap_and_nothing_leaves_the_page(name: str, display: Display) -> None:
    job = SURVEYS[name]
    for wall in job.wall:
        drawing = drawn(job, wall.name, display=display)
        boxes = [text_box(text) for text in texts(drawing)]
        assert [pair for pair in combinations(boxes, 2) if overlap(*pair)] == []
        bounds, around = drawing.bounds, extent(drawing.items, margin=0.0)
        assert bounds.left < around.left < around.right < bounds.right
        assert bounds.bottom < around.bottom < around.top < bounds.top


@pytest.mark.parametrize("name", SURVEYS)
def test_no_line_runs_through_a_text(name: str) -> None:
    job = SURVEYS[name]
    for wall in job.wall:
        drawing = drawn(job, wall.name)
        boxes = [text_box(text) for text in texts(drawing)]
        free = shapely.union_all([shapely.box(b.left, b.bottom, b.right, b.top) for b in boxes])
        lines = [item for item in drawing.items if isinstance(item, Line)]
        assert lines
        for line in lines:
            assert not shapely.LineString([line.start, line.end]).crosses(free)


def test_readings_of_a_demo_stand_where_they_were_taken() -> None:
    drawing = drawn(demo("alcove-1962"), "B", display=INCHES)
    words = said(drawing)
    for reading in ('60"', '60 3/16"', '93 1/2"', '↓ 29 13/16"', '↑ 51 1/16"', '14 3/4"', '24"'):
        assert reading in words
    assert 'in 1/2" / 72"' in words
    assert 'plumb / 72"' in words
    width = next(text for text in texts(drawing) if text.text == '60 3/16"')
    assert width.at[1] == pytest.approx(-28 * 25.4)
    deck = next(text for text in texts(drawing) if text.text == '↓ 29 13/16"')
    # Down there the right edge is 5.3 mm further out, drawn 53: half way across 24 more.
    assert deck.at[0] == pytest.approx(30 * 25.4 + 24, abs=3)


def test_the_factor_is_stated() -> None:
    assert said(drawn(demo("alcove-1962"), "B"))[-1] == "lean, bow and fall × 10"


def test_repeats_are_written_once_with_their_number() -> None:
    words = said(drawn(repeated(), "B"))
    assert words.count("1500 × 3") == 3
    assert words.count("↑ 1400 × 3") == 2
    assert "1500" not in words


def test_suspects_are_boxed_and_lettered() -> None:
    job = demo("alcove-1962")
    one = Suspect(readings=("B width 1",), w=9.0, guess=None)
    two = Suspect(readings=("B deck 2", "L deck 1"), w=5.0, guess=None)
    drawing = drawn(job, "B", one, two, display=INCHES)
    boxed = {text.text: text for text in texts(drawing) if text.layer == "tag"}
    assert boxed.keys() == {'A: 60 3/16"', 'B: ↓ 29 13/16"'}
    frames = [
        shapely.Polygon(item.region.rings[0])
        for item in drawing.items
        if isinstance(item, Area) and item.layer == "keep"
    ]
    assert len(frames) == 2
    for text in boxed.values():
        box = text_box(text)
        inside = shapely.box(box.left, box.bottom, box.right, box.top)
        assert sum(frame.contains(inside) for frame in frames) == 1
    assert 'B: ↓ 29 7/8"' in said(drawn(job, "L", one, two, display=INCHES))


def test_the_datum_is_one_level_line_on_its_own_layer() -> None:
    def on_datum(item: Item) -> bool:
        return item.layer == "datum"

    lines = [i for i in drawn(crowded(), "B").items if on_datum(i) and isinstance(i, Line)]
    assert {y for line in lines for _, y in (line.start, line.end)} == {0.0}


def test_every_kind_of_reading_is_written() -> None:
    words = said(drawn(crowded(), "B"))
    for reading in (
        "jamb 90",
        "proud 40",
        "drain ↓ 1100",
        "↕ 2155",
        "hollow 2",
        "↑ 1000",
        "↓ 400",
        "2500",
        "out 2 / 1800",
        "in 2 / 1800",
        "1200",
    ):
        assert reading in words
    assert {"valve", "spout", "arm", "spray", "window", "shelf"} <= set(words)
    assert sum(isinstance(item, Circle) for item in drawn(crowded(), "B").items) == 4


def test_depths_and_gaps_are_written_at_their_places() -> None:
    drawing = drawn(depths(), "B")
    assert said(drawing).count("hump 4") == 2
    assert sum(text.text in {"-8", "7"} for text in texts(drawing)) == 2


def test_the_wall_itself_is_outlined() -> None:
    """Both edges, deck and ceiling: some 2 x 1700 + 2 x 1860 mm less what texts cover."""
    outline = [i for i in drawn(demo("niche-tile"), "B").items if i.layer == "outline"]
    drawn_length = sum(
        shapely.LineString([i.start, i.end]).length for i in outline if isinstance(i, Line)
    )
    assert 6800 < drawn_length < 7200
