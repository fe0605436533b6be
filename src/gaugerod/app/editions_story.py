"""Which editions a job names that no rule goes by: a slip, or a code that is not on file."""

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.job.document import Job
from gaugerod.core.job.rules import Rules


def tell_editions(job: Job, rules: Rules, words: Catalogue) -> list[str]:
    """Return what there is to say of the editions that a job names; nothing where all count."""
    known = sorted({rule.code for rule in rules.rule if rule.code})
    idle = sorted(set(job.site.editions).difference(known))
    if not idle:
        return []
    return [words.text("app.story.editions", idle=", ".join(idle), known=", ".join(known))]
