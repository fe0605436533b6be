"""Plumb and level: planes, edges and decks against a limit."""

from collections.abc import Sequence

from gaugerod.core.base.geometry import Edge, Point
from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.limits import Departure, Judged, judge
from gaugerod.core.survey.plane import Plane, lean_sigma
from gaugerod.core.survey.spots import Spot
from gaugerod.core.survey.walls import FittedWall


def plane_lean(
    plane: Plane, spots: Sequence[Spot], tolerances: Sequence[Tolerance]
) -> tuple[Judged, ...]:
    """Judge the lean of a plane over the height that it was read on.

    Parameters
    ----------
    plane
        The plane.
    spots
        The spots it was fitted to.
    tolerances
        What is allowed out of plumb.

    Returns
    -------
    tuple of Judged
        One for each tolerance; plus leans into the alcove. [mm]

    Notes
    -----
    A plane is straight, so where it is taller than a limit reaches, it is judged over the
    length that the limit is for. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.survey.plane import fit_plane
    >>> row = {"id": "row", "about": "plumb", "statement": "Plumb.", "advice": "Fill it.",
    ...     "allows": [{"over": 1000, "at_most": 2}], "source": "None.", "sure": "calc"}
    >>> corners = [(0.0, 0.0), (600.0, 0.0), (0.0, 2000.0), (600.0, 2000.0)]
    >>> spots = [Spot(x=x, y=y, z=y / 400, sigma=0.4) for x, y in corners]
    >>> (judged,) = plane_lean(fit_plane(spots), spots, [Tolerance.model_validate(row)])
    >>> round(judged.departure.by, 6), judged.verdict
    (2.5, 'out')
    """
    low, high = min(spot.y for spot in spots), max(spot.y for spot in spots)
    x = sum(spot.x for spot in spots) / len(spots)
    found = []
    for tolerance in tolerances:
        span = min(high - low, tolerance.allows[-1].over)
        departure = Departure(
            way="plane",
            held="plumb",
            start=(x, low),
            end=(x, low + span),
            at=(x, low + span),
            span=span,
            by=plane.up * span,
            sigma=lean_sigma(plane, over=span),
        )
        found.append(judge(departure, tolerance))
    return tuple(found)


def edge_leans(wall: FittedWall, tolerances: Sequence[Tolerance]) -> tuple[Judged, ...]:
    """Judge the lean of both edges of a wall.

    Parameters
    ----------
    wall
        The wall.
    tolerances
        What is allowed out of plumb.

    Returns
    -------
    tuple of Judged
        Left then right for each tolerance; plus leans into the alcove. [mm]

    Notes
    -----
    In a corner the edge is the face of the next wall, so its lean is that wall's. No sigma is
    given: it is in the covariance of all walls. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> row = {"id": "row", "about": "plumb", "statement": "Plumb.", "advice": "Fill it.",
    ...     "allows": [{"over": 3000, "at_most": 2}], "source": "None.", "sure": "calc"}
    >>> wall = fit_walls(sample_job()).walls[1]
    >>> [judged.verdict for judged in edge_leans(wall, [Tolerance.model_validate(row)])]
    ['within', 'within']
    """
    edges = [(wall.left, 0, 1.0), (wall.right, -1, -1.0)]
    return tuple(
        judge(_edge(edge, wall.deck[end], wall.ceiling[end], inwards, tolerance), tolerance)
        for tolerance in tolerances
        for edge, end, inwards in edges
    )


def _edge(edge: Edge, foot: Point, head: Point, inwards: float, tolerance: Tolerance) -> Departure:
    span = min(head[1] - foot[1], tolerance.allows[-1].over)
    end = (edge.at(foot[1] + span), foot[1] + span)
    return Departure(
        way="edge",
        held="plumb",
        start=foot,
        end=end,
        at=end,
        span=span,
        by=inwards * edge.slope * span,
        sigma=None,
    )


def deck_fall(wall: FittedWall, tolerances: Sequence[Tolerance]) -> tuple[Judged, ...]:
    """Judge how far the deck along one wall is out of level.

    Parameters
    ----------
    wall
        The wall.
    tolerances
        What is allowed out of level.

    Returns
    -------
    tuple of Judged
        One for each tolerance; plus is high at the right end. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    The deck of the sample's back wall rises by 4 mm:

    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> row = {"id": "row", "about": "level", "statement": "Level.", "advice": "Scribe it.",
    ...     "allows": [{"over": 6000, "at_most": 3}], "source": "None.", "sure": "calc"}
    >>> wall = fit_walls(sample_job()).walls[1]
    >>> (judged,) = deck_fall(wall, [Tolerance.model_validate(row)])
    >>> round(judged.departure.by), judged.verdict
    (4, 'out')
    """
    left, right = wall.deck[0], wall.deck[-1]
    departure = Departure(
        way="deck",
        held="level",
        start=left,
        end=right,
        at=min(left, right, key=lambda point: point[1]),
        span=right[0] - left[0],
        by=right[1] - left[1],
        sigma=None,
    )
    return tuple(judge(departure, tolerance) for tolerance in tolerances)
