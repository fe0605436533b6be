from dataclasses import replace

import pytest
from tests.laid_by_hand import cut_plan, grouted, keyed
from tests.priced_by_hand import ALL_IN, QUANTITIES, bought, order, priced, rates

from gaugerod.core.base.messages import Message, Money
from gaugerod.core.pricing.job import price_job
from gaugerod.core.takeoff.order import TrimCut, TrimStock
from gaugerod.core.takeoff.sample import sample_order


@pytest.mark.parametrize(
    ("per", "minutes"),
    [
        ("alcove", 60),
        ("square metre", 270),
        ("piece", 1800),
        ("straight cut", 600),
        ("shaped cut", 420),
        ("hole", 180),
        ("metre", 390),
        ("niche", 120),
        ("reveal", 180),
    ],
)
def test_a_task_takes_an_hour_for_each_of_what_it_is_counted_by(per: str, minutes: int) -> None:
    price = priced(rates({"id": "task", "per": per, "hours": 1}))
    assert price.minutes == minutes
    assert [(task.id, task.minutes) for task in price.tasks] == [("task", minutes)]
    assert price.labour == minutes * 80


def test_a_pass_of_the_saw_that_frees_two_pieces_is_one_cut() -> None:
    table = rates({"id": "saw", "per": "straight cut", "hours": 0.05})
    assert priced(table, cuts=6).tasks[0].count == 6
    assert priced(table, cuts=14).tasks[0].count == 10


def test_a_task_of_the_other_kind_is_not_done() -> None:
    table = rates(
        {"id": "glue", "kind": "keyed", "per": "alcove", "hours": 1},
        {"id": "comb", "kind": "grouted", "per": "alcove", "hours": 2},
        {"id": "clean", "per": "alcove", "hours": 3},
    )
    assert [task.id for task in priced(table).tasks] == ["glue", "clean"]
    assert [task.id for task in priced(table, system=grouted()).tasks] == ["comb", "clean"]


def test_a_task_without_anything_to_do_is_not_done() -> None:
    table = rates({"id": "line", "per": "niche", "hours": 4}, ALL_IN)
    none = replace(order(), quantities=replace(QUANTITIES, niches=0))
    price = price_job(none, cut_plan(modules=30), table, keyed())
    assert [task.id for task in price.tasks] == ["all"]


def test_minutes_are_rounded_half_up_once_for_each_task() -> None:
    # 3 holes x 0.175 h = 31.5 min; 7 cuts x 0.18 h = 75.6 min.
    table = rates(
        {"id": "drill", "per": "hole", "hours": 0.175},
        {"id": "shape", "per": "shaped cut", "hours": 0.18},
    )
    assert [task.minutes for task in priced(table).tasks] == [32, 76]


def test_labour_is_rounded_on_all_minutes_together() -> None:
    # 31 and 31 minutes at 0.49 an hour are 25.3 and 25.3 cents, together 50.6.
    each = {"per": "alcove", "hours": 0.5167}
    price = priced(rates({"id": "a"} | each, {"id": "b"} | each, labour="0.49"))
    assert (price.minutes, price.labour) == (62, 51)


def test_tax_is_on_all_material_together_and_on_nothing_else() -> None:
    # Three of 1.10 at 5 %: 0.165 together, 0.17; 0.18 if each were rounded by itself.
    lines = [bought(f"item-{n}", count=1, cents=110) for n in range(3)]
    price = priced(rates(ALL_IN, tax=0.05, subs=1000), *lines)
    assert (price.material, price.tax) == (330, 17)


def test_contingency_is_on_everything_and_markup_on_that() -> None:
    table = rates(ALL_IN, tax=0.1, contingency=0.1, markup=0.1, permit=10)
    price = priced(table, bought("modules", count=1, cents=10_000))
    direct = 182_400 + 10_000 + 1_000 + 1_000
    assert price.contingency == direct // 10
    assert price.cost == direct + direct // 10
    assert price.price == price.cost + price.cost // 10


def test_the_lines_add_up_to_the_price_and_say_how() -> None:
    table = rates(ALL_IN, tax=0.0725, contingency=0.05, markup=0.5, subs=650)
    price = priced(table, bought("modules", count=5, cents=21_200))
    assert sum(line.cost for line in price.lines) == price.price
    assert sum(line.cost for line in price.lines[:-1]) == price.cost
    sums = {line.id: line.arithmetic for line in price.lines}
    assert list(sums) == ["labour", "modules", "tax", "subs", "contingency", "markup"]
    assert dict(sums["labour"].values) == {"hours": 38, "minutes": 0, "rate": Money(4800)}
    assert dict(sums["modules"].values) == {"count": 5, "each": Money(21_200)}
    assert dict(sums["tax"].values) == {"percent": "7.25", "of": Money(106_000)}
    assert dict(sums["markup"].values) == {"percent": "50", "of": Money(price.cost)}


def test_a_percentage_is_written_as_it_was_meant() -> None:
    table = rates(ALL_IN, contingency=0.1, markup=0.07125)
    sums = {line.id: line.arithmetic.values for line in priced(table).lines}
    assert (sums["contingency"]["percent"], sums["markup"]["percent"]) == ("10", "7.125")


def test_bought_lines_keep_their_names() -> None:
    price = priced(rates(), bought("sealant", count=2, cents=940))
    assert [(line.id, line.name, line.cost) for line in price.lines] == [
        ("sealant", "sealant", 1880)
    ]


