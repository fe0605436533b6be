"""All rules on one page of Markdown: what each asks for, where, who says so, how sure that is."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.job.rules import Rule, Rules


def rules_page(rules: Rules, words: Catalogue) -> str:
    """Return every rule, by the place that it is for, in the order of the files."""
    places: dict[tuple[str, ...], list[Rule]] = {(): []}
    for rule in rules.rule:
        places.setdefault(rule.regions, []).append(rule)
    lines = [words.text("rules.head", count=len(rules.rule))]
    for regions, found in places.items():
        key = "rules.of-places" if regions else "rules.everywhere"
        lines += ["", words.text(key, places=", ".join(regions)), "", words.text("rules.columns")]
        lines += ["| --- | --- | --- | --- | --- |", *(_row(rule, words) for rule in found)]
    return "\n".join(lines) + "\n"


def _row(rule: Rule, words: Catalogue) -> str:
    gate = words.text(f"paper.gate-{rule.gate}") if rule.gate else words.text("paper.none")
    source = f"{rule.source}, {rule.edition}" if rule.edition else rule.source
    cells = (
        f"`{rule.id}`: {rule.statement} *{rule.advice}*",
        " ".join(_held(rule, words)),
        rule.severity,
        gate,
        f"{source} ({rule.sure})",
    )
    return "| " + " | ".join(cell.replace("|", "/") for cell in cells) + " |"


def _held(rule: Rule, words: Catalogue) -> Iterator[str]:
    """Yield what is measured, how it stands to the limit, and what it is kept to."""
    limit = ", ".join(f"“{word}”" for word in rule.words)
    if rule.limit is not None:
        limit = _length(rule.limit, words)
    elif rule.number is not None:
        limit = f"{rule.number:g}"
    yield f"`{rule.measure}`"
    if rule.holds:
        yield f"{rule.holds} {limit}"
    if rule.kind != "any":
        yield words.text("rules.kind", kind=rule.kind)
    if rule.not_in:
        yield words.text("rules.not-in", places=", ".join(rule.not_in))
    if rule.code:
        yield words.text("rules.code", code=rule.code, years=_years(rule, words))
    sizes = {
        "rules.side-over": rule.side_over,
        "rules.size-from": rule.size_from,
        "rules.size-below": rule.size_below,
    }
    for key, size in sizes.items():
        if size is not None:
            yield words.text(key, size=_length(size, words))
    if rule.area_below is not None:
        yield words.text("rules.area-below", area=rule.area_below)


def _length(mm: float, words: Catalogue) -> str:
    return words.text("rules.length", shown=Length(mm), mm=f"{round(mm, 2):g}")


def _years(rule: Rule, words: Catalogue) -> str:
    if rule.since:
        return words.text("rules.since", year=rule.since)
    return words.text("rules.until", year=rule.until) if rule.until else ""
