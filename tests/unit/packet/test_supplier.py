import re
from dataclasses import replace

from tests.unit.packet.test_customer import said

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.packet.paper import Form, Paragraph, Table
from gaugerod.packet.supplier import supplier_paper


def wanted(plan: Plan, words: Catalogue) -> tuple[tuple[str, ...], ...]:
    tables = [one for one in supplier_paper(plan, words).sections if isinstance(one, Table)]
    return tables[-1].rows


def told(plan: Plan, words: Catalogue) -> dict[str, str]:
    """What the facts at the head say, by their labels."""
    facts = next(one for one in supplier_paper(plan, words).sections if isinstance(one, Table))
    cells = [cell for row in facts.rows for cell in row]
    return dict(zip(cells[::2], cells[1::2], strict=True))


def test_all_that_is_bought_stands_once_and_what_is_on_hand_does_not(
    keyed: Plan, tiled: Plan, inches: Catalogue
) -> None:
    for plan in (keyed, tiled):
        bought = {line.name: line.count for line in plan.order.lines if line.count}
        counts = {row[2]: int(row[1].split()[0]) for row in wanted(plan, inches)}
        assert counts == bought
    assert "Hole saw, one of each diameter" not in [row[2] for row in wanted(keyed, inches)]


def test_goods_stand_by_their_kind_each_named_once(
    keyed: Plan, tiled: Plan, inches: Catalogue
) -> None:
    kinds = ["Lining", "Trims", "To set and seal", "Backing", "Supplies"]
    for plan in (keyed, tiled):
        assert [row[0] for row in wanted(plan, inches) if row[0]] == kinds
    kind, under = "", {}
    for row in wanted(tiled, inches):
        kind = row[0] or kind
        under[row[2]] = kind
    assert under["Fine cement grout, 5 kg"] == "To set and seal"
    assert under["Tile backer board 1200 x 800 x 12"] == "Backing"
    assert under["Waterproof joint tape, 10 m"] == "Supplies"


def test_it_says_what_a_package_holds(
    keyed: Plan, tiled: Plan, inches: Catalogue, millimetres: Catalogue
) -> None:
    """As the files of the two materials have it."""
    held = {row[2]: row[3] for row in wanted(keyed, inches)}
    assert held["Keyed wall module 24 x 12"] == '8 to a box, 24" × 12", 3/8" thick'
    assert held["Edge trim, 3/4 leg"] == '96" long'
    assert held["Panel adhesive, solvent-free, 28 oz"] == "28 fl oz"
    assert held["Fibre-cement backer 60 x 36 x 1/2"] == '60" × 36"'
    assert held["Rubble bags, 10"] == ""
    tile = {row[2]: row[3] for row in wanted(tiled, millimetres)}
    assert tile["Fine cement grout, 5 kg"] == "5 kg"
    assert tile["Liquid membrane, 5 L"] == "5 L"
    # A valve of 110 mm and a shower arm of 34 mm.
    assert tile["Diamond core bit, one of each diameter"] == "one of each: 34 mm, 110 mm"


def test_prices_and_days_are_blanks(keyed: Plan, inches: Catalogue) -> None:
    assert {row[4:] for row in wanted(keyed, inches)} == {("", "")}
    text = " ".join(said(supplier_paper(keyed, inches).sections))
    assert not re.search(r"[$£€]|\d\.\d\d\b", text)
    assert isinstance(supplier_paper(keyed, inches).sections[-1], Form)


def test_it_goes_where_the_job_says_by_the_day_of_the_plan(keyed: Plan, inches: Catalogue) -> None:
    """Friday 20 February 2026 is the last day to order; see the story of the demo."""
    facts = told(keyed, inches)
    assert facts["Ship to"] == "14 Alder Row (invented)"
    assert facts["Order by"] == "Fri 20 Feb"
    assert facts["Deliver before"].startswith("Tue 3 Mar")


def test_an_order_without_days_or_place_leaves_them_out(keyed: Plan, inches: Catalogue) -> None:
    days = replace(keyed.days, needed=None, order_by=None)
    job = keyed.job.model_copy(update={"scenario": "", "site": type(keyed.job.site)()})
    facts = told(replace(keyed, days=days, job=job), inches)
    assert [label for label in facts if label] == ["Delivery"]


def lots(plan: Plan, words: Catalogue) -> list[str]:
    return [
        one.text
        for one in supplier_paper(plan, words).sections
        if isinstance(one, Paragraph) and "ONE LOT" in one.text
    ]


def test_boxes_are_of_one_lot_and_so_is_grout_that_takes_several_bags(
    tiled: Plan, millimetres: Catalogue
) -> None:
    (only,) = lots(tiled, millimetres)
    assert only.startswith("Porcelain wall tile 600 x 300: all 6 boxes of ONE LOT")
    lines = tuple(
        replace(line, count=3) if line.id == "grout" else line for line in tiled.order.lines
    )
    more = replace(tiled, order=replace(tiled.order, lines=lines))
    assert lots(more, millimetres)[1].startswith("Fine cement grout, 5 kg: all 3 bags")


def test_goods_on_hand_leave_nothing_to_say_of_lots(keyed: Plan, inches: Catalogue) -> None:
    lines = tuple(replace(line, count=0) for line in keyed.order.lines)
    none = replace(keyed, order=replace(keyed.order, lines=lines))
    assert lots(none, inches) == []
    assert wanted(none, inches) == ()
