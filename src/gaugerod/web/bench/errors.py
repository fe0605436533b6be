"""Why there is no result: not yet, or not any more."""

from gaugerod.app.ports import StoppedError
from gaugerod.core.base.messages import Message


class UnfinishedError(StoppedError):
    """There is no result; `ticket` names the work.

    `seconds` is how long it has been worked on, of `most`; `before` counts what has its turn
    first.
    """

    def __init__(
        self,
        ticket: str,
        message: Message,
        *,
        seconds: float = 0.0,
        most: float = 0.0,
        before: int = 0,
    ) -> None:
        super().__init__(message)
        self.ticket = ticket
        self.seconds = seconds
        self.most = most
        self.before = before


class NotYetError(UnfinishedError):
    """It is being worked on, or waits for its turn: ask again."""


class EndedError(UnfinishedError):
    """The work was ended before it was done; it can be begun again."""
