"""The fewest modules against three ways to find them that share nothing with the planner."""

import json
import random
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.checkers.boxes import Boxes, planned
from tests.checkers.cut_plan import SIDES, Rect, Want, fewest_modules, full_height, guillotine

from gaugerod.core.job.fields import Side

ROOT = Path(__file__).parents[2]


def lots(seed: int) -> random.Random:
    return random.Random(seed)  # noqa: S311  # lots for a test, not secrets


def drawn(draw: random.Random, *, size: tuple[int, int], most: float) -> Want:
    """A box with edges drawn by lot; what keeps two opposite edges is as long as the module."""
    keeps = frozenset[Side](side for side in SIDES if draw.random() < 0.3)
    width, height = (draw.randint(2, int(side * most)) for side in size)
    return Want(
        size[0] if {"left", "right"} <= keeps else width,
        size[1] if {"bottom", "top"} <= keeps else height,
        keeps,
    )


# --- full courses: matching by sorting ---------------------------------------------------------


def test_full_courses_take_what_matching_by_sorting_says(count: Callable[[int, int], int]) -> None:
    for seed in range(count(60, 300)):
        draw = lots(seed)
        size, kerf = (draw.randint(60, 400), 192), draw.randint(0, 4)
        ends = draw.randint(1, 40), draw.randint(1, 40)
        lefts, rights = ([draw.randint(8, size[0] - 4) for _ in range(n)] for n in ends)
        wants = [Want(w, size[1], frozenset({"left", "bottom", "top"})) for w in lefts]
        wants += [Want(w, size[1], frozenset({"right", "bottom", "top"})) for w in rights]
        plan = planned(Boxes(size=size, kerf=kerf, wants=tuple(wants)))
        fewest = full_height(lefts, rights, width=size[0], kerf=kerf)
        assert (plan.modules, plan.proven) == (fewest, True), seed


# --- small rooms: every way to cut them --------------------------------------------------------


def small(seed: int) -> Boxes:
    """Three to seven boxes, in a part of the rooms with half turns or with grooves to shed."""
    draw = lots(seed)
    size = draw.randint(12, 30), draw.randint(8, 20)
    kind = draw.choice(("plain", "plain", "half turn", "grooved"))
    wants = [drawn(draw, size=size, most=0.7) for _ in range(draw.randint(3, 7))]
    return Boxes(
        size=size,
        kerf=draw.randint(0, 2),
        wants=tuple(wants),
        half_turn=kind == "half turn",
        groove=draw.randint(1, 2) if kind == "grooved" else 0,
        far=draw.random() < 0.5,
    )


def shedding(boxes: Boxes) -> list[Want]:
    """What is wanted, with the grooves that each box must lie clear of."""
    bare = boxes.grooveless
    sheds = [frozenset(bare.get(piece.tag, ())) for piece in boxes.pieces]
    return [
        Want(want.width, want.height, want.keeps, off, boxes.groove * bool(off))
        for want, off in zip(boxes.wants, sheds, strict=True)
    ]


def test_small_rooms_take_what_trying_every_cut_says(count: Callable[[int, int], int]) -> None:
    for seed in range(count(60, 300)):
        boxes = small(seed)
        fewest = fewest_modules(
            shedding(boxes), size=boxes.size, kerf=boxes.kerf, half_turn=boxes.half_turn
        )
        plan = planned(boxes)
        assert (plan.modules, plan.lower_bound) == (fewest, fewest), seed
        quick = planned(boxes, proven=False)
        assert quick.lower_bound <= fewest <= quick.modules, seed


# --- rooms of up to sixteen boxes: wherever they lie -------------------------------------------


def middling(seed: int) -> Boxes:
    draw = lots(seed)
    size = (24, 12)
    wants = [drawn(draw, size=size, most=0.8) for _ in range(draw.randint(8, 16))]
    half_turn = draw.random() < 0.3
    return Boxes(size=size, kerf=draw.randint(0, 2), wants=tuple(wants), half_turn=half_turn)


def placings(rooms: list[Boxes]) -> list[dict[str, Any]]:
    """Ask the solver that places boxes, in a process of its own."""
    asked = [
        {
            "size": room.size,
            "kerf": room.kerf,
            "half_turn": room.half_turn,
            "boxes": [
                (w.width, w.height, "".join(side[0].upper() for side in sorted(w.keeps)))
                for w in room.wants
            ],
        }
        for room in rooms
    ]
    done = subprocess.run(
        [sys.executable, "-m", "tests.checkers.placing"],
        input=json.dumps(asked),
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    answers: list[dict[str, Any]] = json.loads(done.stdout)
    return answers


def can_be_sawn(room: Boxes, spots: list[list[int]]) -> bool:
    """Tell whether straight cuts from edge to edge part the boxes of every module."""
    modules: dict[int, list[Rect]] = {}
    for want, (module, x, y) in zip(room.wants, spots, strict=True):
        box = Rect(x0=x, y0=y, x1=x + want.width, y1=y + want.height)
        modules.setdefault(module, []).append(box)
    return all(guillotine(boxes, room.kerf) for boxes in modules.values())


def test_no_placing_of_boxes_takes_fewer_unless_it_cannot_be_sawn(
    count: Callable[[int, int], int],
) -> None:
    rooms = [middling(seed) for seed in range(count(12, 60))]
    answers = placings(rooms)
    for seed, (room, answer) in enumerate(zip(rooms, answers, strict=True)):
        plan = planned(room)
        assert plan.proven, seed
        assert answer["least"] <= plan.modules, seed
        if can_be_sawn(room, answer["spots"]):
            assert plan.modules <= answer["modules"], seed
    # Few are left open by that solver, and few of its placings cannot be sawn.
    assert sum(answer["proven"] for answer in answers) >= 0.8 * len(rooms)
    sawn = (can_be_sawn(room, a["spots"]) for room, a in zip(rooms, answers, strict=True))
    assert sum(sawn) >= 0.8 * len(rooms)
