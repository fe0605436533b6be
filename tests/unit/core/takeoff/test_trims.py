import pytest
from tests.laid_by_hand import keyed

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.messages import Length
from gaugerod.core.job.materials import Trim
from gaugerod.core.takeoff.order import End, TrimRun
from gaugerod.core.takeoff.trims import TrimPlan, plan_trim

BOTH: tuple[End, ...] = ("start", "end")


def profile(**fields: object) -> Trim:
    return Trim.model_validate(
        {"id": "top", "name": "Top trim", "use": "top", "stock": 2400, "price": 16, **fields}
    )


def run(length: float, *mitred: End, keep_off: tuple[tuple[float, float], ...] = ()) -> TrimRun:
    return TrimRun(wall="B", place="top", length=length, mitred=mitred, keep_off=keep_off)


def lengths(plan: TrimPlan) -> list[list[float]]:
    return [[cut.length for cut in stock.runs] for stock in plan.lengths]


def test_by_hand_mitres_make_a_run_longer() -> None:
    # Trims of 20 mitred at the top: two ends of 1180 + 20, a top of 1500 + 20 + 20. Kerf 3.
    plan = plan_trim(
        profile(mitre=20), [run(1180, "end"), run(1500, *BOTH), run(1180, "end")], keyed()
    )
    assert lengths(plan) == [[1540], [1200], [1200]]
    # 1200 + 3 + 1200 is 2403: three lengths, where square ends would take two.
    square = plan_trim(profile(), [run(1180, "end"), run(1500, *BOTH), run(1180, "end")], keyed())
    assert lengths(square) == [[1180, 1180], [1500]]
    assert [(s.runs[0].mitred, s.offcut) for s in plan.lengths] == [
        (BOTH, 2400 - 1540 - 3),
        (("end",), 2400 - 1200 - 3),
        (("end",), 2400 - 1200 - 3),
    ]


def test_by_hand_a_run_longer_than_the_stock() -> None:
    # 2980 and two mitres of 10 are 3000; the joint would be at 1500, but a hole keeps it off
    # 1400 to 1560 of the run, which is 1410 to 1570 of what is cut: 1570 is nearer than 1410.
    plan = plan_trim(profile(mitre=10), [run(2980, *BOTH, keep_off=((1400, 1560),))], keyed())
    cuts = {cut.part: cut for stock in plan.lengths for cut in stock.runs}
    assert [(cuts[n].length, cuts[n].parts, cuts[n].mitred) for n in (1, 2)] == [
        (1570, 2, ("start",)),
        (1430, 2, ("end",)),
    ]


def test_the_rest_goes_to_an_end_where_that_saves_a_length() -> None:
    # 2500 in halves of 1250 leaves 1147 of each length; 1800 then needs a third. As 2000 + 500
    # (no joint within 500 of an end) the 500 goes beside the 1800: 1800 + 3 + 500 = 2303.
    trim = profile(no_joint_from_end=500)
    plan = plan_trim(trim, [run(2500), run(1800)], keyed())
    assert lengths(plan) == [[1800, 500], [2000]]
    assert (plan.count.lengths, plan.count.proven) == (2, True)


def test_even_where_nothing_is_saved() -> None:
    assert lengths(plan_trim(profile(), [run(2500)], keyed())) == [[1250], [1250]]


def test_many_long_runs_are_jointed_alike() -> None:
    plan = plan_trim(profile(), [run(2500)] * 5, keyed())
    # Halves of 1250 would take ten lengths; 2250 + 250 take five and one for all five of 250.
    assert plan.count.lengths == 6


def test_each_piece_begins_after_the_cut_before_it() -> None:
    (stock,) = plan_trim(profile(), [run(700), run(900), run(600)], keyed()).lengths
    assert [(cut.start, cut.length) for cut in stock.runs] == [(0, 900), (903, 700), (1606, 600)]
    assert stock.offcut == 2400 - 2206 - 3


def test_nothing_to_trim() -> None:
    plan = plan_trim(profile(), [run(0.0)], keyed())
    assert (plan.lengths, plan.count.lengths, plan.count.proven) == ((), 0, True)


def test_stock_is_used_to_its_end() -> None:
    # Half millimetres are what is reckoned in; 2400.3 of 2400.3 is still one length.
    assert lengths(plan_trim(profile(stock=2400.3), [run(2400.3)], keyed())) == [[2400.3]]


def test_a_joint_that_may_be_nowhere_is_refused_in_one_line() -> None:
    long = run(2500, keep_off=((90, 2410),))
    with pytest.raises(MaterialError) as refused:
        plan_trim(profile(), [long], keyed())
    message = refused.value.message
    assert message.key == "takeoff.no-joint"
    assert message.values["wall"] == "B"
    assert (message.values["length"], message.values["stock"]) == (Length(2500), Length(2400))
