"""What a form says of a job's own figures, written where a plan can be made of it."""

from collections.abc import Callable, Collection
from dataclasses import replace
from typing import Any, TypeAlias

from gaugerod.app.job_book import BookError
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.lengths import Unit
from gaugerod.web.bench.errors import UnfinishedError
from gaugerod.web.desk import Desk, planned, ready_of
from gaugerod.web.figures import TABLE, form_id
from gaugerod.web.form import Edit, FieldError, Form, change
from gaugerod.web.walls import no_place, unit_of

Say: TypeAlias = Callable[[dict[str, Any], Form, str, Unit], None]


def keep_figure(
    desk: Desk, job: str, form: Form, say: Say, *, tables: Collection[str], note: str
) -> FieldError | None:
    """Write the next revision of a job, or return what has to be mended in the form.

    Raises
    ------
    UnfinishedError
        The plan that it is held against is not made yet; the form can be sent again.
    BookError
        The form speaks of none of `tables`, or it cannot be kept.
    """
    seen, table = desk.book.revision("job", job, form.seen), form.text(TABLE)
    if table not in tables:
        raise BookError(no_place())

    def edit(made: Edit) -> None:
        say(made.document, form, table, unit_of(made.document))
        try:
            planned(desk, replace(seen, document=made.document))
        except UnfinishedError:
            raise
        except GaugerodError as error:
            raise FieldError(form_id(form), error.message) from error

    try:
        change(desk, job, form, edit, note=ready_of(desk, seen).words.text(note))
    except FieldError as error:
        return error
    return None
