from dataclasses import replace

import pytest
from tests.laid_by_hand import (
    cut_plan,
    field,
    grouted,
    keyed,
    layout,
    piece,
    rectangle,
    rectangles,
    wall,
    walls,
)
from tests.takeoff_words import said

from gaugerod.core.cutting.pieces import ModuleCount
from gaugerod.core.job.document import Accent, OnHand
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Accented
from gaugerod.core.takeoff.count import take_off
from gaugerod.core.takeoff.order import Order, OrderLine

BACK = rectangle(left=0, bottom=0, right=1500, top=1200)
COURSES = [(0, 300), (300, 600), (600, 900), (900, 1200)]
KEYED = rectangles(across=[(0, 450), (450, 1050), (1050, 1500)], up=COURSES)
GROUTED = rectangles(
    across=[(0, 447), (450, 1047), (1050, 1500)],
    up=[(0, 297), (300, 597), (600, 897), (900, 1200)],
)


def ordered(system: System, *, modules: int = 12, on_hand: tuple[OnHand, ...] = ()) -> Order:
    """The order for one back wall of 1500 by 1200 between two others."""
    regions = KEYED if system.kind == "keyed" else GROUTED
    return take_off(
        tuple(piece(region) for region in regions),
        cut_plan(modules=modules),
        layout(field("B", BACK, ends=("butts", "runs behind"))),
        walls(wall("B", width=1500, ceiling=1400)),
        system,
        on_hand=on_hand,
    )


def lines_of(order: Order) -> dict[str, OrderLine]:
    return {line.id: line for line in order.lines}


def test_modules_with_breakage_and_spares_fill_boxes() -> None:
    order = ordered(keyed(), modules=36)  # 36 + ceil(0.72) + 1 = 38 in boxes of 8
    assert (order.modules, order.spares, order.boxes) == (36, 2, 5)
    line = lines_of(order)["modules"]
    assert (line.pack, line.count, line.unit_price) == ("box", 5, 20_000)
    assert said(line) == (
        "36 modules to cut from + 1 for breakage + 1 spare (attic stock) = 38 / 8 a box, "
        "all of one lot = 4.75 → 5"
    )


@pytest.mark.parametrize(("modules", "boxes"), [(14, 2), (15, 3), (6, 1), (0, 1)])
def test_a_full_box_is_a_full_box(modules: int, boxes: int) -> None:
    # With one for breakage (none of none) and one spare: 16, 17, 8 and 1 in boxes of 8.
    assert ordered(keyed(), modules=modules).boxes == boxes


def test_nothing_but_what_is_needed_has_a_line() -> None:
    assert list(lines_of(ordered(keyed()))) == ["modules", "trim-top", "adhesive", "sealant"]
    tiled = list(lines_of(ordered(grouted())))
    assert tiled == ["modules", "trim-top", "sealant", "mortar", "grout"]


def test_trims_are_cut_from_stock_lengths() -> None:
    order = ordered(keyed())
    assert [(stock.trim, [run.length for run in stock.runs]) for stock in order.trims] == [
        ("top", [1500])
    ]
    line = lines_of(order)["trim-top"]
    assert (line.pack, line.count, line.unit_price) == ("length", 1, 1600)
    assert said(line) == "1 runs, 1.5 m in all, 3 mm a cut, out of lengths of 2400 mm → 1"


def test_every_use_of_a_trim_finds_its_runs() -> None:
    ends = rectangle(left=0, bottom=0, right=800, top=1200)
    three = layout(
        field("L", ends, ends=("open", "trim")),
        field("B", BACK, ends=("trim", "trim")),
        field("R", ends, ends=("trim", "open")),
    )
    fitted = walls(
        wall("L", width=800, ceiling=1400),
        wall("B", width=1500, ceiling=1400),
        wall("R", width=800, ceiling=1400),
    )
    order = take_off((), cut_plan(modules=0), three, fitted, keyed())
    # Edges 2 x 1200: two kerfs too long for one of 2400. Tops 1500 and 800 in one.
    counts = {id_: line.count for id_, line in lines_of(order).items()}
    assert (counts["trim-edge"], counts["trim-top"], counts["trim-corner"]) == (2, 2, 2)
    tops = [[(r.wall, r.length) for r in t.runs] for t in order.trims if t.trim == "top"]
    assert tops == [[("B", 1500), ("L", 800)], [("R", 800)]]


