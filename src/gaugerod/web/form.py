"""What a form sent, and the change that it makes to a job."""

from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from secrets import token_hex
from typing import Annotated, Any, TypeAlias
from urllib.parse import unquote

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

from gaugerod.app.job_book import BookError, Draft, Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message
from gaugerod.web.desk import Desk
from gaugerod.web.on_top import as_kept, on_top

SEEN, KEY, ONTO = "seen", "key", "onto"
BY_COOKIE = "by"
_MOST_FIELDS = 5000
"""A table of rates with all its tasks has hundreds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """The fields of a form as text, the bytes of its files, and who sent it."""

    values: Mapping[str, str]
    files: Mapping[str, tuple[str, bytes]] = field(default_factory=dict)
    by: str = ""

    def text(self, name: str) -> str:
        """Return a field without the space around it, empty where it was not sent."""
        return self.values.get(name, "").strip()

    @property
    def key(self) -> str:
        """What makes a form that is sent twice count once."""
        return self.text(KEY)

    @property
    def seen(self) -> int:
        """The revision that the form was made from.

        Raises
        ------
        BookError
            It names none.
        """
        return _number(self.text(SEEN))

    @property
    def onto(self) -> int:
        """The revision that the change is put on top of: a newer one, after a conflict.

        Raises
        ------
        BookError
            It names none.
        """
        return _number(self.text(ONTO) or self.text(SEEN))


def _number(text: str) -> int:
    if not text.isdecimal() or len(text) > 9:  # noqa: PLR2004  (no job has a billion)
        raise BookError(Message("web.form.no-revision"))
    return int(text)


class FieldError(GaugerodError):
    """A field of a form has to be mended."""

    def __init__(self, name: str, message: Message) -> None:
        super().__init__(message)
        self.name = name


@dataclass(slots=True, kw_only=True)
class Edit:
    """A job that is being changed: its document and its days, to be written over."""

    document: dict[str, Any]
    day: dict[str, Any]


def desk_of(request: Request) -> Desk:
    """Return the desk that the pages were made with."""
    desk: Desk = request.app.state.desk
    return desk


def writer_of(request: Request) -> str:
    """Return who says that he is at this browser."""
    return unquote(request.cookies.get(BY_COOKIE, ""))[:80]


async def form_of(request: Request) -> Form:
    """Read the form of a request; it is kept with the request, should it have to be shown again."""
    values: dict[str, str] = {}
    files: dict[str, tuple[str, bytes]] = {}
    async with request.form(max_files=1, max_fields=_MOST_FIELDS) as sent:
        for name, value in sent.multi_items():
            if isinstance(value, UploadFile):
                files[name] = (value.filename or "", await value.read())
            else:
                values[name] = value
    form = Form(values=values, files=files, by=writer_of(request))
    request.state.form = form
    return form


DeskHere: TypeAlias = Annotated[Desk, Depends(desk_of)]
FormHere: TypeAlias = Annotated[Form, Depends(form_of)]


def fresh_key() -> str:
    """Return a key for a form that is about to be shown."""
    return token_hex(12)


def change(
    desk: Desk, job: str, form: Form, edit: Callable[[Edit], None], *, note: str
) -> Revision:
    """Write what a form changes as the next revision of a job.

    The change is made to the revision that the person saw. Put on top of a newer one, which he was
    shown, it leaves there what others changed meanwhile.

    Raises
    ------
    ConflictError
        Somebody else was quicker.
    GaugerodError
        The form cannot be taken as it is.
    """
    seen = desk.book.revision("job", job, form.seen)
    made = Edit(document=deepcopy(dict(seen.document)), day=deepcopy(dict(seen.day)))
    edit(made)
    document, day = made.document, made.day
    if form.onto != seen.n:
        stands = desk.book.revision("job", job, form.onto)
        document = on_top(seen.document, as_kept(document), stands.document)
        day = on_top(seen.day, as_kept(day), stands.day)
    draft = Draft(
        id=job,
        seen=form.onto,
        key=form.key,
        by=form.by,
        at=desk.now(),
        note=note,
        document=document,
        day=day,
    )
    return desk.book.write(draft)
