"""A user's own materials, or his own rates: the list, and where a new one begins."""

from dataclasses import dataclass
from datetime import datetime
from http import HTTPStatus
from typing import get_args

from fastapi import APIRouter, Request
from starlette.responses import Response

from gaugerod.core.base.lengths import Unit
from gaugerod.core.job.materials import Kind
from gaugerod.web import urls
from gaugerod.web.desk import Desk, library, plain_words
from gaugerod.web.form import DeskHere
from gaugerod.web.own.family import MATERIALS, Family, FamilyHere, both
from gaugerod.web.own.keep import is_aside, uses
from gaugerod.web.render import show

ROUTES = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRow:
    """A document in the list."""

    link: str
    title: str
    n: int
    by: str
    at: datetime
    jobs: int
    aside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnList:
    """The list; what was put aside comes last. `said` tells what is wrong with a file."""

    family: str
    rows: tuple[OwnRow, ...]
    new: str
    file: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Beginning:
    """What a new one may be like, and the kinds and units of one that is like none."""

    family: str
    back: str
    action: str
    like: tuple[tuple[str, str], ...]
    kinds: tuple[str, ...]
    units: tuple[str, ...]


@both(ROUTES, "GET", urls.OWN)
def own(request: Request, desk: DeskHere, family: FamilyHere) -> Response:
    """Show what the user keeps."""
    return own_list(request, desk, family)


def own_list(request: Request, desk: Desk, family: Family, *, said: str = "") -> Response:
    """Return the list, with what is wrong with a file that was to be taken in."""
    rows = sorted(_rows(desk, family), key=lambda row: (row.aside, row.title.casefold()))
    page = OwnList(
        family=family.name,
        rows=tuple(rows),
        new=urls.to(urls.OWN_NEW, family=family.name),
        file=urls.to(urls.OWN_FILE, family=family.name),
        said=said,
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if said else HTTPStatus.OK
    return show(request, "own-list", page, plain_words(desk), status=status)


def beginning(request: Request, desk: Desk, family: Family) -> Response:
    """Return the page where a new one is begun: like another, or from nothing."""
    files = library(desk).files(family.name)
    page = Beginning(
        family=family.name,
        back=urls.to(urls.OWN, family=family.name),
        action=urls.to(urls.OWN_NEW, family=family.name),
        like=tuple((name, str(file.tables.get("name", name))) for name, file in files.items()),
        kinds=get_args(Kind) if family is MATERIALS else (),
        units=get_args(Unit),
    )
    return show(request, "own-new", page, plain_words(desk))


def _rows(desk: Desk, family: Family) -> list[OwnRow]:
    used = uses(desk, family)
    return [
        OwnRow(
            link=urls.to(urls.OWN_ONE, family=family.name, name=heading.id),
            title=heading.title,
            n=heading.n,
            by=heading.by,
            at=heading.at,
            jobs=len(used.get(heading.id, ())),
            aside=is_aside(desk.book.head(family.kind, heading.id)),
        )
        for heading in desk.book.contents(family.kind)
    ]
