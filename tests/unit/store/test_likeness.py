"""A material that is like another: what is taken over, what is not, and what is refused."""

from pathlib import Path

import pytest

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.messages import Message
from gaugerod.store.shelf import DATA, Library

TILE = (DATA / "materials" / "tile-600x300.toml").read_text(encoding="utf-8")
KNOWN = "keyed-24x12, sheet-96x48, tile-600x300"
SLATE = """like = "tile-600x300"
id = "slate"
name = "Slate"
price = 52.80

[cutting]
kerf = 3

[[trim]]
id = "edge"
name = "Dark edge profile"
use = "edge"
stock = 2500
price = 12.00
"""


def shelf(folder: Path, **files: str) -> Library:
    for name, text in files.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return Library(own_materials=folder)


def refusal(library: Library) -> Message:
    with pytest.raises(MaterialError) as caught:
        library.materials()
    return caught.value.message


def test_what_it_does_not_say_is_as_in_the_other(tmp_path: Path) -> None:
    systems = shelf(tmp_path, slate=SLATE).materials().systems
    base, slate = systems["tile-600x300"], systems["slate"]
    assert (slate.name, slate.price) == ("Slate", 5280)
    changes = {"id", "name", "price", "cutting", "trim"}
    assert slate.model_dump(exclude=changes) == base.model_dump(exclude=changes)


def test_a_table_is_completed_and_a_list_is_replaced(tmp_path: Path) -> None:
    systems = shelf(tmp_path, slate=SLATE).materials().systems
    base, slate = systems["tile-600x300"], systems["slate"]
    assert slate.cutting == base.cutting.model_copy(update={"kerf": 3.0})
    assert [trim.name for trim in slate.trim] == ["Dark edge profile"]


def test_it_may_be_like_one_of_ones_own(tmp_path: Path) -> None:
    own = TILE.replace('id = "tile-600x300"', 'id = "mine"').replace("spares = 2", "spares = 9")
    like = SLATE.replace("tile-600x300", "mine")
    systems = shelf(tmp_path, a=like, b=own).materials().systems
    assert (systems["slate"].spares, systems["tile-600x300"].spares) == (9, 2)


def test_but_not_like_one_that_is_like_another(tmp_path: Path) -> None:
    grey = SLATE.replace('"tile-600x300"', '"slate"').replace('id = "slate"', 'id = "grey"')
    message = refusal(shelf(tmp_path, grey=grey, slate=SLATE))
    assert message.values["wrong"] == Message("read.like-unknown", read="“slate”", known=KNOWN)


def test_a_name_that_is_not_there(tmp_path: Path) -> None:
    message = refusal(shelf(tmp_path, slate=SLATE.replace("tile-600x300", "tile-60x30")))
    assert message == told(tmp_path, Message("read.like-unknown", read="“tile-60x30”", known=KNOWN))
    again = refusal(shelf(tmp_path, slate=SLATE.replace('"tile-600x300"', "3")))
    assert again == told(tmp_path, Message("read.like-unknown", read="3", known=KNOWN))


def test_it_is_in_the_unit_of_the_other(tmp_path: Path) -> None:
    same = shelf(tmp_path, slate=f'unit = "mm"\n{SLATE}').materials().systems
    assert same["slate"].cutting.kerf == 3
    message = refusal(shelf(tmp_path, slate=f'unit = "in"\n{SLATE}'))
    assert message == told(tmp_path, Message("read.like-unit", read="“in”", unit="“mm”"))


def told(folder: Path, wrong: Message) -> Message:
    """What is wrong on the first line of the file."""
    return Message("read.in-line", file=str(folder / "slate.toml"), line=1, wrong=wrong)


@pytest.mark.parametrize("key", ["id", "name"])
def test_it_has_an_id_and_a_name_of_its_own(tmp_path: Path, key: str) -> None:
    (line,) = (line for line in SLATE.split("\n") if line.lower() == f'{key} = "slate"')
    left = SLATE.replace(f"{line}\n", "")
    message = refusal(shelf(tmp_path, slate=left))
    assert f"{key} = " in str(message)


def test_a_fault_in_what_it_says_is_told_by_line(tmp_path: Path) -> None:
    message = refusal(shelf(tmp_path, slate=SLATE.replace("kerf = 3", "kerf = -3")))
    assert message.values["line"] == 7
