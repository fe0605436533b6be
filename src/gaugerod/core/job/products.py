"""The products of a job: that of its choices, and what stands here and there instead."""

from collections.abc import Mapping
from dataclasses import dataclass

from gaugerod.core.job.document import Accent, Choices
from gaugerod.core.job.materials import Materials, System

_LETTERS = "XYZWVUTSQPNKJGFEDC"
"""None of these is a common wall's, or stands before a module, an offcut or what was at hand."""


MODULES = "modules"
"""The line of an order for the modules that all is set out by."""


def modules_of(product: str) -> str:
    """Return the id of the line of an order for modules of another product.

    Parameters
    ----------
    product
        Its id.

    Returns
    -------
    str
        The id of the line.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> modules_of("slate")
    'modules-slate'
    """
    return f"{MODULES}-{product}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Accented:
    """Where another product stands, and that product. [mm]."""

    where: Accent
    system: System


@dataclass(frozen=True, slots=True, kw_only=True)
class Products:
    """The product that all is set out by, and where others stand instead of it.

    Trims, what holds the modules and what seals them are those of `main`.
    """

    main: System
    accented: tuple[Accented, ...] = ()

    @property
    def systems(self) -> tuple[System, ...]:
        """Every product once, `main` first."""
        others = {one.system.id: one.system for one in self.accented}
        return tuple(({self.main.id: self.main} | others).values())

    @property
    def slowest(self) -> System:
        """The main product, with the longest wait of all for delivery and in the room."""
        leads = [one.lead_days for one in self.systems if one.lead_days is not None]
        lie = max(one.acclimatise_hours for one in self.systems)
        return self.main.model_copy(
            update={"lead_days": max(leads, default=None), "acclimatise_hours": lie}
        )

    def of(self, product: str) -> System:
        """Return a product by its id."""
        return next(one for one in self.systems if one.id == product)

    def letters(self, walls: tuple[str, ...]) -> Mapping[str, str]:
        """Return the letter of every product but the main one; none is the name of a wall."""
        # Thrice the same is no wall's name, should all the others be.
        letters = (*_LETTERS, *(3 * letter for letter in _LETTERS))
        free = (letter for letter in letters if letter not in walls)
        return dict(zip((one.id for one in self.systems[1:]), free, strict=False))


def products_of(choices: Choices, materials: Materials) -> Products:
    """Return the products that the choices of a job name.

    Parameters
    ----------
    choices
        The choices.
    materials
        The materials at hand; every name is among them.

    Returns
    -------
    Products
        The products, and where they stand.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> materials = Materials(systems={"sample": sample_system()})
    >>> [system.id for system in products_of(sample_job().choices, materials).systems]
    ['sample']
    """
    return Products(
        main=materials.systems[choices.material],
        accented=tuple(
            Accented(where=accent, system=materials.systems[accent.material])
            for accent in choices.accent
        ),
    )
