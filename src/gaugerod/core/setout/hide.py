"""Will it hide: what a lap, a trim or a seal has left over at the ends of courses and openings."""

from collections.abc import Iterator
from dataclasses import dataclass

from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System
from gaugerod.core.setout.field import deduct
from gaugerod.core.setout.layout import Layout, Meeting
from gaugerod.core.setout.margins import Planned, Row, moved_boxes, rim
from gaugerod.core.setout.spread import End, end_cuts, follow, plans_of, sigmas
from gaugerod.core.survey.walls import FittedWall, Walls


@dataclass(frozen=True, slots=True, kw_only=True)
class EndFit:
    """The end piece of a course, and what hides or seals its edge has left over. [mm].

    `module` is the left edge of the module that it is cut from. A negative `margin` means that
    two sigmas of the survey are more than can be hidden.
    """

    wall: str
    course: int
    side: End
    module: float
    margin: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RimFit:
    """One edge of an opening, and what its joint has left over. [mm].

    `side` is the side of the opening; the edge lies at `at`, from `start` to `end` along it.
    """

    wall: str
    side: Side
    at: float
    start: float
    end: float
    margin: float


def hide_margin(
    *, cover: float, least_lap: float, gap: float, swing: float = 0.0, sigma: float = 0.0
) -> float:
    """Return what is left of a cover once it has hid an edge.

    Parameters
    ----------
    cover
        What the next wall, a trim or a plate can hide, >= 0. [mm]
    least_lap
        What must be covered for it to look and stay closed, >= 0. [mm]
    gap
        Gap at the edge; at a keyed closing piece the tongue that is left on. [mm]
    swing
        How far the edge leans or bows, where the piece is not cut to it. [mm]
    sigma
        Standard deviation of the edge, >= 0. [mm]

    Returns
    -------
    float
        The margin; negative where the edge may show. [mm]

    Notes
    -----
    ``cover - least lap - gap - swing - 2 sigma``. Two sigmas keep the promise in
    ninety-eight cases of a hundred. Source: common practice, no source.

    Examples
    --------
    A 3/8 lining on a bed of 1/16 laps a tongue shaved to 1/8: 3/16 are left. [in]

    >>> hide_margin(cover=7 / 16, least_lap=1 / 8, gap=1 / 8)
    0.1875
    """
    return cover - least_lap - gap - swing - 2 * sigma


def cover_at(meeting: Meeting, system: System) -> float | None:
    """Return how much of a piece can be hid at an end.

    Parameters
    ----------
    meeting
        What happens at the edge of the field.
    system
        The material. [mm]

    Returns
    -------
    float or None
        Cover; none where nothing laps the edge, or the leg of the trim is not known. [mm]

    Notes
    -----
    The wall that butts laps the one that runs behind by its lining and bed. Source: common
    practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> cover_at("runs behind", sample_system())
    11.1125
    >>> cover_at("butts", sample_system())
    """
    if meeting == "runs behind":
        return system.thickness + system.bed
    uses = {"open": "edge", "trim": "inside corner", "outside trim": "outside corner"}
    legs = (trim.leg for trim in system.trim if trim.use == uses.get(meeting))
    return next(legs, None)


def end_fits(walls: Walls, layout: Layout, system: System) -> tuple[EndFit, ...]:
    """Return what hides or seals each end of every course has left over.

    Parameters
    ----------
    walls
        The surveyed alcove, with the covariance of its parameters. [mm]
    layout
        A layout on these walls. [mm]
    system
        The material. [mm]

    Returns
    -------
    tuple of EndFit
        Ends that are lapped, trimmed or sealed; an open front without a known trim has none. [mm]

    Notes
    -----
    A piece cut to its rim has no swing; where a rim falls beyond the last module, as in a joint
    of tile or at a front left whole, the wedge counts. A sealed joint takes an error up to its
    own width. Source: `hide_margin`; the rule for sealed joints is own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> [(fit.side, fit.margin > 0) for fit in end_fits(*sample_layout()) if fit.wall == "B"][:2]
    [('left', True), ('right', True)]
    """
    plans = plans_of(walls, layout, system)
    rows = [(plan, row, met) for plan in plans for row in plan.rows for met in plan.batch.case.met]
    found = []
    for end, (plan, row, met) in zip(end_cuts(walls, plans), rows, strict=True):
        margin = _end_margin(plan, row, met, end.side, end.sigma)
        if margin is not None:
            module = row.first if end.side == "left" else row.last
            found.append(
                EndFit(
                    wall=end.wall, course=end.course, side=end.side, module=module, margin=margin
                )
            )
    return tuple(found)


def _end_margin(plan: Planned, row: Row, met: Meeting, side: End, sigma: float) -> float | None:
    gaps = plan.system.gaps
    if met == "butts":
        return gaps.butt - 2 * sigma
    cover = cover_at(met, plan.system)
    if cover is None:
        return None
    gap = deduct(met, plan.system)
    swing = _swing(plan, row, side)
    return hide_margin(cover=cover, least_lap=gaps.least_lap, gap=gap, swing=swing, sigma=sigma)


def _swing(plan: Planned, row: Row, side: End) -> float:
    """Return how far the rim lies beyond the module at its farthest; nought where it is cut."""
    wall = plan.batch.case.wall
    if side == "left":
        return max(0.0, *(row.first - rim(plan, wall, "left", y) for y in row.left))
    last = row.last + plan.batch.lattice.face[0]
    return max(0.0, *(rim(plan, wall, "right", y) - last for y in row.right))


def rim_fits(walls: Walls, layout: Layout, system: System) -> tuple[RimFit, ...]:
    """Return what the joint along each edge of every opening has left over.

    Parameters
    ----------
    walls
        The surveyed alcove, with the covariance of its parameters. [mm]
    layout
        A layout on these walls. [mm]
    system
        The material. [mm]

    Returns
    -------
    tuple of RimFit
        Left, right, bottom and top of each opening that reaches into a field. [mm]

    Notes
    -----
    A sealed joint takes an error up to its own width. Where the lining is cut up to the opening
    without one, the fillet hides its leg less the least lap. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> rim_fits(*sample_layout())
    ()
    """
    plans = plans_of(walls, layout, system)
    _, rates = follow(walls, plans, _edges)
    spread = iter(sigmas(rates, walls.covariance).tolist())
    return tuple(
        RimFit(
            wall=plan.batch.case.wall.name,
            side=side,
            at=at,
            start=start,
            end=end,
            margin=room - 2 * next(spread),
        )
        for plan in plans
        for room, (side, at, start, end) in _rims(plan)
    )


def _edges(plan: Planned, wall: FittedWall) -> list[float]:
    boxes = moved_boxes(plan, wall)
    return [edge for box in boxes for edge in (box.left, box.right, box.bottom, box.top)]


def _rims(plan: Planned) -> Iterator[tuple[float, tuple[Side, float, float, float]]]:
    """Yield the edges of the openings, in the order of `_edges`, with the room at each. [mm]."""
    gaps, fillet = plan.system.gaps, plan.system.sealant.fillet
    for opened in plan.openings:
        box = opened.box
        room = opened.gap or fillet - gaps.least_lap
        yield room, ("left", box.left, box.bottom, box.top)
        yield room, ("right", box.right, box.bottom, box.top)
        yield room, ("bottom", box.bottom, box.left, box.right)
        yield room, ("top", box.top, box.left, box.right)
