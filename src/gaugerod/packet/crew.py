"""The packet in the truck: all that a crew needs, and no money."""

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.packet.cards import cut_cards
from gaugerod.packet.closing import change_order, days, gates, materials
from gaugerod.packet.cover import cover
from gaugerod.packet.module_cuts import module_cuts
from gaugerod.packet.paper import PageBreak, Paper, Size
from gaugerod.packet.phrases import paper
from gaugerod.packet.readings import readings
from gaugerod.packet.trims import trims_to_cut
from gaugerod.packet.walls import elevations, gauge_rod, holes


def crew_packet(
    plan: Plan, words: Catalogue, *, revision: int = 1, size: Size | None = None
) -> Paper:
    """Return the crew's packet for one alcove.

    Parameters
    ----------
    plan
        The plan.
    words
        Sentences, and how lengths are shown.
    revision
        Number of the revision, on every page.
    size
        Size of the sheets; else what goes with the reader's units.

    Returns
    -------
    Paper
        Cover with the days and their holds, survey, elevations, gauge rod and holes, cut cards
        in the order of setting, modules that are parted, trims to cut, materials, gates, a blank
        change order.
        There is no price on it.
    """
    blocks = (
        *cover(plan, words),
        *days(plan, words),
        PageBreak(),
        *readings(plan, words),
        *elevations(plan, words),
        *gauge_rod(plan, words),
        *holes(plan, words),
        *cut_cards(plan, words),
        *module_cuts(plan, words),
        *trims_to_cut(plan, words),
        *materials(plan, words),
        *gates(plan, words),
        *change_order(words),
    )
    title = words.text("paper.crew-title")
    return paper(title, plan.job, blocks, words, revision=revision, size=size)
