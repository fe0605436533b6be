"""Figures of codes, standards and manuals, and the rules that hold plans to them.

Standards that are sold were read where others quote them. Each row says how sure it is: *found*
was read at the address, *memory* is from general knowledge, *practice* has no source.

Codes of buildings
- IRC R307.2, 6 ft (1829 mm) above the floor, quoted from the Florida residential code of 2010:
  http://askcodeman.com/viewtopic.php?f=36&t=781. Found.
- IPC 417.4.1 (older numbering), 70 in above the drain, quoted:
  https://www.thebuildingcodeforum.com/forum/posts/208553/; IBC 1210.3 and 1210.4, the same and a
  watertight joint from tub to wall: http://www.ibc-wiki.com/section-1210/. Found.
- 72 in (1829 mm) above the drain, showers of 30 in and 900 sq in or 25 in and 1300 sq in, entry of
  22 in, curb of 2 to 9 in, slope of 1/4 to 1/2 in per ft, valves of 120 F (IRC P2708, P2709), as a
  home inspector lists them:
  https://www.howtolookatahouse.com/Blog/Entries/2018/6/what-are-the-minimum-requirements-for-a-shower.html;
  measured to the finish, valves and bars left out:
  https://www.homeownersnetwork.com/building-codes/plumbing-fixtures/. Found; numbers of the IBC
  and of the product standards from memory.
- ABCB Housing Provisions 10.2.2 and AS 3740, 1800 mm and 40 mm: https://www.ssws.au/about-4. Found;
  upturn of 150 mm: https://grannyflatteam.com/gf_bedroom_1/_gf_wetarea.html. Found, weak.
- Backers C1178, C1288, C1325 (IBC table 2509.2, IRC R702.4.2) and gypsum over a vapour retarder
  (2509.3): https://codelibrary.amlegal.com/codes/newyorkcity/latest/NYCadmin/0-0-0-182977,
  https://codeoperative.net/models/irc/2018/irc18_702.4.2.php; green board out since 2006:
  https://www.wconline.com/articles/84062-irc-determines-greenboard-unsuitable-for-wet-areas. Found;
  coated, fibre and foam boards from memory.
- IRC R308.4.5, glass under 60 in (1524 mm):
  https://www.finehomebuilding.com/2020/10/08/glass-in-wet-spaces. Found.
- Chicago, 1024 sq in and 32 in:
  https://codelibrary.amlegal.com/codes/chicago/latest/chicago_il/0-0-0-2691153. Found.
- UPC 408.6, 1024 sq in and a circle of 30 in; IRC R307.1, 15 in and 21 in. Memory.

Electricity
- NEC 406.9(C), 3 ft: https://www.electricallicenserenewal.com/Electrical-Continuing-Education-Courses/NEC-Content.php?sectionID=1494;
  NEC 410.10(D), the same zone:
  https://www.ecmag.com/magazine/articles/article-detail/scrub-a-dub-dub-no-lights-or-receptacles-in-the-tub!.
  Found.
- NEC 210.8(A)(1); BS 7671 section 701, 2.5 m, 3 m before 2022, 0.6 m, RCD. Memory.

Access
- ADA 609.4, 33 to 36 in: https://corada.com/documents/2010ADAStandards/609-4; 607.4, 8 to 10 in
  over the rim: https://www.corada.com/documents/ada-aba-guidelines-preamble/607-grab-bars; head end
  12 in: https://corada.com/documents/2012-tas/607-4-2-3-head-end-wall; 24 in and 12 in: secondary
  pages; hose 59 in, threshold 1/2 in:
  https://dosobo-access.wbdg.org/aba-chapters/figure/608-1-showers-quick-guide/. Found.
- ADA 609.2, 609.3, 609.8 (1 1/2 in, 250 lbf); A117.1 1004.11 (32 to 38 in). Memory.

Tile
- ANSI A108.02 and A108.01, flatness, lippage and joints:
  https://www.fcimag.com/articles/91628-ctef-tile-tip-installing-large-thin-tiles-is-the-surface-flat-enough,
  https://www.fcimag.com/articles/86335-ctef-tile-tip-lippage-and-flatness-standards-for-ceramic-tile-installations,
  https://www.tileletter.com/what-is-minimum-grout-joint/,
  https://ctasc.com/expert-answers/what-is-the-allowable-tolerance-for-tile-grout-head-joint-widths/.
  Found; 1/16 in in 12 in from memory.
- Detail EJ171: http://tileletter.s3-website-us-east-1.amazonaws.com/201808/inc/html/26.html,
  https://www.fcimag.com/articles/84636-it-all-moves-so-plan-for-it. Found.
- NHBC 9.2.5, 3 mm under 2 m and 10 days on dabs:
  https://nhbc-standards.co.uk/9-finishes/9-2-wall-and-ceiling-finishes/9-2-5-ceramic-wall-tiling/.
  Found. BS 5385-1, joints of 2 and 3 mm, lipping of 1 mm, movement joints at 4.5 m. Memory.
- Mortar, 1.4 kg/m2 for each mm:
  https://www.sweatlodgeradio.com/how-do-you-calculate-epoxy-grout/. Found.

Time and warmth
- 24 h before grouting: NAVEDTRA 14044 ch. 7,
  https://constructionmanuals.tpub.com/14044/css/Recommended-Reading-List-234.htm, and
  https://www.floortrendsmag.com/articles/84854-ceramic-stone-close-up-just-do-it-just-don-t-do-it;
  24 to 72 h: http://tiledoctor.com/how-to-tile/grouting-for-showers-tubs/. Found.
- 50 F: http://themoldstore.info/Architect_Specs.html; 50 to 70 F:
  http://tileletter.s3-website-us-east-1.amazonaws.com/201701/inc/html/78.html. Found.
- Cement grout 48 to 72 h, epoxy 24 h:
  https://engineerfix.com/how-long-for-grout-to-dry-before-showering. Found, weak.
- Sealant 24 h and 40 F; damp cure 72 h; a tub loaded; two coats of membrane and 24 h of water;
  24 to 48 h in the room. Memory. Rigid PVC 5e-5 to 8e-5 per degree C. Memory, calculated.

Hazards
- 29 CFR 1926.1153 table 1: http://dir.ca.gov/title8/1532_3.html. Found.
- 40 CFR 745.83 and .85, 6 sq ft:
  https://19january2021snapshot.epa.gov/lead/please-provide-guidance-how-agency-will-interpret-term-minor-repair-and-maintenance-activities_.html;
  what is left out: http://edocket.access.gpo.gov/2008/E8-8141.htm. Found.
- 29 CFR 1926.1101(k), before 1981: https://unlv.edu/rms/environmental-and-lab/asbestos-locations.
  Found; 40 CFR 61.145, homes of four units or fewer left out, from memory. 29 CFR 1926.1153(c),
  50 and 25 micrograms, from memory. NIOSH 23 kg:
  https://www.ccohs.ca/oshanswers/ergonomics/niosh/assessing.html. Found.
- 29 CFR 1926.102, .52, .57, .416, .1053(b); 1910.1200; water, wet cement, mould. Memory or
  practice.
"""

