"""Rooms that are no plain alcove, planned at the prompt and checked from plan.json alone."""

import json
import re
from collections.abc import Callable
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
import shapely
import trimesh
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from tests.checkers.narrowest import narrowest
from tests.odd_rooms import odd_rooms
from typer.testing import CliRunner, Result

from gaugerod.cli.main import build

Plan = dict[str, Any]
Planned = Callable[[str], Plan]
Papers = Callable[[str], Path]
Run = Callable[..., Result]

CLOSE = 0.5
"""Area that counts as nothing. [mm2]"""
HAIR = 0.01
"""A reading is kept by the fit to this, where nothing else is said of it. [mm]"""
LEAST, JOINT, THICK = 50.0, 3.0, 9.0
"""The packaged tile: its least piece, its joint and its thickness. [mm]"""
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    """`papers("bay")`: the folder of its papers, made once."""
    folder = tmp_path_factory.mktemp("odd")

    @cache
    def make(name: str) -> Path:
        path = folder / f"{name}.toml"
        path.write_text(odd_rooms()[name], encoding="utf-8")
        result = CliRunner().invoke(build(), ["plan", str(path), "--out", str(folder / name)])
        assert result.exit_code == 0, result.stderr
        return folder / name

    return make


@pytest.fixture(scope="module")
def planned(papers: Papers) -> Planned:
    """`planned("bay")`: its plan."""

    def read(name: str) -> Plan:
        plan: Plan = json.loads((papers(name) / "plan.json").read_text(encoding="utf-8"))
        return plan

    return read


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
def test_the_picture_of_an_odd_room_is_drawn_within_its_edges(papers: Papers, name: str) -> None:
    root = ET.parse(papers(name) / "picture.svg").getroot()  # noqa: S314  (our own output)
    _, _, width, height = (float(number) for number in root.attrib["viewBox"].split())
    paths = [path.attrib["d"] for path in root.iter(f"{SVG}path") if path.get("fill-rule")]
    assert len(paths) > 30
    for path in paths:
        numbers = [float(number) for number in re.findall(r"-?[0-9.]+", path)]
        assert all(0 < x < width for x in numbers[::2])
        assert all(0 < y < height for y in numbers[1::2])


@every_room
def test_its_model_has_every_piece_whole(papers: Papers, planned: Planned, name: str) -> None:
    bodies = trimesh.load_scene(papers(name) / "alcove.glb").geometry
    for piece in planned(name)["pieces"]:
        body = bodies[piece["tag"]]
        assert body.is_watertight
        expected = polygon(piece["rings"]).area * THICK / 1e9
        assert body.volume == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(("name", "hidden"), [("five walls", 2), ("narrow wall", 1), ("bay", 0)])
def test_walls_that_would_hide_the_rest_are_dashed(papers: Papers, name: str, hidden: int) -> None:
    root = ET.parse(papers(name) / "picture.svg").getroot()  # noqa: S314  (our own output)
    lines = [line for group in root if group.get("class") == "beyond" for line in group]
    assert len(lines) == 4 * hidden


@every_room
def test_no_piece_is_under_the_least(planned: Planned, name: str) -> None:
    for piece in planned(name)["pieces"]:
        assert narrowest(polygon(piece["rings"])) >= LEAST - HAIR, piece["tag"]


def polygon(rings: list[list[list[float]]]) -> Polygon:
    return Polygon(rings[0], rings[1:])


def pieces_of(plan: Plan, wall: str, course: int | None = None) -> list[dict[str, Any]]:
    return [
        piece
        for piece in plan["pieces"]
        if piece["wall"] == wall and course in {None, piece["course"]}
    ]


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


def test_a_leg_of_lining_goes_down_to_the_floor(planned: Planned) -> None:
    plan = planned("leg")
    # Past the tub by 120: from the front less 2 to the tub less 3; the floor at 1140 less 3.
    below = lined(plan, "L").intersection(shapely.box(-1e4, -1e4, 1e4, -758))
    assert below.bounds == pytest.approx((2, -1137, 117, -758), abs=HAIR)
    # The lowest course is numbered down from the first at the rim.
    lowest = min(pieces_of(plan, "L"), key=lambda piece: bounds(piece)[1])
    assert (lowest["tag"], lowest["course"]) == ("L0-1", 0)
    # The level line is struck from the tub and not from the floor.
    low = span(plan, "B", 1)[0]
    assert low == pytest.approx(-757, abs=HAIR)
    assert 50 <= plan["layout"]["first_course"] - low <= 297


