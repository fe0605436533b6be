import pytest
from tests.laid_by_hand import field, keyed, opening, rectangle, wall

from gaugerod.core.base.geometry import Region, Ring
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Meeting, SetField
from gaugerod.core.survey.walls import FittedOpening, FittedWall
from gaugerod.core.takeoff.runs import EdgeRuns, corner_runs, edge_runs, trimmed

GROSS = rectangle(left=0, bottom=3, right=1500, top=1203)


def runs_of(
    gross: Region = GROSS,
    *,
    ends: tuple[Meeting, Meeting] = ("butts", "runs behind"),
    ceiling: float = 1400,
    openings: tuple[FittedOpening, ...] = (),
) -> EdgeRuns:
    on = wall("B", width=1500, ceiling=ceiling, openings=openings)
    return edge_runs(field("B", gross, ends=ends), on, keyed())


def test_a_back_wall_is_sealed_at_the_deck_and_where_it_butts() -> None:
    runs = runs_of()
    assert runs.sealed == 1500 + 1200
    assert [(run.place, run.length) for run in runs.tops] == [("top", 1500)]
    assert runs.edges == runs.corners == ()


def test_an_end_that_runs_behind_is_closed_by_its_neighbour() -> None:
    assert runs_of(ends=("runs behind", "runs behind")).sealed == 1500


def test_an_open_end_takes_an_edge_trim_and_no_seal() -> None:
    runs = runs_of(ends=("open", "butts"))
    assert [(run.wall, run.place, run.length) for run in runs.edges] == [("B", "left", 1200)]
    assert runs.sealed == 1500 + 1200


def test_a_wall_of_its_own_is_open_on_both_sides() -> None:
    runs = runs_of(ends=("open", "open"))
    assert [run.place for run in runs.edges] == ["left", "right"]
    assert runs.sealed == 1500


def test_an_end_in_a_corner_trim_is_sealed_to_it() -> None:
    runs = runs_of(ends=("trim", "runs behind"))
    assert [(run.place, run.length) for run in runs.corners] == [("left", 1200)]
    assert runs.sealed == 1500 + 1200


def test_the_edge_that_a_lap_covers_is_sealed_once() -> None:
    assert runs_of(ends=("butts", "stops")).sealed == 1500 + 1200
    assert runs_of(ends=("laps", "runs behind")).sealed == 1500 + 1200


def test_an_outside_trim_is_shared_and_not_sealed() -> None:
    before = runs_of(ends=("open", "outside trim"))
    after = runs_of(ends=("outside trim", "open"))
    assert before.sealed == 1500
    assert before.corners == ()
    assert [run.length for run in corner_runs((before, after), "outside")] == [1200]


def test_a_top_at_the_ceiling_is_sealed_and_takes_no_trim() -> None:
    # The gap under the ceiling is 10: a field that ends at 1203 stands under a ceiling of 1213.
    runs = runs_of(ceiling=1213)
    assert runs.tops == ()
    assert runs.sealed == 1500 + 1200 + 1500


@pytest.mark.parametrize(("ceiling", "tops"), [(1213.9, 0), (1214.1, 1)])
def test_a_top_a_little_below_the_ceilings_gap_counts_as_at_the_ceiling(
    ceiling: float, tops: int
) -> None:
    assert len(runs_of(ceiling=ceiling).tops) == tops


def test_a_rim_is_sealed_all_round() -> None:
    window = opening("window", left=450, bottom=400, right=1050, top=1000)
    assert runs_of(openings=(window,)).sealed == pytest.approx(2700 + 4 * 606)


def test_a_niche_with_its_own_gap() -> None:
    niche = opening("niche", left=450, bottom=400, right=750, top=1000)
    own = FittedOpening(name=niche.name, kind=niche.kind, box=niche.box, gap=0.0)
    assert runs_of(openings=(own,)).sealed == pytest.approx(2700 + 2 * (300 + 600))


def test_what_of_a_window_lies_beyond_the_field_is_not_sealed() -> None:
    # Sill at 1000, head at 1600: two jambs of 1203 - 997 and a sill of 606.
    window = opening("window", left=450, bottom=1000, right=1050, top=1600)
    assert runs_of(openings=(window,)).sealed == pytest.approx(2700 + 2 * 206 + 606)


def test_the_walls_of_a_corner_share_its_trim() -> None:
    left = runs_of(ends=("open", "trim"))
    back = runs_of(ends=("trim", "trim"))
    right = runs_of(ends=("trim", "open"))
    assert [run.length for run in corner_runs((left, back, right))] == [1200, 1200]


