"""Do other products go where a job says? On walls only what is set out just as the main one."""

from collections.abc import Callable, Iterator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.bonds import pattern_bond
from gaugerod.core.job.document import Accent, Job, Opening, Wall
from gaugerod.core.job.faults import Fault, Place
from gaugerod.core.job.materials import Materials, System
from gaugerod.core.job.readings import OpeningEdge

_INSIDE: dict[str, Callable[[System], object]] = {
    "kind": lambda system: system.kind,
    "thickness": lambda system: system.thickness,
    "bed": lambda system: system.bed,
    "gaps": lambda system: system.gaps,
}
_ON_WALLS: dict[str, Callable[[System], object]] = {
    "face": lambda system: system.face,
    "joint": lambda system: system.joint,
    "edges": lambda system: system.edges,
    "key_depth": lambda system: system.key_depth,
    "turns": lambda system: frozenset(system.turns),
    "cutting": lambda system: system.cutting,
    **_INSIDE,
}


def accents(job: Job, materials: Materials) -> Iterator[Fault]:
    """Yield every place where another product can't stand as the job says.

    Parameters
    ----------
    job
        The job.
    materials
        The materials at hand; that of the choices is among them.

    Yields
    ------
    Fault
        A product that is not at hand, a wall, niche or window that is not there, a product that
        is not made as the main one is, a course of a pattern that has none.

    Notes
    -----
    On walls a product takes the place of the main one module by module: face, joints, edges,
    thickness, bed, gaps, turns and what a cut takes are the same. Inside a niche or window the
    pieces are set out by themselves, so that only what the faces lap by must be the same: kind,
    thickness, bed and gaps. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> list(accents(sample_job(), Materials(systems={"sample": sample_system()})))
    []
    """
    main = materials.systems[job.choices.material]
    for number, accent in enumerate(job.choices.accent):
        at: Place = ("choices", "accent", number)
        system = materials.systems.get(accent.material)
        if system is None:
            known = ", ".join(sorted(materials.systems))
            wrong = Message("job.unknown-material", read=accent.material, known=known)
            yield Fault(at=(*at, "material"), wrong=wrong)
            continue
        yield from _place(job, accent, at)
        alike = _INSIDE if accent.inside else _ON_WALLS
        unlike = [key for key, value in alike.items() if value(system) != value(main)]
        if unlike:
            key = "job.accent-unlike-inside" if accent.inside else "job.accent-unlike"
            wrong = Message(key, read=system.id, main=main.id, unlike=", ".join(unlike))
            yield Fault(at=(*at, "material"), wrong=wrong)


def _place(job: Job, accent: Accent, at: Place) -> Iterator[Fault]:
    names = [wall.name for wall in job.wall]
    for number, name in enumerate(accent.walls):
        if name not in names:
            wrong = Message("job.unknown-wall", read=name, known=", ".join(names))
            yield Fault(at=(*at, "walls", number), wrong=wrong)
    if accent.inside:
        yield from _inside(job, accent, accent.inside, at)
    elif accent.faces:
        yield Fault(at=(*at, "faces"), wrong=Message("job.accent-faces"))
    elif not (accent.walls or accent.courses):
        yield Fault(at=at, wrong=Message("job.accent-nowhere"))
    if accent.courses and not accent.inside and pattern_bond(job.choices.bond):
        wrong = Message("job.accent-pattern", read=job.choices.bond)
        yield Fault(at=(*at, "courses"), wrong=wrong)


def _inside(job: Job, accent: Accent, name: str, at: Place) -> Iterator[Fault]:
    if accent.courses:
        yield Fault(at=(*at, "courses"), wrong=Message("job.accent-courses-inside"))
    on = [wall for wall in job.wall if wall.name in (accent.walls or (wall.name,))]
    openings = [opening for wall in on for opening in wall.opening]
    named = [opening for opening in openings if opening.name == name]
    if not named:
        known = ", ".join(opening.name for opening in openings)
        wrong = Message("job.accent-no-opening", read=name, known=known or Message("job.none"))
        yield Fault(at=(*at, "inside"), wrong=wrong)
    elif not any(map(_lined, named)):
        yield Fault(at=(*at, "inside"), wrong=Message("job.accent-not-lined", name=name))
    elif not any(_deep(wall, name) for wall in on):
        yield Fault(at=(*at, "inside"), wrong=Message("job.accent-no-depth", name=name))
    elif "back" in accent.faces and all(opening.kind == "window" for opening in named):
        yield Fault(at=(*at, "faces"), wrong=Message("job.accent-no-back", name=name))


def _deep(wall: Wall, name: str) -> bool:
    """Tell whether the depth of an opening was read: without it there are no faces to line."""
    return any(
        isinstance(reading, OpeningEdge) and (reading.of, reading.edge) == (name, "jamb depth")
        for reading in wall.readings
    )


def _lined(opening: Opening) -> bool:
    return opening.kind == "niche" if opening.lined is None else opening.lined
