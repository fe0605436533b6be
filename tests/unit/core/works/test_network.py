import pytest
from tests.laid_by_hand import grouted, keyed
from tests.shop_by_hand import ordered, shop, timed

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.calendar import Room
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.takeoff.order import Order
from gaugerod.core.works.network import Activity, network


def made(
    table: RateTable, *, order: Order | None = None, system: System | None = None, **minutes: int
) -> dict[str, Activity]:
    return network(order or ordered(), timed(**minutes), system or keyed(), table)


def test_tasks_wait_for_tasks() -> None:
    table = shop({"id": "a"}, {"id": "b", "after": ["a"]})
    tasks = made(table, a=60, b=30)
    assert [(task.id, task.minutes, task.after) for task in tasks.values()] == [
        ("a", 60, ()),
        ("b", 30, ("a",)),
    ]


def test_the_order_is_that_of_the_table() -> None:
    table = shop({"id": "b", "after": ["a"]}, {"id": "a"})
    assert list(made(table, a=1, b=1)) == ["b", "a"]


def test_a_task_that_is_not_done_hands_on_what_it_waits_for() -> None:
    table = shop(
        {"id": "a"},
        {"id": "b"},
        {"id": "c", "after": ["a", "b"]},
        {"id": "d", "after": ["c", "a"]},
        {"id": "e", "after": ["d"]},
    )
    tasks = made(table, a=1, b=1, e=1)
    assert list(tasks) == ["a", "b", "e"]
    assert tasks["e"].after == ("a", "b")


def test_what_is_waited_for_through_another_is_not_said_again() -> None:
    table = shop(
        {"id": "a"},
        {"id": "b", "after": ["a"]},
        {"id": "c", "after": ["a", "b"]},
        {"id": "d", "after": ["a", "c"]},
    )
    assert made(table, a=1, b=1, c=1, d=1)["d"].after == ("c",)
    assert made(table, a=1, b=1, d=1)["d"].after == ("b",)


@pytest.mark.parametrize(
    ("hold", "minutes"),
    [("none", 0), ("adhesive", 24 * 60), ("sealant", 24 * 60), (0.25, 15), (48, 2880)],
)
def test_holds_of_a_keyed_system(hold: object, minutes: int) -> None:
    table = shop({"id": "a", "hold": hold})
    tasks = made(table, order=ordered("adhesive", "sealant"), a=1)
    assert tasks["a"].hold_minutes == minutes


@pytest.mark.parametrize(("hold", "minutes"), [("mortar", 24 * 60), ("grout", 72 * 60)])
def test_holds_of_a_grouted_system(hold: str, minutes: int) -> None:
    table = shop({"id": "a", "hold": hold})
    tasks = made(table, order=ordered("mortar", "grout"), system=grouted(), a=1)
    assert tasks["a"].hold_minutes == minutes


def test_a_material_that_the_system_lacks_has_no_hold() -> None:
    table = shop({"id": "a", "hold": "mortar"})
    assert made(table, order=ordered("mortar"), a=1)["a"].hold_minutes == 0


def test_a_material_that_is_not_used_has_no_hold() -> None:
    table = shop({"id": "a", "hold": "sealant"})
    assert made(table, order=ordered("adhesive"), a=1)["a"].hold_minutes == 0


def refused(table: RateTable) -> tuple[str, dict[str, object]]:
    with pytest.raises(JobError) as caught:
        made(table, a=1)
    return caught.value.message.key, dict(caught.value.message.values)


def test_an_unknown_task() -> None:
    assert refused(shop({"id": "a", "after": ["z"]})) == (
        "works.unknown-task",
        {"task": "a", "after": "z"},
    )


def test_two_tasks_of_one_name() -> None:
    assert refused(shop({"id": "a"}, {"id": "a"})) == ("works.task-twice", {"task": "a"})


def test_a_circle() -> None:
    key, values = refused(
        shop({"id": "a", "after": ["b"]}, {"id": "b", "after": ["c"]}, {"id": "c", "after": ["a"]})
    )
    assert key == "works.circle"
    circle = str(values["tasks"]).split(" -> ")
    assert circle[0] == circle[-1]
    assert set(circle) == {"a", "b", "c"}


def test_a_task_that_waits_for_itself() -> None:
    assert refused(shop({"id": "a", "after": ["a"]})) == ("works.circle", {"tasks": "a -> a"})


LOOK = {"name": "Rough-in inspection", "hours": 4}


def test_an_inspection_comes_between() -> None:
    table = shop({"id": "a", "hold": 1, "inspection": LOOK}, {"id": "b", "after": ["a"]})
    tasks = made(table, a=60, b=30)
    look = tasks["a-inspection"]
    assert (look.name, look.minutes, look.after) == ("Rough-in inspection", 240, ("a",))
    assert (look.who, look.inspection) == (("inspector",), True)
    assert tasks["b"].after == ("a-inspection",)
    assert not tasks["b"].inspection


def test_what_is_not_done_is_not_inspected() -> None:
    table = shop(
        {"id": "z"}, {"id": "a", "after": ["z"], "inspection": LOOK}, {"id": "b", "after": ["a"]}
    )
    tasks = made(table, z=1, b=30)
    assert list(tasks) == ["z", "b"]
    assert tasks["b"].after == ("z",)


def test_an_inspection_may_have_the_id_of_no_task() -> None:
    table = shop({"id": "a-inspection"}, {"id": "a", "inspection": LOOK})
    assert refused(table) == ("works.task-twice", {"task": "a-inspection"})


def test_who_is_on_site_and_what_needs_the_order() -> None:
    table = shop({"id": "a", "who": ["plumber"], "needs_order": True}, {"id": "b"})
    tasks = made(table, a=1, b=1)
    assert [(task.who, task.needs_order) for task in tasks.values()] == [
        (("plumber",), True),
        (("setter",), False),
    ]


def test_a_cold_room_holds_longer() -> None:
    table = shop({"id": "a", "hold": "adhesive"}, {"id": "b", "hold": 2, "inspection": LOOK})
    tasks = network(
        ordered("adhesive"),
        timed(a=1, b=1),
        keyed(),
        table,
        room=Room.model_validate({"temperature": "12 C"}),
    )
    assert tasks["a"].hold_minutes == 48 * 60
    assert tasks["b"].hold_minutes == 4 * 60
    assert tasks["b-inspection"].minutes == 240  # an inspector is no slower in the cold
