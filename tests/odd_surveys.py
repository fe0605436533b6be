"""Surveys that are awkward to draw: few readings, many, steps, bends, everything at once."""

from collections.abc import Iterator

from gaugerod.core.job.document import Fixture, Hole, Job, Opening, Wall
from gaugerod.core.job.readings import (
    Ceiling,
    CornerToCorner,
    Deck,
    Depth,
    Drain,
    FixturePlace,
    Gap,
    Height,
    HoleCentre,
    Lean,
    Lip,
    OpeningEdge,
    Reading,
    RoughIn,
    Width,
)
from gaugerod.core.job.sample import sample_job
from gaugerod.store.shelf import Library


def demo(name: str) -> Job:
    """A packaged job."""
    source = next(one for one in Library().demos() if one.name == f"{name}.toml")
    return source.read(lambda _: None)


def back_with(*readings: Reading, **pierced: object) -> Job:
    """The sample alcove with more on its back wall, 1500 mm wide."""
    job = sample_job()
    left, back, right = job.wall
    more = back.model_copy(update={"readings": (*back.readings, *readings), **pierced})
    return job.model_copy(update={"wall": (left, more, right)})


def lone_wall() -> Job:
    """One wall with as few readings as will do."""
    readings = (
        Width(kind="width", at=0.0, reads=900.0),
        Deck(kind="deck", at=0.0, reads=700.0),
        Ceiling(kind="ceiling", at=0.0, reads=1300.0),
    )
    return sample_job().model_copy(update={"wall": (Wall(name="B", readings=readings),)})


def repeated() -> Job:
    """Every reading of the back wall three times over, and the datum crowded."""
    back = sample_job().wall[1]
    return back_with(*back.readings, *back.readings)


def depths() -> Job:
    """A grid of depths, and of gaps both ways."""

    def taken() -> Iterator[Reading]:
        for column in range(8):
            for row in range(9):
                at, height = 50.0 + 200 * column, -600.0 + 200 * row
                yield Depth(kind="depth", at=at, height=height, reads=float(column - row))
        for held in ("level", "plumb"):
            yield Gap.model_validate(
                {
                    "kind": "gap",
                    "at": 750,
                    "height": 300,
                    "straightedge": 1200,
                    "held": held,
                    "fault": "hump",
                    "reads": 4,
                }
            )

    return back_with(*taken())


def stepped() -> Job:
    """A platform 120 mm high at the right third, with a lip before it."""
    return back_with(
        Deck(kind="deck", at=1000.0, reads=755.0),
        Deck(kind="deck", at=1000.0, reads=635.0, part="platform"),
        Deck(kind="deck", at=1490.0, reads=640.0, part="platform"),
        Lip(kind="lip", what="height", at=400.0, reads=20.0),
    )


def bent() -> Job:
    """A deck that sags by 12 mm and a ceiling that rises by 15 mm, each read twice."""
    sag = Deck(kind="deck", at=750.0, reads=768.0)
    rise = Ceiling(kind="ceiling", at=750.0, reads=1415.0)
    bulge = Width(kind="width", at=300.0, reads=1515.0)
    return back_with(sag, sag, rise, rise, bulge, bulge)


def crowded() -> Job:
    """Every kind of reading, with holes over one another, a window and a shelf."""
    names = ("valve", "spout", "arm", "spray")
    heights = (-400.0, -550.0, 1000.0, -250.0)
    holes = tuple(Hole(name=name, diameter=40.0) for name in names)
    edges = {
        "left": ("left", 300.0),
        "right": ("right", 600.0),
        "width": ("itself", 600.0),
        "sill": ("datum", 200.0),
        "head": ("datum", 800.0),
        "height": ("itself", 600.0),
        "jamb depth": ("itself", 90.0),
    }
    window = [
        OpeningEdge.model_validate(
            {"kind": "opening", "of": "window", "edge": edge, "from": start, "reads": reads}
        )
        for edge, (start, reads) in edges.items()
    ]
    places = [
        HoleCentre.model_validate({"kind": "hole", "of": name, "from": start, "reads": reads})
        for name, y in zip(names, heights, strict=True)
        for start, reads in (("left", 1000.0), ("right", 500.0), ("datum", y))
    ]
    shelf = [
        FixturePlace.model_validate({"kind": "fixture", "of": "shelf", "from": start, "reads": r})
        for start, r in (("left", 1200.0), ("datum", 400.0))
    ]
    return back_with(
        *window,
        *places,
        *shelf,
        RoughIn(kind="rough-in", of="valve", reads=40.0),
        Drain(kind="drain", reads=1100.0),
        Height(kind="height", at=1400.0, reads=2155.0),
        CornerToCorner(kind="corner to corner", left_at=-700, right_at=1300, reads=2500.0),
        Lean(kind="lean", edge="right", over=1800, reads=-2.0),
        Lean(kind="lean", edge="left", over=1800, reads=2.0),
        Gap(kind="gap", at=700, height=0, straightedge=1200, held="level", reads=2.0),
        hole=holes,
        opening=(Opening(name="window", kind="window"),),
        fixture=(Fixture(name="shelf", kind="shelf", size=(200.0, 100.0)),),
    )


def odd_surveys() -> dict[str, Job]:
    """Every awkward survey by its name, the packaged jobs first."""
    return {
        "alcove-1962": demo("alcove-1962"),
        "niche-tile": demo("niche-tile"),
        "lone wall": lone_wall(),
        "repeated": repeated(),
        "depths": depths(),
        "stepped": stepped(),
        "bent": bent(),
        "crowded": crowded(),
    }
