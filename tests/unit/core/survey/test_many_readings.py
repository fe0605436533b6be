"""Surveys that nobody would wish for: too few readings, at odds, on the wrong surface, too many.

Each must end in walls with the reason why they may not be cut from, or in a refusal that says
what to do. Which is told by the keys of the messages, the sentences being the catalogue's.
"""

from math import hypot

import numpy as np
import pytest
from tests.unit.core.survey.test_fit import Raw, job, read, shell

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Message
from gaugerod.core.survey.adjust import TALL, adjust
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.snoop import MOST
from gaugerod.core.survey.walls import Walls

WIDTHS = {"L": 800.0, "B": 1500.0, "R": 800.0}
SIGMAS = {"width": 1.0, "deck": 0.7, "ceiling": 1.0, "corner to corner": 1.5}
"""Good practice, as the program states it: common practice, no source. [mm]"""


def width(reads: float, at: float = 0) -> Raw:
    return {"kind": "width", "at": at, "reads": reads}


def deck(reads: float, at: float = 0) -> Raw:
    return {"kind": "deck", "at": at, "reads": reads}


def ceiling(reads: float, at: float = 0) -> Raw:
    return {"kind": "ceiling", "at": at, "reads": reads}


def lean(edge: str, reads: float) -> Raw:
    return {"kind": "lean", "edge": edge, "over": 1800, "reads": reads}


def refusal(raw: Raw) -> Message:
    with pytest.raises(SurveyError) as caught:
        fit_walls(read(raw))
    return caught.value.message


def keys(messages: tuple[Message, ...]) -> list[str]:
    return [message.key for message in messages]


# --- too few -----------------------------------------------------------------------------------


def test_the_least_that_will_do() -> None:
    walls = fit_walls(read(job(B=[width(1500), deck(700), ceiling(1400)])))
    assert walls.fit_for == "price"
    assert walls.reasons[0].key == "survey.unchecked"
    outline = [(0, -700), (1500, -700), (1500, 1400), (0, 1400)]
    assert np.allclose(walls.walls[0].outline, outline)
    assert len(walls.take) == 2


@pytest.mark.parametrize(
    ("readings", "key"),
    [
        ([deck(700), ceiling(1400)], "take-width"),
        ([width(1500)], "take-deck"),
        ([width(1500), deck(700)], "take-ceiling"),
        ([width(1500), {"kind": "floor", "at": 0, "reads": 380}, ceiling(1400)], "take-deck"),
        ([width(1500), {"kind": "height", "at": 0, "reads": 2100}], "take-deck"),
        ([width(1500), {**deck(500), "part": "ledge"}, ceiling(1400)], "take-deck"),
        ([{"kind": "lip", "what": "height", "reads": 20}], "take-width"),
    ],
)
def test_what_is_missing_is_named(readings: list[Raw], key: str) -> None:
    assert refusal(job(B=readings)).key == f"survey.{key}"


@pytest.mark.parametrize("known", [deck(700), ceiling(1400)])
def test_a_whole_height_gives_the_deck_or_the_ceiling(known: Raw) -> None:
    height = {"kind": "height", "at": 750, "reads": 2100}
    (back,) = fit_walls(read(job(B=[width(1500), known, height]))).walls
    assert back.deck[0][1] == pytest.approx(-700.0)
    assert back.ceiling[0][1] == pytest.approx(1400.0)


def test_a_wall_without_any_reading_is_named() -> None:
    message = refusal(job(L=shell(800), B=shell(1500), R=[]))
    assert (message.key, message.values["wall"]) == ("survey.take-width", "R")


@pytest.mark.parametrize("reads", [700.0, 701.0, 800.0])
def test_a_deck_read_twice_in_one_place_and_nowhere_else_is_not_bent(reads: float) -> None:
    # A bend there is all that a straight deck could explain as well.
    walls = fit_walls(
        read(job(B=[width(1500), deck(700, 333.3), deck(reads, 333.3), ceiling(1400)]))
    )
    assert walls.notes == ()
    assert walls.fit_for == "price"


# --- at odds -----------------------------------------------------------------------------------


def test_two_widths_that_differ_by_a_hand_are_both_named() -> None:
    walls = fit_walls(read(job(B=[width(1500), width(1600), deck(700), ceiling(1400)])))
    (suspect,) = walls.suspects
    assert set(suspect.readings) == {"B width 1", "B width 2"}
    assert suspect.decide is not None
    assert suspect.decide.key == "survey.decide"
    assert walls.fit_for == "price"
    assert "survey.suspect" in keys(walls.reasons)


def test_two_parties_of_readings_are_sent_back_to_the_wall() -> None:
    # Ten widths say 1500 and ten 1600, in one place: no six readings are to blame.
    readings = [width(reads) for _ in range(10) for reads in (1500.0, 1600.0)]
    walls = fit_walls(read(job(L=shell(800), B=[*readings, *shell(1500)[3:]], R=shell(800))))
    assert len(walls.suspects) == MOST
    assert walls.fit_for == "price"
    assert {"survey.too-many-suspects", "survey.scattered"} <= set(keys(walls.reasons))


