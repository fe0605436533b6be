"""Public holidays by place: days on which a crew does not work unless it says so."""

from datetime import date
from functools import lru_cache

import holidays


@lru_cache(maxsize=1)
def _places() -> frozenset[str]:
    countries = holidays.list_supported_countries()
    parts = {f"{country}-{part}" for country, all_ in countries.items() for part in all_}
    return frozenset(parts.union(countries))


def is_place(place: str) -> bool:
    """Tell whether the public holidays of a place are known.

    Parameters
    ----------
    place
        A country after ISO 3166-1, or a part of one after ISO 3166-2, such as ``US`` or
        ``US-IL``.

    Returns
    -------
    bool
        Whether they are.

    Notes
    -----
    Source: the library ``holidays``.

    Examples
    --------
    >>> is_place("US-IL"), is_place("GB"), is_place("Illinois")
    (True, True, False)
    """
    return place in _places()


def is_country(code: str) -> bool:
    """Tell whether two letters are those of a country.

    Parameters
    ----------
    code
        The letters, after ISO 3166-1.

    Returns
    -------
    bool
        Whether they are.

    Notes
    -----
    Only the letters of the standard count: GB, not UK. Source: the library ``holidays``.

    Examples
    --------
    >>> is_country("GB"), is_country("UK")
    (True, False)
    """
    return code in holidays.list_supported_countries(include_aliases=False)


@lru_cache(maxsize=1024)
def public_holidays(place: str, year: int) -> frozenset[date]:
    """Return the public holidays of a place in one year.

    Parameters
    ----------
    place
        A place of which `is_place` is true, or nothing: then there are none.
    year
        The year.

    Returns
    -------
    frozenset of date
        The days that are kept, moved ones where the place keeps them.

    Notes
    -----
    Source: the library ``holidays``: what it knows of a year to come grows with its releases.

    Examples
    --------
    Independence Day of 2026 is a Saturday and is kept on the Friday too:

    >>> sorted(day.isoformat() for day in public_holidays("US", 2026) if day.month == 7)
    ['2026-07-03', '2026-07-04']
    >>> public_holidays("", 2026)
    frozenset()
    """
    if not place:
        return frozenset()
    country, _, part = place.partition("-")
    return frozenset(holidays.country_holidays(country, subdiv=part or None, years=year))
