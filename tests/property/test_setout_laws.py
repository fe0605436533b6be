"""Laws of the set-out: what moves with the datum, in a mirror, with the unit."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
import shapely
from hypothesis import given
from shapely.affinity import affine_transform
from shapely.geometry import Polygon
from tests.property.alcoves import (
    Alcove,
    Lined,
    Raw,
    TrueWall,
    alcoves,
    keyed,
    lengths,
    line,
    lined,
    share,
    surveyed,
    tiles,
)

from gaugerod.core.base.geometry import SNAP, Box, shape_of
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_rates, sample_system
from gaugerod.core.setout.field import meetings, set_field
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.score import score
from gaugerod.core.setout.strips import Case
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Walls

INCH = Fraction("25.4")  # NIST SP 811, from memory
NEAR = 1e-5
"""Far under what any tool can cut, far over the noise of floating-point sums. [mm]"""


# --- how many alcoves can be lined at all ------------------------------------------------------


def test_most_alcoves_can_be_lined() -> None:
    # The laws are about layouts, and would say little if few alcoves had one.
    outcomes: list[bool] = []

    @share(1)
    @given(alcoves())
    def try_one(alcove: Alcove) -> None:
        outcomes.append(line(surveyed(alcove), alcove.system) is not None)

    try_one()
    assert sum(outcomes) >= 0.8 * len(outcomes)


# --- the datum ---------------------------------------------------------------------------------


@share(3)
@given(alcoves(), lengths(-400, 400))
def test_another_datum_moves_everything_alike(alcove: Alcove, up: float) -> None:
    old = lined(surveyed(alcove), alcove.system)
    new = lined(surveyed(alcove, datum=up), alcove.system)
    # Looks are rounded wall by wall.
    best, again = (min(lay.looks for lay in one.short.layouts) for one in (old, new))
    assert again == pytest.approx(best, abs=len(alcove.walls))
    # Of layouts that look alike either may lead, so the old one is moved by hand. x is nought
    # where the left edge meets the datum: on a leaning edge that place moves too.
    slid = {wall.name: wall.left.at(up) for wall in old.walls.walls}
    before = old.short.layouts[0]
    after = at_datum(before, up, slid, new)
    assert looks(after, new.walls, new) == pytest.approx(before.looks, abs=len(alcove.walls))
    for before_piece, after_piece in zip(old.pieces(before), new.pieces(after), strict=True):
        moved = (1, 0, 0, 1, -slid[before_piece.wall], -up)
        assert same_place(before_piece, after_piece, moved)
        assert after_piece.tag == before_piece.tag
        assert after_piece.size == pytest.approx(before_piece.size, abs=NEAR)
        assert uncut(after_piece) == uncut(before_piece)
        assert_same_marks(before_piece.marks, after_piece.marks)


def at_datum(layout: Layout, up: float, slid: dict[str, float], new: Lined) -> Layout:
    """The same layout from a datum that lies higher."""
    met = meetings(new.walls.walls, layout.order, new.system)
    walls = []
    for own in layout.walls:
        lattice = Lattice(
            face=layout.face,
            pitch=layout.pitch,
            first_course=layout.first_course - up,
            phase=own.phase - slid[own.name],
            row_shift=own.row_shift,
        )
        wall = new.wall(own.name)
        top = layout.top - up
        field = set_field(wall, met[own.name], new.system, top=top, lattice=lattice)
        walls.append(replace(own, phase=lattice.phase, field=field))
    return replace(
        layout,
        first_course=layout.first_course - up,
        top=layout.top - up,
        walls=tuple(walls),
    )


def same_place(old: Piece, new: Piece, change: tuple[float, ...], *, within: float = NEAR) -> bool:
    """Tell whether the new outline is the old one after an affine change."""
    moved = affine_transform(shape_of(old.region), change)
    return float(shapely.hausdorff_distance(moved, shape_of(new.region))) < within


def uncut(piece: Piece) -> Counter[tuple[str, str]]:
    return Counter((edge.side, edge.kind) for edge in piece.edges if edge.kind != "cut")


def assert_same_marks(old: Iterable[Mark], new: Iterable[Mark]) -> None:
    # Corners of a notch are numbered from wherever its outline starts: the numbers are left out.
    def key(mark: Mark) -> tuple[str, str, float]:
        return mark.what, mark.start, mark.value

    for before, after in zip(sorted(map(key, old)), sorted(map(key, new)), strict=True):
        assert after[:2] == before[:2]
        assert after[2] == pytest.approx(before[2], abs=NEAR)


# --- the mirror --------------------------------------------------------------------------------


@share(3)
@given(alcoves(tiles()))
def test_plain_edges_in_a_mirror_look_as_good(alcove: Alcove) -> None:
    here = lined(surveyed(alcove), alcove.system)
    there = lined(surveyed(alcove.mirrored()), alcove.system)
    # The best is the best to the dollar; of several as good the taller first course leads.
    mine, theirs = (min(lay.looks for lay in one.short.layouts) for one in (here, there))
    assert theirs == pytest.approx(mine, abs=100)


@share(4)
@given(alcoves(tiles()))
def test_a_layout_of_plain_edges_in_a_mirror_is_as_good(alcove: Alcove) -> None:
    # Courses that step to the right step to the left in the mirror.
    here = lined(surveyed(alcove), alcove.system)
    mirror = fit_walls(Job.model_validate(surveyed(alcove.mirrored())))
    layout = here.short.layouts[0]
    mirrored = in_mirror(layout, here, mirror)
    assert looks(mirrored, mirror, here) == pytest.approx(layout.looks, abs=len(alcove.walls))
    theirs = courses(make_pieces(mirrored, mirror, alcove.system))
    for (wall, course), pieces in courses(here.pieces(layout)).items():
        change = (-1, 0, 0, 1, here.wall(wall).right.offset, 0)
        # Stations run from the left corner, along a width that the fit finds to a hair.
        for mine in pieces:
            assert (
                sum(
                    same_place(mine, their, change, within=1e-3)
                    for their in theirs[OPPOSITE[wall], course]
                )
                == 1
            )
        assert len(theirs[OPPOSITE[wall], course]) == len(pieces)


OPPOSITE = {"L": "R", "B": "B", "R": "L"}


def in_mirror(layout: Layout, here: Lined, mirror: Walls) -> Layout:
    """The same layout in the mirrored alcove."""
    order = tuple(OPPOSITE[name] for name in layout.order)
    met = meetings(mirror.walls, order, here.system)
    walls = []
    for wall, own in zip(mirror.walls, reversed(layout.walls), strict=True):
        lattice = Lattice(
            face=layout.face,
            pitch=layout.pitch,
            first_course=layout.first_course,
            phase=here.wall(own.name).right.offset - own.phase - layout.face[0],
            row_shift=-own.row_shift,
        )
        field = set_field(wall, met[wall.name], here.system, top=layout.top, lattice=lattice)
        walls.append(
            replace(
                own,
                name=wall.name,
                phase=lattice.phase,
                row_shift=lattice.row_shift,
                field=field,
                ends=(own.ends[1], own.ends[0]),
            )
        )
    return replace(layout, order=order, walls=tuple(walls))


def looks(layout: Layout, walls: Walls, lined: Lined) -> int:
    """The price of looks of a layout that keeps its limits. [cents]."""
    total = 0
    for wall, own in zip(walls.walls, layout.walls, strict=True):
        case = Case(
            wall=wall,
            met=(own.field.left, own.field.right),
            top=layout.top,
            system=lined.system,
            turn=layout.turn,
            looks=sample_rates().looks,
        )
        lattice = Lattice(
            face=layout.face,
            pitch=layout.pitch,
            first_course=layout.first_course,
            phase=own.phase,
            row_shift=own.row_shift,
        )
        scored = score(case, lattice)
        assert scored.refused == ()
        total += scored.looks
    return total


def courses(pieces: Iterable[Piece]) -> dict[tuple[str, int], list[Piece]]:
    """Pieces from left to right, by wall and course."""
    found: dict[tuple[str, int], list[Piece]] = defaultdict(list)
    for piece in pieces:
        found[piece.wall, piece.course].append(piece)
    return found


def test_keyed_walls_are_not_each_others_mirror() -> None:
    # Sums by hand. An end wall 800 mm deep takes a whole module of 600 at its front. Left, it
    # runs behind the back wall, 3 short of the corner: 197 is left for the cut. Right, it butts:
    # 9.525 lining, 1.5875 bed and 3.175 joint come off: 185.7125.
    left = line(surveyed(end_wall("L")), sample_system())
    right = line(surveyed(end_wall("L").mirrored()), sample_system())
    assert left is not None
    assert right is not None
    assert cut_width(left, "L") == pytest.approx(197.0, abs=0.01)
    assert cut_width(right, "R") == pytest.approx(185.7125, abs=0.01)


def end_wall(deep: str) -> Alcove:
    """A plumb and level alcove of keyed modules with one end wall deeper than the other."""
    widths = {"L": 780.0, "B": 1500.0, "R": 780.0} | {deep: 800.0}
    left, back, right = (
        TrueWall(name=name, width=width, left=0.0, right=0.0) for name, width in widths.items()
    )
    return Alcove(
        walls=(left, back, right),
        decks=(-760.0, -760.0, -760.0, -760.0),
        ceilings=(1400.0, 1400.0, 1400.0, 1400.0),
        floor=-1140.0,
        system=sample_system(),
        choices={"turn": "lying", "bond": "stack", "centre": {"L": "front", "R": "front"}},
    )


def cut_width(alcove: Lined, wall: str) -> float:
    """Width of the cut piece of course 2 beside the whole one. [mm]."""
    pieces = courses(alcove.pieces(alcove.short.layouts[0]))[wall, 2]
    return min(piece.size[0] for piece in pieces)


# --- units -------------------------------------------------------------------------------------

LENGTHS = {"at", "left_at", "right_at", "over", "reads", "sigma", "diameter"}
GRAIN = INCH / 64
"""Readings are rounded to this, which inches, millimetres and centimetres all write exactly."""


@share(4)
@given(alcoves())
def test_the_unit_of_the_job_changes_no_millimetre(alcove: Alcove) -> None:
    raw = surveyed(alcove)
    plans = [lined(written(raw, unit), alcove.system) for unit in ("in", "mm", "cm")]
    first, *others = plans
    for other in others:
        assert other.walls.walls == first.walls.walls
        assert other.short == first.short
        for layout in first.short.layouts[:1]:
            assert other.pieces(layout) == first.pieces(layout)


def written(raw: Raw, unit: str) -> Raw:
    """The job as one would write it in another unit: fractions of inches, numbers of mm or cm."""
    spelled = spell(raw, unit)
    assert isinstance(spelled, dict)
    return {**spelled, "unit": unit}


def spell(value: object, unit: str, key: str = "") -> object:
    if isinstance(value, Mapping):
        return {name: spell(part, unit, name) for name, part in value.items()}
    if isinstance(value, list):
        return [spell(part, unit) for part in value]
    if key in LENGTHS and isinstance(value, int | float):
        return in_unit(round(Fraction(value) / GRAIN), unit)
    return value


def in_unit(grains: int, unit: str) -> object:
    if unit == "mm":
        return float(grains * GRAIN)
    if unit == "cm":
        return f"{Decimal(grains) * Decimal('0.0396875'):f}"
    whole, part = divmod(abs(grains), 64)
    return f"{'-' if grains < 0 else ''}{whole} {part}/64"


# --- hard limits -------------------------------------------------------------------------------


@share(1)
@given(alcoves())
def test_no_piece_is_under_the_least_size(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    least = alcove.system.cutting.least
    for layout in found.short.layouts[:1]:
        small = {p.tag: p.size for p in found.pieces(layout) if min(p.size) < least - SNAP}
        assert small == {}


@share(3)
@given(alcoves())
def test_course_lines_run_round_all_walls(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    for piece in found.pieces(layout):
        line_above = layout.first_course + (piece.course - 1) * layout.pitch[1]
        assert piece.cell.top == pytest.approx(line_above, abs=NEAR)
        assert piece.cell.bottom == pytest.approx(line_above - layout.face[1], abs=NEAR)


STEPS = {"stack": 0.0, "half": 1 / 2, "third": 1 / 3}


@share(4)
@given(alcoves())
def test_each_course_moves_by_its_bond(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    pitch = layout.pitch[0]
    phase = {own.name: own.phase for own in layout.walls}
    step = STEPS[str(alcove.choices["bond"])] * pitch
    # To the right on all walls, or to the left on all.
    off = []
    for side in (-1, 1):
        over = [
            piece.cell.left - phase[piece.wall] - side * (piece.course - 1) * step
            for piece in found.pieces(layout)
        ]
        off.append(max(min(x % pitch, -x % pitch) for x in over))
    assert min(off) < NEAR


@share(4)
@given(alcoves())
def test_the_lining_reaches_to_the_joint_round_an_opening(alcove: Alcove) -> None:
    # Within a millimetre: less than a step of which cannot be cut.
    found = lined(surveyed(alcove), alcove.system)
    gap = alcove.system.gaps.opening
    for layout in found.short.layouts:
        for own in layout.walls:
            openings = found.wall(own.name).openings
            for fitted, box in zip(openings, own.field.openings, strict=True):
                opening = fitted.box
                assert box.left == pytest.approx(opening.left - gap, abs=1)
                assert box.right == pytest.approx(opening.right + gap, abs=1)
                assert box.bottom == pytest.approx(opening.bottom - gap, abs=1)
                assert box.top == pytest.approx(opening.top + gap, abs=1)


@share(3)
@given(alcoves(keyed()))
def test_no_joint_of_keyed_modules_is_near_a_hole(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    clear = alcove.system.gaps.hole_clear
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    for own in layout.walls:
        cells = [box_of(piece.cell) for piece in pieces if piece.wall == own.name]
        lining = shapely.union_all([shape_of(region) for region in own.field.regions])
        # A cell's edge is a joint where there is lining on both of its sides.
        joints = shapely.union_all([cell.exterior for cell in cells]) & lining.buffer(-0.01)
        for hole in found.wall(own.name).holes:
            reach = shapely.Point(hole.x, hole.y).distance(joints)
            assert reach >= hole.diameter / 2 + clear - SNAP


def box_of(box: Box) -> Polygon:
    return shapely.box(box.left, box.bottom, box.right, box.top)


@share(3)
@given(alcoves(keyed()))
def test_a_groove_comes_off_where_nothing_hides_it(alcove: Alcove) -> None:
    # Front, openings and top hide it here; the deck and the corners do not.
    found = lined(surveyed(alcove), alcove.system)
    system = alcove.system
    assert not {"deck", "corner"} & set(system.gaps.hides_key)
    layout = found.short.layouts[0]
    pieces = courses(found.pieces(layout))
    for own in layout.walls:
        open_sides = {"left": own.field.left, "right": own.field.right}
        closed = [side for side, meets in open_sides.items() if meets != "open"]
        for wall, course in pieces:
            if wall == own.name:
                ends = {"left": pieces[wall, course][0], "right": pieces[wall, course][-1]}
                for side in closed:
                    assert grooveless(ends[side], side, layout, system), (wall, course, side)
    lowest = {wall: min(c for w, c in pieces if w == wall) for wall, _ in pieces}
    for wall, course in lowest.items():
        for piece in pieces[wall, course]:
            assert grooveless(piece, "bottom", layout, system), piece.tag


def test_a_groove_in_the_wide_end_of_a_taper_is_refused() -> None:
    # Sums by hand. The left corner of B leans out by 8 in 1828.8, the right one is plumb. The
    # deck is at -760: with its joint of 3 the field begins at -757; lines are at -469.7 and
    # every 300 up, the finish is 730.3, half way is -13.35. B loses 14.2875 left, where it
    # butts, and 3 right. A joint in the middle halves what is left half way: for a wall of
    # 1186.85 the left piece is 584.75 wide there, and 0.004374 wider for each mm up. So it is
    # 588.0 at the finish and 586.7 at the line below. A groove costs 12.7 of 600.
    assert line(surveyed(leaning_out(1186.85)), sample_system()) is None
    # At 1185.1 it is 587.13 wide at most.
    kept = line(surveyed(leaning_out(1185.1)), sample_system())
    assert kept is not None
    top = courses(kept.pieces(kept.short.layouts[0]))["B", 5]
    assert top[0].size[0] == pytest.approx(587.13, abs=0.05)


@pytest.mark.parametrize("lean", [8 / 1828.8, -8 / 1828.8])
def test_a_front_that_leans_cuts_its_modules_to_a_taper(lean: float) -> None:
    # From the deck joint at -757 to the finish at 730.3 the front goes 6.506 aside: a module
    # that is whole at one end is 593.494 wide at the other. No sliver fills what it leaves.
    plumb = end_wall("L")
    left, back, right = plumb.walls
    found = line(
        surveyed(replace(plumb, walls=(replace(left, left=lean), back, right))), plumb.system
    )
    assert found is not None
    layout = found.short.layouts[0]
    assert layout.walls[0].ends[0] == pytest.approx(593.494, abs=0.02)
    assert min(min(piece.size) for piece in found.pieces(layout)) > 160


def leaning_out(width: float) -> Alcove:
    """An alcove of keyed modules whose left back corner leans out, with a joint in the middle."""
    plumb = end_wall("L")
    left, back, right = plumb.walls
    return replace(
        plumb,
        walls=(left, replace(back, width=width, left=-8 / 1828.8), right),
        choices={**plumb.choices, "centre": {"L": "front", "R": "front", "B": "joint"}},
    )


def grooveless(piece: Piece, side: str, layout: Layout, system: System) -> bool:
    """Tell whether all of a side of a piece on the wall is clear of a groove of its module."""
    # A quarter turn anticlockwise carries the module's right to the top of the wall.
    standing = {"left": "top", "right": "bottom", "bottom": "left", "top": "right"}
    own = standing[side] if layout.turn == "standing" else side
    if getattr(system.edges, own) != "groove":
        return True
    wide, high = system.face
    points = [point for edge in piece.edges for point in (edge.start, edge.end)]
    away = {
        "left": [x for x, _ in points],
        "right": [wide - x for x, _ in points],
        "bottom": [y for _, y in points],
        "top": [high - y for _, y in points],
    }
    return min(away[own]) >= system.cutting.groove_off - SNAP
