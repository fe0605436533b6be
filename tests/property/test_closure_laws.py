"""Laws of the closures: what agrees closes, whatever the datum, in a mirror, and by chance."""

from collections.abc import Callable, Iterable
from itertools import pairwise
from math import isfinite, sqrt
from typing import Any, TypeAlias

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.property.alcoves import (
    HIGH,
    LOW,
    Alcove,
    TrueHole,
    TrueOpening,
    TrueWall,
    alcoves,
    job_of,
    lengths,
)

from gaugerod.core.base.geometry import Box
from gaugerod.core.base.lengths import FINE_METRIC
from gaugerod.core.job.document import Job
from gaugerod.core.job.sample import sample_system
from gaugerod.core.survey.closures import Closure, closures
from gaugerod.core.survey.naming import named
from gaugerod.core.survey.sigmas import sigma_of
from gaugerod.store.shelf import Library

Raw: TypeAlias = dict[str, Any]

SIGMAS_OFF = 5.0
"""How far, in its own sigmas, a mean of squares may be off: chance once in a million."""


# --- readings of a true alcove -----------------------------------------------------------------


def survey(alcove: Alcove) -> Raw:
    """Readings that agree: those of `job_of`, and of each kind that it leaves out one more."""
    raw: Raw = dict(job_of(alcove))
    for place, wall in enumerate(alcove.walls):
        of_wall = raw["wall"][place]
        middle = wall.width / 2
        deck = sum(alcove.decks[place : place + 2]) / 2
        ceiling = sum(alcove.ceilings[place : place + 2]) / 2
        of_wall["fixture"] = [{"name": "dish", "kind": "dish", "size": [150, 100]}]
        of_wall["readings"] += [
            {"kind": "height", "at": middle, "reads": ceiling - deck},
            {"kind": "width", "at": LOW, "reads": wall.right_at(LOW) - wall.left_at(LOW)},
            single_diagonal(wall),
            *dish(wall, x=middle, y=-200.0),
            *(r for o in wall.openings for r in more_of_opening(wall, o)),
        ]
    return raw


def single_diagonal(wall: TrueWall) -> Raw:
    across = wall.right_at(0.0) - wall.left_at(HIGH)
    return {
        "kind": "corner to corner",
        "left_at": HIGH,
        "right_at": 0.0,
        "reads": (across**2 + HIGH**2) ** 0.5,
    }


def dish(wall: TrueWall, *, x: float, y: float) -> list[Raw]:
    places = {"left": x - wall.left_at(y), "right": wall.right_at(y) - x, "datum": y}
    return [
        {"kind": "fixture", "of": "dish", "from": start, "reads": reads}
        for start, reads in places.items()
    ]


def more_of_opening(wall: TrueWall, opening: TrueOpening) -> list[Raw]:
    """The clear height, and each jamb from its far end."""
    box = opening.box
    middle = (box.bottom + box.top) / 2
    places = [
        ("height", "itself", box.height),
        ("left", "right", wall.right_at(middle) - box.left),
        ("right", "left", box.right - wall.left_at(middle)),
    ]
    return [
        {"kind": "opening", "of": opening.name, "edge": edge, "from": start, "reads": reads}
        for edge, start, reads in places
    ]


def each_reading(raw: Raw) -> Iterable[Raw]:
    return (reading for wall in raw["wall"] for reading in wall["readings"])


def changed(raw: Raw, change: Callable[[Raw], Raw]) -> Raw:
    """The same job with every reading changed."""
    walls = [{**wall, "readings": [change(r) for r in wall["readings"]]} for wall in raw["wall"]]
    return {**raw, "wall": walls}


def read_off(raw: Raw, seed: int, *, sigmas: float = 1.0) -> Raw:
    """The job with every reading off by chance, with its own sigma."""
    lots = np.random.default_rng(seed)
    walls = []
    for wall, read in zip(raw["wall"], Job.model_validate(raw).wall, strict=True):
        off = [
            {
                **reading,
                "reads": reading["reads"] + sigmas * lots.normal() * sigma_of(typed, "good"),
            }
            for reading, (_, typed) in zip(wall["readings"], named(read), strict=True)
        ]
        walls.append({**wall, "readings": off})
    return {**raw, "wall": walls}


def closed(raw: Raw) -> tuple[Closure, ...]:
    return closures(Job.model_validate(raw))


# --- what agrees closes ------------------------------------------------------------------------


@given(alcoves())
def test_readings_that_agree_close(alcove: Alcove) -> None:
    found = [one for one in closed(survey(alcove)) if one.kind != "plumb line"]
    assert [one for one in found if abs(one.misclosure) > 1e-6] == []
    assert {one.verdict for one in found} == {"go"}
    kinds = {one.kind for one in found}
    always = {"both ends", "bow", "corner", "diagonal", "diagonals", "height", "leans", "repeat"}
    assert kinds - {"parts", "opening width", "opening height"} == always | {"round"}


