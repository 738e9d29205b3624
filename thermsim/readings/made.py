"""What readers of quantities share: the spot, and the reading made of a line."""

from __future__ import annotations

import math
from typing import Any

from thermsim.errors import QuantityError
from thermsim.network.firing import plain
from thermsim.readings.reading import Reading, total
from thermsim.readings.row import Row
from thermsim.readings.spots import column_of


def spot_column(row: Row) -> str:
    """The column of the temperature at the spot."""
    if not row.text("spot"):
        raise row.bad("spot", "nothing is written", "where it was read, as flue")
    try:
        return column_of(row.text("spot"), row.known)
    except QuantityError as error:
        raise row.refuse("spot", error) from error


def listed(row: Row, names: dict[str, str]) -> str:
    """What a spot of a short list stands for."""
    spot = plain(row.text("spot"))
    there = {name: of for name, of in names.items()
             if not of.endswith("_Pa") or of in row.known.columns}
    if spot not in there:
        words = [name.replace("_", " ") for name in there if name]
        raise row.bad("spot", f"the model has no {row.text('quantity')} at '{row.text('spot')}'",
                      f"one of: {', '.join(words)}" if words else "there is none in this plant")
    return there[spot]


def made(row: Row, measure: str, column: str, says: str, value: float, unit: str,
          parts: dict[str, float], instrument: str, corrected: float = math.nan,
          remarks: tuple[str, ...] = (), spot: str = "", happening: Any = None,
         look: Any = None) -> Reading:
    """The reading of a line. corrected: nan where it is as read; spot: where not the column's."""
    since, time = row.span()
    if column and column not in row.known.columns:
        raise row.bad("spot", f"the model has no '{column}' in this plant", "another spot")
    if not (math.isfinite(total(parts)) and total(parts) > 0.0):
        raise row.bad("uncertainty", f"none follows from a reading of {value:g} {unit}".rstrip(),
                      "write one")
    plain_name = column.removeprefix("temperature_").removesuffix("_C").replace("_", " ")
    shown = spot or (plain_name if column.startswith("temperature_")
                     else row.text("spot") or row.text("quantity").lower())
    return Reading(row.number, value if measure == "event" else time, since, shown,
                   row.text("spot"), row.text("quantity").lower(), measure, column, says, value,
                   value if math.isnan(corrected) else corrected, unit, total(parts), instrument,
                   row.text("note"), happening, parts, remarks, look)
