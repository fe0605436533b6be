import pytest

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.materials import Edges
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.blocked import blocked
from gaugerod.core.setout.relax import Eased, cheapest, laid_out
from gaugerod.core.survey.fit import fit_walls

JOB, SYSTEM, LOOKS = sample_job(), sample_system(), sample_rates().looks
WALLS = fit_walls(JOB)


def eased(first_height: float, **system: object) -> Eased | None:
    choices = JOB.choices.model_copy(update={"first_height": first_height})
    return cheapest(WALLS, choices, SYSTEM.model_copy(update=system), LOOKS)


def test_every_limit_is_named_with_its_places_the_worst_first() -> None:
    said = blocked({"groove-left": 2, "under-least": 7}, 9)
    assert said.values["tried"] == 9
    limits = said.values["limits"]
    assert isinstance(limits, Message)
    assert limits.values["first"] == Message(
        "setout.blocks", limit=Message("setout.limit-under-least"), places=7
    )
    assert limits.values["rest"] == Message(
        "setout.blocks", limit=Message("setout.limit-groove-left"), places=2
    )


def test_the_least_piece_is_eased_by_whole_millimetres() -> None:
    # 45.5 at the low point, -760, is 39.5 where the deck is at -754: a least of 39, not of 50.
    found = eased(45.5)
    assert found is not None
    assert (found.limit, found.now, found.to) == ("under-least", 50.0, 39.0)
    assert found.layout.first_course == pytest.approx(-757 + 45.5, abs=0.01)


def test_a_material_in_inches_is_eased_by_sixteenths() -> None:
    # From 50 down to 39.5 are 10.5: seven sixteenths, 11.1125.
    found = eased(45.5, unit="in")
    assert found is not None
    assert found.to == pytest.approx(50 - 11.1125)


def test_the_clearance_of_a_hole_is_eased() -> None:
    # The second line, -757 + 177.5 + 300, lies 12.5 over the top of the valve, -330 + 38:
    # less than 25.4, and 13 less is the first whole step that is enough.
    found = eased(177.5)
    assert found is not None
    assert (found.limit, found.now) == ("joint-at-hole", 25.4)
    assert found.to == pytest.approx(12.4)


def test_the_clearance_of_a_hole_is_eased_for_sheets_too() -> None:
    found = eased(177.5, kind="sheet", edges=Edges(), key_depth=0.0)
    assert found is not None
    assert (found.limit, found.now) == ("joint-at-hole", 25.4)
    assert found.to == pytest.approx(12.4)


def test_the_smallest_change_wins() -> None:
    # A whole module keeps its groove: 12.7 are to come off; half a millimetre is still there.
    found = eased(288.0)
    assert found is not None
    assert found.limit == "groove-left"
    assert 0 < found.now - found.to < 2


def test_where_one_limit_is_not_enough_nothing_is_promised() -> None:
    # At 5 over the low point the line runs under the deck's high point.
    assert eased(5.0) is None


def test_what_it_would_take_is_said_with_the_layout() -> None:
    low = JOB.choices.model_copy(update={"first_height": 45.5})
    with pytest.raises(LayoutError) as caught:
        laid_out(WALLS, low, SYSTEM, LOOKS)
    values = caught.value.message.values
    none, said = values["none"], values["eased"]
    assert isinstance(none, Message)
    assert isinstance(said, Message)
    assert (none.key, said.key) == ("setout.none", "setout.ease-under-least")
    layout = said.values["layout"]
    assert isinstance(layout, Message)
    assert isinstance(layout.values["first"], Message)
    assert layout.values["first"].key == "setout.first"


def test_that_nothing_eased_alone_is_enough_is_said() -> None:
    low = JOB.choices.model_copy(update={"first_height": 5.0})
    with pytest.raises(LayoutError) as caught:
        laid_out(WALLS, low, SYSTEM, LOOKS)
    assert caught.value.message.values["eased"] == Message("setout.ease-none")
