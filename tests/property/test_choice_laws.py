"""What is left open is never to anyone's loss: more choice gives picks at least as good."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.property.alcoves import Alcove, TrueWall, alcoves, line, share, surveyed

from gaugerod.core.job.sample import sample_rates
from gaugerod.core.options.option import Option
from gaugerod.core.options.weigh import choose, weigh

RATES = sample_rates()


def figures(alcove: Alcove) -> tuple[int, int, int] | None:
    """The looks to the dollar, the cuts and the modules of the three picks."""
    found = line(surveyed(alcove), alcove.system)
    if found is None:
        return None
    options = weigh(found.short, found.walls, found.system, RATES)
    looks: Option = choose(options, "looks first")
    saw: Option = choose(options, "saw least")
    buy: Option = choose(options, "buy least")
    return looks.looks // 100, saw.cuts, buy.modules


@share(8)
@given(alcoves(), st.sampled_from(["turn", "bond", "finish", "corners"]))
def test_leaving_a_choice_open_never_worsens_a_pick(alcove: Alcove, name: str) -> None:
    settled = figures(alcove)
    opened = figures(replace(alcove, choices={**alcove.choices, name: "any"}))
    if settled is not None:
        assert opened is not None
        assert all(now <= before for now, before in zip(opened, settled, strict=True))


@share(8)
@given(alcoves())
def test_where_courses_run_on_the_corners_swallow_their_joint_and_lap(alcove: Alcove) -> None:
    plumb = replace(alcove, walls=_plumb(alcove))
    found = line(
        surveyed(replace(plumb, choices={**alcove.choices, "corners": "run on"})), alcove.system
    )
    if found is None:
        return
    layout, system = found.short.layouts[0], alcove.system
    lap, pitch = system.thickness + system.bed, layout.pitch[0]
    left, back, right = layout.walls
    for before, after in ((left, back), (back, right)):
        # Corner to corner the bonding faces are as wide as the walls; the one that butts ends a
        # joint before the other's face, and so does what shows of it.
        wide = next(wall for wall in plumb.walls if wall.name == before.name).width
        joint = system.gaps.butt
        behind = before.field.right == "runs behind"
        shown_to = wide - lap - (0.0 if behind else joint)
        shown_from = lap + (joint if behind else 0.0)
        run = (shown_to - before.phase) + joint + lap + (after.phase - shown_from)
        assert min(run % pitch, pitch - run % pitch) == pytest.approx(0, abs=0.05)


def _plumb(alcove: Alcove) -> tuple[TrueWall, TrueWall, TrueWall]:
    left, back, right = (replace(wall, left=0.0, right=0.0) for wall in alcove.walls)
    return left, back, right
