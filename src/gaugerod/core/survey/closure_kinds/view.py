"""One wall as it was read to one surface: its widths, leans, deck and ceiling."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias, TypeVar, get_args

from gaugerod.core.job.document import Wall
from gaugerod.core.job.readings import Ceiling, Deck, Lean, Reading, Surface, Width
from gaugerod.core.survey.beliefs import PLUMB_SIGMA
from gaugerod.core.survey.closure_kinds.figures import Figure, believed, known, mean_of
from gaugerod.core.survey.closure_kinds.gathered import Thing, Told
from gaugerod.core.survey.closure_kinds.profile import Profile, profile_of

Edge: TypeAlias = Literal["left", "right"]
Level: TypeAlias = Literal["rim", "ledge", "platform", "floor", "ceiling", "stop line"]
R = TypeVar("R", bound=Reading)


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One wall as read to one surface.

    `read` are the slopes of its edges that were read or struck, `slopes` what is known of them
    all told. [mm per mm], x to the right per y up.
    """

    name: str
    told: Mapping[Thing, Told]
    widths: Profile
    levels: Mapping[Level, Profile]
    read: Mapping[Edge, Figure]
    slopes: Mapping[Edge, Figure]

    def figure(self, *thing: object) -> Figure | None:
        """Return what the readings of a thing say.

        Parameters
        ----------
        *thing
            Kind and place.

        Returns
        -------
        Figure or None
            Their mean, None where there is no such reading. [mm]
        """
        told = self.told.get(thing)
        return told.figure if told else None

    def each(self, kind: type[R]) -> Iterator[tuple[R, Figure]]:
        """Yield the things of one kind that were read.

        Parameters
        ----------
        kind
            Kind of the readings.

        Yields
        ------
        tuple of Reading and Figure
            The first reading of each thing, and what all say. [mm]
        """
        return _each(kind, self.told.values())

    def width_at(self, height: Figure) -> Figure | None:
        """Return the width of the wall at a height.

        Parameters
        ----------
        height
            Height from the datum. [mm]

        Returns
        -------
        Figure or None
            Between two widths straight from one to the other; with one width, that one and
            what the leans make of it; None where no width was read. [mm]
        """
        if not self.widths.places:
            return None
        width = self.widths.at(height)
        if len(self.widths.places) > 1:
            return width
        return width + (self.slopes["right"] - self.slopes["left"]) * (
            height - self.widths.places[0]
        )


def views_of(
    wall: Wall, told: Sequence[Told], *, default: Surface, open_edges: Sequence[Edge]
) -> tuple[View, ...]:
    """Return a wall as it was read, once for each surface that it was read to.

    Parameters
    ----------
    wall
        The wall.
    told
        Its readings, gathered.
    default
        The surface of a wall without readings across.
    open_edges
        Edges that are no corner: plumb lines that the setter strikes, unless their lean was
        read.

    Returns
    -------
    tuple of View
        At least one; heights belong to each. The one with the most widths comes first.

    Notes
    -----
    Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.closure_kinds.gathered import gather
    >>> job = sample_job()
    >>> told = gather(job.wall[1], job.survey)
    >>> (view,) = views_of(job.wall[1], told, default="backer", open_edges=())
    >>> view.width_at(known(600.0)).value
    1500.0
    """
    leaning = {reading.edge for reading in wall.readings if isinstance(reading, Lean)}
    struck = {edge: known(0.0) for edge in open_edges if edge not in leaning}
    surfaces = dict.fromkeys(t.surface for t in told if t.surface) or {default: None}
    views = [
        _view(wall.name, [t for t in told if t.surface in {surface, None}], struck)
        for surface in surfaces
    ]
    return tuple(sorted(views, key=lambda view: -len(view.widths.places)))


def _view(name: str, told: Sequence[Told], struck: Mapping[Edge, Figure]) -> View:
    widths = profile_of([(reading.at, figure) for reading, figure in _each(Width, told)])
    read = {**struck, **_leans(told)}
    return View(
        name=name,
        told={t.thing: t for t in told},
        widths=widths,
        levels=_levels(told),
        read=read,
        slopes=_slopes(read, widths),
    )


def _each(kind: type[R], told: Iterable[Told]) -> Iterator[tuple[R, Figure]]:
    for one in told:
        reading = one.readings[0]
        if isinstance(reading, kind):
            yield reading, one.figure


def _levels(told: Sequence[Told]) -> dict[Level, Profile]:
    found: dict[Level, list[tuple[float, Figure]]] = {level: [] for level in get_args(Level)}
    for deck, figure in _each(Deck, told):
        found[deck.part].append((deck.at, figure))
    for ceiling, figure in _each(Ceiling, told):
        found[ceiling.to].append((ceiling.at, figure))
    return {level: profile_of(values) for level, values in found.items()}


def _leans(told: Sequence[Told]) -> dict[Edge, Figure]:
    """Slopes of the edges whose lean was read; readings over any height count."""
    found: dict[Edge, list[tuple[str, Lean, float]]] = {}
    for one in told:
        for name, reading, sigma in zip(one.ids, one.readings, one.sigmas, strict=True):
            if isinstance(reading, Lean):
                found.setdefault(reading.edge, []).append((name, reading, sigma))
    return {edge: _slope(taken) for edge, taken in found.items()}


def _slope(taken: Sequence[tuple[str, Lean, float]]) -> Figure:
    """Mean slope of one edge, x to the right per y."""
    return mean_of(
        [name for name, _, _ in taken],
        [(lean.reads if lean.edge == "left" else -lean.reads) / lean.over for _, lean, _ in taken],
        [sigma / lean.over for _, lean, sigma in taken],
        per=1 / min(lean.over for _, lean, _ in taken),
    )


def _slopes(read: Mapping[Edge, Figure], widths: Profile) -> dict[Edge, Figure]:
    """Return both slopes: read, else from the other and the widths, else believed."""
    slopes = dict(read)
    if len(read) == 1 and len(widths.places) > 1:
        rise = widths.places[-1] - widths.places[0]
        change = (widths.values[-1] - widths.values[0]) * (1 / rise)
        if "left" in read:
            slopes["right"] = read["left"] + change
        else:
            slopes["left"] = read["right"] - change
    for edge in ("left", "right"):
        slopes.setdefault(edge, believed(value=0.0, sigma=PLUMB_SIGMA))
    return slopes
