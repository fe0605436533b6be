"""What a browser must not be able to do from another page.

The attack by a name that points elsewhere later, and its cure (look at Host): W3C and OWASP call it
DNS rebinding. Origin of a form: the Fetch standard, sec-fetch-site: W3C Fetch Metadata.
"""

import pytest
from tests.web_pages import HERE, Browser


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("127.0.0.1:8000", 200),
        ("localhost", 200),
        ("[::1]:8000", 200),
        ("[::1]", 200),
        ("evil.example:8000", 421),
        ("127.0.0.1.evil.example", 421),
        ("", 421),
    ],
)
def test_only_this_computer_is_answered(at: Browser, host: str, status: int) -> None:
    assert at.client.get("/", headers={"Host": host}).status_code == status


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Origin": HERE}, 303),
        ({"Origin": HERE, "Sec-Fetch-Site": "same-origin"}, 303),
        ({"Sec-Fetch-Site": "same-origin"}, 303),
        ({}, 403),
        ({"Origin": "null"}, 403),
        ({"Origin": "http://evil.example"}, 403),
        ({"Origin": "http://127.0.0.1:9000"}, 403),
        ({"Origin": HERE, "Sec-Fetch-Site": "cross-site"}, 403),
        ({"Sec-Fetch-Site": "same-site"}, 403),
    ],
)
def test_only_a_form_of_these_pages_changes_anything(
    at: Browser, headers: dict[str, str], status: int
) -> None:
    answer = at.client.post("/name", data={"by": "X"}, headers=headers, follow_redirects=False)
    assert answer.status_code == status


def test_too_much_at_once_is_refused_before_it_is_read(at: Browser) -> None:
    headers = {"Origin": HERE, "Content-Length": "64000001"}
    assert at.client.post("/name", data={"by": "X"}, headers=headers).status_code == 413


@pytest.mark.parametrize("address", ["/", "/new", "/static/style.css", "/nowhere"])
def test_every_answer_forbids_scripts_of_others(at: Browser, address: str) -> None:
    headers = at.client.get(address).headers
    policy = dict(part.split(" ", 1) for part in headers["content-security-policy"].split("; "))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == "'self'"
    assert policy["frame-ancestors"] == "'none'"
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cache-control"]


@pytest.mark.parametrize("address", ["/", "/new"])
def test_a_page_has_no_script_and_no_style_of_its_own(at: Browser, address: str) -> None:
    page = at.open(address)
    assert page.all("script") + page.all("style") == []
    assert [name for one in page.walk() for name in one.attributes if name.startswith("on")] == []
    assert [one for one in page.walk() if "style" in one.attributes] == []
