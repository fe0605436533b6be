from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.packet.closing import change_order, days, gates, materials
from gaugerod.packet.paper import Checklist, Columns, Form, PageBreak, Paragraph, Table


def table(blocks: list[object]) -> Table:
    (found,) = [block for block in blocks if isinstance(block, Table)]
    return found


def test_materials_are_counted_with_room_for_the_lot(keyed: Plan, inches: Catalogue) -> None:
    rows = table(list(materials(keyed, inches))).rows
    assert [row[0] for row in rows] == [line.name for line in keyed.order.lines]
    assert rows[0][1:] == (f"{keyed.order.boxes} boxes", "")


def test_days_say_how_long_hands_stay_off(keyed: Plan, inches: Catalogue) -> None:
    rows = table(list(days(keyed, inches))).rows
    held = {row[0] for row in rows if row[4] != "–"}
    assert held == {task.name for task in keyed.days.tasks if task.hold_minutes}


def test_days_say_who_is_on_site(keyed: Plan, inches: Catalogue) -> None:
    told = {row[0]: row[1] for row in table(list(days(keyed, inches))).rows}
    assert told["Demo to the studs"] == "setter, helper"
    assert told["Rough-in inspection"] == "inspector"


def test_days_end_with_the_water(keyed: Plan, inches: Catalogue) -> None:
    last = list(days(keyed, inches))[-1]
    assert isinstance(last, Paragraph)
    assert last.text.startswith("NO WATER until ")


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


def test_sheets_are_braced_before_the_next_wall(keyed: Plan, inches: Catalogue) -> None:
    system = keyed.system.model_copy(update={"kind": "sheet"})
    before = {check.title: check.items for check in checklists_of(keyed, inches)}
    sheets = {
        check.title: check.items for check in checklists_of(replace(keyed, system=system), inches)
    }
    assert list(sheets) == list(before)
    differ = {title for title, items in sheets.items() if items != before[title]}
    assert differ == {"Before the next wall"}
    assert sheets["Before the next wall"][1].startswith("Braced")


def test_a_change_order_has_a_sheet_of_its_own(inches: Catalogue) -> None:
    first, *_, form = change_order(inches)
    assert isinstance(first, PageBreak)
    assert isinstance(form, Form)
    assert ("Agreed, the customer", 1) in form.fields
