"""Full-size paper as it comes out of the printer, measured in its vectors and in its pixels.

The alcoves and the sizes of paper are those of the packaged jobs: inches on letter, millimetres
on A4. By hand: 4 in = 101.6 mm and 8 in = 203.2 mm (1 in = 25.4 mm exactly). The first datum is
30 in over the deck and the finish 39 1/8 in over the datum, so the rod runs from 32 in below to
40 in above: 9 strips of 8 in. The second runs from 762 mm below to 1099 above: 10 of 200 mm.
"""

import subprocess
from dataclasses import dataclass
from functools import cache, partial
from io import BytesIO
from math import dist
from pathlib import Path
from typing import cast

import numpy as np
import pypdfium2 as pdfium
import pytest
from numpy.typing import NDArray
from pypdf import PdfReader
from pypdf.generic import DictionaryObject
from tests.checkers.paths import Drawn, Point, Round, drawn_on, squares
from tests.fixtures_plan import INCHES, MILLIMETRES, keyed_plan, tiled_plan, words_in

from gaugerod.core.base.geometry import bounds_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.layout import top_of
from gaugerod.packet.rod import rod_paper
from gaugerod.packet.templates import template_paper
from gaugerod.writers.pdf import pdf, typeset
from gaugerod.writers.svg import svg

