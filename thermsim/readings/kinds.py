"""Readers of lines by the quantity that is read."""

from __future__ import annotations

import difflib
from collections.abc import Callable

from thermsim.readings.amounts import draught, mass, pressure, water_level
from thermsim.readings.instruments import standard
from thermsim.readings.made import made
from thermsim.readings.reading import VALUE, Reading
from thermsim.readings.row import ZERO_C, Row
from thermsim.readings.seen import duration, event, smoke
from thermsim.readings.temperatures import MARKS, mark, temperature

COLUMN_UNITS = {"_C": ("temperature", 1.0, "C"), "_kg_per_h": ("mass_flow", 3600.0, "kg/h"),
                "_g_per_s": ("mass_flow", 1e3, "g/s"), "_Pa": ("pressure", 1.0, "Pa"),
                "_W": ("power", 1.0, "W"), "_kg": ("mass", 1.0, "kg"),
                "_fraction": ("share", 1.0, ""), "": ("number", 1.0, "")}
"""by the end of a column's name: kind of value, units of the column in an SI unit, unit"""


def value(row: Row) -> Reading:
    """Any column of the series, in its own unit or another of its kind."""
    column = row.text("spot")
    if column not in row.known.columns or column == "time_s":
        near = difflib.get_close_matches(column, row.known.columns, 3, 0.4)
        raise row.bad("spot", f"no column is called '{column}'",
                      f"nearest: {', '.join(near)}" if near else "a column of series.csv")
    kind, factor, unit = next(of for end, of in COLUMN_UNITS.items() if column.endswith(end))
    if column == "draught_at_chimney_foot_Pa":
        kind = "pressure_difference"
    found = row.quantity(kind)
    number = found.value * factor - (ZERO_C if unit == "C" else 0.0)
    name, _ = row.instrument("other", ("other",))
    doubt = row.own_doubt(kind, number, factor, found)
    parts = {"instrument": standard("other", number) if doubt is None else doubt}
    return made(row, "column", column, VALUE, number, unit, parts, name)


Reader = Callable[[Row], Reading]
READERS: dict[str, Reader] = {
    "temperature": temperature, "pressure": pressure, "draught": draught,
    "water level": water_level, "mass": mass, "volume": mass, "duration": duration,
    "event": event, "smoke": smoke, "value": value, **dict.fromkeys(MARKS, mark)}
NO_NUMBER = ("glowing", "not glowing")
"""quantities whose reading may stay empty and still be one"""
