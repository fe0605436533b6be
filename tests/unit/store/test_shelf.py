from pathlib import Path

import pytest

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.base.messages import Length, Message, Money
from gaugerod.store.shelf import DATA, Library

TILE = (DATA / "materials" / "tile-600x300.toml").read_text(encoding="utf-8")
SHOP = (DATA / "rates" / "shop.toml").read_text(encoding="utf-8")


def refusal(library: Library) -> Message:
    with pytest.raises(MaterialError) as caught:
        library.materials()
    return caught.value.message


def test_packaged_materials_are_read_in_their_own_units() -> None:
    systems = Library().materials().systems
    assert systems["keyed-24x12"].face == pytest.approx((24 * 25.4, 12 * 25.4))
    assert systems["tile-600x300"].face == (597, 297)


def test_a_material_of_ones_own_comes_beside(tmp_path: Path) -> None:
    own = TILE.replace('id = "tile-600x300"', 'id = "mine"')
    (tmp_path / "mine.toml").write_text(own, encoding="utf-8")
    (tmp_path / "notes.txt").write_text("not a material", encoding="utf-8")
    systems = Library(own_materials=tmp_path).materials().systems
    assert systems["mine"].face == systems["tile-600x300"].face


def test_and_beats_a_packaged_one_of_the_same_id(tmp_path: Path) -> None:
    (tmp_path / "tile.toml").write_text(TILE.replace("[597, 297]", "[598, 298]"), encoding="utf-8")
    systems = Library(own_materials=tmp_path).materials().systems
    assert systems["tile-600x300"].face == (598, 298)


def test_two_of_ones_own_do_not_have_one_id(tmp_path: Path) -> None:
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text(TILE, encoding="utf-8")
    message = refusal(Library(own_materials=tmp_path))
    line = TILE[: TILE.index("id =")].count("\n") + 1
    wrong = Message("read.id-twice", id="tile-600x300", file=str(tmp_path / "a.toml"))
    assert message == Message("read.in-line", file=str(tmp_path / "b.toml"), line=line, wrong=wrong)


def test_a_material_with_a_fault_is_told_by_file_and_line(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(TILE.replace("thickness = 9", 'thickness = "9 9/8"'), encoding="utf-8")
    message = refusal(Library(own_materials=tmp_path))
    line = TILE[: TILE.index("thickness")].count("\n") + 1
    assert (message.values["file"], message.values["line"]) == (str(path), line)


def test_a_material_in_the_wrong_unit_is_told(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(TILE.replace("[597, 297]", "[24, 12]"), encoding="utf-8")
    wrong = refusal(Library(own_materials=tmp_path)).values["wrong"]
    assert isinstance(wrong, Message)
    assert wrong.values["meant"] == "24 in"


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    assert refusal(Library(own_materials=tmp_path / "none")).key == "read.no-folder"


def test_rates_of_ones_own_beat_the_packaged(tmp_path: Path) -> None:
    assert Library().rates()["shop"].currency == "USD"
    own = SHOP.replace('currency = "USD"', 'currency = "EUR"')
    (tmp_path / "shop.toml").write_text(own, encoding="utf-8")
    assert Library(own_rates=tmp_path).rates()["shop"].currency == "EUR"


def test_rules_are_one_set_without_doubles() -> None:
    ids = [rule.id for rule in Library().rules().rule]
    assert ids
    assert len(ids) == len(set(ids))


OWN = """format = 1
unit = "in"

[[rule]]
id = "our-joint"
statement = "Our joints are wide."
measure = "joint"
holds = "at least"
limit = "1/4"
severity = "warn"
advice = "Widen it."
source = "common practice"
sure = "common practice, no source"
"""


def own_rules(folder: Path, text: str) -> Library:
    (folder / "ours.toml").write_text(text, encoding="utf-8")
    return Library(own_rules=folder)


def rules_refused(library: Library) -> str:
    with pytest.raises(MaterialError) as caught:
        library.rules()
    return Library().words(METRIC, currency="GBP").say(caught.value.message)


def test_a_rule_of_ones_own_comes_beside(tmp_path: Path) -> None:
    rules = own_rules(tmp_path, OWN).rules().rule
    assert (rules[-1].id, rules[-1].limit) == ("our-joint", 6.35)
    assert len(rules) == len(Library().rules().rule) + 1


def test_and_takes_the_place_of_its_namesake(tmp_path: Path) -> None:
    rules = own_rules(tmp_path, OWN.replace("our-joint", "least-joint")).rules().rule
    (found,) = [rule for rule in rules if rule.id == "least-joint"]
    assert found.statement == "Our joints are wide."
    assert len(rules) == len(Library().rules().rule)


@pytest.mark.parametrize(
    ("source", "told"),
    [
        ("", ":4: rule 1: “source” is missing. Add source = …"),
        (
            'source = " "\n',
            ":12: rule 1, source: “ ” is too short. At least 3 characters are wanted.",
        ),
    ],
)
def test_a_rule_without_a_source_does_not_load_and_says_so_in_one_line(
    tmp_path: Path, source: str, told: str
) -> None:
    text = OWN.replace('source = "common practice"\n', source)
    assert rules_refused(own_rules(tmp_path, text)) == f"{tmp_path / 'ours.toml'}{told}"


def test_a_rule_that_measures_what_nobody_knows_does_not_load(tmp_path: Path) -> None:
    said = rules_refused(own_rules(tmp_path, OWN.replace('"joint"', '"moon"')))
    wrong = "Rule our-joint measures “moon”, which the checks don't know."
    assert said == f"{tmp_path / 'ours.toml'}:7: {wrong}"


def test_words_are_said_as_the_reader_wants() -> None:
    words = Library().words(METRIC, currency="GBP")
    assert words.show(Length(1524.0)) == "1524 mm"
    assert words.show(Money(1250)) == "£12.50"
    assert words.text("cli.made", file="x").startswith("x ")


def test_the_template_is_no_demo() -> None:
    names = [demo.name for demo in Library().demos()]
    assert names == sorted(names)
    assert len(names) >= 2
    assert "new.toml" not in names
    assert Library().template().startswith("#")


def test_packaged_tolerances_are_read_in_their_own_unit() -> None:
    """A bead bridges 3/16 in under 6 ft: 4.7625 mm under 1828.8 mm."""
    rows = {row.id: row for row in Library().tolerances().tolerance}
    (allowance,) = rows["bead-bridges"].allows
    assert (allowance.over, allowance.at_most) == pytest.approx((1828.8, 4.7625))
