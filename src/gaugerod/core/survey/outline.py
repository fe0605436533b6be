"""From the unknowns of the fit to a wall with its outline, holes and openings."""

from collections.abc import Mapping, Sequence

from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import box

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.geometry import Box, Edge, Point, Region, shape_of
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Fixture, Hole, Opening, Wall
from gaugerod.core.survey.model import Bend, Bends
from gaugerod.core.survey.steps import stepped, stretches
from gaugerod.core.survey.walls import FittedFixture, FittedHole, FittedOpening, FittedWall

State = Mapping[str, float]


def make_wall(wall: Wall, place: int, state: State, *, bends: Bends = ()) -> FittedWall:
    """Make one wall from the unknowns of the fit.

    Parameters
    ----------
    wall
        The wall in the job.
    place
        Its number from the left, from 0.
    state
        Value of every unknown. [mm, or mm per mm for slopes]
    bends
        Where lines are not straight.

    Returns
    -------
    FittedWall
        The wall. [mm]

    Raises
    ------
    SurveyError
        A hole or an opening lies outside the wall, or an opening or the wall is inside out.

    Notes
    -----
    Source: own derivation, ``docs/theory/survey.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> state = {"width R": 800.0, "left R": 0.0, "right R": 0.0, "deck 2": -700.0,
    ...     "deck 3": -700.0, "ceiling 2": 1300.0, "ceiling 3": 1300.0}
    >>> make_wall(sample_job().wall[2], 2, state).outline[2]
    (800.0, 1300.0)
    """
    fitted = shaped(wall, place, state, bends=bends)
    _inside(fitted)
    return fitted


def shaped(wall: Wall, place: int, state: State, *, bends: Bends = ()) -> FittedWall:
    """Make one wall, and leave out the check that holes and openings lie on it.

    Parameters
    ----------
    wall
        The wall in the job.
    place
        Its number from the left, from 0.
    state
        Value of every unknown. [mm, or mm per mm for slopes]
    bends
        Where lines are not straight.

    Returns
    -------
    FittedWall
        The wall. [mm]

    Raises
    ------
    SurveyError
        An opening or the wall is inside out.

    Notes
    -----
    For walls moved by a hair, whose jamb may then lie a hair beyond the corner that it was
    found in. Source: own derivation, ``docs/theory/survey.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> state = {"width R": 800.0, "left R": 0.0, "right R": 0.0, "deck 2": -700.0,
    ...     "deck 3": -700.0, "ceiling 2": 1300.0, "ceiling 3": 1300.0}
    >>> shaped(sample_job().wall[2], 2, state).deck
    ((0.0, -700.0), (800.0, -700.0))
    """
    name = wall.name
    mine = [bend for bend in bends if bend.wall == name]
    left = Edge(offset=0.0, slope=state[f"left {name}"], bow=_bow(mine, state, -0.5))
    right = Edge(
        offset=state[f"width {name}"], slope=state[f"right {name}"], bow=_bow(mine, state, 0.5)
    )
    _right_way_round(name, place, (left, right), state)
    deck = stepped(wall, _level("deck", place, (left, right), mine, state), left, right, state)
    ceiling = _level("ceiling", place, (left, right), mine, state)
    outline = (*deck, *_knots(right), *reversed(ceiling), *reversed(_knots(left)))
    return FittedWall(
        name=name,
        left=left,
        right=right,
        deck=deck,
        ceiling=ceiling,
        outline=outline,
        holes=tuple(_hole(name, hole, state) for hole in wall.hole),
        openings=tuple(_opening(name, opening, state) for opening in wall.opening),
        fixtures=tuple(_fixture(name, fixture, state) for fixture in wall.fixture),
        corner=wall.corner,
        finish=wall.finish,
        parts=tuple(part for part, _, _ in stretches(wall, deck[-1][0] - deck[0][0])),
    )


def _right_way_round(wall: str, place: int, edges: tuple[Edge, Edge], state: State) -> None:
    """Refuse a wall with its left edge right of its right edge, or its deck over its ceiling."""
    for corner in (place, place + 1):
        deck, ceiling = state[f"deck {corner}"], state[f"ceiling {corner}"]
        if deck >= ceiling or any(edges[0].at(y) >= edges[1].at(y) for y in (deck, ceiling)):
            raise SurveyError(Message("survey.wall-inside-out", wall=wall))


