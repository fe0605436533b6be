"""Sheets by general-purpose libraries of open source, where they are installed.

None is a dependency: `pip install rectpack ortools packingsolver` into an environment of its own.
"""

import importlib
import json
import subprocess
import sys
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
    places = list(_places(one))
    asked = {
        "sheet": [one.room.width, one.room.height],
        "boxes": [box for box, _ in places],
        "hints": [at for _, at in places],
        "limit": limit,
    }
    answer = subprocess.run(
        [sys.executable, "-m", "bench.cp_sat"],
        input=json.dumps(asked),
        capture_output=True,
        text=True,
        check=True,
    )
    return Found(**json.loads(answer.stdout))


def _places(one: Published) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    """Yield each box and where the plan at once has it, its sheets in a row."""
    room, found = one.room, at_once(one.room)
    for sheet, (tree, kinds) in enumerate(zip(found.trees, found.kinds, strict=True)):
        parts = [part for leaf, part in leaves(tree, whole(room), 0) if leaf]
        for part, number in zip(parts, kinds, strict=True):
            if number is not None:
                kind = room.kinds[number]
                yield (kind.width, kind.height), (sheet * room.width + part.left, part.bottom)


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
