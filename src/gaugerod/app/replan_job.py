"""Use case: from a job and what happened on site to the plan as it stands, and its papers."""

from dataclasses import dataclass

from gaugerod.app.in_file import in_file
from gaugerod.app.plan_job import Ready, Writers, papers
from gaugerod.app.ports import Folder, HardStop, SiteDays
from gaugerod.core.job.on_site import OnSite
from gaugerod.core.pipeline import plan
from gaugerod.core.replan.replan import Replanned, replan
from gaugerod.packet.paper import Size


@dataclass(frozen=True, slots=True, kw_only=True)
class Again:
    """What was planned again, and the names of the files that were written."""

    replanned: Replanned
    files: tuple[str, ...]


def replan_job(
    ready: Ready,
    days: SiteDays,
    folder: Folder,
    *,
    writers: Writers,
    stop: HardStop,
    seed: int = 0,
    size: Size | None = None,
) -> Again:
    """Plan a job, then again after what was done and found on site, and write its papers.

    `size` is that of all paper, else what goes with the units of the job.

    Raises
    ------
    GaugerodError
        As `plan_job`; or the days on site are not of this job. The message names the file.
    """

    def work(on_site: OnSite) -> Replanned:
        with in_file(ready.name):
            made = plan(ready.job, ready.materials, ready.rules, ready.rates, seed=seed)
        return replan(made, on_site, ready.rules)

    found = stop.run(lambda: days.use(work))
    files = papers(found.plan, ready.words, writers, size=size)
    folder.write(files)
    return Again(replanned=found, files=tuple(files))