from dataclasses import replace

import pytest
from tests.rule_cases import CASES, KEYED, OLD, TILE, of, said, shifted, shower, walls, wide

from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.checks.measures import MEASURES
from gaugerod.core.job.rules import Rules
from gaugerod.store.shelf import Library

INCH, FOOT = 25.4, 304.8
SQUARE_FOOT, SQUARE_INCH = 0.09290304, 0.00064516  # [m2]
FOUND, MEMORY = "found", "from memory"
RULES = {rule.id: rule for rule in Library().rules().rule}


def found_by(name: str, facts: Facts) -> tuple[Finding, ...]:
    return check(
        job=facts.job,
        walls=facts.walls,
        layout=facts.layout,
        pieces=facts.pieces,
        cuts=facts.cuts,
        order=facts.order,
        days=facts.days,
        system=facts.system,
        rules=Rules(format=1, unit="mm", rule=(RULES[name],)),
    )


@pytest.mark.parametrize(
    ("name", "holds", "limit", "sure"),
    [
        ("finish-above-floor", "at least", 6 * FOOT, FOUND),
        ("finish-above-drain", "at least", 72 * INCH, FOUND),
        ("finish-above-drain-older", "at least", 70 * INCH, FOUND),
        ("height-au", "at least", 1800.0, FOUND),
        ("safety-glazing", "at least", 60 * INCH, FOUND),
        ("safety-glass-missing", "at least", 60 * INCH, FOUND),
        ("shower-side", "at least", 30 * INCH, FOUND),
        ("shower-side-long", "at least", 25 * INCH, FOUND),
        ("chicago-shower-side", "at least", 32 * INCH, FOUND),
        ("upc-shower-circle", "at least", 30 * INCH, MEMORY),
        ("shower-entry", "at least", 22 * INCH, FOUND),
        ("curb-low", "at least", 2 * INCH, FOUND),
        ("curb-high", "at most", 9 * INCH, FOUND),
        ("closet-side", "at least", 15 * INCH, MEMORY),
        ("closet-front", "at least", 21 * INCH, MEMORY),
        ("receptacle", "at least", 3 * FOOT, FOUND),
        ("hanging-light", "at least", 3 * FOOT, FOUND),
        ("receptacle-gb", "at least", 2500.0, MEMORY),
        ("receptacle-older-gb", "at least", 3000.0, MEMORY),
        ("zone-2-gb", "at least", 600.0, MEMORY),
        ("bar-low", "at least", 33 * INCH, FOUND),
        ("bar-high", "at most", 36 * INCH, FOUND),
        ("lower-bar-low", "at least", 8 * INCH, FOUND),
        ("lower-bar-high", "at most", 10 * INCH, FOUND),
        ("head-bar", "at least", 12 * INCH, FOUND),
        ("control-bar", "at least", 24 * INCH, FOUND),
        ("back-bar", "at least", 24 * INCH, FOUND),
        ("back-bar-to-head", "at most", 24 * INCH, FOUND),
        ("back-bar-to-control", "at most", 12 * INCH, FOUND),
        ("spray-hose", "at least", 59 * INCH, FOUND),
        ("threshold", "at most", INCH / 2, FOUND),
        ("lippage", "at most", INCH / 32, FOUND),
        ("lippage-wide-joint", "at most", INCH / 16, FOUND),
        ("lippage-gb", "at most", 1.0, MEMORY),
        ("least-joint", "at least", INCH / 16, FOUND),
        ("running-bond-joint-calibrated", "at least", 3 * INCH / 16, FOUND),
        ("joint-gb", "at least", 2.0, MEMORY),
        ("joint-large-gb", "at least", 3.0, MEMORY),
        ("movement-joint", "at most", 12 * FOOT, FOUND),
        ("movement-joint-gb", "at most", 4500.0, MEMORY),
        ("ladder", "at most", 6 * FOOT, MEMORY),
    ],
)
def test_a_length_is_that_of_its_source(name: str, holds: str, limit: float, sure: str) -> None:
    rule = RULES[name]
    assert (rule.holds, rule.sure) == (holds, sure)
    assert rule.limit == pytest.approx(limit, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "holds", "number", "sure"),
    [
        ("shower-area", "at least", 900 * SQUARE_INCH, FOUND),
        ("chicago-shower-area", "at least", 1024 * SQUARE_INCH, FOUND),
        ("upc-shower-area", "at least", 1024 * SQUARE_INCH, MEMORY),
        ("pan-flat", "at least", 0.25 / 12, FOUND),
        ("pan-steep", "at most", 0.5 / 12, FOUND),
        ("hot-limit", "at most", (120 - 32) / 1.8, FOUND),
        ("joint-for-sizes", "at least", 3, FOUND),
        ("board-on-dabs-gb", "at least", 10, FOUND),
        ("plaster-load-gb", "at most", 20, FOUND),
        ("board-load-gb", "at most", 32, MEMORY),
        ("adhesive-hold", "at least", 24, FOUND),
        ("mortar-hold", "at least", 24, FOUND),
        ("cement-grout-hold", "at least", 48, FOUND),
        ("epoxy-grout-hold", "at least", 24, FOUND),
        ("sealant-hold", "at least", 24, MEMORY),
        ("room-for-mortar", "at least", (50 - 32) / 1.8, FOUND),
        ("room-warm", "at most", (70 - 32) / 1.8, FOUND),
        ("room-for-sealant", "at least", (40 - 32) / 1.8, MEMORY),
        ("lead-paint", "at least", 1978, FOUND),
        ("lead-area", "at most", 6 * SQUARE_FOOT, FOUND),
        ("asbestos", "at least", 1981, FOUND),
        ("asbestos-gb", "at least", 2000, FOUND),
        ("lifting", "at most", 23, FOUND),
    ],
)
def test_a_number_is_that_of_its_source(name: str, holds: str, number: float, sure: str) -> None:
    rule = RULES[name]
    assert (rule.holds, rule.sure) == (holds, sure)
    assert rule.number == pytest.approx(number, abs=1e-4)


