"""The set-outs to choose from, side by side: picture, price, what each gives up."""

from collections.abc import Iterator, Sequence

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length, Money
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.options.option import Option
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.small import draw_small
from gaugerod.packet.options import picked_first
from gaugerod.packet.paper import Beside, Block, Heading, Paragraph, Picture

_TALL = 45.0
"""Height of a small drawing, at the most. [mm]"""


def choices(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the set-outs side by side, where there is still a choice of several."""
    picks = [option for option in picked_first(plan.options) if option.picks]
    if plan.agreement.account or len(picks) == 1:
        return
    yield Heading(text=words.text("choices.title"), level=2)
    yield Beside(
        across=len(picks), cells=tuple(tuple(_cell(one, picks, plan, words)) for one in picks)
    )
    yield Paragraph(text=words.text("choices.note"), style="small")


def _cell(option: Option, picks: Sequence[Option], plan: Plan, words: Catalogue) -> Iterator[Block]:
    names = ", ".join(words.text(f"choices.{pick.replace(' ', '-')}") for pick in option.picks)
    yield Heading(text=words.text("choices.named", id=option.id, names=names), level=2)
    pieces = make_pieces(option.layout, plan.walls, plan.system)
    drawing = draw_small(f"choice-{option.id}", plan.walls, pieces, words)
    yield Picture(drawing=drawing, height=_TALL)
    taken = option.id == plan.chosen.id
    price = words.text("choices.drawn" if taken else "choices.price", price=Money(option.price))
    yield Paragraph(text=price, style="boxed" if taken else "strong")
    yield Paragraph(
        text=words.text(
            "choices.made-of",
            modules=option.modules,
            cuts=option.cuts,
            smallest=Length(option.smallest),
        ),
        style="plain",
    )
    given = [words.text(f"choices.{name}") for name in _given_up(option, picks)]
    text = words.text("choices.gives-up", what=", ".join(given) or words.text("choices.nothing"))
    yield Paragraph(text=text, style="plain")


def _given_up(option: Option, picks: Sequence[Option]) -> Iterator[str]:
    """Name what another of the picks does better; the figures stand beside each other."""
    if option.price > min(one.price for one in picks):
        yield "not-cheapest"
    if option.looks > min(one.looks for one in picks):
        yield "not-fairest"
    if option.cuts > min(one.cuts for one in picks):
        yield "not-fewest-cuts"
    if option.modules > min(one.modules for one in picks):
        yield "not-fewest-modules"
    if option.smallest < max(one.smallest for one in picks):
        yield "not-widest"
