"""Keyed modules obey the hand: every joint locks, rows close as told, top courses can be lifted.

Found on the pieces, by plain geometry; nothing is asked of the set-out but where it lies.
"""

from collections.abc import Iterator
from itertools import combinations

import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.property.alcoves import Alcove, alcoves, keyed, line, lined, share, surveyed

from gaugerod.core.base.geometry import bounds_of, shape_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.setout.closing import closings
from gaugerod.core.setout.layout import Layout

NEAR = 1e-3
"""Two edges closer than this lie on one line. [mm]"""
BESIDE = 1.0
"""Pieces that share less of a joint than this only touch at a corner. [mm]"""


def kept(piece: Piece, side: Side, layout: Layout) -> bool:
    """Tell whether all of a side of the cell, as it hangs, is the edge from the factory."""
    quarter: dict[Side, Side] = {
        "bottom": "left",
        "right": "bottom",
        "top": "right",
        "left": "top",
    }
    own = quarter[side] if layout.turn == "standing" else side
    kinds = {edge.kind for edge in piece.edges if edge.side == own}
    return "factory" in kinds


def locks(pieces: list[Piece]) -> Iterator[tuple[Piece, Side, Piece, Side]]:
    """Yield the pairs of pieces that share a joint, each with its side of it."""
    for one, other in combinations(pieces, 2):
        a, b = (bounds_of(piece.region.rings) for piece in (one, other))
        level = min(a.top, b.top) - max(a.bottom, b.bottom) > BESIDE
        upright = min(a.right, b.right) - max(a.left, b.left) > BESIDE
        if not shapely.dwithin(shape_of(one.region), shape_of(other.region), NEAR):
            continue
        if level and abs(one.cell.right - other.cell.left) < NEAR:
            yield one, "right", other, "left"
        if level and abs(other.cell.right - one.cell.left) < NEAR:
            yield other, "right", one, "left"
        if upright and abs(one.cell.top - other.cell.bottom) < NEAR:
            yield one, "top", other, "bottom"
        if upright and abs(other.cell.top - one.cell.bottom) < NEAR:
            yield other, "top", one, "bottom"


@share(4)
@given(alcoves(keyed()))
def test_every_joint_is_a_lock(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    count = 0
    for own in layout.walls:
        for one, side, other, facing in locks([p for p in pieces if p.wall == own.name]):
            count += 1
            assert kept(one, side, layout), (one.tag, side)
            assert kept(other, facing, layout), (other.tag, facing)
    assert count >= len(pieces) - len(layout.walls)


@share(4)
@given(alcoves(keyed()))
def test_rows_close_where_the_tongues_point_and_somebody_hides_the_gap(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout, gaps = found.short.layouts[0], alcove.system.gaps
    # Lying the tongues point right; a quarter turn points them left.
    side, step = ("right", 1) if layout.turn == "lying" else ("left", -1)
    names = [wall.name for wall in layout.walls]
    told = {one.wall: one for one in closings(layout, alcove.system)}
    for place, own in enumerate(layout.walls):
        meeting = own.field.right if side == "right" else own.field.left
        if meeting == "open":
            assert own.name not in told
            continue
        one, beyond = told[own.name], names[place + step]
        first = layout.order.index(own.name) < layout.order.index(beyond)
        room = gaps.corner if first else gaps.butt
        assert (one.side, one.hider) == (side, beyond if first else own.name)
        assert (one.way == "whole") is (room >= alcove.system.key_depth)
        # The hand's own order: whoever closes in a corner is lapped there.
        if not alcove.choices.get("wall_order") and not alcove.system.wall_order:
            assert first


@share(4)
@given(alcoves(keyed()), st.sampled_from([3.0, 6.0, 9.525, 12.0]))
def test_no_top_course_is_stuck_under_the_ceiling(alcove: Alcove, gap: float) -> None:
    system = alcove.system.model_copy(
        update={"gaps": alcove.system.gaps.model_copy(update={"ceiling": gap})}
    )
    found = line(surveyed(alcove), system)
    if found is None:
        return
    layout = found.short.layouts[0]
    top_of: dict[str, float] = {}
    for piece in found.pieces(layout):
        top = bounds_of(piece.region.rings).top
        top_of[piece.wall] = max(top_of.get(piece.wall, top), top)
    for name, top in top_of.items():
        lowest = min(y for _, y in found.wall(name).ceiling)
        # A course that the ceiling cuts follows its slope: its gap is then the room.
        room = gap if top > lowest - gap - NEAR else lowest - top
        assert room >= system.key_depth - NEAR