@pytest.mark.parametrize(
    ("name", "holds", "words", "sure"),
    [
        ("green-board", "none of", {"water-resistant gypsum"}, FOUND),
        ("vapour-retarder", "one of", {"no"}, FOUND),
        ("gfci", "one of", {"yes"}, MEMORY),
        ("rcd-gb", "one of", {"yes"}, MEMORY),
        ("scald-guard", "one of", {"yes"}, FOUND),
        ("bar-backing", "one of", {"yes"}, MEMORY),
        ("lead-window", "none of", {"yes"}, FOUND),
        ("silica-board", "none of", {"fibre cement", "fibre-mat cement"}, FOUND),
        ("asbestos-found", "none of", {"found"}, MEMORY),
        ("plywood-backer", "none of", {"plywood"}, MEMORY),
    ],
)
def test_an_answer_is_that_of_its_source(name: str, holds: str, words: set[str], sure: str) -> None:
    rule = RULES[name]
    assert (rule.holds, set(rule.words), rule.sure) == (holds, words, sure)


@pytest.mark.parametrize(
    "board",
    [
        "fibre cement",
        "fibre-mat cement",
        "glass-mat gypsum",
        # In newer editions, from memory.
        "coated glass-mat gypsum",
        "fibre gypsum",
        "foam board",
    ],
)
def test_boards_of_the_table_are_taken(board: str) -> None:
    assert found_by("backer-listed", said(KEYED, backer=board)) == ()


