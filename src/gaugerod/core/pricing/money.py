"""Money: whole cents, multiplied as decimals and rounded half up, once."""

from decimal import ROUND_HALF_UP, Decimal
from typing import TypeAlias

Factor: TypeAlias = Decimal | int | float | str

PLACES = 6
"""Decimal places of a counted quantity that enter a product: beyond them is float noise."""


def half_up(amount: Decimal) -> int:
    """Round to a whole number, a tie away from zero.

    Parameters
    ----------
    amount
        Exact amount in cents, or in minutes; at most 28 digits.

    Returns
    -------
    int
        The nearest whole number.

    Notes
    -----
    Source: Streamlined Sales and Use Tax Agreement, section 324: carry to the third decimal
    place and round up to the next cent when that is greater than four.

    Examples
    --------
    >>> half_up(Decimal("62.5")), half_up(Decimal("-62.5")), half_up(Decimal("62.49"))
    (63, -63, 62)
    """
    return int(amount.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def exact(factor: Factor) -> Decimal:
    """Return a factor as the decimal that was written.

    Parameters
    ----------
    factor
        A float stands for the shortest decimal that reads back as the same float, which is
        what its author wrote; it never enters a product in binary. [1]

    Returns
    -------
    Decimal
        The factor, exact.

    Notes
    -----
    ``0.0725`` in binary is a little less than 0.0725, and 10.00 at 7.25 % is a tie: in
    floats the cent is lost. Source: own derivation.

    Examples
    --------
    >>> exact(0.0725), exact("1.50")
    (Decimal('0.0725'), Decimal('1.50'))
    """
    return factor if isinstance(factor, Decimal) else Decimal(str(factor))


def counted(quantity: float) -> Decimal:
    """Return a quantity that was measured on the drawings, without the noise of its floats.

    Parameters
    ----------
    quantity
        A count, an area in square metres or a length in metres. [1]

    Returns
    -------
    Decimal
        The quantity to `PLACES` decimal places.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> counted(0.1 + 0.2)
    Decimal('0.3')
    """
    return Decimal(str(round(quantity, PLACES)))


def times(cents: int, factor: Factor) -> int:
    """Multiply an amount of money.

    Parameters
    ----------
    cents
        The amount. [cents]
    factor
        What to multiply it by; see `exact`. [1]

    Returns
    -------
    int
        The product, rounded half up once. [cents]

    Notes
    -----
    Source: see `half_up`.

    Examples
    --------
    1.00 at 1.5 %, and 10.00 at 7.25 %, which floats make 0.72:

    >>> times(100, "0.015"), times(1000, 0.0725)
    (2, 73)
    """
    return half_up(cents * exact(factor))
