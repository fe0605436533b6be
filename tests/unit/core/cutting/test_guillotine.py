import pytest

from gaugerod.core.cutting.guillotine import Worths
from gaugerod.core.cutting.rooms import LEFT, TOP, Kind, Leaf, Room, leaves, whole


@pytest.mark.parametrize(
    ("room", "most"),
    [
        # Three side by side: 4 + 2 + 4 + 2 + 4 = 16. A second row would need 3 + 2 + 3, and the
        # 3 of the groove over it: 11 of 9.
        (
            Room(width=16, height=9, kerf=2, kinds=(Kind(4, 3, 0, TOP, (3, 3)),), demand=(2,)),
            3,
        ),
        # With 11 there are two rows.
        (
            Room(width=16, height=11, kerf=2, kinds=(Kind(4, 3, 0, TOP, (3, 3)),), demand=(2,)),
            6,
        ),
        # The groove at the left takes 2: 2 + 5 + 1 + 5 = 13, so that in 12 there is one.
        (
            Room(width=12, height=4, kerf=1, kinds=(Kind(5, 4, 0, LEFT, (2, 2)),), demand=(2,)),
            1,
        ),
        (
            Room(width=13, height=4, kerf=1, kinds=(Kind(5, 4, 0, LEFT, (2, 2)),), demand=(2,)),
            2,
        ),
    ],
)
def test_a_piece_that_sheds_a_groove_is_worth_nothing_where_it_would_keep_it(
    room: Room, most: int
) -> None:
    table = Worths(room, (1,))
    cut = [leaf for leaf, _ in leaves(table.pattern(), whole(room), room.kerf) if leaf]
    assert table.most == most
    assert cut == [Leaf(0)] * most
