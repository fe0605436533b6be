from collections.abc import Mapping

import pytest
from pydantic import ValidationError

from gaugerod.core.job.materials import Edges, System
from gaugerod.core.job.sample import sample_system

SAMPLE = sample_system().model_dump()
NO_KEY = {"edges": {}, "key_depth": 0}
MORTAR = {
    "name": "Mortar",
    "notch_depth": 10,
    "notch_width": 10,
    "notch_gap": 10,
    "bag_yield": 13.5,
    "price": 20,
    "hold_hours": 24,
}
SEAM = {"id": "seam", "name": "Seam trim", "use": "seam", "stock": 2440, "price": 20}
GROUT = {"name": "Grout", "density": 1.6, "bag": 5, "price": 12, "hold_hours": 72}


def system(**changes: object) -> System:
    return System.model_validate(SAMPLE | changes)


def test_an_edge_is_asked_for_by_its_side() -> None:
    edges = Edges(left="groove", right="tongue", bottom="groove", top="tongue")
    assert [edges[side] for side in ("left", "right", "bottom", "top")] == [
        "groove",
        "tongue",
        "groove",
        "tongue",
    ]


WIPES = {"id": "wipes", "name": "W", "pack": "packet", "per": "piece", "lasts": 80, "price": 9}


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"edges": {}}, "material.keyed-without-key"),
        ({"key_depth": 0}, "material.keyed-without-key"),
        ({"joint": (0, 3)}, "material.keyed-with-joint"),
        ({"adhesive": None}, "material.keyed-without-adhesive"),
        ({"kind": "grouted"}, "material.grouted-with-key"),
        ({"kind": "grouted", **NO_KEY}, "material.grouted-without-bed"),
        ({"kind": "grouted", **NO_KEY, "mortar": MORTAR}, "material.grouted-without-bed"),
        ({"kind": "sheet"}, "material.sheet-with-key"),
        ({"kind": "sheet", "edges": {}}, "material.sheet-with-key"),
        ({"kind": "sheet", **NO_KEY, "adhesive": None}, "material.sheet-without-adhesive"),
        ({"kind": "sheet", **NO_KEY, "mortar": MORTAR}, "material.sheet-with-bed"),
        ({"kind": "sheet", **NO_KEY, "grout": GROUT}, "material.sheet-with-bed"),
        ({"trim": [SEAM]}, "material.seam-without-sheet"),
        ({"supply": [WIPES | {"id": "sealant"}]}, "material.id-twice"),
        ({"supply": [WIPES, WIPES]}, "material.id-twice"),
    ],
)
def test_a_system_has_all_that_its_kind_needs(changes: Mapping[str, object], key: str) -> None:
    with pytest.raises(ValidationError) as caught:
        system(**changes)
    (details,) = caught.value.errors()
    assert details["ctx"]["message"].key == key


def test_a_grouted_system_needs_no_adhesive() -> None:
    tile = system(kind="grouted", **NO_KEY, mortar=MORTAR, grout=GROUT, adhesive=None, joint=(3, 3))
    assert tile.grout is not None


def test_a_sheet_has_plain_edges_adhesive_and_a_seam() -> None:
    panel = system(kind="sheet", **NO_KEY, joint=(3, 3), trim=[SEAM])
    assert [trim.use for trim in panel.trim] == ["seam"]


@pytest.mark.parametrize(
    "changes", [{"weight": True}, {"per_box": 8.0}, {"per_box": "8"}, {"breakage": 0.6}]
)
def test_numbers_are_numbers(changes: Mapping[str, object]) -> None:
    with pytest.raises(ValidationError):
        system(**changes)


def test_what_an_order_may_hold_goes_by_its_ids() -> None:
    made = system(supply=[WIPES])
    goods = ("modules", "trim-edge", "trim-top", "adhesive", "sealant", "wipes")
    assert made.goods == goods


def test_older_files_have_no_boards_no_membrane_and_no_supplies() -> None:
    made = system()
    assert (made.backer, made.membrane, made.supply, made.attic) == (None, None, (), 0.0)
