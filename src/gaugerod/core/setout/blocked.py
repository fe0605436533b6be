"""Why no layout was found: every limit that stood in the way, and how often."""

from collections.abc import Mapping
from functools import reduce

from gaugerod.core.base.messages import Message


def blocked(refused: Mapping[str, int], tried: int) -> Message:
    """Return what to say where no layout keeps every limit.

    Parameters
    ----------
    refused
        For each limit at how many places it was broken; at least one.
    tried
        How many places were tried.

    Returns
    -------
    Message
        Every limit with its count, the one that stopped most first.

    Notes
    -----
    A place is a phase of one wall at one height of the first course; one that breaks several
    limits counts with each. Source: own design.

    Examples
    --------
    >>> blocked({"under-least": 7}, 9).values["limits"].values["places"]
    7
    """
    ranked = sorted(refused.items(), key=lambda found: (-found[1], found[0]))
    said = [
        Message("setout.blocks", limit=Message(f"setout.limit-{limit}"), places=places)
        for limit, places in ranked
    ]
    return Message("setout.none", tried=tried, limits=listed(said, "setout.listed"))


def listed(said: list[Message], key: str) -> Message:
    """Return one message that says several, first to last.

    Parameters
    ----------
    said
        The messages, at least one.
    key
        Sentence with a place for `first` and one for `rest`.

    Returns
    -------
    Message
        The message.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> listed([Message("a"), Message("b")], "both").values["first"].key
    'a'
    """
    *before, last = said
    return reduce(lambda rest, first: Message(key, first=first, rest=rest), before[::-1], last)
