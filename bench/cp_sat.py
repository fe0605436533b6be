"""Boxes placed freely in a row of sheets by OR-tools' CP-SAT: `python -m bench.cp_sat` on a row.

A program of its own, fed and read as JSON: the library carries a copy of the solver that our plan
uses too, and the two cannot be loaded side by side.
"""

import importlib
import json
import os
import sys
from time import perf_counter
from typing import Any


def main() -> None:
    """Read a row, and write the sheets found, the bound and the time. [s]."""
    json.dump(_solved(**json.load(sys.stdin)), sys.stdout)


def _solved(
    *, sheet: list[int], boxes: list[list[int]], hints: list[list[int]], limit: int
) -> dict[str, float | None]:
    sat: Any = importlib.import_module("ortools.sat.python.cp_model")
    start = perf_counter()
    most = 1 + max(x // sheet[0] for x, _ in hints)
    model = sat.CpModel()
    sheets = model.new_int_var(1, most, "sheets")
    across, up = [], []
    for (wide, high), hint in zip(boxes, hints, strict=True):
        spans = [[s * sheet[0], (s + 1) * sheet[0] - wide] for s in range(most)]
        x = model.new_int_var_from_domain(sat.Domain.from_intervals(spans), "")
        y = model.new_int_var(0, sheet[1] - high, "")
        across.append(model.new_fixed_size_interval_var(x, wide, ""))
        up.append(model.new_fixed_size_interval_var(y, high, ""))
        model.add(x + wide <= sheet[0] * sheets)
        model.add_hint(x, hint[0])
        model.add_hint(y, hint[1])
    model.add_no_overlap_2d(across, up)
    model.minimize(sheets)
    solver = sat.CpSolver()
    solver.parameters.max_time_in_seconds = float(limit)
    solver.parameters.num_workers = os.cpu_count() or 1
    solved = solver.solve(model) in {sat.OPTIMAL, sat.FEASIBLE}
    return {
        "sheets": round(solver.objective_value) if solved else None,
        "bound": round(solver.best_objective_bound),
        "took": perf_counter() - start,
    }


if __name__ == "__main__":
    main()
