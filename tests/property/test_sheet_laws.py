"""What always holds of sheets: no place bare or covered twice, no seam near a hole, few seams."""

from dataclasses import replace
from itertools import combinations, pairwise
from math import ceil

import pytest
import shapely
from hypothesis import given, settings
from tests.property.alcoves import Alcove, Lined, alcoves, line, lined, share, surveyed
from tests.property.test_score_from_pieces import (
    HAIR,
    INCH,
    plain,
    rows_of,
    sliver,
    width_of,
)
from tests.property.test_search_is_exact import best_on_a_grid
from tests.sheets import as_asked, sheets

from gaugerod.core.base.geometry import bounds_of, shape_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.sample import sample_rates
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.setout.search import set_out

LOOKS = sample_rates().looks.model_copy(update={"seam": 6000})
TRIFLE = 0.5
"""Area that counts as nothing. [mm2]"""
NEAR = 1e-3
"""Lengths closer than this are one. [mm]"""


def with_seams_priced(alcove: Alcove) -> Lined:
    found = lined(surveyed(as_asked(alcove)), alcove.system)
    short = set_out(found.walls, found.job.choices, found.system, LOOKS)
    return replace(found, short=short)


@share(4)
@given(alcoves(sheets()))
def test_sheets_and_their_seams_cover_the_field_once(alcove: Alcove) -> None:
    found = with_seams_priced(alcove)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    half = alcove.system.joint[0] / 2
    for own in layout.walls:
        shapes = [shape_of(piece.region) for piece in pieces if piece.wall == own.name]
        field = shapely.union_all([shape_of(region) for region in own.field.regions])
        grown = [shape.buffer(half, join_style="mitre", mitre_limit=50) & field for shape in shapes]
        covered = shapely.union_all(grown, grid_size=1e-6)
        assert sum(shape.area for shape in grown) == pytest.approx(covered.area, abs=TRIFLE)
        assert (field - covered).area < TRIFLE
        for one, other in combinations(shapes, 2):
            assert one.distance(other) > 2 * half - NEAR


@share(4)
@given(alcoves(sheets()))
def test_no_seam_runs_through_a_hole_or_nearer_than_its_clearance(alcove: Alcove) -> None:
    found = with_seams_priced(alcove)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    for own in layout.walls:
        # The seams alone: what lies between two sheets, in the field or on an edge they share.
        shapes = [shape_of(piece.region) for piece in pieces if piece.wall == own.name]
        reach = alcove.system.joint[0] / 2 + NEAR
        grown = [shape.buffer(reach, join_style="mitre") for shape in shapes]
        seams = [one & other for one, other in combinations(grown, 2)]
        for hole in found.wall(own.name).holes:
            centre = shapely.Point(hole.x, hole.y)
            for seam in seams:
                if not seam.is_empty:
                    clear = seam.distance(centre) - hole.diameter / 2
                    assert clear > alcove.system.gaps.hole_clear - 4 * NEAR


@share(4)
@given(alcoves(sheets()))
def test_of_two_layouts_that_differ_in_seams_alone_the_fewer_leads(alcove: Alcove) -> None:
    found = with_seams_priced(alcove)
    told = [dict(layout.faults) for layout in found.short.layouts]
    for better, worse in pairwise(told):
        rest = [{k: v for k, v in faults.items() if k != "seam"} for faults in (better, worse)]
        if rest[0] == rest[1]:
            assert better.get("seam", 0) <= worse.get("seam", 0)


@settings(max_examples=max(settings().max_examples // 10, 1))
@given(alcoves(sheets(), turns=("standing",), bonds=("stack", "half")))
def test_no_place_on_a_grid_looks_better(alcove: Alcove) -> None:
    found = line(surveyed(alcove), alcove.system)
    searched = min(lay.looks for lay in found.short.layouts) if found else float("inf")
    # The short list is in order to the dollar, and looks are rounded wall by wall.
    assert best_on_a_grid(alcove) >= searched - 100 - len(alcove.walls)


def looks_of(layout: Layout, own: WallLayout, pieces: list[Piece]) -> float:
    """The looks of one wall of sheets, from its pieces. [cents]."""
    rows, total, differ = rows_of(pieces), 0.0, 0.0
    total += LOOKS.seam * (len(rows) - 1 + sum(len(row) - 1 for row in rows))
    for row in rows:
        ends = [width_of(row[0]), width_of(row[-1])]
        if len(row) > 1:
            total += sum(sliver(end, layout.face[0]) for end in ends)
        boxes = [shapely.bounds(shape_of(piece.region)) for piece in (row[0], row[-1])]
        sawn = boxes[0][0] - row[0].cell.left, row[-1].cell.right - boxes[1][2]
        for meets, off in zip((own.field.left, own.field.right), sawn, strict=True):
            total += LOOKS.front_cut * (meets == "open" and off > HAIR)
        differ += abs(ends[0] - ends[1])
    if "open" not in (own.field.left, own.field.right):
        total += LOOKS.unequal * differ / len(rows) / INCH
    if len(rows) > 1:
        count = ceil(bounds_of(own.field.gross.rings).width / layout.pitch[0])
        for row in (rows[0], rows[-1]):
            boxes = [shapely.bounds(shape_of(piece.region)) for piece in row]
            high, low = min(box[3] for box in boxes), max(box[1] for box in boxes)
            total += sliver(high - low, layout.face[1]) * count
    return total


@share(4)
@given(alcoves(sheets()))
def test_looks_and_ends_come_out_of_the_sheets(alcove: Alcove) -> None:
    found = with_seams_priced(plain(alcove))
    for layout in (found.short.layouts[0], found.short.layouts[-1]):
        total, pieces = 0.0, found.pieces(layout)
        for own in layout.walls:
            mine = [piece for piece in pieces if piece.wall == own.name]
            total += looks_of(layout, own, mine)
            for side, end in zip((0, -1), own.ends, strict=True):
                widths = [width_of(row[side]) for row in rows_of(mine)]
                assert min(widths) == pytest.approx(end, abs=2 * HAIR)
        assert layout.looks == pytest.approx(total, abs=2 * len(layout.walls))
