"""A job that is planned in a moment: one wall, two courses of modules. Invented."""

from tests.web_pages import HERE, Browser

SOURCE = b"""
format = 1
name = "One wall"
scenario = "Invented."
unit = "in"
timezone = "America/Chicago"
survey = { surface = "backer" }
calendar = { start = 2026-04-13 }

[choices]
material = "keyed-24x12"
turn = "lying"
bond = "stack"
least_finish = 20
phase = { B = 0 }

[[wall]]
name = "B"
hole = [{ name = "valve", diameter = 3, plate = 6 }]
readings = [
  { kind = "width", at = 6, reads = "60" },
  { kind = "width", at = -6, reads = "60" },
  { kind = "deck", at = 1, reads = "12" },
  { kind = "deck", at = 59, reads = "12" },
  { kind = "floor", at = 30, reads = "14" },
  { kind = "ceiling", at = 1, reads = "60" },
  { kind = "ceiling", at = 59, reads = "60" },
  { kind = "hole", of = "valve", from = "left", reads = "20" },
  { kind = "hole", of = "valve", from = "datum", reads = "-5" },
]
"""


def small(at: Browser) -> str:
    """Take the small job in; return its id."""
    files = {"file": ("one-wall.toml", SOURCE, "application/toml")}
    answer = at.client.post("/import", files=files, data={"key": "small"}, headers={"Origin": HERE})
    assert answer.status_code == 200, answer.text
    (heading,) = at.desk.book.contents("job")
    return heading.id
