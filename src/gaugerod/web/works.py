"""What may take long, as functions that another process finds by their names."""

from collections.abc import Callable, Mapping

from gaugerod.app.options_job import Weighed, option_drawings, weigh_job
from gaugerod.app.plan_job import Ready
from gaugerod.core.job.own_prices import priced_products
from gaugerod.core.job.rules import Rules
from gaugerod.core.pipeline import Brief, Plan, plan_of
from gaugerod.core.pricing.conditions import rates_for
from gaugerod.core.replan.replan import Replanned, replan
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.store.kept import KeptDays


def options(ready: Ready, draw: Callable[[Drawing], str]) -> tuple[Weighed, Mapping[str, str]]:
    """Return the options of a job, and a small picture of each by its letter."""
    made = weigh_job(ready, None)
    drawings = option_drawings(made, ready.words)
    return made, {name: draw(drawing) for name, drawing in drawings.items()}


def plan_weighed(ready: Ready, made: Weighed) -> Plan:
    """Return the plan of a job whose options were weighed."""
    brief = Brief(
        job=ready.job,
        walls=made.walls,
        products=priced_products(ready.job, ready.materials),
        rules=ready.rules,
        rates=rates_for(ready.rates, ready.job),
    )
    return plan_of(made.options, made.chosen, brief)


def again(made: Plan, days: KeptDays, rules: Rules) -> Replanned:
    """Return a plan as it stands after some days on site."""
    return days.use(lambda found: replan(made, found, rules))
