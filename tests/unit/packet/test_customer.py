import re
from dataclasses import replace

from tests.blocks import every

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Money
from gaugerod.core.job.terms import Charge
from gaugerod.core.pipeline import Plan
from gaugerod.packet.customer import customer_paper
from gaugerod.packet.paper import Block, Columns, Form, Heading, Paragraph, Picture, Table


def said(blocks: tuple[Block, ...]) -> list[str]:
    """Every text of a paper but what is inside its drawings."""
    found: list[str] = []
    for block in every(blocks):
        match block:
            case Heading() | Paragraph():
                found.append(block.text)
            case Table():
                found += [cell for row in (block.header, *block.rows) for cell in row]
            case Form():
                found += [label for label, _ in block.fields]
            case _:
                pass
    return found


def amounts_of(texts: list[str]) -> list[str]:
    return [amount for text in texts for amount in re.findall(r"[$£][\d,.]*\d", text)]


def test_every_amount_is_one_that_the_customer_pays(keyed: Plan, inches: Catalogue) -> None:
    payments = keyed.agreement.payments
    assert payments
    paid = [cents for one in payments.payments for cents in (one.due, one.paid)]
    offered = [option.price for option in keyed.options.options if option.picks]
    beyond = [allowance.beyond for allowance in keyed.rates.allowance]
    allowed = {inches.show(Money(cents)) for cents in (*paid, *offered, *beyond)}
    found = amounts_of(said(customer_paper(keyed, inches).sections))
    assert set(found) == allowed
    assert inches.show(Money(keyed.price.price)) in found


def test_no_cost_and_no_share_of_it_is_among_the_amounts(keyed: Plan, inches: Catalogue) -> None:
    price = keyed.price
    found = amounts_of(said(customer_paper(keyed, inches).sections))
    secret = [price.cost, price.labour, price.material, price.tax, price.contingency]
    secret += [line.cost for line in price.lines] + [keyed.spread.low, keyed.spread.high]
    secret += [keyed.rates.labour or 0, *(one.cost for one in keyed.rates.allowance)]
    assert not {inches.show(Money(cents)) for cents in secret} & set(found)


def test_nothing_is_said_of_cost_hours_or_share(keyed: Plan, inches: Catalogue) -> None:
    text = " ".join(said(customer_paper(keyed, inches).sections)).lower()
    for word in ("cost", "hour", "mark-up", "markup", "margin", "contingency", "rate", "wage"):
        assert not re.search(rf"\b{word}s?\b", text)


def test_the_scope_names_material_walls_and_height(keyed: Plan, inches: Catalogue) -> None:
    texts = said(customer_paper(keyed, inches).sections)
    assert any(keyed.system.name in text and "B, the back wall" in text for text in texts)
    assert any("above its low point" in text for text in texts)
    assert any("Edge trim" in text for text in texts)


def test_a_material_without_trims_promises_none(keyed: Plan, inches: Catalogue) -> None:
    bare = replace(keyed, system=keyed.system.model_copy(update={"trim": ()}))
    texts = said(customer_paper(bare, inches).sections)
    assert not any("Edges are finished" in text for text in texts)


def test_an_invented_job_says_so_and_a_real_one_does_not(keyed: Plan, inches: Catalogue) -> None:
    assert keyed.job.scenario in said(customer_paper(keyed, inches).sections)
    real = replace(keyed, job=keyed.job.model_copy(update={"scenario": ""}))
    assert "" not in said(customer_paper(real, inches).sections)[:3]


def test_every_wall_has_its_picture(tiled: Plan, millimetres: Catalogue) -> None:
    (columns,) = [
        block for block in customer_paper(tiled, millimetres).sections if isinstance(block, Columns)
    ]
    drawn = [block.drawing.name for block in columns.blocks if isinstance(block, Picture)]
    assert drawn == ["face-L", "face-B", "face-R"]


def test_the_finished_alcove_comes_first_then_each_wall(keyed: Plan, inches: Catalogue) -> None:
    blocks = customer_paper(keyed, inches).sections
    (alone,) = (block for block in blocks if isinstance(block, Picture))
    assert alone.drawing.name == "picture"
    (columns,) = (block for block in blocks if isinstance(block, Columns))
    faces = [block.drawing.name for block in columns.blocks if isinstance(block, Picture)]
    assert faces == ["face-L", "face-B", "face-R"]
    assert blocks.index(alone) < blocks.index(columns)


def test_what_comes_on_the_price_or_off_it_is_named(keyed: Plan, inches: Catalogue) -> None:
    charges = (Charge(what="Parking", price=45), Charge(what="Both baths at once", price=-150))
    told = replace(keyed, rates=keyed.rates.model_copy(update={"charge": charges}))
    found = said(customer_paper(told, inches).sections)
    assert "In the price: Parking, $45.00." in found
    assert "Off the price, and taken off above: Both baths at once, $150.00." in found
