"""What pierces a wall or hangs on it has the readings that place it, and no others."""

from collections.abc import Iterable, Iterator
from collections.abc import Set as AbstractSet

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Wall
from gaugerod.core.job.faults import Fault, Place
from gaugerod.core.job.readings import FixturePlace, HoleCentre, OpeningEdge, RoughIn

_EDGE_FROM = {
    "left": {"left", "right"},
    "right": {"left", "right"},
    "sill": {"datum"},
    "head": {"datum"},
    "width": {"itself"},
    "height": {"itself"},
    "jamb depth": {"itself"},
}


def pierced(wall: Wall, at: Place) -> Iterator[Fault]:
    """Yield every hole, opening or fixture that is not placed, and every stray reading of one.

    Parameters
    ----------
    wall
        The wall.
    at
        The way to it in the document.

    Yields
    ------
    Fault
        Names given twice, readings of what is not there, and what is not yet placed: a hole
        or fixture by its distance from an edge and from the datum, an opening by two of its
        left, right and width, and by two of its sill, head and height.

    Notes
    -----
    Source: own derivation: two independent readings fix an interval, one fixes a point.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> list(pierced(sample_job().wall[0], ("wall", 0)))
    []
    """
    names = {
        "hole": [hole.name for hole in wall.hole],
        "opening": [opening.name for opening in wall.opening],
        "fixture": [fixture.name for fixture in wall.fixture],
    }
    for key, given in names.items():
        yield from _twice(given, (*at, key))
    yield from _strays(wall, at, names)
    for number, name in enumerate(names["hole"]):
        starts = {r.start for r in wall.readings if isinstance(r, HoleCentre) and r.of == name}
        yield from _unplaced("hole", starts, (*at, "hole", number), name)
    for number, name in enumerate(names["fixture"]):
        starts = {r.start for r in wall.readings if isinstance(r, FixturePlace) and r.of == name}
        yield from _unplaced("fixture", starts, (*at, "fixture", number), name)
    for number, name in enumerate(names["opening"]):
        edges = {r.edge for r in wall.readings if isinstance(r, OpeningEdge) and r.of == name}
        yield from _half_open(edges, (*at, "opening", number), name)
    yield from _rough_ins(wall, at)


def _twice(given: list[str], at: Place) -> Iterator[Fault]:
    for number, name in enumerate(given):
        if name in given[:number]:
            yield Fault(at=(*at, number, "name"), wrong=Message("job.name-twice", name=name))


def _strays(wall: Wall, at: Place, names: dict[str, list[str]]) -> Iterator[Fault]:
    for number, reading in enumerate(wall.readings):
        here = (*at, "readings", number)
        if isinstance(reading, HoleCentre | RoughIn | OpeningEdge | FixturePlace):
            key = "hole" if isinstance(reading, RoughIn) else reading.kind
            if reading.of not in names[key]:
                yield Fault(at=(*here, "of"), wrong=_nothing_of(key, reading.of, names[key]))
        if isinstance(reading, OpeningEdge) and reading.start not in _EDGE_FROM[reading.edge]:
            wrong = Message(
                "job.edge-from",
                edge=reading.edge,
                read=reading.start,
                known=_listed(sorted(_EDGE_FROM[reading.edge])),
            )
            yield Fault(at=(*here, "from"), wrong=wrong)


def _nothing_of(key: str, of: str, known: list[str]) -> Message:
    if known:
        return Message("job.of-unknown", key=key, read=of, known=_listed(known))
    return Message("job.of-none", key=key, read=of)


def _unplaced(kind: str, starts: AbstractSet[str], at: Place, name: str) -> Iterator[Fault]:
    if not starts & {"left", "right"}:
        yield Fault(at=at, wrong=Message("job.without-x", kind=kind, name=name))
    if "datum" not in starts:
        yield Fault(at=at, wrong=Message("job.without-y", kind=kind, name=name))


def _half_open(edges: AbstractSet[str], at: Place, name: str) -> Iterator[Fault]:
    for needed in (("left", "right", "width"), ("sill", "head", "height")):
        if len(edges & set(needed)) < 2:  # noqa: PLR2004  (two fix an interval)
            yield Fault(at=at, wrong=Message("job.opening-open", name=name, needed=_listed(needed)))


def _rough_ins(wall: Wall, at: Place) -> Iterator[Fault]:
    for number, hole in enumerate(wall.hole):
        if hole.rough_in and hole.rough_in[0] > hole.rough_in[1]:
            yield Fault(at=(*at, "hole", number, "rough_in"), wrong=Message("job.rough-in-swapped"))


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)