def test_a_deck_that_is_out_by_a_foot_moves_no_wall() -> None:
    # Two readings of the deck of L against one a foot and more above them.
    walls = fit_walls(
        read(
            job(
                L=[width(800), deck(700), ceiling(1400), deck(1, 400), deck(705)],
                B=[width(1500), deck(700), ceiling(1400)],
            )
        )
    )
    assert [suspect.readings[0] for suspect in walls.suspects] == ["L deck 2", "L deck 3"]
    assert walls.fit_for == "price"
    for wall, wide in zip(walls.walls, (800.0, 1500.0), strict=True):
        assert wall.right.at(-700) - wall.left.at(-700) == pytest.approx(wide, abs=1e-6)


@pytest.mark.parametrize(
    "readings",
    [
        # Both edges lean in by 50 over 1800: 40 apart at the datum, they cross 720 above it.
        [width(40), deck(700), ceiling(1400), lean("left", 50), lean("right", 50)],
        [width(800), deck(-300), ceiling(200)],
        [width(800), deck(700), deck(-300, 800), ceiling(200)],
    ],
)
def test_a_wall_that_comes_out_inside_out_is_refused(readings: list[Raw]) -> None:
    message = refusal(job(B=readings))
    assert (message.key, message.values["wall"]) == ("survey.wall-inside-out", "B")


def test_readings_that_all_scatter_too_much_are_not_cut_from() -> None:
    walls = fit_walls(read(alcove(300, scatter=4.0)))
    assert walls.fit_for == "price"
    assert {"survey.scattered", "survey.too-many-suspects"} & set(keys(walls.reasons))
    assert walls.chance < 0.001


# --- on the wrong surface ----------------------------------------------------------------------


def on(surface: str, layers: dict[str, float] | None = None) -> Raw:
    raw = job(L=shell(800), B=shell(1500), R=shell(800))
    raw["survey"] = {"surface": surface, "layers": layers or {}}
    return raw


@pytest.mark.parametrize("surface", ["stud", "old tile", "new face"])
def test_all_readings_on_a_surface_of_unknown_depth_are_refused(surface: str) -> None:
    message = refusal(on(surface))
    assert (message.key, message.values["surface"]) == ("survey.no-surface", surface)


def test_all_readings_on_the_studs_are_brought_to_the_backer_to_price_from() -> None:
    walls = fit_walls(read(on("stud", {"backer": 12.7})))
    assert walls.fit_for == "price"
    assert keys(walls.reasons) == ["survey.not-bonding"]
    assert walls.suspects == ()
    # Between two corners the backer comes in at both ends, at an open end not.
    wide = [wall.right.at(0) - wall.left.at(0) for wall in walls.walls]
    assert wide == pytest.approx([800 - 12.7, 1500 - 25.4, 800 - 12.7], abs=1e-3)


def hole(start: str, reads: float, **more: str) -> Raw:
    return {"kind": "hole", "of": "valve", "from": start, "reads": reads, **more}


def test_a_hole_known_from_a_surface_of_unknown_depth_only_is_refused() -> None:
    raw = job(B=[*shell(1500), hole("left", 700, surface="stud"), hole("datum", -300)])
    raw["wall"][0]["hole"] = [{"name": "valve", "diameter": 76}]
    message = refusal(raw)
    assert message.key == "survey.needed"
    assert message.values == {"reading": "B hole 1", "surface": "stud"}


def test_a_hole_known_from_the_bonding_face_too_is_placed_by_that() -> None:
    places = [hole("left", 700, surface="stud"), hole("right", 800), hole("datum", -300)]
    depth = {"kind": "rough-in", "of": "valve", "reads": 30, "surface": "stud"}
    raw = job(B=[*shell(1500), *places, depth])
    raw["wall"][0]["hole"] = [{"name": "valve", "diameter": 76}]
    walls = fit_walls(read(raw))
    (valve,) = walls.walls[0].holes
    assert (valve.x, valve.y) == pytest.approx((700.0, -300.0), abs=1e-3)
    assert valve.rough_in is None
    assert keys(walls.reasons) == ["survey.not-bonding", "survey.unseated", "survey.unseated"]


# --- too many ----------------------------------------------------------------------------------


