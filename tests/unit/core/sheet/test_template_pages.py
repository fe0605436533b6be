"""Pages of templates, worked by hand."""

from dataclasses import replace

import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in

from gaugerod.core.cutting.pieces import PieceHole
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.drawing import Circle, Drawing, Line, Text
from gaugerod.core.sheet.sample import sample_drilled
from gaugerod.core.sheet.template import Drill, Template, templates, turned_over
from gaugerod.core.sheet.template_pages import Pages, room_of, template_pages

WORDS = words_in(MILLIMETRES)
PAGES = Pages(upright=(179.5, 260.5), lying=(266.5, 173.5))


def template(
    x: float = 200.0, y: float = 110.0, *, keeps: tuple[Side, ...] = ("left", "bottom")
) -> Template:
    piece, holes = sample_drilled()
    hole = PieceHole(name="valve", x=x, y=y, diameter=76.0)
    piece = replace(piece, holes=(hole,), keeps=keeps)
    (made,) = templates(piece, holes, room=room_of(PAGES, WORDS), step=10.0)
    return made


def pages(made: Template) -> tuple[Drawing, ...]:
    return template_pages(made, WORDS, pages=PAGES)


def said(page: Drawing) -> list[str]:
    return [item.text for item in page.items if isinstance(item, Text)]


def circles(page: Drawing) -> list[Circle]:
    return [item for item in page.items if isinstance(item, Circle)]


def test_what_fits_on_a_page_stands_on_one() -> None:
    (page,) = pages(template(60.0, 60.0))
    (circle,) = circles(page)
    # Bounds from -12 to 110 each way, in the middle of 179.5 and at the top of 260.5.
    assert circle.centre == pytest.approx((179.5 / 2 - 122 / 2 + 72, 260.5 - 122 + 72))
    assert circle.diameter == 76.0
    told = {"B2-4", "FACE UP ↑", "Page 1 of 1", "60 mm from the left", "60 mm from the bottom"}
    assert told <= {*said(page)}
    assert {"valve Ø 76 mm", "factory edge: fold here and butt"} <= {*said(page)}


def test_pages_lie_where_that_saves_one() -> None:
    # 262 by 172: lying, 163.5 by 173.5 and two of them; upright, two by two.
    lying = pages(template())
    assert [page.bounds.right - page.bounds.left for page in lying] == [268.5, 268.5]
    # 262 by 122 would need two either way: then they stand.
    upright = pages(template(200.0, 60.0))
    assert [page.bounds.right - page.bounds.left for page in upright] == [181.5, 181.5]


def test_the_hole_is_on_one_page_whole_face_up_and_down() -> None:
    for made in (template(), turned_over(template())):
        assert sorted(len(circles(page)) for page in pages(made)) == [0, 1]
    up, down = (
        circles(page)[0] for page in (pages(template())[1], pages(turned_over(template()))[0])
    )
    assert up.centre[1] == pytest.approx(down.centre[1])


def test_each_page_names_the_join_and_where_it_is_of_all() -> None:
    first, second = pages(template())
    for page in (first, second):
        assert said(page).count("A") == 1
        dashed = [item for item in page.items if isinstance(item, Line) and item.layer == "beyond"]
        assert len(dashed) == 1
        assert "B2-4 · FACE UP ↑" in said(page)
    assert "Page 1 of 2" in said(first)
    assert "Page 2 of 2" in said(second)


def test_only_the_page_with_the_centre_names_the_hole() -> None:
    first, second = pages(template())
    named = [[text for text in said(page) if text == "valve Ø 76 mm"] for page in (first, second)]
    # Beside the square on both, at the hole on one.
    assert [len(found) for found in named] == [1, 2]


@pytest.mark.parametrize(
    ("keeps", "texts"),
    [
        (("left", "bottom"), {"380 mm in from the left edge"}),
        (("right", "bottom"), {"150 mm from the right", "110 mm from the bottom"}),
        ((), {"150 mm from the right, as cut", "110 mm from the bottom, as cut"}),
    ],
)
def test_the_edges_are_named_as_they_are(keeps: tuple[Side, ...], texts: set[str]) -> None:
    made = template(450.0, 110.0, keeps=keeps)
    flat = " ".join(text for page in pages(made) for text in said(page))
    assert [text for text in texts if text not in flat] == []


def test_a_far_edge_above_has_its_line_across() -> None:
    # 300 - 50 + 38 + 12 = 300 are more than 1.9 pages of 157.5: 300 - 88 - 25 = 187, so 180.
    made = template(60.0, 50.0, keeps=("left", "top"))
    assert made.up.far == 180.0
    (page, *_) = pages(made)
    (line,) = [item for item in page.items if isinstance(item, Line) and item.layer == "datum"]
    assert line.start[1] == line.end[1]
    assert "180 mm down from the top edge" in said(page)


def test_a_centre_beyond_the_edge_is_said_so() -> None:
    made = template(60.0, 60.0)
    beyond = Drill(name="arm", at=(-10.0, 60.0), diameter=60.0, across=-10.0, up=60.0)
    (page,) = pages(replace(made, drills=(beyond,)))
    flat = " ".join(said(page))
    assert "10 mm beyond the left edge 60 mm from the bottom" in flat


def test_a_piece_in_doubt_is_measured_in_place_first() -> None:
    (page,) = pages(replace(template(60.0, 60.0), in_place=True))
    flat = " ".join(said(page))
    assert "MEASURE IN PLACE BEFORE CUTTING" in flat


def test_many_holes_are_told_as_far_as_there_is_room() -> None:
    made = template(60.0, 60.0)
    (drill,) = made.drills
    (page,) = pages(replace(made, drills=(drill,) * 12))
    assert "…" in said(page)
    assert min(item.at[1] for item in page.items if isinstance(item, Text)) > 0.0


def test_a_drill_is_rounded_up() -> None:
    made = template(60.0, 60.0)
    (drill,) = made.drills
    (page,) = pages(replace(made, drills=(replace(drill, diameter=76.2),)))
    assert "valve Ø 77 mm" in said(page)


def test_inches_have_their_own_overlap_and_square() -> None:
    words = words_in(INCHES)
    first, _ = template_pages(template(), words, pages=PAGES)
    flat = " ".join(said(first))
    assert 'Pages share 1/2".' in flat
    assert '4" square' in flat
