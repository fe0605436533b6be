"""What the rules measure on the layout and its pieces."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from operator import itemgetter
from types import MappingProxyType
from typing import TypeAlias

from gaugerod.core.base.geometry import Region, shape_of
from gaugerod.core.base.widths import narrowest
from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Piece, PieceEdge
from gaugerod.core.job.fields import Side
from gaugerod.core.setout.field import low_point
from gaugerod.core.setout.hide import end_fits
from gaugerod.core.setout.lattice import key_at
from gaugerod.core.setout.levels import is_rake
from gaugerod.core.survey.decks import deck_stretches

Sizes: TypeAlias = Iterator[tuple[float, float]]
"""Pairs of a length and the side of the module that it is a share of. [mm]."""


def _finish_above(facts: Facts, level: float | None) -> list[Measured]:
    return [] if level is None else [Measured(value=facts.layout.top - level)]


def _finish_above_floor(facts: Facts) -> list[Measured]:
    return _finish_above(facts, facts.walls.floor)


def _sprayed_above_floor(facts: Facts) -> list[Measured]:
    """Measure the same where water is sprayed: everywhere but round a tub without a head."""
    return _finish_above(facts, facts.walls.floor) if _is_sprayed(facts) else []


def _sprayed_above_drain(facts: Facts) -> list[Measured]:
    return _finish_above(facts, facts.walls.drain) if _is_sprayed(facts) else []


def _is_sprayed(facts: Facts) -> bool:
    answers = facts.job.facts
    return answers.receptor == "shower" or answers.shower_head is not False


def _sill_heights(facts: Facts) -> list[Measured]:
    """Height of each window above what one stands on; the deck where the drain is unread."""
    drain = facts.walls.drain
    stand = low_point(facts.walls)[1] if drain is None else drain
    return [
        Measured(where=f"{wall.name} {opening.name}", value=opening.box.bottom - stand)
        for wall in facts.walls.walls
        for opening in wall.openings
        if opening.kind == "window"
    ]


def _glass_unread(facts: Facts) -> list[Measured]:
    """Find the windows whose glass nobody has looked at."""
    return _sill_heights(facts) if facts.job.facts.safety_glass is None else []


def _glass_unmarked(facts: Facts) -> list[Measured]:
    return _sill_heights(facts) if facts.job.facts.safety_glass is False else []


def _deck_fall(facts: Facts) -> list[Measured]:
    """Fall of the rim over all walls, and of each step, against what can be cut off one course.

    A first course loses its bottom groove at the low point already, and at the high point
    the least piece must be left. A pattern has no first course to lose it from.
    """
    layout, system = facts.layout, facts.system
    if layout.pattern:
        return []
    grooved = key_at(system, "bottom", layout.turn) == "groove"
    hidden = "deck" in system.gaps.hides_key
    off = system.cutting.groove_off if grooved and not hidden else 0.0
    room = layout.face[1] - off - system.cutting.least
    every = [stretch for wall in facts.walls.walls for stretch in deck_stretches(wall)]
    rims = [stretch for stretch in every if stretch.part == "rim"]
    levels = [rims, *([stretch] for stretch in every if stretch.part != "rim")]
    falls = [max(s.high for s in level) - min(s.low for s in level) for level in levels if level]
    return [Measured(value=round(max(falls), 2), against=room)]  # no level reads finer


def _cut_pieces(facts: Facts) -> Iterable[Piece]:
    return (piece for piece in facts.pieces if not piece.whole)


def _smallest_cut(facts: Facts) -> list[Measured]:
    """Find on each wall the cut piece that is the smallest share of a module."""

    def sizes(piece: Piece) -> Sizes:
        return zip(piece.size, facts.system.face, strict=True)

    return [min(shares, key=itemgetter(0))[1] for shares in _shares(facts, sizes)]


def _narrowest(facts: Facts) -> list[Measured]:
    """Every cut piece at its narrow end against the least that the maker allows."""
    least, width = facts.system.cutting.least, _narrow_end
    if facts.layout.pattern:
        width = _least_width
    every = (*_cut_pieces(facts), *pieces_inside(facts.insides))
    return [Measured(where=piece.tag, value=width(piece), against=least) for piece in every]


def _narrow_end(piece: Piece) -> float:
    """Return what a tapered piece is across at its narrow end. [mm]."""
    return min(
        piece.size[0] - sum(_runs(piece, "left", "right")),
        piece.size[1] - sum(_runs(piece, "bottom", "top")),
    )


def _least_width(piece: Piece) -> float:
    """Return what a piece that runs to a point is across, its holes not drilled. [mm]."""
    return narrowest(shape_of(Region(rings=piece.region.rings[:1])))


def _taper(facts: Facts) -> list[Measured]:
    """Find on each wall the cut that tapers most for the side of the module it shortens."""
    width, height = facts.system.face

    def sizes(piece: Piece) -> Sizes:
        # A module on the diagonal is cut on the slant wherever it meets a rim: no fault to see.
        if piece.turn % 90 == 0:
            yield max(_runs(piece, "left", "right"), default=0.0), width
            yield max(_runs(piece, "bottom", "top"), default=0.0), height

    return [max(shares, key=itemgetter(0))[1] for shares in _shares(facts, sizes)]


def _shares(
    facts: Facts, sizes: Callable[[Piece], Sizes]
) -> Iterable[list[tuple[float, Measured]]]:
    """For each wall, what its cut pieces measure as shares of the module, and the measures."""
    walls: dict[str, list[tuple[float, Measured]]] = {}
    for piece in _cut_pieces(facts):
        for value, against in sizes(piece):
            measured = Measured(where=piece.tag, value=value, against=against)
            walls.setdefault(piece.wall, []).append((value / against, measured))
    return walls.values()


def _runs(piece: Piece, *sides: Side) -> list[float]:
    """How far each cut on two opposite sides runs out of square, a sloping ceiling left out."""
    axis = 0 if "left" in sides else 1
    cuts = (edge for edge in piece.edges if edge.side in sides and edge.kind == "cut")
    return [abs(edge.end[axis] - edge.start[axis]) for edge in cuts if not _sloping(piece, edge)]


def _sloping(piece: Piece, edge: PieceEdge) -> bool:
    """Tell whether a cut runs along a sloping ceiling, under which a piece may end in a point."""
    if edge.side != ("right" if piece.turn else "top"):
        return False
    start, end = (at[::-1] if piece.turn else at for at in (edge.start, edge.end))
    return is_rake(start, end)


def _closing_margin(facts: Facts) -> list[Measured]:
    """Find on each wall the end piece whose lap, trim or seal has least to spare."""
    if facts.layout.pattern:
        return []
    fits = end_fits(facts.walls, facts.layout, facts.system)
    tightest = {
        wall.name: min(
            (fit for fit in fits if fit.wall == wall.name), key=lambda fit: fit.margin, default=None
        )
        for wall in facts.walls.walls
    }
    return [
        Measured(where=f"{fit.wall}{fit.course} {fit.side}", value=fit.margin)
        for fit in tightest.values()
        if fit is not None
    ]


LAYOUT_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "finish-above-floor": _finish_above_floor,
        "sprayed-above-floor": _sprayed_above_floor,
        "sprayed-above-drain": _sprayed_above_drain,
        "glass-unread": _glass_unread,
        "glass-unmarked": _glass_unmarked,
        "deck-fall": _deck_fall,
        "smallest-cut": _smallest_cut,
        "narrowest": _narrowest,
        "taper": _taper,
        "closing-margin": _closing_margin,
    }
)