@given(alcoves(), st.data())
def test_a_slip_shows_where_the_reading_is_named_and_nowhere_else(
    alcove: Alcove, data: st.DataObject
) -> None:
    # A burned inch. What is not named moves a sum by less than a twentieth of what the strongest
    # reading does, which is never twice its own slip; what is named moves it by more, and by
    # half of that where it was read twice.
    raw = survey(alcove)
    every = list(each_reading(raw))
    at = data.draw(st.integers(0, len(every) - 1))
    slipped = [name for wall in Job.model_validate(raw).wall for name, _ in named(wall)][at]
    every[at]["reads"] += 25.4
    for one in closed(raw):
        if one.kind != "plumb line":
            if slipped in one.readings:
                assert abs(one.misclosure) > 25.4 / 20 / 4
            else:
                assert abs(one.misclosure) < 25.4 / 20 * 2


# --- the datum ---------------------------------------------------------------------------------


def lifted(reading: Raw, up: float) -> Raw:
    """What a setter reads whose datum is higher."""
    heights: Raw = {name: reading[name] - up for name in ("left_at", "right_at") if name in reading}
    if reading["kind"] == "width":
        heights["at"] = reading["at"] - up
    if reading["kind"] == "deck":
        heights["reads"] = reading["reads"] + up
    if reading["kind"] == "ceiling" or reading.get("from") == "datum":
        heights["reads"] = reading["reads"] - up
    return {**reading, **heights}


def judged(found: tuple[Closure, ...]) -> dict[tuple[object, ...], tuple[float, float, float]]:
    """Every closure by what it is, with its numbers."""
    return {
        (one.kind, one.walls, frozenset(one.readings)): (one.misclosure, one.sigma, one.ratio)
        for one in found
    }


@given(alcoves(), lengths(-400, 400), st.integers(0, 10**6))
def test_another_datum_changes_no_closure(alcove: Alcove, up: float, seed: int) -> None:
    raw = read_off(survey(alcove), seed)
    old, new = judged(closed(raw)), judged(closed(changed(raw, lambda one: lifted(one, up))))
    assert new.keys() == old.keys()
    for what, numbers in old.items():
        assert new[what] == pytest.approx(numbers, rel=1e-6, abs=1e-6)


# --- the mirror --------------------------------------------------------------------------------

_SIDES = {"left": "right", "right": "left"}


def in_mirror(raw: Raw, alcove: Alcove) -> Raw:
    """What a setter reads in the mirrored alcove."""

    def turned(reading: Raw, width: float) -> Raw:
        sides: Raw = {
            key: _SIDES.get(reading[key], reading[key])
            for key in ("edge", "from")
            if key in reading
        }
        if reading["kind"] == "corner to corner":
            sides |= {"left_at": reading["right_at"], "right_at": reading["left_at"]}
        if reading["kind"] in {"deck", "ceiling", "height", "floor"}:
            sides["at"] = width - reading["at"]
        return {**reading, **sides}

    walls = [
        {**wall, "readings": [turned(r, true.width) for r in wall["readings"]]}
        for wall, true in zip(raw["wall"], alcove.walls, strict=True)
    ]
    return {**raw, "wall": walls[::-1]}


@given(alcoves(), st.integers(0, 10**6))
def test_a_mirror_keeps_misclosures(alcove: Alcove, seed: int) -> None:
    raw = read_off(survey(alcove), seed)
    for number, reading in enumerate(each_reading(raw)):
        reading["id"] = f"reading {number}"

    def sizes(found: tuple[Closure, ...]) -> dict[tuple[object, ...], tuple[float, float]]:
        return {
            (one.kind, frozenset(one.walls), frozenset(one.readings)): (
                abs(one.misclosure),
                one.sigma,
            )
            for one in found
        }

    here, there = sizes(closed(raw)), sizes(closed(in_mirror(raw, alcove)))
    assert there.keys() == here.keys()
    for what, numbers in here.items():
        assert there[what] == pytest.approx(numbers, rel=1e-9, abs=1e-9)


# --- chance ------------------------------------------------------------------------------------


