"""Marks: what to measure on the module, face up, always from a kept factory edge."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from gaugerod.core.base.geometry import SNAP, Box, Point, Region, bounds_of
from gaugerod.core.base.lettering import letters
from gaugerod.core.cutting.outline import UPRIGHT, is_steep, outline_of
from gaugerod.core.cutting.pieces import Mark, PieceEdge, PieceHole
from gaugerod.core.job.fields import Side

OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}


def marks_of(
    region: Region,
    edges: Sequence[PieceEdge],
    holes: Sequence[PieceHole],
    keeps: Sequence[Side],
    face: tuple[float, float],
) -> tuple[Mark, ...]:
    """Return the measurements that make a piece from its module.

    Parameters
    ----------
    region
        The piece in the module's frame. [mm]
    edges
        Its outline. [mm]
    holes
        Its holes. [mm]
    keeps
        Factory edges that the piece keeps.
    face
        Width and height of the module. [mm]

    Returns
    -------
    tuple of Mark
        Widths and heights of straight cuts by two named measurements, cuts on the slant by one
        along each of the two edges that they meet, notches by the offsets of their inner
        corners, all else point by point; hole centres from two edges and, as a check, from the
        two opposite.

    Notes
    -----
    A straight cut is read at two places, so a taper has two measurements: a width where its
    line meets the bottom and the top of the module, a height at the two ends of the
    piece, once its length is drawn. Each measurement starts from a kept edge, else from a face
    edge that only lost its tongue, else from the module's own edge on that side before it is
    cut. Source: common practice, no source.

    Examples
    --------
    A piece 400 mm wide that keeps its right edge:

    >>> ring = ((200.0, 0.0), (600.0, 0.0), (600.0, 300.0), (200.0, 300.0))
    >>> edge = PieceEdge(side="left", kind="cut", start=(200.0, 300.0), end=(200.0, 0.0))
    >>> [(m.what, m.start, m.value) for m in
    ...     marks_of(Region(rings=(ring,)), (edge,), (), ("right", "top"), (600.0, 300.0))]
    [('bottom', 'right', 400.0), ('top', 'right', 400.0)]
    """
    bared = {edge.side for edge in edges if edge.kind == "tongue off"}
    across, up = (_start(pair, keeps, bared) for pair in (("left", "right"), ("bottom", "top")))
    bench = _Bench(across=across, up=up, face=face, keeps=keeps)
    found: list[Mark] = []
    cuts = [edge for edge in edges if edge.kind == "cut"]
    slanted = [edge for edge in cuts if _slants(edge, face)]
    others = [edge for edge in cuts if edge not in slanted]
    # A steep cut that ends inside the module can't be read at an edge of it.
    plain = len(region.rings[0]) == _QUADRILATERAL
    if plain and not any(_ends_inside(edge, face) for edge in others):
        for edge in sorted(others, key=lambda edge: edge.side not in UPRIGHT):
            found.extend(_straight(edge, bench))
    else:
        found.extend(_parts(region, others, bench))
    for edge in slanted:
        found.extend(_slanted(edge, bench))
    for hole in holes:
        found.extend(_hole(hole, bench))
    return tuple(found)


def face_down(mark: Mark) -> Mark:
    """Return a mark as it is read with the module face down, arrow up.

    Parameters
    ----------
    mark
        The mark, face up. [mm]

    Returns
    -------
    Mark
        The same measurement with left and right changed over. [mm]

    Notes
    -----
    Turned over like the page of a book a module changes left and right; bottom and top stay.
    Source: own derivation.

    Examples
    --------
    >>> face_down(Mark(what="left", start="top", value=120.0, detail="bottom"))
    Mark(what='right', start='top', value=120.0, detail='bottom')
    """
    return replace(
        mark,
        what=_over(mark.what),
        start=over_side(mark.start),
        detail=mark.detail if mark.what in _NAMED else _over(mark.detail),
    )


def over_side(side: Side) -> Side:
    """Return a side of a module as it lies face down.

    Parameters
    ----------
    side
        The side, face up.

    Returns
    -------
    str
        Left for right and right for left.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> over_side("left"), over_side("top")
    ('right', 'top')
    """
    return _OVER.get(side, side)


_OVER: dict[str, Side] = {"left": "right", "right": "left"}
_NAMED = frozenset({"hole", "check", "corner"})
"""Marks whose detail is a name, and not a side."""


def _over(words: str) -> str:
    return " ".join(_OVER.get(word, word) for word in words.split())


_QUADRILATERAL = 4


def _start(pair: tuple[Side, Side], keeps: Sequence[Side], bared: set[Side]) -> Side:
    """Return the side to measure from: one that is kept, or at least not cut."""
    near, far = pair
    if near in keeps or far in keeps:
        return near if near in keeps else far
    return far if far in bared and near not in bared else near


def _from(side: Side, point: Point, face: tuple[float, float]) -> float:
    """Distance of a point from one edge of the module. [mm]."""
    x, y = point
    return {"left": x, "right": face[0] - x, "bottom": y, "top": face[1] - y}[side]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """A module to be marked, and the edges to measure from: `across` and `up`. [mm]."""

    across: Side
    up: Side
    face: tuple[float, float]
    keeps: Sequence[Side]

    def both(self, what: str, point: Point, detail: str) -> Iterator[Mark]:
        """Yield the two marks of a point."""
        for start in (self.across, self.up):
            yield Mark(what=what, start=start, value=_from(start, point, self.face), detail=detail)


def _straight(edge: PieceEdge, bench: _Bench) -> Iterator[Mark]:
    upright = edge.side in UPRIGHT
    if is_steep(edge):
        # At 45 degrees either side is as near: read it at the two edges that it meets.
        ends = [_touched(end, bench.face) for end in (edge.start, edge.end)]
        upright = not all(UPRIGHT & {*end} for end in ends)
    elif upright:
        edge = _drawn_out(edge, bench.face)
    axis = 1 if upright else 0
    low, high = sorted((edge.start, edge.end), key=lambda point: point[axis])
    names = ("bottom", "top") if upright else ("left", "right")
    start = bench.across if upright else bench.up
    waste = _waste(edge)[0 if upright else 1]
    for name, point in zip(names, (low, high), strict=True):
        yield Mark(what=name, start=start, value=_from(start, point, bench.face), detail=waste)


def _drawn_out(edge: PieceEdge, face: tuple[float, float]) -> PieceEdge:
    """Draw an upright cut out to the bottom and the top of the module."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    lean = (x1 - x0) / (y1 - y0)
    ends = [(x0 + lean * (y - y0), y) for y in (0.0, face[1])]
    start, end = ends if y1 > y0 else ends[::-1]
    return replace(edge, start=start, end=end)


