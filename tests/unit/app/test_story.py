from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from gaugerod.app.story import MOST_LINES, forbidding, tell
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.base.messages import Length, Message, Money
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.document import Accent
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.pipeline import Plan, plan
from gaugerod.core.setout.odds import LimitOdds, Odds
from gaugerod.core.survey.walls import Suspect
from gaugerod.core.takeoff.order import TrimCount
from gaugerod.core.takeoff.reuse import Reuse
from gaugerod.store.shelf import Library

FINDING = Finding(
    rule="r",
    severity="forbid",
    where="B2-1",
    statement="No piece is under 50 mm.",
    advice="Choose another layout.",
    source="common practice",
    edition="",
    sure="common practice, no source",
    length=True,
    value=40.0,
    limit=50.0,
)


@pytest.fixture(scope="module")
def words() -> Catalogue:
    return Library().words(METRIC, currency="USD")


@cache
def made() -> Plan:
    materials = Materials(systems={"sample": sample_system()})
    rules = Rules(format=1, unit="mm", rule=())
    return plan(sample_job(), materials, rules, sample_rates())


def test_a_story_holds_what_was_decided(words: Catalogue) -> None:
    story = tell(made(), words)
    text = "\n".join(story)
    assert len(story) <= MOST_LINES
    assert story[0] == "Sample alcove. Invented."
    order = made().order
    for part in (
        f"Readings: {len(made().walls.readings)};",
        "The survey may be cut from.",
        words.show(Length(-made().layout.walls[0].field.deck_low)),
        "L, B, R",
        f"Pieces: {len(made().pieces)},",
        f"Buy {order.boxes} boxes of modules: {order.modules} modules to cut from + ",
        words.show(Money(made().price.price)),
        f"{made().days.no_water_until:%Y-%m-%d %H:%M}",
        "forbid cutting: 0",
    ):
        assert part in text


def test_one_box_is_one_and_none_is_said(words: Catalogue) -> None:
    order = made().order
    (modules,) = (line for line in order.lines if line.id == "modules")
    one = replace(order, lines=(replace(modules, count=1),))
    assert any(
        line.startswith("Buy 1 box of modules: ")
        for line in tell(replace(made(), order=one), words)
    )
    none = replace(made(), order=replace(order, lines=()))
    assert "No modules to buy: offcuts give every piece." in tell(none, words)


def test_the_order_is_told_line_by_line(words: Catalogue) -> None:
    lines = made().order.lines
    story = tell(made(), words)
    glue = next(line for line in lines if line.id == "adhesive")
    assert f"  {glue.count} cartridges: Adhesive. {words.say(glue.arithmetic)}" in story
    one = replace(glue, count=1)
    told = tell(replace(made(), order=replace(made().order, lines=(one,))), words)
    assert any(line.startswith("  1 cartridge: Adhesive.") for line in told)


@pytest.mark.parametrize(("count", "told", "more"), [(8, 8, 0), (9, 7, 2), (30, 7, 23)])
def test_a_long_order_is_cut_short(words: Catalogue, count: int, told: int, more: int) -> None:
    glue = next(line for line in made().order.lines if line.id == "adhesive")
    story = tell(replace(made(), order=replace(made().order, lines=(glue,) * count)), words)
    assert sum(line.startswith(f"  {glue.count} cartridges") for line in story) == told
    assert any(line == f"  and {more} more on the order." for line in story) == (more > 0)


def test_each_pick_is_told_and_the_chosen_one_marked(words: Catalogue) -> None:
    story = tell(made(), words)
    told = [line for line in story if line.startswith(("Chosen", "Also offered"))]
    picks = [option.picks for option in made().options.options if option.picks]
    assert len(told) == len(picks)
    assert sum(line.startswith("Chosen") for line in told) == 1


def test_the_limit_least_sure_of_the_chosen_layout_is_told(words: Catalogue) -> None:
    weak = (
        LimitOdds(limit="under-least", wall="B", chance=0.97),
        LimitOdds(limit="joint-at-hole", wall="L", chance=0.8125),
    )
    unsure = replace(made().chosen, odds=Odds(chance=0.79, limits=weak, ends=()))
    story = tell(replace(made(), chosen=unsure), words)
    (told,) = [line for line in story if line.startswith("Least sure")]
    # 18.75 in a hundred fail, rounded up.
    assert "on wall L: in 19 cases of 100 a joint would run through a hole" in told
    sure = replace(made().chosen, odds=Odds(chance=1.0, limits=(), ends=()))
    silent = tell(replace(made(), chosen=sure), words)
    assert not any(line.startswith("Least sure") for line in silent)


