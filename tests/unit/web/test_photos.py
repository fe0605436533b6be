"""Photos: hung where they belong, with words, opened large, and never lost."""

import pytest
from tests.unit.web.small_job import small
from tests.web_pages import HERE, Browser, Element, browser, filled, read_page

from gaugerod.store.book import photo_files

JPEG = b"\xff\xd8\xff\xe0 a wall, not a whole photo"
PNG = b"\x89PNG\r\n\x1a\n another"
HEIC = b"\x00\x00\x00\x18ftypheic one more"


def shoot(at: Browser, form: Element, content: bytes, *, status: int = 200, **fill: str) -> Element:
    """Send a photo as a telephone does."""
    answer = at.client.post(
        form.attributes["action"],
        data=filled(form, fill),
        files={"file": ("C:\\fake\\..\\..\\x.php", content, "text/html")},
        headers={"Origin": HERE},
    )
    assert answer.status_code == status, answer.text
    at.address = answer.url.path
    return read_page(answer.text)


def new(part: Element) -> Element:
    return part.one("section", class_="photos").one("form", class_="shoot")


def wall(page: Element) -> Element:
    return page.one("section", id="wall-B")


def images(part: Element) -> list[str]:
    return [one.attributes["src"] for one in part.all("img")]


def test_a_photo_of_a_wall_is_taken_shown_small_and_opened_large(at: Browser) -> None:
    job = small(at)
    at.post("/name", {"by": "Setter"})
    form = new(wall(at.open(f"/jobs/{job}/measure")))
    file = form.one("input", name="file").attributes
    assert (file["accept"], file["capture"]) == ("image/*", "environment")
    page = shoot(at, form, JPEG, note='Rot at the sill <b>"')
    assert at.address == f"/jobs/{job}/measure"
    (link,) = images(wall(page))
    assert [a.attributes["href"] for a in wall(page).all("a") if a.all("img")] == [link]
    words = wall(page).one("span", class_="words").text
    assert words.startswith('Rot at the sill <b>" Setter')
    large = at.client.get(link)
    assert large.content == JPEG
    # Neither the name nor the type that was sent along count.
    assert large.headers["content-type"] == "image/jpeg"
    assert large.headers["x-content-type-options"] == "nosniff"
    assert "default-src 'none'" in large.headers["content-security-policy"]


def test_a_photo_hangs_on_a_reading_whatever_it_reads_and_on_a_hole(at: Browser) -> None:
    job = small(at)
    entry = f"/jobs/{job}/walls/B/readings/0"
    page = shoot(at, new(at.open(entry)), JPEG, note="The tape")
    assert at.address == entry
    assert len(images(page)) == 1
    page = at.send(page.all("form")[0], {"reads": "60 1/16", "reads.whole": ""})
    assert len(images(at.open(entry))) == 1
    assert images(at.open(f"/jobs/{job}/walls/B/readings/1")) == []
    hole = f"/jobs/{job}/walls/B/hole/0"
    shoot(at, new(at.open(hole)), PNG)
    on_wall = wall(at.open(f"/jobs/{job}/measure"))
    assert [one.text for one in on_wall.all("b") if ": " in one.text] == [
        "B: at 6, kind width",
        "B: valve",
    ]
    assert not at.open(f"/jobs/{job}/walls/B/readings/new?kind=width").all(
        "section", class_="photos"
    )


