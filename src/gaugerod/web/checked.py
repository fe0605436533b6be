"""Is what a form wrote into a job fit to stay? Told beside the field that has to be mended."""

from collections.abc import Sequence
from typing import Any

from pydantic import ValidationError, create_model

from gaugerod.app.job_book import Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import InconsistentError, Place
from gaugerod.core.job.fields import Document
from gaugerod.store.complaints import complaint
from gaugerod.web.desk import Desk, ready_of
from gaugerod.web.form import FieldError
from gaugerod.web.walls import unit_of


def checked(desk: Desk, written: Revision, places: Sequence[Place]) -> None:
    """See that what was written at these places of a job can be read, and goes with the rest.

    The rest of the job may be half-filled; nothing is said of it.

    Raises
    ------
    FieldError
        Something has to be mended; it bears the way there, joined by points.
    """
    document = written.document
    names = {str(place[0]) for place in places}
    tables = {name: document[name] for name in names if name in document}
    fields = {name: info for name, info in Job.model_fields.items() if name in names}
    every: dict[str, Any] = {name: (info.annotation, info) for name, info in fields.items()}
    model: type[Document] = create_model("Written", __base__=Document, **every)
    try:
        model.model_validate(tables, context={"unit": unit_of(document)})
    except ValidationError as error:
        found = complaint(error, tables, model)
        raise field_error(found.at, found.message) from error
    wrong = _inconsistent(desk, written)
    if wrong and any(wrong[0][: len(place)] == place for place in places):
        raise field_error(*wrong)


def field_error(place: Place, message: Message) -> FieldError:
    """Return the error of a field by the way to it."""
    return FieldError(".".join(map(str, place)), message)


def _inconsistent(desk: Desk, revision: Revision) -> tuple[Place, Message] | None:
    """Return where the parts of a job do not go together, if that is all that is wrong."""
    try:
        ready_of(desk, revision)
    except GaugerodError as error:
        cause = error.__cause__
        return (cause.at, cause.message) if isinstance(cause, InconsistentError) else None
    return None
