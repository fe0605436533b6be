"""The critical path on published networks, worked without a calendar: any hour, any number.

Sources, each with how sure it is.

- Two networks of activities on arrows with all their times: B. W. Taylor, *Introduction to
  Management Science*, chapter 8, printed solutions 1 and 2, as scanned at
  https://ar.scribd.com/doc/47113515/TaylCh08. Found: duration, earliest start and finish, latest
  start and finish, slack. The second holds a line of no duration.
- A building of fourteen activities: F. S. Hillier and G. J. Lieberman, *Introduction to Operations
  Research*, the Reliable Construction Co. Durations found (all but that of "exterior painting"),
  as copied at https://solutioninn.com/study-help/questions/
  part-b-the-reliable-construction-company-has-just-made-the-14060241; what waits for what, that
  one duration, the 44 weeks and the slacks from memory, recomputed by hand.
- Seven tasks with expected times to a hundredth of a day: the example of the encyclopaedia's
  article on PERT, finish 19.51 days. From memory, recomputed by hand.
"""

import pytest
from tests.networks import activity, since, unbound

# Arrow, duration, earliest start and finish, latest start and finish, slack.
FIRST = """
1-2  7  0  7  2  9  2
1-3 10  0 10  0 10  0
2-4  6  7 13  9 15  2
3-4  5 10 15 10 15  0
3-5  4 10 14 14 18  4
4-5  3 15 18 15 18  0
5-6  2 18 20 18 20  0
"""
SECOND = """
1-2  8  0  8  1  9  1
1-3 10  0 10  0 10  0
1-4  9  0  9  6 15  6
2-5  6  8 14  9 15  1
2-6  4  8 12 16 20  8
3-5  5 10 15 10 15  0
4-5  0  9  9 15 15  6
4-7  7  9 16 20 27 11
5-7 12 15 27 15 27  0
5-8 15 15 30 16 31  1
6-9 18 12 30 20 38  8
7-8  4 27 31 27 31  0
8-9  7 31 38 31 38  0
"""


@pytest.mark.parametrize("table", [FIRST, SECOND], ids=["first", "second"])
def test_activities_on_arrows(table: str) -> None:
    rows = {
        arrow: tuple(map(int, figures))
        for arrow, *figures in (line.split() for line in table.strip().splitlines())
    }
    tasks = {
        arrow: activity(
            arrow,
            rows[arrow][0],
            *(one for one in rows if one.split("-")[1] == arrow.split("-")[0]),
            inspection=True,
        )
        for arrow in rows
    }
    slots, slack = unbound(tasks)
    found = {
        arrow: (
            tasks[arrow].minutes,
            since(slots[arrow].start),
            since(slots[arrow].end),
            since(slots[arrow].start) + slack[arrow].total,
            since(slots[arrow].end) + slack[arrow].total,
            slack[arrow].total,
        )
        for arrow in rows
    }
    assert found == rows


# Activity, weeks, what it waits for, slack.
BUILDING = {
    "A": (2, "", 0),
    "B": (4, "A", 0),
    "C": (10, "B", 0),
    "D": (6, "C", 4),
    "E": (4, "C", 0),
    "F": (5, "E", 0),
    "G": (7, "D", 4),
    "H": (9, "EG", 4),
    "I": (7, "C", 2),
    "J": (8, "FI", 0),
    "K": (4, "J", 1),
    "L": (5, "J", 0),
    "M": (2, "H", 4),
    "N": (6, "KL", 0),
}


def test_a_building_of_fourteen_activities() -> None:
    tasks = {
        id_: activity(id_, weeks, *after, inspection=True)
        for id_, (weeks, after, _) in BUILDING.items()
    }
    slots, slack = unbound(tasks)
    assert max(since(slot.until) for slot in slots.values()) == 44
    assert {id_: one.total for id_, one in slack.items()} == {
        id_: slack for id_, (_, _, slack) in BUILDING.items()
    }
    # By hand: H starts at 29 and M ends at 40, G ends at 29; so of D, G, H and M only M may be
    # late alone. I ends at 23 and J starts at 25; K ends at 37 and N starts at 38.
    assert {id_ for id_, one in slack.items() if one.free} == {"I", "K", "M"}
    assert (slack["I"].free, slack["K"].free, slack["M"].free) == (2, 1, 4)


# Task, hundredths of a day, what it waits for, slack.
EXAMPLE = {
    "a": (400, "", 0),
    "b": (533, "", 384),
    "c": (517, "a", 0),
    "d": (633, "a", 468),
    "e": (517, "bc", 0),
    "f": (450, "d", 468),
    "g": (517, "e", 0),
}


def test_seven_tasks_of_the_encyclopaedia() -> None:
    tasks = {
        id_: activity(id_, time, *after, inspection=True)
        for id_, (time, after, _) in EXAMPLE.items()
    }
    slots, slack = unbound(tasks)
    assert max(since(slot.until) for slot in slots.values()) == 1951
    assert {id_: one.total for id_, one in slack.items()} == {
        id_: slack for id_, (_, _, slack) in EXAMPLE.items()
    }
