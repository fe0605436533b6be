"""A plan that is being made: stopped, or begun again."""

from http import HTTPStatus

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.web import urls
from gaugerod.web.form import DeskHere, FormHere

ROUTES = APIRouter()
AGAIN, STOP = "again", "stop"


@ROUTES.post(urls.PLANNING)
def press(desk: DeskHere, form: FormHere, job: str) -> Response:
    """Stop a plan, or let it be made again, and go back to the page that it was for."""
    pressed, ticket = form.text("press"), form.text("ticket")
    if pressed not in {AGAIN, STOP}:
        raise BookError(Message("web.trouble.no-such-place"))
    for bench in (desk.bench, desk.survey_bench):
        if bench and pressed == STOP:
            bench.stop(ticket)
        elif bench:
            bench.again(ticket)
    here = urls.to(urls.JOB, job=job)
    back = form.text("back")
    there = back if back.startswith(f"{here}/") else here
    return RedirectResponse(there, HTTPStatus.SEE_OTHER)
