import pytest
from tests.unit.core.survey.test_fit import Raw, job, read, shell

from gaugerod.core.base.geometry import Edge
from gaugerod.core.base.messages import Length
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Walls


def fitted(*more: Raw) -> Walls:
    return fit_walls(read(job(L=shell(800), B=[*shell(1500), *more], R=shell(800))))


def test_a_deck_read_low_twice_in_one_place_is_bent() -> None:
    sag = [{"kind": "deck", "at": at, "reads": 708} for at in (740, 760)]
    walls = fitted(*sag)
    assert walls.suspects == ()
    (note,) = walls.notes
    assert note.key == "survey.bend-deck"
    assert note.values["at"] == Length(750.0)
    by = note.values["by"]
    assert isinstance(by, Length)
    assert by.mm == pytest.approx(-8.0, abs=0.2)
    deck = walls.walls[1].deck
    assert len(deck) == 3
    assert deck[1] == pytest.approx((750.0, -708.0), abs=0.2)
    assert walls.walls[1].outline[1] == deck[1]


def test_a_single_low_reading_is_a_suspect_not_a_bend() -> None:
    walls = fitted({"kind": "deck", "at": 750, "reads": 708})
    assert [suspect.readings[0] for suspect in walls.suspects] == ["B deck 3"]
    assert walls.notes == ()


def test_a_ceiling_may_bend() -> None:
    walls = fitted(*[{"kind": "ceiling", "at": 700, "reads": 1390}] * 2)
    assert [note.key for note in walls.notes] == ["survey.bend-ceiling"]
    assert len(walls.walls[1].ceiling) == 3


def test_a_wall_that_is_wider_in_the_middle_bows_at_both_edges() -> None:
    # 1500 at -600 and 1200, straight to 1511 at 500, read three times: 1506 at the datum.
    raw = job(L=shell(800), B=shell(1500), R=shell(800))
    raw["wall"][1]["readings"][1]["reads"] = 1506
    raw["wall"][1]["readings"] += [{"kind": "width", "at": 500, "reads": 1511}] * 3
    walls = fit_walls(read(raw))
    assert walls.suspects == ()
    assert [note.key for note in walls.notes] == ["survey.bend-width"]
    back = walls.walls[1]
    assert len(back.left.bow) == 3
    assert back.right.at(500) - back.left.at(500) == pytest.approx(1511.0, abs=1.0)
    assert (back.left.at(500), 500.0) in [pytest.approx(point) for point in back.outline]


def test_readings_that_agree_with_the_line_bend_nothing() -> None:
    walls = fitted(*[{"kind": "deck", "at": 750, "reads": 700}] * 2)
    assert walls.notes == ()


def test_a_bowed_edge_by_hand() -> None:
    edge = Edge(offset=10.0, slope=0.01, bow=((0.0, 0.0), (500.0, 3.0), (1000.0, 0.0)))
    assert edge.at(500.0) == pytest.approx(18.0)
    assert edge.at(250.0) == pytest.approx(14.0)
    assert edge.at(-100.0) == pytest.approx(9.0)
    assert edge.at(1200.0) == pytest.approx(22.0)


def test_a_line_that_nothing_else_holds_is_not_bent() -> None:
    # The deck was read at one place only, twice and very well: a slope explains all of it.
    plain = [reading for reading in shell(1500) if reading["kind"] != "deck"]
    deck = [{"kind": "deck", "at": at, "reads": 700 + at / 100, "sigma": 1e-3} for at in (700, 730)]
    assert fit_walls(read(job(B=[*plain, *deck]))).notes == ()
