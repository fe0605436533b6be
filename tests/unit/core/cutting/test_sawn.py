"""Where a piece lies in what is left of its module, by hand."""

from gaugerod.core.cutting.bound import Need
from gaugerod.core.cutting.rooms import LEFT, RIGHT, Kind, Leaf, Room
from gaugerod.core.cutting.sawn import Bench, saw


def test_a_piece_that_sheds_both_ends_lies_clear_of_both() -> None:
    room = Room(width=1200, height=600, kerf=6, kinds=(), demand=())
    bench = Bench(room=room, unit=0.5, size=(600.0, 300.0), kerf=3.0, shed_by=8.0, product="m")
    need = Need(
        tag="B1-2",
        width=400.0,
        height=300.0,
        keeps=frozenset(),
        sheds=frozenset({"left", "right"}),
        shed_by=8.0,
    )
    kind = Kind(800, 600, 0, LEFT | RIGHT, (16, 0))
    stock, cuts = saw(Leaf(0), [(need, kind)], bench, stock=bench.module(1))
    # 8 come off at the left; at the right 600 - 8 - 400 - 3 are left over.
    assert stock.pieces[0].at == (8.0, 0.0)
    assert [(rest.at, rest.size) for rest in stock.offcuts] == [
        ((0.0, 0.0), (5.0, 300.0)),
        ((411.0, 0.0), (189.0, 300.0)),
    ]
    assert cuts == 2
