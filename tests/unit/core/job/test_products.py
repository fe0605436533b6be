from tests.two_colours import GREEN, PLAIN, SLATE, accented, products

from gaugerod.core.job.materials import Materials
from gaugerod.core.job.products import products_of
from gaugerod.core.job.sample import sample_job


def test_every_product_once_the_main_one_first() -> None:
    rows = (
        accented(SLATE, courses=(1,)),
        accented(PLAIN, courses=(2,)),
        accented(SLATE, walls=("B",)),
    )
    assert [one.id for one in products(*rows).systems] == ["tile", "slate"]
    assert products(*rows).of("slate") is SLATE


def test_the_table_names_materials() -> None:
    choices = sample_job().choices.model_copy(
        update={"material": "tile", "accent": (accented(SLATE, walls=("B",)).where,)}
    )
    materials = Materials(systems={"tile": PLAIN, "slate": SLATE})
    assert products_of(choices, materials) == products(accented(SLATE, walls=("B",)))


def test_letters_are_none_of_the_walls_and_the_main_product_has_none() -> None:
    of = products(accented(SLATE, courses=(1,)), accented(GREEN, courses=(2,)))
    assert of.letters(("L", "B", "R")) == {"slate": "X", "green": "Y"}
    assert of.letters(("X", "B", "Y")) == {"slate": "Z", "green": "W"}


def test_where_every_letter_is_a_wall_it_is_written_thrice() -> None:
    of = products(accented(SLATE, courses=(1,)))
    assert of.letters(tuple("ABCDEFGHIJKLMNOPQRSTUVWXYZ")) == {"slate": 3 * "X"}


def test_the_longest_wait_of_all_counts() -> None:
    late = SLATE.model_copy(update={"lead_days": 21, "acclimatise_hours": 12.0})
    soon = PLAIN.model_copy(update={"lead_days": 7, "acclimatise_hours": 48.0})
    slowest = products(accented(late, courses=(1,)), main=soon).slowest
    assert (slowest.id, slowest.lead_days, slowest.acclimatise_hours) == ("tile", 21, 48.0)
    unknown = PLAIN.model_copy(update={"lead_days": None})
    assert products(accented(late, courses=(1,)), main=unknown).slowest.lead_days == 21
    assert products(main=unknown).slowest.lead_days is None
