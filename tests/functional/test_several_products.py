"""The whole example of the guide: planned, recomputed from plan.json, and as its papers say."""

import csv
import json
import re
from collections import Counter
from math import ceil
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import shapely
from shapely.geometry import Polygon
from typer.testing import CliRunner, Result

from gaugerod.cli.main import build

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "how-to" / "several-products.md").read_text(encoding="utf-8")
SCHEMA = DOCS / "reference" / "plan.schema.json"
MAIN, SLATE, SMALL = "tile-600x300", "slate-600x300", "small-150x75"
CLOSE = 0.5
"""Area that counts as nothing. [mm2]"""

Plan = dict[str, Any]


def planned(folder: Path, job: str, *materials: str) -> Result:
    (folder / "materials").mkdir()
    for number, material in enumerate(materials):
        (folder / "materials" / f"m{number}.toml").write_text(material, encoding="utf-8")
    (folder / "band.toml").write_text(job, encoding="utf-8")
    words = ["plan", str(folder / "band.toml"), "--out", str(folder / "out")]
    return CliRunner().invoke(build(), words)


def plan_in(folder: Path) -> Plan:
    read: Plan = json.loads((folder / "out" / "plan.json").read_text(encoding="utf-8"))
    return read


def examples() -> tuple[str, str, str]:
    slate, small, job = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
    return slate, small, job


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("band")
    slate, small, job = examples()
    result = planned(made, job, slate, small)
    assert result.exit_code == 0, result.output
    for name in ("Slate wall tile 600 x 300 (X)", "Small tile 150 x 75 (Y), inside niche"):
        assert name in result.stdout
    return made


@pytest.fixture(scope="module")
def plan(folder: Path) -> Plan:
    return plan_in(folder)


def polygon(rings: list[list[list[float]]]) -> Polygon:
    return Polygon(rings[0], rings[1:])


def test_the_plan_is_valid_against_its_schema(plan: Plan) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schema).validate(plan)


def test_every_product_is_told_the_main_one_first(plan: Plan) -> None:
    assert [one["id"] for one in plan["products"]] == [MAIN, SLATE, SMALL]
    assert plan["layout"]["product"] == MAIN


def test_the_band_and_the_niche_are_of_their_products_and_all_else_is_not(plan: Plan) -> None:
    walls = {wall["name"] for wall in plan["walls"]}
    for piece in plan["pieces"]:
        wanted = SMALL
        if piece["wall"] in walls:
            wanted = SLATE if piece["course"] in {4, 5} else MAIN
        assert (piece["tag"], piece["product"]) == (piece["tag"], wanted)
    assert {piece["product"] for piece in plan["pieces"]} == {MAIN, SLATE, SMALL}


def test_no_piece_comes_from_stock_of_another_product(plan: Plan) -> None:
    of = {piece["tag"]: piece["product"] for piece in plan["pieces"]}
    faces = {one["id"]: one["face"] for one in plan["products"]}
    cut = []
    for stock in plan["stock"]:
        assert stock["size"] == pytest.approx(faces[stock["product"]])
        for placed in stock["pieces"]:
            assert of[placed["tag"]] == stock["product"]
            cut.append(placed["tag"])
    assert sorted(cut) == sorted(of)


def test_what_is_bought_counts_the_stock_of_each(plan: Plan) -> None:
    counted = Counter(stock["product"] for stock in plan["stock"])
    per_box = {MAIN: 8, SLATE: 6, SMALL: 80}
    lines = {line["id"]: line for line in plan["order"]}
    assert [row["product"] for row in plan["buy"]] == [MAIN, SLATE, SMALL]
    for row in plan["buy"]:
        product, modules = row["product"], row["modules"]
        assert modules == counted[product] == row["lower_bound"]
        assert row["proven"]
        # 5 % for breakage, rounded up, and two spare.
        assert row["spares"] == ceil(modules * 5 / 100) + 2
        assert row["boxes"] == ceil((modules + row["spares"]) / per_box[product])
        line = lines["modules" if product == MAIN else f"modules-{product}"]
        assert line["count"] == row["boxes"]
    assert lines[f"modules-{SLATE}"]["unit_price"] == 5280


