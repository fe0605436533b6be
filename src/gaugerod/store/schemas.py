"""The JSON Schemas of the files that people write: jobs, materials, rates, past jobs, days."""

from typing import Any

from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.on_site import OnSite
from gaugerod.core.job.past import PastJobs
from gaugerod.core.job.rates import RateTable

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> dict[str, Any]:
    """Return the JSON Schema of a job."""
    return {"$schema": DIALECT, **Job.model_json_schema()}


def material_schema() -> dict[str, Any]:
    """Return the JSON Schema of a material."""
    return {"$schema": DIALECT, **System.model_json_schema()}


def rates_schema() -> dict[str, Any]:
    """Return the JSON Schema of a table of rates."""
    return {"$schema": DIALECT, **RateTable.model_json_schema()}


def past_schema() -> dict[str, Any]:
    """Return the JSON Schema of a file of past jobs."""
    return {"$schema": DIALECT, **PastJobs.model_json_schema()}


def on_site_schema() -> dict[str, Any]:
    """Return the JSON Schema of a file of days on site."""
    return {"$schema": DIALECT, **OnSite.model_json_schema()}
