"""A lower bound on the modules that any plan of cuts must use."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.job.fields import Side


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """The box round a piece, the factory edges it must keep, the grooves it must shed. [mm].

    A groove is shed where the piece lies `shed_by` or more from the module's edge. [mm].
    """

    tag: str
    width: float
    height: float
    keeps: frozenset[Side]
    sheds: frozenset[Side] = frozenset()
    shed_by: float = 0.0


def lower_bound(needs: Sequence[Need], *, size: tuple[float, float], kerf: float) -> int:
    """Return a number of modules that no plan of cuts can go under.

    Parameters
    ----------
    needs
        Boxes to cut. [mm]
    size
        Width and height of the module. [mm]
    kerf
        Width of a cut. [mm]

    Returns
    -------
    int
        The bound.

    Notes
    -----
    The largest of four. Corners: a module has one of each, so pieces that keep the same
    two adjoining edges all need modules of their own. Area: boxes grown by the kerf against
    the module grown by the kerf, with sizes first put through dual feasible functions, which
    count a piece over half as more than its size. Edges: a module's edge is as long as it
    is, so lengths kept on it, with kerfs, must fit. Pairs: two pieces each over half the
    module's height can only lie side by side, and at most one of them at either end; so
    those that keep an end need as many modules as they are, less the pairs of a left and a
    right one that fit; the same for wide pieces one above the other. Source: S. Martello
    and D. Vigo, *Exact solution of the two-dimensional finite bin packing problem* (1998),
    section 3; the edge, corner and pair bounds are own derivations.

    Examples
    --------
    Three pieces that each keep the lower left corner:

    >>> piece = Need(tag="a", width=100, height=100, keeps=frozenset({"left", "bottom"}))
    >>> lower_bound([piece] * 3, size=(600, 300), kerf=3)
    3
    """
    if not needs:
        return 0
    tall = [(n.height, n.width, "left" in n.keeps, "right" in n.keeps) for n in needs]
    wide = [(n.width, n.height, "bottom" in n.keeps, "top" in n.keeps) for n in needs]
    return max(
        _corners(needs),
        _edges(needs, size, kerf),
        _areas(needs, size, kerf),
        _pairs(tall, across=size[1], along=size[0], kerf=kerf),
        _pairs(wide, across=size[0], along=size[1], kerf=kerf),
    )


def _pairs(
    parts: Sequence[tuple[float, float, bool, bool]], *, across: float, along: float, kerf: float
) -> int:
    """Bound by what cannot share: `parts` are (size across, size along, keeps start, keeps end)."""
    big = [part for part in parts if part[0] > (across - kerf) / 2 + SNAP]
    alone = sum(1 for _, _, start, end in big if start and end)
    starts = sorted((size for _, size, start, end in big if start and not end), reverse=True)
    ends = sorted(size for _, size, start, end in big if end and not start)
    paired = 0
    for size in starts:
        # The widest takes the narrowest that is left: if that does not fit, none does.
        if paired < len(ends) and size + kerf + ends[paired] <= along + SNAP:
            paired += 1
    return alone + len(starts) + len(ends) - paired


def _corners(needs: Sequence[Need]) -> int:
    sides: tuple[tuple[Side, Side], ...] = (
        ("left", "bottom"),
        ("left", "top"),
        ("right", "bottom"),
        ("right", "top"),
    )
    return max(sum(1 for n in needs if set(pair) <= n.keeps) for pair in sides)


def _edges(needs: Sequence[Need], size: tuple[float, float], kerf: float) -> int:
    bounds = [0]
    for axis, sides in ((0, ("bottom", "top")), (1, ("left", "right"))):
        for side in sides:
            lengths = Counter((n.width, n.height)[axis] for n in needs if side in n.keeps)
            shares, one = _shares(lengths, size[axis] + kerf, kerf)
            sums = (sum(shares[x][k] * count for x, count in lengths.items()) for k in _STEPS)
            bounds += (-(-total // one) for total in sums)
    return max(bounds)


def _areas(needs: Sequence[Need], size: tuple[float, float], kerf: float) -> int:
    sizes = Counter((n.width, n.height) for n in needs)
    wide, across = _shares({x for x, _ in sizes}, size[0] + kerf, kerf)
    high, up = _shares({y for _, y in sizes}, size[1] + kerf, kerf)
    return max(
        -(-sum(wide[x][i] * high[y][j] * count for (x, y), count in sizes.items()) // (across * up))
        for i in _STEPS
        for j in _STEPS
    )


_STEPS = (0, 1, 2, 3)
_SIXTHS = 6
"""What halves and thirds are whole numbers of. [1]"""


def _shares(
    lengths: Iterable[float], whole: float, kerf: float
) -> tuple[dict[float, tuple[int, ...]], int]:
    """Return a dual feasible function of each length for each step, and what stands for one.

    If parts sum to at most one, so do their images: ``u_k(x) = x`` where ``(k + 1) x`` is
    whole, else ``floor((k + 1) x) / k``; ``u_0(x) = x``. All are whole numbers of one small
    part, so that sums are exact. Source: S. P. Fekete and J. Schepers, *New classes of fast
    lower bounds for bin packing problems* (2001).
    """
    parts = {length: Fraction(max(length + kerf - SNAP, 0.0)) for length in lengths}
    most = Fraction(whole)
    units = lcm(most.denominator, *(part.denominator for part in parts.values()))
    one = int(most * units)
    images = {
        length: tuple(_share(int(part * units), one, k) for k in _STEPS)
        for length, part in parts.items()
    }
    return images, one * _SIXTHS


def _share(part: int, one: int, k: int) -> int:
    steps, rest = divmod(part * (k + 1), one)
    return steps * one * _SIXTHS // k if k and rest else part * _SIXTHS
