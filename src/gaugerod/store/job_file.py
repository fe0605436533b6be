"""A job file: TOML that a person writes, read as a job."""

from collections.abc import Callable
from dataclasses import dataclass

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import InconsistentError
from gaugerod.store.toml_file import TomlFile, document, read_toml


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFile:
    """The bytes of a job file, and what it is called on the screen."""

    name: str
    source: bytes

    def read(self, check: Callable[[Job], None]) -> Job:
        """Return the job, after `check` has found nothing wrong with it.

        Raises
        ------
        JobError
            The file cannot be read as a job, or `check` refuses it; in one sentence, with the
            file, the line where it can be found, what was read and what would do.
        """
        return job_in(read_toml(self.source, name=self.name, error=JobError), check)


def job_in(file: TomlFile, check: Callable[[Job], None]) -> Job:
    """Return the job that the tables of a file hold, after `check` found nothing wrong with it.

    Raises
    ------
    JobError
        They are no job, or `check` refuses it.
    """
    job = document(file, Job, error=JobError)
    try:
        check(job)
    except InconsistentError as error:
        raise JobError(file.at(error.at, error.message)) from error
    return job
