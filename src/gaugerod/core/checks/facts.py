"""What the checks look at, and what they find when they measure it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf
from typing import TypeAlias

from gaugerod.core.cutting.pieces import CutPlan, Inside, Piece
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.order import Order
from gaugerod.core.works.days import Days


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Everything that is known of one alcove once it is planned.

    `others` are products that stand here and there instead of `system`.
    """

    job: Job
    walls: Walls
    layout: Layout
    pieces: tuple[Piece, ...]
    cuts: CutPlan
    order: Order
    days: Days
    system: System
    insides: tuple[Inside, ...] = ()
    others: tuple[System, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One thing measured: a length in [mm] or a plain number in `unit`, and where.

    `where` is empty for the whole job. An answer in words is `word`; with neither a value nor
    a word nobody has answered yet. With `against` the value is a length and the rule's
    number a share of it. [mm]. `side` is the side of the module that decides whether a rule
    for large modules applies, `size` another length that decides likewise. [mm]. `area` does
    so too. [m2].
    """

    where: str = ""
    value: float | None = 1.0
    word: str = ""
    unit: str = ""
    against: float | None = None
    side: float = inf
    size: float = inf
    area: float = inf


Measure: TypeAlias = Callable[[Facts], Sequence[Measured]]
