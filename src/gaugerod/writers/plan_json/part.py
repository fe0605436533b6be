"""What every part of `plan.json` is."""

from pydantic import BaseModel, ConfigDict


class Part(BaseModel):
    """A part of the plan; a reader passes over what it does not know."""

    model_config = ConfigDict(frozen=True, allow_inf_nan=False, populate_by_name=True)
