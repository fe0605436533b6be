"""The level line: one height for the first course on all walls."""


def level_line(*, deck_low: float, height: float, gap: float) -> float:
    """Return the height of the top of the first course.

    Parameters
    ----------
    deck_low
        Height of the lowest point of the deck on any wall, from the datum. [mm]
    height
        Height of the first course there, > 0. [mm]
    gap
        Joint between deck and lining, >= 0. [mm]

    Returns
    -------
    float
        Height of the level line from the datum. [mm]

    Notes
    -----
    Struck from the lowest point, the line makes the tallest piece of the first course
    `height` and every other one lower, so that no module is too short. Source: US Navy,
    *Builder* training manual, NAVEDTRA 14044, p. 7-23, steps 1 and 2.

    Examples
    --------
    >>> level_line(deck_low=-762.0, height=292.1, gap=3.175)
    -466.725
    """
    return deck_low + gap + height


def course_height(*, line: float, deck: float, gap: float) -> float:
    """Return the height of the first course over one point of the deck.

    Parameters
    ----------
    line
        Height of the top of the first course from the datum. [mm]
    deck
        Height of the deck there, from the datum. [mm]
    gap
        Joint between deck and lining. [mm]

    Returns
    -------
    float
        Height of the piece there. [mm]

    Notes
    -----
    Source: NAVEDTRA 14044, p. 7-23: the first course is cut wherever the rim is higher.

    Examples
    --------
    >>> round(course_height(line=-466.725, deck=-752.475, gap=3.175), 3)
    282.575
    """
    return line - gap - deck
