import pytest

from gaugerod.core.job.sample import sample_job
from gaugerod.core.survey import solve as solving
from gaugerod.core.survey.observations import observations


def test_it_stops_after_its_rounds_whether_settled_or_not(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    used, _ = observations(sample_job())
    settled = solving.solve(used, used, walls=3)
    monkeypatch.setattr(solving, "ROUNDS", 1)
    early = solving.solve(used, used, walls=3)
    assert early.state["width B"] == pytest.approx(settled.state["width B"], abs=0.1)
