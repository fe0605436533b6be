"""What every paper says in the same way: walls, lengths beside labels, moments, page words."""

import re
from collections.abc import Iterable
from datetime import date, datetime

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.document import Job
from gaugerod.core.takeoff.order import OrderLine
from gaugerod.packet.paper import Beside, Block, Paper, Size, Table

_WALLS = {"L": "paper.wall-left", "B": "paper.wall-back", "R": "paper.wall-right"}


def wall_name(name: str, words: Catalogue) -> str:
    """Return the name of a wall as a setter says it."""
    return words.text(_WALLS.get(name, "sheet.wall"), name=name)


def length(mm: float | None, words: Catalogue) -> str:
    """Return a length in the reader's unit, or a dash where there is none."""
    return words.text("paper.none") if mm is None else words.show(Length(mm))


def packed(line: OrderLine, words: Catalogue) -> str:
    """Return what a line of the order comes in: one box, two boxes."""
    return words.text(f"takeoff.one-{line.pack}" if line.count == 1 else f"paper.{line.pack}")


def rule_name(rule: str) -> str:
    """Return the id of a rule as words, the place that it is for left out."""
    return _PLACE.sub("", rule).replace("-", " ")


_PLACE = re.compile(r"-(au|gb)$")


def found_value(finding: Finding, words: Catalogue) -> str:
    """Return what was found, in the reader's unit; empty where nothing was measured."""
    value = finding.value
    if value is None:
        return finding.word
    if finding.length:
        return words.show(Length(value))
    if not finding.unit:
        return words.show(value)
    others = {"celsius": value * 1.8 + 32, "kg": value / _POUND, "m2": value / _SQUARE_FOOT}
    other = round(others.get(finding.unit, value), 1)
    return words.text(f"paper.unit-{finding.unit}", value=round(value, 2), other=other)


_POUND = 0.45359237  # [kg]
_SQUARE_FOOT = 0.09290304  # [m2]


def moment(when: datetime, words: Catalogue) -> str:
    """Return a day and the time on it, such as "Thu 5 Mar, 4:10 pm"."""
    return words.text("paper.moment", day=day(when, words), clock=_clock(when, words))


def day(when: date, words: Catalogue) -> str:
    """Return a day, such as "Thu 5 Mar"."""
    weekdays = words.text("paper.weekdays").split()
    months = words.text("paper.months").split()
    return words.text(
        "paper.day",
        weekday=weekdays[when.weekday()],
        day=when.day,
        month=months[when.month - 1],
    )


def _clock(when: datetime, words: Catalogue) -> str:
    minutes = f"{when.minute:02d}"
    if words.display.system == "metric":
        return f"{when.hour:02d}:{minutes}"
    half = "paper.am" if when.hour < _NOON else "paper.pm"
    return words.text(half, clock=f"{when.hour % _NOON or _NOON}:{minutes}")


_NOON = 12


def facts(pairs: Iterable[tuple[str, str]]) -> Table:
    """Return labels with what they say, two to a row; what says nothing is left out."""
    told = [pair for pair in pairs if pair[1]]
    half = (len(told) + 1) // 2
    right = [*told[half:], ("", "")]
    rows = tuple((*told[i], *right[i]) for i in range(half))
    return Table(header=(), rows=rows, widths=(2, 4, 2, 4), size="plain")


def together(*blocks: Block) -> Beside:
    """Return blocks that stay on one sheet; they must not be longer than one."""
    return Beside(across=1, cells=(blocks,))


def paper(
    title: str,
    job: Job,
    blocks: Iterable[Block],
    words: Catalogue,
    *,
    revision: int,
    size: Size | None,
) -> Paper:
    """Return blocks as a paper on the reader's own size of sheet."""
    own: Size = "us-letter" if words.display.system == "imperial" else "a4"
    return Paper(
        title=title,
        job=job.name,
        revision=words.text("paper.revision", n=revision),
        page=words.text("paper.page"),
        of=words.text("paper.of"),
        size=size or own,
        sections=tuple(blocks),
    )
