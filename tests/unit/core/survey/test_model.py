"""Partials against differences of the predictions themselves."""

from typing import Any

import pytest
from pydantic import TypeAdapter

from gaugerod.core.job.readings import Reading
from gaugerod.core.survey.model import Bend, Seat, predict, unknowns_of

STATE = {
    "width B": 1510.0,
    "left B": 0.004,
    "right B": -0.007,
    "deck 1": -702.0,
    "deck 2": -697.0,
    "ceiling 1": 1400.0,
    "ceiling 2": 1391.0,
    "platform B level": -500.0,
    "platform B fall": 0.003,
    "bend deck B 600": 4.0,
    "bend ceiling B 700": -3.0,
    "bend width B 250": 6.0,
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
    "opening B/window depth": 90.0,
}

BENDS = (
    Bend(wall="B", what="deck", at=600.0, ends=(0.0, 1510.0)),
    Bend(wall="B", what="ceiling", at=700.0, ends=(0.0, 1510.0)),
    Bend(wall="B", what="width", at=250.0, ends=(-650.0, 1200.0)),
)
SEAT = Seat(out=12.0, left=12.0, right=5.0)

READINGS: list[dict[str, Any]] = [
    {"kind": "width", "at": -600},
    {"kind": "deck", "at": 400},
    {"kind": "deck", "at": 300, "part": "platform"},
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
        for edge in ("sill", "head", "width", "height", "jamb depth")
    ),
]


def reading(raw: dict[str, Any]) -> Reading:
    adapter: TypeAdapter[Reading] = TypeAdapter(Reading)
    return adapter.validate_python({"reads": 1.0, **raw})


@pytest.mark.parametrize("raw", READINGS, ids=lambda raw: " ".join(map(str, raw.values())))
def test_partials_are_those_of_the_prediction(raw: dict[str, Any]) -> None:
    taken = reading(raw)
    found = predict(taken, "B", 1, STATE, seat=SEAT, bends=BENDS)
    assert set(unknowns_of(taken, "B", 1)) <= set(found.partials)
    for name, rate in found.partials.items():
        step = 1e-5 if name in {"left B", "right B", "platform B fall"} else 0.01
        more = predict(taken, "B", 1, STATE | {name: STATE[name] + step}, seat=SEAT, bends=BENDS)
        less = predict(taken, "B", 1, STATE | {name: STATE[name] - step}, seat=SEAT, bends=BENDS)
        slope = (more.value - less.value) / (2 * step)
        assert slope == pytest.approx(rate, rel=1e-5, abs=1e-6)


@pytest.mark.parametrize(
    "raw",
    [
        {"kind": "gap", "at": 1, "height": 0, "straightedge": 1800, "held": "level"},
        {"kind": "depth", "at": 1, "height": 0},
        {"kind": "lip", "what": "height"},
    ],
    ids=lambda raw: raw["kind"],
)
def test_some_readings_are_no_part_of_the_fit(raw: dict[str, Any]) -> None:
    assert unknowns_of(reading(raw), "B", 1) == ()


# Hand-worked: width 1510, left edge 0.004 per mm, right edge -0.007 per mm. At the deck, 699.5
# below the datum, the wall is 1510 + 0.011 * 699.5 = 1517.6945 wide; at the ceiling, 1395.5 up,
# 1510 - 0.011 * 1395.5 = 1494.6495. Half of either is the middle.
@pytest.mark.parametrize(
    ("raw", "value"),
    [
        ({"kind": "width", "at": 100}, 1510 - 1.1),
        ({"kind": "lean", "edge": "left", "over": 1000}, 4.0),
        ({"kind": "lean", "edge": "right", "over": 1000}, 7.0),
        ({"kind": "deck", "at": 758.84725}, 699.5),
        ({"kind": "ceiling", "at": 747.32475}, 1395.5),
        ({"kind": "height", "at": 0}, 2102.0),
        ({"kind": "floor", "at": 758.84725}, 380.5),
        ({"kind": "hole", "of": "valve", "from": "left"}, 410 + 1.32),
        ({"kind": "hole", "of": "valve", "from": "right"}, 1510 + 2.31 - 410),
        ({"kind": "opening", "of": "window", "edge": "left", "from": "left"}, 500 - 2.4),
    ],
    ids=str,
)
def test_predictions_by_hand(raw: dict[str, Any], value: float) -> None:
    assert predict(reading(raw), "B", 1, STATE).value == pytest.approx(value)


# A surface 12 mm proud of the bonding face at the left corner and 5 at the right.
@pytest.mark.parametrize(
    ("raw", "value"),
    [
        ({"kind": "width", "at": 0}, 1510 - 17),
        ({"kind": "hole", "of": "valve", "from": "datum"}, -330.0),
        ({"kind": "hole", "of": "valve", "from": "left"}, 410 + 1.32 - 12),
        ({"kind": "hole", "of": "valve", "from": "right"}, 1510 + 2.31 - 410 - 5),
        ({"kind": "rough-in", "of": "valve"}, 30.0 - 12),
        # A tape from a surface 12 proud of the bonding face has that much further to go.
        ({"kind": "opening", "of": "window", "edge": "jamb depth", "from": "itself"}, 90.0 + 12),
        ({"kind": "deck", "at": 758.84725 - 12}, 699.5),
    ],
    ids=str,
)
def test_readings_on_another_surface(raw: dict[str, Any], value: float) -> None:
    assert predict(reading(raw), "B", 1, STATE, seat=SEAT).value == pytest.approx(value)


# The deck bends up 4 at station 600, the width bows out 6 at 250 up.
@pytest.mark.parametrize(
    ("raw", "more"),
    [
        ({"kind": "deck", "at": 600}, -4.0),
        ({"kind": "deck", "at": 300}, -2.0),
        ({"kind": "width", "at": 250}, 6.0),
        ({"kind": "width", "at": -200}, 3.0),
        ({"kind": "width", "at": 1200}, 0.0),
        ({"kind": "hole", "of": "valve", "from": "left"}, 6 * (320 / 900) / 2),
        ({"kind": "lean", "edge": "left", "over": 1800}, 0.0),
    ],
    ids=str,
)
def test_readings_of_bent_lines(raw: dict[str, Any], more: float) -> None:
    straight = predict(reading(raw), "B", 1, STATE).value
    bent = predict(reading(raw), "B", 1, STATE, bends=BENDS).value
    assert bent - straight == pytest.approx(more)
