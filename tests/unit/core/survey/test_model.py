"""Partials against differences of the predictions themselves."""

from typing import Any

import pytest
from pydantic import TypeAdapter

from gaugerod.core.job.readings import Reading
from gaugerod.core.survey.model import predict, unknowns_of

STATE = {
    "width B": 1510.0,
    "left B": 0.004,
    "right B": -0.007,
    "deck 1": -702.0,
    "deck 2": -697.0,
    "ceiling 1": 1400.0,
    "ceiling 2": 1391.0,
    "floor": -1080.0,
    "drain": -1050.0,
    "hole B/valve x": 410.0,
    "hole B/valve y": -330.0,
    "hole B/valve rough-in": 30.0,
    "fixture B/dish x": 900.0,
    "fixture B/dish y": 100.0,
    "opening B/window left": 500.0,
    "opening B/window right": 1100.0,
    "opening B/window sill": 300.0,
    "opening B/window head": 900.0,
}

READINGS: list[dict[str, Any]] = [
    {"kind": "width", "at": -600},
    {"kind": "deck", "at": 400},
    {"kind": "floor", "at": 400},
    {"kind": "ceiling", "at": 1100},
    {"kind": "height", "at": 700},
    {"kind": "corner to corner", "left_at": -650, "right_at": 1200},
    {"kind": "lean", "edge": "left", "over": 1800},
    {"kind": "lean", "edge": "right", "over": 1800},
    {"kind": "hole", "of": "valve", "from": "left"},
    {"kind": "hole", "of": "valve", "from": "right"},
    {"kind": "hole", "of": "valve", "from": "datum"},
    {"kind": "rough-in", "of": "valve"},
    {"kind": "fixture", "of": "dish", "from": "right"},
    {"kind": "drain"},
    *(
        {"kind": "opening", "of": "window", "edge": edge, "from": start}
        for edge in ("left", "right")
        for start in ("left", "right")
    ),
    *(
        {"kind": "opening", "of": "window", "edge": edge, "from": "itself"}
        for edge in ("sill", "head", "width", "height")
    ),
]


def reading(raw: dict[str, Any]) -> Reading:
    adapter: TypeAdapter[Reading] = TypeAdapter(Reading)
    return adapter.validate_python({"reads": 1.0, **raw})


@pytest.mark.parametrize("raw", READINGS, ids=lambda raw: " ".join(map(str, raw.values())))
def test_partials_are_those_of_the_prediction(raw: dict[str, Any]) -> None:
    taken = reading(raw)
    found = predict(taken, "B", 1, STATE)
    assert set(found.partials) == set(unknowns_of(taken, "B", 1))
    for name, rate in found.partials.items():
        step = 1e-4 if "left B" in name or "right B" in name else 0.1
        more = predict(taken, "B", 1, STATE | {name: STATE[name] + step}).value
        less = predict(taken, "B", 1, STATE | {name: STATE[name] - step}).value
        assert (more - less) / (2 * step) == pytest.approx(rate, rel=1e-5, abs=1e-7)


@pytest.mark.parametrize(
    "raw",
    [
        {"kind": "gap", "at": 1, "height": 0, "straightedge": 1800, "held": "level"},
        {"kind": "depth", "at": 1, "height": 0},
        {"kind": "lip", "what": "height"},
        {"kind": "deck", "at": 30, "part": "platform"},
        {"kind": "opening", "of": "window", "edge": "jamb depth", "from": "itself"},
    ],
    ids=lambda raw: raw["kind"],
)
def test_some_readings_are_no_part_of_the_fit(raw: dict[str, Any]) -> None:
    assert unknowns_of(reading(raw), "B", 1) == ()


# Hand-worked: width 1510, left edge 0.004 per mm, right edge -0.007 per mm.
@pytest.mark.parametrize(
    ("raw", "value"),
    [
        ({"kind": "width", "at": 100}, 1510 - 1.1),
        ({"kind": "lean", "edge": "left", "over": 1000}, 4.0),
        ({"kind": "lean", "edge": "right", "over": 1000}, 7.0),
        ({"kind": "deck", "at": 755}, 699.5),
        ({"kind": "ceiling", "at": 755}, 1395.5),
        ({"kind": "height", "at": 755}, 2095.0),
        ({"kind": "floor", "at": 755}, 380.5),
        ({"kind": "hole", "of": "valve", "from": "left"}, 410 + 1.32),
        ({"kind": "hole", "of": "valve", "from": "right"}, 1510 + 2.31 - 410),
        ({"kind": "opening", "of": "window", "edge": "left", "from": "left"}, 500 - 2.4),
    ],
    ids=str,
)
def test_predictions_by_hand(raw: dict[str, Any], value: float) -> None:
    assert predict(reading(raw), "B", 1, STATE).value == pytest.approx(value)
