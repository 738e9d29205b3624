"""What a reading is taken with, and how far it may be trusted where the file does not say.

Makers and standards give limits, within which a reading lies for certain; the standard uncertainty
(two readings of three lie within it) is that over the square root of three, GUM (JCGM 100:2008)
4.3.7. What a person writes is taken as the standard uncertainty.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from thermsim.trade_words import PRACTICE

LIMIT = math.sqrt(3.0)


@dataclass(frozen=True)
class Instrument:
    """An instrument; limits in the unit of the reading: the larger of `least` and `share` of it.

    says: what it reads.
    """

    name: str
    says: str
    least: float
    share: float
    source: str


INSTRUMENTS: dict[str, Instrument] = {one.name: one for one in (
    Instrument("infrared", "temperature of a surface", 2.0, 0.02,
               f"2 K or 2 %, usual of hand instruments; {PRACTICE}"),
    Instrument("thermocouple", "temperature", 2.5, 0.0075, "IEC 60584-1, class 2, from memory"),
    Instrument("pressure gauge", "pressure", 0.0, 0.0,
               "EN 837-1, class 2.5: 2.5 % of its scale, from memory"),
    Instrument("water gauge", "draught", 0.0, 0.0, f"the water's edge in the tube; {PRACTICE}"),
    Instrument("stopwatch", "event", 0.0, 0.0, f"how sharply an event is seen; {PRACTICE}"),
    Instrument("smoke match", "smoke", 0.0, 0.0, f"slowest air that turns smoke; {PRACTICE}"),
    Instrument("bucket", "steam condensed", 10.0, 0.05, f"steam that escapes; {PRACTICE}"),
    Instrument("dipstick", "water level", 3.0, 0.0, f"mm; {PRACTICE}"),
    Instrument("gauge glass", "water level", 0.02, 0.0, f"share of the drum; {PRACTICE}"),
    Instrument("scale", "mass", 20.0, 0.01, f"g; {PRACTICE}"),
    Instrument("crayon", "melted or not", 3.0, 0.01,
               f"1 % of its melting point, or 3 K for seeing it melt; {PRACTICE}"),
    Instrument("paint", "browned or not", 25.0, 0.0, f"K; {PRACTICE}"),
    Instrument("eye", "glowing or not", 30.0, 0.0, f"K; {PRACTICE}"),
    Instrument("other", "anything", 0.0, 0.05, f"5 %; {PRACTICE}"),
)}
OTHER_NAMES = {
    "infrared spot": "infrared", "infrared thermometer": "infrared", "ir": "infrared",
    "inclined water gauge": "water gauge", "inclined gauge": "water gauge", "watch": "stopwatch",
    "bucket and scale": "bucket", "gauge": "pressure gauge", "sight glass": "gauge glass",
    "temperature crayon": "crayon",
}
SCALE_SHARE = 0.025
"""limit of a pressure gauge as a share of its scale"""
SCALE_BAR = 6.0
"""scale of a pressure gauge that does not tell it [bar]"""
HEAD_MM, EDGE_MM = 0.2, 0.5
"""limits of a water gauge marked in head, and of a length read along its tube [mm]"""
SMOKE_SPEED = 0.1
"""slowest air that turns the smoke of a match for certain [m/s]"""
SEEN_S = {"boiling": 20.0, "off the boil": 20.0, "dry": 20.0, "draught held": 30.0}
"""limits within which an event is seen [s]"""
OTHER_EVENT_S, DEED_S = 10.0, 5.0
BARE_SHARE = 0.05
"""limit by which a bare junction in gas differs from it, of the warmth over the air: it shines at
colder walls and reads low; common practice, no source"""
GLOWS_C = 525.0
"""least temperature at which steel is seen to glow in the dark; J. W. Draper, 1847: 977 F"""


def standard(name: str, value: float) -> float:
    """Standard uncertainty of a reading [its unit] by the instrument's own limits.

    IEC 60584-1 class 2 at 600 C: 0.0075 times 600, 4.5 K as a limit.

    >>> round(standard("thermocouple", 600.0) * 3**0.5, 9)
    4.5
    """
    one = INSTRUMENTS[name]
    return max(one.least, one.share * abs(value)) / LIMIT


def event_uncertainty(event: str) -> float:
    """Standard uncertainty of when something was seen to happen, or done [s]."""
    other = DEED_S if event.startswith(("open ", "shut ", "start ", "stop ")) else OTHER_EVENT_S
    return SEEN_S.get(event, other) / LIMIT
