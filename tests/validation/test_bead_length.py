"""How far a cartridge goes: its volume over the section of the bead.

Volumes: 10.1 US fl oz = 18.23 in3 and 28 oz = 50.53 in3, 29 oz = 52.34 in3 (1 fl oz = 231 / 128
in3). A sealant distributor gives 18.3 in3 for the 10.1 oz tube and feet = V / (12 w d)
(found and computed: midwestsealantsupply.com/23823/24023.html).

Field figure: a 1/4 x 1/4 joint, 24 to 27 ft to a 10 oz tube (found:
engineerfix.com/what-are-the-standard-caulk-sizes-and-coverage). The rest is calc. Lists that give
50 ft and more for 1/4 x 1/4 claim twice what the tube can hold.
"""

from math import pi

import pytest
from tests.laid_by_hand import rectangle

from gaugerod.core.job.sample import sample_system
from gaugerod.core.takeoff.beads import bead_on, bead_yield, fillet_section, round_section
from gaugerod.core.takeoff.packages import packages_of, whole

INCH = 25.4
FOOT = 12 * INCH
FLUID_OUNCE = 231 / 128 * INCH**3
TUBES = (10.1, 28.0, 29.0)


def feet(section: float) -> list[float]:
    """Feet of bead from each size of tube, to a tenth."""
    return [
        round(bead_yield(volume=ounces * FLUID_OUNCE, section=section) / FOOT, 1)
        for ounces in TUBES
    ]


@pytest.mark.parametrize(
    ("width", "depth", "expected"),
    [
        (1 / 8, 1 / 8, [97.2, 269.5, 279.1]),
        (3 / 16, 3 / 16, [43.2, 119.8, 124.1]),
        (1 / 4, 1 / 8, [48.6, 134.8, 139.6]),
        (1 / 4, 1 / 4, [24.3, 67.4, 69.8]),
        (3 / 8, 1 / 4, [16.2, 44.9, 46.5]),
        (3 / 8, 3 / 8, [10.8, 29.9, 31.0]),
        (1 / 2, 1 / 4, [12.2, 33.7, 34.9]),
        (1 / 2, 3 / 8, [8.1, 22.5, 23.3]),
        (1 / 2, 1 / 2, [6.1, 16.8, 17.4]),
        (3 / 4, 3 / 8, [5.4, 15.0, 15.5]),
    ],
)
def test_square_beads(width: float, depth: float, expected: list[float]) -> None:
    assert feet(width * INCH * depth * INCH) == expected


@pytest.mark.parametrize(
    ("width", "depth", "expected"),
    [
        (1 / 8, 1 / 8, 1232),
        (3 / 16, 3 / 16, 547.6),
        (1 / 4, 1 / 8, 616),
        (1 / 4, 1 / 4, 308),
        (3 / 8, 1 / 4, 205.3),
        (3 / 8, 3 / 8, 136.9),
        (1 / 2, 1 / 4, 154),
        (1 / 2, 3 / 8, 102.7),
        (1 / 2, 1 / 2, 77),
        (3 / 4, 3 / 8, 68.4),
    ],
)
def test_a_gallon(width: float, depth: float, expected: float) -> None:
    # 308, 205, 154 and 77 ft are familiar (from memory); the rest is calc.
    section = width * depth * INCH**2
    found = bead_yield(volume=128 * FLUID_OUNCE, section=section) / FOOT
    assert found == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize(("ounces", "cubic_inches"), [(10.1, 18.3), (27.0, 48.7), (30.0, 54.1)])
def test_what_a_distributor_says_a_tube_holds(ounces: float, cubic_inches: float) -> None:
    # Its 10.1 oz tube is 18.23 in3, printed as 18.3, the 300 mL of the metric tube.
    assert ounces * FLUID_OUNCE / INCH**3 == pytest.approx(cubic_inches, abs=0.08)


