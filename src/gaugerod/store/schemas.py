"""The JSON Schemas of the files that people write: jobs and materials."""

from typing import Any

from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> dict[str, Any]:
    """Return the JSON Schema of a job."""
    return {"$schema": DIALECT, **Job.model_json_schema()}


def material_schema() -> dict[str, Any]:
    """Return the JSON Schema of a material."""
    return {"$schema": DIALECT, **System.model_json_schema()}
