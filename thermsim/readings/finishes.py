"""Emissivity of surfaces by how they look, within 8-14 um, as an infrared thermometer needs it."""

from __future__ import annotations

import math
from dataclasses import dataclass

SOURCE = "thermography makers' emissivity tables"
RECTANGLE = math.sqrt(12.0)
"""width of an even spread over its standard uncertainty (GUM, JCGM 100:2008, 4.3.7)"""


@dataclass(frozen=True)
class Emissivity:
    """An emissivity with its standard uncertainty, and where it is from."""

    value: float
    uncertainty: float
    source: str

    @classmethod
    def between(cls, low: float, high: float, source: str = SOURCE) -> Emissivity:
        """The middle of an even spread.

        >>> Emissivity.between(0.74, 0.88)
        Emissivity(value=0.81, uncertainty=0.04041451884327381, source="thermography makers' \
emissivity tables")
        """
        return cls(0.5 * (low + high), (high - low) / RECTANGLE, source)


FINISHES: dict[str, tuple[float, float]] = {
    "oxidised": (0.74, 0.88),
    "strongly oxidised": (0.88, 0.98),
    "rusty": (0.50, 0.85),
    "heavily rusted": (0.94, 0.98),
    "bright": (0.05, 0.15),
    "galvanised": (0.07, 0.23),
    "old galvanised": (0.28, 0.85),
    "black paint": (0.90, 0.94),
    "matt black paint": (0.96, 0.98),
    "polished copper": (0.02, 0.05),
    "oxidised copper": (0.40, 0.80),
    "black copper": (0.78, 0.88),
    "fired clay": (0.89, 0.93),
    "red brick": (0.91, 0.95),
    "fire brick": (0.59, 0.75),
    "unknown": (0.60, 0.95),
}
"""lowest and highest by look, of steel unless another material is named; where a table has a single
value 0.02 either way (bright: 0.09 cold-rolled, 0.05 to 0.15); unknown: any dull surface"""


def emissivity_of(finish: str) -> Emissivity:
    """The emissivity of a finish; KeyError for a name that is not in the table."""
    return Emissivity.between(*FINISHES[finish])
