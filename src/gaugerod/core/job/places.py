"""Places as data: what their law allows of a deposit, and how long a customer may cancel."""

from collections.abc import Mapping
from typing import Annotated, Literal, TypeAlias, TypeVar

from pydantic import Field

from gaugerod.core.job.fields import Cents, Document, Identifier, Name, Share
from gaugerod.core.job.rates import RateTable

T = TypeVar("T")
Sure: TypeAlias = Literal["found", "calc", "from memory", "common practice, no source"]


class Sourced(Document):
    """Something that a law says: where it was read, and how sure that is."""

    source: Name
    edition: str = ""
    sure: Sure


class DepositCap(Sourced):
    """The most that may be asked before work begins: the lesser of what is given here."""

    share: Share | None = Field(default=None, description="Share of the price.")
    most: Cents | None = Field(default=None, description="An amount.")
    over: Cents = Field(default=0, description="It binds contracts of more than this.")
    note: str = Field(default="", description="What else the law says of it.")


class Cancelling(Sourced):
    """How long a customer at home may take back his word."""

    days: Annotated[int, Field(strict=True, ge=1, le=60)]
    counted: Literal["business days", "calendar days"]


class Place(Document):
    """One place, such as a state, and what binds there."""

    id: Identifier
    name: Name
    currency: Literal["USD", "GBP", "EUR"]
    deposit: DepositCap | None = None
    cancel: Cancelling | None = None


class Places(Document):
    """Every place at hand. None of it is advice: the law of the place wins."""

    format: Literal[1]
    place: tuple[Place, ...]


def nearest(region: str, known: Mapping[str, T]) -> T | None:
    """Return what is known of a region, or of the smallest one around it that is known.

    Parameters
    ----------
    region
        A place such as ``US-CA-ORANGE``: the country first, each part after a dash.
    known
        What is known, by place.

    Returns
    -------
    object or None
        What is known; None where not even the country is.

    Notes
    -----
    Source: own design; the codes of countries and their parts are those of ISO 3166-2.

    Examples
    --------
    >>> known = {"US": "a country", "US-CA": "a state"}
    >>> nearest("US-CA-ORANGE", known), nearest("US-IL", known), nearest("GB", known)
    ('a state', 'a country', None)
    """
    parts = region.split("-")
    around = ("-".join(parts[:count]) for count in range(len(parts), 0, -1))
    return next((known[place] for place in around if place in known), None)


def at_place(rates: RateTable, region: str) -> RateTable:
    """Return the rates of a shop as they are at one place.

    Parameters
    ----------
    rates
        The rates, with other figures by place.
    region
        The place; empty where it is not known.

    Returns
    -------
    RateTable
        The rates with the figures of the nearest place in them.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> own = sample_rates().model_dump() | {"place": {"US-CA": {"tax": 0.0775}}}
    >>> rates = RateTable.model_validate(own)
    >>> at_place(rates, "US-CA-ORANGE").tax, at_place(rates, "US-IL").tax
    (0.0775, 0.07)
    """
    there = nearest(region, rates.place)
    return rates.model_copy(update=there.model_dump(exclude_none=True)) if there else rates
