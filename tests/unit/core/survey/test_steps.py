from dataclasses import replace

import pytest
from tests.unit.core.survey.test_fit import Raw, job, read, shell

from gaugerod.core.setout.field import low_point
from gaugerod.core.survey.decks import deck_stretches
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.steps import stretches, unread_steps


def deck(at: float, reads: float, part: str = "rim") -> Raw:
    return {"kind": "deck", "at": at, "reads": reads, "part": part}


def with_platform(*more: Raw) -> Raw:
    """A rim at -700 and, from 1100 on, a platform at -520, read on both sides of the step."""
    plain = [r for r in shell(1500) if r["kind"] != "deck"]
    return job(
        B=[
            *plain,
            deck(0, 700),
            deck(600, 700),
            deck(1100, 700),
            deck(1100, 520, "platform"),
            deck(1500, 520, "platform"),
            *more,
        ]
    )


def test_a_platform_is_a_step_in_the_deck() -> None:
    walls = fit_walls(read(with_platform()))
    line = walls.walls[0].deck
    expected = [(0, -700), (1100, -700), (1100, -520), (1500, -520)]
    assert [pytest.approx(point, abs=0.3) for point in expected] == list(line)
    assert walls.suspects == ()


def test_a_step_between_two_readings_is_to_be_read() -> None:
    raw = with_platform()
    raw["wall"][0]["readings"] = [r for r in raw["wall"][0]["readings"] if r != deck(1100, 700)]
    wall = read(raw).wall[0]
    assert unread_steps(wall) == (850.0,)
    assert stretches(wall, 1500.0) == (("rim", 0.0, 850.0), ("platform", 850.0, 1500.0))
    keys = [reason.key for reason in fit_walls(read(raw)).reasons]
    assert "survey.step-between" in keys


def test_a_platform_may_fall() -> None:
    raw = with_platform(deck(1300, 522, "platform"))
    raw["wall"][0]["readings"][-2]["reads"] = 524
    line = fit_walls(read(raw)).walls[0].deck
    assert line[-1][1] == pytest.approx(-524.0, abs=0.5)
    assert line[-2][1] == pytest.approx(-520.0, abs=0.5)


def test_a_leg_beside_the_tub_stands_on_the_floor() -> None:
    plain = [r for r in shell(1500) if r["kind"] != "deck"]
    leg = [deck(at, 1080, "floor") for at in (0, 120)]
    walls = fit_walls(read(job(B=[*plain, *leg, deck(120, 700), deck(1500, 700)])))
    floor, rim = deck_stretches(walls.walls[0])
    assert (floor.part, rim.part) == ("floor", "rim")
    assert (floor.low, floor.high) == pytest.approx((-1080.0, -1080.0), abs=0.3)
    assert (rim.low, rim.high) == pytest.approx((-700.0, -700.0), abs=0.3)
    assert floor.points[-1][0] == rim.points[0][0] == 120.0
    # The level line is struck from the tub.
    assert low_point(walls) == ("B", rim.low)


def test_a_room_lined_to_the_floor_all_round_has_its_low_point_there() -> None:
    plain = [r for r in shell(1500) if r["kind"] != "deck"]
    rim = deck(1500, 700)  # of the next room: a rim must be read somewhere
    walls = fit_walls(read(job(B=[*plain, deck(0, 1080, "floor"), deck(1400, 1080, "floor"), rim])))
    wall = replace(walls.walls[0], deck=((0.0, -1080.0), (1500.0, -1081.0)), parts=("floor",))
    assert low_point(replace(walls, walls=(wall,))) == ("B", -1081.0)


def test_a_wall_without_deck_readings_is_all_rim() -> None:
    raw = job(L=shell(800), B=[r for r in shell(1500) if r["kind"] != "deck"])
    assert stretches(read(raw).wall[1], 1500.0) == (("rim", 0.0, 1500.0),)
    line = fit_walls(read(raw)).walls[1].deck
    assert len(line) == 2