def test_walls_are_found_by_name() -> None:
    first = field("L", rectangle(left=0, bottom=0, right=800, top=1200), ends=("open", "butts"))
    second = field("B", BACK, ends=("runs behind", "open"))
    fitted = walls(wall("L", width=800, ceiling=1400), wall("B", width=1500, ceiling=1400))
    order = [
        take_off((), cut_plan(modules=0), layout(*fields), fitted, keyed())
        for fields in ((first, second), (second, first))
    ]
    assert order[0] == order[1]


def test_adhesive_by_bead() -> None:
    # 4 x 2570.82 + 8 x 2021.11 = 26 452 mm; 0.8 L x 0.85 / (pi 6^2 / 4) = 24 050 mm: 1.0999.
    line = lines_of(ordered(keyed()))["adhesive"]
    assert (line.pack, line.count, line.unit_price) == ("cartridge", 2, 1200)
    assert line.arithmetic.values["exact"] == pytest.approx(1.0999, abs=1e-4)
    assert said(line).startswith(
        "12 pieces × 2.2 m of 6 mm bead = 26.45 m / 24.05 m a cartridge = 1.1 → 2"
    )


def test_sealant_of_keys_and_fillets() -> None:
    # Keys 6900 x pi 4^2 / 4 = 86 708; fillets 2700 x 6^2 / 2 = 48 600 mm3; 0.24 L a cartridge.
    line = lines_of(ordered(keyed()))["sealant"]
    assert (line.pack, line.count) == ("cartridge", 1)
    assert line.arithmetic.values["exact"] == pytest.approx(135_308 / 240_000, abs=1e-5)
    assert said(line).startswith(
        "2.7 m of fillet, leg 6 mm + 6.9 m of key, bead 4 mm = 135 mL / 240 mL a cartridge"
    )


def test_sealant_of_tile_has_no_keys() -> None:
    line = lines_of(ordered(grouted()))["sealant"]
    assert said(line).startswith("2.7 m of fillet, leg 6 mm = 48.6 mL / 240 mL a cartridge")


def test_mortar_by_the_notch() -> None:
    # 1.8 m2 x 10 x 0.5 x sin 45 = 3.5355 mm x 1.15 = 7.3185 L of 13.5.
    line = lines_of(ordered(grouted()))["mortar"]
    assert (line.pack, line.count) == ("bag", 1)
    assert line.arithmetic.values["exact"] == pytest.approx(7.3185 / 13.5, abs=1e-5)
    assert said(line).startswith("1.8 m² × 3.54 mm of bed + 15 % on the backs = 7.32 L / 13.5 L")


def test_grout_by_the_joint() -> None:
    # 20 646 mm2 of joint x 10 = 0.20646 L x 1.6 x 1.15 = 0.37989 kg of 5.
    line = lines_of(ordered(grouted()))["grout"]
    assert (line.pack, line.count) == ("bag", 1)
    assert line.arithmetic.values["exact"] == pytest.approx(0.37989 / 5, abs=1e-6)
    assert said(line).startswith("206 mL of joint × 1.6 kg/L + 15 % = 0.38 kg / 5 kg a bag")


def test_a_bare_wall_needs_no_adhesive() -> None:
    fitted = walls(wall("B", width=1500, ceiling=1400))
    bare = layout(field("B", BACK, ends=("butts", "runs behind")))
    order = take_off((), cut_plan(modules=0), bare, fitted, keyed(spares=0))
    assert "adhesive" not in lines_of(order)
    assert "modules" not in lines_of(order)


def test_a_top_at_the_ceiling_needs_no_trim() -> None:
    fitted = walls(wall("B", width=1500, ceiling=1210))
    full = layout(field("B", BACK, ends=("butts", "runs behind")))
    order = take_off((), cut_plan(modules=12), full, fitted, keyed())
    assert "trim-top" not in lines_of(order)


def test_quantities_are_handed_on() -> None:
    quantities = ordered(keyed()).quantities
    assert (quantities.seal_length, quantities.area) == (1500 + 1200, 1500 * 1200)


