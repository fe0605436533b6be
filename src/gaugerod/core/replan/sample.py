"""A planned alcove for the examples of this stage."""

from functools import cache

from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.pipeline import Plan, plan


@cache
def sample_plan() -> Plan:
    """Return the plan of the sample alcove, held against no rules.

    Returns
    -------
    Plan
        The plan. [mm]

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> len(sample_plan().pieces)
    35
    """
    materials = Materials(systems={"sample": sample_system()})
    rules = Rules(format=1, unit="mm", rule=())
    return plan(sample_job(), materials, rules, sample_rates())
