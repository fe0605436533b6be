from dataclasses import replace

import pytest

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.document import Choices, Opening
from gaugerod.core.job.materials import System
from gaugerod.core.job.readings import OpeningEdge
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.layout import ShortList
from gaugerod.core.setout.search import SHORT, finish, set_out, setting_order
from gaugerod.core.survey.fit import fit_walls

SYSTEM = sample_system()
WALLS = fit_walls(sample_job())


def choices(**update: object) -> Choices:
    return sample_job().choices.model_copy(update=update)


def found(system: System = SYSTEM, **update: object) -> ShortList:
    return set_out(WALLS, choices(**update), system, sample_rates().looks)


def test_one_level_line_serves_all_walls_and_the_best_looks_come_first() -> None:
    short = found()
    looks = [layout.looks // 100 for layout in short.layouts[:SHORT]]
    assert looks == sorted(looks)
    assert len(short.layouts) <= 2 * SHORT
    assert short.tried > len(short.layouts)
    best = short.layouts[0]
    # The low point is 760 below the datum; the first course is 287.3 high on a joint of 3.
    assert best.first_course == pytest.approx(-469.7, abs=0.02)
    assert [wall.name for wall in best.walls] == ["L", "B", "R"]
    assert best.order == ("L", "B", "R")
    assert best.reasons[0].key == "setout.low"
    assert best.reasons[1].values["why"] == Message("setout.height-tallest")


def test_a_bond_shifts_the_courses() -> None:
    assert {wall.row_shift for wall in found(bond="half").layouts[0].walls} == {300.0}
    assert {wall.row_shift for wall in found(bond="third").layouts[0].walls} == {200.0}


def test_when_nothing_is_legal_the_limit_that_stops_most_is_named() -> None:
    with pytest.raises(LayoutError) as caught:
        found(first_height=30.0)
    assert caught.value.message == Message("setout.none", limit=Message("setout.limit-under-least"))


def test_the_order_is_the_setters_then_the_makers_then_left_to_right() -> None:
    assert setting_order(WALLS, choices(wall_order=("R", "B", "L")), SYSTEM) == ("R", "B", "L")
    maker = SYSTEM.model_copy(update={"wall_order": ("B", "L", "R")})
    assert setting_order(WALLS, choices(), maker) == ("B", "L", "R")
    other = SYSTEM.model_copy(update={"wall_order": ("N", "E")})
    assert setting_order(WALLS, choices(), other) == ("L", "B", "R")


def test_standing_keyed_modules_are_set_the_other_way_round() -> None:
    assert setting_order(WALLS, choices(turn="standing"), SYSTEM) == ("R", "B", "L")
    tile = SYSTEM.model_copy(update={"kind": "grouted"})
    assert setting_order(WALLS, choices(turn="standing"), tile) == ("L", "B", "R")


# The floor is read 380 below a deck 760 below the datum: -1140. Lines at -470 + 300 n.
@pytest.mark.parametrize(
    ("update", "line"),
    [
        ({}, 730.0),  # 1828.8 above the floor is 688.8
        ({"least_finish": 1871.0}, 1030.0),
        ({"least_finish": 500.0}, -170.0),  # the valve at -330 reaches -266.6
        ({"finish": "ceiling"}, 1400 - 9.525),
        ({"finish": 2000.0}, 860.0),
        ({"least_finish": 2530.0}, 1400 - 9.525),  # a line over the ceiling stops there
    ],
)
def test_where_the_lining_ends(update: dict[str, object], line: float) -> None:
    assert finish(WALLS, choices(**update), SYSTEM, -470.0, 300.0) == pytest.approx(line, abs=0.05)


def test_an_unread_floor_is_taken_a_low_rim_below_the_deck() -> None:
    # -760 - 355.6 + 1828.8 = 713.2.
    unread = replace(WALLS, floor=None)
    assert finish(unread, choices(), SYSTEM, -470.0, 300.0) == pytest.approx(730.0)
    assert finish(unread, choices(), SYSTEM, -490.0, 300.0) == pytest.approx(1010.0)


def test_a_low_finish_is_never_under_the_first_course() -> None:
    bare = replace(WALLS, walls=(WALLS.walls[1],))
    assert finish(bare, choices(least_finish=1.0), SYSTEM, -470.0, 300.0) == -470.0


def test_a_module_centred_on_an_opening_of_its_own_width_cuts_no_steps() -> None:
    job = sample_job()
    reads = {"left": ("left", 450.3), "right": ("right", 450.4), "sill": ("datum", 100.0)}
    reads["head"] = ("datum", 700.0)
    readings = [
        OpeningEdge.model_validate(
            {"kind": "opening", "of": "window", "edge": edge, "from": start, "reads": value}
        )
        for edge, (start, value) in reads.items()
    ]
    window = Opening(name="window", kind="window", gap=0.0)
    back = job.wall[1]
    back = back.model_copy(update={"opening": (window,), "readings": (*back.readings, *readings)})
    walls = fit_walls(job.model_copy(update={"wall": (job.wall[0], back, job.wall[2])}))
    centred = choices(centre={"B": "opening"})
    layout = set_out(walls, centred, SYSTEM, sample_rates().looks).layouts[0]
    (opening,) = layout.walls[1].field.openings
    assert opening.right - opening.left == pytest.approx(600.0)
    shapes = {len(p.region.rings[0]) for p in make_pieces(layout, walls, SYSTEM)}
    assert shapes == {4}
