"""Rooms that are no plain alcove, planned at the prompt and checked from plan.json alone."""

import json
from collections.abc import Callable, Iterator
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any

import pytest
import shapely
from shapely.geometry import LineString, Polygon
from tests.odd_rooms import odd_rooms
from typer.testing import CliRunner, Result

from gaugerod.cli.main import build

Plan = dict[str, Any]
Planned = Callable[[str], Plan]
Run = Callable[..., Result]

CLOSE = 0.5
"""Area that counts as nothing. [mm2]"""
HAIR = 0.01
"""A reading is kept by the fit to this, where nothing else is said of it. [mm]"""
LEAST, JOINT, GAP, LINING = 50.0, 3.0, 3.0, 13.0
"""The packaged tile: least piece, joint, every gap, tile and bed. [mm]"""
NARROW = 597.0
"""Width of a whole tile. [mm]"""


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Planned:
    """`planned("bay")`: its plan, made once."""
    folder = tmp_path_factory.mktemp("odd")

    @cache
    def make(name: str) -> Plan:
        path = folder / f"{name}.toml"
        path.write_text(odd_rooms()[name], encoding="utf-8")
        result = CliRunner().invoke(build(), ["plan", str(path), "--out", str(folder / name)])
        assert result.exit_code == 0, result.stderr
        read: Plan = json.loads((folder / name / "plan.json").read_text(encoding="utf-8"))
        return read

    return make


every_room = pytest.mark.parametrize("name", list(odd_rooms()))


@every_room
def test_the_survey_of_an_odd_room_closes(run: Run, tmp_path: Path, name: str) -> None:
    path = tmp_path / "job.toml"
    path.write_text(odd_rooms()[name], encoding="utf-8")
    result = run("measure", path)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "The survey may be cut from." in result.stdout


@every_room
def test_pieces_and_joints_cover_each_field_once(planned: Planned, name: str) -> None:
    plan = planned(name)
    for wall in plan["walls"]:
        shapes = [polygon(piece["rings"]) for piece in pieces_of(plan, wall["name"])]
        field = shapely.union_all([polygon(rings) for rings in wall["fields"]])
        grown = [s.buffer(JOINT / 2, join_style="mitre").intersection(field) for s in shapes]
        assert field.difference(shapely.union_all(grown)).area < CLOSE
        assert sum(shape.area for shape in grown) == pytest.approx(field.area, abs=CLOSE)
        assert shapely.union_all(shapes).difference(field.buffer(1e-3)).area < CLOSE
        for one, other in combinations(shapes, 2):
            assert one.distance(other) >= JOINT - 1e-3


@every_room
def test_no_piece_is_under_the_least(planned: Planned, name: str) -> None:
    for piece in planned(name)["pieces"]:
        assert min(chords(polygon(piece["rings"]))) >= LEAST - HAIR, piece["tag"]


def polygon(rings: list[list[list[float]]]) -> Polygon:
    return Polygon(rings[0], rings[1:])


def pieces_of(plan: Plan, wall: str, course: int | None = None) -> list[dict[str, Any]]:
    return [
        piece
        for piece in plan["pieces"]
        if piece["wall"] == wall and course in {None, piece["course"]}
    ]


def chords(shape: Polygon) -> Iterator[float]:
    """Every level and every plumb chord close to a corner, where the narrowest must be."""
    for turned in (shape, shapely.transform(shape, lambda at: at[:, ::-1])):
        left, _, right, _ = turned.bounds
        heights = sorted({round(y, 3) for _, y in turned.exterior.coords})
        for low, high in pairwise(heights):
            for y in (low + 0.002, high - 0.002):
                cut = LineString([(left - 1, y), (right + 1, y)]).intersection(turned)
                yield from (part.length for part in getattr(cut, "geoms", [cut]))


