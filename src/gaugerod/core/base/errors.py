"""Errors that say whose move it is; the shells write the sentence."""

from gaugerod.core.base.messages import Message


class GaugerodError(Exception):
    """Something a person can mend; `message` says where, what was read, what would do."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.key, dict(message.values))
        self.message = message


class LengthError(GaugerodError):
    """A length that cannot be read: write it again."""


class JobError(GaugerodError):
    """The job file does not say what is needed: mend the file."""


class SurveyError(GaugerodError):
    """The readings do not give a wall: measure again."""


class LayoutError(GaugerodError):
    """No layout keeps every hard limit: relax one, or choose otherwise."""


class MaterialError(GaugerodError):
    """The material cannot do this: choose another, or mend its file."""


class PriceError(GaugerodError):
    """A price cannot be so: mend a figure of the job or of the rates."""
