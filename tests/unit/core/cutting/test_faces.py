"""Inside faces of openings, worked by hand on a lining of 3/8 with a bed of 1/16, in inches."""

from math import sqrt

import pytest

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.faces import FaceOutline, outlines
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_system
from gaugerod.core.setout.niche import clear_width
from gaugerod.core.survey.walls import FittedOpening

INCH = 25.4
PLUMB = sqrt(1 + 1 / 48**2)
"""How much longer the sill is along its pitch of 1/4 in per ft than on the level."""


def lining() -> System:
    """3/8 thick on a bed of 1/16; 1/16 to a lapped corner, 1/8 sealed."""
    system = sample_system()
    gaps = system.gaps.model_copy(update={"corner": INCH / 16, "butt": INCH / 8})
    sizes = {"thickness": INCH * 3 / 8, "bed": INCH / 16, "gaps": gaps}
    return system.model_copy(update=sizes)


def opening(kind: str, width: float, height: float, fall: float | None = None) -> FittedOpening:
    """An opening by its bare width and height. [in]."""
    return FittedOpening(
        name=kind,
        kind="niche" if kind == "niche" else "window",
        box=Box(left=900.0, bottom=400.0, right=900.0 + width * INCH, top=400.0 + height * INCH),
        gap=None,
        lined=True,
        fall=fall,
    )


def made(of: FittedOpening, depth: float) -> dict[str, FaceOutline]:
    return {face.face: face for face in outlines(of, depth * INCH, lining(), wall="B")}


def inches(face: FaceOutline) -> list[tuple[float, float]]:
    return [(x / INCH, y / INCH) for x, y in face.ring]


# Stud bay 14-1/2, less 1/2 board and 1/16 shim on both sides: bare 13-3/8; 12 high, 3 deep.
BARE = 13.375
NICHE = opening("niche", BARE, 12.0)


def test_the_back_is_the_clear_width_less_a_joint_on_both_sides() -> None:
    clear = clear_width(lining(), bay=14.5 * INCH, board=INCH / 2, shim=INCH / 16)
    assert clear / INCH == pytest.approx(12.5)
    (_, (right, _), (_, top), _) = inches(made(NICHE, 3.0)["back"])
    assert right == pytest.approx(12.5 - 2 * 1 / 8)
    # 12 less the head 7/16, the sill 1/16 and 3/8 measured plumb, its rise 1/16, two joints.
    assert top == pytest.approx(12 - 7 / 16 - 1 / 16 - 3 / 8 * PLUMB - 1 / 16 - 1 / 4)


def test_sill_and_head_run_the_whole_width_and_come_out_to_the_face_of_the_wall() -> None:
    found = made(NICHE, 3.0)
    # 13-3/8 less two gaps of 1/16; 3 and the wall's lining of 7/16 less the gap at the back.
    deep = 3 + 7 / 16 - 1 / 16
    assert inches(found["head"])[2] == pytest.approx((13.25, deep))
    assert inches(found["sill"])[2] == pytest.approx((13.25, deep * PLUMB))


def test_the_sides_stand_on_a_sill_that_rises_by_a_sixteenth_over_three_inches() -> None:
    found = made(NICHE, 3.0)
    front, deep = 12 - 1 / 16 - 3 / 8 * PLUMB - 7 / 16 - 1 / 4, 3 + 7 / 16 - 1 / 16
    left, right = inches(found["left"]), inches(found["right"])
    corners = [(0.0, 0.0), (deep, deep / 48), (deep, front), (0.0, front)]
    assert left == [pytest.approx(corner) for corner in corners]
    # The other side is the same in a mirror.
    mirrored = [(deep - x, y) for x, y in (corners[1], corners[0], corners[3], corners[2])]
    assert right == [pytest.approx(corner) for corner in mirrored]
    assert 3 / 48 == 1 / 16


def test_a_sill_that_was_built_to_another_fall_is_lined_to_it() -> None:
    flat = made(opening("niche", BARE, 12.0, fall=0.0), 3.0)
    assert inches(flat["left"])[1][1] == 0.0
    steep = made(opening("niche", BARE, 12.0, fall=INCH / 4), 3.0)
    assert inches(steep["left"])[1][1] == pytest.approx(1 / 12 * (3 + 3 / 8))


def test_the_order_of_setting_and_the_joints_that_are_sealed() -> None:
    found = made(NICHE, 3.0)
    assert list(found) == ["sill", "head", "left", "right", "back"]
    deep = 3 + 7 / 16 - 1 / 16
    (_, (width, _), (_, height), _) = inches(found["back"])
    sealed = [found[name].sealed / INCH for name in found]
    assert sealed[:2] == [0.0, 0.0]
    assert sealed[2:4] == [pytest.approx(deep + deep * PLUMB)] * 2
    assert sealed[4] == pytest.approx(2 * (width + height))


def test_a_window_has_no_back_and_its_faces_are_sealed_to_the_frame() -> None:
    found = made(opening("window", 30.0, 24.0), 4.0)
    assert list(found) == ["sill", "head", "left", "right"]
    # 4 and 7/16, less the sealed 1/8 at the frame.
    deep = 4 + 7 / 16 - 1 / 8
    assert inches(found["head"])[2] == pytest.approx((30 - 1 / 8, deep))
    front = 24 - 1 / 16 - 3 / 8 * PLUMB - 7 / 16 - 1 / 4
    assert found["head"].sealed / INCH == pytest.approx(30 - 2 * 7 / 16)
    at_frame = front - deep / 48
    assert found["left"].sealed / INCH == pytest.approx(deep + deep * PLUMB + at_frame)


@pytest.mark.parametrize(("width", "height"), [(1.0, 12.0), (BARE, 1.0), (1.125, 12.0)])
def test_an_opening_that_its_lining_fills_is_refused(width: float, height: float) -> None:
    with pytest.raises(LayoutError) as caught:
        made(opening("niche", width, height), 3.0)
    assert caught.value.message.key == "cutting.no-room-inside"
    assert caught.value.message.values["opening"] == "niche"


def test_just_wider_it_is_not() -> None:
    # Two linings and two joints take 1-1/8.
    assert len(made(opening("niche", 1.13, 12.0), 3.0)) == 5