@pytest.mark.parametrize("limit", ["under-least", "groove-left", "joint-at-hole", "no-lift"])
def test_each_limit_that_may_fail_has_its_words(words: Catalogue, limit: str) -> None:
    weak = (LimitOdds(limit=limit, wall="B", chance=0.5),)
    unsure = replace(made().chosen, odds=Odds(chance=0.5, limits=weak, ends=()))
    assert any(
        f"in 50 cases of 100 {words.text(f'setout.limit-{limit}')}" in line
        for line in tell(replace(made(), chosen=unsure), words)
    )


def test_an_option_that_is_no_pick_is_not_told(words: Catalogue) -> None:
    first, *others = made().options.options
    options = replace(made().options, options=(replace(first, picks=()), *others))
    before, after = tell(made(), words), tell(replace(made(), options=options), words)
    assert len(after) == len(before) - 1


def test_what_forbids_cutting_is_told_in_full(words: Catalogue) -> None:
    caution = replace(FINDING, severity="caution", statement="Wear goggles.", rule="safe-eyes")
    warn = replace(FINDING, severity="warn", statement="It leans.", where="")
    plan = replace(made(), findings=(FINDING, caution, warn))
    story = tell(plan, words)
    assert forbidding(plan) == (FINDING,)
    (head,) = [line for line in story if line.startswith("Checks:")]
    assert head.startswith(
        "Checks: findings that forbid cutting: 1; warnings: 1; open questions: 0; cautions: 1."
    )
    assert head.endswith("The code of the place and the makers' sheets stand above them.")
    assert [line for line in story if "B2-1" in line] == [
        "Do not cut yet. Not met at B2-1: No piece is under 50 mm. Choose another layout."
    ]
    assert "Look: It leans." in story
    assert "Take care, as the cover says: safe eyes." in story
    assert not any("goggles" in line for line in story)


def test_a_warning_in_several_places_takes_one_line(words: Catalogue) -> None:
    warn = replace(FINDING, severity="warn", statement="It leans.")
    story = tell(replace(made(), findings=(warn, replace(warn, where="R1-1"))), words)
    assert "Look at B2-1, R1-1. It leans." in story


def test_questions_and_lines_to_tick_are_named_not_told(words: Catalogue) -> None:
    ask = replace(FINDING, severity="ask", rule="hot-limit", statement="How hot?", gate="hand-over")
    tick = replace(ask, severity="tick", rule="layout-signed")
    story = tell(replace(made(), findings=(ask, ask, tick)), words)
    assert "Not answered yet, and on the gate list: hot limit." in story
    assert not any("layout signed" in line or "How hot" in line for line in story)


def test_a_likely_slip_and_what_decides_are_told(words: Catalogue) -> None:
    swapped = Message("survey.slip-swapped", one="B deck 1", other="B deck 2")
    decide = Message("survey.decide", readings="B hole 2", take="B hole 1")
    suspects = (
        Suspect(readings=("B deck 1", "B deck 2"), w=5.0, guess=swapped),
        Suspect(readings=("B hole 1", "B hole 2"), w=4.0, guess=None, decide=decide),
    )
    note = Message("survey.unchecked")
    take = Message("survey.take-lean-left", wall="B")
    walls = replace(made().walls, suspects=suspects, notes=(note,), take=(take,))
    story = tell(replace(made(), walls=walls), words)
    assert "B deck 1 and B deck 2 fit if they change places: written the wrong way round?" in story
    assert words.say(decide) in story
    assert words.say(note) in story
    assert "Next reading to take: Wall B: read how far the left edge leans." in story


def test_a_finding_on_the_whole_job_names_no_place(words: Catalogue) -> None:
    story = tell(replace(made(), findings=(replace(FINDING, where=""),)), words)
    assert "Do not cut yet. No piece is under 50 mm. Choose another layout." in story


@pytest.mark.parametrize(
    ("proven", "part"), [(True, "the fewest possible"), (False, "fewer than 3 cannot do")]
)
def test_a_count_of_modules_says_whether_it_is_proven(
    words: Catalogue, proven: bool, part: str
) -> None:
    cuts = replace(made().cuts, proven=proven, lower_bound=3)
    assert any(part in line for line in tell(replace(made(), cuts=cuts), words))


