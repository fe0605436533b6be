"""What the survey gives: fitted walls, with how well each reading agrees."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.base.geometry import Box, Edge, Point, Ring
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Corner


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedHole:
    """A hole to drill, where the survey puts it. [mm]."""

    name: str
    x: float
    y: float
    diameter: float
    pipe: float | None
    plate: float | None
    rough_in: float | None
    rough_in_limits: tuple[float, float] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedOpening:
    """A window or niche, to its edges as read, and the joint left round it. [mm].

    Where it is `lined` inside, the edges are those of its bare faces. `depth` is from the
    bonding face of the wall to its back or its frame, none where nobody read it; `fall` is
    what its sill drops over that depth.
    """

    name: str
    kind: Literal["window", "niche"]
    box: Box
    gap: float | None
    depth: float | None = None
    lined: bool = False
    fall: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedFixture:
    """A fixture on the lining, with its clear zone. [mm]."""

    name: str
    kind: str
    box: Box
    clear: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedWall:
    """One wall: x to the right from its left corner at the datum, y up from the datum. [mm].

    `deck` and `ceiling` run from the left edge to the right edge; `parts` are what the deck is
    between its steps: rim, ledge, platform, or floor under a leg; `corner` is how the right
    edge meets the next wall; `finish` is where its lining stops, if not with the rest.
    """

    name: str
    left: Edge
    right: Edge
    deck: tuple[Point, ...]
    ceiling: tuple[Point, ...]
    outline: Ring
    holes: tuple[FittedHole, ...]
    openings: tuple[FittedOpening, ...]
    fixtures: tuple[FittedFixture, ...]
    corner: Corner = "inside"
    parts: tuple[str, ...] = ("rim",)
    finish: Literal["line", "ceiling"] | float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedReading:
    """A reading beside what the fit says of it. [mm].

    `w` is the residual over its own sigma: beyond 3.29 one in a thousand is chance.
    `detectable` is the blunder that the test would find; infinite where nothing checks it.
    """

    id: str
    wall: str
    kind: str
    value: float
    sigma: float
    residual: float
    redundancy: float
    w: float
    detectable: float = float("inf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A reading that does not agree with the rest, and what slip would explain it.

    More than one reading: either both of a swap, or, where `decide` says what to take, some
    that cannot be told apart, the likeliest first.
    """

    readings: tuple[str, ...]
    w: float
    guess: Message | None
    decide: Message | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A wall as it would be with one parameter of the fit moved by a hair.

    `parameter` and `place` are its numbers among the parameters and the walls, from 0.
    """

    parameter: int
    place: int
    wall: FittedWall


@dataclass(frozen=True, slots=True, kw_only=True)
class Walls:
    """The surveyed alcove: walls from left to right, each meeting the next in a corner.

    `covariance` belongs to `parameters`, in that order. [mm2]. `floor` and `drain` are
    heights from the datum, where they were read. [mm]. `chance` is how likely residuals as
    large as these are if every reading is sound. [1]. `take` are the readings to take next.
    `moved` holds every wall that changes when a parameter moves: what the covariance does to
    the walls follows from them.
    """

    walls: tuple[FittedWall, ...]
    readings: tuple[FittedReading, ...]
    suspects: tuple[Suspect, ...]
    parameters: tuple[str, ...]
    covariance: NDArray[np.float64]
    sigma0: float
    dof: int
    floor: float | None
    drain: float | None
    fit_for: Literal["price", "cut"]
    reasons: tuple[Message, ...]
    take: tuple[Message, ...] = ()
    chance: float = 1.0
    notes: tuple[Message, ...] = ()
    moved: tuple[Moved, ...] = ()
