"""A small invented alcove to try things with: in examples, in tests, at the prompt."""

from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable


def _shell(
    width: float, *, decks: tuple[float, float], corners: tuple[str, ...]
) -> list[dict[str, object]]:
    triples: list[tuple[str, float, float]] = [
        ("width", -700, width),
        ("width", 0, width),
        ("width", 1200, width),
        ("deck", 0, decks[0]),
        ("deck", width, decks[1]),
        ("ceiling", 0, 1400),
        ("ceiling", width, 1400),
    ]
    readings: list[dict[str, object]] = [
        {"kind": kind, "at": at, "reads": reads} for kind, at, reads in triples
    ]
    leans: list[dict[str, object]] = [
        {"kind": "lean", "edge": edge, "over": 1800, "reads": 0} for edge in corners
    ]
    return [*readings, *leans]


_JOB: dict[str, object] = {
    "format": 1,
    "name": "Sample alcove",
    "scenario": "Invented.",
    "unit": "mm",
    "survey": {"surface": "backer"},
    "choices": {"material": "sample", "turn": "lying", "bond": "stack"},
    "calendar": {"start": "2026-03-02"},
    "wall": [
        {
            "name": "L",
            "readings": [
                *_shell(800, decks=(760, 758), corners=("right",)),
                {"kind": "hole", "of": "valve", "from": "right", "reads": 400},
                {"kind": "hole", "of": "valve", "from": "datum", "reads": -330},
                {"kind": "floor", "at": 0, "reads": 380},
            ],
            "hole": [{"name": "valve", "diameter": 76, "pipe": 28, "plate": 178}],
        },
        {"name": "B", "readings": _shell(1500, decks=(758, 754), corners=("left", "right"))},
        {"name": "R", "readings": _shell(800, decks=(754, 754), corners=("left",))},
    ],
}
_SYSTEM: dict[str, object] = {
    "format": 1,
    "id": "sample",
    "name": "Sample keyed module",
    "unit": "mm",
    "kind": "keyed",
    "face": (600, 300),
    "thickness": 9.525,
    "bed": 1.5875,
    "key_depth": 9.525,
    "edges": {"left": "groove", "right": "tongue", "bottom": "groove", "top": "tongue"},
    "joint": (0, 0),
    "weight": 1.5,
    "per_box": 8,
    "price": "200.00",
    "breakage": 0.02,
    "spares": 1,
    "wall_order": ("L", "B", "R"),
    "cutting": {
        "kerf": 3,
        "least": 50,
        "groove_off": 12.7,
        "tool": "saw",
        "material": "plastic",
    },
    "gaps": {
        "deck": 3,
        "corner": 3,
        "butt": 3.175,
        "opening": 3,
        "ceiling": 9.525,
        "hole_clear": 25.4,
        "hides_key": ("front", "opening", "top"),
    },
    "trim": [
        {"id": "edge", "name": "Edge trim", "use": "edge", "stock": 2400, "price": 18},
        {"id": "top", "name": "Top trim", "use": "top", "stock": 2400, "price": 16},
    ],
    "adhesive": {
        "name": "Adhesive",
        "cartridge": 0.8,
        "bead": 6,
        "inset": 25,
        "infill": 150,
        "usable": 0.85,
        "price": 12,
        "open_minutes": 12,
        "hold_hours": 24,
    },
    "sealant": {
        "name": "Sealant",
        "cartridge": 0.3,
        "key_bead": 4,
        "fillet": 6,
        "usable": 0.8,
        "price": 9,
        "hold_hours": 24,
    },
}
_TILE: dict[str, object] = {
    "id": "tile",
    "name": "Sample tile",
    "kind": "grouted",
    "face": (597, 297),
    "key_depth": 0,
    "edges": {},
    "joint": (3, 3),
    "turns": ("lying", "standing"),
    "cutting": {
        "kerf": 2,
        "least": 50,
        "half_turn": True,
        "tool": "wet saw",
        "material": "porcelain",
    },
    "gaps": {
        "deck": 3,
        "corner": 3,
        "butt": 3,
        "opening": 3,
        "ceiling": 3,
        "hole_clear": 25,
    },
    "adhesive": None,
    "mortar": {
        "name": "Mortar",
        "notch_depth": 10,
        "notch_width": 10,
        "notch_gap": 10,
        "bag_yield": 13.5,
        "price": 20,
        "hold_hours": 24,
    },
    "grout": {"name": "Grout", "density": 1.6, "bag": 5, "price": 12, "hold_hours": 72},
}
_RATES: dict[str, object] = {
    "format": 1,
    "id": "shop",
    "currency": "USD",
    "labour": 48,
    "markup": 0.5,
    "contingency": 0.05,
    "tax": 0.07,
    "looks": {
        "sliver": 25,
        "unequal": 10,
        "front_cut": 60,
        "off_jamb": 30,
        "near_hole": 30,
    },
    "task": [
        {
            "id": "set",
            "name": "Set",
            "per": "piece",
            "hours": 0.25,
            "hold": "adhesive",
        }
    ],
}


def sample_job() -> Job:
    """Return an invented job: three plain walls, a deck 6 mm out of level, one valve.

    Returns
    -------
    Job
        The job.

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> sample_job().wall[1].name
    'B'
    """
    return Job.model_validate(_JOB)


def sample_system() -> System:
    """Return an invented keyed module, 600 by 300 mm.

    Returns
    -------
    System
        The material.

    Notes
    -----
    Source: invented, in real-world sizes.

    Examples
    --------
    >>> sample_system().edges["top"]
    'tongue'
    """
    return System.model_validate(_SYSTEM)


def sample_tile() -> System:
    """Return an invented grouted tile, 597 by 297 mm with joints of 3 mm.

    Returns
    -------
    System
        The material.

    Notes
    -----
    Two short sides with a joint between them are a long one. Source: invented.

    Examples
    --------
    >>> sample_tile().kind
    'grouted'
    """
    return System.model_validate(_SYSTEM | _TILE)


def sample_rates() -> RateTable:
    """Return invented rates with one task.

    Returns
    -------
    RateTable
        The rates.

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> sample_rates().labour
    4800
    """
    return RateTable.model_validate(_RATES)
