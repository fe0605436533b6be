"""What is left on site for repairs, and what layouts waste.

Trade magazine, November 2016: tileletter.s3-website-us-east-1.amazonaws.com/201611/inc/html/28.html
(found): waste of tile is 5 to 15 % by layout and pattern, and commercial specifications often ask
for 5 % of attic stock to be left on site. Waste is counted here, piece by piece, and no share.
"""

import pytest
from tests.laid_by_hand import cut_plan, field, grouted, layout, rectangle, wall, walls

from gaugerod.core.takeoff.count import take_off


@pytest.mark.parametrize(("modules", "attic"), [(100, 5), (36, 2), (41, 3), (20, 1), (0, 0)])
def test_five_per_cent_is_left_in_whole_tiles(modules: int, attic: int) -> None:
    region = rectangle(left=0, bottom=0, right=1500, top=1200)
    on = layout(field("B", region, ends=("butts", "butts")))
    order = take_off(
        (),
        cut_plan(modules=modules),
        on,
        walls(wall("B", width=1500, ceiling=1400)),
        grouted(attic=0.05, breakage=0, spares=0),
    )
    assert order.spares == attic
    assert order.boxes == -(-(modules + attic) // 8)
