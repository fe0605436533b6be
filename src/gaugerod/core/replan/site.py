"""Where the work stands: what hangs, what is cut, and what was found so far."""

from dataclasses import dataclass, field

from gaugerod.core.base.geometry import Point
from gaugerod.core.job.document import Job
from gaugerod.core.replan.line import Line
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.survey.walls import Walls

OFF_KEPT: dict[Meeting, str] = {"runs behind": "corner", "butts": "butt", "open": "front"}
"""The gap that the last module keeps from what it closes on, by how the wall meets it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The state of the work on one alcove.

    `lines` are the lines found off on each wall, the lowest first; `rims` are the heights at
    which an end of a wall was found off, and how far to the right. [mm]. `walls` are as
    surveyed, with the readings of `job`; ends that were found off are not in them. `broken` are
    modules of the main product, `broken_of` those of others by its id.
    """

    job: Job
    walls: Walls
    done: frozenset[str] = frozenset()
    cut: frozenset[str] = frozenset()
    broken: int = 0
    broken_of: dict[str, int] = field(default_factory=dict)
    lines: dict[str, tuple[Line, ...]] = field(default_factory=dict)
    rims: dict[tuple[str, str], tuple[Point, ...]] = field(default_factory=dict)
