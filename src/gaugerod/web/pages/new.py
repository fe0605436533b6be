"""A new job: what it is called, how it is measured, what it is lined with, which walls."""

import re
from dataclasses import dataclass
from datetime import timedelta
from http import HTTPStatus
from typing import Any, get_args

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Draft
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Message
from gaugerod.core.job.readings import Surface
from gaugerod.web import urls
from gaugerod.web.desk import Desk, plain_words
from gaugerod.web.form import DeskHere, FieldError, Form, FormHere
from gaugerod.web.naming import name_in_links
from gaugerod.web.own.keep import USUAL_RATES, materials_offered, rates_offered
from gaugerod.web.render import show

ROUTES = APIRouter()
_WALL = re.compile(r"[A-Z]{1,2}")
_FIELDS = ("name", "unit", "surface", "material", "rates", "walls")
_MOST_WALLS = 24
_UNITS: tuple[str, ...] = get_args(Unit)
_SURFACES: tuple[str, ...] = get_args(Surface)


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPage:
    """The form, with what was written into it and what is wrong with one of its fields."""

    values: dict[str, str]
    materials: tuple[tuple[str, str], ...]
    rates: tuple[tuple[str, str], ...]
    units: tuple[str, ...]
    surfaces: tuple[str, ...]
    wrong: str
    said: str


@ROUTES.get(urls.NEW)
def blank(request: Request, desk: DeskHere) -> Response:
    """Show the form, filled in as most alcoves are."""
    values = {"name": "", "unit": "in", "surface": "backer", "walls": "L B R", "rates": USUAL_RATES}
    return _form(request, desk, values)


@ROUTES.post(urls.NEW)
def make(request: Request, desk: DeskHere, form: FormHere) -> Response:
    """Make the job and open it."""
    try:
        document = _document(desk, form)
    except FieldError as error:
        return _form(request, desk, dict(form.values), error)
    made = desk.book.write(
        Draft(
            id=name_in_links(document["name"], form.key),
            seen=0,
            key=form.key,
            by=form.by,
            at=desk.now(),
            note=plain_words(desk).text("web.new.note"),
            document=document,
        )
    )
    return RedirectResponse(urls.to(urls.JOB, job=made.id), HTTPStatus.SEE_OTHER)


def _form(
    request: Request, desk: Desk, values: dict[str, str], error: FieldError | None = None
) -> Response:
    words = plain_words(desk)
    page = NewPage(
        values={name: values.get(name, "") for name in _FIELDS},
        materials=materials_offered(desk),
        rates=rates_offered(desk),
        units=_UNITS,
        surfaces=_SURFACES,
        wrong=error.name if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "new", page, words, status=status)


def _document(desk: Desk, form: Form) -> dict[str, Any]:
    title = form.text("name")
    if not 1 <= len(title) <= 80:  # noqa: PLR2004  (as long as a name in a job may be)
        raise FieldError("name", Message("web.new.no-name"))
    return {
        "format": 1,
        "name": title,
        "unit": _one_of(form, "unit", _UNITS),
        "survey": {"surface": _one_of(form, "surface", _SURFACES)},
        "choices": {"material": _one_of(form, "material", dict(materials_offered(desk)))},
        "rates": _one_of(form, "rates", dict(rates_offered(desk))),
        "calendar": {"start": (desk.now().date() + timedelta(days=7)).isoformat()},
        "wall": [{"name": name, "readings": []} for name in _walls(form.text("walls"))],
    }


def _one_of(form: Form, name: str, known: Any) -> str:  # noqa: ANN401  (whatever has an `in`)
    value = form.text(name)
    if value not in known:
        raise FieldError(name, Message("web.new.not-one-of"))
    return value


def _walls(text: str) -> list[str]:
    names = text.upper().replace(",", " ").split()
    fit = all(_WALL.fullmatch(name) for name in names)
    if not fit or not 1 <= len(names) <= _MOST_WALLS or len({*names}) < len(names):
        raise FieldError("walls", Message("web.new.bad-walls"))
    return names
