"""What was planned again, in a few lines."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.replan.replan import Replanned

MOST = 24
"""Changes that are told one by one; the papers have them all."""


def tell_again(found: Replanned, words: Catalogue) -> Iterator[str]:
    """Yield the lines.

    Parameters
    ----------
    found
        What was planned again.
    words
        Sentences, and how lengths are shown.

    Yields
    ------
    str
        A line: how much hangs, what changed, what is missing, what comes next.
    """
    for message in found.changes[:MOST]:
        yield words.say(message)
    if len(found.changes) > MOST:
        yield words.text("replan.more", n=len(found.changes) - MOST)
    plan = found.plan
    left = [piece for piece in plan.pieces if piece.tag not in plan.done]
    if left:
        to_cut = sum(not piece.whole and piece.tag not in found.cut for piece in left)
        yield words.text("replan.next", tag=left[0].tag, left=len(left), cut=to_cut)
    else:
        yield words.text("replan.all")