def test_the_longer_end_decides() -> None:
    low = runs_of(ends=("runs behind", "trim"))
    high = runs_of(rectangle(left=0, bottom=0, right=800, top=1203), ends=("trim", "open"))
    assert [(run.place, run.length) for run in corner_runs((low, high))] == [("left", 1203)]


def test_a_trim_against_a_wall_that_is_not_lined() -> None:
    assert [run.place for run in corner_runs((runs_of(ends=("trim", "trim")),))] == [
        "left",
        "right",
    ]


def test_no_corner_trim_where_walls_lap() -> None:
    assert corner_runs((runs_of(), runs_of())) == ()


# --- mitres and joints -------------------------------------------------------------------------


def mitred_runs(
    *uses: str, ends: tuple[Meeting, Meeting], gross: Region = GROSS, ceiling: float = 1400
) -> EdgeRuns:
    system = keyed()
    trims = tuple(
        trim.model_copy(update={"mitre": 20.0 if trim.use in uses else None})
        for trim in system.trim
    )
    framed = system.model_copy(update={"trim": trims})
    on = wall("B", width=1500, ceiling=ceiling)
    return edge_runs(field("B", gross, ends=ends), on, framed)


def test_edge_and_top_meet_in_a_mitre_at_an_open_corner() -> None:
    runs = mitred_runs("edge", "top", ends=("open", "butts"))
    assert [run.mitred for run in runs.edges] == [("end",)]
    assert [run.mitred for run in runs.tops] == [("start",)]
    both = mitred_runs("edge", "top", ends=("open", "open"))
    assert [run.mitred for run in both.tops] == [("start", "end")]


@pytest.mark.parametrize("uses", [(), ("edge",), ("top",)])
def test_no_mitre_unless_both_trims_are_mitred(uses: tuple[str, ...]) -> None:
    runs = mitred_runs(*uses, ends=("open", "open"))
    assert {run.mitred for run in (*runs.edges, *runs.tops)} == {()}


@pytest.mark.parametrize("met", ["laps", "stops", "outside trim"])
def test_a_top_turns_an_outside_corner_in_a_mitre(met: Meeting) -> None:
    runs = mitred_runs("top", ends=("butts", met))
    assert [run.mitred for run in runs.tops] == [("end",)]
    assert [run.mitred for run in mitred_runs("top", ends=(met, "butts")).tops] == [("start",)]


def test_an_edge_that_ends_at_the_ceiling_has_no_mitre() -> None:
    runs = mitred_runs("edge", "top", ends=("open", "open"), ceiling=1213)
    assert [run.mitred for run in runs.edges] == [(), ()]


def test_only_the_outer_ends_of_a_stepped_top_are_mitred() -> None:
    stepped = Region(
        rings=(((0, 0), (1500, 0), (1500, 1000), (700, 1000), (700, 1203), (0, 1203)),)
    )
    runs = mitred_runs("edge", "top", ends=("open", "open"), gross=stepped)
    found = sorted((run.length, run.mitred) for run in runs.tops)
    assert found == [(700, ("start",)), (800, ("end",))]


def test_a_joint_keeps_off_an_opening_beside_the_run() -> None:
    # The window stands from 450 to 1050 and breaks the top; 50 more on either side.
    window = opening("window", left=450, bottom=1000, right=1050, top=1600)
    (top,) = runs_of(openings=(window,)).tops
    assert list(top.keep_off) == [pytest.approx((400, 1100))]
    low = opening("niche", left=450, bottom=400, right=750, top=1000)
    assert runs_of(openings=(low,)).tops[0].keep_off == ()


def lines_of(field: SetField, on: FittedWall, system: System) -> tuple[Ring, ...]:
    return tuple(line for _, line in trimmed(field, on, system))


def test_trims_run_where_the_material_has_one_for_the_edge() -> None:
    """The hand-made material has trims for edges, tops, inside corners; none for outside."""
    system, on = keyed(), wall("B", width=1500, ceiling=1400)
    assert {trim.use for trim in system.trim} == {"edge", "inside corner", "top"}
    top = ((1500.0, 1203.0), (0.0, 1203.0))
    left, right = ((0.0, 3.0), (0.0, 1203.0)), ((1500.0, 3.0), (1500.0, 1203.0))
    both = field("B", GROSS, ends=("open", "open"))
    assert lines_of(both, on, system) == (left, right, top)
    assert [trim.use for trim, _ in trimmed(both, on, system)] == ["edge", "edge", "top"]
    assert lines_of(field("B", GROSS, ends=("butts", "trim")), on, system) == (right, top)
    assert lines_of(field("B", GROSS, ends=("laps", "outside trim")), on, system) == (top,)
    under = wall("B", width=1500, ceiling=1206)
    assert lines_of(both, under, system) == (left, right)
    assert lines_of(both, on, system.model_copy(update={"trim": ()})) == ()
