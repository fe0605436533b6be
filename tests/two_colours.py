"""Invented tiles that differ in colour alone, and one wall laid by hand to count them on."""

from collections.abc import Sequence
from dataclasses import replace

from tests.laid_by_hand import field, layout, rectangle, wall, walls

from gaugerod.core.cutting.cut_up import CutUp, cut_up
from gaugerod.core.job.document import Accent, OffcutAtHand
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Accented, Products
from gaugerod.core.job.sample import sample_tile

PLAIN = sample_tile()  # 597 by 297, joints of 3, a cut takes 2
SLATE = PLAIN.model_copy(update={"id": "slate", "name": "Slate tile", "per_box": 4})
GREEN = PLAIN.model_copy(update={"id": "green", "name": "Green tile"})
COURSES = 6


def accented(of: System, **where: object) -> Accented:
    """A row of the table of other products, and its product."""
    return Accented(where=Accent.model_validate({"material": of.id, **where}), system=of)


def products(*others: Accented, main: System = PLAIN) -> Products:
    return Products(main=main, accented=others)


def on_one_wall(of: Products, *, width: float, at_hand: Sequence[OffcutAtHand] = ()) -> CutUp:
    """Six whole courses in stack bond on a wall, each begun with a whole tile at the left."""
    gross = rectangle(left=0, bottom=0, right=width, top=COURSES * 300 - 3)
    plain = layout(field("B", gross, (gross,), ends=("open", "open")))
    on = replace(plain.walls[0], phase=0.0, row_shift=0.0)
    laid = replace(
        plain,
        product=of.main.id,
        turn="lying",
        face=(597, 297),
        pitch=(600, 300),
        first_course=297,
        walls=(on,),
    )
    room = walls(wall("B", width=width, ceiling=COURSES * 300))
    return cut_up(laid, room, of, at_hand=tuple(at_hand))