def test_a_photo_hangs_on_what_was_found(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/found")
    assert not page.all("section", class_="so-far")
    form = next(f for f in page.all("form") if f.all("input", name="broken"))
    page = at.send(form, {"broken": "1"})
    so_far = page.one("section", class_="so-far")
    assert so_far.one("h3").text == "2026-03-05: modules broken: 1"
    page = shoot(at, new(so_far), JPEG, note="Corner off")
    assert len(images(page.one("section", class_="so-far"))) == 1


def test_photos_are_on_hand_over_and_go_along_with_the_job(
    at: Browser, tmp_path_factory: pytest.TempPathFactory
) -> None:
    job = small(at)
    shoot(at, new(wall(at.open(f"/jobs/{job}/measure"))), JPEG, note="Before")
    page = at.open(f"/jobs/{job}/hand-over").one("section", id="photos")
    assert [one.text for one in page.all("b")] == ["Wall B"]
    page = shoot(at, new(page), PNG, note="Done")
    assert len(images(page.one("section", id="photos"))) == 2
    content = at.client.get(f"/jobs/{job}/file").content
    there = browser(tmp_path_factory.mktemp("there"))
    with there.client:
        there.client.post("/import", files={"file": ("it.zip", content)}, headers={"Origin": HERE})
        taken = there.open(f"/jobs/{job}/hand-over").one("section", id="photos")
        assert len(images(taken)) == 2
        assert {"Before", "Done"} <= {one.note for one in there.desk.book.photos(job)}
    there.desk.book.close()


def test_words_are_changed_and_a_photo_is_taken_off(at: Browser) -> None:
    job = small(at)
    page = shoot(at, new(wall(at.open(f"/jobs/{job}/measure"))), JPEG, note="Rto")
    page = at.send(wall(page).one("form", class_="words"), {"note": "Rot"})
    assert [one.note for one in at.desk.book.photos(job)] == ["Rot"]
    late = filled(wall(page).one("form", class_="words"), {"note": "Late"})
    page = at.send(wall(page).one("form", class_="off"))
    assert images(page) == []
    at.post(f"/jobs/{job}/photos", late, status=422)
    assert at.desk.book.photos(job) == ()


def test_a_photo_that_is_sent_twice_hangs_once_and_none_is_lost_when_others_write(
    at: Browser,
) -> None:
    job = small(at)
    form = new(wall(at.open(f"/jobs/{job}/measure")))
    about = at.open(f"/jobs/{job}/about").one("form")
    at.send(about, {"site.address": "12 Alder Row"})
    shoot(at, form, JPEG)
    shoot(at, form, JPEG)
    assert len(at.desk.book.photos(job)) == 1
    assert at.desk.book.head("job", job).n == 2
    at.send(at.open(f"/jobs/{job}/about").one("form"), {"site.address": "14 Alder Row"})
    assert len(at.desk.book.photos(job)) == 1


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"<svg onload=alert(1)>", "This is no photo."),
        (b"", "This is no photo."),
        (JPEG, "more than"),
    ],
)
def test_what_is_no_photo_is_said_and_can_be_tried_again(
    at: Browser, monkeypatch: pytest.MonkeyPatch, content: bytes, said: str
) -> None:
    monkeypatch.setattr(photo_files, "MOST_BYTES", 22)
    job = small(at)
    form = new(wall(at.open(f"/jobs/{job}/measure")))
    page = shoot(at, form, content, status=422, note="Rot")
    assert said in page.one("p", class_="wrong").text
    again = page.one("form", class_="shoot")
    assert again.one("input", name="note").attributes["value"] == "Rot"
    back = page.one("a", class_="plain").attributes["href"]
    assert back == f"/jobs/{job}/measure#wall-B"
    shoot(at, again, JPEG[:20])
    assert len(at.desk.book.photos(job)) == 1


def test_a_photo_that_no_browser_shows_is_a_link(at: Browser) -> None:
    job = small(at)
    page = shoot(at, new(wall(at.open(f"/jobs/{job}/measure"))), HEIC)
    assert images(page) == []
    (link,) = (a for a in page.all("a") if a.all("span", class_="unseen"))
    assert at.client.get(link.attributes["href"]).headers["content-type"] == "image/heic"


def test_no_other_file_is_given_and_no_other_page_led_to(at: Browser) -> None:
    job = small(at)
    form = new(wall(at.open(f"/jobs/{job}/measure")))
    page = shoot(at, form, JPEG)
    (link,) = images(page)
    name = link.rpartition("/")[2]
    for photo in (
        "0" * 64,
        "..%2f..%2fbook.db",
        f"{name[:2]}%2f{name}",
        f"../photos/{name[:2]}/{name}",
    ):
        assert at.client.get(f"/jobs/{job}/photos/{photo}").status_code == 404
    assert at.client.get(f"/jobs/another/photos/{name}").status_code == 404
    values = filled(form, {})
    for back in ("https://example.org/", f"/jobs/{job}\\..", "//example.org", "/jobs/another/cut"):
        files = {"file": ("a.jpg", PNG, "image/jpeg")}
        answer = at.client.post(
            f"/jobs/{job}/photos",
            data=values | {"back": back},
            files=files,
            headers={"Origin": HERE},
            follow_redirects=False,
        )
        assert answer.headers["location"] == f"/jobs/{job}"
    at.post(f"/jobs/{job}/photos", values | {"subject": "roof"}, status=404)
    assert at.client.post(f"/jobs/{job}/photos", data=values).status_code == 403


def test_a_photo_that_changed_on_disk_is_not_shown(at: Browser) -> None:
    job = small(at)
    (link,) = images(shoot(at, new(wall(at.open(f"/jobs/{job}/measure"))), JPEG))
    at.desk.book.files.path(link.rpartition("/")[2]).write_bytes(PNG)
    assert "no longer what it was" in at.client.get(link).text
