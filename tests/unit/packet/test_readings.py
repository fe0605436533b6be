from dataclasses import replace

from tests.blocks import every, tables_of

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message
from gaugerod.core.pipeline import Plan
from gaugerod.core.survey.walls import Suspect
from gaugerod.packet.paper import Columns, Heading, Paragraph, Picture, Table
from gaugerod.packet.readings import readings


def texts(plan: Plan, words: Catalogue, *styles: str) -> list[str]:
    found = readings(plan, words)
    return [b.text for b in found if isinstance(b, Paragraph) and b.style in styles]


def tables(plan: Plan, words: Catalogue) -> list[Table]:
    return tables_of(readings(plan, words))


def suspected(plan: Plan, guess: Message | None) -> Plan:
    suspect = Suspect(readings=("B width 2",), w=-7.25, guess=guess)
    reasons = (Message("survey.suspect", readings="B width 2", w=-7.25),)
    walls = replace(plan.walls, suspects=(suspect,), fit_for="price", reasons=reasons)
    return replace(plan, walls=walls)


def test_every_reading_is_listed_with_its_wall(keyed: Plan, inches: Catalogue) -> None:
    named = zip(keyed.walls.walls, tables(keyed, inches), strict=True)
    listed = [f"{wall.name} {row[0]}" for wall, table in named for row in table.rows]
    assert sorted(listed) == sorted(reading.id for reading in keyed.walls.readings)


def test_each_wall_has_its_faults_drawn_in_one_scale(tiled: Plan, millimetres: Catalogue) -> None:
    blocks = list(every(readings(tiled, millimetres)))
    pictures = [block for block in blocks if isinstance(block, Picture)]
    assert [one.drawing.name for one in pictures] == ["faults-L", "faults-B", "faults-R"]
    frames = {(one.drawing.bounds.width, one.drawing.bounds.height) for one in pictures}
    # Frames are those of the widest and the tallest, to the rounding of their middles.
    assert len({(round(width, 3), round(height, 3)) for width, height in frames}) == 1
    factors = [b.text for b in blocks if isinstance(b, Paragraph) and "lean, bow" in b.text]
    assert len(factors) == 3


def test_more_readings_than_a_sheet_holds_run_on_in_columns(keyed: Plan, inches: Catalogue) -> None:
    first = keyed.walls.readings[0]
    many = tuple(replace(first, id=f"L width {n}") for n in range(1, 60))
    plan = replace(keyed, walls=replace(keyed.walls, readings=many))
    last = list(readings(plan, inches))[-1]
    assert isinstance(last, Columns)
    assert sum(isinstance(block, Heading) for block in last.blocks) == 3
    assert len(tables(plan, inches)[0].rows) == 59


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
    assert [back.rows[number][0] for number in back.boxed] == ["width 2"]


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
