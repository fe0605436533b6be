"""A finger drags the joints of a wall and the datum: figures follow, the page does not scroll."""

import re

from playwright.sync_api import Locator, Page, Route, expect

MOVES = 12
LONG = 30_000
"""A machine that does much else may take so long over an answer. [ms]"""


class Finger:
    """One finger on a picture, by touches as a phone's own."""

    def __init__(self, page: Page, picture: Locator) -> None:
        self.session = page.context.new_cdp_session(page)
        box = picture.bounding_box()
        assert box is not None
        self.x, self.y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        self.scale: float = picture.evaluate("svg => svg.getScreenCTM().a")

    def _touch(self, kind: str) -> None:
        points = [] if kind == "touchEnd" else [{"x": self.x, "y": self.y}]
        self.session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    def down(self) -> None:
        self._touch("touchStart")

    def move(self, *, right: float = 0.0, up: float = 0.0) -> None:
        """Move over the wall, in steps. [mm]."""
        for _ in range(MOVES):
            self.x += right * self.scale / MOVES
            self.y -= up * self.scale / MOVES
            self._touch("touchMove")

    def lift(self) -> None:
        self._touch("touchEnd")


def set_out(page: Page) -> None:
    """Take an invented job in and open where it is set out."""
    page.set_default_timeout(LONG)
    page.goto("/")
    page.locator("button[name=demo]").first.click()
    page.wait_for_url(re.compile("/jobs/"))
    page.get_by_role("link", name="Set out").click()
    expect(page.locator("#by-hand figure:visible")).to_have_count(1, timeout=LONG)


def picture_of(page: Page) -> Locator:
    found = page.locator("#by-hand figure:visible svg")
    found.scroll_into_view_if_needed()
    return found


def text(page: Page, name: str) -> Locator:
    return page.locator(f'#by-hand [data-text="{name}"]')


def length(page: Page, name: str) -> float:
    """What the form would send. [mm]."""
    field = page.locator(f'#by-hand [name="exact.{name}"]')
    return float(field.input_value().removesuffix(" mm"))


def test_joints_follow_a_finger_and_are_pinned_where_it_lifts(phone: Page) -> None:
    set_out(phone)
    picture = picture_of(phone)
    moving, still = (
        phone.locator(f'[data-wall="B"] [data-{name}]') for name in ("moving", "still")
    )
    ends, before = text(phone, "ends.B").inner_text(), length(phone, "phase.B")
    pieces = phone.locator('[data-path="B.cut"]').get_attribute("d")
    scrolled = phone.evaluate("scrollY")
    finger = Finger(phone, picture)
    finger.down()
    finger.move(right=183.5)
    # While the finger is down the figures follow already, and the page stays where it is.
    expect(text(phone, "ends.B")).not_to_have_text(ends, timeout=LONG)
    assert phone.evaluate("scrollY") == scrolled
    finger.lift()
    expect(moving).to_be_hidden(timeout=LONG)
    expect(still).to_be_visible(timeout=LONG)
    # Once it is lifted the picture is the exact one, and the fewest modules are looked for.
    expect(text(phone, "modules")).to_have_text(re.compile(r"^\d+$"), timeout=LONG)
    assert phone.locator('[data-path="B.cut"]').get_attribute("d") != pieces
    off = (length(phone, "phase.B") - before) % 609.6
    assert abs(off - 183.5) < 12 / finger.scale
    price = text(phone, "price").inner_text()
    phone.get_by_role("button", name="Pin this").click()
    expect(phone.locator("article.chosen .price")).to_have_text(price, timeout=LONG)
    expect(phone.locator("header")).to_contain_text("revision 2")


def only_at_once(route: Route) -> None:
    """Answer a moving finger as a server that is busy with others does."""
    if re.search("whole|proven", route.request.url):
        route.continue_()
        return
    full = route.fetch()
    answer = full.json()
    known = {name: answer[name] for name in ("first", "line", "phases", "broken", "may")}
    texts = {
        name: said
        for name, said in answer["texts"].items()
        if name == "first" or name.startswith(("ends.", "phase."))
    }
    route.fulfill(response=full, json={**known, "texts": texts, "whole": False})


