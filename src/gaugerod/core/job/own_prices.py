"""What packages cost: as the makers' files have it, and as a job says otherwise."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import Materials, System
from gaugerod.core.job.own_figures import OwnPrice
from gaugerod.core.job.products import MODULES, Products, modules_of, products_of

_HELD = ("adhesive", "sealant", "mortar", "grout", "membrane", "backer")
"""Parts of a system that are bought, each a line of its own name."""


def prices_of(products: Products) -> Mapping[str, int]:
    """Return what one package of everything costs that an order may hold.

    Parameters
    ----------
    products
        The products of a job.

    Returns
    -------
    Mapping of str to int
        Prices by the id of the line. [cents]

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> prices_of(Products(main=sample_system()))["modules"]
    20000
    """
    system = products.main
    held = ((name, getattr(system, name)) for name in _HELD)
    return {
        MODULES: system.price,
        **{modules_of(one.id): one.price for one in products.systems[1:]},
        **{f"trim-{trim.id}": trim.price for trim in system.trim},
        **{name: part.price for name, part in held if part is not None},
        **{supply.id: supply.price for supply in system.supply},
    }


def priced_products(job: Job, materials: Materials) -> Products:
    """Return the products of a job at the prices that it reckons with.

    Parameters
    ----------
    job
        Its choices, and the prices that it has of its own.
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
    >>> priced_products(sample_job(), materials).main == sample_system()
    True
    """
    return at_own_prices(products_of(job.choices, materials), job.pricing.item)


def at_own_prices(products: Products, own: Iterable[OwnPrice]) -> Products:
    """Return products at the prices that a job has for them.

    Parameters
    ----------
    products
        The products, at the prices of their files.
    own
        What the job says otherwise; each item is one that an order may hold.

    Returns
    -------
    Products
        The products with these prices in them, so that all that is reckoned is reckoned so.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> quoted = OwnPrice(item="modules", price=79.5)
    >>> prices_of(at_own_prices(Products(main=sample_system()), [quoted]))["modules"]
    7950
    """
    told = {one.item: one.price for one in own}
    main = _priced(products.main, MODULES, told)
    others = tuple(
        replace(
            one,
            system=main
            if one.system.id == main.id
            else _priced(one.system, modules_of(one.system.id), told),
        )
        for one in products.accented
    )
    return Products(main=main, accented=others)


def _priced(system: System, modules: str, told: Mapping[str, int]) -> System:
    held = {name: getattr(system, name) for name in _HELD if name in told}
    return system.model_copy(
        update={
            "price": told.get(modules, system.price),
            "trim": tuple(
                trim.model_copy(update={"price": told.get(f"trim-{trim.id}", trim.price)})
                for trim in system.trim
            ),
            "supply": tuple(
                one.model_copy(update={"price": told.get(one.id, one.price)})
                for one in system.supply
            ),
            **{name: part.model_copy(update={"price": told[name]}) for name, part in held.items()},
        }
    )
