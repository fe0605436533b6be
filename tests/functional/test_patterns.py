"""Tile on the diagonal and in herringbone, planned end to end and recomputed from plan.json."""

import json
from itertools import combinations, pairwise
from math import sqrt
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import shapely
from shapely.affinity import affine_transform
from shapely.geometry import Polygon
from typer.testing import CliRunner

from gaugerod.cli.main import build

SCHEMA = Path(__file__).parents[2] / "docs" / "reference" / "plan.schema.json"
JOB = Path(__file__).parents[2] / "src" / "gaugerod" / "data" / "jobs" / "niche-tile.toml"
BONDS = ("diagonal", "diagonal half", "herringbone", "diagonal herringbone")
LEAST = 50.0  # of the material's file
CLOSE = 0.5
"""Area that counts as nothing: half a square millimetre on three square metres. [mm2]"""

Plan = dict[str, Any]
SIGNED = """
[[choices.override]]
limit = "shifted-too-far"
by = "Setter"
on = 2026-04-10
why = "Flat tile, mock-up seen by the owner"

"""


OPPOSITE = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}


def planned(job: str, folder: Path, *more: str) -> Plan:
    file = folder / "job.toml"
    file.write_text(job, encoding="utf-8")
    result = CliRunner().invoke(build(), ["plan", str(file), "--out", str(folder / "out"), *more])
    assert result.exit_code == 0, result.output
    read: Plan = json.loads((folder / "out" / "plan.json").read_text(encoding="utf-8"))
    return read


@pytest.fixture(scope="module", params=[(b, t) for b in BONDS for t in ("lying", "standing")])
def plan(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Plan:
    bond, turn = request.param
    job = JOB.read_text(encoding="utf-8")
    job = job.replace('bond = "third"', f'bond = "{bond}"')
    job = job.replace('turn = "lying"', f'turn = "{turn}"')
    if bond == "diagonal half":
        # The material shifts long tile by a third at most; more must be signed for.
        job = job.replace("[calendar]", SIGNED + "[calendar]")
    made = planned(job, tmp_path_factory.mktemp("pattern"))
    assert (made["layout"]["bond"], made["layout"]["turn"]) == (bond, turn)
    return made


def polygon(rings: list[list[list[float]]]) -> Polygon:
    return Polygon(rings[0], rings[1:])


def test_the_plan_is_valid_against_its_schema(plan: Plan) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schema).validate(plan)


def test_pieces_and_joints_cover_each_field_exactly_once(plan: Plan) -> None:
    half = plan["products"][0]["joint"][0] / 2
    for wall in plan["walls"]:
        pieces = [piece for piece in plan["pieces"] if piece["wall"] == wall["name"]]
        field = shapely.union_all([polygon(rings) for rings in wall["fields"]])
        shapes = [polygon(piece["rings"]) for piece in pieces]
        grown = [shape.buffer(half, join_style="mitre").intersection(field) for shape in shapes]
        assert field.difference(shapely.union_all(grown, grid_size=1e-6)).area < CLOSE
        assert sum(shape.area for shape in grown) == pytest.approx(field.area, abs=CLOSE)
        assert shapely.union_all(shapes).difference(field.buffer(1e-3)).area < CLOSE
        for one, other in combinations(shapes, 2):
            assert one.distance(other) >= 2 * half - 1e-3
        for opening in wall["openings"]:
            taken = Polygon(opening["outline"])
            assert taken.intersection(shapely.union_all(shapes)).area == 0
        for hole in wall["holes"]:
            drilled = shapely.Point(hole["x"], hole["y"]).buffer(hole["diameter"] / 2)
            assert drilled.intersection(shapely.union_all(shapes)).area < CLOSE


