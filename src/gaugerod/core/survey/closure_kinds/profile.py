"""Something read at several places along a wall, straight from one place to the next."""

from bisect import bisect
from collections.abc import Sequence
from dataclasses import dataclass

from gaugerod.core.survey.closure_kinds.figures import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Something read at several places, in their order. [mm]."""

    places: tuple[float, ...]
    values: tuple[Figure, ...]

    def at(self, place: Figure) -> Figure:
        """Return what it is at a place; at least one place was read.

        Parameters
        ----------
        place
            Where. [mm]

        Returns
        -------
        Figure
            The value between the two places round it; beyond the ends, on the line through the
            first and the last, which is the steadiest. A single value holds everywhere. [mm]
        """
        if len(self.places) == 1:
            return self.values[0]
        above = bisect(self.places, place.value)
        inside = 0 < above < len(self.places)
        low, high = (above - 1, above) if inside else (0, len(self.places) - 1)
        share = (place - self.places[low]) * (1 / (self.places[high] - self.places[low]))
        return self.values[low] + (self.values[high] - self.values[low]) * share


def profile_of(values: Sequence[tuple[float, Figure]]) -> Profile:
    """Return the profile of values at places.

    Parameters
    ----------
    values
        Places and the values there, shape ``(n,)``, every place once. [mm]

    Returns
    -------
    Profile
        The same, in the order of their places. [mm]

    Notes
    -----
    Source: linear interpolation.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.figures import known
    >>> profile_of([(10.0, known(7.0)), (0.0, known(5.0))]).at(known(5.0)).value
    6.0
    """
    ordered = sorted(values, key=lambda value: value[0])
    return Profile(
        places=tuple(place for place, _ in ordered),
        values=tuple(figure for _, figure in ordered),
    )
