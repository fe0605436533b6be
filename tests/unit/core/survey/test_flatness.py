from collections.abc import Sequence
from importlib.resources import files

import pytest
from tests.flat_by_hand import BACKER, fitted, grid, limits, tolerance

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.core.base.messages import Length, Value
from gaugerod.core.job.document import Survey, Wall
from gaugerod.core.job.readings import Depth, Gap, Reading, Surface, Width
from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.depths import surface_flatness
from gaugerod.core.survey.flatness import WallFlatness, flatness_of
from gaugerod.core.survey.spots import Spot
from gaugerod.core.survey.walls import FittedWall
from gaugerod.store.words import sentences

FLAT = tolerance(id="flat", surfaces=["backer", "old tile"])
PLUMB = tolerance(
    id="plumb", about="plumb", scales="in proportion", allows=[{"over": 2400, "at_most": 3}]
)
LEVEL = tolerance(id="level", about="level", allows=[{"over": 6000, "at_most": 3}])
# A row of depths to the right, from the bottom up; the middle is 5 mm hollow.
PLACES = [(x, y) for y in (-600.0, 200.0, 1000.0) for x in (100.0, 750.0, 1400.0)]


def depths(
    reads: Sequence[float],
    surface: Surface | None = None,
    *,
    places: Sequence[tuple[float, float]] = (),
) -> list[Depth]:
    return [
        Depth(kind="depth", at=x, height=y, reads=value, surface=surface)
        for (x, y), value in zip(places or PLACES, reads, strict=True)
    ]


HOLLOW = depths([50, 50, 50, 50, 55, 50, 50, 50, 50])


def judged(
    readings: Sequence[Reading],
    *rows: Tolerance,
    wall: FittedWall | None = None,
    survey: Survey = BACKER,
    display: str = "metric",
) -> WallFlatness:
    return flatness_of(
        Wall(name="B", readings=tuple(readings)),
        wall or fitted(),
        longest_edge=600.0,
        limits=limits(*rows),
        survey=survey,
        fixing="thin bed",
        display=METRIC if display == "metric" else IMPERIAL,
    )


def mm(value: Value) -> float:
    assert isinstance(value, Length)
    return value.mm


def keys(found: WallFlatness) -> list[str]:
    return [note.key for note in found.notes]


def gap(reads: float, **more: object) -> Gap:
    plain = {"kind": "gap", "at": 750, "height": 200, "straightedge": 2000, "held": "plumb"}
    return Gap.model_validate(plain | {"reads": reads} | more)


@pytest.fixture
def catalogue() -> Catalogue:
    text = (files("gaugerod") / "data/text/en.toml").read_text("utf-8")
    return Catalogue(sentences=sentences(text), display=METRIC)


def test_a_wall_that_nobody_looked_at_has_nothing_to_be_judged_by() -> None:
    found = judged([Width(kind="width", at=0, reads=1500)], FLAT)
    assert (found.wall, found.verdict, found.judged, found.surfaces) == ("B", "within", (), ())
    assert found.shims is None
    assert found.notes == ()


def test_edges_and_deck_are_judged_without_further_readings() -> None:
    found = judged([], PLUMB, LEVEL, wall=fitted(left=0.003, deck=(-750.0, -744.0)))
    assert [(one.departure.way, one.verdict) for one in found.judged] == [
        ("edge", "out"),
        ("edge", "within"),
        ("deck", "out"),
    ]
    assert keys(found) == ["flatness.out", "flatness.out"]
    said = [note.values["what"] for note in found.notes]
    assert [getattr(what, "key", None) for what in said] == [
        "flatness.is-leans-in",
        "flatness.is-high-right",
    ]


def test_each_gap_is_judged_and_named() -> None:
    found = judged([gap(4), gap(5, height=250), gap(2, held="level", straightedge=1500)], FLAT)
    assert [one.verdict for one in found.judged] == ["out", "out", "within"]
    assert keys(found) == ["flatness.out", "flatness.out"]
    assert found.notes[1].values["over"] == Length(2.0)
    assert found.notes[1].values["y"] == Length(250.0)
    assert found.verdict == "out"


def test_a_gap_is_judged_by_the_limits_of_its_surface() -> None:
    found = judged([gap(9, surface="new face")], FLAT)
    assert found.judged == ()
    assert keys(found) == ["flatness.no-limit"]
    assert found.notes[0].values["surface"] == "new face"


