import json
from dataclasses import replace
from functools import cache
from typing import Any

import jsonschema
import pytest
from pydantic import ValidationError

from gaugerod.core.base.geometry import Box
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.base.messages import Message
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.pipeline import Plan, plan
from gaugerod.core.survey.walls import FittedFixture, FittedOpening, Suspect
from gaugerod.store.shelf import Library
from gaugerod.writers.plan_json import plan_json, plan_schema

WORDS = Library().words(METRIC, currency="USD")


@cache
def made() -> Plan:
    materials = Materials(systems={"sample": sample_system()})
    rules = Rules(format=1, unit="mm", rule=())
    return plan(sample_job(), materials, rules, sample_rates())


def written(plan: Plan) -> dict[str, Any]:
    read: dict[str, Any] = json.loads(plan_json(plan, WORDS, version="1.2.3"))
    return read


def refuse_constant(name: str) -> float:
    raise ValueError(name)


def test_the_file_is_as_its_schema_says() -> None:
    schema = plan_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(written(made()), schema)


# The published parts of format 1; more may be there.
PARTS = {
    "": "format version job products survey walls layout pieces stock buy trims options order "
    "price days findings",
    "job": "name display timezone",
    "products": "id kind face joint kerf edges",
    "survey": "sigma0 dof fit_for readings suspects",
    "walls": "name outline fields openings holes fixtures",
    "layout": "turn bond first_course pitch walls",
    "pieces": "tag wall course place product stock turn rings size whole edges keeps holes "
    "measure_in_place marks",
    "stock": "id from product size keeps lot pieces offcuts",
    "buy": "product modules lower_bound proven spares boxes",
    "trims": "trim stock runs offcut",
    "trim_counts": "trim lengths lower_bound proven",
}


@pytest.mark.parametrize("part", PARTS)
def test_the_published_parts_are_there(part: str) -> None:
    whole = written(made())
    table = whole[part] if part else whole
    tables = table if isinstance(table, list) else [table]
    assert tables
    for one in tables:
        assert set(PARTS[part].split()) <= one.keys()


def test_odds_are_those_of_each_option_and_the_chosen_layout() -> None:
    whole, plan = written(made()), made()
    for told, option in zip(whole["options"], plan.options.options, strict=True):
        assert told["chance"] == option.odds.chance
        limits = [(one["limit"], one["wall"], one["chance"]) for one in told["limits"]]
        assert limits == [(one.limit, one.wall, one.chance) for one in option.odds.limits]
    cuts = [
        (wall["name"], end["course"], end["side"], end["width"], end["sigma"])
        for wall in whole["layout"]["walls"]
        for end in wall["end_cuts"]
    ]
    assert cuts == [
        (end.wall, end.course, end.side, end.width, end.sigma) for end in plan.chosen.odds.ends
    ]


def test_inner_parts_have_their_published_names() -> None:
    whole = written(made())
    assert {"id", "wall", "value", "residual", "w"} <= whole["survey"]["readings"][0].keys()
    assert {"name", "phase", "left", "right"} <= whole["layout"]["walls"][0].keys()
    assert {"side", "kind", "from", "to"} == whole["pieces"][0]["edges"][0].keys()
    assert {"tag", "at", "size", "turned", "blank"} == whole["stock"][0]["pieces"][0].keys()
    saws = [cut for stock in whole["stock"] for cut in stock["sequence"]]
    assert {"part", "from", "at", "near", "far", "stands"} == saws[0].keys()
    assert whole["walls"][0]["holes"][0].keys() >= {"name", "x", "y", "diameter"}
    offcuts = [offcut for stock in whole["stock"] for offcut in stock["offcuts"]]
    assert {"id", "at", "size", "keeps"} == offcuts[0].keys()


