"""Mortar by weight: about 1.4 kg to a square metre for each mm of bed, 5.5 kg at 4 mm.

Packet data gathered at www.sweatlodgeradio.com/how-do-you-calculate-epoxy-grout (found). It says
that mortar goes by the thickness of the bed, and what a litre of bed weighs when dry.
"""

from dataclasses import replace

import pytest
from tests.laid_by_hand import grouted

from gaugerod.core.job.materials import Mortar
from gaugerod.core.takeoff.sample import sample_order
from gaugerod.core.takeoff.wet import wet_needs
from gaugerod.store.shelf import Library

KG_PER_LITRE = 1.4
"""A bed of a mm on a square metre is a litre."""


def kilograms(*, bed: float) -> float:
    """Of dry mortar on one square metre, by the take-off: a bag that yields a litre is 1.4 kg."""
    # A notch as wide as its gap leaves half its depth times sin 45 deg.
    depth = bed * 2 * 2**0.5
    mortar = {
        "name": "Mortar",
        "notch_depth": depth,
        "notch_width": 10,
        "notch_gap": 10,
        "bag_yield": 1,
        "back_butter": 0.0,
        "price": 20,
        "hold_hours": 24,
    }
    square_metre = replace(sample_order().quantities, area=1e6)
    (need,) = (n for n in wet_needs(square_metre, grouted(mortar=mortar)) if n.id == "mortar")
    return float(need.packages) * KG_PER_LITRE


def test_four_mm_of_bed() -> None:
    assert kilograms(bed=4) == pytest.approx(5.5, abs=0.15)


@pytest.mark.parametrize("bed", [1.0, 2.0, 3.0, 6.0])
def test_it_is_linear_in_the_thickness(bed: float) -> None:
    assert kilograms(bed=bed) == pytest.approx(1.4 * bed)


def test_the_packaged_bag_is_of_this_family() -> None:
    system = Library().materials().systems["tile-600x300"]
    mortar = system.mortar
    assert isinstance(mortar, Mortar)
    assert "20 kg" in mortar.name
    assert mortar.bag_yield == pytest.approx(20 / KG_PER_LITRE, rel=0.06)
