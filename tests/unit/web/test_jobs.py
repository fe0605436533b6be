from tests.web_pages import HERE, Browser, Element

WALLS = "L B R"


def begun(at: Browser, name: str = "Hall bath") -> str:
    """Begin a job by its form; return its id."""
    page = at.open("/new")
    at.send(page.one("form"), {"name": name})
    (heading,) = (h for h in at.desk.book.contents("job") if h.title == name)
    return heading.id


def titles(page: Element) -> list[str]:
    return [row.one("b").text for row in page.one("ul", class_="rows").all("li")]


def test_an_empty_book_says_so(at: Browser) -> None:
    page = at.open("/")
    assert "No job yet." in page.text
    assert page.all("ul", class_="rows") == []


def test_a_job_is_begun_by_its_form(at: Browser) -> None:
    at.post("/name", {"by": "Ünal"})
    job = begun(at)
    made = at.desk.book.head("job", job)
    assert made.document["name"] == "Hall bath"
    assert made.document["unit"] == "in"
    assert [wall["name"] for wall in made.document["wall"]] == ["L", "B", "R"]
    assert (made.n, made.by) == (1, "Ünal")
    assert titles(at.open("/")) == ["Hall bath"]


def test_a_form_that_is_sent_twice_makes_one_job(at: Browser) -> None:
    form = at.open("/new").one("form")
    at.send(form, {"name": "Hall bath"})
    at.send(form, {"name": "Hall bath"})
    assert len(at.desk.book.contents("job")) == 1


def test_what_is_wrong_stands_beside_its_field_and_nothing_is_lost(at: Browser) -> None:
    form = at.open("/new").one("form")
    page = at.send(form, {"name": "Hall bath", "walls": "L L"}, status=422)
    field = page.one("input", name="walls")
    assert field.attributes["value"] == "L L"
    wrong = page.one("p", class_="wrong")
    assert wrong.attributes["id"] == field.attributes["aria-describedby"]
    assert wrong.text.startswith("Name each wall once")
    assert page.one("input", name="name").attributes["value"] == "Hall bath"
    assert at.desk.book.contents("job") == ()


def test_a_material_nobody_has_is_refused(at: Browser) -> None:
    form = at.open("/new").one("form")
    page = at.send(form, {"name": "Hall bath", "material": "gold"}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-material"
    page = at.send(form, {"name": " "}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-name"


def test_what_a_person_wrote_is_shown_and_not_run(at: Browser) -> None:
    begun(at, "<script>alert(1)</script>")
    page = at.open("/")
    assert page.all("script") == []
    assert titles(page) == ["<script>alert(1)</script>"]


def test_history_goes_back_and_forward(at: Browser) -> None:
    job = begun(at)
    first = at.desk.book.head("job", job)
    form = {"seen": "1", "key": "k1", "to": "1"}
    page = at.post(f"/jobs/{job}/undo", form)
    assert [row.one("b").text for row in page.one("ol").all("li")] == ["revision 2", "revision 1"]
    second = at.desk.book.head("job", job)
    assert (second.n, second.restores) == (2, 1)
    assert second.document == first.document
    back = page.one("form", action=f"/jobs/{job}/undo")
    at.send(back, press=back.one("button"))
    assert at.desk.book.head("job", job).n == 3


def test_two_who_write_at_once_see_both_versions(at: Browser) -> None:
    job = begun(at)
    page = at.post(f"/jobs/{job}/undo", {"seen": "1", "key": "k1", "to": "1"})
    stale = {"seen": "1", "key": "k2", "to": "1"}
    page = at.post(f"/jobs/{job}/undo", stale, status=409)
    assert "Revision 2 was written" in page.one("p", class_="wrong").text
    assert at.desk.book.head("job", job).n == 2
    again = page.one("form")
    assert again.one("input", name="seen").attributes["value"] == "1"
    assert again.one("input", name="onto").attributes["value"] == "2"
    at.send(again)
    assert at.desk.book.head("job", job).n == 3


def test_a_job_goes_out_as_one_file_and_comes_in_again(at: Browser) -> None:
    job = begun(at)
    answer = at.client.get(f"/jobs/{job}/file")
    assert answer.headers["content-disposition"] == f'attachment; filename="{job}.zip"'
    sent = at.client.post(
        "/import",
        data={"key": "k", "seen": "0"},
        files={"file": ("x.zip", answer.content)},
        headers={"Origin": HERE},
    )
    assert sent.status_code == 200
    assert at.desk.book.head("job", job).n == 1
    broken = at.client.post(
        "/import",
        data={"key": "k", "seen": "0"},
        files={"file": ("x.zip", answer.content[:-40])},
        headers={"Origin": HERE},
    )
    assert broken.status_code == 422


def test_a_job_file_and_an_invented_job_are_taken_in(at: Browser) -> None:
    page = at.open("/")
    (form, *_) = [f for f in page.all("form", action="/import") if f.all("button", name="demo")]
    at.send(form, press=form.one("button"))
    (demo,) = at.desk.book.contents("job")
    assert "1962" in demo.title or demo.title
    source = b'name = "Small job"\nunit = "mm"\n'
    at.client.post(
        "/import",
        data={"key": "k9", "seen": "0"},
        files={"file": ("mine.toml", source)},
        headers={"Origin": HERE},
    )
    assert at.desk.book.head("job", "small-job-k9").document == {"name": "Small job", "unit": "mm"}


def test_without_a_file_one_line_says_so(at: Browser) -> None:
    page = at.post("/import", {"key": "k", "seen": "0"}, status=422)
    assert page.one("p", class_="wrong").text.startswith("No file was chosen")
    page = at.post("/import", {"key": "k", "seen": "0", "demo": "none"}, status=422)
    assert page.one("p", class_="wrong").text.startswith("There is no such job")


def test_a_job_or_a_page_nobody_knows_is_not_found(at: Browser) -> None:
    page = at.open("/jobs/none/history", status=404)
    assert "no such document" in page.one("p", class_="wrong").text
    page = at.open("/nowhere", status=404)
    assert page.one("p", class_="wrong").text == "There is no such page."
    job = begun(at)
    at.post(f"/jobs/{job}/undo", {"seen": "x", "key": "k", "to": "1"}, status=422)
    at.post(f"/jobs/{job}/undo", {"seen": "1", "key": "k", "to": "x"}, status=422)
