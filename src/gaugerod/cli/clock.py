"""The day, as this computer has it."""

from datetime import date, datetime


class SystemClock:
    """The clock of this computer."""

    def today(self) -> date:
        """Return the day where the computer is."""
        return datetime.now().astimezone().date()
