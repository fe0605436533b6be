"""What comes out of cartridges, bags and buckets."""

from collections.abc import Iterator

from gaugerod.core.base.measures import MM3_PER_LITRE
from gaugerod.core.base.messages import Area, Length, Mass, Message, Run, Thickness, Volume
from gaugerod.core.job.goods import Membrane
from gaugerod.core.job.materials import Adhesive, Grout, Mortar, System
from gaugerod.core.takeoff.beads import bead_yield, fillet_section, round_section
from gaugerod.core.takeoff.beds import mean_bed
from gaugerod.core.takeoff.needs import Need
from gaugerod.core.takeoff.order import Quantities
from gaugerod.core.takeoff.packages import packages_of

PERCENT = 100


def wet_needs(quantities: Quantities, system: System) -> Iterator[Need]:
    """Yield what is needed of adhesive, sealant, mortar, grout and membrane.

    Parameters
    ----------
    quantities
        Lengths, areas and volumes. [mm, mm2, mm3]
    system
        The material: packages, beads, beds. [mm]

    Yields
    ------
    Need
        What the material has a table for, with the sum behind it.

    Notes
    -----
    Formulas: ``docs/theory/takeoff.md``. Source: common practice for what is counted; own
    derivation for how.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> needs = wet_needs(sample_order().quantities, sample_system())
    >>> [(need.id, round(float(need.packages), 2)) for need in needs]
    [('adhesive', 3.37), ('sealant', 1.71)]
    """
    if system.adhesive:
        yield _adhesive(quantities, system.adhesive)
    yield _sealant(quantities, system)
    if system.mortar:
        yield _mortar(quantities, system.mortar)
    if system.grout:
        yield _grout(quantities, system.grout)
    if system.membrane:
        yield _membrane(quantities, system.membrane)


def _adhesive(quantities: Quantities, glue: Adhesive) -> Need:
    per = bead_yield(
        volume=glue.cartridge * MM3_PER_LITRE,
        section=round_section(glue.bead),
        usable=glue.usable,
    )
    return Need(
        id="adhesive",
        name=glue.name,
        pack="cartridge",
        packages=packages_of(quantities.bead_length, per=per),
        unit_price=glue.price,
        sum=Message(
            "takeoff.adhesive",
            pieces=quantities.buttered,
            each=Run(quantities.bead_length / max(quantities.buttered, 1)),
            total=Run(quantities.bead_length),
            bead=Length(glue.bead),
            per=Run(per),
        ),
    )


def _sealant(quantities: Quantities, system: System) -> Need:
    seal = system.sealant
    fillets = quantities.seal_length + quantities.inside_seal
    beads = (
        ("takeoff.keys", quantities.key_length, seal.key_bead),
        ("takeoff.shoulders", quantities.key_length, seal.shoulder_bead),
        ("takeoff.cuts", quantities.cut_length, seal.cut_bead),
        ("takeoff.rings", quantities.ring_length, seal.hole_bead),
    )
    parts = [Message("takeoff.fillets", length=Run(fillets), leg=Length(seal.fillet))]
    volume = fillets * fillet_section(seal.fillet)
    for key, length, bead in beads:
        if length and bead:
            parts.append(Message(key, length=Run(length), bead=Length(bead)))
            volume += length * round_section(bead)
    if quantities.seam_length:
        seams = _in_seams(quantities, system)
        run = Run(quantities.seam_length)
        parts.append(Message("takeoff.seams", length=run, volume=Volume(seams)))
        volume += seams
    per = seal.cartridge * MM3_PER_LITRE * seal.usable
    return Need(
        id="sealant",
        name=seal.name,
        pack="cartridge",
        packages=packages_of(volume, per=per),
        unit_price=seal.price,
        sum=Message("takeoff.sealant", parts=_listed(parts), total=Volume(volume), per=Volume(per)),
    )


def _listed(parts: list[Message]) -> Message:
    """Add parts up in words."""
    listed = parts[0]
    for part in parts[1:]:
        listed = Message("takeoff.and", first=listed, second=part)
    return listed


def _in_seams(quantities: Quantities, system: System) -> float:
    """Return the sealant in the seams of sheets. [mm3].

    A bonded seam is filled to its depth; in a trim a bead lies along the edge of each sheet.
    """
    bead = quantities.seam_length * round_section(system.sealant.key_bead)
    if any(trim.use == "seam" for trim in system.trim):
        return 2 * bead
    return bead + quantities.joint_volume


def _mortar(quantities: Quantities, mortar: Mortar) -> Need:
    bed = mean_bed(depth=mortar.notch_depth, width=mortar.notch_width, gap=mortar.notch_gap)
    area = quantities.lined_area
    volume = area * bed * (1 + mortar.back_butter)
    per = mortar.bag_yield * MM3_PER_LITRE
    return Need(
        id="mortar",
        name=mortar.name,
        pack="bag",
        packages=packages_of(volume, per=per),
        unit_price=mortar.price,
        sum=Message(
            "takeoff.mortar",
            area=Area(area),
            bed=Thickness(bed),
            butter=PERCENT * mortar.back_butter,
            total=Volume(volume),
            per=Volume(per),
        ),
    )


def _grout(quantities: Quantities, grout: Grout) -> Need:
    litres = quantities.joint_volume / MM3_PER_LITRE
    kilograms = litres * grout.density * (1 + grout.waste)
    return Need(
        id="grout",
        name=grout.name,
        pack="bag",
        packages=packages_of(kilograms, per=grout.bag),
        unit_price=grout.price,
        sum=Message(
            "takeoff.grout",
            volume=Volume(quantities.joint_volume),
            density=grout.density,
            waste=PERCENT * grout.waste,
            total=Mass(kilograms),
            per=Mass(grout.bag),
        ),
        one_lot=True,
    )


def _membrane(quantities: Quantities, membrane: Membrane) -> Need:
    area = quantities.lined_area
    volume = area * membrane.film * (1 + membrane.waste)
    per = membrane.bucket * MM3_PER_LITRE
    return Need(
        id="membrane",
        name=membrane.name,
        pack="bucket",
        packages=packages_of(volume, per=per),
        unit_price=membrane.price,
        sum=Message(
            "takeoff.membrane",
            area=Area(area),
            film=Thickness(membrane.film),
            waste=PERCENT * membrane.waste,
            total=Volume(volume),
            per=Volume(per),
        ),
    )
