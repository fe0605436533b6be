"""Is what a job names at hand? Its rates, their factors, its place, the lines that it ticks."""

import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from itertools import chain

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import Fault, InconsistentError
from gaugerod.core.job.fields import REGION
from gaugerod.core.job.public_holidays import is_country
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules


def at_hand(job: Job, tables: Mapping[str, RateTable], rules: Rules) -> None:
    """Refuse a job that names what is not at hand.

    Parameters
    ----------
    job
        The job.
    tables
        The tables of rates at hand, by name.
    rules
        The rules at hand.

    Raises
    ------
    InconsistentError
        The job names rates, a factor, a task, a place or a line to tick that there is none of. The
        message says what was read and what would do; `at` leads there.

    Notes
    -----
    A place that means nothing would put the rules of every place out of force without a word,
    those for old houses too. Source: own design; places after ISO 3166.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates
    >>> rules = Rules(format=1, unit="mm", rule=())
    >>> at_hand(sample_job(), {sample_job().rates: sample_rates()}, rules)
    >>> at_hand(sample_job(), {}, rules)
    Traceback (most recent call last):
    gaugerod.core.job.faults.InconsistentError: ('job.at', ...)
    """
    for fault in chain(_rates(job, tables), _place(job), _ticked(job, rules)):
        # What stands in a list of words goes by the name of the list.
        where = ", ".join(part for part in fault.at if isinstance(part, str))
        raise InconsistentError(Message("job.at", where=where, wrong=fault.wrong), at=fault.at)


def _rates(job: Job, tables: Mapping[str, RateTable]) -> Iterator[Fault]:
    if job.rates in tables:
        yield from _tasks(job, tables[job.rates])
        factors = sorted(factor.id for factor in tables[job.rates].factor)
        for number, factor in enumerate(job.factors):
            if factor not in factors:
                wrong = Message("job.unknown-factor", read=factor, known=", ".join(factors))
                yield Fault(at=("factors", number), wrong=wrong)
    else:
        wrong = Message("job.unknown-rates", read=job.rates, known=", ".join(sorted(tables)))
        yield Fault(at=("rates",), wrong=wrong)


def _tasks(job: Job, rates: RateTable) -> Iterator[Fault]:
    tasks = [task.id for task in rates.task]
    for number, own in enumerate(job.pricing.task):
        if own.task not in tasks:
            wrong = Message("job.unknown-task", read=own.task, known=", ".join(tasks))
            yield Fault(at=("pricing", "task", number, "task"), wrong=wrong)


def _place(job: Job) -> Iterator[Fault]:
    region = job.site.region
    country = region.partition("-")[0]
    if region and not (re.fullmatch(REGION, region) and is_country(country)):
        yield Fault(at=("site", "region"), wrong=Message("job.unknown-region", read=region))


def _ticked(job: Job, rules: Rules) -> Iterator[Fault]:
    lines = sorted(rule.id for rule in rules.rule if rule.severity == "tick")
    for number, ticked in enumerate(job.facts.ticked):
        if ticked not in lines:
            near = get_close_matches(ticked, lines, n=1)
            wrong = Message("job.unknown-tick", read=ticked)
            if near:
                wrong = Message("job.unknown-tick-near", read=ticked, near=near[0])
            yield Fault(at=("facts", "ticked", number), wrong=wrong)