def test_a_share_for_the_attic_is_kept_besides_the_spares() -> None:
    order = ordered(keyed(attic=0.05), modules=36)  # ceil(0.72) + 1 + ceil(1.8)
    assert (order.spares, order.boxes) == (4, 5)
    assert said(lines_of(order)["modules"]).startswith(
        "36 modules to cut from + 1 for breakage + 3 spare (attic stock) = 40 / 8 a box"
    )


def test_what_is_on_hand_is_taken_off_the_order() -> None:
    held = (OnHand(item="adhesive", count=0.2), OnHand(item="sealant", count=1))
    lines = lines_of(ordered(keyed(), on_hand=held))
    # 1.1 cartridges less 0.2; the sealant that is there will do.
    assert (lines["adhesive"].count, lines["sealant"].count) == (1, 0)


def test_open_time_says_how_many_to_butter_at_once() -> None:
    # The longest bead, 2571 mm at 3000 a minute, takes 0.857 minutes, hanging two:
    # floor((12 - 0.857) / 2) = 5.
    assert ordered(keyed()).at_once == 5
    assert ordered(grouted()).at_once is None
    fitted = walls(wall("B", width=1500, ceiling=1400))
    bare = layout(field("B", BACK, ends=("butts", "runs behind")))
    assert take_off((), cut_plan(modules=0), bare, fitted, keyed()).at_once is None


def test_boards_go_behind_the_whole_field() -> None:
    board = {"name": "Board", "size": (1500, 900), "price": 14}
    lines = lines_of(ordered(keyed(backer=board)))
    assert lines["backer"].count == 2  # 1500 x 1200, 900 and 300 high


# --- several products ---------------------------------------------------------------------------


def of_two(main: int, slate: int, *on_hand: OnHand) -> Order:
    """The order for a wall with modules of two products; boxes of slate hold 4 and cost more."""
    tile, system = grouted(), grouted(id="slate", name="Slate", per_box=4, price=90, spares=2)
    rows = (Accented(where=Accent(material="slate", courses=(2,)), system=system),)
    named = {tile.id: main, "slate": slate}
    cuts = replace(
        cut_plan(modules=main + slate),
        counts=tuple(
            ModuleCount(product=of, modules=count, lower_bound=count, proven=True)
            for of, count in named.items()
            if count
        ),
    )
    return take_off(
        tuple(piece(region) for region in GROUTED),
        cuts,
        layout(field("B", BACK, ends=("butts", "runs behind"))),
        walls(wall("B", width=1500, ceiling=1400)),
        tile,
        on_hand=on_hand,
        accented=rows,
    )


def test_each_product_has_its_own_line_breakage_spares_and_boxes() -> None:
    # Slate: 5 + 1 of 5 % + 2 = 8 in boxes of 4; the main one: 10 + 1 + 1 = 12 in boxes of 8.
    order = of_two(10, 5)
    tile = grouted().id
    assert [(p.product, p.modules, p.spares, p.boxes) for p in order.products] == [
        (tile, 10, 2, 2),
        ("slate", 5, 3, 2),
    ]
    assert (order.modules, order.spares, order.boxes) == (15, 5, 4)
    line = lines_of(order)["modules-slate"]
    assert (line.name, line.count, line.unit_price) == ("Slate", 2, 9_000)
    assert said(line).startswith("5 modules to cut from + 1 for breakage + 2 spare ")
    assert " = 8 / 4 a box" in said(line)
    assert [line.id for line in order.lines][:2] == ["modules", "modules-slate"]


def test_what_is_on_hand_is_of_its_own_product() -> None:
    held = OnHand(item="modules-slate", count=8, same_lot=True)
    assert [one.boxes for one in of_two(10, 5, held).products] == [2, 0]
    other = OnHand(item="modules", count=8, same_lot=True)
    assert [one.boxes for one in of_two(10, 5, other).products] == [1, 2]


def test_of_a_product_that_stands_nowhere_nothing_is_bought() -> None:
    order = of_two(0, 15)
    assert [one.product for one in order.products] == ["slate"]
    assert "modules" not in lines_of(order)


def test_one_product_has_one_row() -> None:
    (only,) = ordered(grouted(), modules=12).products
    assert (only.modules, only.spares, only.boxes) == (12, 2, 2)