def _drawn_across(edge: PieceEdge, around: Box, lengths: Sequence[PieceEdge]) -> PieceEdge:
    """Draw a level cut out to the two ends of the piece, on the lines of its length."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    fall = (y1 - y0) / (x1 - x0)
    at = {"left": (around.left, 0.0), "right": (around.right, 0.0)}
    for cut in lengths:
        (u0, v0), (u1, v1) = cut.start, cut.end
        lean = (u1 - u0) / (v1 - v0)
        at[cut.side] = (u0 - lean * v0, lean)
    ends = []
    for x, lean in (at["left"], at["right"]):
        # Where x + lean * y meets y0 + fall * (x - x0).
        y = (y0 + fall * (x - x0)) / (1 - fall * lean)
        ends.append((x + lean * y, y))
    start, end = ends if x1 > x0 else ends[::-1]
    return replace(edge, start=start, end=end)


def _touched(point: Point, face: tuple[float, float]) -> list[Side]:
    """Return the edges of the module that a point lies on."""
    return [side for side in OPPOSITE if abs(_from(side, point, face)) <= SNAP]


def _ends_inside(edge: PieceEdge, face: tuple[float, float]) -> bool:
    """Tell whether a cut on the slant has an end that is on no edge of the module."""
    return is_steep(edge) and not all(_touched(end, face) for end in (edge.start, edge.end))


def _slants(edge: PieceEdge, face: tuple[float, float]) -> bool:
    """Tell whether a cut runs on the slant, from an upright edge of the module to a level one."""
    ends = [{side in UPRIGHT for side in _touched(p, face)} for p in (edge.start, edge.end)]
    meets = (True in ends[0] and False in ends[1]) or (False in ends[0] and True in ends[1])
    return is_steep(edge) and meets


def _waste(edge: PieceEdge) -> tuple[Side, Side]:
    """Return on which side of a cut the waste lies: across, and up.

    Outer rings run anticlockwise, so that it lies to the right of the way along.
    """
    (x0, y0), (x1, y1) = edge.start, edge.end
    return "right" if y1 > y0 else "left", "bottom" if x1 > x0 else "top"


def _slanted(edge: PieceEdge, bench: _Bench) -> Iterator[Mark]:
    """Yield where a cut on the slant meets an upright and a level edge of the module."""
    across_waste, up_waste = _waste(edge)
    ends = [(p, side) for p in (edge.start, edge.end) for side in _touched(p, bench.face)]
    # From corner to corner of the module each end lies on two edges: one of them is kept.
    ends.sort(key=lambda end: end[1] not in bench.keeps)
    for upright in (False, True):
        point, side = next(end for end in ends if (end[1] in UPRIGHT) == upright)
        start = bench.up if upright else bench.across
        yield Mark(
            what=f"along {side}",
            start=start,
            value=_from(start, point, bench.face),
            detail=up_waste if upright else across_waste,
        )


def _parts(region: Region, cuts: Sequence[PieceEdge], bench: _Bench) -> Iterator[Mark]:
    """Yield straight cuts, then bites, then the points of all other cuts."""
    parts = outline_of(region, cuts, bench.face)
    own = bounds_of(region.rings)
    lengths = [edge for edge in parts.straight if edge.side in UPRIGHT]
    for edge in parts.straight:
        # A notch that bites into its end comes later: the height is read at the piece's own end.
        line = edge if edge.side in UPRIGHT else _drawn_across(edge, own, lengths)
        yield from _straight(line, bench)
    for bite in parts.bites:
        what = "notch" if len(bite.corners) == 1 else "u-cut"
        for corner in sorted(bite.corners):
            yield from bench.both(what, corner, " ".join(bite.sides))
    named = [("scribe", f"{side} ", run) for side, run in parts.scribed]
    named += [("corner", "", run) for run in parts.runs]
    for place, (what, side, run) in enumerate(named):
        for number, point in enumerate(run, start=1):
            yield from bench.both(what, point, f"{side}{letters(place)}{number}")


def _hole(hole: PieceHole, bench: _Bench) -> Iterator[Mark]:
    centre = (hole.x, hole.y)
    yield from bench.both("hole", centre, hole.name)
    far = replace(bench, across=OPPOSITE[bench.across], up=OPPOSITE[bench.up])
    yield from far.both("check", centre, hole.name)
