"""Slips planted in surveys of known shape, named as a foreman would name them."""

import pytest
from tests.unit.core.survey.test_fit import Raw, job, read, shell

from gaugerod.core.base.messages import Length
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.snoop import MOST
from gaugerod.core.survey.walls import Suspect


def suspects(raw: Raw, *, unit: str = "mm", **survey: object) -> tuple[Suspect, ...]:
    raw["unit"] = "mm"
    raw["survey"] |= survey
    taken = read(raw)
    return fit_walls(taken.model_copy(update={"unit": unit})).suspects


def back_wall(**change: tuple[int, float]) -> Raw:
    """An alcove whose back wall was read twice; `change` names a place and its new reading."""
    readings = [*shell(1500), *shell(1500)]
    for name, (place, reads) in change.items():
        readings[place] |= {"id": name, "reads": reads}
    return job(L=shell(800), B=readings, R=shell(800))


def only(found: tuple[Suspect, ...]) -> Suspect:
    (suspect,) = found
    return suspect


@pytest.mark.parametrize(
    ("unit", "reads", "key"),
    [
        ("in", 1500 + 25.4, "burned-inch"),
        ("in", 1500 - 25.4, "one-inch"),
        ("in", 1500 + 304.8, "one-foot"),
        ("mm", 1600.0, "burned-hundred"),
        ("mm", 1400.0, "one-hundred"),
        ("mm", 1510.0, "one-ten"),
        ("mm", 1509.525, "one-ten"),
        ("mm", 15000.0, "scale"),
        ("mm", 150.0, "scale"),
        ("mm", 1533.0, "unknown"),
    ],
)
def test_the_slip_that_explains_a_width(unit: str, reads: float, key: str) -> None:
    suspect = only(suspects(back_wall(slip=(1, reads)), unit=unit))
    assert suspect.readings == ("slip",)
    assert suspect.decide is None
    assert suspect.guess is not None
    assert suspect.guess.key == f"survey.slip-{key}"
    assert suspect.guess.values["reads"] == Length(reads)
    others = suspect.guess.values["others"]
    assert isinstance(others, Length)
    assert others.mm == pytest.approx(1500.0, abs=0.5)


def test_a_misread_digit() -> None:
    raw = job(L=shell(800), B=[*shell(1560), *shell(1560)], R=shell(800))
    raw["wall"][1]["readings"][2] |= {"id": "slip", "reads": 1590}
    guess = only(suspects(raw)).guess
    assert guess is not None
    assert guess.key == "survey.slip-six-nine"


def test_a_misread_fraction() -> None:
    # 59 3/8 read as 59 5/8.
    width = 59.375 * 25.4
    raw = job(L=shell(800), B=[*shell(width), *shell(width)], R=shell(800))
    raw["wall"][1]["readings"][2] |= {"id": "slip", "reads": 59.625 * 25.4}
    guess = only(suspects(raw, unit="in")).guess
    assert guess is not None
    assert guess.key == "survey.slip-fraction"


def test_a_lean_read_the_other_way() -> None:
    raw = back_wall()
    for reading in raw["wall"][1]["readings"]:
        if reading["kind"] == "width":
            reading["reads"] -= reading["at"] / 100
        if reading["kind"] == "lean" and reading["edge"] == "right":
            reading["reads"] = 18
    raw["wall"][1]["readings"][8] |= {"id": "slip", "reads": -18}
    guess = only(suspects(raw)).guess
    assert guess is not None
    assert guess.key == "survey.slip-other-way"


def with_valve(*places: tuple[str, float]) -> Raw:
    raw = back_wall()
    raw["wall"][1]["hole"] = [{"name": "valve", "diameter": 76}]
    raw["wall"][1]["readings"] += [
        {"kind": "hole", "of": "valve", "from": start, "reads": reads}
        for start, reads in (*places, ("datum", -300))
    ]
    return raw


def test_a_hole_read_from_the_other_end() -> None:
    # At 400 from the left, 1100 from the right; one reading from the right says 400.
    raw = with_valve(("left", 400), ("left", 400), ("right", 1100), ("right", 400))
    suspect = only(suspects(raw))
    assert suspect.readings == ("B hole 4",)
    assert suspect.guess is not None
    assert suspect.guess.key == "survey.slip-other-end"


def test_left_and_right_written_in_each_others_place_are_one_slip() -> None:
    # The deck falls 12 from left to right; both ends were written the wrong way round.
    raw = job(
        L=[*shell(800, left=700, right=700), *shell(800, left=700, right=700)],
        B=[*shell(1500, left=700, right=712)],
        R=[*shell(800, left=712, right=712), *shell(800, left=712, right=712)],
    )
    raw["wall"][1]["readings"][3]["reads"] = 712
    raw["wall"][1]["readings"][4]["reads"] = 700
    suspect = only(suspects(raw))
    assert set(suspect.readings) == {"B deck 1", "B deck 2"}
    assert suspect.guess is not None
    assert suspect.guess.key == "survey.slip-swapped"


def test_a_reading_taken_to_the_stud() -> None:
    # Two boards of 12.7 wider between the studs; one width was read there.
    raw = back_wall(slip=(1, 1525.4))
    guess = only(suspects(raw, layers={"backer": 12.7})).guess
    assert guess is not None
    assert guess.key == "survey.slip-surface-stud"


def test_two_blunders_are_found_one_after_the_other() -> None:
    found = suspects(back_wall(one=(0, 1600.0), two=(3, 800.0)))
    assert {suspect.readings[0] for suspect in found} == {"one", "two"}
    assert abs(found[0].w) >= abs(found[1].w)


def test_two_readings_of_one_thing_cannot_tell_which_is_wrong() -> None:
    raw = job(L=shell(800), B=shell(1500), R=shell(800))
    raw["wall"][1]["hole"] = [{"name": "valve", "diameter": 76}]
    raw["wall"][1]["readings"] += [
        {"kind": "hole", "of": "valve", "from": "left", "reads": 400},
        {"kind": "hole", "of": "valve", "from": "right", "reads": 1133},
        {"kind": "hole", "of": "valve", "from": "datum", "reads": -300},
    ]
    suspect = only(suspects(raw))
    assert set(suspect.readings) == {"B hole 1", "B hole 2"}
    assert suspect.decide is not None
    assert suspect.decide.values["take"] == suspect.readings[0]


def test_when_most_readings_disagree_the_list_ends() -> None:
    rubbish = [
        {"kind": "width", "at": at, "reads": 900 + 97 * (at % 7)} for at in range(-600, 1200, 50)
    ]
    walls = fit_walls(read(job(L=shell(800), B=[*shell(1500), *rubbish], R=shell(800))))
    assert len(walls.suspects) == MOST
    assert "survey.too-many-suspects" in [reason.key for reason in walls.reasons]
    assert "survey.scattered" in [reason.key for reason in walls.reasons]
