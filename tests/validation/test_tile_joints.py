"""Joints, lippage and soft joints of tile: the rules that come with the program.

Sources, each with how sure it is. Standards that are sold were read where others quote them.

- No levelling with the bonding mortar: column on ANSI A108.02,
  https://www.fcimag.com/articles/91628-ctef-tile-tip-installing-large-thin-tiles-is-the-surface-flat-enough.
  Found.
- Lippage 1/32 in where the joint is 1/16 to under 1/4 in, and the tile's own warpage: ANSI A108.02
  4.3.7, the same column. Found. 1/16 in from 1/4 in on: the same clause,
  https://www.fcimag.com/articles/86335-ctef-tile-tip-lippage-and-flatness-standards-for-ceramic-tile-installations.
  Found.
- Joint three times what the tiles differ in size, never under 1/16 in; 1/16 in asks for 3/16 in:
  ANSI A108.02-2017 4.3.8, https://www.tileletter.com/what-is-minimum-grout-joint/. Found; 1/32 in
  asks for 3/32 in: calculated.
- Running bond with a side over 15 in, 1/8 in rectified: the same. Found.
- Warpage added, 1/8 + 1/32 = 5/32 in: ANSI A108.02 4.3.8.1,
  https://ctasc.com/expert-answers/what-is-the-allowable-tolerance-for-tile-grout-head-joint-widths/.
  Found, recomputed. Here the three times and the warp are added up.
- Movement joints every 8 to 12 ft where it is wet, 12 ft at most: handbook detail EJ171,
  http://tileletter.s3-website-us-east-1.amazonaws.com/201808/inc/html/26.html and
  https://www.fcimag.com/articles/84636-it-all-moves-so-plan-for-it. Found.
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

from gaugerod.core.base.geometry import Region
from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.rules import Rules

INCH, FOOT = 25.4, 304.8
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


def jointed(joint: float, *, differs: float = 0.0, warp: float = 0.0) -> Facts:
    """The alcove in tile whose joint, and what the tiles differ and are warped, is in inches."""
    facts = tiled_by_hand()
    changes = {"joint": (joint * INCH,) * 2, "differs": differs * INCH, "warp": warp * INCH}
    return replace(facts, system=facts.system.model_copy(update=changes))


@pytest.mark.parametrize(
    ("joint", "differs", "warp", "enough"),
    [
        (3 / 16, 1 / 16, 0.0, True),
        (0.187, 1 / 16, 0.0, False),
        (3 / 32, 1 / 32, 0.0, True),
        (0.093, 1 / 32, 0.0, False),
        # Three times 1/24 in is the 1/8 in of rectified tile; 1/32 in of warp makes 5/32.
        (5 / 32, 1 / 24, 1 / 32, True),
        (1 / 8, 1 / 24, 1 / 32, False),
        (1 / 16, 0.0, 0.0, True),
    ],
)
def test_a_joint_is_three_times_what_tiles_differ_and_the_warp(
    joint: float, differs: float, warp: float, enough: bool
) -> None:
    found = findings(jointed(joint, differs=differs, warp=warp))
    assert ("joint-for-size" not in found) is enough


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


@pytest.mark.parametrize(
    ("joint", "rule", "proud"),
    [
        (1 / 16, "lippage-narrow", "1/32 in"),
        (3 / 16, "lippage-narrow", "1/32 in"),
        (0.249, "lippage-narrow", "1/32 in"),
        (1 / 4, "lippage-wide", "1/16 in"),
        (3 / 8, "lippage-wide", "1/16 in"),
    ],
)
def test_how_much_a_tile_may_stand_proud(joint: float, rule: str, proud: str) -> None:
    found = findings(jointed(joint))
    assert [name for name in found if name.startswith("lippage")] == [rule]
    assert f"proud by {proud}" in found[rule].statement
    assert "warped" in found[rule].statement


@pytest.mark.parametrize(
    ("width", "height", "enough"), [(12, 6, True), (12.01, 6, False), (5, 12.01, False)]
)
def test_tile_runs_twelve_feet_at_most(width: float, height: float, enough: bool) -> None:
    facts = tiled_by_hand()
    left, *others = facts.layout.walls
    ring = ((0.0, 0.0), (width * FOOT, 0.0), (width * FOOT, height * FOOT), (0.0, height * FOOT))
    field = replace(left.field, regions=(Region(rings=(ring,)),))
    layout = replace(facts.layout, walls=(replace(left, field=field), *others))
    found = findings(replace(facts, layout=layout))
    assert ("tile-run" not in found) is enough
    if not enough:
        assert found["tile-run"].where == left.name


def test_an_alcove_of_a_tub_is_no_such_run() -> None:
    assert "tile-run" not in findings(tiled_by_hand())


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
