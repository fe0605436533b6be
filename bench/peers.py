"""Sheets by general-purpose libraries of open source, where they are installed.

None is a dependency: `pip install rectpack ortools packingsolver` into an environment of its own.
"""

import importlib
import os
from collections.abc import Callable, Iterator, Mapping
from importlib.util import find_spec
from itertools import product
from time import perf_counter
from types import MappingProxyType
from typing import Any

from bench.published import Found, Published
from gaugerod.core.cutting.fewest import at_once
from gaugerod.core.cutting.rooms import leaves, whole

Boxes = list[tuple[int, int]]

_RULES = ("Bssf", "Blsf", "Baf")
_SPLITS = ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
_SORTS = ("SORT_AREA", "SORT_PERI", "SORT_SSIDE", "SORT_LSIDE", "SORT_RATIO")
_BINS = ("BFF", "BBF")


def here() -> Iterator[tuple[str, Callable[[Published, int], Found]]]:
    """Yield the peers that this Python can import."""
    for name, (module, call) in PEERS.items():
        if find_spec(module):
            yield name, call


def missing() -> list[str]:
    """Return the peers that it cannot."""
    return [name for name, (module, _) in PEERS.items() if not find_spec(module)]


def _boxes(one: Published) -> Boxes:
    return [
        (kind.width, kind.height)
        for kind, count in zip(one.room.kinds, one.room.demand, strict=True)
        for _ in range(count)
    ]


def by_rectpack(one: Published, _limit: int) -> Found:
    """Take the best of all settings of rectpack's guillotine packing: they all end soon."""
    pack: Any = importlib.import_module("rectpack")
    boxes, start, best = _boxes(one), perf_counter(), len(_boxes(one))
    for rule, split, sort, bins in product(_RULES, _SPLITS, _SORTS, _BINS):
        packer = pack.newPacker(
            mode=pack.PackingMode.Offline,
            bin_algo=getattr(pack.PackingBin, bins),
            pack_algo=getattr(pack, f"Guillotine{rule}{split}"),
            sort_algo=getattr(pack, sort),
            rotation=False,
        )
        for box in boxes:
            packer.add_rect(*box)
        packer.add_bin(one.room.width, one.room.height, count=len(boxes))
        packer.pack()
        if len(packer.rect_list()) == len(boxes):
            best = min(best, len(packer))
    return Found(sheets=best, bound=0, took=perf_counter() - start)


def by_cp_sat(one: Published, limit: int) -> Found:
    """Place boxes freely in a row of sheets with OR-tools' CP-SAT, from our plan at once on.

    It need not be cut: without that rule it may do with fewer sheets than any guillotine cuts.
    """
    sat: Any = importlib.import_module("ortools.sat.python.cp_model")
    room, boxes, start = one.room, _boxes(one), perf_counter()
    hints = _hints(one)
    most = 1 + max(x // room.width for places in hints.values() for x, _ in places)
    model = sat.CpModel()
    sheets = model.new_int_var(1, most, "sheets")
    across, up = [], []
    for place, (wide, high) in enumerate(boxes):
        spans = [[s * room.width, (s + 1) * room.width - wide] for s in range(most)]
        x = model.new_int_var_from_domain(sat.Domain.from_intervals(spans), f"x{place}")
        y = model.new_int_var(0, room.height - high, f"y{place}")
        across.append(model.new_fixed_size_interval_var(x, wide, f"w{place}"))
        up.append(model.new_fixed_size_interval_var(y, high, f"h{place}"))
        model.add(x + wide <= room.width * sheets)
        hint = hints[wide, high].pop()
        model.add_hint(x, hint[0])
        model.add_hint(y, hint[1])
    model.add_no_overlap_2d(across, up)
    model.minimize(sheets)
    solver = sat.CpSolver()
    solver.parameters.max_time_in_seconds = float(limit)
    solver.parameters.num_workers = os.cpu_count() or 1
    status = solver.solve(model)
    solved = status in {sat.OPTIMAL, sat.FEASIBLE}
    return Found(
        sheets=round(solver.objective_value) if solved else None,
        bound=round(solver.best_objective_bound),
        took=perf_counter() - start,
    )


def _hints(one: Published) -> dict[tuple[int, int], Boxes]:
    """Return where the plan at once has the boxes of each size, its sheets in a row."""
    room, found = one.room, at_once(one.room)
    hints: dict[tuple[int, int], Boxes] = {}
    for sheet, (tree, kinds) in enumerate(zip(found.trees, found.kinds, strict=True)):
        parts = [part for leaf, part in leaves(tree, whole(room), 0) if leaf]
        for part, number in zip(parts, kinds, strict=True):
            if number is not None:
                kind = room.kinds[number]
                at = sheet * room.width + part.left, part.bottom
                hints.setdefault((kind.width, kind.height), []).append(at)
    return hints


def by_packingsolver(one: Published, limit: int) -> Found:
    """Cut with packingsolver, any number of stages."""
    solver: Any = importlib.import_module("packingsolver.rectangleguillotine")
    build, start = solver.InstanceBuilder(), perf_counter()
    build.set_objective(solver.Objective.BinPacking)
    build.set_number_of_stages_unlimited()
    sheet = build.add_bin_type(one.room.width, one.room.height)
    build.set_bin_type_copies(sheet, sum(one.room.demand))
    for kind, count in zip(one.room.kinds, one.room.demand, strict=True):
        number = build.add_item_type(kind.width, kind.height, oriented=True)
        build.set_item_type_copies(number, count)
    parameters = solver.OptimizeParameters()
    parameters.verbosity_level = 0
    parameters.time_limit = float(limit)
    output = solver.optimize(build.build(), parameters)
    done = output.solution.full()
    return Found(
        sheets=output.solution.number_of_bins() if done else None,
        bound=output.bin_packing_bound,
        took=perf_counter() - start,
    )


PEERS: Mapping[str, tuple[str, Callable[[Published, int], Found]]] = MappingProxyType(
    {
        "rectpack": ("rectpack", by_rectpack),
        "CP-SAT": ("ortools", by_cp_sat),
        "packingsolver": ("packingsolver", by_packingsolver),
    }
)
