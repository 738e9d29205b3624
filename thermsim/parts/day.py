"""The day: air, surroundings, pressure, wind and humidity round the stove.

Real thing: the weather at the shed. Everything here is given, nothing is a state.
"""

from __future__ import annotations

import numpy as np

from thermsim.parts.declare import Block, Field

BEAUFORT = "Beaufort scale in the words of the World Meteorological Organization (WMO No. 306)"

DAY = Block(
    "day",
    "The weather while firing.",
    (
        Field("air", "temperature", "air temperature beside the stove", required=True,
              low="-40 C", high="50 C", why="beyond this no one fires outdoors"),
        Field("surroundings", "temperature", "temperature of the walls and sky that the outside "
              "plates radiate to; the air's if not given", low="-60 C", high="80 C",
              why="radiation sink of a shed or open sky"),
        Field("altitude", "length", "height above sea level; sets the air pressure", default="0 m",
              low="-400 m", high="5000 m", why="inhabited land",
              source="sea level; ISO 2533 standard atmosphere turns height into pressure"),
        Field("pressure", "pressure", "air pressure, if read from a barometer; overrides altitude",
              low="500 hPa", high="1100 hPa", why="pressures measured on inhabited land"),
        Field("moves", "choice", "what the wind moves", default="smoke drifts",
              choices=("smoke rises straight", "smoke drifts", "leaves rustle",
                       "twigs move", "small branches move"),
              source="common practice, no source"),
        Field("wind", "speed", "wind speed at the stove", low="0 m/s", high="20 m/s",
              why="above this firing is dangerous",
              default_by=("moves", {
                  "smoke rises straight": ("0.1 m/s", "+- 0.1 m/s", BEAUFORT),
                  "smoke drifts": ("0.9 m/s", "+- 0.6 m/s", BEAUFORT),
                  "leaves rustle": ("2.5 m/s", "+- 0.9 m/s", BEAUFORT),
                  "twigs move": ("4.4 m/s", "+- 1 m/s", BEAUFORT),
                  "small branches move": ("6.7 m/s", "+- 1.2 m/s", BEAUFORT),
              })),
        Field("wind_at_top", "number", "pressure of the wind at the chimney top as a share of its "
              "dynamic pressure: below zero it sucks", default=0.0, spread="+- 0.3", low="-1.5",
              high="1.5", why="measured pressure coefficients of cowls lie between these",
              source="an open end in level wind, neither helped nor hindered; from memory"),
        Field("humidity", "share", "relative humidity of the air", default="60 %",
              spread="+- 20 %", low="0 %", high="100 %", why="a relative humidity",
              source="common practice, no source"),
    ),
)

DAY_ROW = np.dtype([
    ("air", "f8"), ("surroundings", "f8"), ("pressure", "f8"), ("wind", "f8"),
    ("wind_pressure", "f8"), ("density", "f8"), ("gas_constant", "f8"),
])

