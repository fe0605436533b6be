from collections.abc import Iterable
from dataclasses import replace

from tests.blocks import tables_of

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.checks.finding import Finding
from gaugerod.core.pipeline import Plan
from gaugerod.packet.closing import change_order, days, gates, materials
from gaugerod.packet.paper import Block, Checklist, Columns, Form, PageBreak, Table


def table(blocks: Iterable[Block]) -> Table:
    (found,) = tables_of(blocks)
    return found


def test_materials_are_counted_with_room_for_the_lot(keyed: Plan, inches: Catalogue) -> None:
    rows = table(list(materials(keyed, inches))).rows
    assert [row[0] for row in rows] == [line.name for line in keyed.order.lines]
    assert rows[0][1:] == (f"{keyed.order.boxes} boxes", "")


def test_what_is_on_hand_is_named_but_not_counted(keyed: Plan, inches: Catalogue) -> None:
    """The demo has three hole saws left from the last job and needs no more."""
    counts = {row[0]: row[1] for row in table(materials(keyed, inches)).rows}
    assert counts["Hole saw, one of each diameter"] == "on hand"
    assert not any(count.startswith("0 ") for count in counts.values())


def test_days_say_how_long_hands_stay_off(keyed: Plan, inches: Catalogue) -> None:
    rows = table(list(days(keyed, inches))).rows
    held = {row[0] for row in rows if row[4] != "–"}
    assert held == {task.name for task in keyed.days.tasks if task.hold_minutes}


def test_days_say_who_is_on_site(keyed: Plan, inches: Catalogue) -> None:
    told = {row[0]: row[1] for row in table(list(days(keyed, inches))).rows}
    assert told["Demo to the studs"] == "setter, helper"
    assert told["Rough-in inspection"] == "inspector"


def checklists_of(plan: Plan, words: Catalogue) -> list[Checklist]:
    (columns,) = [block for block in gates(plan, words) if isinstance(block, Columns)]
    return [block for block in columns.blocks if isinstance(block, Checklist)]


def test_every_gate_has_something_to_tick(keyed: Plan, inches: Catalogue) -> None:
    checklists = checklists_of(keyed, inches)
    assert [check.title for check in checklists][:2] == [
        "Before strip-out",
        "Before the wall is closed",
    ]
    assert all(check.items for check in checklists)


def gate_of(plan: Plan, words: Catalogue, title: str) -> tuple[str, ...]:
    (found,) = [check.items for check in checklists_of(plan, words) if check.title == title]
    return found


def test_a_gate_holds_what_to_settle_then_what_to_answer_then_what_to_tick(
    keyed: Plan, inches: Catalogue
) -> None:
    tick = Finding(
        rule="one-lot",
        severity="tick",
        where="",
        statement="One lot",
        advice="Send it back.",
        source="common practice",
        edition="",
        sure="common practice, no source",
        length=False,
        value=None,
        limit=None,
        gate="cut",
    )
    ask = replace(tick, rule="glass", severity="ask", where="B window", statement="Is it marked?")
    how = replace(ask, rule="size", where="", statement="How wide?")
    small = replace(tick, rule="half-module", severity="warn", where="L6-2")
    other = replace(small, where="R6-1")
    fall = replace(small, rule="deck-fall", where="")
    free = replace(small, rule="looks", gate=None)
    caution = replace(tick, rule="eyes", severity="caution")
    plan = replace(keyed, findings=(small, other, fall, free, ask, how, caution, tick))
    assert gate_of(plan, inches, "Before the first cut") == (
        "Seen to: half module (L6-2, R6-1)",
        "Seen to: deck fall",
        "B window: Is it marked? ________",
        "How wide? ________",
        "One lot",
    )
    assert len(checklists_of(plan, inches)) == 1


def test_each_kind_of_lining_has_its_own_lines_before_the_next_wall(
    keyed: Plan, tiled: Plan, inches: Catalogue
) -> None:
    title = "Before the next wall"
    assert any("keys home" in line for line in gate_of(keyed, inches, title))
    assert any("95 % covered" in line for line in gate_of(tiled, inches, title))


def test_gates_stand_in_the_order_of_the_work(keyed: Plan, inches: Catalogue) -> None:
    assert [check.title for check in checklists_of(keyed, inches)] == [
        "Before strip-out",
        "Before the wall is closed",
        "Before setting out",
        "Before the first cut",
        "Before each hole",
        "Before glue or mortar",
        "Before the next wall",
        "Before sealing or grouting",
        "Before water runs",
        "Before hand-over",
    ]


def test_a_change_order_has_a_sheet_of_its_own(inches: Catalogue) -> None:
    first, *_, form = change_order(inches)
    assert isinstance(first, PageBreak)
    assert isinstance(form, Form)
    assert ("Agreed, the customer", 1) in form.fields
