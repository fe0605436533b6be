"""Boxes in whole units as pieces of a wall, and a material with modules to cut them from."""

from collections.abc import Sequence
from dataclasses import dataclass

from tests.checkers.cut_plan import SIDES, Want, faults
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

    A box that keeps an edge lies there in its own module, else at the right and at the top;
    `grooved` modules have a groove at their left and bottom, of one unit.
    """

    size: tuple[int, int]
    kerf: int
    wants: tuple[Want, ...]
    half_turn: bool = False
    grooved: bool = False
    unit: float = SIXTEENTH

    @property
    def system(self) -> System:
        """The material."""
        width, height = (length * self.unit for length in self.size)
        plain = grouted(face=(width, height), joint=3.0, kerf=self.kerf * self.unit, gap=3.0)
        cutting = {"half_turn": self.half_turn, "groove_off": self.unit * self.grooved}
        changes: dict[str, object] = {
            "unit": "in" if self.unit == SIXTEENTH else "mm",
            "cutting": plain.cutting.model_copy(update=cutting),
        }
        if self.grooved:
            changes["edges"] = sample_system().edges
        return plain.model_copy(update=changes)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """One for each box, where it lay in a module of its own."""
        return tuple(self._piece(number, want) for number, want in enumerate(self.wants))

    @property
    def grooveless(self) -> dict[str, set[Side]]:
        """Where a box lies off the groove in its own module, and may have none in any."""
        return {
            piece.tag: {s for s in ("left", "bottom") if getattr(piece.within, s) > self.unit / 2}
            for piece in self.pieces
            if self.grooved
        }

    def _piece(self, number: int, want: Want) -> Piece:
        face = self.size[0] * self.unit, self.size[1] * self.unit
        wide, high = want.width * self.unit, want.height * self.unit
        left = 0.0 if "left" in want.keeps else face[0] - wide
        bottom = 0.0 if "bottom" in want.keeps else face[1] - high
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
