"""What a job says beside its walls: where, by when, of what, and what no tape reads."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from pydantic import ValidationError

from gaugerod.core.base.lengths import Unit
from gaugerod.core.job.answers import Answers
from gaugerod.core.job.document import Choices, Job, Site, Survey, WorkingWeek
from gaugerod.core.job.fields import Document
from gaugerod.store.complaints import complaint
from gaugerod.web.fields import NO, YES
from gaugerod.web.form import FieldError, Form

Sort: TypeAlias = Literal["text", "choice", "yes-or-no", "number", "date", "time"]
_MODELS: Mapping[str, type[Document]] = {
    "site": Site,
    "choices": Choices,
    "calendar": WorkingWeek,
    "survey": Survey,
    "facts": Answers,
}
_DIGITS = 5
_JOB = "job"
"""What stands in no table of the job."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Something that is asked: in which table of the job, and what would do."""

    table: str
    name: str
    sort: Sort = "text"
    options: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """Its name in the form."""
        return f"{self.table}.{self.name}"


ASKED: tuple[Asked, ...] = (
    Asked(table="site", name="address"),
    Asked(table="site", name="contact"),
    Asked(table="site", name="region"),
    Asked(table="site", name="built", sort="number"),
    Asked(table="site", name="water_shutoff"),
    Asked(table="site", name="breaker"),
    Asked(table="site", name="access"),
    Asked(table="choices", name="material", sort="choice"),
    Asked(table="choices", name="turn", sort="choice", options=("lying", "standing", "any")),
    Asked(table="choices", name="bond", sort="choice", options=("stack", "half", "third", "any")),
    Asked(table="choices", name="finish", sort="choice", options=("line", "ceiling", "any")),
    Asked(table=_JOB, name="rates", sort="choice"),
    Asked(table="calendar", name="start", sort="date"),
    Asked(table="calendar", name="opens", sort="time"),
    Asked(table="calendar", name="closes", sort="time"),
    Asked(table="survey", name="by"),
    Asked(table="survey", name="practice", sort="choice", options=("good", "rough")),
    Asked(table="facts", name="receptor", sort="choice", options=("tub", "shower")),
    Asked(table="facts", name="strip_out", sort="yes-or-no"),
    Asked(table="facts", name="lead", sort="choice", options=("clear", "found")),
    Asked(table="facts", name="asbestos", sort="choice", options=("clear", "found")),
    Asked(table="facts", name="gfci", sort="yes-or-no"),
    Asked(table="facts", name="limited_valve", sort="yes-or-no"),
    Asked(table="facts", name="safety_glass", sort="yes-or-no"),
    Asked(table="facts", name="room"),
)
"""What is asked, in the order that it is asked in."""


def stands(document: Mapping[str, Any], asked: Asked) -> str:
    """Return what a job says now, as a form shows it."""
    if asked.table == _JOB:
        return str(document.get(asked.name, Job.model_fields[asked.name].default))
    table = document.get(asked.table)
    value = table.get(asked.name, "") if isinstance(table, Mapping) else ""
    if isinstance(value, bool):
        return YES if value else NO
    return str(value)


def answered(document: dict[str, Any], form: Form, unit: Unit) -> None:
    """Write what a form says into a job.

    Raises
    ------
    FieldError
        A field has to be mended.
    """
    document.update(_said(_JOB, form))
    for name, model in _MODELS.items():
        old = document.get(name)
        table = dict(old) if isinstance(old, dict) else {}
        for key, value in _said(name, form):
            if value == "":
                table.pop(key, None)
            else:
                table[key] = value
        try:
            model.model_validate(table, context={"unit": unit})
        except ValidationError as error:
            found = complaint(error, table, model)
            field = ".".join([name, *map(str, found.at[:1])])
            raise FieldError(field, found.message) from error
        document[name] = table


def _said(table: str, form: Form) -> Iterator[tuple[str, object]]:
    for asked in ASKED:
        if asked.table != table or asked.key not in form.values:
            continue
        text = form.text(asked.key)
        if asked.sort == "yes-or-no" and text:
            yield asked.name, text == YES
        elif asked.sort == "number" and text.isdecimal() and len(text) <= _DIGITS:
            yield asked.name, int(text)
        # What was not touched stays as it was written: a bond of 0.25 is a number.
        elif text != form.text(f"was.{asked.key}") or asked.sort != "choice":
            yield asked.name, text
