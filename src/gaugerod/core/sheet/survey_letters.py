"""One letter for each suspect, on the screen and on paper alike."""

from collections.abc import Sequence
from string import ascii_uppercase

from gaugerod.core.survey.walls import Suspect


def lettered(suspects: Sequence[Suspect]) -> tuple[tuple[str, Suspect], ...]:
    """Return suspects with their letters.

    Parameters
    ----------
    suspects
        At most 26, in their order.

    Returns
    -------
    tuple of (str, Suspect)
        Each with its letter, from A.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> one = Suspect(readings=("B width 2",), w=7.2, guess=None)
    >>> [letter for letter, _ in lettered([one, one])]
    ['A', 'B']
    """
    return tuple(zip(ascii_uppercase, suspects, strict=False))
