from dataclasses import replace

import pytest

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.messages import Message, Money, Value
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.document import Accent, OffcutAtHand
from gaugerod.core.job.products import Accented
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.options.option import Options, Pick
from gaugerod.core.options.weigh import choose, weigh
from gaugerod.core.setout.field import set_field
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout, ShortList
from gaugerod.core.setout.odds import odds_of
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls

JOB, SYSTEM, RATES = sample_job(), sample_system(), sample_rates()
WALLS = fit_walls(JOB)
SHORT = set_out(WALLS, JOB.choices, SYSTEM, RATES.looks)


@pytest.fixture(scope="module")
def options() -> Options:
    return weigh(SHORT, WALLS, SYSTEM, RATES)


def test_no_option_beats_another_in_everything(options: Options) -> None:
    figures = [(o.price, o.cuts, o.modules, o.looks) for o in options.options]
    for mine in figures:
        for other in figures:
            better = all(a <= b for a, b in zip(other, mine, strict=True))
            assert other == mine or not better


def test_each_pick_is_the_best_of_its_kind(options: Options) -> None:
    best = {
        "looks first": min(o.looks for o in options.options),
        "saw least": min(o.cuts for o in options.options),
        "buy least": min(o.modules for o in options.options),
    }
    assert choose(options, "looks first").looks // 100 == best["looks first"] // 100
    assert choose(options, "saw least").cuts == best["saw least"]
    assert choose(options, "buy least").modules == best["buy least"]
    names: list[Pick] = [pick for option in options.options for pick in option.picks]
    assert sorted(names) == sorted(best)