def test_figures_that_are_behind_are_marked_until_they_come(phone: Page) -> None:
    set_out(phone)
    asked = re.compile("/set-out/try.*whole")
    phone.route(re.compile("/set-out/try"), only_at_once)
    phone.route(asked, lambda _: None)  # it waits for its turn
    pin = phone.get_by_role("button", name="Pin this")
    ends, pieces = (
        text(phone, "ends.B").inner_text(),
        phone.locator('[data-path="B.cut"]').get_attribute("d"),
    )
    finger = Finger(phone, picture_of(phone))
    finger.down()
    finger.move(right=183.5)
    expect(text(phone, "price")).to_have_attribute("data-behind", "", timeout=LONG)
    expect(text(phone, "ends.B")).not_to_have_text(ends, timeout=LONG)
    expect(pin).to_be_disabled()
    sign = "one => getComputedStyle(one, '::after').content"
    assert "…" in text(phone, "price").evaluate(sign)
    assert text(phone, "first").get_attribute("data-behind") is None
    assert phone.locator('[data-path="B.cut"]').get_attribute("d") == pieces
    # All figures are asked for where the finger rests, and what waits there is given up as it
    # moves on: the end pieces follow it all the same.
    with phone.expect_request(asked, timeout=LONG):
        finger.move(right=1)
    ends = text(phone, "ends.B").inner_text()
    finger.move(right=50)
    expect(text(phone, "ends.B")).not_to_have_text(ends, timeout=LONG)
    phone.unroute(asked)
    finger.lift()
    expect(text(phone, "price")).not_to_have_attribute("data-behind", "", timeout=LONG)
    expect(phone.locator('[data-wall="B"] [data-still]')).to_be_visible(timeout=LONG)
    assert phone.locator('[data-path="B.cut"]').get_attribute("d") != pieces
    expect(pin).to_be_enabled(timeout=LONG)


def test_the_datum_follows_a_finger_on_every_wall(phone: Page) -> None:
    set_out(phone)
    before, phase = length(phone, "first"), length(phone, "phase.B")
    finger = Finger(phone, picture_of(phone))
    finger.down()
    finger.move(up=-40)
    finger.lift()
    expect(text(phone, "modules")).to_have_text(re.compile(r"^\d+$"), timeout=LONG)
    assert abs(before - 40 - length(phone, "first")) < 12 / finger.scale
    assert length(phone, "phase.B") == phase
    lines = phone.locator("#by-hand [data-line]")
    assert len(set(lines.evaluate_all("all => all.map(one => one.getAttribute('transform'))"))) == 1


def test_a_finger_beyond_the_range_stays_within_it(phone: Page) -> None:
    set_out(phone)
    finger = Finger(phone, picture_of(phone))
    finger.down()
    finger.move(up=400)
    finger.lift()
    most = float(phone.locator("#by-hand").get_attribute("data-most") or "nan")
    expect(text(phone, "first")).to_have_text('11 1/2"', timeout=LONG)
    assert abs(length(phone, "first") - most) < 0.001


def test_arrow_keys_move_by_a_sixteenth(phone: Page) -> None:
    set_out(phone)
    picture = picture_of(phone)
    picture.focus()
    for key, name, way in (("ArrowRight", "phase.B", 1), ("ArrowDown", "first", -1)):
        steps = []
        for _ in range(2):
            before = length(phone, name)
            with phone.expect_response(re.compile("/set-out/try")):
                picture.press(key)
            expect(phone.locator(f'[name="exact.{name}"]')).not_to_have_value(
                f"{before} mm", timeout=LONG
            )
            steps.append(length(phone, name))
        # From between two steps the first leads to the next one; from then on they are whole.
        assert abs((steps[1] - steps[0]) * way - 25.4 / 16) < 1e-5


def test_a_place_worth_a_stop_is_tapped(phone: Page) -> None:
    set_out(phone)
    phone.locator("#by-hand summary").click()
    phone.locator('#by-hand [data-marks="first"] a').last.tap()
    expect(text(phone, "first")).to_have_text('11 1/2"', timeout=LONG)
