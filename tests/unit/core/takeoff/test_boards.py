import pytest
from tests.laid_by_hand import field, rectangle

from gaugerod.core.base.geometry import Region
from gaugerod.core.job.goods import Backer
from gaugerod.core.setout.layout import Meeting, SetField
from gaugerod.core.takeoff.boards import lay_boards
from gaugerod.core.takeoff.order import Boards

ENDS: tuple[Meeting, Meeting] = ("butts", "butts")


def on(*sizes: tuple[float, float]) -> list[SetField]:
    """Walls of these widths and heights, from left to right."""
    return [
        field("B", rectangle(left=10, bottom=5, right=10 + wide, top=5 + high), ends=ENDS)
        for wide, high in sizes
    ]


def laid(fields: list[SetField], **changes: object) -> Boards:
    board = {"name": "Board", "size": (1500, 900), "price": 14}
    return lay_boards(fields, Backer.model_validate(board | changes))


def test_a_wall_of_whole_boards() -> None:
    assert laid(on((1500, 1800))) == Boards(count=2, pieces=2, seams=1500, corners=0)


def test_what_is_left_of_one_board_is_used_again() -> None:
    # Two end walls 700 wide: from each board come two pieces of 700 x 900, so two boards do
    # for the four pieces; each wall has one level seam, and the corner between them.
    found = laid(on((700, 1800), (700, 1800)), lies="lying")
    assert found == Boards(count=2, pieces=4, seams=1400, corners=1800)


def test_pieces_that_leave_too_little_take_a_board_each() -> None:
    # 800 of 1500 leaves 700: an alcove of 1500 and two ends of 800 by 1800 takes six.
    found = laid(on((800, 1800), (1500, 1800), (800, 1800)), lies="lying")
    assert (found.count, found.pieces, found.corners) == (6, 6, 3600)


def test_either_way_takes_the_fewest() -> None:
    wall = on((900, 1500))  # one board on end, two lying
    assert laid(wall, lies="lying").count == 2
    assert laid(wall, lies="standing") == Boards(count=1, pieces=1, seams=0, corners=0)
    assert laid(wall) == laid(wall, lies="standing")


def test_boards_alike_in_number_leave_the_less_to_tape() -> None:
    for size in ((1800, 900), (1600, 1600), (1700, 1000), (2400, 1800)):
        ways = [laid(on(size), lies=lies) for lies in ("lying", "standing")]
        assert laid(on(size)) in ways
        chosen = laid(on(size))
        assert (chosen.count, chosen.seams) == min((way.count, way.seams) for way in ways)


def test_gaps_between_boards_count() -> None:
    # 3000 is two boards of 1500, or two with a gap of 3 and 1497.
    assert laid(on((3000, 900)), lies="lying").count == 2
    gapped = laid(on((3000, 900)), lies="lying", gap=3)
    assert (gapped.count, gapped.pieces) == (2, 2)
    assert laid(on((3004, 900)), lies="lying", gap=3).pieces == 3


def test_inch_boards_on_inch_walls_fit_to_the_hair() -> None:
    inch = 25.4
    found = laid(on((60 * inch, 72 * inch)), size=(60 * inch, 36 * inch))
    assert (found.count, found.pieces) == (2, 2)


def test_a_corner_is_as_high_as_the_higher_wall() -> None:
    assert laid(on((700, 1800), (700, 1750))).corners == 1800


def test_a_stepped_deck_is_boarded_by_its_box() -> None:
    steps = Region(rings=(((0, 0), (900, 0), (900, 100), (1500, 100), (1500, 900), (0, 900)),))
    assert laid([field("B", steps, ends=ENDS)]).count == 1


@pytest.mark.parametrize(("width", "pieces"), [(1500.0, 1), (1500.00005, 1), (1500.5, 2)])
def test_noise_adds_no_board(width: float, pieces: int) -> None:
    assert laid(on((width, 900)), lies="lying").pieces == pieces
