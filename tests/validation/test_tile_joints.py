"""Least joints and soft joints of tile: the rules that come with the program.

Sources, each with how sure it is. Standards that are sold were read where others quote them.

- No levelling with the bonding mortar: column on ANSI A108.02,
  https://www.fcimag.com/articles/91628-ctef-tile-tip-installing-large-thin-tiles-is-the-surface-flat-enough.
  Found.
- Joint three times what the tiles differ in size, never under 1/16 in; 1/16 in asks for 3/16 in:
  ANSI A108.02-2017 4.3.8, https://www.tileletter.com/what-is-minimum-grout-joint/. Found; 1/32 in
  asks for 3/32 in: calculated.
- Running bond with a side over 15 in, 1/8 in rectified: the same. Found.
- Soft joint at every inside corner, tub and ceiling: EJ171; ANSI A108.02 4.4.1, the first of these
  and https://www.tileletter.com/the-critical-importance-of-movement-joints-in-tile-work/. Found.
- A soft joint of glazed wall tile 1/8 in at least, 1/4 in preferred: EJ171, 2005 wording, the
  second of these. Found.
"""

import tomllib
from dataclasses import replace
from importlib.resources import files

import pytest
from tests.hand_alcove import lined_by_hand, tiled_by_hand

from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.rules import Rules

INCH = 25.4
DOCUMENT = tomllib.loads((files("gaugerod") / "data/rules/general.toml").read_text("utf-8"))
RULES = Rules.model_validate(DOCUMENT, context={"unit": DOCUMENT["unit"]})


def findings(facts: Facts) -> dict[str, Finding]:
    found = check(
        job=facts.job,
        walls=facts.walls,
        layout=facts.layout,
        pieces=facts.pieces,
        cuts=facts.cuts,
        order=facts.order,
        days=facts.days,
        system=facts.system,
        rules=RULES,
    )
    return {finding.rule: finding for finding in found}


def jointed(joint: float) -> Facts:
    """The alcove in tile with a joint in inches."""
    facts = tiled_by_hand()
    changes = {"joint": (joint * INCH,) * 2}
    return replace(facts, system=facts.system.model_copy(update=changes))


@pytest.mark.parametrize(("joint", "enough"), [(1 / 16, True), (0.06, False)])
def test_a_joint_is_never_under_a_sixteenth(joint: float, enough: bool) -> None:
    assert ("least-joint" not in findings(jointed(joint))) is enough


@pytest.mark.parametrize(("joint", "enough"), [(1 / 8, True), (3 / 32, False)])
def test_large_tile_in_running_bond_has_an_eighth(joint: float, enough: bool) -> None:
    facts = jointed(joint)  # tile of 600
    walls = tuple(replace(wall, row_shift=200.0) for wall in facts.layout.walls)
    shifted = replace(facts, layout=replace(facts.layout, walls=walls))
    assert ("running-bond-joint" not in findings(shifted)) is enough
    assert "running-bond-joint" not in findings(facts)


def test_changes_of_plane_are_sealed_in_tile_alone() -> None:
    found = findings(tiled_by_hand())
    assert found["soft-joints"].severity == "caution"
    for place in ("Inside corners", "deck", "ceiling"):
        assert place in found["soft-joints"].statement
    assert "soft-joints" not in findings(lined_by_hand())


@pytest.mark.parametrize(("gap", "enough"), [(1 / 4, True), (1 / 8, True), (3 / 32, False)])
def test_a_soft_joint_is_an_eighth_wide(gap: float, enough: bool) -> None:
    facts = tiled_by_hand()
    gaps = facts.system.gaps.model_copy(
        update=dict.fromkeys(("deck", "butt", "ceiling"), gap * INCH)
    )
    system = facts.system.model_copy(update={"gaps": gaps})
    assert ("soft-joint-width" not in findings(replace(facts, system=system))) is enough


def test_nothing_is_levelled_with_the_setting_mortar() -> None:
    text = (files("gaugerod") / "data/tolerances/walls.toml").read_text("utf-8")
    behind = [
        row
        for row in tomllib.loads(text)["tolerance"]
        if row["id"].startswith(("ansi-large", "ansi-small"))
    ]
    assert len(behind) == 4
    assert all("never with the setting mortar" in row["advice"] for row in behind)
