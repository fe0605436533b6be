"""Gaugerod: from a tape and a level to a lined tub or shower alcove."""

__version__ = "0.1.0"
