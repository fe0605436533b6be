"""How far one reading of each kind may be out, where the job does not say."""

from gaugerod.core.job.readings import Practice, Reading

_SIGMAS: dict[str, tuple[float, float]] = {
    "width": (1.0, 3.0),
    "deck": (0.7, 3.0),
    "floor": (1.0, 2.5),
    "ceiling": (1.0, 2.5),
    "height": (1.0, 2.5),
    "corner to corner": (1.5, 5.0),
    "lean": (1.2, 3.0),
    "gap": (0.4, 1.5),
    "depth": (0.4, 1.5),
    "hole": (1.5, 6.0),
    "rough-in": (1.0, 3.0),
    "opening": (1.5, 6.0),
    "drain": (1.0, 2.5),
    "lip": (1.0, 2.5),
    "fixture": (1.5, 6.0),
}


def sigma_of(reading: Reading, practice: Practice) -> float:
    """Return the standard deviation of a reading.

    Parameters
    ----------
    reading
        The reading; its own sigma wins.
    practice
        How readings were taken, ``good`` or ``rough``.

    Returns
    -------
    float
        One sigma. [mm]

    Notes
    -----
    Source: common practice, no source; a setter's judgement of pinch sticks, laser and
    story stick (good) against a bent tape and a short level (rough).

    Examples
    --------
    >>> from gaugerod.core.job.readings import Width
    >>> sigma_of(Width(kind="width", at=0, reads=1524), "rough")
    3.0
    """
    good, rough = _SIGMAS[reading.kind]
    return reading.sigma or (good if practice == "good" else rough)
