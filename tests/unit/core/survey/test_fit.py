"""The fit on hand-made alcoves whose shape is known."""

from typing import Any

import numpy as np
import pytest

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedOpening

Raw = dict[str, Any]


def shell(width: float, *, left: float = 700.0, right: float = 700.0) -> list[Raw]:
    """Readings of a square wall: three widths, deck and ceiling at both corners, two leans."""
    return [
        *({"kind": "width", "at": at, "reads": width} for at in (-600, 0, 1200)),
        {"kind": "deck", "at": 0, "reads": left},
        {"kind": "deck", "at": width, "reads": right},
        {"kind": "ceiling", "at": 0, "reads": 1400},
        {"kind": "ceiling", "at": width, "reads": 1400},
        {"kind": "lean", "edge": "left", "over": 1800, "reads": 0},
        {"kind": "lean", "edge": "right", "over": 1800, "reads": 0},
    ]


def job(**walls: list[Raw]) -> Raw:
    return {
        "format": 1,
        "name": "Test",
        "unit": "mm",
        "survey": {"surface": "backer"},
        "choices": {"material": "any"},
        "calendar": {"start": "2026-03-02"},
        "wall": [{"name": name, "readings": readings} for name, readings in walls.items()],
    }


def read(raw: Raw) -> Job:
    return Job.model_validate(raw)


def test_readings_that_agree_are_taken_as_they_are() -> None:
    walls = fit_walls(read(job(L=shell(800), B=shell(1500), R=shell(800))))
    back = walls.walls[1]
    assert [wall.name for wall in walls.walls] == ["L", "B", "R"]
    expected = [(0.0, -700.0), (1500.0, -700.0), (1500.0, 1400.0), (0.0, 1400.0)]
    assert np.allclose(back.outline, expected, atol=1e-6)
    assert walls.suspects == ()
    assert walls.sigma0 == pytest.approx(0.0, abs=1e-6)
    assert walls.fit_for == "cut"
    assert walls.reasons == ()
    assert walls.covariance.shape == (len(walls.parameters), len(walls.parameters))


def test_corners_are_shared_by_the_walls_that_meet_there() -> None:
    left = shell(800, left=706, right=703)
    del left[4]  # the deck at the corner is read from the back wall only
    walls = fit_walls(read(job(L=left, B=shell(1500, left=703, right=700))))
    assert walls.walls[0].deck[1][1] == pytest.approx(walls.walls[1].deck[0][1])
    assert walls.walls[0].deck[1][1] == pytest.approx(-703.0, abs=0.05)


def test_lean_and_widths_agree() -> None:
    # The right corner leans in 18 mm over 1800: the width falls by 1 mm in 100.
    widths = [{"kind": "width", "at": at, "reads": 1500 - at / 100} for at in (-600, 0, 1200)]
    lean = {"kind": "lean", "edge": "right", "over": 1800, "reads": 18}
    plumb = {"kind": "lean", "edge": "left", "over": 1800, "reads": 0}
    raw = job(L=shell(800), B=[*widths, *shell(1500)[3:7], lean, plumb], R=shell(800))
    back = fit_walls(read(raw)).walls[1]
    assert back.right.slope * 1800 == pytest.approx(-18.0, abs=0.1)
    assert back.left.slope * 1800 == pytest.approx(0.0, abs=0.1)


def test_a_diagonal_tells_a_lean_that_the_widths_cannot() -> None:
    # Both corners lean the same way: 12 mm to the right over 1200. Widths stay 1500.
    slope = 12 / 1200
    low, high = -600.0, 1200.0
    rising = np.hypot(1500 + slope * (high - low), high - low)
    falling = np.hypot(1500 - slope * (high - low), high - low)
    raw = job(L=shell(800), B=shell(1500)[:7], R=shell(800))
    raw["wall"][1]["readings"] += [
        {"kind": "corner to corner", "left_at": low, "right_at": high, "reads": rising},
        {"kind": "corner to corner", "left_at": high, "right_at": low, "reads": falling},
    ] * 3
    back = fit_walls(read(raw)).walls[1]
    assert back.left.slope == pytest.approx(slope, rel=0.02)
    assert back.right.slope == pytest.approx(slope, rel=0.02)


@pytest.mark.parametrize(("place", "slip"), [(1, 25.4), (0, -25.4), (4, 100.0)])
def test_a_bad_reading_is_named_and_not_averaged(place: int, slip: float) -> None:
    raw = job(L=shell(800), B=[*shell(1500), *shell(1500)], R=shell(800))
    raw["wall"][1]["readings"][place]["id"] = "the slip"
    raw["wall"][1]["readings"][place]["reads"] += slip
    walls = fit_walls(read(raw))
    assert [suspect.readings for suspect in walls.suspects] == [("the slip",)]
    assert walls.fit_for == "price"
    assert [reason.key for reason in walls.reasons] == ["survey.suspect"]
    back = walls.walls[1]
    assert np.allclose(back.outline[1], (1500.0, -700.0), atol=1e-3)
    (bad,) = [r for r in walls.readings if r.id == "the slip"]
    assert bad.residual == pytest.approx(slip, abs=1e-3)
    assert bad.redundancy == 0.0