def test_too_long_a_straightedge_leaves_a_gap_open() -> None:
    near = tolerance(id="near", allows=[{"over": 600, "at_most": 1.5}])
    found = judged([gap(2)], near)
    assert found.verdict == "open"
    assert keys(found) == ["flatness.open"]
    assert found.notes[0].values["shorter"] == Length(600.0)


def test_a_hollow_on_a_grid_is_found_and_filled() -> None:
    found = judged(HOLLOW, FLAT)
    (surface,) = found.surfaces
    assert (surface.surface, len(surface.spots), surface.missing) == ("backer", 9, ())
    assert [(one.departure.held, one.verdict) for one in surface.judged] == [
        ("level", "out"),
        ("plumb", "out"),
        ("any", "out"),
    ]
    assert surface.read == pytest.approx(1300 * 1600 / (1500 * 2000))
    (patch,) = surface.patches
    # Four cells with one corner 5 mm deep; 2 mm are left to the limit.
    assert patch.flush == pytest.approx(1300 * 1600 * 5 / 4)
    assert patch.least == pytest.approx(1300 * 1600 * 2 / 4)
    assert keys(found) == ["flatness.out", "flatness.patch-flat"]
    assert found.notes[1].values["flush"] == pytest.approx(2.6)  # [L]
    assert mm(found.notes[1].values["deepest"]) == pytest.approx(5.0)


def test_a_flat_surface_needs_no_patch() -> None:
    found = judged(depths([50, 50, 50, 50, 52, 50, 50, 50, 50]), FLAT)
    assert found.verdict == "within"
    assert found.surfaces[0].patches == ()


def test_limits_that_grow_with_distance_are_held_against_the_grid_too() -> None:
    grows = tolerance(
        allows=[{"over": 100, "at_most": 3}, {"over": 2000, "at_most": 4}], scales="straight line"
    )
    (surface,) = judged(HOLLOW, grows).surfaces
    grid_found = surface.judged[-1]
    assert (grid_found.departure.way, grid_found.departure.by) == ("grid", -5.0)
    assert grid_found.departure.span == 1300.0  # the shorter span allows less
    assert grid_found.limit == pytest.approx(3 + 1200 / 1900)
    # No three spots in a row: nothing for the grid method.
    few = depths([50, 50, 50], places=[(100.0, -600.0), (1400.0, -600.0), (750.0, 1000.0)])
    assert judged(few, grows).surfaces[0].judged == ()


def test_a_leaning_surface_is_filled_to_plumb() -> None:
    found = judged(depths([50, 50, 50, 46, 46, 46, 42, 42, 42]), FLAT, PLUMB)
    (surface,) = found.surfaces
    assert surface.plane is not None
    assert surface.plane.up == pytest.approx(0.005)
    assert [patch.goal for patch in surface.patches] == ["plumb"]
    assert surface.patches[0].flush == pytest.approx(1300 * 1600 * 4)
    assert keys(found) == ["flatness.out", "flatness.patch-plumb"]


def test_a_hump_on_a_grid_may_be_ground() -> None:
    found = judged(depths([50, 50, 50, 50, 50, 50, 50, 43, 50]), FLAT)
    assert keys(found)[-2:] == ["flatness.patch-flat", "flatness.grind"]
    assert mm(found.notes[-1].values["depth"]) == pytest.approx(7.0)


def test_surfaces_are_kept_apart() -> None:
    studs = depths([60, 60, 60, 60, 62, 60, 60, 60, 60], "stud")
    found = judged([*HOLLOW, *studs], FLAT, display="imperial")
    assert [surface.surface for surface in found.surfaces] == ["backer", "stud"]
    assert found.surfaces[1].judged == ()
    assert found.shims is not None
    assert found.shims.thickest == pytest.approx(25.4 / 16)  # 2 mm is 1.26 sixteenths
    assert keys(found)[-1] == "flatness.shims"
    assert "flatness.no-limit" not in keys(found)


def test_the_surface_of_the_survey_counts_where_a_reading_says_none() -> None:
    found = judged(HOLLOW, FLAT, survey=Survey(surface="stud"))
    assert found.shims is not None
    assert found.shims.thickest == 5.0


