"""Letters to name things by, one after the other, however many there are."""

from string import ascii_lowercase


def letters(place: int) -> str:
    """Name a thing by its place: a to z, then aa, ab and on.

    Parameters
    ----------
    place
        Its place, from 0.

    Returns
    -------
    str
        Letters that no other place has.

    Notes
    -----
    Source: common practice, no source; as the columns of a spreadsheet are named.

    Examples
    --------
    >>> letters(0), letters(25), letters(26), letters(27), letters(702)
    ('a', 'z', 'aa', 'ab', 'aaa')
    """
    named = ""
    place += 1
    while place:
        place, at = divmod(place - 1, len(ascii_lowercase))
        named = ascii_lowercase[at] + named
    return named