def test_readings_are_named_after_wall_and_kind() -> None:
    walls = fit_walls(read(job(B=shell(1500))))
    assert [r.id for r in walls.readings][:4] == [
        "B width 1",
        "B width 2",
        "B width 3",
        "B deck 1",
    ]


def test_holes_openings_and_fixtures_are_where_the_readings_put_them() -> None:
    raw = job(B=shell(1500))
    raw["wall"][0] |= {
        "hole": [{"name": "valve", "diameter": 76, "rough_in": [20, 40]}],
        "opening": [{"name": "window", "kind": "window", "gap": 5}],
        "fixture": [{"name": "dish", "kind": "dish", "size": [150, 100], "clear": 30}],
    }
    raw["wall"][0]["readings"] += [
        {"kind": "hole", "of": "valve", "from": "left", "reads": 400},
        {"kind": "hole", "of": "valve", "from": "right", "reads": 1100},
        {"kind": "hole", "of": "valve", "from": "datum", "reads": -300},
        {"kind": "rough-in", "of": "valve", "reads": 31},
        {"kind": "opening", "of": "window", "edge": "left", "from": "left", "reads": 600},
        {"kind": "opening", "of": "window", "edge": "right", "from": "right", "reads": 300},
        {"kind": "opening", "of": "window", "edge": "width", "from": "itself", "reads": 600},
        {"kind": "opening", "of": "window", "edge": "sill", "from": "datum", "reads": 200},
        {"kind": "opening", "of": "window", "edge": "height", "from": "itself", "reads": 500},
        {"kind": "opening", "of": "window", "edge": "head", "from": "datum", "reads": 700},
        {"kind": "opening", "of": "window", "edge": "jamb depth", "from": "itself", "reads": 90},
        {"kind": "fixture", "of": "dish", "from": "left", "reads": 300},
        {"kind": "fixture", "of": "dish", "from": "datum", "reads": 0},
        {"kind": "floor", "at": 0, "reads": 380},
        {"kind": "drain", "reads": 1050},
        {"kind": "height", "at": 750, "reads": 2100},
        {"kind": "gap", "at": 700, "height": 0, "straightedge": 1800, "held": "plumb", "reads": 2},
    ]
    walls = fit_walls(read(raw))
    back = walls.walls[0]
    (hole,), (window,), (dish,) = back.holes, back.openings, back.fixtures
    assert (hole.x, hole.y, hole.rough_in) == pytest.approx((400.0, -300.0, 31.0), abs=1e-3)
    assert hole.rough_in_limits == (20.0, 40.0)
    found = (window.box.left, window.box.right, window.box.bottom, window.box.top)
    assert found == pytest.approx((600.0, 1200.0, 200.0, 700.0), abs=1e-3)
    assert (window.gap, window.lined, window.fall) == (5.0, False, None)
    assert window.depth == pytest.approx(90.0)
    assert (dish.box.left, dish.box.top, dish.clear) == pytest.approx((225.0, 50.0, 30.0), abs=1e-3)
    assert (walls.floor, walls.drain) == pytest.approx((-1080.0, -1050.0), abs=1e-3)
    assert walls.suspects == ()


@pytest.mark.parametrize(
    ("reading", "keys"),
    [
        (
            {"kind": "width", "at": 0, "reads": 1500, "surface": "stud"},
            ["survey.not-bonding", "survey.unseated"],
        ),
        # A ledge 200 over the rim, read at one station only: the step is not known.
        (
            {"kind": "deck", "at": 40, "reads": 500, "part": "ledge"},
            ["survey.step-between", "survey.step-between"],
        ),
    ],
)
def test_what_makes_a_survey_fit_to_price_only(reading: Raw, keys: list[str]) -> None:
    walls = fit_walls(read(job(B=[*shell(1500), reading])))
    assert walls.fit_for == "price"
    assert [reason.key for reason in walls.reasons] == keys


def test_readings_that_nothing_checks_are_fit_to_price_only() -> None:
    bare = [shell(1500)[1], shell(1500)[3], shell(1500)[5]]
    walls = fit_walls(read(job(B=bare)))
    assert (walls.dof, walls.sigma0, walls.chance) == (0, 0.0, 1.0)
    assert walls.reasons[0].key == "survey.unchecked"
    # The deck and the ceiling were read at the left only: the right ends are not sure.
    unsure = [reason.values["where"] for reason in walls.reasons[1:]]
    assert Message("survey.deck-right", wall="B") in unsure
    assert [message.key for message in walls.take] == [
        "survey.take-ceiling-at",
        "survey.take-deck-at",
    ]


