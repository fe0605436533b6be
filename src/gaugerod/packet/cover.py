"""The cover: where, whom to call, what shuts off what, and what must not be done yet."""

from collections.abc import Iterator
from typing import get_args

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.rules import Severity
from gaugerod.core.pipeline import Plan
from gaugerod.packet.paper import Block, Heading, Paragraph, Table
from gaugerod.packet.phrases import facts, found_value, moment, rule_name
from gaugerod.packet.products import besides


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
            *((words.text("paper.module-besides"), text) for text in besides(plan, words)),
            (words.text("paper.wall-order"), ", ".join(plan.layout.order)),
            (words.text("paper.finish"), moment(plan.days.finish, words)),
        )
    )
    clock = moment(plan.days.no_water_until, words)
    yield Paragraph(text=words.text("paper.no-water", until=clock), style="boxed")
    yield from _findings(plan.findings, words)


def _findings(findings: tuple[Finding, ...], words: Catalogue) -> Iterator[Block]:
    by = {of: [one for one in findings if one.severity == of] for of in get_args(Severity)}
    if by["forbid"]:
        yield Paragraph(text=words.text("paper.do-not-cut"), style="boxed")
    if any(by[of] for of in _ON_COVER):
        yield Heading(text=words.text("paper.hazards"), level=2)
        yield Paragraph(text=words.text("paper.hazards-note"), style="small")
    if by["forbid"] or by["warn"]:
        yield _broken((*by["forbid"], *by["warn"]), words)
    if by["ask"]:
        yield Paragraph(text=words.text("paper.open-questions", n=len(by["ask"])), style="strong")
    if by["caution"]:
        yield _cautions(by["caution"], words)


_ON_COVER: tuple[Severity, ...] = ("forbid", "warn", "ask", "caution")


def _broken(findings: tuple[Finding, ...], words: Catalogue) -> Table:
    """Return what is not as it should be: one row for each rule, with all its places."""
    grouped: dict[tuple[str, str, str], list[str]] = {}
    for finding in findings:
        said = (finding.severity, finding.statement, finding.advice)
        grouped.setdefault(said, []).append(_where(finding, words))
    return Table(
        header=(words.text("paper.what"), words.text("paper.where"), words.text("paper.do")),
        rows=tuple(
            (what, ", ".join(filter(None, where)), do) for (_, what, do), where in grouped.items()
        ),
        widths=(5, 3, 6),
        boxed=tuple(i for i, (severity, _, _) in enumerate(grouped) if severity == "forbid"),
    )


def _cautions(findings: list[Finding], words: Catalogue) -> Table:
    """Return every caution in a dozen words, two to a row."""
    said: dict[tuple[str, str], list[str]] = {}
    for finding in findings:
        caution = (rule_name(finding.rule).capitalize(), finding.short)
        said.setdefault(caution, []).extend(filter(None, [_where(finding, words)]))
    cells: list[str] = []
    for (name, short), where in said.items():
        key = "paper.caution-at" if where else "paper.caution"
        cells += [name, words.text(key, short=short, where=", ".join(where))]
    cells += [""] * (-len(cells) % _CELLS)
    rows = tuple(tuple(cells[i : i + _CELLS]) for i in range(0, len(cells), _CELLS))
    return Table(header=(), rows=rows, widths=(2, 5, 2, 5))


_CELLS = 4  # name and caution, twice


def _where(finding: Finding, words: Catalogue) -> str:
    """Where a rule is met, and by how much, where that is known."""
    shown = found_value(finding, words)
    if not (shown and finding.where):
        return shown or finding.where
    return words.text("paper.where-value", where=finding.where, value=shown)
