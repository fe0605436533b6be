"""What a job says beside its walls."""

import pytest
from tests.unit.web.test_jobs import begun
from tests.web_pages import HERE, Browser

from gaugerod.web.about import ASKED


def test_answers_are_kept_and_can_be_left_open_again(at: Browser) -> None:
    job = begun(at)
    form = at.open(f"/jobs/{job}/about").one("form")
    said = {
        "site.address": "12 Alder Row",
        "site.built": "1962",
        "choices.turn": "standing",
        "calendar.start": "2026-04-13",
        "facts.strip_out": "yes",
        "facts.gfci": "no",
    }
    page = at.send(form, said)
    document = at.desk.book.head("job", job).document
    assert document["site"] == {"address": "12 Alder Row", "built": 1962}
    assert document["choices"] == {"material": "keyed-24x12", "turn": "standing"}
    assert document["calendar"] == {"start": "2026-04-13"}
    assert document["facts"] == {"strip_out": True, "gfci": False}
    form = page.one("form")
    (turn,) = (i for i in form.all("input", name="choices.turn") if "checked" in i.attributes)
    assert turn.attributes["value"] == "standing"
    at.send(form, {"site.built": "", "facts.gfci": "", "choices.turn": ""})
    document = at.desk.book.head("job", job).document
    assert document["site"] == {"address": "12 Alder Row"}
    assert document["facts"] == {"strip_out": True}
    assert "turn" not in document["choices"]


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("site.built", "long ago"),
        ("site.built", "999"),
        ("calendar.start", "soon"),
        ("calendar.start", ""),
        ("facts.room", "50"),
    ],
)
def test_what_is_wrong_stands_beside_its_field(at: Browser, key: str, text: str) -> None:
    job = begun(at)
    form = at.open(f"/jobs/{job}/about").one("form")
    page = at.send(form, {key: text, "site.address": "12 Alder Row"}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == f"wrong-{key}"
    assert page.one("input", name=key).attributes["value"] == text
    assert page.one("input", name="site.address").attributes["value"] == "12 Alder Row"
    assert at.desk.book.head("job", job).n == 1


def test_what_no_key_says_stays_as_it_was_written(at: Browser) -> None:
    source = b"""name = "Mine"
unit = "in"
survey = { surface = "backer" }
calendar = { start = 2026-03-02 }
choices = { material = "keyed-24x12", bond = 0.25, finish = "72" }
"""
    at.client.post(
        "/import",
        data={"key": "k9", "seen": "0"},
        files={"file": ("mine.toml", source)},
        headers={"Origin": HERE},
    )
    form = at.open("/jobs/mine-k9/about").one("form")
    at.send(form, {"site.contact": "the owner"})
    choices = at.desk.book.head("job", "mine-k9").document["choices"]
    assert choices == {"material": "keyed-24x12", "bond": 0.25, "finish": "72"}


def test_every_question_is_on_the_page(at: Browser) -> None:
    page = at.open(f"/jobs/{begun(at)}/about")
    names = {one.attributes.get("name") for one in page.walk()}
    assert {asked.key for asked in ASKED} <= names


def test_what_is_wrong_in_no_field_stands_at_the_top(at: Browser) -> None:
    source = b"""name = "Mine"
unit = "in"
survey = { surface = "backer" }
calendar = { start = 2026-03-02 }
choices = { material = "keyed-24x12" }
facts = { hose = "long" }
"""
    at.client.post(
        "/import",
        data={"key": "k9", "seen": "0"},
        files={"file": ("mine.toml", source)},
        headers={"Origin": HERE},
    )
    page = at.send(at.open("/jobs/mine-k9/about").one("form"), status=422)
    assert "long" in page.one("p", class_="wrong").text


def test_who_puts_his_answers_on_top_leaves_what_another_answered(at: Browser) -> None:
    job = begun(at)
    late = at.open(f"/jobs/{job}/about").one("form")
    at.send(at.open(f"/jobs/{job}/about").one("form"), {"site.address": "12 Alder Row"})
    page = at.send(late, {"site.built": "1962"}, status=409)
    at.send(page.one("form"))
    site = at.desk.book.head("job", job).document["site"]
    assert site == {"address": "12 Alder Row", "built": 1962}