@pytest.mark.parametrize(
    ("kind", "key"),
    [
        ("width", "survey.take-width"),
        ("deck", "survey.take-deck"),
        ("ceiling", "survey.take-ceiling"),
    ],
)
def test_the_reading_to_take_is_named(kind: str, key: str) -> None:
    readings = [reading for reading in shell(1500) if reading["kind"] != kind]
    with pytest.raises(SurveyError) as caught:
        fit_walls(read(job(B=readings)))
    assert caught.value.message.key == key


def opening(left: float, right: float, *, sill: float = 200, head: float = 700) -> list[Raw]:
    edges = {"left": ("left", left), "right": ("left", right)}
    return [
        *(
            {"kind": "opening", "of": "window", "edge": edge, "from": start, "reads": value}
            for edge, (start, value) in edges.items()
        ),
        {"kind": "opening", "of": "window", "edge": "sill", "from": "datum", "reads": sill},
        {"kind": "opening", "of": "window", "edge": "head", "from": "datum", "reads": head},
    ]


@pytest.mark.parametrize(
    ("readings", "key"),
    [
        (opening(1400, 1700), "survey.opening-outside"),
        (opening(-100, 300), "survey.opening-outside"),
        (opening(300, 600, sill=1500, head=1700), "survey.opening-outside"),
        (opening(900, 300), "survey.opening-inside-out"),
        (opening(300, 900, sill=700, head=200), "survey.opening-inside-out"),
        (opening(300, 900)[:3], "survey.undetermined"),
    ],
)
def test_an_opening_must_be_on_its_wall(readings: list[Raw], key: str) -> None:
    raw = job(B=[*shell(1500), *readings])
    raw["wall"][0]["opening"] = [{"name": "window", "kind": "window"}]
    if key == "survey.undetermined":
        raw["wall"][0]["readings"].append(
            {"kind": "opening", "of": "window", "edge": "height", "from": "itself", "reads": 1}
        )
        raw["wall"][0]["readings"] = [
            r for r in raw["wall"][0]["readings"] if r.get("edge") != "sill"
        ]
    with pytest.raises(SurveyError) as caught:
        fit_walls(read(raw))
    assert caught.value.message.key == key


def jamb(reads: float, **more: str) -> Raw:
    edge = {"kind": "opening", "of": "window", "edge": "jamb depth", "from": "itself"}
    return {**edge, "reads": reads, **more}


def fitted_opening(*jambs: Raw, given: Raw | None = None) -> FittedOpening:
    raw = job(B=[*shell(1500), *opening(300, 900), *jambs])
    raw["survey"] |= {"layers": {"backer": 12.5}}
    raw["wall"][0]["opening"] = [{"name": "window", "kind": "window", **(given or {})}]
    (found,) = fit_walls(read(raw)).walls[0].openings
    return found


def test_depths_of_a_jamb_are_fitted_together() -> None:
    assert fitted_opening().depth is None
    # Alike in kind, so the mean.
    assert fitted_opening(jamb(90), jamb(92)).depth == pytest.approx(91.0)
    # From the studs, 12.5 behind the backer, a tape has that much less to go.
    assert fitted_opening(jamb(90, surface="stud")).depth == pytest.approx(102.5)


def test_a_depth_that_cannot_be_seated_is_only_not_known() -> None:
    raw = job(B=[*shell(1500), *opening(300, 900), jamb(90, surface="stud")])
    raw["wall"][0]["opening"] = [{"name": "window", "kind": "window"}]
    (found,) = fit_walls(read(raw)).walls[0].openings
    assert found.depth is None


@pytest.mark.parametrize("depth", [0.0, -3.0])
def test_an_opening_has_a_depth(depth: float) -> None:
    with pytest.raises(SurveyError) as caught:
        fitted_opening(jamb(depth))
    assert caught.value.message.key == "survey.opening-flat"


@pytest.mark.parametrize(
    ("given", "lined"),
    [
        ({}, False),
        ({"lined": True}, True),
        ({"kind": "niche"}, True),
        ({"kind": "niche", "lined": False}, False),
    ],
)
def test_a_niche_is_lined_and_a_window_is_not_unless_told(given: Raw, *, lined: bool) -> None:
    assert fitted_opening(given=given).lined == lined


def test_a_hole_must_be_on_its_wall() -> None:
    raw = job(B=shell(1500))
    raw["wall"][0]["hole"] = [{"name": "valve", "diameter": 76}]
    raw["wall"][0]["readings"] += [
        {"kind": "hole", "of": "valve", "from": "left", "reads": 20},
        {"kind": "hole", "of": "valve", "from": "datum", "reads": 0},
    ]
    with pytest.raises(SurveyError) as caught:
        fit_walls(read(raw))
    assert caught.value.message.key == "survey.hole-outside"
    assert caught.value.message.values["hole"] == "valve"