def test_the_field_is_what_the_outline_leaves_but_for_its_gaps(plan: Plan) -> None:
    for wall in plan["walls"]:
        outline = Polygon(wall["outline"])
        field = shapely.union_all([polygon(rings) for rings in wall["fields"]])
        whole = shapely.union_all([field, *(Polygon(o["outline"]) for o in wall["openings"])])
        discs = [shapely.Point(h["x"], h["y"]).buffer(h["diameter"]) for h in wall["holes"]]
        filled = shapely.union_all([whole, *discs])
        assert field.difference(outline.buffer(1e-6)).area < CLOSE
        # Finished at the ceiling: only gaps and laps are left, narrower than 25 mm everywhere.
        assert outline.difference(filled).buffer(-12.5).area < CLOSE


def test_every_module_is_where_the_pattern_says(plan: Plan) -> None:
    """The cell of each piece is a module of the two vectors, found without our own code."""
    pattern = plan["layout"]["pattern"]
    (ax, ay), (ux, uy) = pattern["across"], pattern["up"]
    phases = {wall["name"]: wall["phase"] for wall in plan["layout"]["walls"]}
    for piece in plan["pieces"]:
        if piece["wall"] not in phases:
            continue  # inside the niche, where there is no pattern
        left, bottom, right, top = piece["cell"]
        dx = (left + right) / 2 - phases[piece["wall"]]
        dy = (bottom + top) / 2 - plan["layout"]["first_course"]
        fits = []
        for unit in pattern["cell"]:
            c, s = unit_way(unit["turn"])
            w, h = unit["face"]
            x = dx - unit["at"][0] - (w * c - h * s) / 2
            y = dy - unit["at"][1] - (w * s + h * c) / 2
            area = ax * uy - ay * ux
            i, j = (x * uy - y * ux) / area, (ax * y - ay * x) / area
            whole = abs(i - round(i)) < 1e-6 and abs(j - round(j)) < 1e-6
            fits.append(whole and unit["turn"] == piece["turn"])
        assert sum(fits) == 1


def unit_way(degrees: int) -> tuple[float, float]:
    c, s = {0: (1, 0), 45: (1, 1), 90: (0, 1), 315: (1, -1)}[degrees]
    return c / sqrt(c * c + s * s), s / sqrt(c * c + s * s)


def in_module(piece: dict[str, Any]) -> Polygon:
    """The piece in the module's frame, from its cell, face and turn."""
    c, s = unit_way(piece["turn"])
    left, bottom, right, top = piece["cell"]
    w, h = piece["face"]
    x, y = (left + right) / 2, (bottom + top) / 2
    moves = [c, s, -s, c, w / 2 - c * x - s * y, h / 2 + s * x - c * y]
    moved = affine_transform(polygon(piece["rings"]), moves)
    assert isinstance(moved, Polygon)
    return moved


def test_a_piece_has_its_size_edges_and_place_in_the_modules_frame(plan: Plan) -> None:
    for piece in plan["pieces"]:
        shape = in_module(piece)
        left, bottom, right, top = shape.bounds
        assert piece["within"] == pytest.approx([left, bottom, right, top], abs=1e-6)
        assert piece["size"] == pytest.approx([right - left, top - bottom], abs=1e-6)
        w, h = piece["face"]
        assert shapely.box(0, 0, w, h).buffer(1e-6).contains(shape)
        limits = {"left": (0, 0.0), "right": (0, w), "bottom": (1, 0.0), "top": (1, h)}
        for edge in piece["edges"]:
            axis, limit = limits[edge["side"]]
            on_edge = all(abs(edge[end][axis] - limit) < 1e-3 for end in ("from", "to"))
            assert on_edge == (edge["kind"] == "factory")
            assert shape.exterior.distance(shapely.Point(edge["from"])) < 1e-6


