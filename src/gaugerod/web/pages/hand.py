"""Set out by hand: what a layout comes to where it is held, and holding it there for good."""

from collections.abc import Mapping
from dataclasses import asdict
from http import HTTPStatus

from fastapi import APIRouter, Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.preview import Glance
from gaugerod.web import urls
from gaugerod.web.bench.errors import NotYetError, UnfinishedError
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.form import DeskHere, Edit, Form, FormHere, change
from gaugerod.web.hand import GlanceAnswer, HandView, answer_of, glance_answer_of, place_in, view_of
from gaugerod.web.pin import held_at
from gaugerod.web.trial import Hand, Tried, hand_of, tried, tried_now
from gaugerod.web.walls import unit_of

ROUTES = APIRouter()
_PROVEN, _WHOLE = "proven", "whole"
"""What a question asks for that may wait: all figures, or the fewest modules too."""


@ROUTES.get(urls.TRY)
def answer(request: Request, desk: DeskHere, job: str) -> Response:
    """Say what a layout comes to where a finger holds it."""
    sent = request.query_params
    revision = desk.book.revision("job", job, Form(values=sent).seen)
    try:
        found = _found(desk, revision, sent)
    except NotYetError:
        return _told(desk, revision, Message("web.hand.not-yet"), HTTPStatus.ACCEPTED)
    except UnfinishedError as error:
        return _told(desk, revision, error.message, HTTPStatus.SERVICE_UNAVAILABLE)
    except GaugerodError as error:
        return _told(desk, revision, error.message, HTTPStatus.UNPROCESSABLE_ENTITY)
    return JSONResponse(asdict(found))


@ROUTES.post(urls.HOLD)
def hold(desk: DeskHere, form: FormHere, job: str) -> Response:
    """Write the place where a layout is held into the job."""
    seen = desk.book.revision("job", job, form.seen)
    hand = _movable(desk, seen)
    held = place_in(hand, form.values, unit_of(seen.document))
    broken = tried(desk, hand, held).preview.broken
    if broken:
        raise BookError(Message("web.hand.not-so", why=broken[0]))
    choices = held_at(seen.document["choices"], held)

    def edit(made: Edit) -> None:
        made.document["choices"] = choices

    first = Length(held.first_height or 0.0)
    change(desk, job, form, edit, note=hand.words.text("web.hand.pinned", first=first))
    return RedirectResponse(urls.to(urls.SET_OUT, job=job), HTTPStatus.SEE_OTHER)


def shown(desk: Desk, revision: Revision, sent: Mapping[str, str]) -> HandView | None:
    """Return what the page shows of a layout that can be moved, where its address has it."""
    hand = hand_of(desk, revision)
    if hand is None:
        return None
    found = _tried(desk, revision, hand, sent, proven=True)
    answer = answer_of(found.preview, found.marks, hand.words)
    return view_of(revision, hand, answer, found.preview.layout)


def _found(desk: Desk, revision: Revision, sent: Mapping[str, str]) -> GlanceAnswer:
    hand = _movable(desk, revision)
    if {_PROVEN, _WHOLE} & sent.keys():
        found = _tried(desk, revision, hand, sent, proven=_PROVEN in sent)
    else:
        held = place_in(hand, sent, unit_of(revision.document))
        at_once = tried_now(desk, hand, held)
        if isinstance(at_once, Glance):
            return glance_answer_of(at_once, hand.words)
        found = at_once
    return answer_of(found.preview, found.marks, hand.words)


def _told(desk: Desk, revision: Revision, message: Message, status: HTTPStatus) -> Response:
    return JSONResponse({"said": words_for(desk, revision).say(message)}, status)


def _movable(desk: Desk, revision: Revision) -> Hand:
    hand = hand_of(desk, revision)
    if hand is None:
        raise BookError(Message("web.hand.no-courses"))
    return hand


def _tried(
    desk: Desk, revision: Revision, hand: Hand, sent: Mapping[str, str], *, proven: bool
) -> Tried:
    held = place_in(hand, sent, unit_of(revision.document))
    return tried(desk, hand, held, proven=proven)
