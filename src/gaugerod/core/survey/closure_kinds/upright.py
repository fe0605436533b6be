"""Closures along the plumb line: the deck round the walls, heights, openings."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.readings import Height, OpeningEdge
from gaugerod.core.survey.closure_kinds.closure import Closure, close
from gaugerod.core.survey.closure_kinds.figures import Figure, known
from gaugerod.core.survey.closure_kinds.profile import Profile
from gaugerod.core.survey.closure_kinds.view import Level, View

NEAR = 50.0
"""A level read this near a corner, or beyond its last station, is taken for it. [mm]"""
_LEVELS: dict[Level, str] = {
    "rim": "closure.level-deck",
    "ledge": "closure.level-ledge",
    "platform": "closure.level-platform",
    "floor": "closure.level-floor",
    "ceiling": "closure.level-ceiling",
    "stop line": "closure.level-stop-line",
}


def corners(views: Sequence[View]) -> Iterator[Closure]:
    """Hold the deck and the ceiling at each corner, read from both its walls, against each other.

    Parameters
    ----------
    views
        The walls from left to right, shape ``(n,)``.

    Yields
    ------
    Closure
        For each corner and level, what the wall on its left reads less what the wall on its
        right reads; and their sum going round, where every corner was read. [mm]

    Notes
    -----
    The reading nearest a corner counts, if it is no further off than `NEAR`.
    Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [(c.kind, c.walls) for c in corners([sample_view(), sample_view()])]
    [('corner', ('B', 'B')), ('corner', ('B', 'B'))]
    """
    for level in _LEVELS:
        misses = []
        for first, second in pairwise(views):
            match _at_right(first, level), _at_left(second, level):
                case Figure() as one, Figure() as other:
                    yield _corner(level, (first.name, second.name), one, other)
                    misses.append(one - other)
        if len(misses) == len(views) - 1 > 1:
            yield _round(level, tuple(view.name for view in views), misses)


def _at_left(view: View, level: Level) -> Figure | None:
    return _nearest(view.levels[level], 0.0)


def _at_right(view: View, level: Level) -> Figure | None:
    width = view.width_at(known(0.0))
    return None if width is None else _nearest(view.levels[level], width.value)


def _nearest(profile: Profile, corner: float) -> Figure | None:
    off = [abs(place - corner) for place in profile.places]
    least = min(off, default=NEAR + 1)
    return profile.values[off.index(least)] if least <= NEAR else None


def _corner(level: Level, walls: tuple[str, str], one: Figure, other: Figure) -> Closure:
    return close(
        "corner",
        walls,
        one - other,
        what=Message(
            "closure.corner",
            first=walls[0],
            second=walls[1],
            level=Message(_LEVELS[level]),
            one=Length(one.value),
            other=Length(other.value),
        ),
        hint=Message("closure.corner-hint"),
    )


def _round(level: Level, walls: tuple[str, ...], misses: Sequence[Figure]) -> Closure:
    total = sum(misses[1:], start=misses[0])
    return close(
        "round",
        walls,
        total,
        what=Message(
            "closure.round",
            level=Message(_LEVELS[level]),
            corners=len(misses),
            sum=Length(total.value),
        ),
        hint=Message("closure.round-hint"),
    )


def heights(view: View) -> Iterator[Closure]:
    """Hold each whole height against the deck and the ceiling at its station.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        Down to the deck + up to the ceiling less the whole height. [mm]

    Notes
    -----
    Deck and ceiling are straight between their stations. Where the deck has a step nothing is
    held, since the height may stand on either side. Source: own derivation,
    ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [closure.misclosure for closure in heights(sample_view())]
    [0.0]
    """
    if any(view.levels[part].places for part in ("ledge", "platform", "floor")):
        return
    for reading, height in view.each(Height):
        deck = _level_at(view.levels["rim"], reading.at)
        ceiling = _level_at(view.levels["ceiling"], reading.at)
        match deck, ceiling:
            case Figure() as down, Figure() as up:
                yield close(
                    "height",
                    (view.name,),
                    down + up - height,
                    what=Message(
                        "closure.height",
                        wall=view.name,
                        at=Length(reading.at),
                        down=Length(down.value),
                        up=Length(up.value),
                        sum=Length((down + up).value),
                        height=Length(height.value),
                    ),
                    hint=Message("closure.height-hint"),
                )


def _level_at(profile: Profile, station: float) -> Figure | None:
    places = profile.places
    if not places or not places[0] - NEAR <= station <= places[-1] + NEAR:
        return None
    return profile.at(known(station))


def opening_heights(view: View) -> Iterator[Closure]:
    """Hold sill and clear height of each opening against its head.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        Sill + clear height less head. [mm]

    Notes
    -----
    Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [closure.misclosure for closure in opening_heights(sample_view())]
    [0.0]
    """
    for name in dict.fromkeys(reading.of for reading, _ in view.each(OpeningEdge)):
        match (
            view.figure("opening", name, "sill", "datum"),
            view.figure("opening", name, "height", "itself"),
            view.figure("opening", name, "head", "datum"),
        ):
            case Figure() as sill, Figure() as clear, Figure() as head:
                yield close(
                    "opening height",
                    (view.name,),
                    sill + clear - head,
                    what=Message(
                        "closure.opening-height",
                        wall=view.name,
                        of=name,
                        sill=Length(sill.value),
                        clear=Length(clear.value),
                        sum=Length((sill + clear).value),
                        head=Length(head.value),
                    ),
                    hint=Message("closure.opening-hint"),
                )