@pytest.mark.parametrize("board", ["gypsum", "water-resistant gypsum", "plywood"])
def test_boards_that_are_not_in_the_table_are_not(board: str) -> None:
    assert len(found_by("backer-listed", said(KEYED, backer=board))) == 1


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("tub-joint", "watertight"),
        ("bar-strength", "250 lbf"),
        ("bar-strength", "1 1/2 in"),
        ("bar-strength", "1 1/4 to 2 in"),
        ("receptacle", "up to 8 ft (2.5 m)"),
        ("hanging-light", "up to 8 ft (2.5 m)"),
        ("zone-2-gb", "up to 2.25 m"),
        ("room-for-mortar", "for 7 days after"),
        ("sealant-hold", "about 1/8 in (3 mm) a day"),
        ("cement-grout-hold", "up to 7 days"),
        ("soft-joint-width", "1/4 in is better"),
        ("bar-band", "32 to 38 in"),
        ("junctions-au", "40 mm"),
        ("upturn-au", "150 mm"),
        ("coverage", "95 %"),
        ("coverage", "3/32 in"),
        ("soft-joints", "sealant, not grout"),
        ("damp-cure", "72 h"),
        ("tub-loaded", "Tub filled"),
        ("primer-dry", "two coats"),
        ("primer-dry", "24 h"),
        ("acclimatised", "24 to 48 h"),
        ("seal-shape", "half as deep as wide"),
        ("electricity", "proved dead"),
        ("electricity", "GFCI"),
        ("water", "drained"),
        ("eyes", "fly"),
        ("silica", "silica dust"),
        ("noise", "85 to 90 dB(A)"),
        ("silica-board", "99 %"),
        ("vapour", "vapour"),
        ("wet-cement", "burn"),
        ("tub-rim", "Nobody stands"),
        ("hidden-damage", "mould"),
    ],
)
def test_a_rule_in_prose_says_what_its_source_says(name: str, told: str) -> None:
    assert told in RULES[name].statement


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("silica", "A hand-held saw indoors needs one besides (APF 10)"),
        ("silica", "no dry sweeping, no compressed air"),
        ("silica-drilling", "shroud and a HEPA vacuum"),
        ("eyes", "side shields"),
        ("plastic-dust", "Never burn"),
        ("vapour", "pilot flames"),
        ("ladder", "4 to 1"),
        ("lead-area", "child under 6"),
        ("asbestos", "many states ask for a survey"),
        ("asbestos", "a building of more than four homes"),
        ("silica", "50 µg/m³ over 8 h"),
        ("silica", "from 25 on"),
        ("bar-backing", "2 x 8"),
        ("bar-band", "3/4 in plywood"),
        ("shower-area", "70 in (1778 mm) above the drain; valve, head, dishes and bars"),
        ("closet-front", "24 in (610 mm)"),
        ("receptacle", "exception on its far wall"),
        ("hanging-light", "listed for wet or damp places"),
        ("running-bond-joint", "1/8 in (3 mm) for rectified tile, 3/16 in (5 mm) for other"),
        ("eyes", "drilling, overhead most of all"),
        ("lead-paint", "any painted wall or window taken out"),
        ("lead-paint", "Old glaze can hold lead"),
        ("water", "shut-off"),
        ("wet-cement", "gloves"),
        ("ladder", "3 ft (0.9 m) above"),
        ("hidden-damage", "Stop"),
    ],
)
def test_its_advice_says_what_to_do(name: str, told: str) -> None:
    assert told in RULES[name].advice