def test_options_are_lettered_with_the_best_looks_first(options: Options) -> None:
    assert [o.id for o in options.options] == ["A", "B", "C", "D"][: len(options.options)]
    looks = [o.looks // 100 for o in options.options]
    assert looks == sorted(looks)
    cheapest = min(o.price for o in options.options)
    for option in options.options:
        over = Message("options.cheapest")
        if option.price > cheapest:
            over = Message("options.dearer", over=Money(option.price - cheapest))
        assert option.reason.values["over"] == over


def leaves(message: Message) -> list[tuple[str, Value]]:
    """Every value of a message and of those within it, with the key that it stands under."""
    return [
        leaf
        for name, value in message.values.items()
        for leaf in (leaves(value) if isinstance(value, Message) else [(message.key, value)])
        if name
    ]


def test_an_option_gives_up_what_others_do_better_and_no_noughts(options: Options) -> None:
    least = [
        min(figures)
        for figures in zip(
            *((o.price, o.cuts, o.modules, o.looks) for o in options.options), strict=True
        )
    ]
    for option in options.options:
        price, cuts, modules, looks = (
            mine - best
            for mine, best in zip(
                (option.price, option.cuts, option.modules, option.looks), least, strict=True
            )
        )
        worse: list[tuple[str, Value]] = [
            ("options.dearer", Money(price)),
            ("options.more-cuts", cuts),
            ("options.more-modules", modules),
            ("options.worse-looks", Money(looks)),
        ]
        told = [(key, value) for key, value in worse if value not in {0, Money(0)}]
        assert leaves(option.gives_up) == told
        assert (option.gives_up.key == "options.gives-nothing") == (not told)


def test_layouts_of_equal_figures_are_one_option(options: Options) -> None:
    twice = replace(SHORT, layouts=SHORT.layouts * 2)
    assert weigh(twice, WALLS, SYSTEM, RATES) == options


def test_a_short_list_of_one_holds_every_pick() -> None:
    one = ShortList(layouts=SHORT.layouts[:1], tried=1, refused=())
    (only,) = weigh(one, WALLS, SYSTEM, RATES).options
    assert only.picks == ("looks first", "saw least", "buy least")
    ends = [end for wall in only.layout.walls for end in wall.ends]
    assert only.smallest == pytest.approx(min(ends), abs=1e-3)


def test_every_option_carries_its_odds(options: Options) -> None:
    for option in options.options:
        assert option.odds == odds_of(WALLS, option.layout, SYSTEM)
        # All cases of a hundred are claimed only where none failed.
        told = option.reason.values["chance"]
        assert isinstance(told, int)
        assert told <= 100 * option.odds.chance < told + 1


def lowered(layout: Layout, by: float) -> Layout:
    """The layout with all its lines so much lower, its fields cut anew."""
    low = replace(layout, first_course=layout.first_course - by, top=layout.top - by)
    on_walls = []
    for on_wall, wall in zip(layout.walls, WALLS.walls, strict=True):
        lattice = Lattice(
            face=low.face,
            pitch=low.pitch,
            first_course=low.first_course,
            phase=on_wall.phase,
            row_shift=on_wall.row_shift,
        )
        met = (on_wall.field.left, on_wall.field.right)
        field = set_field(wall, met, SYSTEM, top=low.top, lattice=lattice)
        on_walls.append(replace(on_wall, field=field))
    return replace(low, walls=tuple(on_walls))


def test_of_layouts_alike_in_looks_the_likelier_ranks_first() -> None:
    best = SHORT.layouts[0]
    # Three lower, with its finish line, the groove at the low point has three of room, several
    # sigmas of the deck there: what was even odds is all but certain.
    safe = lowered(best, 3.0)
    assert odds_of(WALLS, best, SYSTEM).chance < 0.6
    assert odds_of(WALLS, safe, SYSTEM).chance > 0.9
    for layouts in ((best, safe), (safe, best)):
        found = weigh(replace(SHORT, layouts=layouts), WALLS, SYSTEM, RATES)
        assert found.options[0].layout == safe
        assert "looks first" in found.options[0].picks


def test_offcuts_at_hand_save_modules_in_every_option() -> None:
    plain = weigh(SHORT, WALLS, SYSTEM, RATES).options
    width, height = SYSTEM.face
    whole = tuple(
        OffcutAtHand(
            name=f"room-{n}", size=(width, height), keeps=("left", "right", "bottom", "top")
        )
        for n in range(3)
    )
    fewest = min(option.modules for option in plain)
    with_three = weigh(SHORT, WALLS, SYSTEM, RATES, offcuts=whole).options
    # Three that are as large as modules are as good as three modules.
    assert min(option.modules for option in with_three) == fewest - 3


# --- several products ---------------------------------------------------------------------------


def blue(**where: object) -> tuple[Accented, ...]:
    system = SYSTEM.model_copy(update={"id": "blue", "price": 2 * SYSTEM.price})
    row = Accent.model_validate({"material": "blue", **where})
    return (Accented(where=row, system=system),)


def test_another_product_is_counted_and_priced_in_every_option(options: Options) -> None:
    banded = weigh(SHORT, WALLS, SYSTEM, RATES, accented=blue(walls=("B",))).options
    cheapest = min(option.price for option in options.options)
    assert all(option.price > cheapest for option in banded)
    assert min(o.modules for o in banded) >= min(o.modules for o in options.options)


def courses_of(layout: Layout) -> set[int]:
    return {piece.course for piece in make_pieces(layout, WALLS, SYSTEM)}


def test_layouts_without_the_course_are_left_out() -> None:
    to_the_ceiling = JOB.choices.model_copy(update={"finish": "ceiling"})
    high = set_out(WALLS, to_the_ceiling, SYSTEM, RATES.looks)
    assert all(8 in courses_of(layout) for layout in high.layouts)
    assert all(8 not in courses_of(layout) for layout in SHORT.layouts)
    both = replace(high, layouts=SHORT.layouts + high.layouts)
    band = blue(courses=(8,))
    found = weigh(both, WALLS, SYSTEM, RATES, accented=band)
    assert found == weigh(high, WALLS, SYSTEM, RATES, accented=band)
    with pytest.raises(LayoutError) as caught:
        weigh(both, WALLS, SYSTEM, RATES, accented=blue(courses=(9,)))
    assert caught.value.message.key == "cutting.no-course"
    assert caught.value.message.values["read"] == 9
