"""Why not this one? Asked of the sample alcove: 1500 wide, modules 600 by 300, least 50."""

import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Choices
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.options.ask import Answer, ask
from gaugerod.core.options.weigh import weigh
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls

WALLS, SYSTEM, RATES = fit_walls(sample_job()), sample_system(), sample_rates()


def choices(**update: object) -> Choices:
    return sample_job().choices.model_copy(update=update)


def asked(**update: object) -> Answer:
    return ask(WALLS, choices(**update), SYSTEM, RATES)


def test_what_keeps_every_limit_breaks_none() -> None:
    answer = asked(bond="half")
    assert answer.broken == ()
    assert answer.option.layout.bond == "half"
    best = weigh(set_out(WALLS, choices(), SYSTEM, RATES.looks), WALLS, SYSTEM, RATES)
    assert answer.option.looks > min(option.looks for option in best.options)


def test_what_breaks_a_limit_is_weighed_all_the_same() -> None:
    # A first course of 30 leaves strips of 30, less where the deck is higher: under 50.
    answer = asked(first_height=30.0)
    under = Message("setout.limit-under-least")
    assert all(broken.values["limit"] == under for broken in answer.broken)
    assert {broken.values["wall"] for broken in answer.broken} == {"L", "B", "R"}
    assert answer.option.smallest == pytest.approx(24.0, abs=0.5)  # 30 less a fall of 6
    assert answer.option.modules > 0


def test_a_wall_that_keeps_its_limits_is_not_named() -> None:
    # A joint on the valve of L, at 400 from a corner 800 away, clear of it on the others.
    answer = asked(phase={"L": 400.0})
    assert [(str(b.values["wall"]), b.values["limit"]) for b in answer.broken] == [
        ("L", Message("setout.limit-joint-at-hole"))
    ]