def _bow(bends: Sequence[Bend], state: State, half: float) -> tuple[Point, ...]:
    """Return the bow of an edge: half of each bend of the width. [mm]."""
    widths = [bend for bend in bends if bend.what == "width"]
    heights = sorted({y for bend in widths for y in (bend.ends[0], bend.at, bend.ends[1])})
    return tuple(
        (y, half * sum(state[bend.unknown] * bend.share(y) for bend in widths)) for y in heights
    )


def _knots(edge: Edge) -> tuple[Point, ...]:
    return tuple((edge.at(y), y) for y, _ in edge.bow)


def _level(
    name: str, place: int, edges: tuple[Edge, Edge], bends: Sequence[Bend], state: State
) -> tuple[Point, ...]:
    """Return deck or ceiling from corner to corner, bent where it bends. [mm]."""
    start, end = state[f"{name} {place}"], state[f"{name} {place + 1}"]
    x0, x1 = edges[0].at(start), edges[1].at(end)
    bent = sorted((bend for bend in bends if bend.what == name), key=lambda bend: bend.at)
    between = []
    for bend in bent:
        share = bend.at / (x1 - x0)
        off = sum(state[other.unknown] * other.share(bend.at) for other in bent)
        between.append((x0 + bend.at, start + (end - start) * share + off))
    return ((x0, start), *between, (x1, end))


def _hole(wall: str, hole: Hole, state: State) -> FittedHole:
    name = f"hole {wall}/{hole.name}"
    return FittedHole(
        name=hole.name,
        x=state[f"{name} x"],
        y=state[f"{name} y"],
        diameter=hole.diameter,
        pipe=hole.pipe,
        plate=hole.plate,
        rough_in=state.get(f"{name} rough-in"),
        rough_in_limits=hole.rough_in,
    )


def _opening(wall: str, opening: Opening, state: State) -> FittedOpening:
    name = f"opening {wall}/{opening.name}"
    left, right, bottom, top = (
        state[f"{name} {edge}"] for edge in ("left", "right", "sill", "head")
    )
    if right <= left or top <= bottom:
        raise SurveyError(Message("survey.opening-inside-out", wall=wall, opening=opening.name))
    depth = state.get(f"{name} depth")
    if depth is not None and depth <= 0:
        raise SurveyError(Message("survey.opening-flat", wall=wall, opening=opening.name))
    box_ = Box(left=left, bottom=bottom, right=right, top=top)
    return FittedOpening(
        name=opening.name,
        kind=opening.kind,
        box=box_,
        gap=opening.gap,
        depth=depth,
        lined=opening.kind == "niche" if opening.lined is None else opening.lined,
        fall=opening.fall,
    )


def _fixture(wall: str, fixture: Fixture, state: State) -> FittedFixture:
    name = f"fixture {wall}/{fixture.name}"
    x, y = state[f"{name} x"], state[f"{name} y"]
    width, height = fixture.size
    around = Box(left=x - width / 2, bottom=y - height / 2, right=x + width / 2, top=y + height / 2)
    return FittedFixture(name=fixture.name, kind=fixture.kind, box=around, clear=fixture.clear)


def _inside(wall: FittedWall) -> None:
    outline = shape_of(Region(rings=(wall.outline,)))
    for hole in wall.holes:
        if not outline.contains(ShapelyPoint(hole.x, hole.y).buffer(hole.diameter / 2)):
            raise SurveyError(
                Message(
                    "survey.hole-outside",
                    wall=wall.name,
                    hole=hole.name,
                    x=Length(hole.x),
                    y=Length(hole.y),
                )
            )
    for opening in wall.openings:
        b = opening.box
        if not outline.intersects(box(b.left, b.bottom, b.right, b.top)) or (
            b.left < outline.bounds[0] or b.right > outline.bounds[2]
        ):
            raise SurveyError(
                Message(
                    "survey.opening-outside",
                    wall=wall.name,
                    opening=opening.name,
                    left=Length(b.left),
                    right=Length(b.right),
                )
            )
