"""The fewest modules that hold boxes, wherever each lies: a second opinion, blind to cuts.

A program of its own: rooms come in as JSON, placings go out. Its solver brings another build of
a library that the planner's solver brings too, and one process can load only one of them.
"""

import json
import sys
from typing import Any, TypeAlias

from ortools.sat.python import cp_model

Room: TypeAlias = dict[str, Any]
"""Size, kerf, `half_turn`, and boxes as [width, height, first letters of the edges kept]."""
LIMIT = 2.0
"""Work on one room, by the solver's own count, which is the same on every machine."""


def placed(room: Room) -> Room:
    """Place the boxes of a room: how few modules, whether proven, and where each box lies."""
    (wide, high), kerf, boxes = room["size"], room["kerf"], room["boxes"]
    model = cp_model.CpModel()
    modules, spots, across, up = [], [], [], []
    for number, (width, height, letters) in enumerate(boxes):
        # Modules are alike: a box lies in the first or in one opened for those before it.
        module = model.new_int_var(0, number, "")
        x = model.new_int_var(0, wide - width, "")
        y = model.new_int_var(0, high - height, "")
        turned = model.new_bool_var("")
        if not room["half_turn"]:
            model.add(turned == 0)
        ends = {"L": (x, 0), "R": (x, wide - width), "B": (y, 0), "T": (y, high - height)}
        for letter, other in zip("LRBT", "RLTB", strict=True):
            if letter in letters:
                spot, end = ends[letter]
                model.add(spot == end).only_enforce_if(~turned)
                spot, end = ends[other]
                model.add(spot == end).only_enforce_if(turned)
        # All modules in a row, a kerf apart.
        start = model.new_int_var(0, (wide + kerf) * len(boxes), "")
        model.add(start == x + (wide + kerf) * module)
        across.append(model.new_fixed_size_interval_var(start, width + kerf, ""))
        up.append(model.new_fixed_size_interval_var(y, height + kerf, ""))
        modules.append(module)
        spots.append((module, x, y))
    model.add_no_overlap_2d(across, up)
    last = model.new_int_var(0, len(boxes) - 1, "")
    model.add_max_equality(last, modules)
    model.minimize(last)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = LIMIT
    status = solver.solve(model)
    return {
        "modules": round(solver.objective_value) + 1,
        "least": round(solver.best_objective_bound) + 1,
        "proven": status == cp_model.OPTIMAL,
        "spots": [[solver.value(value) for value in spot] for spot in spots],
    }


if __name__ == "__main__":
    json.dump([placed(room) for room in json.load(sys.stdin)], sys.stdout)
