"""What is believed of an alcove before anyone has measured it."""

PLUMB_SIGMA = 27 / 32 / 72
"""How far edges may lean before anyone has looked: what framing guides allow. [mm per mm]"""
STRUCK_SIGMA = 1e-6
"""An open edge is a plumb line that the setter strikes, unless he read its lean. [mm per mm]"""
LEVEL_SIGMA = 25.0
"""How far deck or ceiling may fall along one wall before anyone has looked. [mm]"""