def test_the_marks_of_a_card_give_back_the_piece(plan: Plan) -> None:
    """Every end of every cut can be found again from marks measured from the module's edges."""
    far = {"left": 0, "right": 0, "bottom": 1, "top": 1}
    for piece in plan["pieces"]:
        w, h = piece["face"]

        def place(start: str, value: float, w: float = w, h: float = h) -> float:
            return {"right": w - value, "top": h - value}.get(start, value)

        points: list[tuple[float, float]] = []
        corners: dict[str, dict[int, float]] = {}
        for mark in piece["marks"]:
            at = place(mark["from"], mark["value"])
            side = mark["what"].removeprefix("along ")
            if mark["what"] in {"corner", "scribe"}:
                corners.setdefault(mark["detail"], {})[far[mark["from"]]] = at
            elif side in far:
                edge = place(side, 0.0)
                points.append((at, edge) if far[side] else (edge, at))
        points += [(both[0], both[1]) for both in corners.values()]
        for edge in piece["edges"]:
            # A level or plumb module is cut nearly square, and read where the cut leaves it.
            if edge["kind"] == "cut" and piece["turn"] % 90:
                for end in (edge["from"], edge["to"]):
                    off = min(abs(end[0] - x) + abs(end[1] - y) for x, y in points)
                    assert off < 1e-6, (piece["tag"], edge, points)


def test_no_piece_is_narrower_than_the_least(plan: Plan) -> None:
    for piece in plan["pieces"]:
        ring = shapely.get_coordinates(Polygon(piece["rings"][0]).convex_hull).tolist()
        widths = []
        for (x0, y0), (x1, y1) in pairwise(ring):
            off = [(x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) for x, y in ring]
            widths.append((max(off) - min(off)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)
        assert min(widths) >= LEAST - 1e-3, piece["tag"]


def test_every_piece_lies_in_its_stock_with_the_edges_it_keeps(plan: Plan) -> None:
    pieces = {piece["tag"]: piece for piece in plan["pieces"]}
    kerf = plan["products"][0]["kerf"]
    tags = []
    for stock in plan["stock"]:
        width, height = stock["size"]
        boxes = []
        for placed in stock["pieces"]:
            (x, y), (w, h) = placed["at"], placed["size"]
            assert [w, h] == pytest.approx(pieces[placed["tag"]]["size"])
            room = {"left": x, "right": width - x - w, "bottom": y, "top": height - y - h}
            assert min(room.values()) >= -1e-3
            kept = pieces[placed["tag"]]["keeps"]
            kept = [OPPOSITE[s] if placed["turned"] else s for s in kept]
            assert all(room[side] <= 1e-3 for side in kept)
            boxes.append(shapely.box(x, y, x + w, y + h))
            tags.append(placed["tag"])
        for one, other in combinations(boxes, 2):
            assert one.distance(other) >= kerf - 1e-3
    assert sorted(tags) == sorted(pieces)


def test_grout_fills_what_tile_leaves(plan: Plan) -> None:
    """The volume of the joints, recomputed as area of field less pieces times thickness."""
    lined = [*plan["walls"], *plan["insides"]]
    field = sum(polygon(rings).area for part in lined for rings in part["fields"])
    laid = sum(polygon(piece["rings"]).area for piece in plan["pieces"])
    litres = (field - laid) * plan["products"][0]["thickness"] / 1e6
    line = next(line for line in plan["order"] if line["id"] == "grout")
    # Packaged tile: 1.6 kg to the litre, 15 % of waste, 5 kg a bag.
    assert line["needed"] == pytest.approx(litres * 1.6 * 1.15 / 5, rel=1e-5)


@pytest.mark.parametrize("bond", BONDS)
def test_a_keyed_module_is_refused_in_one_line(bond: str, tmp_path: Path) -> None:
    job = (JOB.parent / "alcove-1962.toml").read_text(encoding="utf-8")
    start = job.index("[choices]")
    kept = [line for line in job[start:].splitlines() if not line.startswith("bond")]
    job = job[:start] + "\n".join([kept[0], f'bond = "{bond}"', *kept[1:]])
    file = tmp_path / "job.toml"
    file.write_text(job, encoding="utf-8")
    result = CliRunner().invoke(build(), ["plan", str(file), "--out", str(tmp_path / "out")])
    assert result.exit_code == 2
    said = " ".join(result.output.split())
    assert f"“{bond}” is for plain edges and grout" in said
    assert "Choose stack, half or third" in said
