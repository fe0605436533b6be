"""Two people changed a job at once: both versions, and nothing lost."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from http import HTTPStatus
from typing import Any

from fastapi import Request
from starlette.responses import Response

from gaugerod.app.job_book import ConflictError, Draft, Revision
from gaugerod.store.book.changed import changed
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.form import KEY, ONTO, Form, fresh_key
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.render import show


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A place of the job: what was seen there, what this person wrote, what stands there now."""

    place: str
    seen: str
    mine: str
    now: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ConflictPage:
    """What was refused beside what stands; `again` is the form, made from what stands now."""

    head: JobHead
    rows: tuple[Difference, ...]
    action: str
    again: tuple[tuple[str, str], ...]


def conflict_page(request: Request, desk: Desk, error: ConflictError) -> Response:
    """Show both versions, with a form that puts the change on top of the newest."""
    form: Form = request.state.form
    again = {**form.values, ONTO: str(error.head.n), KEY: fresh_key()}
    page = ConflictPage(
        head=head_of(error.head, "conflict"),
        rows=differences(error.draft, error.seen, error.head),
        action=request.url.path,
        again=tuple(again.items()),
    )
    words = words_for(desk, error.head)
    return show(request, "conflict", page, words, status=HTTPStatus.CONFLICT)


def differences(draft: Draft, seen: Revision | None, head: Revision) -> tuple[Difference, ...]:
    """Return each place that one of two people changed."""
    before = _both(seen) if seen else {}
    mine, now = _both(draft), _both(head)
    places = sorted({*changed(before, mine), *changed(before, now)})
    return tuple(
        Difference(place=place, seen=_at(before, place), mine=_at(mine, place), now=_at(now, place))
        for place in places
    )


def differences_of(now: Mapping[str, Any], mine: Mapping[str, Any]) -> tuple[Difference, ...]:
    """Return each place where what was written anew differs from what stands."""
    return tuple(
        Difference(place=place, seen="", mine=_at(mine, place), now=_at(now, place))
        for place in changed(now, mine)
    )


def _both(one: Draft | Revision) -> dict[str, Any]:
    # As the book has it: lists, not tuples.
    tables: dict[str, Any] = json.loads(json.dumps({"document": one.document, "day": one.day}))
    return tables


def _at(tables: Mapping[str, Any], place: str) -> str:
    found: Any = tables
    for part in place.split("/")[1:]:
        key = part.replace("~1", "/").replace("~0", "~")
        if isinstance(found, Mapping) and key in found:
            found = found[key]
        elif isinstance(found, Sequence) and key.isdecimal() and int(key) < len(found):
            found = found[int(key)]
        else:
            return ""
    return found if isinstance(found, str) else json.dumps(found, ensure_ascii=False)
