"""Bodies: closed, the right way out, as large as they should be."""

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from tests.laid_by_hand import field, keyed, layout, opening, rectangle, wall, walls
from tests.laid_by_hand import piece as hand_piece

from gaugerod.core.base.geometry import Region
from gaugerod.core.sheet.solids import Body, model_of, skin, slab
from gaugerod.core.sheet.space import Alcove, Frame
from gaugerod.core.survey.walls import FittedWall

WALL = Frame(origin=(0, 1000, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
SQUARE = ((0.0, 0.0), (600.0, 0.0), (600.0, 300.0), (0.0, 300.0))
HOLE = ((100.0, 100.0), (100.0, 200.0), (200.0, 200.0), (200.0, 100.0))
NOTCHED = ((0.0, 0.0), (600.0, 0.0), (600.0, 100.0), (200.0, 100.0), (200.0, 300.0), (0.0, 300.0))


def volume(body: Body) -> float:
    """By the divergence theorem: minus where a body is inside out. [mm3]."""
    points = np.array(body.points)
    a, b, c = (points[[triangle[corner] for triangle in body.triangles]] for corner in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)


def is_closed(body: Body) -> bool:
    """Every edge is run along once each way."""
    runs = Counter((t[i], t[(i + 1) % 3]) for t in body.triangles for i in range(3))
    return all(number == 1 and runs[b, a] == 1 for (a, b), number in runs.items())


@pytest.mark.parametrize(
    ("rings", "area"),
    [
        ((SQUARE,), 600 * 300),
        ((SQUARE, HOLE), 600 * 300 - 100 * 100),
        ((NOTCHED,), 600 * 100 + 200 * 200),
    ],
)
def test_a_piece_is_closed_and_as_large_as_its_area_by_its_thickness(
    rings: tuple[tuple[tuple[float, float], ...], ...], area: float
) -> None:
    body = slab("B1-1", Region(rings=rings), WALL, thick=8.0)
    assert is_closed(body)
    assert volume(body) == pytest.approx(area * 8.0)
    ys = [y for _, y, _ in body.points]
    assert (min(ys), max(ys)) == (1000.0, 1008.0)


def test_a_skin_faces_the_room() -> None:
    body = skin("wall B", "wall", Region(rings=(SQUARE, HOLE)), WALL)
    points = np.array(body.points)
    a, b, c = (points[[triangle[corner] for triangle in body.triangles]] for corner in range(3))
    areas = np.cross(b - a, c - a) / 2
    assert np.all(areas[:, 1] < 0)
    assert -areas[:, 1].sum() == pytest.approx(600 * 300 - 100 * 100)


def modelled(*fitted: FittedWall) -> list[Body]:
    fields = [
        field(
            one.name,
            rectangle(left=0, bottom=0, right=one.right.offset, top=1900),
            ends=("butts", "runs behind"),
        )
        for one in fitted
    ]
    piece = hand_piece(rectangle(left=100, bottom=100, right=700, top=400))
    pieces = tuple(replace(piece, wall=one.name, tag=f"{one.name}1-1") for one in fitted)
    alcove = Alcove(
        walls=walls(*fitted), layout=layout(*fields), pieces=pieces, insides=(), system=keyed()
    )
    return list(model_of(alcove, "Alcove").bodies)


L, B, R = (
    wall(name, width=width, ceiling=2000.0)
    for name, width in (("L", 800.0), ("B", 1500.0), ("R", 800.0))
)


def test_pieces_and_tub_are_closed_and_stand_on_the_floor() -> None:
    bodies = {body.name: body for body in modelled(L, B, R)}
    for name in ("L1-1", "B1-1", "R1-1"):
        assert is_closed(bodies[name])
        assert volume(bodies[name]) == pytest.approx(600 * 300 * 9)
    assert is_closed(bodies["tub"])
    assert volume(bodies["tub"]) > 0
    assert min(z for body in bodies.values() for _, _, z in body.points) == 0.0
    # The rim is 400 over a floor that was not read.
    assert max(z for _, _, z in bodies["tub"].points) == pytest.approx(400.0)


def test_a_wall_is_open_where_its_window_is() -> None:
    window = opening("window", left=500, bottom=800, right=1000, top=1600)
    (body,) = (b for b in modelled(replace(B, openings=(window,))) if b.name == "wall B")
    points = np.array(body.points)
    a, b, c = (points[[triangle[corner] for triangle in body.triangles]] for corner in range(3))
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2
    assert area == pytest.approx(1500 * 2000 - 500 * 800)


def test_a_seat_is_a_closed_body_and_no_tub_is_none() -> None:
    steps = ((0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (1000.0, 300.0), (1000.0, 0.0))
    seated = replace(B, deck=(*steps, (1500.0, 0.0)), parts=("rim", "ledge", "rim"))
    bodies = {body.name: body for body in modelled(L, seated, R)}
    # Half of its length out, 300 high.
    assert volume(bodies["seat 1"]) == pytest.approx(500 * 250 * 300)
    assert is_closed(bodies["seat 1"])
    bare = [replace(one, parts=("floor",)) for one in (L, B, R)]
    assert {body.name for body in modelled(*bare)} & {"tub", "basin", "seat 1"} == set()


def test_what_is_of_another_product_is_of_another_stuff() -> None:
    on = wall("B", width=1500, ceiling=1400)
    gross = rectangle(left=0, bottom=0, right=1500, top=1200)
    own = replace(hand_piece(rectangle(left=0, bottom=0, right=600, top=300)), product=keyed().id)
    pieces = (replace(own, tag="own"), replace(own, tag="blue", product="blue"))
    made = Alcove(
        walls=walls(on),
        layout=layout(field("B", gross, ends=("butts", "runs behind"))),
        pieces=pieces,
        insides=(),
        system=keyed(),
    )
    stuff = {body.name: body.stuff for body in model_of(made, "Alcove").bodies}
    assert (stuff["own"], stuff["blue"]) == ("lining", "accent")
