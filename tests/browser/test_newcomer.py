"""Somebody with a phone and no file: from nothing to the papers and the hand-over, by taps."""

import re
from itertools import product

from playwright.sync_api import Locator, Page, Route, expect
from pypdf import PdfReader
from tests.browser.test_dragging import Finger, length, picture_of, text

WIDTHS = {"L": "32", "B": "60", "R": "32"}
MEASURE = re.compile(r"/measure(#wall-[A-Z])?$")


def tab(phone: Page, name: str) -> None:
    """Go to a page of the job."""
    phone.get_by_role("navigation").get_by_role("link", name=name, exact=True).tap()
    expect(phone.get_by_role("heading", level=1)).to_have_text(name)


def spot(phone: Page, wall: str, name: str) -> Locator:
    """A place to tap on a wall."""
    titled = phone.locator(f'title:text-is("{name}")')
    return phone.locator(f"#wall-{wall} a.spot").filter(has=titled)


def write(phone: Page, field: str, text: str) -> None:
    """Tap a field and write over what stands in it."""
    there = phone.get_by_label(field)
    there.tap()
    there.fill("")
    phone.keyboard.type(text)


def read_off(phone: Page, whole: str, part: str = "0") -> None:
    """Enter a reading on the pad, and save it."""
    phone.get_by_label("Whole inches").tap()
    pad = phone.get_by_role("group", name="Digits")
    for _ in phone.get_by_label("Whole inches").input_value():
        pad.get_by_role("button", name="take the last sign back").tap()
    for digit in whole:
        pad.get_by_role("button", name=digit, exact=True).tap()
    phone.get_by_role("radio", name=part, exact=True).tap()
    phone.get_by_role("button", name="Save", exact=True).first.tap()
    phone.wait_for_url(MEASURE)


def tape(phone: Page, wall: str, name: str, whole: str, part: str = "0") -> None:
    """Tap where the tape is held, and enter what it reads."""
    spot(phone, wall, name).tap()
    phone.wait_for_url(re.compile("/walls/"))
    if name.startswith("lean"):
        write(phone, "Over which height", "72")
    read_off(phone, whole, part)


def measure(phone: Page) -> None:
    """Measure three square walls; one width of the back one is misread by an inch."""
    tab(phone, "Measure")
    heights, sides = ("up high", "near the datum", "low down"), ("left", "right")
    for wall, height in product(WIDTHS, heights):
        slip = (wall, height) == ("B", "low down")
        tape(phone, wall, f"width {height}", "61" if slip else WIDTHS[wall])
    for wall, side in product(WIDTHS, sides):
        tape(phone, wall, f"down to the deck at the {side}", "30", "1/2")
        tape(phone, wall, f"up to the ceiling at the {side}", "49", "1/2")
    for side in sides:
        tape(phone, "B", f"lean of the {side} edge", "0")


OWN = "Panel of our own"


def own_module(phone: Page) -> None:
    """Enter a module that is like one that is there, but for its name and price."""
    phone.goto("/")
    phone.get_by_role("link", name="My materials").tap()
    phone.get_by_role("link", name="New material").tap()
    phone.get_by_role("link", name="keyed-24x12").tap()
    write(phone, "What is it called?", OWN)
    write(phone, "Price of a box", "199")
    phone.get_by_role("button", name="Save", exact=True).first.tap()
    expect(phone.get_by_role("heading", level=1)).to_contain_text(OWN)
    phone.get_by_role("link", name="My materials").tap()
    expect(phone.get_by_role("link", name=OWN)).to_be_visible()


