"""The last sheets: what must be on site, the days and their holds, the gates, a change order."""

from collections.abc import Iterator
from typing import get_args

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.rules import Gate
from gaugerod.core.pipeline import Plan
from gaugerod.core.takeoff.order import OrderLine
from gaugerod.core.works.days import DayTask
from gaugerod.packet.paper import (
    Block,
    Checklist,
    Columns,
    Form,
    Heading,
    PageBreak,
    Paragraph,
    Table,
)
from gaugerod.packet.phrases import moment, packed, rule_name, together
from gaugerod.packet.products import modules_said


def materials(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the count of what must be on site, with room for the lots."""
    order = plan.order
    blocks: list[Block] = [
        Heading(text=words.text("paper.materials"), level=1),
        *(Paragraph(text=words.say(said), style="plain") for said in modules_said(plan)),
    ]
    if order.at_once is not None:
        butter = words.text("paper.butter", n=order.at_once)
        blocks.append(Paragraph(text=butter, style="strong"))
    table = Table(
        header=tuple(words.text(key) for key in ("paper.item", "paper.count", "paper.lot")),
        rows=tuple((line.name, _count(line, words), "") for line in order.lines),
        widths=(6, 3, 4),
    )
    yield together(*blocks, table)


def _count(line: OrderLine, words: Catalogue) -> str:
    """Say how many packages are bought, or that what is on hand will do."""
    if not line.count:
        return words.text("paper.on-hand")
    return words.text("paper.packs", n=line.count, pack=packed(line, words))


def days(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the days with the hold that each task leaves."""
    yield Heading(text=words.text("paper.days"), level=1)
    yield Table(
        header=tuple(
            words.text(key)
            for key in (
                "paper.task",
                "paper.on-site",
                "paper.starts",
                "paper.ends",
                "paper.hands-off",
            )
        ),
        rows=tuple(_task(task, words) for task in plan.days.tasks),
        widths=(7, 4, 5.4, 5.4, 5.4),
    )


def _task(task: DayTask, words: Catalogue) -> tuple[str, str, str, str, str]:
    held = moment(task.hold_until, words) if task.hold_minutes else words.text("paper.none")
    start, end = moment(task.start, words), moment(task.end, words)
    return task.name, ", ".join(task.who), start, end, held


def gates(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield what is checked before each thing that can't be undone."""
    yield Heading(text=words.text("paper.gates"), level=1)
    yield Paragraph(text=words.text("paper.gates-note"), style="small")
    lists = {gate: tuple(_items(plan.findings, gate, words)) for gate in get_args(Gate)}
    yield Columns(
        blocks=tuple(
            Checklist(title=words.text(f"paper.gate-{gate}"), items=items)
            for gate, items in lists.items()
            if items
        )
    )


def _items(findings: tuple[Finding, ...], gate: Gate, words: Catalogue) -> Iterator[str]:
    """Yield what is open before a gate: what to settle, what to answer, what to tick."""
    found = [finding for finding in findings if finding.gate == gate]
    broken: dict[str, list[str]] = {}
    for finding in found:
        if finding.severity in {"forbid", "warn"}:
            broken.setdefault(finding.rule, []).append(finding.where)
    for rule, where in broken.items():
        key = "paper.gate-settled-at" if any(where) else "paper.gate-settled"
        yield words.text(key, name=rule_name(rule), where=", ".join(where))
    for finding in found:
        if finding.severity == "ask":
            key = "paper.gate-asked-at" if finding.where else "paper.gate-asked"
            yield words.text(key, where=finding.where, question=finding.statement)
    yield from (finding.statement for finding in found if finding.severity == "tick")


def change_order(words: Catalogue) -> Iterator[Block]:
    """Yield a blank change order on a sheet of its own."""
    yield PageBreak()
    yield Heading(text=words.text("paper.change"), level=1)
    yield Paragraph(text=words.text("paper.change-note"), style="strong")
    yield Form(
        fields=(
            (words.text("paper.change-what"), 4),
            (words.text("paper.change-why"), 4),
            (words.text("paper.change-photo"), 1),
            (words.text("paper.change-sum"), 1),
            (words.text("paper.change-days"), 1),
            (words.text("paper.change-by"), 1),
            (words.text("paper.change-customer"), 1),
            (words.text("paper.change-date"), 1),
        )
    )
