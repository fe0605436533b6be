from tests.priced_by_hand import bought as line

from gaugerod.core.job.own_order import Bought
from gaugerod.core.takeoff.deliveries import Standing, standing

LINES = (line("modules", count=6, cents=8400), line("sealant", count=2, cents=900))


def came(item: str, count: int, **more: object) -> Bought:
    return Bought.model_validate({"item": item, "count": count, **more})


def test_nothing_ordered_is_all_to_be_ordered() -> None:
    assert [(one.item, one.to_order, one.ordered) for one in standing(LINES, ())] == [
        ("modules", 6, 0),
        ("sealant", 2, 0),
    ]


def test_packages_of_two_deliveries() -> None:
    # Four at 86.00 and one at 81.50, where 84.00 is reckoned with: 8.00 - 2.50 = 5.50 dearer.
    deliveries = [
        came("modules", 4, ordered="2026-03-02", arrived="2026-03-09", lot="A7", price=86),
        came("modules", 1, ordered="2026-03-10", lot="A7", price="81.50"),
        came("modules", 2, ordered="2026-03-11", lot="B2"),
    ]
    assert standing(LINES, deliveries)[0] == Standing(
        item="modules",
        needed=6,
        ordered=7,
        arrived=4,
        to_order=0,
        over=1,
        dearer=550,
        lots=("A7", "B2"),
    )


def test_what_the_plan_no_longer_asks_for_is_not_forgotten() -> None:
    last = standing(LINES, [came("niche", 1, price=30)])[-1]
    assert (last.item, last.needed, last.ordered, last.over, last.dearer) == (
        "niche",
        0,
        1,
        1,
        3000,
    )
