"""Laws of patterns: modules and joints tile the plane, and every joint is as wide."""

from dataclasses import dataclass

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.property.alcoves import share

from gaugerod.core.base.geometry import Box
from gaugerod.core.job.bonds import ratio
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.pattern import (
    Module,
    Pattern,
    herringbone,
    running,
    turned,
    way,
)

WINDOW = Box(left=-700.0, bottom=-500.0, right=900.0, top=800.0)
SQUARE = shapely.box(WINDOW.left, WINDOW.bottom, WINDOW.right, WINDOW.top)
INNER = SQUARE.buffer(-1e-3, join_style="mitre")

sides = st.floats(80.0, 400.0)
joints = st.just(0.0) | st.floats(0.5, 12.0)
turns = st.sampled_from([0, 30, 45, 90, 135, 180, 270])
# In whole micrometres: what laps a window by less than a position counts is there or not.
places = st.integers(-500_000, 500_000).map(lambda place: place / 1000)
origins = st.tuples(places, places)


@dataclass(frozen=True)
class Drawn:
    pattern: Pattern
    joint: float


@st.composite
def patterns(draw: st.DrawFn) -> Drawn:
    """Any bond of level courses, or herringbone of any ratio, turned and moved."""
    joint, short, degrees = draw(joints), draw(sides), draw(turns)
    if draw(st.booleans()):
        face = (draw(sides), short)
        shift = draw(st.sampled_from([0.0, 1 / 3, 1 / 2]) | st.floats(0.0, 1.0))
        made = running(face=face, joint=joint, shift=shift * (face[0] + joint))
    else:
        n = draw(st.integers(2, 5))
        face = (n * (short + joint) - joint, short)
        face = face if draw(st.booleans()) else face[::-1]
        assert ratio(face=face, joint=joint) == n
        made = herringbone(face=face, joint=joint, n=n)
    return Drawn(turned(made, degrees).at(draw(origins)), joint)


def corners_of(box: Box) -> tuple[float, float, float, float]:
    return box.left, box.bottom, box.right, box.top


def shapes(pattern: Pattern) -> list[shapely.Polygon]:
    return [module.shape for _, module in pattern.modules(WINDOW)]


@share(3)
@given(patterns())
def test_modules_with_half_a_joint_round_them_cover_the_plane_once(drawn: Drawn) -> None:
    reach = Box(left=-720.0, bottom=-520.0, right=920.0, top=820.0)
    grown = [
        module.shape.buffer(drawn.joint / 2, join_style="mitre").intersection(SQUARE)
        for _, module in drawn.pattern.modules(reach)
    ]
    assert sum(shape.area for shape in grown) == pytest.approx(SQUARE.area, rel=1e-9)
    assert shapely.union_all(grown, grid_size=1e-6).area == pytest.approx(SQUARE.area, rel=1e-7)


@share(3)
@given(patterns())
def test_every_joint_is_as_wide_as_asked(drawn: Drawn) -> None:
    found = np.array(shapes(drawn.pattern))
    tree = shapely.STRtree(found)
    one, other = tree.query(found, predicate="dwithin", distance=3 * drawn.joint + 1.0)
    apart = shapely.distance(found[one], found[other])[one != other]
    # Neighbours stand a joint apart; corners that meet across a crossing stand further.
    assert apart.min() == pytest.approx(drawn.joint, abs=1e-6)
    inner = [s for s in found if SQUARE.buffer(-2 * s.length).contains(s)]
    for shape in inner:
        ring = shape.buffer(drawn.joint / 2, join_style="mitre").exterior
        for middle in (ring.interpolate(t, normalized=True) for t in (0.07, 0.31, 0.57, 0.81)):
            near = np.sort(shapely.distance(found, middle))[:2]
            assert near == pytest.approx([drawn.joint / 2] * 2, abs=1e-6)


@given(patterns(), origins, st.floats(50.0, 900.0), st.floats(50.0, 900.0))
def test_a_module_keeps_its_number_whatever_the_window(
    drawn: Drawn, low: tuple[float, float], wide: float, high: float
) -> None:
    small = Box(left=low[0], bottom=low[1], right=low[0] + wide, top=low[1] + high)
    square = shapely.box(small.left, small.bottom, small.right, small.top)
    large = Box(
        left=small.left - 500.0,
        bottom=small.bottom - 500.0,
        right=small.right + 500.0,
        top=small.top + 500.0,
    )
    here = dict(drawn.pattern.modules(small))
    around = dict(drawn.pattern.modules(large))
    assert set(here) <= set(around)
    assert all(around[number] == module for number, module in here.items())
    left_out = (module for number, module in around.items() if number not in here)
    assert all(module.shape.intersection(square).area < 1e-6 for module in left_out)


