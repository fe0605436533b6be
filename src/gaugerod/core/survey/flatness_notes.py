"""What there is to say of a wall's flatness: one message for each thing to do."""

from collections.abc import Iterable, Iterator

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.survey.depths import SurfaceFlatness
from gaugerod.core.survey.limits import Departure, Judged, Way
from gaugerod.core.survey.patches import Patch
from gaugerod.core.survey.shims import ShimSchedule

MM3_PER_LITRE = 1e6
BEYOND_CHANCE = 3.29
"""Repeated readings farther apart than this many sigmas are chance once in a thousand. [1]"""

_KINDS: dict[Way, tuple[str, str]] = {
    "gap": ("hump", "hollow"),
    "straightedge": ("hump", "hollow"),
    "grid": ("hump", "hollow"),
    "plane": ("leans-in", "leans-out"),
    "edge": ("leans-in", "leans-out"),
    "deck": ("high-right", "high-left"),
}


def of_judged(wall: str, judged: Iterable[Judged]) -> Iterator[Message]:
    """Say which limits are broken or left open, each once and at its worst place.

    Parameters
    ----------
    wall
        Name of the wall.
    judged
        Verdicts on it.

    Yields
    ------
    Message
        One for each limit and way of finding it; for gaps that were read, one for each.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> list(of_judged("B", []))
    []
    """
    worst: dict[object, Judged] = {}
    for one in judged:
        found = one.departure
        each = found if found.way in {"gap", "edge"} else found.way
        key = (each, one.tolerance.id)
        if one.verdict != "within" and (key not in worst or one.over > worst[key].over):
            worst[key] = one
    yield from (_judged(wall, one) for one in worst.values())


def _judged(wall: str, judged: Judged) -> Message:
    found, tolerance = judged.departure, judged.tolerance
    x, y = found.at
    if judged.verdict == "open":
        return Message(
            "flatness.open",
            wall=wall,
            x=Length(x),
            y=Length(y),
            what=_what(found),
            statement=tolerance.statement,
            shorter=Length(tolerance.allows[-1].over),
        )
    return Message(
        "flatness.out",
        wall=wall,
        x=Length(x),
        y=Length(y),
        what=_what(found),
        limit=Length(judged.limit),
        over=Length(judged.over),
        statement=tolerance.statement,
        advice=tolerance.advice,
    )


def _what(found: Departure) -> Message:
    kind = _KINDS[found.way][found.by < 0]
    return Message(f"flatness.is-{kind}", by=Length(abs(found.by)), span=Length(found.span))


def of_surface(wall: str, surface: SurfaceFlatness) -> Iterator[Message]:
    """Say what is wrong with depth readings, and what would mend the surface.

    Parameters
    ----------
    wall
        Name of the wall.
    surface
        What the depths on it gave.

    Yields
    ------
    Message
        Readings to take again, then faults and patches, then readings still to take.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> lone = SurfaceFlatness(surface="backer", spots=(), stray=(), missing=(), read=0.0,
    ...     plane=None, judged=(), patches=())
    >>> [note.key for note in of_surface("B", lone)]
    ['flatness.one-line']
    """
    for spot in surface.spots:
        if spot.spread > BEYOND_CHANCE:
            place = {"x": Length(spot.x), "y": Length(spot.y)}
            yield Message("flatness.repeats", wall=wall, w=spot.spread, **place)
    yield from of_judged(wall, surface.judged)
    for patch in surface.patches:
        yield from _patch(wall, patch)
    for spot in surface.stray:
        yield Message("flatness.stray", wall=wall, x=Length(spot.x), y=Length(spot.y))
    for x, y in surface.missing:
        yield Message("flatness.missing", wall=wall, x=Length(x), y=Length(y))
    if surface.plane is None:
        yield Message("flatness.one-line", wall=wall, surface=surface.surface)


def _patch(wall: str, patch: Patch) -> Iterator[Message]:
    deepest = max(patch.spots, key=lambda spot: spot.flush)
    yield Message(
        f"flatness.patch-{patch.goal}",
        wall=wall,
        flush=patch.flush / MM3_PER_LITRE,
        least=patch.least / MM3_PER_LITRE,
        deepest=Length(deepest.flush),
        x=Length(deepest.at[0]),
        y=Length(deepest.at[1]),
    )
    if patch.grind is not None:
        yield Message(
            "flatness.grind",
            wall=wall,
            x=Length(patch.grind.at[0]),
            y=Length(patch.grind.at[1]),
            depth=Length(patch.grind.depth),
            flush=patch.grind.flush / MM3_PER_LITRE,
        )


def of_shims(wall: str, shims: ShimSchedule) -> Message:
    """Say how thick the thickest shim is, and where.

    Parameters
    ----------
    wall
        Name of the wall.
    shims
        The schedule.

    Returns
    -------
    Message
        The message.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.survey.spots import Spot
    >>> from gaugerod.core.survey.shims import shim_schedule
    >>> of_shims("B", shim_schedule([Spot(x=0.0, y=0.0, z=0.0, sigma=1.0)], display=METRIC)).key
    'flatness.shims'
    """
    thickest = max(shims.shims, key=lambda shim: shim.exact)
    return Message(
        "flatness.shims",
        wall=wall,
        thickest=Length(thickest.thickness),
        x=Length(thickest.at[0]),
        y=Length(thickest.at[1]),
    )
