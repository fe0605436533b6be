from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Money
from gaugerod.core.options.option import Option
from gaugerod.core.pipeline import Plan
from gaugerod.packet.choices import choices
from gaugerod.packet.options import picked_first
from gaugerod.packet.paper import Beside, Block, Heading, Paragraph, Picture


def picks_of(plan: Plan) -> list[Option]:
    return [option for option in picked_first(plan.options) if option.picks]


def cells(plan: Plan, words: Catalogue) -> tuple[tuple[Block, ...], ...]:
    (beside,) = [block for block in choices(plan, words) if isinstance(block, Beside)]
    assert beside.across == len(beside.cells)
    return beside.cells


def offering(plan: Plan, *options: Option) -> Plan:
    return replace(plan, options=replace(plan.options, options=options), chosen=options[0])


def given_up(plan: Plan, words: Catalogue) -> list[str]:
    last = [cell[-1] for cell in cells(plan, words)]
    return [block.text for block in last if isinstance(block, Paragraph)]


def test_the_picks_stand_side_by_side_with_picture_and_price(
    tiled: Plan, millimetres: Catalogue
) -> None:
    picks = picks_of(tiled)
    assert len(picks) > 1
    for option, cell in zip(picks, cells(tiled, millimetres), strict=True):
        head, picture, price, made_of, _ = cell
        assert isinstance(head, Heading)
        assert head.text.startswith(f"{option.id}: ")
        assert isinstance(picture, Picture)
        assert picture.drawing.name == f"choice-{option.id}"
        assert isinstance(price, Paragraph)
        assert price.text.startswith(millimetres.show(Money(option.price)))
        assert (price.style == "boxed") == (option.id == tiled.chosen.id)
        assert isinstance(made_of, Paragraph)
        assert made_of.text.startswith(f"{option.modules} modules, {option.cuts} cuts, narrowest")


def test_names_are_those_of_a_customer(tiled: Plan, millimetres: Catalogue) -> None:
    all_three = replace(tiled.chosen, picks=("looks first", "saw least", "buy least"))
    other = replace(tiled.chosen, id="Z", picks=("saw least",))
    first, second = cells(offering(tiled, all_three, other), millimetres)
    assert isinstance(first[0], Heading)
    assert first[0].text == f"{tiled.chosen.id}: looks best, cuts least, buys least"
    assert isinstance(second[0], Heading)
    assert second[0].text == "Z: cuts least"


def test_what_one_gives_up_is_what_another_has(tiled: Plan, millimetres: Catalogue) -> None:
    best = replace(
        tiled.chosen,
        price=90000,
        looks=100,
        cuts=50,
        modules=30,
        smallest=200.0,
        picks=("looks first",),
    )
    worst = replace(
        best,
        id="Z",
        price=90001,
        looks=101,
        cuts=51,
        modules=31,
        smallest=199.0,
        picks=("saw least",),
    )
    assert given_up(offering(tiled, best, worst), millimetres) == [
        "Gives up: nothing that another has.",
        (
            "Gives up: another is cheaper, another is more even to the eye, "
            "another has fewer cuts, another takes fewer modules, another has no piece so narrow."
        ),
    ]


def test_nothing_is_asked_where_one_set_out_is_the_best_in_all(
    keyed: Plan, inches: Catalogue
) -> None:
    assert list(choices(offering(keyed, keyed.chosen), inches)) == []