def honest_alcove() -> Alcove:
    """Every edge leans, deck and ceiling fall, one hole, two openings."""
    window = Box(left=400.0, right=1000.0, bottom=150.0, top=650.0)
    niche = Box(left=200.0, right=500.0, bottom=100.0, top=420.0)
    return Alcove(
        walls=(
            TrueWall(
                name="L",
                width=800.0,
                left=0.003,
                right=-0.004,
                holes=(TrueHole(name="valve", x=400.0, y=-350.0, diameter=76.0),),
            ),
            TrueWall(
                name="B",
                width=1500.0,
                left=0.002,
                right=-0.004,
                openings=(TrueOpening(name="window", kind="window", box=window),),
            ),
            TrueWall(
                name="R",
                width=820.0,
                left=-0.001,
                right=0.004,
                openings=(TrueOpening(name="niche", kind="niche", box=niche),),
            ),
        ),
        decks=(-752.0, -750.0, -746.0, -747.0),
        ceilings=(1350.0, 1352.0, 1349.0, 1351.0),
        floor=-1130.0,
        system=sample_system(),
        choices={},
    )


def test_by_chance_a_closure_misses_by_its_sigma(count: Callable[[int, int], int]) -> None:
    # Misclosures over their sigmas are standard normal: the mean of n squares is 1, sure to
    # sqrt(2 / n). A sigma that is 20 in 100 out would show.
    tries = count(400, 4000)
    raw = survey(honest_alcove())
    squares: dict[tuple[object, ...], float] = {}
    for seed in range(tries):
        for one in closed(read_off(raw, seed)):
            what = (one.kind, one.walls, frozenset(one.readings))
            squares[what] = squares.get(what, 0.0) + (one.misclosure / one.sigma) ** 2
    bound = SIGMAS_OFF * sqrt(2 / tries)
    means = {what: total / tries for what, total in squares.items()}
    assert {what: mean for what, mean in means.items() if abs(mean - 1) > bound} == {}
    # Ends of 3 holes and dishes, of 4 jambs more than once; the rest once a wall or corner.
    assert len(means) > 40


# --- anything that can be written --------------------------------------------------------------


def readings_of(things: st.SearchStrategy[float]) -> st.SearchStrategy[Raw]:
    """Readings in odd places, often the same, with odd values."""
    sigma = st.sampled_from([{}, {"sigma": 5e-324}, {"sigma": 1.0}, {"sigma": 3e4}])
    surface = st.sampled_from([{}, {"surface": "stud"}, {"surface": "old tile"}])
    positive = things.map(abs).filter(bool)

    def reading(kind: str, **fields: st.SearchStrategy[Any]) -> st.SearchStrategy[Raw]:
        made = st.fixed_dictionaries({"kind": st.just(kind), **fields})
        return st.tuples(made, sigma, surface).map(
            lambda parts: {**parts[0], **parts[1], **parts[2]}
        )

    of = st.sampled_from(["valve", "arm"])
    start = st.sampled_from(["left", "right", "datum"])
    return st.one_of(
        reading("width", at=things, reads=positive),
        reading("deck", at=things.map(abs), reads=things),
        reading("ceiling", at=things.map(abs), reads=things),
        reading("height", at=things.map(abs), reads=positive),
        reading("corner to corner", left_at=things, right_at=things, reads=positive),
        reading("lean", edge=st.sampled_from(["left", "right"]), over=positive, reads=things),
        reading("hole", of=of, reads=things, **{"from": start}),
        reading("fixture", of=of, reads=things, **{"from": start}),
        reading(
            "opening",
            of=of,
            edge=st.sampled_from(["left", "right", "sill", "head", "width", "height"]),
            reads=things,
            **{"from": st.sampled_from(["left", "right", "datum", "itself"])},
        ),
    )


ODD = st.one_of(
    st.sampled_from([0.0, 5e-324, -1e-300, 1e-9, 100.0, -700.0, 1500.0, 3e4, -3e4]),
    st.floats(-3e4, 3e4, allow_nan=False),
)


@given(st.lists(st.lists(readings_of(ODD), max_size=14), min_size=1, max_size=3))
def test_odd_readings_are_judged_and_can_be_told(walls: list[list[Raw]]) -> None:
    raw: Raw = {
        "format": 1,
        "name": "Odd",
        "unit": "mm",
        "survey": {"surface": "backer"},
        "choices": {"material": "any"},
        "calendar": {"start": "2026-03-02"},
        "wall": [{"name": f"W{'ABC'[i]}", "readings": rs} for i, rs in enumerate(walls)],
    }
    found = closed(raw)
    words = Library().words(FINE_METRIC, currency="USD")
    for one in found:
        assert isfinite(one.misclosure)
        assert one.sigma > 0
        assert one.readings
        assert words.say(one.message)
    assert all(first.ratio >= second.ratio for first, second in pairwise(found))
    advice = [one for one in found if one.kind == "plumb line"]
    assert {one.verdict for one in advice} <= {"go", "look again"}
