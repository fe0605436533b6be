"""Past jobs as data: how long each task took, beside what was estimated."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from gaugerod.core.job.fields import Day, Document, Identifier, Name

Taken: TypeAlias = Annotated[float, Field(strict=True, gt=0, le=10_000)]


class PastTask(Document):
    """One task of a past job, in hours by the clock."""

    id: Identifier = Field(description="The task's id in the table of rates.")
    estimated: Taken = Field(description="Hours that the table of rates gives for it.")
    actual: Taken = Field(description="Hours that it took.")


class PastJob(Document):
    """One job that is done."""

    name: Name
    finished: Day | None = None
    task: tuple[PastTask, ...] = Field(min_length=1)


class PastJobs(Document):
    """The jobs that a shop learns its hours from."""

    format: Literal[1]
    job: tuple[PastJob, ...] = Field(min_length=1)