def test_a_long_story_ends_with_the_screen(words: Catalogue) -> None:
    reasons = made().layout.reasons * 20
    layout = replace(made().layout, reasons=reasons)
    walls = replace(made().walls, reasons=(Message("job.no-readings"),) * 20)
    story = tell(replace(made(), layout=layout, walls=walls, findings=(FINDING,) * 20), words)
    assert len(story) <= MOST_LINES


def test_the_story_says_how_sure_it_is_of_the_trims(words: Catalogue) -> None:
    def said(*counts: TrimCount) -> str:
        order = replace(made().order, trim_counts=counts)
        lines = [line for line in tell(replace(made(), order=order), words) if "Trims" in line]
        return "\n".join(lines)

    edge = TrimCount(trim="edge", lengths=2, lower_bound=2, proven=True)
    top = TrimCount(trim="top", lengths=4, lower_bound=3, proven=False)
    assert said() == ""
    assert said(edge) == (
        "Trims: 2 lengths, the fewest possible with their joints where they are (proven)."
    )
    assert said(edge, top).startswith("Trims: 6 lengths; fewer than 5 cannot do.")


def test_what_reuse_saves_is_told_where_it_saves(words: Catalogue) -> None:
    by_hand = replace(made(), reuse=(Reuse(alone=90, edgeless=2, saved=31800),))
    text = "\n".join(tell(by_hand, words))
    assert "it would be 90 modules, not" in text
    assert "$318.00" in text
    assert "would claim 2 modules" in text
    none = replace(made(), reuse=(Reuse(alone=made().cuts.modules, edgeless=99, saved=0),))
    assert "would claim" not in "\n".join(tell(none, words))
    assert "it would be" not in "\n".join(tell(none, words))


def test_each_day_of_work_is_a_line(words: Catalogue) -> None:
    # 35 pieces at a quarter of an hour from Monday at eight, the day closing at half past four.
    days = [line for line in tell(made(), words) if ":00–" in line]
    assert days == [
        "Mon 2 Mar, 08:00–16:30: Set",
        "Tue 3 Mar, 08:00–08:15: Set",
    ]


def test_the_story_says_by_when_to_order(words: Catalogue) -> None:
    assert not any("Order by" in line for line in tell(made(), words))
    due = replace(made().days, order_by=date(2026, 2, 20))
    assert "Order by 2026-02-20: it must be on site when it is needed, 2026-03-02 08:00." in tell(
        replace(made(), days=due), words
    )


def test_the_story_says_what_was_begun_too_soon(words: Catalogue) -> None:
    note = Message("works.too-soon", task="Seal", before="Set")
    told = tell(replace(made(), days=replace(made().days, notes=(note,))), words)
    assert words.say(note) in told


# --- several products ---------------------------------------------------------------------------


@cache
def banded(colours: int) -> Plan:
    """The sample alcove with so many colours besides, each on a row of its own."""
    main = sample_system()
    others = {
        f"c{number}": main.model_copy(update={"id": f"c{number}", "name": f"Colour {number}"})
        for number in range(1, colours + 1)
    }
    rows = [
        {"material": name, "courses": [1 + place % 5], "walls": ["LBR"[place // 5]]}
        for place, name in enumerate(others)
    ]
    job = sample_job()
    accent = tuple(map(Accent.model_validate, rows))
    choices = job.choices.model_copy(update={"accent": accent})
    return plan(
        job.model_copy(update={"choices": choices}),
        Materials(systems={"sample": main} | others),
        Rules(format=1, unit="mm", rule=()),
        sample_rates(),
    )


def test_each_product_is_told_by_its_name(words: Catalogue) -> None:
    made = banded(2)
    story = tell(made, words)
    assert "Besides: Colour 1 (X), course 1 of wall L." in story
    assert "Besides: Colour 2 (Y), course 2 of wall L." in story
    for count, order in zip(made.cuts.counts, made.order.products, strict=True):
        name = made.products.of(count.product).name
        assert any(line.startswith(f"{name}: The pieces come from") for line in story)
        bought = f"{name}: Buy {order.boxes} box"
        assert any(f"of modules: {order.modules} modules to cut from" in line for line in story)
        assert any(line.startswith(bought) for line in story)
    # Their boxes are not told again among the rest of the order.
    assert not [line for line in story if line.startswith("  ") and "Colour" in line]


def test_a_colour_for_every_row_does_not_cut_the_days_off(words: Catalogue) -> None:
    story = tell(banded(15), words)
    assert len(story) < MOST_LINES
    assert [line for line in story if ":00–" in line]
