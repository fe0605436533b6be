from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message
from gaugerod.core.pipeline import Plan
from gaugerod.core.survey.walls import Suspect
from gaugerod.packet.paper import Columns, Heading, Paragraph, Table
from gaugerod.packet.readings import readings


def texts(plan: Plan, words: Catalogue, *styles: str) -> list[str]:
    found = readings(plan, words)
    return [b.text for b in found if isinstance(b, Paragraph) and b.style in styles]


def tables(plan: Plan, words: Catalogue) -> list[Table]:
    (columns,) = [block for block in readings(plan, words) if isinstance(block, Columns)]
    assert sum(isinstance(block, Heading) for block in columns.blocks) == len(plan.walls.walls)
    return [block for block in columns.blocks if isinstance(block, Table)]


def suspected(plan: Plan, guess: Message | None) -> Plan:
    suspect = Suspect(readings=("B width 2",), w=-7.25, guess=guess)
    reasons = (Message("survey.suspect", readings="B width 2", w=-7.25),)
    walls = replace(plan.walls, suspects=(suspect,), fit_for="price", reasons=reasons)
    return replace(plan, walls=walls)


def test_every_reading_is_listed_with_its_wall(keyed: Plan, inches: Catalogue) -> None:
    listed = [row[0] for table in tables(keyed, inches) for row in table.rows]
    assert sorted(listed) == sorted(reading.id for reading in keyed.walls.readings)


def test_a_sound_survey_is_fit_to_cut_from(keyed: Plan, inches: Catalogue) -> None:
    assert texts(keyed, inches, "strong") == ["Fit to cut from: the setting survey."]
    assert texts(keyed, inches, "boxed") == []


def test_a_suspect_is_boxed_with_the_likely_slip(keyed: Plan, inches: Catalogue) -> None:
    guess = Message("survey.unchecked")
    plan = suspected(keyed, guess)
    fit, said = texts(plan, inches, "boxed")
    assert fit.startswith("NOT FIT TO CUT FROM")
    assert said.startswith("Take again: B width 2 (7.25 sigmas off).")
    assert said.endswith(inches.say(guess))
    back = tables(plan, inches)[1]
    assert [back.rows[number][0] for number in back.boxed] == ["B width 2"]


def test_a_suspect_without_a_guess_is_boxed_all_the_same(keyed: Plan, inches: Catalogue) -> None:
    assert texts(suspected(keyed, None), inches, "boxed")[1].endswith("sigmas off).")


def test_a_residual_is_finer_than_the_reading(
    keyed: Plan, inches: Catalogue, millimetres: Catalogue
) -> None:
    """0.8 mm is 1/32 in, which a sixteenth would hide; a w of -0.04 prints without its sign."""
    first = replace(keyed.walls.readings[0], value=1524.0, residual=0.8, w=-0.04)
    plan = replace(keyed, walls=replace(keyed.walls, readings=(first,)))
    assert tables(plan, inches)[0].rows[0][1:] == ('60"', '1/32"', "+0.0")
    assert tables(plan, millimetres)[0].rows[0][1:] == ("1524 mm", "1 mm", "+0.0")
