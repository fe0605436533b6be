"""What is shown under the finger is what a plan pinned there says."""

from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from gaugerod.app.plan_job import Ready, make_ready
from gaugerod.core.base.errors import LayoutError
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.document import Accent, Choices
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.pipeline import Plan, plan
from gaugerod.core.preview import Ground, Preview, glance, ground_of, held, preview, settled
from gaugerod.core.setout.layout import Layout
from gaugerod.store.shelf import Library

PLACES = 12
"""Places of each job: up and down, and across on one wall or on all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    ready: Ready
    ground: Ground
    choices: Choices


@pytest.fixture(scope="module", params=["alcove", "niche"])
def at_hand(request: pytest.FixtureRequest) -> Held:
    """An invented job with the layout that is planned at first, ready to be moved."""
    library = Library()
    source = next(demo for demo in library.demos() if demo.name.startswith(request.param))
    ready = make_ready(source, library)
    ground = ground_of(ready.job, ready.materials, ready.rules, ready.rates)
    first = planned(ready, ready.job.choices).layout
    return Held(ready=ready, ground=ground, choices=settled(ground, first))


def planned(ready: Ready, choices: Choices) -> Plan:
    job = ready.job.model_copy(update={"choices": choices})
    return plan(job, ready.materials, ready.rules, ready.rates)


def places(choices: Choices) -> Iterator[Choices]:
    """Places near the one that is planned and far from it."""
    assert choices.first_height is not None
    names = list(choices.phase)
    for n in range(PLACES):
        phases = {
            name: x + 29.0 * n * (n % 3 != i) for i, (name, x) in enumerate(choices.phase.items())
        }
        one = {**choices.phase, names[n % 3]: choices.phase[names[n % 3]] + 61.0 * n}
        yield held(choices, choices.first_height + 1.5875 * (n % 4), one if n % 2 else phases)


def said(findings: tuple[Finding, ...]) -> list[tuple[str, str, str, float | None]]:
    return [(one.rule, one.severity, one.where, one.value) for one in findings]


def test_a_preview_is_what_a_plan_of_it_says(at_hand: Held) -> None:
    shown = {n: preview(at_hand.ground, one) for n, one in enumerate(places(at_hand.choices))}
    legal = [one for one in shown.values() if not one.broken]
    assert len(legal) >= PLACES // 3
    for one in legal:
        made = planned(at_hand.ready, one.choices)
        assert same(one, made)
        # What is planned at once takes no fewer modules; sought for, it is the plan's own.
        assert one.followed.cut_up.cuts.modules >= made.cuts.modules
        sought = preview(at_hand.ground, one.choices, proven=True).followed
        assert (sought.cut_up.cuts, sought.price) == (made.cuts, made.price)
        assert sought.findings == made.findings


def test_a_glance_sees_the_layout_that_is_followed_up(at_hand: Held) -> None:
    low = held(at_hand.choices, 30.0, at_hand.choices.phase)
    every = [*places(at_hand.choices), low]
    seen = [glance(at_hand.ground, one) for one in every]
    shown = [preview(at_hand.ground, one) for one in every]
    assert [one.layout for one in seen] == [one.layout for one in shown]
    assert [one.choices for one in seen] == every
    # Each product of these jobs has its courses: only limits are in the way.
    assert [one.broken for one in seen] == [one.broken for one in shown]
    assert seen[-1].broken
    assert sum(not one.broken for one in seen) >= PLACES // 3


def test_a_preview_that_breaks_a_limit_has_no_plan(at_hand: Held) -> None:
    low = held(at_hand.choices, 30.0, at_hand.choices.phase)
    assert preview(at_hand.ground, low).broken
    with pytest.raises(LayoutError):
        planned(at_hand.ready, low)


def same(shown: Preview, made: Plan) -> bool:
    """Layout, pieces, ends and findings, and where the cuts are proven their number and price."""
    followed = shown.followed
    assert [wall.ends for wall in shown.layout.walls] == [wall.ends for wall in made.layout.walls]
    assert followed.cut_up.pieces == made.pieces
    assert said(followed.findings) == said(made.findings)
    if followed.cut_up.cuts.proven:
        assert (followed.cut_up.cuts.cuts, followed.price) == (made.cuts.cuts, made.price)
    return True


def test_what_is_planned_is_shown_where_nothing_moved(at_hand: Held) -> None:
    first = planned(at_hand.ready, at_hand.ready.job.choices)
    shown = preview(at_hand.ground, at_hand.choices, proven=True)
    cuts = shown.followed.cut_up.cuts
    assert (shown.followed.price.price, cuts.cuts, shown.broken) == (
        first.price.price,
        first.cuts.cuts,
        (),
    )


def ground(**choices: object) -> Ground:
    job = sample_job()
    job = job.model_copy(update={"choices": job.choices.model_copy(update=choices)})
    materials = Materials(systems={"sample": sample_system()})
    return ground_of(job, materials, Rules(format=1, unit="mm", rule=()), sample_rates())


def first_of(on: Ground) -> Choices:
    brief = on.brief
    materials = Materials(systems={"sample": sample_system()})
    made = plan(brief.job, materials, brief.rules, brief.rates, proven=False)
    return settled(on, made.layout)


def test_what_the_choices_left_open_is_settled() -> None:
    every = {"bond": "any", "finish": "any", "corners": "any"}
    found = first_of(ground(**every, centre={"B": "joint"}))
    assert found.turn == "lying"
    assert found.bond in {"stack", "half", "third"}
    assert found.finish in {"line", "ceiling"}
    assert (found.corners, found.centre) == ("afresh", {})
    share = first_of(ground(bond=0.25, step="left", corners="run on"))
    assert (share.bond, share.step, share.corners) == (0.25, "left", "run on")


def test_a_limit_that_is_broken_is_told_wall_by_wall() -> None:
    on = ground()
    choices = first_of(on)
    # A first course of 30 mm is under the least of 50 mm on every wall.
    found = preview(on, held(choices, 30.0, choices.phase)).broken
    assert [(one.key, one.values["wall"]) for one in found] == [
        ("options.breaks", name) for name in ("L", "B", "R")
    ]


def test_a_limit_that_is_set_aside_is_not_told() -> None:
    signed = {"limit": "joint-at-hole", "by": "A", "on": "2026-03-01", "why": "A plate."}
    override = Choices.model_validate(
        {"material": "sample", "override": [signed]}, context={"unit": "mm"}
    ).override
    on = ground(override=override)
    choices = first_of(on)
    # The valve is in the middle of the left wall: a joint goes right through it.
    through = preview(on, held(choices, 30.0, {**choices.phase, "L": 400.0})).broken
    assert {str(one.values["limit"]) for one in through} == {
        "Message(key='setout.limit-under-least', values=mappingproxy({}))"
    }


def test_a_course_that_another_product_wants_is_missed() -> None:
    on = ground(accent=(Accent(material="sample", courses=(40,)),))
    choices = settled(on, sample(on))
    (found,) = preview(on, choices).broken
    assert found.key == "cutting.no-course"
    # That takes the pieces to see.
    assert glance(on, choices).broken == ()


def sample(on: Ground) -> Layout:
    return preview(on, first_of(ground())).layout
