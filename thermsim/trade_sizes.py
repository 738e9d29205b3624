"""Trade sizes of pipe and gauges of sheet, from their published tables.

Nominal sizes are names, not measures: what a nominal size means in millimetres is only what its
standard's table says. Entered from memory; ASME B36.10 and the wire gauges are held in the tests
against a reference library, the sheet gauge against its weights; EN 10255 rests on memory alone.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class PipeSize(NamedTuple):
    """Outside diameter and walls by series, millimetres as in the table."""

    outside: str
    walls: dict[str, str]


def _en(outside: str, medium: str, heavy: str) -> PipeSize:
    return PipeSize(outside, {"medium": medium, "heavy": heavy})


def _nps(outside: str, schedule_40: str, schedule_80: str) -> PipeSize:
    return PipeSize(outside, {"40": schedule_40, "80": schedule_80})


EN_10255: dict[int, PipeSize] = {
    6: _en("10.2", "2.0", "2.6"), 8: _en("13.5", "2.3", "2.9"), 10: _en("17.2", "2.3", "2.9"),
    15: _en("21.3", "2.6", "3.2"), 20: _en("26.9", "2.6", "3.2"), 25: _en("33.7", "3.2", "4.0"),
    32: _en("42.4", "3.2", "4.0"), 40: _en("48.3", "3.2", "4.0"), 50: _en("60.3", "3.6", "4.5"),
    65: _en("76.1", "3.6", "4.5"), 80: _en("88.9", "4.0", "5.0"), 100: _en("114.3", "4.5", "5.4"),
    125: _en("139.7", "5.0", "5.4"), 150: _en("165.1", "5.0", "5.4"),
}  # fmt: skip
"""threaded pipe by DN, medium and heavy series; EN 10255:2004 table 2, from memory"""

INCHES_OF_DN: dict[str, int] = {
    "1/8": 6, "1/4": 8, "3/8": 10, "1/2": 15, "3/4": 20, "1": 25, "1 1/4": 32, "1 1/2": 40,
    "2": 50, "2 1/2": 65, "3": 80, "4": 100, "5": 125, "6": 150,
}  # fmt: skip
"""thread size of EN 10255 pipe, by which the trade calls it"""

ASME_B36_10: dict[str, PipeSize] = {
    "1/8": _nps("10.3", "1.73", "2.41"), "1/4": _nps("13.7", "2.24", "3.02"),
    "3/8": _nps("17.1", "2.31", "3.20"), "1/2": _nps("21.3", "2.77", "3.73"),
    "3/4": _nps("26.7", "2.87", "3.91"), "1": _nps("33.4", "3.38", "4.55"),
    "1 1/4": _nps("42.2", "3.56", "4.85"), "1 1/2": _nps("48.3", "3.68", "5.08"),
    "2": _nps("60.3", "3.91", "5.54"), "2 1/2": _nps("73.0", "5.16", "7.01"),
    "3": _nps("88.9", "5.49", "7.62"), "3 1/2": _nps("101.6", "5.74", "8.08"),
    "4": _nps("114.3", "6.02", "8.56"), "5": _nps("141.3", "6.55", "9.53"),
    "6": _nps("168.3", "7.11", "10.97"), "8": _nps("219.1", "8.18", "12.70"),
    "10": _nps("273.0", "9.27", "15.09"), "12": _nps("323.8", "10.31", "17.48"),
}  # fmt: skip
"""pipe by nominal pipe size, schedules 40 and 80; ASME B36.10M table 1, from memory"""

_MSG = ("2391 2242 2092 1943 1793 1644 1495 1345 1196 1046 0897 0747 0673 0598 0538 0478 0418 "
        "0359 0329 0299 0269 0239 0209 0179 0164 0149 0135 0120")
_SWG = ("3000 2760 2520 2320 2120 1920 1760 1600 1440 1280 1160 1040 0920 0800 0720 0640 0560 "
        "0480 0400 0360 0320 0280 0240 0220 0200 0180 0164 0148 0136 0124")
_BWG = ("3000 2840 2590 2380 2200 2030 1800 1650 1480 1340 1200 1090 0950 0830 0720 0650 0580 "
        "0490 0420 0350 0320 0280 0250 0220 0200 0180 0160 0140 0130 0120")


def _table(first: int, inches: str) -> dict[int, Fraction]:
    """Ten-thousandths of an inch for each gauge from `first` on, as metres."""
    return {first + k: Fraction(int(figure), 10000) * Fraction("0.0254")
            for k, figure in enumerate(inches.split())}


GAUGES: dict[str, dict[int, Fraction]] = {
    "MSG": _table(3, _MSG), "SWG": _table(1, _SWG), "BWG": _table(1, _BWG),
}
"""thickness [m] by gauge: Manufacturers' Standard Gauge of sheet steel (41.82 lb/ft2 to an inch,
AISI), Imperial Standard Wire Gauge (Order in Council 1883), Birmingham Wire Gauge (tube walls,
ASTM A1016); all from memory"""
GAUGE_NAMES = {"MSG": "sheet steel, Manufacturers' Standard", "SWG": "Imperial Standard Wire",
               "BWG": "tube walls, Birmingham Wire"}