def test_a_seat_has_a_first_course_of_its_own(planned: Planned) -> None:
    plan = planned("platform")
    # A whole tile at the rim, 297, is 177 on a seat 120 higher.
    assert plan["layout"]["first_course"] == pytest.approx(-757 + 297, abs=HAIR)
    on_seat = [bounds(piece) for piece in pieces_of(plan, "B", 1) if bounds(piece)[0] > 1000]
    assert on_seat
    for _, bottom, _, top in on_seat:
        assert (bottom, top) == pytest.approx((-637, -460), abs=HAIR)
    # Beside the seat the lining stops 3 short of it, on both walls.
    under = shapely.box(-1e3, -1e4, 1e4, -637.1)
    assert lined(plan, "B").intersection(under).bounds[2] == pytest.approx(997, abs=HAIR)
    assert lined(plan, "R").intersection(under).bounds[0] == pytest.approx(303, abs=HAIR)


def test_lining_goes_round_a_seat_in_the_field(planned: Planned) -> None:
    plan = planned("ledge")
    _, top = span(plan, "B", 1)
    (field,) = (one["fields"] for one in plan["walls"] if one["name"] == "B")
    # From 3 to 1497 and up from -757, less the seat with its joint: 506 by 400.
    area = sum(polygon(rings).area for rings in field)
    assert area == pytest.approx(1494 * (top + 757) - 506 * 400, abs=30)
    seat = shapely.box(497.1, -757, 1002.9, -357.1)
    assert lined(plan, "B").intersection(seat).area < CLOSE


def test_a_lining_follows_the_slope_of_a_ceiling(planned: Planned) -> None:
    plan = planned("sloping ceiling")
    # 12 degrees over 1500 are 318.8; the ceiling less 3 at the rims of the field, 3 and 1497.
    shape = lined(plan, "B")
    for x in (10.0, 300.0, 800.0, 1400.0):
        upright = shapely.LineString([(x, 500), (x, 2000)]).intersection(shape)
        assert upright.bounds[3] == pytest.approx(1397 - x * 318.8 / 1500, abs=0.5)
    assert span(plan, "R", 1)[1] == pytest.approx(1400 - 318.8 - 3, abs=0.5)


def test_a_knee_wall_is_lined_to_its_own_finish(planned: Planned) -> None:
    plan = planned("knee wall")
    # The floor is 380 under the rim, which is 760 under the datum: 1100 over it are -40.
    assert span(plan, "R", 1)[1] == pytest.approx(-40, abs=HAIR)
    tops = {wall["name"]: wall["top"] for wall in plan["layout"]["walls"]}
    assert tops["R"] == pytest.approx(-40, abs=HAIR)
    assert tops["L"] == tops["B"] == plan["layout"]["top"] > 600
    # One level line for all: its courses lie with those of the other walls.
    lines = {round(bounds(piece)[1], 2) for piece in pieces_of(plan, "B")}
    assert {round(bounds(piece)[1], 2) for piece in pieces_of(plan, "R")} <= lines


def test_a_room_without_a_layout_is_told_what_would_do(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    text = odd_rooms()["five walls"].replace("[calendar]", "first_height = 45.5\n[calendar]")
    path.write_text(text, encoding="utf-8")
    result = run("plan", path, "--out", tmp_path / "out")
    assert (result.exit_code, result.stdout) == (2, "")
    (line,) = result.stderr.splitlines()
    # The deck is level, so each of five walls is hopeless as it stands, and 45 mm would do.
    assert "Of 5 places tried: a piece would be under the least the material allows at 5" in line
    assert "With 45 mm for the least piece instead of 50 mm" in line
    assert "The first course is 46 mm high" in line
    assert "Wall FR: " in line


def bounds(piece: dict[str, Any]) -> tuple[float, float, float, float]:
    left, bottom, right, top = polygon(piece["rings"]).bounds
    return left, bottom, right, top


def lined(plan: Plan, wall: str) -> BaseGeometry:
    return shapely.union_all([polygon(piece["rings"]) for piece in pieces_of(plan, wall)])
