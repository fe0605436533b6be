import pytest
from tests.fixtures_plan import keyed_plan, tiled_plan

from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.again import score_again
from gaugerod.store.shelf import Library


@pytest.mark.parametrize("made", [keyed_plan(), tiled_plan()], ids=["keyed", "tile"])
def test_options_scored_again_are_as_they_were_found(made: Plan) -> None:
    looks = Library().rates()[made.job.rates].looks
    for option in made.options.options:
        scores = score_again(option.layout, made.walls, made.system, looks)
        assert [name for name, _ in scores] == ["L", "B", "R"]
        assert all(found.refused == found.set_aside == () for _, found in scores)
        assert sum(found.looks for _, found in scores) == option.looks
        assert sum(cents for _, cents in option.layout.faults) == pytest.approx(
            option.looks, abs=2 * len(option.layout.faults)
        )
