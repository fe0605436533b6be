"""The care sheet that stays with the customer: how to use, clean and keep what was lined."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.packet.paper import Block, Heading, Paragraph, Table
from gaugerod.packet.phrases import moment


def care(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the care sheet of what is lined, sealed and grouted in this plan."""
    clock = moment(plan.days.no_water_until, words)
    yield Heading(text=words.text("care.title"), level=1)
    yield Paragraph(text=words.text("paper.no-water", until=clock), style="boxed")
    yield Paragraph(text=words.text("care.note"), style="strong")
    source = words.text("care.source")
    yield Table(
        header=tuple(words.text(f"care.{key}") for key in ("what", "how", "whence")),
        rows=tuple((words.text(f"care.{name}"), how, source) for name, how in _rows(plan, words)),
        widths=(3, 12, 3),
        size="plain",
    )


def _rows(plan: Plan, words: Catalogue) -> Iterator[tuple[str, str]]:
    """Yield what is to be done or never done, and how; only what this lining has."""
    system = plan.system
    plastic = system.cutting.material == "plastic"
    grout = system.grout
    sealant, hold = system.sealant.name, system.sealant.hold_hours
    openings = [opening for wall in plan.walls.walls for opening in wall.openings]
    yield "first", words.text("care.first-how")
    yield "daily", words.text("care.daily-how")
    yield "clean", words.text("care.clean-plastic" if plastic else "care.clean-tile")
    yield "never", words.text("care.never-plastic" if plastic else "care.never-tile")
    yield "mix", words.text("care.mix-how")
    if grout is not None:
        yield "grout", words.text(f"care.grout-{grout.binder}")
    yield "sealant", words.text("care.sealant-how")
    yield "renew", words.text("care.renew-how", name=sealant, hold=hold)
    if openings:
        yield "opening", words.text("care.opening-how", names=", ".join(o.name for o in openings))
    yield "hang", words.text("care.hang-how")
    if plan.order.spares:
        yield "spares", words.text("care.spares-how", n=plan.order.spares, name=system.name)
    yield "leak", words.text("care.leak-how")
