"""Set fields that several layouts share: what no lattice changes is made once."""

from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Box
from gaugerod.core.setout.field import eased, field_of, gross_of, net_of
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Meeting, SetField
from gaugerod.core.setout.strips import Case

_Outline = tuple[str, tuple[Meeting, Meeting], float]


class SharedFields:
    """Set fields of the walls of one alcove in one material, each made once. [mm]."""

    def __init__(self) -> None:
        self._gross: dict[_Outline, BaseGeometry] = {}
        self._net: dict[tuple[_Outline, tuple[Box, ...]], BaseGeometry] = {}
        self._fields: dict[tuple[_Outline, Lattice], SetField] = {}

    def field(self, case: Case, lattice: Lattice) -> SetField:
        """Return the field of a wall under a lattice.

        Parameters
        ----------
        case
            The wall, how it meets its neighbours, its finish line. [mm]
        lattice
            The lattice over it. [mm]

        Returns
        -------
        SetField
            What `set_field` makes of them. [mm]

        Notes
        -----
        Source: as `set_field`.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_batch
        >>> batch = sample_batch(455.5)
        >>> shared = SharedFields()
        >>> once = shared.field(batch.case, batch.lattice)
        >>> shared.field(batch.case, batch.lattice) is once
        True
        """
        outline = case.wall.name, case.met, case.top
        key = outline, lattice
        if key not in self._fields:
            if outline not in self._gross:
                self._gross[outline] = gross_of(case.wall, case.met, case.system, top=case.top)
            gross = self._gross[outline]
            openings = eased(case.wall, case.system, lattice)
            if (outline, openings) not in self._net:
                self._net[outline, openings] = net_of(gross, case.wall, openings)
            self._fields[key] = field_of(
                case.wall,
                case.met,
                gross=gross,
                net=self._net[outline, openings],
                openings=openings,
                lattice=lattice,
            )
        return self._fields[key]
