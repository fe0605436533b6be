"""Fractions of an inch as print sets them: the numerator raised, the denominator lowered."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

SLASH = "\N{FRACTION SLASH}"
LARGER = 1.3
"""Size of a fraction to that of the whole beside it. [1]

The family's own fractions are as high as capitals, their digits 0.53 of that: too small for wet
paper at arm's length. So much larger they are 0.69.
"""
LOWER = (LARGER - 1) / 2
"""How far a fraction stands under the line, and over the capitals, in capitals. [1]"""
DIGIT, BAR = 0.6, 0.39
"""Room that a digit of a fraction and its slash take, in capitals of the fraction. [1]"""
_TAPE = re.compile(r'(?<![\w./,])(\d{1,2})/(2|4|8|16|32|64)(?="| in\b)')


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A stretch of a text that is set in one size on one line."""

    text: str
    fraction: bool


def set_fractions(text: str) -> str:
    """Write the fractions of lengths with the slash of fractions.

    Parameters
    ----------
    text
        Any text.

    Returns
    -------
    str
        The same, but for the slash in each fraction of an inch.

    Notes
    -----
    A fraction is one of a length where halves to sixty-fourths are followed by the sign of
    inches or by ``in``. Dates, shares, names of parts and *and/or* stay as they are.
    Source: own design.

    Examples
    --------
    >>> set_fractions('23 15/16", 3/32 in (2 mm), screws 1 5/8, 1/2/2026, and/or')
    '23 15⁄16", 3⁄32 in (2 mm), screws 1 5/8, 1/2/2026, and/or'
    """
    return _TAPE.sub(rf"\1{SLASH}\2", text)


def runs(text: str) -> Iterator[Run]:
    """Part a text into its fractions of an inch and what stands between them.

    Parameters
    ----------
    text
        One line of text.

    Yields
    ------
    Run
        In the order of the text, none of them empty. A fraction has the slash of fractions.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> [(run.text, run.fraction) for run in runs('9 13/16"')]
    [('9 ', False), ('13⁄16', True), ('"', False)]
    """
    end = 0
    for found in _TAPE.finditer(text):
        if found.start() > end:
            yield Run(text=text[end : found.start()], fraction=False)
        yield Run(text=f"{found[1]}{SLASH}{found[2]}", fraction=True)
        end = found.end()
    if end < len(text):
        yield Run(text=text[end:], fraction=False)
