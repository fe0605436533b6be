"""The papers as they come out of the printer: read back with another library."""

import re
from functools import cache
from io import BytesIO
from typing import cast

import pypdfium2 as pdfium
import pytest
from pypdf import PageObject, PdfReader
from pypdf.generic import DictionaryObject
from tests.fixtures_plan import INCHES, MILLIMETRES, keyed_plan, tiled_plan, words_in

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.base.messages import Money
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Drawing, Layer, Text
from gaugerod.core.sheet.lettering import text_width
from gaugerod.core.survey.closures import closures
from gaugerod.packet.blank import blank_paper
from gaugerod.packet.crew import crew_packet
from gaugerod.packet.customer import customer_paper
from gaugerod.packet.paper import (
    Block,
    Checklist,
    Columns,
    Form,
    Heading,
    PageBreak,
    Paper,
    Paragraph,
    Picture,
    Table,
)
from gaugerod.packet.survey import survey_paper
from gaugerod.writers.pdf import pdf, typeset
from gaugerod.writers.svg import svg

MM = 72 / 25.4


def paper(*blocks: Block, size: str = "us-letter") -> Paper:
    return Paper(
        title="Test",
        job="Test job",
        revision="Revision 7",
        page="Page",
        of="of",
        size="a4" if size == "a4" else "us-letter",
        sections=blocks,
    )


@cache
def pages(document: bytes) -> tuple[str, ...]:
    return tuple(page.extract_text() for page in PdfReader(BytesIO(document)).pages)


def fonts_of(page: PageObject) -> list[DictionaryObject]:
    """Every font that a page uses."""
    resources = cast("DictionaryObject", page["/Resources"])
    fonts = cast("DictionaryObject", resources["/Font"])
    return [cast("DictionaryObject", font.get_object()) for font in fonts.values()]


@pytest.fixture(scope="module", params=["keyed", "tiled"])
def job(request: pytest.FixtureRequest) -> tuple[Plan, Catalogue]:
    if request.param == "keyed":
        return keyed_plan(), words_in(INCHES)
    return tiled_plan(), words_in(MILLIMETRES)


@pytest.fixture(scope="module")
def crew(job: tuple[Plan, Catalogue]) -> bytes:
    return pdf(crew_packet(*job), draw=svg)


def test_the_packet_is_at_most_eight_sheets_and_two_megabytes(crew: bytes) -> None:
    # Printed on both sides.
    assert len(PdfReader(BytesIO(crew)).pages) <= 16
    assert len(crew) < 2_000_000


def test_every_page_has_job_revision_and_number(crew: bytes, job: tuple[Plan, Catalogue]) -> None:
    texts = pages(crew)
    for number, text in enumerate(texts, 1):
        assert job[0].job.name in text
        assert "Revision 1" in text
        assert f"Page {number} of {len(texts)}" in text


def test_every_cut_piece_is_on_paper_by_its_tag(crew: bytes, job: tuple[Plan, Catalogue]) -> None:
    text = " ".join(pages(crew))
    assert [piece.tag for piece in job[0].pieces if not piece.whole and piece.tag not in text] == []


def test_the_packet_shows_no_money(crew: bytes) -> None:
    text = " ".join(pages(crew)).lower()
    for sign in ("$", "£", "€"):
        assert sign not in text
    for word in ("price", "cost", "mark-up", "margin", "wage"):
        assert not re.search(rf"\b{word}s?\b", text)


def test_the_customer_sees_the_price_and_nothing_behind_it(job: tuple[Plan, Catalogue]) -> None:
    text = " ".join(pages(pdf(customer_paper(*job), draw=svg)))
    plan, words = job
    assert words.show(Money(plan.price.price)) in text
    behind = {line.cost for line in plan.price.lines} | {plan.price.cost, plan.rates.labour or 0}
    assert not [cents for cents in behind if words.show(Money(cents)) in text]
    for word in ("cost", "hour", "mark-up", "margin", "labour", "contingency"):
        assert not re.search(rf"\b{word}s?\b", text.lower())


def test_the_same_paper_gives_the_same_bytes(job: tuple[Plan, Catalogue]) -> None:
    made = customer_paper(*job)
    assert pdf(made, draw=svg) == pdf(made, draw=svg)


def test_nothing_is_missing_when_it_is_set(job: tuple[Plan, Catalogue]) -> None:
    for made in (crew_packet(*job), customer_paper(*job)):
        assert typeset(made, draw=svg)[1] == ()


def test_only_the_fonts_that_come_along_are_used(crew: bytes) -> None:
    fonts = {
        str(font["/BaseFont"]).split("+")[1].removesuffix("-Identity-H")
        for page in PdfReader(BytesIO(crew)).pages
        for font in fonts_of(page)
    }
    assert fonts == {"Inter-Regular", "Inter-Bold"}


