"""What a job says of its days: the room, what was done when, and the maker's clock of a hold."""

from datetime import datetime
from typing import Annotated, TypeAlias

from pydantic import BeforeValidator, Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Document, Hours, Identifier, Temperature, refuse


def _read_moment(value: object) -> datetime:
    try:
        moment = datetime.fromisoformat(value) if isinstance(value, str) else value
    except ValueError as error:
        raise refuse(Message("field.not-a-moment", read=str(value)[:40])) from error
    if not isinstance(moment, datetime) or moment.tzinfo:
        raise refuse(Message("field.not-a-moment", read=str(value)[:40]))
    return moment


Moment: TypeAlias = Annotated[datetime, BeforeValidator(_read_moment)]
Percent: TypeAlias = Annotated[float, Field(strict=True, ge=0, le=100)]


class Room(Document):
    """How warm and how damp the room is kept from the first glue to the first water."""

    temperature: Temperature = Field(default=20.0, json_schema_extra={"default": "20 C"})
    humidity: Percent = Field(default=50.0, description="Relative humidity, per cent.")


class Progress(Document):
    """What became of a task on the day, in the time of the place."""

    task: Identifier = Field(description="Id of the task, as in the table of rates.")
    started: Moment | None = Field(default=None, description="When it was begun.")
    finished: Moment | None = Field(default=None, description="When it was done.")
    delay_hours: Hours = Field(
        default=0.0,
        description="Working hours by which it will start later than it could; until it is begun.",
    )


class HoldTable(Document):
    """The maker's hours of a hold by temperature, and by humidity where the sheet has it."""

    temperature: tuple[Temperature, ...] = Field(min_length=1, description="Coldest first.")
    humidity: tuple[Percent, ...] = Field(default=(), description="Per cent, driest first.")
    hours: tuple[tuple[Hours, ...], ...] = Field(
        description="One row for each temperature; in it one figure, or one for each humidity."
    )

    @model_validator(mode="after")
    def _is_whole(self) -> "HoldTable":
        wide = len(self.humidity) or 1
        if len(self.hours) != len(self.temperature) or any(len(row) != wide for row in self.hours):
            raise refuse(Message("material.hold-rows", rows=len(self.temperature), figures=wide))
        for scale in (self.temperature, self.humidity):
            if list(scale) != sorted(set(scale)):
                raise refuse(Message("material.hold-order"))
        return self