def begin(phone: Page) -> None:
    """Make a job, and say what no tape reads."""
    phone.goto("/")
    phone.get_by_role("link", name="New job").tap()
    write(phone, "What is the job called?", "Hall bath")
    phone.get_by_label("What is it lined with?").select_option(label=OWN)
    phone.get_by_role("button", name="Make the job").tap()
    phone.wait_for_url(MEASURE)
    tab(phone, "About")
    write(phone, "Address", "a house that was made up")
    for key in ("tub", "lying", "half"):
        phone.get_by_role("radio", name=key, exact=True).tap()
    phone.get_by_role("button", name="Save", exact=True).tap()
    expect(phone.get_by_text("revision 2")).to_be_visible()
    expect(phone.get_by_role("radio", name="half", exact=True)).to_be_checked()


def mend(phone: Page) -> None:
    """Find the slip named, tap on it and put it right."""
    said = phone.locator("#said")
    expect(said.locator(".chip")).to_have_text("May be priced from, not cut")
    expect(said.locator(".suspects li")).to_have_count(1)
    expect(said.locator(".suspects li")).to_contain_text('reads 61", the others say 60"')
    back = phone.locator("#wall-B")
    back.get_by_text("Readings, to mend or take out").tap()
    back.locator("li.suspect a").tap()
    phone.wait_for_url(re.compile("/walls/B/"))
    expect(phone.get_by_label("Whole inches")).to_have_value("61")
    read_off(phone, "60")
    expect(said.locator(".chip")).to_have_text("May be cut from")
    expect(said.locator(".suspects")).to_have_count(0)


def landed(phone: Page, there: Locator) -> None:
    """Wait for what a form leads to; while it is held against the plan, send it again."""
    again = phone.get_by_role("button", name="Send it again")
    expect(again.or_(there)).to_be_visible()
    while again.is_visible():
        with phone.expect_navigation():
            again.tap()
        expect(again.or_(there)).to_be_visible()


def pick(phone: Page) -> str:
    """Pick a layout that is not the one proposed; return its price."""
    tab(phone, "Set out")
    other = phone.locator("article.option:not(.chosen)").first
    price = other.locator(".price").inner_text()
    name = other.get_attribute("id")
    other.get_by_role("button", name="Pick").tap()
    landed(phone, phone.locator(f"article#{name}.chosen"))
    chosen = phone.locator("article.chosen")
    expect(chosen.locator(".chip")).to_have_text("this is planned")
    expect(chosen.locator(".price")).to_have_text(price)
    expect(phone.locator(f"article#{name} button")).to_have_count(0)
    return price


def drag(phone: Page) -> str:
    """Drag the datum three inches to where there is room, and pin it; return what that costs."""
    before = length(phone, "first")
    hand = phone.locator("#by-hand")
    least, most = (float(hand.get_attribute(f"data-{end}") or 0) for end in ("least", "most"))
    way = 1 if most - before > before - least else -1
    finger = Finger(phone, picture_of(phone))
    finger.down()
    finger.move(up=3 * 25.4 * way)
    finger.lift()
    expect(phone.locator('#by-hand [name="exact.first"]')).not_to_have_value(f"{before} mm")
    # Lifted, the fewest modules are looked for.
    expect(text(phone, "modules")).to_have_text(re.compile(r"^\d+$"))
    assert (length(phone, "first") - before) * way > 12
    price = text(phone, "price").inner_text()
    phone.get_by_role("button", name="Pin this").tap()
    expect(phone.locator("article.chosen .price")).to_have_text(price)
    return price


def tick_the_gates(phone: Page) -> None:
    """Tick every line of the first two gates, and write down the lot of the modules."""
    tab(phone, "Ready")
    for gate in (0, 1):
        for box in phone.locator("fieldset.gate").nth(gate).get_by_role("checkbox").all():
            box.tap()
    phone.get_by_text("Lots of what came").tap()
    phone.locator("label.lot input").first.fill("L-77")
    phone.get_by_role("button", name="Save").tap()
    landed(phone, phone.locator("fieldset.gate.whole").nth(1))


def step(phone: Page, name: str) -> None:
    """Tick a step on a card."""
    phone.get_by_role("button", name=name).tap()
    landed(phone, phone.get_by_role("button", name=f"✓ {name}"))


