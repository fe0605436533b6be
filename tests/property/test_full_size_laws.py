"""Full-size paper for any rod and any piece: all of it is on some page, and nothing is off one."""

from dataclasses import replace
from itertools import combinations, pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.pieces import Piece, PieceHole
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.drawing import Circle, Drawing, Line, Text
from gaugerod.core.sheet.lettering import extent, text_box
from gaugerod.core.sheet.rod import RodKind, RodMark
from gaugerod.core.sheet.rod_pages import rod_pages
from gaugerod.core.sheet.sample import sample_drilled
from gaugerod.core.sheet.template import templates, turned_over
from gaugerod.core.sheet.template_pages import room_of, template_pages
from gaugerod.core.sheet.tiles import joins, tiled
from gaugerod.packet.full_size import PAGES

lengths = st.floats(1.0, 2500.0)
shares = st.floats(0.0, 1.0)
whose = st.sampled_from([words_in(INCHES), words_in(MILLIMETRES)])
sizes = st.sampled_from(["us-letter", "a4"])
KEEPS: tuple[tuple[Side, ...], ...] = (("left", "bottom"), ("right", "top"), ("left",), ())
KINDS: tuple[RodKind, ...] = ("course", "finish", "hole", "sill", "head", "deck")


@given(
    wide=lengths,
    tall=lengths,
    room=st.tuples(st.floats(100.0, 300.0), st.floats(100.0, 300.0)),
    overlap=st.floats(5.0, 40.0),
    back=st.tuples(st.booleans(), st.booleans()),
    at=st.tuples(shares, shares),
)
def test_every_point_is_on_a_page_and_neighbours_share_the_overlap(
    *,
    wide: float,
    tall: float,
    room: tuple[float, float],
    overlap: float,
    back: tuple[bool, bool],
    at: tuple[float, float],
) -> None:
    bounds = Box(left=-50.0, bottom=-70.0, right=wide - 50.0, top=tall - 70.0)
    right, top = back
    tiles = tiled(bounds, room=room, overlap=overlap, from_right=right, from_top=top)
    x, y = bounds.left + at[0] * wide, bounds.bottom + at[1] * tall
    boxes = [tile.box for tile in tiles]
    slack = 1e-6
    assert any(
        box.left - slack <= x <= box.right + slack and box.bottom - slack <= y <= box.top + slack
        for box in boxes
    )
    for box in boxes:
        assert box.width <= room[0] + slack
        assert box.height <= room[1] + slack
        assert box.left >= bounds.left - slack
        assert box.right <= bounds.right + slack
    by_place = {(tile.column, tile.row): tile for tile in tiles}
    for (column, row), tile in by_place.items():
        beside, above = by_place.get((column + 1, row)), by_place.get((column, row + 1))
        if beside:
            assert tile.box.right - beside.box.left == pytest.approx(overlap)
        if above:
            assert tile.box.top - above.box.bottom == pytest.approx(overlap)


@given(wide=lengths, tall=lengths, back=st.booleans())
def test_both_pages_of_a_join_have_it_at_the_same_place(
    wide: float, tall: float, back: bool
) -> None:
    bounds = Box(left=0.0, bottom=0.0, right=wide, top=tall)
    tiles = tiled(bounds, room=(180.0, 140.0), overlap=12.0, from_right=back, from_top=not back)
    places: dict[str, list[float]] = {}
    for tile in tiles:
        for join in joins(tile, overlap=12.0):
            upright = join.start[0] == join.end[0]
            places.setdefault(join.name, []).append(join.start[0] if upright else join.start[1])
    assert len(places) == tiles[0].columns + tiles[0].rows - 2
    for name, found in places.items():
        assert len(found) >= 2, name
        assert found == pytest.approx([found[0]] * len(found))


def clear(page: Drawing) -> None:
    """Nothing lies off the page, and no text on another."""
    around = extent(page.items, margin=0.0)
    bounds = page.bounds
    assert around.left >= bounds.left - 1e-6
    assert around.bottom >= bounds.bottom - 1e-6
    assert around.right <= bounds.right + 1e-6
    assert around.top <= bounds.top + 1e-6
    texts = [item for item in page.items if isinstance(item, Text)]
    for one, other in combinations(texts, 2):
        a, b = text_box(one), text_box(other)
        apart = a.right <= b.left or b.right <= a.left or a.top <= b.bottom or b.top <= a.bottom
        assert apart, (one.text, other.text)
    # Ten points and up: Inter's capitals are 0.727 of its size.
    assert min(text.height for text in texts) >= 10 * 25.4 / 72 * 0.727


@st.composite
def marks(draw: st.DrawFn) -> tuple[RodMark, ...]:
    found = draw(
        st.lists(
            st.builds(
                RodMark,
                kind=st.sampled_from(KINDS),
                name=st.sampled_from(["1", "12", "valve", "shower arm", "window of the hall side"]),
                height=st.floats(-1500.0, 1500.0),
                walls=st.sampled_from([("L",), ("B", "R"), ("L", "B", "R")]),
            ),
            min_size=1,
            max_size=12,
        )
    )
    return tuple(sorted(found, key=lambda mark: mark.height))