def span(plan: Plan, wall: str, axis: int = 0) -> tuple[float, float]:
    """From where to where the field of a wall reaches, across or up."""
    fields = next(one["fields"] for one in plan["walls"] if one["name"] == wall)
    places = [point[axis] for rings in fields for point in rings[0]]
    return min(places), max(places)


def ends(plan: Plan, wall: str) -> tuple[float, float]:
    """Least widths of the pieces at the left and at the right end of a wall's courses."""
    low, high = span(plan, wall)
    lefts, rights = [], []
    for piece in pieces_of(plan, wall):
        left, _, right, _ = polygon(piece["rings"]).bounds
        lefts += [right - left] if left < low + HAIR else []
        rights += [right - left] if right > high - HAIR else []
    return min(lefts), min(rights)


def meetings(plan: Plan) -> dict[str, tuple[str, str]]:
    return {wall["name"]: (wall["left"], wall["right"]) for wall in plan["layout"]["walls"]}


# --- sizes worked by hand: every gap and joint 3, a lining with its bed 13 ----------------------


def test_five_walls_meet_in_four_inside_corners(planned: Planned) -> None:
    plan = planned("five walls")
    # Set from left to right: each next wall butts, 13 + 3, and runs behind the one after it, 3.
    assert span(plan, "FL") == pytest.approx((2, 397), abs=HAIR)
    assert span(plan, "L") == pytest.approx((16, 797), abs=HAIR)
    assert span(plan, "B") == pytest.approx((16, 1497), abs=HAIR)
    assert span(plan, "FR") == pytest.approx((16, 398), abs=HAIR)
    # 1481 of the back wall: 597 in the middle, two joints, two ends of (1481 - 603) / 2.
    assert ends(plan, "B") == pytest.approx((439, 439), abs=HAIR)


def test_the_wall_set_later_laps_the_outside_corner(planned: Planned) -> None:
    plan = planned("bay")
    assert meetings(plan)["C"] == ("butts", "stops")
    assert meetings(plan)["F"] == ("laps", "runs behind")
    # The side stops at the corner, 250; the front runs past it by lining and bed, 9 + 4.
    assert span(plan, "C") == pytest.approx((16, 250), abs=HAIR)
    assert span(plan, "F") == pytest.approx((-13, 497), abs=HAIR)
    # One piece each, narrower than a module: 250 - 16 and 497 + 13.
    assert ends(plan, "C") == pytest.approx((234, 234), abs=HAIR)
    assert ends(plan, "F") == pytest.approx((510, 510), abs=HAIR)


def test_a_window_up_into_the_ceiling_leaves_nothing_over_it(planned: Planned) -> None:
    plan = planned("tall window")
    # From 500 to 1100 with 3 round it, the sill at 300: nothing between the jambs above 297.
    bare = shapely.box(497.01, 297.01, 1102.99, 1397)
    lined = shapely.union_all([polygon(piece["rings"]) for piece in pieces_of(plan, "B")])
    assert lined.intersection(bare).area < CLOSE
    # At the ceiling less its gap there is a piece from rim to jamb on both sides, and no other.
    shapes = (polygon(piece["rings"]).bounds for piece in pieces_of(plan, "B"))
    tops = [bounds for bounds in shapes if bounds[3] > 1397 - HAIR]
    assert min(left for left, _, _, _ in tops) == pytest.approx(3, abs=HAIR)
    assert max(right for _, _, right, _ in tops) == pytest.approx(1497, abs=HAIR)
    assert not any(left < 800 < right for left, _, right, _ in tops)


def test_a_wall_narrower_than_a_module_is_one_piece_wide(planned: Planned) -> None:
    plan = planned("narrow wall")
    # 180 less 13 + 3 where it butts the back wall, less 3 where it runs behind the next.
    assert ends(plan, "N") == pytest.approx((161, 161), abs=HAIR)
    courses = {piece["course"] for piece in pieces_of(plan, "N")}
    assert len(pieces_of(plan, "N")) == len(courses)
