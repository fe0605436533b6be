"""What the rules measure in the answers of a person: words, lengths and temperatures."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TypeAlias

from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.job.answers import Answers

When: TypeAlias = Callable[[Facts], bool]

SQUARE_METRE = 1e6
"""[mm2]"""
LEAD_BEFORE = 1978
"""Paint with lead was banned for homes in the United States in this year."""


def _always(_: Facts) -> bool:
    return True


def _tears_out(facts: Facts) -> bool:
    return facts.job.facts.strip_out is not False


def _accessible(facts: Facts) -> bool:
    return facts.job.facts.accessible is True


def _has_pipes(facts: Facts) -> bool:
    return any(wall.holes for wall in facts.walls.walls)


def _on_gypsum(facts: Facts) -> bool:
    return facts.job.facts.backer == "water-resistant gypsum"


def _has_bars(facts: Facts) -> bool:
    return any(fixture.kind == "bar" for wall in facts.walls.walls for fixture in wall.fixtures)


def _glued_plastic(facts: Facts) -> bool:
    return facts.system.cutting.material == "plastic" and facts.system.adhesive is not None


def _may_hold_lead(facts: Facts) -> bool:
    """Whether paint of the house may hold lead, and nobody has shown that it does not."""
    built = facts.job.site.built
    old = built is None or built < LEAD_BEFORE
    return _tears_out(facts) and old and facts.job.facts.lead != "clear"


def _word(answer: Callable[[Answers], str | bool | None], when: When = _always) -> Measure:
    """Measure an answer in words, or yes and no."""

    def measure(facts: Facts) -> list[Measured]:
        read = answer(facts.job.facts) if when(facts) else ""
        if read is None:
            return [Measured(value=None)]
        word = _YES_NO[read] if isinstance(read, bool) else read
        return [Measured(word=word)] if word else []

    return measure


_YES_NO = {True: "yes", False: "no"}


def _figure(
    answer: Callable[[Answers], float | str | None], when: When = _always, *, unit: str = ""
) -> Measure:
    """Measure an answer in figures; what there is none of can't be measured."""

    def measure(facts: Facts) -> list[Measured]:
        read = answer(facts.job.facts) if when(facts) else ""
        return [] if isinstance(read, str) else [Measured(value=read, unit=unit)]

    return measure


def _age(answer: Callable[[Answers], str | None]) -> Measure:
    """Measure the year of a house that is opened and was not shown to be clear of something."""

    def measure(facts: Facts) -> list[Measured]:
        built = facts.job.site.built
        if built is None or not _tears_out(facts) or answer(facts.job.facts) == "clear":
            return []
        return [Measured(value=float(built))]

    return measure


def _strip_out(facts: Facts) -> list[Measured]:
    return [Measured()] if _tears_out(facts) else []


def _year_unknown(facts: Facts) -> list[Measured]:
    return [Measured()] if _tears_out(facts) and facts.job.site.built is None else []


def _painted_area(facts: Facts) -> list[Measured]:
    """Measure the painted wall that is torn out: a strip all round, over the old lining."""
    if not _may_hold_lead(facts):
        return []
    height = facts.job.facts.paint_height
    width = sum(wall.right.offset - wall.left.offset for wall in facts.walls.walls)
    area = None if height is None else height * width / SQUARE_METRE
    return [Measured(value=area, unit="m2")]


def _code_unnamed(facts: Facts) -> list[Measured]:
    site = facts.job.site
    return [] if site.region and site.editions else [Measured()]


ANSWER_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "code-unnamed": _code_unnamed,
        "strip-out": _strip_out,
        "year-unknown": _year_unknown,
        "age-for-lead": _age(lambda facts: facts.lead),
        "age-for-asbestos": _age(lambda facts: facts.asbestos),
        "asbestos-test": _word(lambda facts: facts.asbestos or "", _tears_out),
        "painted-area": _painted_area,
        "window-out": _word(lambda facts: facts.window_out, _may_hold_lead),
        "receptor": _word(lambda facts: facts.receptor),
        "accessible": _word(lambda facts: facts.accessible, _has_bars),
        "backer": _word(lambda facts: facts.backer),
        "vapour-retarder": _word(lambda facts: facts.vapour_retarder, _on_gypsum),
        "board-days": _figure(lambda facts: facts.board_days, unit="days"),
        "receptacle": _figure(lambda facts: facts.receptacle),
        "gfci": _word(lambda facts: facts.gfci),
        "hanging-light": _figure(lambda facts: facts.hanging_light),
        "limited-valve": _word(lambda facts: facts.limited_valve, _has_pipes),
        "hot-limit": _figure(lambda facts: facts.hot_limit, _has_pipes, unit="celsius"),
        "room": _figure(lambda facts: facts.room, unit="celsius"),
        "adhesive-fits": _word(lambda facts: facts.adhesive_fits, _glued_plastic),
        "threshold": _figure(lambda facts: facts.threshold, _accessible),
        "hose": _figure(lambda facts: facts.hose, _accessible),
        "closet-side": _figure(lambda facts: facts.closet_side),
        "closet-front": _figure(lambda facts: facts.closet_front),
    }
)
