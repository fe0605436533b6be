import pytest
from tests.unit.core.survey.test_fit import job, read, shell

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Layers, Survey
from gaugerod.core.job.readings import Surface
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.model import Seat
from gaugerod.core.survey.surfaces import seat_of, stand_out

LAYERS = Layers(backer=12.7, old_tile=11.0, lining=11.1)


@pytest.mark.parametrize(
    ("surface", "backer", "tile"),
    [
        ("stud", -12.7, -23.7),
        ("backer", 0.0, -11.0),
        ("old tile", 11.0, 0.0),
        ("new face", 11.1, 11.1),
    ],
)
def test_how_far_a_surface_stands_out(surface: Surface, backer: float, tile: float) -> None:
    on_backer = Survey(surface="backer", layers=LAYERS)
    on_tile = Survey(surface="backer", layers=LAYERS, bonding="old tile")
    assert stand_out(surface, on_backer) == pytest.approx(backer)
    assert stand_out(surface, on_tile) == pytest.approx(tile)


@pytest.mark.parametrize("surface", ["stud", "old tile", "new face"])
def test_a_layer_without_a_thickness(surface: Surface) -> None:
    assert stand_out(surface, Survey(surface="backer")) is None


def test_open_ends_do_not_move() -> None:
    assert seat_of(-12.7, ("open", "inside")) == Seat(out=-12.7, left=0.0, right=-12.7)
    assert seat_of(-12.7, ("inside", "inside")) == Seat(out=-12.7, left=-12.7, right=-12.7)
    assert seat_of(-12.7, ("inside", "open")) == Seat(out=-12.7, left=-12.7, right=0.0)
    # Behind the bonding face an inside corner stands farther out, an outside corner less far.
    assert seat_of(-12.7, ("inside", "outside")) == Seat(out=-12.7, left=-12.7, right=12.7)


def test_a_survey_of_the_studs_gives_the_walls_on_the_backer() -> None:
    # Between studs 1525.4, with two boards of 12.7: 1500 on the backer; the ends 812.7: 800.
    raw = job(L=shell(812.7), B=shell(1525.4), R=shell(812.7))
    raw["survey"] = {"surface": "stud", "layers": {"backer": 12.7}}
    walls = fit_walls(read(raw))
    widths = [wall.right.at(0) - wall.left.at(0) for wall in walls.walls]
    assert widths == pytest.approx([800.0, 1500.0, 800.0], abs=1e-3)
    assert walls.fit_for == "price"
    assert walls.reasons == (Message("survey.not-bonding", surface="stud", bonding="backer"),)


def test_over_old_tile_that_stays() -> None:
    raw = job(B=shell(1500))
    raw["survey"] = {
        "surface": "old tile",
        "bonding": "old tile",
        "layers": {"old_tile": 11.0},
    }
    raw["wall"][0] |= {
        "hollow": [{"at": 300, "height": -200, "size": [300, 150]}],
        "old_tile_stops": 900,
        "hole": [{"name": "valve", "diameter": 76}],
    }
    raw["wall"][0]["readings"] += [
        {"kind": "hole", "of": "valve", "from": "left", "reads": 400},
        {"kind": "hole", "of": "valve", "from": "datum", "reads": -300},
        {"kind": "rough-in", "of": "valve", "reads": 42, "surface": "backer"},
    ]
    walls = fit_walls(read(raw))
    assert [note.key for note in walls.notes] == ["survey.old-tile-stops", "survey.hollow"]
    # 42 proud of the backer is 31 proud of the tile.
    assert walls.walls[0].holes[0].rough_in == pytest.approx(31.0)
    # The valve's depth was read to the backer, which is not the bonding face.
    assert walls.fit_for == "price"


def test_all_on_a_surface_of_unknown_depth_is_told_so() -> None:
    raw = job(B=shell(1500))
    raw["survey"] = {"surface": "stud"}
    with pytest.raises(SurveyError) as caught:
        fit_walls(read(raw))
    assert caught.value.message == Message("survey.no-surface", surface="stud")