@given(sides, sides, joints, st.sampled_from([0.0, 1 / 2, 1 / 3]), origins)
def test_courses_are_a_pattern_of_one_module(
    width: float, height: float, joint: float, part: float, origin: tuple[float, float]
) -> None:
    pitch = (width + joint, height + joint)
    made = running(face=(width, height), joint=joint, shift=part * pitch[0]).at(origin)
    lattice = Lattice(
        face=(width, height),
        pitch=pitch,
        first_course=origin[1] + joint / 2 + height,
        phase=origin[0] + joint / 2,
        row_shift=part * pitch[0],
    )
    cells = [
        lattice.cell(course, number)
        for course in lattice.courses(bottom=WINDOW.bottom, top=WINDOW.top)
        for number in lattice.numbers(course, left=WINDOW.left, right=WINDOW.right)
    ]

    def listed(boxes: list[Box]) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        # What laps the window by less than a hair is there or not, by the last bit.
        return np.array(
            [corners_of(box) for box in boxes if shapely.box(*corners_of(box)).intersects(INNER)]
        )

    ours = listed([module.around for _, module in made.modules(WINDOW)])
    theirs = listed(cells)
    assert ours.shape == theirs.shape
    # The last bit may change the order, so that each box is looked for among all the others.
    apart = np.abs(ours[:, np.newaxis] - theirs).max(axis=2)
    assert apart.min(axis=1) == pytest.approx(0.0, abs=1e-4)
    assert apart.min(axis=0) == pytest.approx(0.0, abs=1e-4)


@given(st.integers(-720, 720), sides, sides)
def test_a_module_turns_about_its_lower_left_corner(turn: int, wide: float, high: float) -> None:
    module = Module(at=(10.0, 20.0), face=(wide, high), turn=turn)
    c, s = way(turn)
    assert c == pytest.approx(np.cos(np.radians(turn)), abs=1e-12)
    assert s == pytest.approx(np.sin(np.radians(turn)), abs=1e-12)
    assert module.shape.area == pytest.approx(wide * high)
    assert module.corners[1] == pytest.approx((10.0 + wide * c, 20.0 + wide * s))
    assert module.shape.centroid.distance(shapely.Point(module.centre)) < 1e-6


@given(patterns(), st.integers(-3, 3), st.integers(-3, 3))
def test_crossings_lie_on_level_rows(drawn: Drawn, i: int, j: int) -> None:
    """Wherever the vectors have a common step up, rows are that far apart and repeat."""
    made = drawn.pattern
    (ax, ay), (ux, uy) = made.across, made.up
    rows = [(i * ay + j * uy) / made.rise, ay / made.rise, uy / made.rise]
    if all(abs(row - round(row)) < 1e-4 for row in rows[1:]):
        assert rows[0] == pytest.approx(round(rows[0]), abs=1e-3)
        a, u = round(rows[1]), round(rows[2])
        assert abs(u * ax - a * ux) == pytest.approx(made.span, rel=1e-3)
    assert made.span * made.rise == pytest.approx(abs(ax * uy - ay * ux))


# By hand: faces, bond and turn with the height between rows and their repeat, in mm.
ROOT = 2**0.5


@pytest.mark.parametrize(
    ("made", "degrees", "rise", "span"),
    [
        (running(face=(297.0, 297.0), joint=3.0, shift=0.0), 0, 300.0, 300.0),
        (running(face=(297.0, 297.0), joint=3.0, shift=0.0), 45, 150 * ROOT, 300 * ROOT),
        (running(face=(597.0, 297.0), joint=3.0, shift=0.0), 45, 150 * ROOT, 600 * ROOT),
        (running(face=(597.0, 297.0), joint=3.0, shift=300.0), 45, 300 * ROOT, 300 * ROOT),
        (herringbone(face=(597.0, 297.0), joint=3.0, n=2), 0, 300.0, 1200.0),
        (herringbone(face=(597.0, 297.0), joint=3.0, n=2), 45, 300 * ROOT, 600 * ROOT),
        (herringbone(face=(97.0, 297.0), joint=3.0, n=3), 0, 100.0, 600.0),
    ],
)
def test_rows_of_known_patterns(made: Pattern, degrees: int, rise: float, span: float) -> None:
    found = turned(made, degrees)
    assert (found.rise, found.span) == pytest.approx((rise, span))


def test_sides_without_a_common_step_rise_by_the_shorter_vector() -> None:
    made = turned(running(face=(300.0 * ROOT, 100.0), joint=0.0, shift=0.0), 45)
    assert made.rise == pytest.approx(50 * ROOT)
    assert made.span == pytest.approx(600.0)
