"""What cutting several pieces from one module saves, and what the kept edges cost of that."""

from collections.abc import Sequence
from dataclasses import dataclass

from gaugerod.core.cutting.fewest import at_once, fewest
from gaugerod.core.cutting.pieces import CutPlan, Piece
from gaugerod.core.cutting.plan import room_without_edges
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Products
from gaugerod.core.takeoff.packages import share_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Reuse:
    """Modules with one piece from each, and those that would seem to do were no edge kept.

    `saved` is the price of the boxes that are not bought because modules give more than one
    piece. [cents]
    """

    alone: int
    edgeless: int
    saved: int


def spares_for(modules: int, system: System) -> int:
    """Return the modules that come on top: for breakage, for the attic, and the spares.

    Parameters
    ----------
    modules
        Modules that the pieces are cut from.
    system
        The material.

    Returns
    -------
    int
        Modules; each share is rounded up by itself.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    One of 35 may break, and one is spare:

    >>> from gaugerod.core.job.sample import sample_system
    >>> spares_for(35, sample_system())
    2
    """
    shares = (system.breakage, system.attic)
    return sum(share_of(modules, share) for share in shares) + system.spares


def boxes_for(modules: int, system: System) -> int:
    """Return the boxes that hold some modules and what comes on top of them.

    Parameters
    ----------
    modules
        Modules that the pieces are cut from.
    system
        The material.

    Returns
    -------
    int
        Whole boxes.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    35 modules, one that may break and one spare, eight to a box:

    >>> from gaugerod.core.job.sample import sample_system
    >>> boxes_for(35, sample_system())
    5
    """
    total = modules + spares_for(modules, system)
    return -(-total // system.per_box)


def reuse_by_product(
    pieces: Sequence[Piece], cuts: CutPlan, products: Products, *, proven: bool = True
) -> tuple[Reuse, ...]:
    """Tell what reuse saves of each product.

    Parameters
    ----------
    pieces
        All pieces, whole ones too. [mm]
    cuts
        How many modules of each product they are cut from.
    products
        The products.
    proven
        Whether to look for the fewest modules without edges; else they are planned at once.

    Returns
    -------
    tuple of Reuse
        One for each product that pieces are of, in the order of the counts. [cents]

    Notes
    -----
    Source: own derivation, see `reuse_of`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> none = CutPlan(stock=(), modules=0, lower_bound=0, proven=True, cuts=0)
    >>> reuse_by_product((), none, Products(main=sample_system()))
    (Reuse(alone=0, edgeless=0, saved=0),)
    """
    if not cuts.counts:
        return (reuse_of(pieces, cuts.modules, products.main, proven=proven),)
    return tuple(
        reuse_of(
            [piece for piece in pieces if piece.product == one.product],
            one.modules,
            products.of(one.product),
            proven=proven,
        )
        for one in cuts.counts
    )


def reuse_of(
    pieces: Sequence[Piece], modules: int, system: System, *, proven: bool = True
) -> Reuse:
    """Tell what reuse saves, and what a plan would claim that ignores which edges are kept.

    Parameters
    ----------
    pieces
        All pieces, whole ones too. [mm]
    modules
        How many modules they are cut from.
    system
        The module, its box and its price.
    proven
        Whether to look for the fewest modules without edges; else they are planned at once.

    Returns
    -------
    Reuse
        Modules either way, and what is saved. [cents]

    Notes
    -----
    Boxes are what is paid for, so that a module saved within a box saves nothing. Source: own
    derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> reuse_of((), 0, sample_system())
    Reuse(alone=0, edgeless=0, saved=0)
    """
    alone = len(pieces)
    bare = room_without_edges(pieces, system)
    edgeless = len((fewest if proven else at_once)(bare).trees)
    boxes = boxes_for(alone, system) - boxes_for(modules, system)
    return Reuse(alone=alone, edgeless=edgeless, saved=boxes * system.price)
