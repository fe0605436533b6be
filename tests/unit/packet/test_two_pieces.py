from tests.property.alcoves import grouted
from tests.unit.core.cutting.outlines import FACE, U_BELOW, piece_of

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.job.sample import sample_system
from gaugerod.packet.two_pieces import better_two

TILE = grouted(face=FACE, joint=3.0, kerf=2.0, gap=3.0)


def test_a_u_of_tile_is_offered_as_two_pieces(millimetres: Catalogue) -> None:
    (said,) = better_two(piece_of(U_BELOW), TILE, millimetres)
    assert said == (
        "U with 180 mm left behind it: it may crack at its inner corners. "
        "Better two pieces, with a joint 300 mm from the module's LEFT."
    )


def test_a_u_of_a_keyed_module_says_why_it_is_one_piece(millimetres: Catalogue) -> None:
    (said,) = better_two(piece_of(U_BELOW), sample_system(), millimetres)
    assert said.startswith("U with 180 mm left behind it: two pieces would meet without a key.")
