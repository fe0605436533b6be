"""A layout cut up: its pieces on walls and inside openings, and what gives them."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from gaugerod.core.cutting.insides import make_insides, pieces_inside
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import CutPlan, Inside, Piece
from gaugerod.core.cutting.products import plan_products, with_products
from gaugerod.core.job.document import OffcutAtHand
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Products
from gaugerod.core.setout.layout import Layout
from gaugerod.core.survey.walls import Walls

MakePieces: TypeAlias = Callable[[Layout, Walls, System], tuple[Piece, ...]]
"""`make_pieces`, or what makes the same sooner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutUp:
    """Pieces on walls, inside faces with theirs, and the plan that gives them all."""

    pieces: tuple[Piece, ...]
    insides: tuple[Inside, ...]
    cuts: CutPlan

    @property
    def every(self) -> tuple[Piece, ...]:
        """All pieces in the order of setting."""
        return (*self.pieces, *pieces_inside(self.insides))


def cut_up(
    layout: Layout,
    walls: Walls,
    products: Products,
    *,
    proven: bool = True,
    at_hand: tuple[OffcutAtHand, ...] = (),
    make: MakePieces = make_pieces,
) -> CutUp:
    """Make the pieces of a layout, each of its product, and plan what gives them.

    Parameters
    ----------
    layout
        The set-out. [mm]
    walls
        The surveyed alcove. [mm]
    products
        The products, and where they stand. [mm]
    proven
        Whether to look for the fewest modules, and prove them; else a plan is made at once.
    at_hand
        Offcuts from elsewhere, used before a module is begun. [mm]
    make
        What makes the pieces on the walls.

    Returns
    -------
    CutUp
        Pieces and plan. [mm]

    Raises
    ------
    LayoutError
        Nothing is left between the linings of an opening.
    MaterialError
        A piece is larger than the module, or would keep both ends of one that is longer.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> made = cut_up(layout, walls, Products(main=system))
    >>> len(made.every) == len(make_pieces(layout, walls, system))
    True
    """
    pieces = with_products(make(layout, walls, products.main), products)
    insides = make_insides(layout, walls, products.main, accented=products.accented)
    every = (*pieces, *pieces_inside(insides))
    cuts = plan_products(every, products, proven=proven, at_hand=at_hand)
    return CutUp(pieces=pieces, insides=insides, cuts=cuts)