def hang(phone: Page) -> None:
    """Tick that the piece hangs; the next card follows."""
    tag = phone.locator("h1.tag").inner_text()
    phone.get_by_role("button", name="Set", exact=True).tap()
    landed(phone, phone.locator("h1.tag", has_text=re.compile(f"^(?!{tag}$)")))


def figures(phone: Page, tag: str) -> list[str]:
    """The figures on the card of a piece, edge by edge."""
    tab(phone, "Cut and set")
    phone.locator("ol.pieces").get_by_role("link", name=tag).tap()
    expect(phone.locator("h1.tag")).to_have_text(tag)
    return phone.locator(".marks").first.locator("dd").all_inner_texts()


def surprise(phone: Page) -> None:
    """Say that the gap left beside the first piece reads 7 3/4 in."""
    tab(phone, "Cut and set")
    phone.get_by_role("link", name="Something is not as planned").tap()
    form = phone.locator("form", has=phone.get_by_label("The gap reads"))
    form.get_by_role("radio", name="L", exact=True).tap()
    form.get_by_label("Course").fill("1")
    form.get_by_role("radio", name="right", exact=True).tap()
    form.get_by_label("The gap reads").fill("7 3/4")
    form.get_by_role("button", name="Plan the rest again").tap()
    landed(phone, phone.locator("#told", has_text='L1-2: cut 7 5/8"'))


def to_keep(route: Route) -> None:
    """Give a paper to be kept: the browser's own reader would keep its bytes to itself."""
    answer = route.fetch()
    assert answer.headers["content-type"] == "application/pdf"
    route.fulfill(response=answer, headers={**answer.headers, "content-disposition": "attachment"})


def get_the_papers(phone: Page) -> None:
    """Keep the order as a workbook, and the packet."""
    tab(phone, "Order")
    with phone.expect_download() as workbook:
        phone.get_by_role("link", name="Order as workbook").tap()
    assert workbook.value.path().read_bytes().startswith(b"PK")
    tab(phone, "Cut and set")
    phone.route("**/packet.pdf", to_keep)
    with phone.expect_download() as packet:
        phone.get_by_role("link", name="Packet for the crew").tap()
    assert len(PdfReader(packet.value.path()).pages) > 1


def test_a_newcomer_goes_the_whole_way(phone: Page) -> None:
    own_module(phone)
    begin(phone)
    measure(phone)
    mend(phone)
    pick(phone)
    price = drag(phone)
    tab(phone, "Price")
    expect(phone.locator("p.figure")).to_have_text(price)
    tab(phone, "Order")
    assert phone.locator("table.lines tbody tr").count() > 0
    tick_the_gates(phone)
    assert figures(phone, "L1-1")
    for name in ("marked", "checked", "cut", "fits"):
        step(phone, name)
    hang(phone)
    # A wall of 32 in less a module of 24 leaves 8 in, and 1/8 in of it stays free at the corner.
    planned = figures(phone, "L1-2")
    assert planned[0] == '7 7/8"'
    surprise(phone)
    # The gap of 7 3/4 in, less the 1/8 in that stays free.
    assert figures(phone, "L1-2")[0] == '7 5/8"'
    tab(phone, "Cut and set")
    expect(phone.locator("ol.pieces li.set")).to_have_text(re.compile("L1-1"))
    get_the_papers(phone)
    phone.get_by_role("link", name="Next to set: L1-2").tap()
    expect(phone.locator("h1.tag")).to_have_text("L1-2")
    hang(phone)
    tab(phone, "Cut and set")
    left = phone.locator("ol.pieces li:not(.set)").count()
    tab(phone, "Hand over")
    expect(phone.locator("main .wrong")).to_contain_text(f"do not hang yet: {left}.")
    expect(phone.locator("#lots")).to_contain_text("L-77")
    expect(phone.locator("#days")).to_contain_text("L1-1")
    expect(phone.locator("#days")).to_contain_text("L1-2")
