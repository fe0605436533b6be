"""What a reading is called: the name it was given, else its wall, kind and number."""

from collections import Counter
from collections.abc import Iterator

from gaugerod.core.job.document import Wall
from gaugerod.core.job.readings import Deck, OpeningEdge, Reading


def named(wall: Wall) -> Iterator[tuple[str, Reading]]:
    """Yield the readings of a wall, each with its name.

    Parameters
    ----------
    wall
        The wall.

    Yields
    ------
    tuple of str and Reading
        The name and the reading, in the order of the wall.

    Notes
    -----
    Readings of one kind are numbered from 1, those with a name of their own too. Readings on a
    ledge or platform and jamb depths are numbered apart.
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> [name for name, _ in named(sample_job().wall[1])][2:5]
    ['B width 3', 'B deck 1', 'B deck 2']
    """
    counts: Counter[str] = Counter()
    for reading in wall.readings:
        kind = _kind(reading)
        counts[kind] += 1
        yield reading.id or f"{wall.name} {kind} {counts[kind]}", reading


def _kind(reading: Reading) -> str:
    if isinstance(reading, Deck) and reading.part != "rim":
        return "leg" if reading.part == "floor" else reading.part
    if isinstance(reading, OpeningEdge) and reading.edge == "jamb depth":
        return reading.edge
    return reading.kind
