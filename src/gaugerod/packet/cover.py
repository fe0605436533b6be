"""The cover: where, whom to call, what shuts off what, and what must not be done yet."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.checks.finding import Finding
from gaugerod.core.pipeline import Plan
from gaugerod.packet.paper import Block, Heading, Paragraph, Table
from gaugerod.packet.phrases import day, facts, moment


def cover(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the cover of the crew packet."""
    job, site = plan.job, plan.job.site
    yield Heading(text=job.name, level=1)
    if job.scenario:
        yield Paragraph(text=job.scenario, style="small")
    yield facts(
        (
            (words.text("paper.address"), site.address),
            (words.text("paper.contact"), site.contact),
            (words.text("paper.access"), site.access),
            (words.text("paper.water"), site.water_shutoff),
            (words.text("paper.breaker"), site.breaker),
            (words.text("paper.built"), str(site.built or "")),
            (words.text("paper.module"), plan.system.name),
            (words.text("paper.wall-order"), ", ".join(plan.layout.order)),
            (words.text("paper.start"), day(plan.days.tasks[0].start, words)),
            (words.text("paper.finish"), moment(plan.days.finish, words)),
        )
    )
    clock = moment(plan.days.no_water_until, words)
    yield Paragraph(text=words.text("paper.no-water", until=clock), style="boxed")
    yield from _findings(plan.findings, words)


def _findings(findings: tuple[Finding, ...], words: Catalogue) -> Iterator[Block]:
    forbidding = [finding for finding in findings if finding.severity == "forbid"]
    if forbidding:
        yield Paragraph(text=words.text("paper.do-not-cut"), style="boxed")
    if findings:
        yield Heading(text=words.text("paper.hazards"), level=2)
        grouped: dict[tuple[str, str, str], list[str]] = {}
        for finding in findings:
            said = (finding.severity, finding.statement, finding.advice)
            grouped.setdefault(said, []).append(_where(finding, words))
        yield Table(
            header=(words.text("paper.what"), words.text("paper.where"), words.text("paper.do")),
            rows=tuple(
                (what, ", ".join(filter(None, where)), do)
                for (_, what, do), where in grouped.items()
            ),
            widths=(6, 2, 6),
            boxed=tuple(i for i, (severity, _, _) in enumerate(grouped) if severity == "forbid"),
        )


def _where(finding: Finding, words: Catalogue) -> str:
    """Where a rule is met, and by how much, where that is known."""
    if finding.value is None:
        return finding.where
    shown = words.show(Length(finding.value) if finding.length else finding.value)
    if not finding.where:
        return shown
    return words.text("paper.where-value", where=finding.where, value=shown)
