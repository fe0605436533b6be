"""Boxes in whole units as pieces of a wall, and a material with modules to cut them from."""

from collections.abc import Sequence
from dataclasses import dataclass

from tests.checkers.cut_plan import OPPOSITE, SIDES, Want, faults
from tests.property.alcoves import grouted

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.cutting.pieces import CutPlan, Piece
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_system

SIXTEENTH = 25.4 / 16
"""One unit of the boxes, unless said. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Boxes:
    """Boxes to cut from modules of a size with a kerf, all in units of `unit`. [mm].

    With a `groove` modules have one at their left and bottom, so deep, or with `far` at their
    right and top. In a module of its own a box lies away from them, if it keeps no edge there.
    """

    size: tuple[int, int]
    kerf: int
    wants: tuple[Want, ...]
    half_turn: bool = False
    groove: int = 0
    far: bool = False
    unit: float = SIXTEENTH

    @property
    def system(self) -> System:
        """The material."""
        width, height = (length * self.unit for length in self.size)
        plain = grouted(face=(width, height), joint=3.0, kerf=self.kerf * self.unit, gap=3.0)
        cutting = {"half_turn": self.half_turn, "groove_off": self.unit * self.groove}
        changes: dict[str, object] = {
            "unit": "in" if self.unit == SIXTEENTH else "mm",
            "cutting": plain.cutting.model_copy(update=cutting),
        }
        if self.groove:
            edges = sample_system().edges
            swapped = {str(side): edges[OPPOSITE[side]] for side in SIDES}
            changes["edges"] = edges.model_copy(update=swapped) if self.far else edges
        return plain.model_copy(update=changes)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """One for each box, where it lay in a module of its own."""
        return tuple(self._piece(number, want) for number, want in enumerate(self.wants))

    @property
    def grooveless(self) -> dict[str, set[Side]]:
        """Where a box lies off the groove in its own module, and may have none in any."""
        off = (self.groove - 0.5) * self.unit
        width, height = (length * self.unit for length in self.size)
        bare: dict[str, set[Side]] = {}
        for piece in self.pieces if self.groove else ():
            box = piece.within
            away: dict[Side, float] = {"left": box.left, "bottom": box.bottom}
            if self.far:
                away = {"right": width - box.right, "top": height - box.top}
            bare[piece.tag] = {side for side, free in away.items() if free > off}
        return bare

    def _piece(self, number: int, want: Want) -> Piece:
        face = self.size[0] * self.unit, self.size[1] * self.unit
        wide, high = want.width * self.unit, want.height * self.unit
        right, top = face[0] - wide, face[1] - high
        left = right if "left" not in want.keeps else 0.0
        bottom = top if "bottom" not in want.keeps else 0.0
        if self.far:
            left = 0.0 if "right" not in want.keeps else right
            bottom = 0.0 if "top" not in want.keeps else top
        box = Box(left=left, bottom=bottom, right=left + wide, top=bottom + high)
        ring = ((left, bottom), (box.right, bottom), (box.right, box.top), (left, box.top))
        return Piece(
            tag=f"B1-{number}",
            wall="B",
            course=1,
            place=number,
            product="tile",
            turn=0,
            face=face,
            region=Region(rings=(ring,)),
            cell=Box(left=0.0, bottom=0.0, right=face[0], top=face[1]),
            within=box,
            whole=False,
            edges=(),
            keeps=tuple(side for side in SIDES if side in want.keeps),
            holes=(),
            marks=(),
            measure_in_place=False,
        )


def planned(boxes: Boxes, *, proven: bool = True) -> CutPlan:
    """Plan the cuts, and see to it that nothing is wrong with them."""
    pieces, system = boxes.pieces, boxes.system
    plan = plan_cuts(pieces, system, proven=proven)
    assert faults(plan, pieces, system, boxes.grooveless) == []
    return plan


def listed(rows: Sequence[tuple[int, int, str, int]]) -> tuple[Want, ...]:
    """Boxes given as width, height, the first letters of the edges kept, and how many."""
    return tuple(
        Want(width, height, frozenset(side for side in SIDES if side[0].upper() in letters))
        for width, height, letters, count in rows
        for _ in range(count)
    )
