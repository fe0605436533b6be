from math import pi

import pytest
from tests.laid_by_hand import PARTS, grouted, keyed
from tests.takeoff_words import said

from gaugerod.core.job.materials import System
from gaugerod.core.takeoff.needs import bought
from gaugerod.core.takeoff.order import OrderLine, Quantities
from gaugerod.core.takeoff.wet import wet_needs


def counted(**amounts: float) -> Quantities:
    """Nothing but these amounts."""
    counts = ("pieces", "straight_cuts", "shaped_cuts", "holes", "niches")
    sizes = ("area", "key_length", "joint_volume", "seal_length", "bead_length", "edge_length")
    nothing: dict[str, float] = dict.fromkeys(counts, 0) | dict.fromkeys(sizes, 0.0)
    return Quantities(**(nothing | amounts))  # type: ignore[arg-type] # floats and counts alike


def line(system: System, item: str, **amounts: float) -> OrderLine:
    lines = bought(wet_needs(counted(**amounts), system))
    return next(line for line in lines if line.id == item)


def sealing(**beads: float) -> System:
    """A keyed module and cartridges of 0.3 L, all of it used."""
    seal = PARTS["sealant"]
    assert isinstance(seal, dict)
    return keyed(sealant={**seal, "usable": 1.0, **beads})


def test_shoulders_cuts_and_holes_take_beads_of_their_own() -> None:
    system = sealing(shoulder_bead=3, cut_bead=2, hole_bead=5)
    found = line(
        system,
        "sealant",
        seal_length=1_000,
        key_length=10_000,
        cut_length=6_000,
        ring_length=400,
    )
    keys, shoulders, cuts, rings = 10_000 * 4**2, 10_000 * 3**2, 6_000 * 2**2, 400 * 5**2
    volume = 1_000 * 18 + pi / 4 * (keys + shoulders + cuts + rings)
    assert found.arithmetic.values["exact"] == pytest.approx(volume / 300_000)
    assert said(found) == (
        "1 m of fillet, leg 6 mm + 10 m of key, bead 4 mm + 10 m of shoulder, bead 3 mm"
        " + 6 m of cut edge, bead 2 mm + 0.4 m round holes, bead 5 mm"
        " = 241 mL / 300 mL a cartridge = 0.8 → 1"
    )


def test_without_a_bead_they_take_none() -> None:
    found = line(sealing(), "sealant", seal_length=1_000, cut_length=6_000, ring_length=400)
    assert said(found).startswith("1 m of fillet, leg 6 mm = 18 mL / 300 mL")


def test_membrane_by_the_wet_film() -> None:
    # 6 m2 x 0.8 mm = 4.8 L, and a tenth more; buckets of 5 L.
    coat = {"name": "Membrane", "film": 0.8, "bucket": 5, "price": 48}
    found = line(grouted(membrane=coat), "membrane", area=5.5e6, inside_area=0.5e6)
    assert (found.pack, found.count, found.unit_price) == ("bucket", 2, 4800)
    assert said(found) == "6 m² × 0.8 mm wet + 10 % = 5.28 L / 5 L a bucket = 1.06 → 2"


def test_the_pieces_that_take_a_bead_are_told() -> None:
    found = line(keyed(), "adhesive", pieces=40, buttered=31, bead_length=81_263)
    # 31 x 2621 mm; 0.8 L x 0.85 / (pi 6^2 / 4) = 24 050 mm.
    assert said(found).startswith("31 pieces × 2.62 m of 6 mm bead = 81.26 m / 24.05 m a cart")
    assert found.count == 4
