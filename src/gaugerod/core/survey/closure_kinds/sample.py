"""A small invented wall to try closures with, in examples and at the prompt."""

from gaugerod.core.job.document import Survey, Wall
from gaugerod.core.survey.closure_kinds.gathered import Told, gather
from gaugerod.core.survey.closure_kinds.view import View, views_of

_SURVEY = Survey(surface="backer")
_OPENING: list[tuple[str, str, float]] = [
    ("left", "left", 500),
    ("width", "itself", 600),
    ("right", "right", 400),
    ("sill", "datum", 300),
    ("height", "itself", 500),
    ("head", "datum", 800),
]
_HOLES: list[tuple[str, str, float]] = [
    ("valve", "left", 700),
    ("valve", "right", 800),
    ("valve", "datum", -300),
    ("spout", "left", 703),
    ("spout", "datum", -500),
]
_WALL: dict[str, object] = {
    "name": "B",
    "hole": [{"name": name, "diameter": 40} for name in ("valve", "spout")],
    "opening": [{"name": "window", "kind": "window"}],
    "readings": [
        *({"kind": "width", "at": at, "reads": 1500} for at in (-700, 100, 1300)),
        *({"kind": "lean", "edge": edge, "over": 1800, "reads": 0} for edge in ("left", "right")),
        {"kind": "corner to corner", "left_at": -700, "right_at": 1300, "reads": 2500},
        {"kind": "corner to corner", "left_at": 1300, "right_at": -700, "reads": 2500},
        *({"kind": "deck", "at": at, "reads": 750} for at in (0, 1500)),
        *({"kind": "ceiling", "at": at, "reads": 1350} for at in (0, 1500)),
        {"kind": "height", "at": 750, "reads": 2100},
        *(
            {"kind": "opening", "of": "window", "edge": edge, "from": start, "reads": reads}
            for edge, start, reads in _OPENING
        ),
        *(
            {"kind": "hole", "of": name, "from": start, "reads": reads}
            for name, start, reads in _HOLES
        ),
    ],
}


def sample_view() -> View:
    """Return an invented wall on which every sum comes out.

    Returns
    -------
    View
        The wall.

    Notes
    -----
    1500 wide and 2000 high between the ends of its diagonals of 2500, a triangle of 3-4-5.
    Source: invented.

    Examples
    --------
    >>> sample_view().widths.places
    (-700.0, 100.0, 1300.0)
    """
    wall = Wall.model_validate(_WALL)
    (view,) = views_of(wall, gather(wall, _SURVEY), default="backer", open_edges=())
    return view


def sample_told(*reads: float) -> Told:
    """Return readings of one width.

    Parameters
    ----------
    *reads
        What they read, at least one. [mm]

    Returns
    -------
    Told
        The readings, each with a sigma of 1 mm.

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> sample_told(1500.0, 1502.0).figure.value
    1501.0
    """
    widths = [{"kind": "width", "at": 0, "reads": one} for one in reads]
    wall = Wall.model_validate({"name": "B", "readings": widths})
    (told,) = gather(wall, _SURVEY)
    return told
