"""Where another product can't stand: what is refused, at which key, and in which words."""

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.accents import accents
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import Place
from gaugerod.core.job.materials import Materials, System
from gaugerod.core.job.sample import sample_system

Edited = Callable[[Callable[[dict[str, Any]], object]], Job]

MAIN = sample_system()
BLUE = MAIN.model_copy(update={"id": "blue", "price": 30_000, "per_box": 6, "spares": 0})
DEPTH = {"kind": "opening", "of": "niche", "edge": "jamb depth", "from": "itself", "reads": 90}


def like_blue(**changes: object) -> System:
    return BLUE.model_copy(update=changes)


def materials(blue: System = BLUE) -> Materials:
    # Not validated: a material may be in one thing unlike the main one that it could not be alone.
    return Materials.model_construct(systems={"sample": MAIN, "blue": blue})


@pytest.fixture
def found(edited: Edited) -> Callable[..., list[tuple[Place, Message]]]:
    """`found({...}, kind="window")`: what is wrong with a row on a job with a niche in wall B."""

    def make(
        row: Mapping[str, object],
        *,
        blue: System = BLUE,
        bond: str = "stack",
        deep: bool = True,
        **opening: object,
    ) -> list[tuple[Place, Message]]:
        def change(job: dict[str, Any]) -> None:
            job["choices"] |= {"accent": [{"material": "blue", **row}], "bond": bond}
            job["wall"][1]["opening"] = [{"name": "niche", "kind": "niche", **opening}]
            job["wall"][1]["readings"] = [*job["wall"][1]["readings"], *([DEPTH] if deep else [])]

        return [(fault.at, fault.wrong) for fault in accents(edited(change), materials(blue))]

    return make


Found = Callable[..., list[tuple[Place, Message]]]
AT: Place = ("choices", "accent", 0)


@pytest.mark.parametrize(
    "row",
    [
        {"courses": (1, 3)},
        {"walls": ("B",)},
        {"walls": ("L", "R"), "courses": (2,)},
        {"inside": "niche"},
        {"inside": "niche", "walls": ("B",), "faces": ("sill", "back")},
        {"material": "sample", "courses": (4,)},
    ],
)
def test_what_can_stand_there_is_not_told(found: Found, row: dict[str, object]) -> None:
    assert found(row) == []


def test_a_product_that_is_not_at_hand(found: Found) -> None:
    wrong = Message("job.unknown-material", read="green", known="blue, sample")
    assert found({"material": "green", "walls": ("B",)}) == [((*AT, "material"), wrong)]


def test_a_wall_that_is_not_there(found: Found) -> None:
    wrong = Message("job.unknown-wall", read="Q", known="L, B, R")
    assert found({"walls": ("B", "Q")}) == [((*AT, "walls", 1), wrong)]


def test_a_row_that_does_not_say_where(found: Found) -> None:
    assert found({}) == [(AT, Message("job.accent-nowhere"))]


def test_faces_are_of_an_opening(found: Found) -> None:
    assert found({"faces": ("sill",)}) == [((*AT, "faces"), Message("job.accent-faces"))]


def test_a_pattern_has_no_courses_but_walls(found: Found) -> None:
    wrong = Message("job.accent-pattern", read="herringbone")
    assert found({"courses": (2,)}, bond="herringbone") == [((*AT, "courses"), wrong)]
    assert found({"walls": ("B",)}, bond="herringbone") == []
    assert found({"inside": "niche"}, bond="herringbone") == []


@pytest.mark.parametrize(
    ("changes", "unlike"),
    [
        ({"face": (600.0, 299.0)}, "face"),
        ({"joint": (3.0, 3.0)}, "joint"),
        ({"edges": MAIN.edges.model_copy(update={"top": "plain"})}, "edges"),
        ({"key_depth": 9.0}, "key_depth"),
        ({"turns": ("lying", "standing")}, "turns"),
        ({"cutting": MAIN.cutting.model_copy(update={"kerf": 2.0})}, "cutting"),
        ({"kind": "grouted"}, "kind"),
        ({"thickness": 9.0}, "thickness"),
        ({"bed": 2.0, "face": (500.0, 300.0)}, "face, bed"),
        ({"gaps": MAIN.gaps.model_copy(update={"deck": 2.0})}, "gaps"),
    ],
)
def test_on_a_wall_all_is_set_out_alike(
    found: Found, changes: dict[str, object], unlike: str
) -> None:
    wrong = Message("job.accent-unlike", read="blue", main="sample", unlike=unlike)
    assert found({"walls": ("B",)}, blue=like_blue(**changes)) == [((*AT, "material"), wrong)]


def test_the_order_of_the_turns_is_no_difference(edited: Edited) -> None:
    both = {"turns": ("lying", "standing")}
    known = Materials(
        systems={
            "sample": MAIN.model_copy(update=both),
            "blue": like_blue(turns=("standing", "lying")),
        }
    )
    row = [{"material": "blue", "walls": ["B"]}]
    job = edited(lambda job: job["choices"].update(accent=row))
    assert list(accents(job, known)) == []


def test_inside_an_opening_another_size_will_do(found: Found) -> None:
    small = like_blue(face=(150.0, 75.0), edges=type(MAIN.edges)(), key_depth=0.0)
    assert found({"inside": "niche"}, blue=small) == []


@pytest.mark.parametrize("changes", [{"thickness": 8.0}, {"bed": 3.0}, {"kind": "grouted"}])
def test_but_not_another_thickness_or_kind(found: Found, changes: dict[str, object]) -> None:
    (unlike,) = changes
    wrong = Message("job.accent-unlike-inside", read="blue", main="sample", unlike=unlike)
    assert found({"inside": "niche"}, blue=like_blue(**changes)) == [((*AT, "material"), wrong)]


def test_an_opening_that_is_not_there(found: Found) -> None:
    at = (*AT, "inside")
    wrong = Message("job.accent-no-opening", read="shelf", known="niche")
    assert found({"inside": "shelf"}) == [(at, wrong)]
    wrong = Message("job.accent-no-opening", read="niche", known=Message("job.none"))
    assert found({"inside": "niche", "walls": ("L",)}) == [(at, wrong)]


def test_courses_are_of_the_wall(found: Found) -> None:
    wrong = Message("job.accent-courses-inside")
    assert found({"inside": "niche", "courses": (1,)}) == [((*AT, "courses"), wrong)]


def test_an_opening_that_is_not_lined(found: Found) -> None:
    wrong = Message("job.accent-not-lined", name="niche")
    assert found({"inside": "niche"}, kind="window") == [((*AT, "inside"), wrong)]
    assert found({"inside": "niche"}, lined=False) == [((*AT, "inside"), wrong)]
    assert found({"inside": "niche"}, kind="window", lined=True) == []


def test_an_opening_whose_depth_nobody_read(found: Found) -> None:
    wrong = Message("job.accent-no-depth", name="niche")
    assert found({"inside": "niche"}, deep=False) == [((*AT, "inside"), wrong)]


def test_a_window_has_no_back(found: Found) -> None:
    row = {"inside": "niche", "faces": ("sill", "back")}
    wrong = Message("job.accent-no-back", name="niche")
    assert found(row, kind="window", lined=True) == [((*AT, "faces"), wrong)]