def test_every_product_is_in_the_price_once(plan: Plan) -> None:
    costs = {line["id"]: line["cost"] for line in plan["price"]["lines"]}
    boxes = {row["product"]: row["boxes"] for row in plan["buy"]}
    assert costs["modules"] == boxes[MAIN] * 3840
    assert costs[f"modules-{SLATE}"] == boxes[SLATE] * 5280
    assert costs[f"modules-{SMALL}"] == boxes[SMALL] * 3100


def test_pieces_and_joints_cover_every_wall_and_face_once(plan: Plan) -> None:
    rings = {wall["name"]: wall["fields"] for wall in plan["walls"]}
    rings |= {inside["name"]: inside["fields"] for inside in plan["insides"]}
    for name, fields in rings.items():
        field = shapely.union_all([polygon(one) for one in fields])
        shapes = [polygon(p["rings"]) for p in plan["pieces"] if p["wall"] == name]
        grown = [one.buffer(1.5, join_style="mitre").intersection(field) for one in shapes]
        assert field.difference(shapely.union_all(grown)).area < CLOSE
        assert sum(one.area for one in grown) == pytest.approx(field.area, abs=CLOSE)


def test_the_longest_wait_counts(plan: Plan) -> None:
    # Slate takes 21 days, the rest 7: it must be ordered three weeks before it is needed.
    assert plan["order_by"] <= "2026-05-13" < plan["needed"]


def test_the_order_for_the_supplier_has_every_product(folder: Path) -> None:
    with (folder / "out" / "order.csv").open(encoding="utf-8-sig", newline="") as file:
        text = file.read()
    rows = list(csv.reader(text.splitlines()))
    names = [cell for row in rows for cell in row]
    for name in (
        "Porcelain wall tile 600 x 300",
        "Slate wall tile 600 x 300",
        "Small tile 150 x 75",
    ):
        assert names.count(name) == 1


def test_elevations_say_which_is_which(folder: Path) -> None:
    for wall in "LBR":
        drawn = (folder / "out" / f"elevation-{wall}.svg").read_text(encoding="utf-8")
        assert "Slate wall tile 600 x 300" in drawn
        assert re.search(rf">{wall}4-1\*? X<", drawn)
        assert re.search(rf">{wall}3-1\*?<", drawn)


def test_a_job_without_the_table_has_one_product(tmp_path: Path) -> None:
    slate, small, job = examples()
    start, end = job.index("[[choices.accent]]"), job.index("[calendar]")
    result = planned(tmp_path, job[:start] + job[end:], slate, small)
    assert result.exit_code == 0, result.output
    assert "Besides" not in result.stdout
    plain = plan_in(tmp_path)
    for part in ("products", "buy"):
        assert len(plain[part]) == 1
    for part in ("pieces", "stock"):
        assert {one["product"] for one in plain[part]} == {MAIN}
    assert [line["id"] for line in plain["order"] if line["id"].startswith("modules")] == [
        "modules"
    ]


def test_a_row_of_the_main_product_changes_nothing(plan: Plan, tmp_path: Path) -> None:
    slate, small, job = examples()
    row = f'[[choices.accent]]\nmaterial = "{MAIN}"\ncourses = [1]\n\n[calendar]'
    result = planned(tmp_path, job.replace("[calendar]", row), slate, small)
    assert result.exit_code == 0, result.output
    again = plan_in(tmp_path)
    for key in ("pieces", "stock", "buy", "order", "price"):
        assert again[key] == plan[key]


def test_options_are_weighed_and_drawn_with_all_products(folder: Path, plan: Plan) -> None:
    words = ["options", str(folder / "band.toml"), "--out", str(folder / "options")]
    result = CliRunner().invoke(build(), [*words, "--ask", "bond=half"])
    assert result.exit_code == 0, result.output
    (chosen,) = (one for one in plan["options"] if one["chosen"])
    assert chosen["modules"] == sum(row["modules"] for row in plan["buy"])
    assert f"{chosen['modules']} modules" in result.stdout
    for option in plan["options"]:
        drawn = (folder / "options" / f"option-{option['id']}.svg").read_text(encoding="utf-8")
        assert 'class="accent"' in drawn


def test_a_layout_that_is_asked_about_must_have_the_courses(folder: Path) -> None:
    words = ["options", str(folder / "band.toml"), "--ask", "turn=standing"]
    result = CliRunner().invoke(build(), words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "no wall has a course 5; courses run from 1 to 4." in result.stderr