def test_rings_are_closed() -> None:
    whole = written(made())
    rings = [wall["outline"] for wall in whole["walls"]]
    rings += [ring for wall in whole["walls"] for field in wall["fields"] for ring in field]
    rings += [ring for piece in whole["pieces"] for ring in piece["rings"]]
    assert all(ring[0] == ring[-1] and len(ring) >= 4 for ring in rings)


def test_lengths_are_those_of_the_plan_to_the_last_digit() -> None:
    whole = written(made())
    assert whole["layout"]["first_course"] == made().layout.first_course
    assert whole["pieces"][0]["rings"][0][0] == list(made().pieces[0].region.rings[0][0])
    assert whole["survey"]["sigma0"] == made().walls.sigma0


def test_every_piece_names_the_stock_that_names_it() -> None:
    whole = written(made())
    placed = {one["tag"]: stock["id"] for stock in whole["stock"] for one in stock["pieces"]}
    assert placed == {piece["tag"]: piece["stock"] for piece in whole["pieces"]}


def test_the_same_plan_gives_the_same_text() -> None:
    first = plan_json(made(), WORDS, version="1")
    assert plan_json(made(), WORDS, version="1") == first
    assert first.endswith("}\n")


def test_there_is_no_number_that_json_does_not_know() -> None:
    text = plan_json(made(), WORDS, version="1")
    json.loads(text, parse_constant=refuse_constant)
    walls = replace(made().walls, sigma0=float("nan"))
    with pytest.raises(ValidationError, match="finite"):
        plan_json(replace(made(), walls=walls), WORDS, version="1")


def test_the_job_and_the_program_are_named() -> None:
    whole = written(made())
    assert (whole["format"], whole["version"]) == (1, "1.2.3")
    assert whole["job"]["display"] == "metric"
    assert whole["job"]["timezone"] == "UTC"


def test_openings_and_fixtures_are_outlines() -> None:
    box = Box(left=100.0, bottom=200.0, right=400.0, top=500.0)
    ring = [[100.0, 200.0], [400.0, 200.0], [400.0, 500.0], [100.0, 500.0], [100.0, 200.0]]
    left, *others = made().walls.walls
    left = replace(
        left,
        openings=(
            FittedOpening(name="niche", kind="niche", box=box, gap=None, lined=True, depth=90.0),
        ),
        fixtures=(FittedFixture(name="shelf", kind="shelf", box=box, clear=25.0),),
    )
    walls = replace(made().walls, walls=(left, *others))
    wall = written(replace(made(), walls=walls))["walls"][0]
    niche = {"name": "niche", "kind": "niche", "outline": ring, "lined": True, "depth": 90.0}
    assert wall["openings"] == [niche]
    assert wall["fixtures"] == [{"name": "shelf", "kind": "shelf", "outline": ring, "clear": 25.0}]


def test_suspects_are_told_with_the_likely_slip() -> None:
    suspects = (
        Suspect(readings=("a",), w=5.0, guess=Message("job.no-readings")),
        Suspect(readings=("b", "c"), w=4.0, guess=None, decide=Message("job.no-readings")),
    )
    walls = replace(made().walls, suspects=suspects)
    told = written(replace(made(), walls=walls))["survey"]["suspects"]
    guess = WORDS.text("job.no-readings")
    assert told == [
        {"readings": ["a"], "w": 5.0, "guess": guess, "decide": None},
        {"readings": ["b", "c"], "w": 4.0, "guess": None, "decide": guess},
    ]


def test_one_option_is_the_chosen_one() -> None:
    options = written(made())["options"]
    assert [option["id"] for option in options if option["chosen"]] == [made().chosen.id]


def test_a_reading_that_nothing_checks_has_no_detectable_blunder() -> None:
    first, second, *_ = made().walls.readings
    walls = replace(
        made().walls,
        readings=(replace(first, detectable=7.5), replace(second, detectable=float("inf"))),
    )
    survey = written(replace(made(), walls=walls))["survey"]
    assert [reading["detectable"] for reading in survey["readings"]] == [7.5, None]
    assert survey["chance"] == made().walls.chance
