"""What anyone can check from plan.json alone, with shapely and a schema reader."""

import json
from itertools import combinations
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import shapely
from shapely.geometry import Polygon
from typer.testing import CliRunner

from gaugerod.cli.main import build

SCHEMA = Path(__file__).parents[2] / "docs" / "reference" / "plan.schema.json"
DEMOS = ("alcove-1962", "niche-tile")

Plan = dict[str, Any]
CLOSE = 0.5
"""Area that counts as nothing: half a square millimetre on three square metres. [mm2]"""


OPPOSITE = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}


@pytest.fixture(scope="module", params=DEMOS)
def plan(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Plan:
    out = tmp_path_factory.mktemp("out")
    result = CliRunner().invoke(build(), ["demo", "--out", str(out)])
    assert result.exit_code == 0
    read: Plan = json.loads((out / request.param / "plan.json").read_text(encoding="utf-8"))
    return read


def polygon(rings: list[list[list[float]]]) -> Polygon:
    return Polygon(rings[0], rings[1:])


def test_the_plan_is_valid_against_its_schema(plan: Plan) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schema).validate(plan)
    assert plan["format"] == 1


def test_pieces_joints_and_openings_cover_each_field_exactly_once(plan: Plan) -> None:
    joints = {product["id"]: max(product["joint"]) for product in plan["products"]}
    for wall in plan["walls"]:
        pieces = [piece for piece in plan["pieces"] if piece["wall"] == wall["name"]]
        field = shapely.union_all([polygon(rings) for rings in wall["fields"]])
        shapes = [polygon(piece["rings"]) for piece in pieces]
        half = joints[pieces[0]["product"]] / 2
        grown = [shape.buffer(half, join_style="mitre").intersection(field) for shape in shapes]
        # Nothing of the field is left bare, and no two pieces share any of it.
        assert field.difference(shapely.union_all(grown)).area < CLOSE
        assert sum(shape.area for shape in grown) == pytest.approx(field.area, abs=CLOSE)
        # Pieces themselves stay on the field, clear of each other and of every opening.
        assert shapely.union_all(shapes).difference(field.buffer(1e-3)).area < CLOSE
        for one, other in combinations(shapes, 2):
            assert one.distance(other) >= 2 * half - 1e-3
            assert one.intersection(other).area < CLOSE
        for opening in wall["openings"]:
            taken = Polygon(opening["outline"])
            assert taken.intersection(shapely.union_all(shapes)).area < taken.length
        for hole in wall["holes"]:
            drilled = shapely.Point(hole["x"], hole["y"]).buffer(hole["diameter"] / 2)
            assert drilled.intersection(shapely.union_all(shapes)).area < CLOSE


def test_pieces_and_joints_cover_each_inside_face_exactly_once(plan: Plan) -> None:
    joint = max(plan["products"][0]["joint"])
    for inside in plan["insides"]:
        (rings,) = inside["fields"]
        field = polygon(rings)
        shapes = [
            polygon(piece["rings"]) for piece in plan["pieces"] if piece["wall"] == inside["name"]
        ]
        grown = [shape.buffer(joint / 2, join_style="mitre") for shape in shapes]
        assert field.difference(shapely.union_all(grown)).area < CLOSE
        assert shapely.union_all(shapes).difference(field.buffer(1e-3)).area < CLOSE
        for one, other in combinations(shapes, 2):
            assert one.distance(other) == pytest.approx(joint, abs=1e-3)
    surfaces = {part["name"] for key in ("walls", "insides") for part in plan[key]}
    assert {piece["wall"] for piece in plan["pieces"]} == surfaces


def test_the_faces_in_the_niche_of_the_tiled_bath(plan: Plan) -> None:
    """By hand: tile of 9 on a bed of 4, joints of 3 at corners and between faces; 92 deep."""
    faces = {inside["face"]: polygon(inside["fields"][0]) for inside in plan["insides"]}
    if plan["products"][0]["kind"] == "keyed":
        assert faces == {}
        return
    (niche,) = [opening for wall in plan["walls"] for opening in wall["openings"]]
    left, bottom, right, top = Polygon(niche["outline"]).bounds
    width, height, depth = right - left, top - bottom, niche["depth"]
    assert depth == pytest.approx(92.0, abs=0.01)
    deep = depth + 13 - 3
    sizes = {face: shape.bounds[2:] for face, shape in faces.items()}
    assert sizes["head"] == pytest.approx((width - 6, deep))
    # A pitch of 1 in 48 makes a length longer by 1 in 4608 of it.
    assert sizes["sill"] == pytest.approx((width - 6, deep * (1 + 1 / 4608)), abs=1e-4)
    front = height - 13 - 13 - 6 - 9 / 4608
    assert sizes["left"] == sizes["right"] == pytest.approx((deep, front), abs=1e-4)
    assert sizes["back"] == pytest.approx((width - 26 - 6, front - depth / 48), abs=1e-4)
    # A side is a rectangle less the triangle under it.
    assert faces["left"].area == pytest.approx(deep * front - deep * deep / 48 / 2, rel=1e-5)
    assert faces["right"].area == pytest.approx(faces["left"].area)


