"""Inside faces as pieces: on joints of the wall, in equal parts, turned, clear of grooves."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest
from tests.laid_by_hand import field, grouted, keyed, layout, opening, rectangle, wall, walls

from gaugerod.core.base.geometry import shape_of
from gaugerod.core.cutting.insides import make_insides, pieces_inside
from gaugerod.core.cutting.pieces import Inside, Piece
from gaugerod.core.job.document import Accent
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Accented
from gaugerod.core.setout.bonded import pattern_of
from gaugerod.core.setout.lattice import module_side
from gaugerod.core.setout.layout import Layout, placed_pattern
from gaugerod.core.setout.pattern import Pattern

GROSS = rectangle(left=0, bottom=0, right=1500, top=1200)


def laid(system: System, *, pattern: Pattern | None = None) -> Layout:
    """Courses of the module from nought, a joint of the wall at nought."""
    (width, height), (across, up) = system.face, system.joint
    plain = layout(field("B", GROSS, (GROSS,), ends=("open", "open")))
    on = replace(plain.walls[0], phase=across / 2, row_shift=0.0)
    return replace(
        plain,
        turn="lying",
        face=system.face,
        pitch=(width + across, height + up),
        first_course=height + up / 2,
        walls=(on,),
        pattern=pattern,
    )


def made(
    system: System,
    *,
    size: tuple[float, float],
    depth: float | None = 90.0,
    at: tuple[float, float] = (400.0, 400.0),
    kind: str = "niche",
    of: Layout | None = None,
) -> dict[str, Inside]:
    left, bottom = at
    right, top = left + size[0], bottom + size[1]
    box = opening(kind, left=left, bottom=bottom, right=right, top=top)
    hole = replace(box, lined=True, depth=depth)
    on = wall("B", width=1500, ceiling=1400, openings=(hole,))
    return {found.face: found for found in make_insides(of or laid(system), walls(on), system)}


def lined_plain(system: System) -> System:
    """The same without gaps and lining, so that faces are as large as the opening."""
    gaps = system.gaps.model_copy(update={"corner": 0.0, "butt": 0.0})
    return system.model_copy(update={"thickness": 1e-6, "bed": 0.0, "gaps": gaps})


def sizes(inside: Inside) -> list[tuple[float, float]]:
    return [(round(p.size[0], 1), round(p.size[1], 1)) for p in inside.pieces]


def test_five_faces_of_one_piece_each_are_tagged_by_wall_opening_and_face() -> None:
    found = made(grouted(), size=(350.0, 250.0))
    tags = [piece.tag for piece in pieces_inside(found.values())]
    faces = ["sill", "head", "left", "right", "back"]
    assert tags == [f"B-niche-{face}" for face in faces]
    assert [inside.name for inside in found.values()] == [f"B niche {face}" for face in faces]
    for piece in pieces_inside(found.values()):
        assert (piece.keeps, piece.holes, piece.whole) == ((), (), False)
        assert piece.wall == piece.tag.replace("-", " ")
    # Only the back waits for the others.
    assert [p.tag for p in pieces_inside(found.values()) if p.measure_in_place] == ["B-niche-back"]


@pytest.mark.parametrize("change", [{"depth": None}, {"lined": False}])
def test_what_is_not_lined_or_not_read_has_no_faces(change: dict[str, Any]) -> None:
    box = opening("niche", left=400, bottom=400, right=750, top=650)
    hole = replace(replace(box, lined=True, depth=90.0), **change)
    on = wall("B", width=1500, ceiling=1400, openings=(hole,))
    assert make_insides(laid(grouted()), walls(on), grouted()) == ()


def test_a_window_has_four() -> None:
    assert list(made(grouted(), size=(400.0, 250.0), kind="window")) == [
        "sill",
        "head",
        "left",
        "right",
    ]


def test_a_face_of_two_courses_is_parted_on_the_course_line() -> None:
    # Modules of 597 by 297 with joints of 3: a line at 600, the niche from 450 to 850.
    system = lined_plain(grouted())
    back = made(system, size=(350.0, 400.0), at=(400.0, 450.0))["back"]
    low, high = back.pieces
    assert (low.tag, high.tag) == ("B-niche-back-1-1", "B-niche-back-2-1")
    # 600 less half a joint, over the sill that has risen to 90 / 48 at the back.
    assert shape_of(low.region).bounds[3] == pytest.approx(600 - 1.5 - 450 - 90 / 48, abs=1e-3)
    assert shape_of(high.region).bounds[1] == pytest.approx(600 + 1.5 - 450 - 90 / 48, abs=1e-3)


def test_a_wide_face_is_parted_on_the_joint_of_the_wall() -> None:
    # A joint at 600: the niche from 250 to 900 is wider than a module.
    sill = made(lined_plain(grouted()), size=(650.0, 250.0), at=(250.0, 300.0))["sill"]
    assert [p.tag for p in sill.pieces] == ["B-niche-sill-1-1", "B-niche-sill-1-2"]
    assert [shape_of(p.region).bounds[::2] for p in sill.pieces] == [
        pytest.approx((0, 600 - 1.5 - 250)),
        pytest.approx((600 + 1.5 - 250, 650)),
    ]


def test_where_a_joint_leaves_too_little_it_is_parted_in_the_middle() -> None:
    # The joint at 600 would leave a piece of 30 - 1.5 where 50 is the least.
    system = lined_plain(grouted())
    system = system.model_copy(update={"cutting": system.cutting.model_copy(update={"least": 50})})
    sill = made(system, size=(650.0, 250.0), at=(570.0, 300.0))["sill"]
    assert [width for width, _ in sizes(sill)] == [(650 - 3) / 2] * 2


def test_a_pattern_gives_no_joints_to_part_on() -> None:
    system = lined_plain(grouted())
    pattern = pattern_of(system, "herringbone", "lying")
    of = laid(system, pattern=pattern)
    assert placed_pattern(of, of.walls[0]) is not None
    found = made(system, size=(650.0, 250.0), at=(250.0, 300.0), of=of)
    assert [width for width, _ in sizes(found["sill"])] == [(650 - 3) / 2] * 2


def test_a_face_that_fits_when_turned_is_turned() -> None:
    # 350 high is more than the 297 of a lying module, and less than its 597.
    left = made(lined_plain(grouted()), size=(400.0, 350.0))["left"]
    (piece,) = left.pieces
    assert piece.turn == 90
    assert piece.size == pytest.approx((350.0, 90.0), abs=0.01)
    # Standing modules lie so first.
    on = laid(lined_plain(grouted()))
    standing = replace(on, turn="standing", face=on.face[::-1], pitch=on.pitch[::-1])
    sill = made(lined_plain(grouted()), size=(250.0, 250.0), of=standing)["sill"]
    assert sill.pieces[0].turn == 90


def test_a_side_is_measured_from_its_square_top() -> None:
    (piece,) = made(lined_plain(grouted()), size=(400.0, 250.0))["left"].pieces
    heights = {mark.what: mark.value for mark in piece.marks if mark.start == "top"}
    # Full at the front, shorter at the back by the rise of the sill over 90.
    assert heights["left"] == pytest.approx(250.0, abs=0.01)
    assert heights["right"] == pytest.approx(250.0 - 90 / 48, abs=0.01)
    assert {mark.start for mark in piece.marks} == {"left", "top"}


# What another face laps, the ends of sill and head and the edges at the back, may keep a groove.
SHOWN: dict[str, tuple[Side, ...]] = {
    "sill": ("bottom",),
    "head": ("top",),
    "left": ("left", "bottom", "top"),
    "right": ("right", "bottom", "top"),
    "back": ("left", "right", "bottom", "top"),
}


def with_grooves_off() -> System:
    cutting = keyed().cutting.model_copy(update={"groove_off": 12.7})
    return keyed().model_copy(update={"cutting": cutting})


def room_beside(piece: Piece) -> dict[Side, float]:
    """How much of the module lies beyond each side of a piece. [mm]."""
    (width, height), box = piece.face, piece.within
    return {
        "left": box.left,
        "right": width - box.right,
        "bottom": box.bottom,
        "top": height - box.top,
    }


@pytest.mark.parametrize("size", [(350.0, 250.0), (300.0, 350.0), (590.0, 250.0)])
def test_keyed_pieces_lie_clear_of_the_grooves_that_would_show(size: tuple[float, float]) -> None:
    system = with_grooves_off()
    for face, inside in made(system, size=size).items():
        (piece,) = inside.pieces
        turn: Turn = "standing" if piece.turn else "lying"
        room = room_beside(piece)
        for side in (module_side(side, turn) for side in SHOWN[face]):
            if system.edges[side] == "groove":
                assert room[side] >= 12.7 - 1e-9
        assert all(
            edge.kind != "factory" or edge.side in {"left", "bottom"} for edge in piece.edges
        )


def test_a_sill_keeps_the_groove_that_the_sides_lap() -> None:
    # 606 less two gaps of 3 is the module's own 600: with its groove it is one piece.
    system = with_grooves_off()
    gaps = system.gaps.model_copy(update={"corner": 3.0})
    system = system.model_copy(update={"gaps": gaps})
    sill = made(system, size=(606.0, 250.0))["sill"]
    (piece,) = sill.pieces
    assert (piece.within.left, piece.within.right) == pytest.approx((0.0, 600.0))
    ends = {edge.side: edge.kind for edge in piece.edges}
    assert (ends["left"], ends["right"], ends["bottom"]) == ("factory", "tongue off", "cut")
    # A hair wider and it is two, neither with a groove in the middle.
    both = made(system, size=(607.0, 250.0))["sill"].pieces
    assert [room_beside(piece)["left"] for piece in both] == pytest.approx([0.0, 12.7])


def test_parts_of_a_keyed_face_touch() -> None:
    back = made(lined_plain(keyed()), size=(650.0, 250.0))["back"]
    whole = shape_of(back.region)
    assert sum(shape_of(p.region).area for p in back.pieces) == pytest.approx(whole.area)


# --- of other products --------------------------------------------------------------------------


def in_a_niche(*rows: Mapping[str, object]) -> dict[str, Inside]:
    """The faces of a niche of 300 by 300, with small tile where these rows of the table say so."""
    system = grouted()
    small = system.model_copy(update={"id": "small", "face": (150.0, 75.0)})
    box = opening("niche", left=400, bottom=400, right=700, top=700)
    on = walls(
        wall("B", width=1500, ceiling=1400, openings=(replace(box, lined=True, depth=90.0),))
    )
    accented = [
        Accented(where=Accent.model_validate({"material": "small", **row}), system=small)
        for row in rows
    ]
    found = make_insides(laid(system), on, system, accented=accented)
    return {inside.face: inside for inside in found}


def of_small(found: dict[str, Inside]) -> set[str]:
    products = {face: {piece.product for piece in one.pieces} for face, one in found.items()}
    assert all(len(product) == 1 for product in products.values())
    return {face for face, product in products.items() if product == {"small"}}


def test_a_niche_may_be_lined_with_another_product() -> None:
    every = {"sill", "head", "left", "right", "back"}
    assert of_small(in_a_niche()) == set()
    assert of_small(in_a_niche({"inside": "niche"})) == every
    assert of_small(in_a_niche({"inside": "niche", "walls": ("B",)})) == every
    assert of_small(in_a_niche({"inside": "niche", "walls": ("L",)})) == set()
    assert of_small(in_a_niche({"inside": "other"})) == set()
    assert of_small(in_a_niche({"walls": ("B",)})) == set()


def test_or_some_of_its_faces_and_the_later_row_counts() -> None:
    rows = {"inside": "niche", "faces": ("sill", "back")}, {"inside": "niche", "faces": ("head",)}
    assert of_small(in_a_niche(*rows)) == {"sill", "back", "head"}


def test_the_pieces_are_of_the_size_of_their_own_product() -> None:
    large, small = in_a_niche(), in_a_niche({"inside": "niche", "faces": ("back",)})
    assert [face for face in large if large[face] != small[face]] == ["back"]
    assert small["back"].region == large["back"].region
    (whole,) = large["back"].pieces
    assert whole.size[0] > 150
    assert all(max(piece.size) <= 150 and min(piece.size) <= 75 for piece in small["back"].pieces)
    covered = sum(shape_of(piece.region).area for piece in small["back"].pieces)
    assert 0.9 < covered / shape_of(small["back"].region).area < 1
