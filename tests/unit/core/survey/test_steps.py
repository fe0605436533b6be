import pytest
from tests.unit.core.survey.test_fit import Raw, job, read, shell

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


def test_a_wall_without_deck_readings_is_all_rim() -> None:
    raw = job(L=shell(800), B=[r for r in shell(1500) if r["kind"] != "deck"])
    assert stretches(read(raw).wall[1], 1500.0) == (("rim", 0.0, 1500.0),)
    line = fit_walls(read(raw)).walls[1].deck
    assert len(line) == 2
