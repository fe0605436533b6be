from dataclasses import replace

import pytest

from gaugerod.core.base.messages import Money
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.options.option import Options, Pick
from gaugerod.core.options.weigh import choose, weigh
from gaugerod.core.setout.layout import ShortList
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls

JOB, SYSTEM, RATES = sample_job(), sample_system(), sample_rates()
WALLS = fit_walls(JOB)
SHORT = set_out(WALLS, JOB.choices, SYSTEM, RATES.looks)


@pytest.fixture(scope="module")
def options() -> Options:
    return weigh(SHORT, WALLS, SYSTEM, RATES)


def test_no_option_beats_another_in_everything(options: Options) -> None:
    figures = [(o.price, o.cuts, o.modules, o.looks) for o in options.options]
    for mine in figures:
        for other in figures:
            better = all(a <= b for a, b in zip(other, mine, strict=True))
            assert other == mine or not better


def test_each_pick_is_the_best_of_its_kind(options: Options) -> None:
    best = {
        "looks first": min(o.looks for o in options.options),
        "saw least": min(o.cuts for o in options.options),
        "buy least": min(o.modules for o in options.options),
    }
    assert choose(options, "looks first").looks // 100 == best["looks first"] // 100
    assert choose(options, "saw least").cuts == best["saw least"]
    assert choose(options, "buy least").modules == best["buy least"]
    names: list[Pick] = [pick for option in options.options for pick in option.picks]
    assert sorted(names) == sorted(best)


def test_options_are_lettered_with_the_best_looks_first(options: Options) -> None:
    assert [o.id for o in options.options] == ["A", "B", "C", "D"][: len(options.options)]
    looks = [o.looks // 100 for o in options.options]
    assert looks == sorted(looks)
    cheapest = min(o.price for o in options.options)
    for option in options.options:
        assert option.reason.values["over"] == Money(option.price - cheapest)


def test_layouts_of_equal_figures_are_one_option(options: Options) -> None:
    twice = replace(SHORT, layouts=SHORT.layouts * 2)
    assert weigh(twice, WALLS, SYSTEM, RATES) == options


def test_a_short_list_of_one_holds_every_pick() -> None:
    one = ShortList(layouts=SHORT.layouts[:1], tried=1, refused=())
    (only,) = weigh(one, WALLS, SYSTEM, RATES).options
    assert only.picks == ("looks first", "saw least", "buy least")
    ends = [end for wall in only.layout.walls for end in wall.ends]
    assert only.smallest == pytest.approx(min(ends), abs=1e-3)