@pytest.mark.parametrize(
    ("size", "wide", "high"), [("us-letter", 215.9, 279.4), ("a4", 210.0, 297.0)]
)
def test_sheets_have_the_size_asked_for(size: str, wide: float, high: float) -> None:
    (page,) = PdfReader(BytesIO(pdf(paper(size=size), draw=svg))).pages
    assert float(page.mediabox.width) == pytest.approx(wide * MM, abs=0.1)
    assert float(page.mediabox.height) == pytest.approx(high * MM, abs=0.1)


def test_every_block_finds_its_way_to_paper() -> None:
    blocks = (
        Heading(text="First", level=1),
        Paragraph(text="Plain words", style="plain"),
        Paragraph(text="Strong words", style="strong"),
        Paragraph(text="Small words", style="small"),
        Paragraph(text="Boxed words", style="boxed"),
        Table(header=("Head",), rows=(("Cell",),), widths=(1,), boxed=(0,)),
        Columns(blocks=(Heading(text="Second", level=2), Checklist(title="Gate", items=("Tick",)))),
        PageBreak(),
        Form(fields=(("Sign", 2),)),
    )
    first, second = pages(pdf(paper(*blocks), draw=svg))
    for said in ("First", "Plain", "Strong", "Small", "Boxed", "Head", "Cell", "Second", "Tick"):
        assert said in first
    assert "Sign" in second


def test_what_a_user_writes_is_never_a_command() -> None:
    nasty = '#panic("no") *b* _i_ $x$ [y] @z <w> // // \\ `c`'
    (text,) = pages(pdf(paper(Paragraph(text=nasty, style="plain")), draw=svg))
    assert nasty in text


def test_a_long_table_repeats_its_header() -> None:
    table = Table(header=("Reading",), rows=(("x",),) * 120, widths=(1,))
    texts = pages(pdf(paper(table), draw=svg))
    assert len(texts) > 1
    assert all("Reading" in text for text in texts)


def test_a_picture_fills_the_room_and_stays_vector() -> None:
    """200 by 100 mm of wall on a line of 182 mm or more: its text keeps its share of that."""
    label = Text(layer="tag", at=(100.0, 50.0), text="B1-1", height=20.0, anchor="middle", turn=0)
    drawing = Drawing(
        name="d",
        title="d",
        bounds=Box(left=0.0, bottom=0.0, right=200.0, top=100.0),
        items=(label,),
    )
    document = pdf(paper(Picture(drawing=drawing, height=80.0)), draw=svg)
    assert "B1-1" in pages(document)[0]
    assert list(PdfReader(BytesIO(document)).pages[0].images) == []


def read(document: bytes) -> str:
    """The text of a one-page paper as one line."""
    return " ".join(pdfium.PdfDocument(document)[0].get_textpage().get_text_range().split())


def set_in(block: Block) -> tuple[str, dict[str, list[Box]]]:
    """What a paper of one block says, and where each of its letters stands."""
    document = pdf(paper(block), draw=svg)
    stood: dict[str, list[Box]] = {}
    for character, box in boxes(pdfium.PdfDocument(document)[0]):
        if 14.0 < box.bottom < 262.0:  # neither header nor footer
            stood.setdefault(character, []).append(box)
    return read(document), stood


def lettered(said: str) -> Picture:
    label = Text(layer="tag", at=(50.0, 50.0), text=said, height=4.0, anchor="middle", turn=0)
    bounds = Box(left=0.0, bottom=0.0, right=100.0, top=100.0)
    drawing = Drawing(name="d", title="d", bounds=bounds, items=(label,))
    return Picture(drawing=drawing, height=100.0)


@pytest.mark.parametrize(
    "block",
    [
        Paragraph(text='Saw 23 57/64" off', style="plain"),
        Paragraph(text='Saw 23 57/64" off', style="boxed"),
        Table(header=(), rows=(('Saw 23 57/64" off',),), widths=(1,), size="large"),
        Checklist(title="Gate", items=('Saw 23 57/64" off',)),
        lettered('Saw 23 57/64" off'),
    ],
)
def test_a_fraction_is_raised_and_lowered_and_stands_apart_from_its_whole(block: Block) -> None:
    said, stood = set_in(block)
    # Whoever reads it, by eye or by ear, meets a space and then the slash of fractions.
    assert 'Saw 23 57⁄64" off' in said
    (saw,), (two,), (five,), (seven,), (six,), (four,) = (stood[one] for one in "S25764")
    line, top = two.bottom, two.top
    capitals = top - line
    for over in (five, seven):
        assert over.top > top
        assert over.bottom > line + 0.4 * capitals
        assert over.top - over.bottom == pytest.approx(0.69 * capitals, abs=0.04 * capitals)
    for under in (six, four):
        assert under.bottom < line
        assert under.top < top - 0.4 * capitals
        assert under.top - under.bottom == pytest.approx(0.69 * capitals, abs=0.04 * capitals)
    assert saw.bottom == pytest.approx(line, abs=0.04 * capitals)
    # The space is a real one: as wide as between words.
    assert five.left - max(box.right for box in stood["3"]) > 0.3 * capitals