def alcove(count: int, *, scatter: float = 0.0) -> Raw:
    """Three square walls with `count` readings or a few less, out by `scatter` sigmas. [mm]."""
    rng = np.random.default_rng(20261125)
    raw = job(**{name: _wall(wide, count // 3) for name, wide in WIDTHS.items()})
    for wall in raw["wall"]:
        for reading in wall["readings"]:
            reading["reads"] += scatter * rng.normal(0, SIGMAS[reading["kind"]])
    return raw


def _wall(wide: float, count: int) -> list[Raw]:
    low, high = -650.0, 1250.0
    diagonal = hypot(wide, high - low)
    corners = [
        {"kind": "corner to corner", "left_at": a, "right_at": b, "reads": diagonal}
        for a, b in ((low, high), (high, low)) * 2
    ]
    third = (count - len(corners)) // 3
    stations = np.linspace(0, wide, third).tolist()
    widths = [width(wide, at) for at in np.linspace(low, high, third).tolist()]
    return [
        *corners,
        *widths,
        *(deck(700.0, at) for at in stations),
        *(ceiling(1400.0, at) for at in stations),
    ]


@pytest.fixture(scope="module")
def many() -> Walls:
    return fit_walls(read(alcove(2000, scatter=1.0)))


def test_two_thousand_readings_give_the_walls_to_a_fraction_of_a_millimetre(many: Walls) -> None:
    assert 1950 < len(many.readings) <= 2000
    for wall in many.walls:
        # Each line stands on 200 readings and more of a millimetre each: four sigmas of its ends
        # are 4 * 2 / sqrt(200).
        corners = [(0, -700), (WIDTHS[wall.name], -700), (WIDTHS[wall.name], 1400), (0, 1400)]
        assert np.allclose(wall.outline, corners, atol=8 / 200**0.5)
    assert many.sigma0 == pytest.approx(1.0, abs=4 / (2 * many.dof) ** 0.5)
    assert many.dof > 1900


def test_of_two_thousand_sound_readings_two_or_so_are_named_by_chance(many: Walls) -> None:
    # A thousandth of them on average; six and more once in a hundred and forty (Poisson).
    assert len(many.suspects) < MOST
    assert many.chance > 0.001
    assert many.fit_for == ("price" if many.suspects else "cut")


def test_two_thousand_readings_that_agree_may_be_cut_from() -> None:
    walls = fit_walls(read(alcove(2000)))
    assert (walls.fit_for, walls.reasons, walls.suspects) == ("cut", (), ())
    assert walls.sigma0 == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("slip", [25.4, -100.0, 1000.0])
def test_one_slip_among_two_thousand_readings_is_named(slip: float) -> None:
    raw = alcove(2000)
    wrong = raw["wall"][1]["readings"][300]
    wrong["reads"] += slip
    wrong["id"] = "the slip"
    walls = fit_walls(read(raw))
    assert [suspect.readings for suspect in walls.suspects] == [("the slip",)]
    assert walls.fit_for == "price"


def test_two_thousand_readings_at_odds_are_sent_back_to_the_wall() -> None:
    walls = fit_walls(read(alcove(2000, scatter=30.0)))
    assert len(walls.suspects) == MOST
    assert walls.fit_for == "price"
    assert keys(walls.reasons).count("survey.suspect") == MOST
    assert {"survey.too-many-suspects", "survey.scattered"} <= set(keys(walls.reasons))


def test_two_thousand_readings_on_the_studs_are_priced_from() -> None:
    raw = alcove(2000)
    raw["survey"] = {"surface": "stud", "layers": {"backer": 12.7}}
    walls = fit_walls(read(raw))
    assert keys(walls.reasons) == ["survey.not-bonding"]
    raw["survey"] = {"surface": "stud"}
    assert refusal(raw).key == "survey.no-surface"


# --- a tall design -----------------------------------------------------------------------------


@pytest.mark.parametrize("pairs", [2, TALL, TALL + 1, 5 * TALL, 1000])
def test_a_line_through_pairs_by_hand(pairs: int) -> None:
    # At each of x = 1 .. n one reading lies 1 over the line 2 x + 3 and one lies 1 under it: the
    # line is exact, each of the 2 n residuals is 1, and the covariance is that of any text:
    # variances 2 (2 n + 1) / (2 n (n - 1)) and 6 / (n (n^2 - 1)) for sigma 1.
    x = np.repeat(np.arange(1.0, pairs + 1), 2)
    y = 2 * x + 3 + np.tile([1.0, -1.0], pairs)
    fit = adjust(np.column_stack([np.ones_like(x), x]), y, np.ones_like(x))
    assert fit.x == pytest.approx([3.0, 2.0], rel=1e-9)
    assert np.abs(fit.residuals) == pytest.approx(np.ones_like(x), rel=1e-9)
    n = float(pairs)
    expected = [(2 * n + 1) / (n * (n - 1)), 6 / (n * (n**2 - 1))]
    assert np.diag(fit.covariance) == pytest.approx(expected, rel=1e-9)
    assert fit.redundancy.sum() == pytest.approx(2 * n - 2, rel=1e-12)
    assert fit.basis.T @ fit.basis == pytest.approx(np.eye(2), abs=1e-12)


@pytest.mark.parametrize("unit", [1e-9, 1.0, 1e9])
@pytest.mark.parametrize("rows", [4, 400])
def test_what_is_not_determined_is_refused_in_any_unit(unit: float, rows: int) -> None:
    x = np.arange(float(rows))
    told = np.column_stack([np.ones(rows), unit * x])
    assert adjust(told, x, np.ones(rows)).x[1] == pytest.approx(1 / unit)
    for more in (np.zeros(rows), x, 1 + x):
        with pytest.raises(SurveyError):
            adjust(np.column_stack([told, unit * more]), x, np.ones(rows))