@given(found=marks(), words=whose, size=sizes)
@settings(deadline=None)
def test_every_line_of_a_rod_is_on_a_strip_at_its_height(
    found: tuple[RodMark, ...], words: Catalogue, size: str
) -> None:
    room = PAGES["a4" if size == "a4" else "us-letter"].upright
    step = 203.2 if words is words_in(INCHES) else 200.0
    beyond = 19.05 if words is words_in(INCHES) else 20.0
    lowest = min(0.0, (min(mark.height for mark in found) + 1e-4) // step * step)
    pages = rod_pages(found, ("L", "B", "R"), words, room=room)
    seen: set[float] = set()
    for number, page in enumerate(pages):
        clear(page)
        bottom = lowest + number * step - beyond
        foot = room[1] - step - 2 * beyond
        level = {
            line.start[1] - foot + bottom
            for line in page.items
            if isinstance(line, Line) and line.start[0] == 0.0 and line.start[1] == line.end[1]
        }
        for mark in found:
            if bottom + 1e-3 < mark.height < bottom + step + 2 * beyond - 1e-3:
                assert min(abs(mark.height - y) for y in level) < 1e-6
                seen.add(mark.height)
    assert seen == {mark.height for mark in found}


@st.composite
def pieces(draw: st.DrawFn) -> Piece:
    """The sample module of 600 by 300 mm with one to three holes anywhere inside it."""
    base = sample_drilled()[0]
    drilled = []
    for name in draw(st.sampled_from([("valve",), ("hot", "cold"), ("arm", "bar", "rail")])):
        diameter = draw(st.sampled_from([20.0, 38.1, 76.0, 120.0]))
        half = diameter / 2 + 1.0
        x, y = draw(st.floats(half, 600.0 - half)), draw(st.floats(half, 300.0 - half))
        drilled.append(PieceHole(name=name, x=x, y=y, diameter=diameter))
    keeps = draw(st.sampled_from(KEEPS))
    return replace(base, holes=tuple(drilled), keeps=keeps)


@given(piece=pieces(), words=whose, size=sizes)
@settings(deadline=None, max_examples=25)
def test_every_hole_of_a_piece_is_on_its_template_and_nothing_is_off_a_page(
    piece: Piece, words: Catalogue, size: str
) -> None:
    pages = PAGES["a4" if size == "a4" else "us-letter"]
    made = templates(piece, (), room=room_of(pages, words), step=10.0)
    assert sorted(d.name for one in made for d in one.drills) == sorted(h.name for h in piece.holes)
    for one in made:
        for side in (one, turned_over(one)):
            drawn = template_pages(side, words, pages=pages)
            for page in drawn:
                clear(page)
            whole = [i for page in drawn for i in page.items if isinstance(i, Circle)]
            for drill in side.drills:
                # Its circle is whole on some page, or in arcs on pages that meet in it.
                on_page = any(abs(c.diameter - drill.diameter) < 1e-9 for c in whole)
                assert on_page or len(drawn) > 1


@given(piece=pieces())
@settings(deadline=None, max_examples=25)
def test_pages_laid_on_each_other_give_the_template_again(piece: Piece) -> None:
    words, pages = words_in(MILLIMETRES), PAGES["a4"]
    for one in templates(piece, (), room=room_of(pages, words), step=10.0):
        drawn = template_pages(one, words, pages=pages)
        room = _room(drawn[0], words)
        tiles = tiled(
            one.bounds,
            room=room,
            overlap=12.0,
            from_right=one.across.side == "left",
            from_top=one.up.side == "bottom",
        )
        ordered = sorted(tiles, key=lambda tile: (-tile.row, tile.column))
        strokes = []
        for page, tile in zip(drawn, ordered, strict=True):
            dx = tile.box.left - (room[0] - tile.box.width) / 2
            dy = tile.box.top - (page.bounds.top - 1.0)
            strokes += [
                shapely.LineString([(x + dx, y + dy) for x, y in (line.start, line.end)])
                for line in page.items
                if isinstance(line, Line)
            ]
        paper = shapely.union_all(strokes).buffer(1e-3)
        for stretch in one.outline:
            assert paper.covers(shapely.LineString(stretch))
        for drill in one.drills:
            (x, y), reach = drill.at, drill.diameter / 2
            assert paper.covers(shapely.LineString([(x - reach, y), (x + reach, y)]))
            assert paper.covers(shapely.LineString([(x, y - reach), (x, y + reach)]))


def _room(page: Drawing, words: Catalogue) -> tuple[float, float]:
    """What a page leaves for the template: above the square of 100 mm, or beside it."""
    wide = page.bounds.right - page.bounds.left - 2.0
    tall = page.bounds.top - page.bounds.bottom - 2.0
    assert words.display is MILLIMETRES
    return (wide - 103.0, tall) if wide > tall else (wide, tall - 103.0)


@given(count=st.integers(2, 24))
def test_crowded_labels_keep_their_order(count: int) -> None:
    found = tuple(
        RodMark(kind="hole", name=f"n{number:02d}", height=100.0 + number / 10, walls=("B",))
        for number in range(count)
    )
    (page,) = rod_pages(found, ("B",), words_in(MILLIMETRES), room=PAGES["a4"].upright)
    texts = [item for item in page.items if isinstance(item, Text) and item.text.startswith("n")]
    heights = [item.at[1] for item in sorted(texts, key=lambda item: item.text)]
    assert all(above > below for below, above in pairwise(heights))