CLOSE = 0.1
"""What a line may be out on paper. [mm]"""
PIXEL = 25.4 / 300
PLAIN = partial(svg, black=True, edged=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A plan, and what its paper should have by hand. [mm]."""

    name: str
    side: float
    step: float
    beyond: float
    overlap: float
    lowest: float
    strips: int

    @property
    def plan(self) -> Plan:
        return keyed_plan() if self.name == "keyed" else tiled_plan()


KEYED = Case(
    name="keyed", side=101.6, step=203.2, beyond=19.05, overlap=12.7, lowest=-812.8, strips=9
)
TILED = Case(
    name="tiled", side=100.0, step=200.0, beyond=20.0, overlap=12.0, lowest=-800.0, strips=10
)


@pytest.fixture(params=[KEYED, TILED], ids=["inches on letter", "millimetres on A4"])
def case(request: pytest.FixtureRequest) -> Case:
    return cast("Case", request.param)


@cache
def rod(case: Case) -> bytes:
    words = words_in(INCHES if case is KEYED else MILLIMETRES)
    return pdf(rod_paper(case.plan, words), draw=PLAIN, black=True)


@cache
def template(case: Case) -> bytes:
    words = words_in(INCHES if case is KEYED else MILLIMETRES)
    return pdf(template_paper(case.plan, words), draw=PLAIN, black=True)


@cache
def drawn(document: bytes) -> tuple[Drawn, ...]:
    return tuple(drawn_on(page) for page in pdfium.PdfDocument(document))


@cache
def texts(document: bytes) -> tuple[str, ...]:
    """What each page says, its fractions with the slash of a keyboard."""
    pages = (page.get_textpage().get_text_range() for page in pdfium.PdfDocument(document))
    return tuple(page.replace("\N{FRACTION SLASH}", "/") for page in pages)


def test_every_full_size_page_has_one_check_square(case: Case) -> None:
    for document in (rod(case), template(case)):
        for page in drawn(document)[1:]:
            assert len(squares(page, case.side, within=0.02)) == 1


def test_the_square_says_what_to_check(case: Case) -> None:
    side = '4"' if case is KEYED else "100 mm"
    for document in (rod(case), template(case)):
        for text in texts(document)[1:]:
            flat = " ".join(text.split())
            assert f"{side} square" in flat
            assert f"Measure it both ways: {side} each way." in flat
            assert "with no scaling" in flat


def test_viewers_are_asked_not_to_scale(case: Case) -> None:
    for document in (rod(case), template(case)):
        root = PdfReader(BytesIO(document), strict=True).root_object
        wishes = cast("DictionaryObject", root["/ViewerPreferences"])
        said = {key: str(value) for key, value in wishes.items()}
        assert said == {"/PrintScaling": "/None", "/Direction": "/L2R"}  # what was there stays


def test_the_same_plan_gives_the_same_bytes_and_no_complaint() -> None:
    words = words_in(INCHES)
    for make in (rod_paper, template_paper):
        made = make(keyed_plan(), words)
        assert pdf(made, draw=PLAIN, black=True) == pdf(made, draw=PLAIN, black=True)
        assert typeset(made, draw=PLAIN, black=True)[1] == ()


def test_letters_stay_letters_and_both_papers_stay_small(case: Case) -> None:
    assert len(rod(case)) + len(template(case)) < 400_000
    # Letters as outlines would be curves.
    assert all(len(page.lines) < 200 for page in drawn(rod(case)))


def test_the_options_of_paper_are_kept() -> None:
    words = words_in(INCHES)
    for made in (
        rod_paper(keyed_plan(), words, size="a4"),
        template_paper(keyed_plan(), words, size="a4"),
    ):
        for page in pdfium.PdfDocument(pdf(made, draw=PLAIN, black=True)):
            short, long = sorted(side / 72 * 25.4 for side in page.get_size())
            assert (short, long) == (pytest.approx(210, abs=0.1), pytest.approx(297, abs=0.1))


# --- the rod ------------------------------------------------------------------------------------


def expected_heights(plan: Plan) -> set[float]:
    """Every height that is to be on the rod, straight from the plan."""
    layout = plan.layout
    found = {min(y for wall in plan.walls.walls for _, y in wall.deck)}
    for wall in plan.walls.walls:
        top = top_of(layout, wall.name)
        line = layout.first_course
        while line < top - 1e-4:
            found.add(line)
            line += layout.pitch[1]
        found.add(top)
        found |= {hole.y for hole in wall.holes}
        found |= {y for one in wall.openings for y in (one.box.bottom, one.box.top)}
    return found


def heights_on(page: Drawn, bottom: float, beyond: float) -> list[float]:
    """Heights of the strokes that begin at the left edge of a strip. [mm]."""
    edge = min(page.plumb(at_least=230.0))
    (left, foot) = edge[0]
    return [
        y - foot + bottom - beyond
        for (x, y), _ in page.level()
        if abs(x - left) < 1e-2 and foot - 1e-2 < y < edge[1][1] + 1e-2
    ]


def test_every_line_stands_at_its_height_and_no_other_does(case: Case) -> None:
    expected = expected_heights(case.plan)
    pages = drawn(rod(case))[1:]
    assert len(pages) == case.strips
    met: set[float] = set()
    for number, page in enumerate(pages):
        bottom = case.lowest + number * case.step
        low, high = bottom - case.beyond, bottom + case.step + case.beyond
        found = heights_on(page, bottom, case.beyond)
        wanted = {height for height in expected if low <= height <= high}
        stations = {bottom, bottom + case.step}
        for height in wanted | stations:
            assert min(abs(height - y) for y in found) < CLOSE
        for y in found:
            assert min(abs(y - height) for height in wanted | stations) < CLOSE
        met |= wanted
    assert met == expected


def test_a_strip_is_as_long_as_its_step_and_what_it_shares(case: Case) -> None:
    for page in drawn(rod(case))[1:]:
        (start, end) = min(page.plumb(at_least=230.0))
        assert dist(start, end) == pytest.approx(case.step + 2 * case.beyond, abs=0.02)


def test_strips_say_which_they_are_and_what_they_join(case: Case) -> None:
    for number, text in enumerate(texts(rod(case))[1:], start=1):
        assert f"Strip {number} of {case.strips}" in text
        top = "end of the rod" if number == case.strips else f"joins strip {number + 1}"
        foot = "end of the rod" if number == 1 else f"joins strip {number - 1}"
        assert f"TOP ↑ {top}" in text
        assert f"BOTTOM ↓ {foot}" in text
    assert sum("DATUM" in text for text in texts(rod(case))[1:]) == 2


def test_figures_are_rounded_once_from_the_datum() -> None:
    """First course 530.225 mm under the datum is 20.875 in: 20 7/8, 3 1/8 over 24 in below."""
    text = " ".join(texts(rod(KEYED))[0].split())
    assert '↓ 20.875 ↓ 20 7/8" 3 1/8" over ↓ 24"' in text
    # 27.125 in up: 24 + 3 1/8. Pitches of 12 in, so every course has the same sixteenths.
    assert '↑ 27.125 ↑ 27 1/8" 3 1/8" over ↑ 24"' in text


# --- templates ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One page of a template: what it shows, the middles of its crosses, its hatched edges."""

    page: Drawn
    crosses: tuple[Point, ...]
    upright: float | None
    level: float | None


def sheet_of(page: Drawn) -> Sheet:
    leaning = [line for line in page.lines if dist(*line) == pytest.approx(6 * 2**0.5, abs=0.05)]
    middles = {(round((a[0] + b[0]) / 2, 1), round((a[1] + b[1]) / 2, 1)) for a, b in leaning}
    crosses = tuple(sorted(middles))

    def join(strokes: list[tuple[Point, Point]], axis: int) -> float | None:
        """Where the stroke runs that has a cross on it."""
        for low, high in strokes:
            for cross in crosses:
                on = abs(cross[axis] - low[axis]) < CLOSE
                if on and low[1 - axis] < cross[1 - axis] < high[1 - axis]:
                    return low[axis]
        return None

    upright, level = join(page.plumb(at_least=20.0), 0), join(page.level(at_least=20.0), 1)
    return Sheet(page=page, crosses=crosses, upright=upright, level=level)


def hatched(page: Drawn, *, plumb: bool) -> float | None:
    """Where an edge is that strokes of 3 by 3 mm lean away from. [mm]."""
    strokes = [line for line in page.lines if dist(*line) == pytest.approx(3 * 2**0.5, abs=0.03)]
    edges = page.plumb(at_least=15.0) if plumb else page.level(at_least=15.0)
    axis = 0 if plumb else 1
    for edge in edges:
        ends = [
            end for stroke in strokes for end in stroke if abs(end[axis] - edge[0][axis]) < 0.02
        ]
        if len(ends) >= 2:
            return edge[0][axis]
    return None


def away(sheets: list[Sheet], start: int, *, plumb: bool) -> float:
    """From the centre of the hole on one page to the factory edge, over the join if need be."""
    centre = sheets[start].page.rounds[0].centre[0 if plumb else 1]
    own = hatched(sheets[start].page, plumb=plumb)
    if own is not None:
        return abs(own - centre)
    joint = sheets[start].upright if plumb else sheets[start].level
    assert joint is not None
    lengths = []
    for sheet in sheets:
        edge = hatched(sheet.page, plumb=plumb)
        other = sheet.upright if plumb else sheet.level
        if edge is not None and other is not None:
            lengths.append(abs(joint - centre) + abs(edge - other))
    assert max(lengths) - min(lengths) < CLOSE  # whichever page is taped on
    return lengths[0]


def pages_of(case: Case, tag: str, way: str) -> list[Sheet]:
    found = []
    for text, page in zip(texts(template(case)), drawn(template(case)), strict=True):
        if f"FACE {way} ↑" in text and tag in text:
            found.append(sheet_of(page))
    return found


def pierced(plan: Plan) -> list[Piece]:
    return [piece for piece in plan.pieces if piece.holes]


def nearest_kept(piece: Piece) -> tuple[float, float]:
    """From the hole to the nearest kept edges, across and up, worked on the wall."""
    (drill,) = piece.holes
    box = bounds_of(piece.region.rings)
    x, y = piece.cell.left + drill.x, piece.cell.bottom + drill.y
    across = {"left": x - box.left, "right": box.right - x}
    up = {"bottom": y - box.bottom, "top": box.top - y}
    return (
        min(value for side, value in across.items() if side in piece.keeps),
        min(value for side, value in up.items() if side in piece.keeps),
    )


@pytest.mark.parametrize("way", ["UP", "DOWN"])
def test_holes_are_where_the_plan_has_them_over_joins_too(case: Case, way: str) -> None:
    joined = 0
    for piece in pierced(case.plan):
        sheets = pages_of(case, piece.tag, way)
        (start,) = [n for n, sheet in enumerate(sheets) if sheet.page.rounds]
        (hole,) = sheets[start].page.rounds
        across, up = nearest_kept(piece)
        assert hole.diameter == pytest.approx(piece.holes[0].diameter, abs=CLOSE)
        assert away(sheets, start, plumb=True) == pytest.approx(across, abs=CLOSE)
        assert away(sheets, start, plumb=False) == pytest.approx(up, abs=CLOSE)
        joined += len(sheets) > 1
    assert joined > 0


def test_face_down_is_the_mirror_of_face_up(case: Case) -> None:
    for piece in pierced(case.plan):
        ways = []
        for way in ("UP", "DOWN"):
            for sheet in pages_of(case, piece.tag, way):
                for hole in sheet.page.rounds:
                    joint = sheet.upright
                    assert joint is not None
                    ways.append(hole.centre[0] - joint)
        up, down = ways
        assert up == pytest.approx(-down, abs=0.02)


def test_pages_that_meet_have_their_crosses_at_the_same_places(case: Case) -> None:
    met = 0
    for piece in pierced(case.plan):
        sheets = pages_of(case, piece.tag, "UP")
        beside = [pair for pair in ((0, 1), (2, 3)) if pair[1] < len(sheets)]
        above = [(0, 2), (1, 3)] if len(sheets) == 4 else []
        for pairs, axis in ((beside, 0), (above, 1)):
            for pair in pairs:
                one, other = (on_join(sheets[number], axis) for number in pair)
                assert one == pytest.approx(other, abs=CLOSE)
                assert len(one) >= 1
                met += 1
    assert met >= 2


def on_join(sheet: Sheet, axis: int) -> list[float]:
    """How far along a join its crosses are. [mm]."""
    joint = sheet.upright if axis == 0 else sheet.level
    assert joint is not None
    return sorted(cross[1 - axis] for cross in sheet.crosses if abs(cross[axis] - joint) < CLOSE)


def test_pages_share_what_they_say(case: Case) -> None:
    """An edge that runs over a join goes on for half of what is shared, on either page."""
    said = 'Pages share 1/2".' if case is KEYED else "Pages share 12 mm."
    measured = 0
    for piece in pierced(case.plan):
        for sheet in pages_of(case, piece.tag, "UP"):
            if sheet.upright is None:
                continue
            joined = [line for line in sheet.page.plumb() if abs(line[0][0] - sheet.upright) < 0.01]
            low, high = min(line[0][1] for line in joined), max(line[1][1] for line in joined)
            for start, end in sheet.page.level(at_least=20.0):
                left, right = sheet.upright - start[0], end[0] - sheet.upright
                if min(left, right) > 1.0 and low < start[1] < high:
                    assert min(left, right) == pytest.approx(case.overlap / 2, abs=CLOSE)
                    measured += 1
    assert measured >= 4
    pages = [" ".join(text.split()) for text in texts(template(case))]
    assert sum(said in text for text in pages) == len(pages) - 1


def test_strips_share_what_they_say(case: Case) -> None:
    """Twice 3/4 in, or twice 20 mm, as their length has it."""
    said = 'Strips share 1 1/2".' if case is KEYED else "Strips share 40 mm."
    assert all(said in " ".join(text.split()) for text in texts(rod(case))[1:])


# --- the same in pixels -------------------------------------------------------------------------


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("pixels")


def pixels(document: bytes, number: int, shelf: Path) -> NDArray[np.float64]:
    """How dark a page is at 300 dots to the inch, its last row first: a row is a height."""
    source = shelf / "page.pdf"
    source.write_bytes(document)
    command = ["pdftoppm", "-r", "300", "-gray", "-f", str(number), "-l", str(number)]
    done = subprocess.run([*command, source], check=True, capture_output=True)
    kind, wide, high, most, rest = done.stdout.split(maxsplit=4)
    assert (kind, most) == (b"P5", b"255")
    shape = (int(high), int(wide))
    raw = np.frombuffer(done.stdout[-shape[0] * shape[1] :], dtype=np.uint8)
    assert len(rest) <= len(raw)
    return np.asarray(1.0 - raw.reshape(shape)[::-1] / 255.0, dtype=np.float64)


def middles(profile: NDArray[np.float64]) -> list[float]:
    """Middles of the dark runs of a profile, weighed by how dark they are. [mm]."""
    dark = np.concatenate([[False], profile > 0.25, [False]])
    starts, ends = np.flatnonzero(dark[1:] & ~dark[:-1]), np.flatnonzero(dark[:-1] & ~dark[1:])
    return [
        float(np.average(np.arange(a, b) + 0.5, weights=profile[a:b])) * PIXEL
        for a, b in zip(starts, ends, strict=True)
    ]


def test_the_square_measures_true_in_pixels(case: Case, shelf: Path) -> None:
    dark = pixels(rod(case), 3, shelf)
    ((left, low),) = squares(drawn(rod(case))[2], case.side, within=0.02)
    # Across it near its foot, and up near its left side, where nothing is written.
    row, column = round((low + 4) / PIXEL), round((left + 4) / PIXEL)
    first, last = round((left - 2) / PIXEL), round((left + case.side + 2) / PIXEL)
    across = middles(dark[row - 3 : row + 3, first:last].mean(axis=0))
    assert across[-1] - across[0] == pytest.approx(case.side, abs=CLOSE)
    first, last = round((low - 2) / PIXEL), round((low + case.side + 2) / PIXEL)
    up = middles(dark[first:last, column - 3 : column + 3].mean(axis=1))
    assert up[-1] - up[0] == pytest.approx(case.side, abs=CLOSE)


def test_rod_lines_stand_true_in_pixels(case: Case, shelf: Path) -> None:
    number = 2  # the second strip
    dark = pixels(rod(case), number + 1, shelf)
    page = drawn(rod(case))[number]
    (left, foot), (_, head) = min(page.plumb(at_least=230.0))
    columns = slice(round((left + 0.4) / PIXEL), round((left + 1.3) / PIXEL))
    rows = slice(round((foot + 1) / PIXEL), round((head - 1) / PIXEL))
    found = [y + rows.start * PIXEL for y in middles(dark[rows, columns].mean(axis=1))]
    bottom = case.lowest + (number - 1) * case.step
    low, high = bottom - case.beyond, bottom + case.step + case.beyond
    inside = {h for h in expected_heights(case.plan) if low + 1 < h < high - 1}
    wanted = sorted(inside | {bottom, bottom + case.step})
    assert len(found) == len(wanted) > 3
    # Between the two sub-datums of the strip, and from there to each line.
    heights = [y - found[wanted.index(bottom)] + bottom for y in found]
    assert heights == pytest.approx(wanted, abs=CLOSE)


def test_holes_are_round_and_true_in_pixels(case: Case, shelf: Path) -> None:
    pages = drawn(template(case))
    number, page = next((n, page) for n, page in enumerate(pages, start=1) if page.rounds)
    (hole,) = page.rounds
    dark = pixels(template(case), number, shelf)
    centre, diameter = circle_in(dark, hole)
    assert centre == pytest.approx(hole.centre, abs=CLOSE)
    (true,) = {
        d.diameter for p in pierced(case.plan) for d in p.holes if abs(d.diameter - diameter) < 1
    }
    assert diameter == pytest.approx(true, abs=CLOSE)


def circle_in(dark: NDArray[np.float64], about: Round) -> tuple[Point, float]:
    """Fit a circle to the dark pixels of a ring, its centre lines left out. [mm]."""
    rows, columns = np.nonzero(dark > 0.5)
    x, y = (columns + 0.5) * PIXEL, (rows + 0.5) * PIXEL
    dx, dy = x - about.centre[0], y - about.centre[1]
    ring = np.abs(np.hypot(dx, dy) - about.diameter / 2) < 1.0
    ring &= np.minimum(np.abs(dx), np.abs(dy)) > 1.5
    x, y = x[ring], y[ring]
    # x2 + y2 = 2 a x + 2 b y + c, a circle about (a, b), by least squares.
    system = np.column_stack([2 * x, 2 * y, np.ones_like(x)])
    (a, b, c), *_ = np.linalg.lstsq(system, x**2 + y**2, rcond=None)
    return (float(a), float(b)), 2 * float(np.sqrt(c + a**2 + b**2))
