from tests.fixtures_plan import INCHES, words_in

from gaugerod.app.editions_story import tell_editions
from gaugerod.core.job.document import Site
from gaugerod.core.job.sample import sample_job
from gaugerod.store.shelf import Library


def told(**editions: int) -> list[str]:
    site = Site(region="US-IL", editions=editions)
    job = sample_job().model_copy(update={"site": site})
    return tell_editions(job, Library().rules(), words_in(INCHES))


def test_editions_that_count_are_not_told() -> None:
    assert told() == []
    assert told(IRC=2018, NEC=2020) == []


def test_an_edition_that_no_rule_goes_by_is_told() -> None:
    (line,) = told(IRX=2018, NEC=2020)
    assert line == (
        "No rule goes by an edition of “IRX”. Rules go by these: BS7671, IBC, IRC, NEC, UPC; "
        "of one that the job leaves out the newest counts."
    )