@pytest.mark.parametrize("said", ["1/2/2026", "screws 1 5/8, 185", "60 x 36 x 1/2", "and/or 3/16"])
def test_what_is_no_length_is_set_as_it_is_typed(said: str) -> None:
    for block in (Paragraph(text=said, style="plain"), lettered(said)):
        assert said in set_in(block)[0]


def test_lines_with_fractions_stand_no_further_apart() -> None:
    lines = " ".join(["mmmm"] * 60)
    plain, mixed = (
        set_in(Paragraph(text=f"{lines} {sign} {lines} Z", style="plain"))[1]["Z"][0].bottom
        for sign in ("27", '7/8"')
    )
    assert mixed == pytest.approx(plain, abs=1e-3)


SAMPLES = (
    '59 13/16"',
    '27/32"',
    "WMWM-88",
    "shower arm",
    "B12-10*",
    "12  ↑ 1234 mm",
    "8888",
    "datum",
    "↕ 2155",
    "↑ 8 × 3",
    "A B: ↓ 29",
    "lean, bow and fall × 10",
)


def boxes(page: pdfium.PdfPage) -> list[tuple[str, Box]]:
    """Every character on a page with the box it takes. [mm]."""
    found = page.get_textpage()
    listed = []
    for number in range(found.count_chars()):
        left, bottom, right, top = (edge / MM for edge in found.get_charbox(number))
        character = found.get_text_range(number, 1)
        listed.append((character, Box(left=left, bottom=bottom, right=right, top=top)))
    return [(character, box) for character, box in listed if character.strip()]


@pytest.mark.parametrize("layer", ["tag", "dimension"])
@pytest.mark.parametrize("sample", SAMPLES)
def test_letters_stay_within_the_room_kept_for_them(sample: str, layer: Layer) -> None:
    """Tags are bold, dimensions regular. Room wasted is room that a narrow piece lacks."""
    label = Text(layer=layer, at=(5.0, 5.0), text=sample, height=4.0, anchor="start", turn=0)
    bounds = Box(left=0.0, bottom=0.0, right=100.0, top=100.0)
    drawing = Drawing(name="d", title="d", bounds=bounds, items=(label,))
    document = pdf(paper(Picture(drawing=drawing, height=100.0)), draw=svg)
    drawn = boxes(pdfium.PdfDocument(document)[0])
    own = [box for _, box in drawn if 20.0 < box.bottom < 250.0]  # neither header nor footer
    wide = max(box.right for box in own) - min(box.left for box in own)
    # All within, and no more than half as much again kept free.
    assert wide < text_width(sample, height=4.0) < 1.5 * wide


def survey_of(plan: Plan, words: Catalogue) -> Paper:
    return survey_paper(plan.job, closures(plan.job), plan.walls, (), words)


def test_nothing_is_set_off_the_sheet(job: tuple[Plan, Catalogue]) -> None:
    for made in (crew_packet(*job), customer_paper(*job), survey_of(*job), blank_paper(job[1])):
        for page in pdfium.PdfDocument(pdf(made, draw=svg)):
            wide, high = (side / MM for side in page.get_size())
            for character, box in boxes(page):
                assert box.left > 10.0, character
                assert box.right < wide - 10.0, character
                assert 5.0 < box.bottom < box.top < high - 5.0, character


def test_a_wall_and_its_notes_share_one_page(job: tuple[Plan, Catalogue]) -> None:
    texts = pages(pdf(survey_of(*job), draw=svg))
    assert len(texts) == 1 + len(job[0].walls.walls)
    assert all("lean, bow and fall ×" in text and "Readings stand" in text for text in texts[1:])


def test_black_alone_has_no_colour() -> None:
    """The rule under the head is chalk blue, 1d5fa0, where colours are allowed."""
    chalk = "0.11372549 0.37254903 0.627451"

    def painted(*, black: bool) -> str:
        document = pdf(paper(Heading(text="Head", level=1)), draw=svg, black=black)
        contents = PdfReader(BytesIO(document)).pages[0].get_contents()
        assert contents is not None
        return contents.get_data().decode("latin-1")

    assert chalk in painted(black=False)
    assert chalk not in painted(black=True)
