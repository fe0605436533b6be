from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.checks.finding import Finding
from gaugerod.core.pipeline import Plan
from gaugerod.packet.cover import cover
from gaugerod.packet.paper import Paragraph, Table

FINDING = Finding(
    rule="r",
    severity="caution",
    where="",
    statement="Wet floors are slippery.",
    advice="Dry them.",
    source="common practice",
    edition="",
    sure="common practice, no source",
    length=False,
    value=None,
    limit=None,
)


def tables(plan: Plan, words: Catalogue) -> list[Table]:
    return [block for block in cover(plan, words) if isinstance(block, Table)]


def boxed(plan: Plan, words: Catalogue) -> list[str]:
    blocks = cover(plan, words)
    return [b.text for b in blocks if isinstance(b, Paragraph) and b.style == "boxed"]


def test_the_cover_says_where_and_what_shuts_off(keyed: Plan, inches: Catalogue) -> None:
    facts = [cell for row in tables(keyed, inches)[0].rows for cell in row]
    site = keyed.job.site
    for told in (site.address, site.contact, site.access, site.water_shutoff, site.breaker):
        assert told in facts


def test_an_unknown_year_is_left_out(keyed: Plan, inches: Catalogue) -> None:
    site = keyed.job.site.model_copy(update={"built": None})
    unknown = replace(keyed, job=keyed.job.model_copy(update={"site": site, "scenario": ""}))
    facts = [cell for row in tables(unknown, inches)[0].rows for cell in row]
    assert "Built" not in facts


def test_water_is_forbidden_until_the_last_hold(keyed: Plan, inches: Catalogue) -> None:
    clean = replace(keyed, findings=())
    (only,) = boxed(clean, inches)
    assert only.startswith("NO WATER until ")
    assert len(tables(clean, inches)) == 1


def test_what_forbids_cutting_is_boxed(keyed: Plan, inches: Catalogue) -> None:
    forbid = replace(FINDING, severity="forbid", statement="Not yet.")
    plan = replace(keyed, findings=(forbid, FINDING))
    assert any(text.startswith("DO NOT CUT YET") for text in boxed(plan, inches))
    assert tables(plan, inches)[1].boxed == (0,)


def test_one_finding_in_several_places_takes_one_row(keyed: Plan, inches: Catalogue) -> None:
    wet = replace(FINDING, severity="warn")
    small = replace(wet, where="L6-2", length=True, value=203.2)
    many = replace(wet, where="R6-1", value=3.0)
    old = replace(wet, value=1962.0)
    findings = (small, many, wet, replace(old, statement="Old paint."))
    rows = tables(replace(keyed, findings=findings), inches)[1].rows
    assert rows == (
        ("Wet floors are slippery.", 'L6-2: 8", R6-1: 3', "Dry them."),
        ("Old paint.", "1962", "Dry them."),
    )


def test_cautions_are_gathered_short_two_to_a_row(keyed: Plan, inches: Catalogue) -> None:
    wet = replace(FINDING, rule="wet-floor", short="Dry it.")
    old = replace(FINDING, rule="lead-paint", short="Test it.", value=1962.0)
    box = replace(FINDING, rule="lifting", short="Two people.", value=28.8, unit="kg")
    here, there = (
        replace(FINDING, rule="niche", short="Shallow.", where=w) for w in ("B a", "B b")
    )
    last = replace(FINDING, rule="eyes", short="Glasses.")
    found = (wet, old, box, here, there, last)
    assert tables(replace(keyed, findings=found), inches)[1].rows == (
        ("Wet floor", "Dry it.", "Lead paint", "Test it. (1962)"),
        ("Lifting", "Two people. (28.8 kg, 63.5 lb)", "Niche", "Shallow. (B a, B b)"),
        ("Eyes", "Glasses.", "", ""),
    )


def test_open_questions_are_counted(keyed: Plan, inches: Catalogue) -> None:
    asked = replace(FINDING, severity="ask", gate="cut")
    blocks = cover(replace(keyed, findings=(asked, asked)), inches)
    strong = [b.text for b in blocks if isinstance(b, Paragraph) and b.style == "strong"]
    assert strong == ["Questions that nobody has answered yet: 2. They stand on the gate list."]
