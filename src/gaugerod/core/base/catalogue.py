"""The catalogue of sentences: from a message to text in the reader's units."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import copysign

from gaugerod.core.base.lengths import Display, show_length
from gaugerod.core.base.measures import show_measure
from gaugerod.core.base.messages import (
    Area,
    Length,
    Mass,
    Message,
    Money,
    Run,
    Thickness,
    Value,
    Volume,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """Every sentence of one language, and how lengths and money are shown in it."""

    sentences: Mapping[str, str]
    display: Display
    currency: str = "USD"

    def say(self, message: Message) -> str:
        """Return the sentence of a message.

        Parameters
        ----------
        message
            What to say.

        Returns
        -------
        str
            The sentence, with lengths and money in the reader's units.

        Raises
        ------
        KeyError
            The catalogue has no such sentence, or the message lacks one of its values.

        Notes
        -----
        Source: own design.

        Examples
        --------
        >>> from gaugerod.core.base.lengths import IMPERIAL
        >>> words = Catalogue(sentences={"lean": "leans {by}"}, display=IMPERIAL)
        >>> words.say(Message("lean", by=Length(12.7)))
        'leans 1/2"'
        """
        shown = {name: self.show(value) for name, value in message.values.items()}
        return self.sentences[message.key].format_map(shown)

    def text(self, key: str, /, **values: Value) -> str:
        """Return the sentence of a key and its values.

        Parameters
        ----------
        key
            Key of the sentence.
        **values
            What fills it.

        Returns
        -------
        str
            The sentence.

        Notes
        -----
        Source: own design.

        Examples
        --------
        >>> from gaugerod.core.base.lengths import METRIC
        >>> Catalogue(sentences={"wall": "Wall {name}"}, display=METRIC).text("wall", name="B")
        'Wall B'
        """
        return self.say(Message(key, **values))

    def show(self, value: Value) -> str:
        """Return one value as text.

        Parameters
        ----------
        value
            Text, a number, a length, a measure, money, or a message of its own.

        Returns
        -------
        str
            The value in the reader's units; numbers to two decimals.

        Notes
        -----
        Ties go away from nought. Source: own design.

        Examples
        --------
        >>> from gaugerod.core.base.lengths import METRIC
        >>> Catalogue(sentences={}, display=METRIC, currency="GBP").show(Money(123456))
        '£1,234.56'
        """
        match value:
            case Length(mm=mm):
                return show_length(mm, self.display)
            case Run() | Area() | Volume() | Mass() | Thickness():
                return show_measure(value, self.display)
            case Money(cents=cents):
                sign = "−" if cents < 0 else ""
                whole, part = divmod(abs(cents), 100)
                return f"{sign}{_SIGNS[self.currency]}{whole:,}.{part:02d}"
            case Message():
                return self.say(value)
            case float():
                return f"{value + copysign(_TIE, value):.2f}".rstrip("0").rstrip(".")
            case _:
                return str(value)


_TIE = 1e-9
"""Ties go up, as money does: to whoever works it out on paper 37 / 8 is 4.63, and 41 / 40 1.03."""

_SIGNS = {"USD": "$", "GBP": "£", "EUR": "€"}