def test_the_larger_height_counts_unless_an_older_code_is_named() -> None:
    # 6 ft over the floor and 72 in over the drain; 70 in only where the edition says so
    assert RULES["finish-above-drain-older"].until == 2012
    assert RULES["finish-above-drain"].since == 2015
    assert found_by("finish-above-drain-older", CASES["finish-above-drain"].breaks) == ()
    assert len(found_by("finish-above-drain", CASES["finish-above-drain"].breaks)) == 1


def test_a_strip_of_8_inches_over_30_60_and_30_is_more_than_6_square_feet() -> None:
    left, _, right = OLD.walls.walls
    end = replace(left.right, offset=30 * INCH)
    house = wide(walls(OLD, L=replace(left, right=end), R=replace(right, right=end)), 60 * INCH)
    (found,) = found_by("lead-area", said(house, paint_height=8 * INCH))
    assert found.value is not None
    assert found.value / SQUARE_FOOT == pytest.approx(6.67, abs=0.005)
    assert found_by("lead-area", said(house, paint_height=7 * INCH)) == ()


def test_a_variation_of_a_sixteenth_asks_for_a_joint_of_three() -> None:
    joint = 3 * INCH / 16
    varied = said(of(TILE, joint=(joint, joint)), size_variation=INCH / 16)
    assert found_by("joint-for-sizes", varied) == ()
    narrower = of(varied, joint=(joint - 0.1, joint))
    assert found_by("joint-for-sizes", narrower)[0].limit == pytest.approx(joint)


def test_a_warp_of_a_thirty_second_makes_the_joint_five_thirty_seconds() -> None:
    joint = 5 * INCH / 32
    warped = said(shifted(of(TILE, joint=(joint, joint)), 200.0), warpage=INCH / 32)
    assert found_by("running-bond-joint", warped) == ()
    assert len(found_by("running-bond-joint", said(warped, warpage=INCH / 16))) == 1


def test_plastic_of_60_inches_grows_up_to_a_tenth_over_20_degrees() -> None:
    share = RULES["room-to-grow"].number
    assert share is not None
    assert 0.06 <= share * 60 <= 0.10
    assert share == pytest.approx(8e-5 * 20)


@pytest.mark.parametrize(
    ("width", "depth", "broken"),
    [
        (30.0, 30.0, set[str]()),
        (29.0, 32.0, {"shower-side"}),
        (25.0, 52.0, set[str]()),
        (25.0, 51.0, {"shower-side"}),  # 1275 sq in
        (24.0, 60.0, {"shower-side-long"}),
        (29.0, 30.0, {"shower-area", "shower-side"}),
    ],
)
def test_a_shower_is_large_enough_in_one_of_two_ways(
    width: float, depth: float, broken: set[str]
) -> None:
    """30 in and 900 sq in, or 25 in and 1300 sq in, lining to lining. [in]"""
    small = shower(width * INCH + 0.01, depth * INCH + 0.01)
    rules = ("shower-area", "shower-side", "shower-side-long")
    assert {name for name in rules if found_by(name, small)} == broken


def test_the_lining_counts_in_the_size_of_a_shower() -> None:
    (side,) = MEASURES["shower-side"](said(wide(KEYED, 1000.0), receptor="shower"))
    # 800 deep less one lining of 11.1125; 1000 wide less two.
    assert side.value == pytest.approx(788.8875)


def test_every_rule_that_was_not_found_says_so() -> None:
    loose = {rule.id for rule in RULES.values() if rule.sure == "common practice, no source"}
    named = {name for name in loose if "common practice" in RULES[name].source}
    assert {
        name: RULES[name].source for name in loose - named if "sheet" not in RULES[name].source
    } == {}