def test_what_it_calls_20_ounces_is_600_millilitres() -> None:
    # Its sausage holds 36.6 in3 (found); 20 fl oz would be 36.09 (calc): 20.29 fl oz.
    held_inches, named_inches = (volume / INCH**3 for volume in (6e5, 20 * FLUID_OUNCE))
    assert held_inches == pytest.approx(36.6, abs=0.05)
    assert named_inches == pytest.approx(36.09, abs=0.005)
    square = (INCH / 4) ** 2
    by_name, held = (
        bead_yield(volume=volume, section=square) / FOOT for volume in (20 * FLUID_OUNCE, 6e5)
    )
    assert (round(by_name, 1), round(held, 1)) == (48.1, 48.8)  # 36.09 and 36.61 in3 / 0.75


@pytest.mark.parametrize(
    ("diameter", "expected"),
    [
        (1 / 8, [123.8, 343.1, 355.4]),
        (3 / 16, [55.0, 152.5, 158.0]),
        (1 / 4, [30.9, 85.8, 88.8]),
        (3 / 8, [13.8, 38.1, 39.5]),
        (1 / 2, [7.7, 21.4, 22.2]),
    ],
)
def test_round_beads(diameter: float, expected: list[float]) -> None:
    assert feet(round_section(diameter * INCH)) == expected


def test_a_fillet_takes_half_a_square() -> None:
    gallon = bead_yield(volume=128 * FLUID_OUNCE, section=fillet_section(INCH / 4))
    assert gallon / FOOT == pytest.approx(616, abs=0.05)


def test_a_fillet() -> None:
    assert feet(fillet_section(INCH / 4)) == [48.6, 134.8, 139.6]


@pytest.mark.parametrize(
    ("section", "metres"),
    [
        (5 * 5, 12.0),
        (6 * 6, 8.33),
        (10 * 5, 6.0),
        (10 * 10, 3.0),
        (pi * 5**2 / 4, 15.3),
        (pi * 6**2 / 4, 10.6),
    ],
)
def test_a_metric_tube(section: float, metres: float) -> None:
    assert bead_yield(volume=300_000, section=section) / 1000 == pytest.approx(metres, rel=0.005)


def test_the_field_figure() -> None:
    assert 24 <= feet((INCH / 4) ** 2)[0] <= 27


def test_the_beads_on_one_module() -> None:
    # Worked by hand, common practice: 24 x 12 in, an inch in from the edges, strokes at most
    # 6 in apart: 64 in round and 39 in of zigzag, 8.6 ft.
    module = rectangle(left=0, bottom=0, right=24 * INCH, top=12 * INCH)
    inches = bead_on(module, inset=INCH, infill=6 * INCH) / INCH
    assert inches - 64 == pytest.approx(39, abs=0.5)
    assert inches / 12 == pytest.approx(8.6, abs=0.05)


@pytest.mark.parametrize(("bead", "tubes"), [(1 / 4, 4), (3 / 8, 9)])
def test_the_tubes_for_one_alcove(bead: float, tubes: int) -> None:
    # Worked by hand: 31 modules of 8.6 ft from 28 oz tubes, 85 % of which is used.
    per = bead_yield(volume=28 * FLUID_OUNCE, section=round_section(bead * INCH), usable=0.85)
    assert whole(packages_of(31 * 8.6 * FOOT, per=per)) == tubes


def test_the_sealant_for_one_alcove() -> None:
    # Worked by hand: 75 ft of key at 3/16 and 22 ft of 1/4 fillet, 80 % of each 10.1 oz used.
    volume = 75 * FOOT * round_section(3 / 16 * INCH) + 22 * FOOT * fillet_section(INCH / 4)
    assert whole(packages_of(volume, per=0.8 * 10.1 * FLUID_OUNCE)) == 3


def test_the_sample_module_is_in_this_family() -> None:
    glue = sample_system().adhesive
    assert glue is not None
    per = bead_yield(volume=glue.cartridge * 1e6, section=round_section(glue.bead))
    assert 28 <= per / 1000 <= 29  # 0.8 L at 6 mm: 28.29 m