def test_readings_that_cannot_be_used_are_named() -> None:
    twice = [*HOLLOW, *depths([58], places=[PLACES[0]])]
    stray = depths([50, 50], places=[(1600.0, 200.0), (750.0, 1400.0)])
    found = judged([*twice, *stray], FLAT)
    assert keys(found)[0] == "flatness.repeats"
    assert keys(found)[-2:] == ["flatness.stray", "flatness.stray"]
    # 8 mm apart with a sigma of 0.4 each
    assert found.notes[0].values["w"] == pytest.approx(8 / (0.4 * 2**0.5))
    assert len(found.surfaces[0].spots) == 9


def test_depths_on_a_grid_show_what_a_short_straightedge_leaves_open() -> None:
    gap = Gap(kind="gap", at=750, height=300, straightedge=600, held="level", reads=0)
    assert "flatness.short-straightedge" in keys(judged([gap], FLAT))
    assert "flatness.short-straightedge" not in keys(judged([*HOLLOW, gap], FLAT))


def test_repeats_that_agree_are_not_named() -> None:
    found = judged([*HOLLOW, *depths([50.5], places=[PLACES[0]])], FLAT)
    assert "flatness.repeats" not in keys(found)


def test_what_the_grid_lacks_is_named_where_there_is_wall() -> None:
    assert "flatness.missing" in keys(judged(HOLLOW[:4] + HOLLOW[5:], FLAT))
    window = Box(left=500.0, bottom=0.0, right=1000.0, top=500.0)
    found = judged(HOLLOW[:4] + HOLLOW[5:], FLAT, wall=fitted(openings=[window]))
    assert "flatness.missing" not in keys(found)
    assert found.surfaces[0].read < 1300 * 1600 / (1500 * 2000)


def test_one_line_of_depths_is_no_surface() -> None:
    found = judged(HOLLOW[:3], FLAT)
    (surface,) = found.surfaces
    assert (surface.plane, surface.read, surface.judged) == (None, 0.0, ())
    assert keys(found) == ["flatness.one-line"]


def test_spots_beside_the_wall_alone_give_no_patch() -> None:
    # All within 25 mm of its left edge, from outside.
    beside = {(-20.0, 0.0): 0.0, (-20.0, 400.0): -9.0, (-20.0, 800.0): 0.0, (-2.0, 300.0): 0.0}
    read = [Spot(x=x, y=y, z=z, sigma=0.4) for (x, y), z in beside.items()]
    found = surface_flatness(read, fitted(), "backer", [FLAT])
    assert [one.verdict for one in found.judged] == ["out", "out"]  # plumb, and any direction
    assert (found.patches, found.read) == ((), 0.0)


def test_the_same_fault_is_said_once_at_its_worst() -> None:
    # Level and plumb find 5 mm each, the diagonals too: one note for the limit.
    tight = tolerance(id="tight", allows=[{"over": 2000, "at_most": 1}])
    found = judged(HOLLOW, FLAT, tight)
    assert keys(found).count("flatness.out") == 2
    assert [note.values["over"] for note in found.notes[:2]] == [Length(2.0), Length(4.0)]


def test_every_note_has_its_sentence(catalogue: Catalogue) -> None:
    readings: list[Reading] = [
        gap(5),
        gap(2, fault="hump", held="level", straightedge=800),
        gap(1, surface="new face"),
        *HOLLOW[:7],
        *depths([41, 52, 46, 44, 44], places=[PLACES[7], PLACES[8], (1600.0, 0.0), *PLACES[:2]]),
        *depths([60, 61], "stud", places=PLACES[:2]),
    ]
    near = tolerance(id="near", allows=[{"over": 600, "at_most": 1}])
    wall = fitted(deck=(-744.0, -750.0), left=-0.004)
    found = judged(readings, FLAT, PLUMB, LEVEL, near, wall=wall)
    said = [catalogue.say(note) for note in found.notes]
    hollow = "Wall B, 750 mm from the left corner, 200 mm above the datum: a hollow of 5 mm under"
    assert any(sentence.startswith(hollow) for sentence in said)
    assert all("{" not in sentence for sentence in said)


def test_the_helper_grid_reads_as_drawn() -> None:
    assert [(s.x, s.y, s.z) for s in grid([1.0, 2.0], [3.0, 4.0])] == [
        (0, 0, 3),
        (300, 0, 4),
        (0, 300, 1),
        (300, 300, 2),
    ]