def test_fields_and_openings_fill_the_outline_below_the_finish(plan: Plan) -> None:
    for wall in plan["walls"]:
        outline = Polygon(wall["outline"])
        field = shapely.union_all([polygon(rings) for rings in wall["fields"]])
        assert field.difference(outline.buffer(1e-6)).area < CLOSE
        whole = shapely.union_all([field, *(Polygon(o["outline"]) for o in wall["openings"])])
        discs = [shapely.Point(h["x"], h["y"]).buffer(h["diameter"]) for h in wall["holes"]]
        filled = shapely.union_all([whole, *discs])
        below = outline.intersection(shapely.box(-1e4, -1e4, 1e4, field.bounds[3]))
        # Only gaps, laps and deducts are left: narrower than 25 mm everywhere.
        assert below.difference(filled).buffer(-12.5).area < CLOSE


def test_every_piece_fits_where_its_stock_says(plan: Plan) -> None:
    sizes = {piece["tag"]: piece for piece in plan["pieces"]}
    placed_tags = []
    kerf = plan["products"][0]["kerf"]
    for stock in plan["stock"]:
        width, height = stock["size"]
        boxes = []
        for placed in stock["pieces"]:
            (x, y), (w, h) = placed["at"], placed["size"]
            piece = sizes[placed["tag"]]
            assert (w, h) == pytest.approx(piece["size"])
            assert piece["stock"] == stock["id"]
            assert min(x, y, width - x - w, height - y - h) >= -1e-3
            room = {"left": x, "right": width - x - w, "bottom": y, "top": height - y - h}
            kept = [OPPOSITE[s] if placed["turned"] else s for s in piece["keeps"]]
            assert all(room[side] <= 1e-3 for side in kept)
            boxes.append(shapely.box(x, y, x + w, y + h))
            placed_tags.append(placed["tag"])
        for one, other in combinations(boxes, 2):
            assert one.distance(other) >= kerf - 1e-3
    assert sorted(placed_tags) == sorted(sizes)
    assert plan["buy"][0]["modules"] == len(plan["stock"])
    assert plan["buy"][0]["lower_bound"] <= len(plan["stock"])


def test_a_piece_has_its_size_and_its_edges_in_the_modules_frame(plan: Plan) -> None:
    face_w, face_h = plan["products"][0]["face"]
    for piece in plan["pieces"]:
        shape = polygon(piece["rings"])
        left, bottom, right, top = shape.bounds
        on_wall = (right - left, top - bottom)
        size = on_wall if piece["turn"] in {0, 180} else on_wall[::-1]
        assert piece["size"] == pytest.approx(size)
        limits = {"left": (0, 0.0), "right": (0, face_w), "bottom": (1, 0.0), "top": (1, face_h)}
        for edge in piece["edges"]:
            if edge["kind"] != "cut":
                axis, limit = limits[edge["side"]]
                assert edge["from"][axis] == pytest.approx(limit, abs=1e-3)
                assert edge["to"][axis] == pytest.approx(limit, abs=1e-3)
        length = sum(
            shapely.Point(edge["from"]).distance(shapely.Point(edge["to"]))
            for edge in piece["edges"]
        )
        assert length == pytest.approx(shape.exterior.length, rel=1e-6)


def test_trims_are_cut_from_their_lengths_with_a_kerf_between(plan: Plan) -> None:
    kerf = plan["products"][0]["kerf"]
    for stock in plan["trims"]:
        end = -kerf
        for run in stock["runs"]:
            assert run["start"] >= end + kerf - 1e-6
            end = run["start"] + run["length"]
        assert end <= stock["stock"] + 1e-6
        assert 0 <= stock["offcut"] <= max(0, stock["stock"] - end - kerf) + 1e-6
    for count in plan["trim_counts"]:
        own = [stock for stock in plan["trims"] if stock["trim"] == count["trim"]]
        bought = [one["count"] for one in plan["order"] if one["id"] == f"trim-{count['trim']}"]
        assert [len(own)] == [count["lengths"]] == bought
        assert count["proven"] == (count["lengths"] == count["lower_bound"])
