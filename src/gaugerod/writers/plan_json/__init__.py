"""The plan as JSON that others may rely on, and its schema."""

from gaugerod.writers.plan_json.document import plan_schema
from gaugerod.writers.plan_json.fill import plan_json

__all__ = ["plan_json", "plan_schema"]
