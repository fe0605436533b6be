"""Set out: the layouts worth having as pictures with their price, and the one that is chosen."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Any

from fastapi import APIRouter, Request
from markupsafe import Markup
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.app.options_job import Weighed
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Length, Message, Money
from gaugerod.core.options.option import Option
from gaugerod.packet.options import laid, named, picked_first
from gaugerod.web import urls
from gaugerod.web.desk import Desk, option_pictures, ready_of, weighed
from gaugerod.web.form import DeskHere, Edit, FormHere, change
from gaugerod.web.hand import HandView
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.pages.hand import shown
from gaugerod.web.pin import HELD, pinned
from gaugerod.web.render import drawn, show
from gaugerod.web.strip import Stop, strip_at_hand
from gaugerod.web.waiting import waiting

ROUTES = APIRouter()
HERE = "set-out"
FREE = "free"


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionView:
    """One layout: its picture, its figures, why it is worth having and what it gives up."""

    id: str
    title: str
    chosen: bool
    picture: Markup
    price: str
    figures: tuple[tuple[str, str], ...]
    laid: str
    reason: str
    gives_up: str
    minds: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOutPage:
    """The options of a job; `held` are choices that leave one layout only.

    `hand` is the layout that can be moved, as planned or where the address has it; nothing where
    courses are not level.
    """

    head: JobHead
    strip: tuple[Stop, ...]
    tried: int
    options: tuple[OptionView, ...]
    held: tuple[str, ...]
    hand: HandView | None


@ROUTES.get(urls.SET_OUT)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the options of a job."""
    revision = desk.book.head("job", job)
    try:
        made = weighed(desk, revision)
    except GaugerodError as error:
        return waiting(request, desk, revision, HERE, error)
    words = ready_of(desk, revision).words
    pictures = option_pictures(desk, revision)
    context = SetOutPage(
        head=head_of(revision, HERE),
        strip=strip_at_hand(desk, revision, words),
        tried=made.options.tried,
        options=tuple(
            _view(option, made, pictures[option.id], words) for option in picked_first(made.options)
        ),
        held=tuple(name for name in HELD if name in revision.document["choices"]),
        hand=shown(desk, revision, request.query_params),
    )
    return show(request, "set-out", context, words)


@ROUTES.post(urls.SET_OUT)
def pick(desk: DeskHere, form: FormHere, job: str) -> Response:
    """Write an option into the job, or let it be searched for again."""
    seen = desk.book.revision("job", job, form.seen)
    words = ready_of(desk, seen).words
    if form.text("option") == FREE:
        choices = {k: v for k, v in seen.document["choices"].items() if k not in HELD}
        note = words.text("web.set-out.freed")
    else:
        option = _asked(weighed(desk, seen), form.text("option"))
        choices = pinned(seen.document["choices"], option)
        note = words.text("web.set-out.picked", option=named(option, words))
        _same(desk, seen, choices, option)

    def edit(made: Edit) -> None:
        made.document["choices"] = choices

    change(desk, job, form, edit, note=note)
    return RedirectResponse(urls.to(urls.SET_OUT, job=job), HTTPStatus.SEE_OTHER)


def _asked(made: Weighed, wanted: str) -> Option:
    for option in made.options.options:
        if option.id == wanted:
            return option
    raise BookError(Message("web.set-out.no-option"))


def _same(desk: Desk, seen: Revision, choices: dict[str, Any], option: Option) -> None:
    """See that the choices give the layout that was picked, before they are written."""
    then = weighed(desk, replace(seen, document={**seen.document, "choices": choices})).chosen
    if _figures(then) != _figures(option):
        raise BookError(Message("web.set-out.not-held"))


def _figures(option: Option) -> tuple[int, int, int, int]:
    return option.price, option.cuts, option.modules, option.pieces


def _view(option: Option, made: Weighed, picture: str, words: Catalogue) -> OptionView:
    figures: Iterator[tuple[str, str]] = (
        (name, words.show(value))
        for name, value in (
            ("cuts", option.cuts),
            ("modules", option.modules),
            ("smallest", Length(option.smallest)),
        )
    )
    return OptionView(
        id=option.id,
        title=named(option, words),
        chosen=option.id == made.chosen.id,
        picture=drawn(picture),
        price=words.show(Money(option.price)),
        figures=tuple(figures),
        laid=laid(option, words),
        reason=words.say(option.reason),
        gives_up=words.say(option.gives_up) if option.picks else "",
        minds=tuple(
            (words.text(f"options.fault-{name}"), words.show(Money(cents)))
            for name, cents in option.layout.faults
        ),
    )