def test_nothing_costs_nothing() -> None:
    price = priced(rates())
    assert (price.price, price.margin, price.lines, price.tasks) == (0, 0.0, (), ())


def test_the_sample_order_is_priced_in_its_currency() -> None:
    table = rates(ALL_IN, currency="GBP")
    price = price_job(sample_order(), cut_plan(modules=36), table, keyed())
    assert price.currency == "GBP"
    assert price.material == 5 * 20_000 + 4 * 1_200 + 3 * 900


def test_a_task_may_be_counted_by_several_things() -> None:
    # 4.5 m2 x 0.2 h + 30 pieces x 0.1 h = 3.9 h.
    also = [{"per": "piece", "hours": 0.1}]
    price = priced(rates({"id": "set", "per": "square metre", "hours": 0.2, "also": also}))
    assert (price.minutes, price.tasks[0].count) == (234, 4.5)


def test_a_task_is_done_for_what_it_is_also_counted_by() -> None:
    also = [{"per": "hole", "hours": 0.5}]
    table = rates({"id": "line", "per": "niche", "hours": 4, "also": also})
    none = replace(order(), quantities=replace(QUANTITIES, niches=0))
    (task,) = price_job(none, cut_plan(modules=30), table, keyed()).tasks
    assert (task.count, task.minutes) == (0, 90)


def test_a_task_is_priced_at_the_mean_of_its_hours() -> None:
    # (1 + 4 x 2 + 5) / 6 h = 2 h 20 min; rounded once, from the exact figures.
    (task,) = priced(rates({"id": "a", "per": "alcove", "low": 1, "hours": 2, "high": 5})).tasks
    assert (task.low, task.likely, task.high, task.minutes) == (60, 120, 300, 140)
    (tie,) = priced(rates({"id": "a", "per": "hole", "low": 0, "hours": 0.05, "high": 0.05})).tasks
    assert (tie.likely, tie.minutes) == (9, 8)  # 7.5 minutes


def test_hours_by_the_clock_are_paid_for_each_who_works() -> None:
    table = rates({"id": "hang", "per": "alcove", "hours": 3, "people": 2})
    price = priced(table)
    assert (price.tasks[0].minutes, price.minutes) == (180, 360)
    assert price.labour == 6 * 4800


def test_freight_comes_with_material_and_is_taxed_where_the_place_says_so() -> None:
    line = bought("modules", count=1, cents=10_000)
    plain = priced(rates(tax=0.1, freight=50), line)
    assert (plain.freight, plain.tax, plain.price) == (5_000, 1_000, 16_000)
    taxed = priced(rates(tax=0.1, freight=50, freight_taxed=True), line)
    assert (taxed.freight, taxed.tax, taxed.price) == (5_000, 1_500, 16_500)
    assert priced(rates(tax=0.1, freight=50)).price == 0


def test_an_allowance_is_in_the_price_and_takes_no_contingency() -> None:
    rot = {
        "id": "rot",
        "name": "Framing",
        "unit": "sq ft",
        "included": 8,
        "cost": "12.50",
        "beyond": 30,
    }
    table = rates(ALL_IN, contingency=0.1, markup=0.5, allowance=[rot])
    price = priced(table)
    assert (price.allowances, price.contingency) == (10_000, 18_240)
    assert price.cost == 182_400 + 18_240 + 10_000
    line = next(line for line in price.lines if line.id == "rot")
    assert dict(line.arithmetic.values) == {"included": "8", "unit": "sq ft", "each": Money(1250)}


def test_a_margin_is_a_share_of_the_price() -> None:
    # 1,824.00 / 0.6 = 3,040.00.
    price = priced(rates(ALL_IN, markup=None, margin=0.4))
    assert (price.price, price.margin) == (304_000, 0.4)
    last = price.lines[-1]
    assert (last.cost, last.name) == (121_600, Message("pricing.margin"))
    assert dict(last.arithmetic.values) == {"percent": "40", "of": Money(304_000)}


def test_the_rate_of_an_hour_is_made_of_its_parts() -> None:
    # 28.00 x 1.35 / 0.80 = 47.25; 38 h are 1,795.50.
    crew = {"wage": 28, "burden": 0.35, "billable": 0.8}
    price = priced(rates(ALL_IN, labour=None, crew=crew))
    assert price.labour == 179_550
    assert price.lines[0].arithmetic.values["rate"] == Money(4725)


def test_trims_are_counted_by_what_is_cut_of_them() -> None:
    def cut(part: int, length: float) -> TrimCut:
        return TrimCut(wall="B", place="top", part=part, parts=2, start=0, length=length, mitred=())

    stocks = (
        TrimStock(trim="top", stock=2400, runs=(cut(1, 1500.0), cut(2, 600.0)), offcut=290.0),
        TrimStock(trim="top", stock=2400, runs=(cut(1, 900.0),), offcut=1490.0),
    )
    table = rates({"id": "trims", "per": "metre of trim", "hours": 0.2})
    # 3 m x 0.2 h.
    made = price_job(replace(order(), trims=stocks), cut_plan(modules=30), table, keyed())
    assert [(task.count, task.minutes) for task in made.tasks] == [(3.0, 36)]
    assert priced(table).tasks == ()
