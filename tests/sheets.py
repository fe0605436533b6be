"""Sheets to test with: plain panels with or without a joint, and rooms of plumb walls for them."""

from collections.abc import Mapping
from dataclasses import replace

from hypothesis import strategies as st
from tests.property.alcoves import Alcove, TrueHole, TrueWall, lengths

from gaugerod.core.job.materials import System

INCH = 25.4


def sheet(
    *,
    face: tuple[float, float] = (96 * INCH, 48 * INCH),
    joint: float = 0.0,
    corner: float = 0.0,
    trims: tuple[Mapping[str, object], ...] = (),
) -> System:
    """A panel of 48 x 96 in with nothing lost anywhere but its own thickness, unless said."""
    return System.model_validate(
        {
            "format": 1,
            "id": "sheet",
            "name": "Sheet of a test",
            "unit": "mm",
            "kind": "sheet",
            "face": face,
            "thickness": 6,
            "bed": 3,
            "joint": (joint, joint),
            "weight": 30,
            "per_box": 1,
            "price": "285.00",
            "breakage": 0,
            "spares": 0,
            "turns": ("standing",),
            "wall_order": ("B", "L", "R"),
            "cutting": {
                "kerf": 3,
                "least": 100,
                "half_turn": True,
                "tool": "saw",
                "material": "plastic",
            },
            "gaps": {
                "deck": 3,
                "corner": corner,
                "butt": 3,
                "opening": 3,
                "ceiling": 6,
                "hole_clear": INCH,
                "hole_spare": 0,
            },
            "trim": trims,
            "adhesive": {
                "name": "Adhesive",
                "cartridge": 0.828,
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
                "fillet": 6,
                "usable": 0.8,
                "price": 9,
                "hold_hours": 24,
            },
        }
    )


def room(
    *,
    system: System,
    back: float = 60 * INCH,
    up: float = 1300.0,
    holes: tuple[TrueHole, ...] = (),
    **choices: object,
) -> Alcove:
    """A plumb and level alcove, 760 from the datum down to the deck and `up` to the ceiling."""
    walls = (
        TrueWall(name="L", width=800.0, left=0.0, right=0.0),
        TrueWall(name="B", width=back, left=0.0, right=0.0, holes=holes),
        TrueWall(name="R", width=800.0, left=0.0, right=0.0),
    )
    return Alcove(
        walls=walls,
        decks=(-760.0,) * 4,
        ceilings=(up,) * 4,
        floor=-1120.0,
        system=system,
        choices={"finish": "ceiling", **choices},
    )


@st.composite
def sheets(draw: st.DrawFn) -> System:
    """Panels of 36 or 48 in by 72 to 96, with a joint, that need two courses now and then."""
    wide = draw(st.sampled_from([900.0, 914.4, 1219.2]))
    system = sheet(
        face=(draw(lengths(1800, 2440)), wide),
        joint=draw(st.sampled_from([0.0, 2.0, 3.0])),
        corner=draw(st.sampled_from([2.0, 3.0])),
    )
    turns = draw(st.sampled_from([("standing",), ("standing", "lying")]))
    gaps = system.gaps.model_copy(update={"hole_spare": draw(st.sampled_from([0.0, 3.0]))})
    return system.model_copy(update={"turns": turns, "gaps": gaps})


def as_asked(alcove: Alcove) -> Alcove:
    """The same with the turn and the bond left open, as nobody asks for a bond of sheets."""
    choices = {k: v for k, v in alcove.choices.items() if k not in {"turn", "bond"}}
    return replace(alcove, choices=choices)
