"""What can be chosen in a job: its walls and openings, the materials and rates at hand."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from gaugerod.app.job_book import Revision
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.web.asking import Ask, Offered
from gaugerod.web.desk import Desk, library
from gaugerod.web.walls import entries_of, walls_of


def offered_for(desk: Desk, revision: Revision, asks: Iterable[Ask], words: Catalogue) -> Offered:
    """Return what the questions of one form offer; nothing else is looked up."""
    asked = tuple(asks)
    wanted = {ask.of for ask in asked}
    options = {option for ask in asked for option in ask.options} | {"yes", "no"}
    return Offered(
        lists={
            name: tuple(found(desk, revision.document))
            for name, found in _LISTS.items()
            if name in wanted
        },
        words={one: words.text(f"web.word.{one.replace(' ', '-')}") for one in options},
    )


def _walls(_desk: Desk, document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    for wall in walls_of(document):
        yield str(wall["name"]), str(wall["name"])


def _openings(_desk: Desk, document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    found = (
        str(opening.get("name", ""))
        for wall in walls_of(document)
        for opening in entries_of(wall, "opening")
    )
    yield from ((name, name) for name in dict.fromkeys(found) if name)


def _materials(desk: Desk, _document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    systems = library(desk).materials().systems
    yield from ((name, systems[name].name) for name in sorted(systems))


def _factors(desk: Desk, document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    table = library(desk).rates().get(str(document.get("rates", "shop")))
    yield from ((one.id, one.name) for one in (table.factor if table else ()))


def _tasks(desk: Desk, document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    table = library(desk).rates().get(str(document.get("rates", "shop")))
    yield from ((one.id, one.name) for one in (table.task if table else ()))


def _ticks(desk: Desk, _document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    rules = library(desk).rules().rule
    yield from ((one.id, one.statement) for one in rules if one.severity == "tick")


_LISTS = {
    "walls": _walls,
    "openings": _openings,
    "materials": _materials,
    "factors": _factors,
    "tasks": _tasks,
    "ticks": _ticks,
}
