"""What is set out by hand, worked out once for each place where it is held."""

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from functools import partial
from secrets import token_hex

from gaugerod.app.in_file import in_file
from gaugerod.app.job_book import Revision
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.job.document import Choices
from gaugerod.core.preview import Glance, Ground, Preview, glance, ground_of, preview, settled
from gaugerod.core.setout.events import Phase
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.notable import Heights, heights_of, phases_of
from gaugerod.web.desk import Desk, once, ready_of, weighed


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """The layout that a job has, ready to be moved: what it stands on, and how high it may go.

    `key` is another whenever anything of it is.
    """

    key: str
    ground: Ground
    choices: Choices
    layout: Layout
    heights: Heights
    words: Catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A layout held at one place, and the phases that are worth a stop there, wall by wall."""

    preview: Preview
    marks: Mapping[str, tuple[Phase, ...]]


def hand_of(desk: Desk, revision: Revision) -> Hand | None:
    """Return what a job's layout is moved from; a pattern without level courses can't be."""
    layout = weighed(desk, revision).chosen.layout
    if layout.pattern:
        return None
    ready = ready_of(desk, revision)

    def work() -> Hand:
        with in_file(ready.name):
            ground = ground_of(ready.job, ready.materials, ready.rules, ready.rates)
        choices, brief = settled(ground, layout), ground.brief
        return Hand(
            key=token_hex(),
            ground=ground,
            choices=choices,
            layout=layout,
            heights=heights_of(brief.walls, choices, brief.products.main, brief.rates.looks),
            words=ready.words,
        )

    return once(desk, "hand", revision, work)


def tried(desk: Desk, hand: Hand, choices: Choices, *, proven: bool = False) -> Tried:
    """Return what a layout comes to where it is held.

    Raises
    ------
    GaugerodError
        Nothing can be laid or cut so at all.
    """
    work = partial(_try, hand.ground, choices, proven=proven)
    # To look for the fewest modules takes as long as a plan does, and waits with plans.
    found: Tried = (desk.bench or desk.plans if proven else desk.hands).get(
        _place(hand, choices), work
    )
    return found


def tried_now(desk: Desk, hand: Hand, choices: Choices) -> Tried | Glance:
    """Return what a layout comes to where it is held; its layout alone where others are served.

    A finger that moves is gone from there before its turn would come.

    Raises
    ------
    GaugerodError
        Nothing can be laid or cut so at all.
    """
    work = partial(_try, hand.ground, choices, proven=False)
    found: Tried | None = desk.hands.get_now(_place(hand, choices), work)
    return found or glance(hand.ground, choices)


def _place(hand: Hand, choices: Choices) -> Hashable:
    return hand.key, choices.first_height, tuple(choices.phase.items())


def _try(ground: Ground, choices: Choices, *, proven: bool) -> Tried:
    brief = ground.brief
    found = preview(ground, choices, proven=proven)
    phases = phases_of(brief.walls, choices, brief.products.main, brief.rates.looks)
    names = [wall.name for wall in brief.walls.walls]
    return Tried(preview=found, marks=dict(zip(names, phases, strict=True)))
