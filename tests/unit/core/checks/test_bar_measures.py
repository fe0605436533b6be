from dataclasses import replace

import pytest
from tests.rule_cases import bar, bars, said, walls

from gaugerod.core.checks.bar_measures import BAR_MEASURES
from gaugerod.core.checks.facts import Facts, Measured

LENGTHS = ("control-bar", "back-bar", "head-bar", "back-bar-to-control", "back-bar-to-head")


def measured(name: str, facts: Facts) -> list[Measured]:
    return list(BAR_MEASURES[name](facts))


def test_heights_are_over_floor_and_rim(facts: Facts) -> None:
    # The floor is at -1140, the rim at -754 on the right wall.
    two = bars(facts, "R", bar(height=34.0), bar(height=24.0))
    (upper,) = measured("bar-height", two)
    (lower,) = measured("lower-bar-height", two)
    assert upper.where == "R bar 1"
    assert upper.value == pytest.approx(34 * 25.4)
    assert lower.where == "R bar 2"
    assert lower.value == pytest.approx(24 * 25.4 - 386.0)


def test_a_rim_out_of_level_counts_under_the_middle_of_the_bar(facts: Facts) -> None:
    right = replace(facts.walls.walls[2], deck=((0.0, -760.0), (800.0, -752.0)))
    sloped = walls(facts, R=right)
    two = bars(sloped, "R", bar(), bar(left=300.0, length=200.0 / 25.4, height=24.0))
    # Half way along, the rim is at -756.
    assert measured("lower-bar-height", two)[0].value == pytest.approx(24 * 25.4 - 384.0)


def test_one_bar_is_no_lower_bar_and_a_shelf_is_no_bar(facts: Facts) -> None:
    one = bars(facts, "B", bar())
    assert measured("lower-bar-height", one) == []
    shelf = replace(one.walls.walls[1].fixtures[0], kind="shelf")
    shelved = walls(one, B=replace(one.walls.walls[1], fixtures=(shelf,)))
    assert measured("bars", shelved) == measured("bar-height", shelved) == []


def test_without_a_floor_no_height_is_known(facts: Facts) -> None:
    unread = replace(facts, walls=replace(facts.walls, floor=None))
    assert measured("bar-height", bars(unread, "B", bar())) == []


def test_a_room_that_is_not_built_for_access_is_held_to_none_of_it(facts: Facts) -> None:
    plain = said(bars(facts, "B", bar()), accessible=False)
    for name in ("bar-height", "lower-bar-height", *LENGTHS):
        assert measured(name, plain) == []
    assert measured("bars", plain) == [Measured(where="B bar 1")]


def test_the_valve_may_be_at_the_right(facts: Facts) -> None:
    left, _, right = facts.walls.walls
    turned = walls(facts, L=replace(left, holes=()), R=replace(right, holes=left.holes))
    hung = bars(turned, "B", bar(left=300.0))
    # 1500 less 300 and 24 in of bar.
    assert measured("back-bar-to-control", hung)[0].value == pytest.approx(1200 - 609.6)
    assert measured("back-bar-to-head", hung)[0].value == 300.0
    assert measured("control-bar", bars(turned, "R", bar()))[0].where == "R bar 1"


def test_which_end_is_which_is_not_known_without_a_pipe_or_with_two(facts: Facts) -> None:
    left, back, right = facts.walls.walls
    none = walls(facts, L=replace(left, holes=()))
    both = walls(facts, R=replace(right, holes=left.holes))
    two = replace(facts, walls=replace(facts.walls, walls=(left, back)))
    for odd in (none, both, two):
        assert [measured(name, bars(odd, "B", bar())) for name in LENGTHS] == [[]] * len(LENGTHS)
