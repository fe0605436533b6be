"""Past jobs from a TOML file."""

from pathlib import Path

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.past import PastJobs
from gaugerod.store.toml_file import document, read_bytes, read_toml


def past_jobs(path: Path) -> PastJobs:
    """Return the past jobs of a file.

    Raises
    ------
    JobError
        There is no such file, or it holds no past jobs.
    """
    source = read_bytes(path, error=JobError)
    return document(read_toml(source, name=str(path), error=JobError), PastJobs, error=JobError)
