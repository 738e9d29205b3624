"""Readings of pressure, draught, water level and mass."""

from __future__ import annotations

from typing import Any

from thermsim.dimensions import DIMENSIONS
from thermsim.errors import QuantityError
from thermsim.network.firing import plain
from thermsim.network.sizes import drum_volume, inside_height
from thermsim.network.water_level import held_under
from thermsim.readings.columns import QUANTITIES
from thermsim.readings.instruments import (
    EDGE_MM,
    HEAD_MM,
    LIMIT,
    SCALE_BAR,
    SCALE_SHARE,
    standard,
)
from thermsim.readings.made import listed, made
from thermsim.readings.reading import VALUE, Reading
from thermsim.readings.row import RATIO, Row
from thermsim.units import parse_quantity

BAR, PERCENT, GRAMS, MM_WATER = 1e5, 100.0, 1e3, 9.80665
WATER_DENSITY = 998.2
"""of cold water [kg/m3], to turn litres into mass"""
PRESSURES = {"": "drum_pressure_Pa", "drum": "drum_pressure_Pa", "gauge": "drum_pressure_Pa",
             "pressure_gauge": "drum_pressure_Pa",
             "steam_line": "steam_line_pressure_Pa", "engine_chest": "engine_chest_pressure_Pa"}
DRAUGHTS = ("", "chimney_foot", "flue", "draught", "draught_at_chimney_foot")
HEADS = ("", "mm", "mm water", "in water")
"""units that may be read along a tube that lies at a slope"""
LEVELS = ("", "drum", "gauge_glass", "water", "dipstick")
MASSES = {"bucket": "steam", "steam_condensed": "steam", "vent": "steam", "wood_fed": "wood",
          "wood": "wood", "ash": "column", "water": "column"}


def pressure(row: Row) -> Reading:
    """Over the day's, of the drum, the steam line's end or the engine's chest."""
    column = listed(row, PRESSURES)
    name, scale = row.instrument("pressure gauge", ("pressure gauge",))
    found = row.quantity("pressure_gauge")
    value, full = found.value / BAR, SCALE_BAR
    if scale:
        try:
            full = parse_quantity(scale.split(" to ")[-1], "pressure_gauge").value / BAR
        except QuantityError as error:
            raise row.refuse("instrument", error) from error
    doubt = row.own_doubt("pressure_gauge", value, 1.0 / BAR, found)
    parts = {"instrument": SCALE_SHARE * full / LIMIT if doubt is None else doubt}
    return made(row, "pressure", column, VALUE, value, "bar(g)", parts, name)


def draught(row: Row) -> Reading:
    """At the chimney foot; mm is of water, along the tube if the gauge's slope is told."""
    if plain(row.text("spot")) not in DRAUGHTS:
        raise row.bad("spot", f"the model tells no draught at '{row.text('spot')}'",
                      "chimney foot")
    name, slope = row.instrument("water gauge", ("water gauge",))
    ratio, edge = 1.0, HEAD_MM
    if slope:
        match = RATIO.fullmatch(slope)
        if not match or not float(match[2]) >= float(match[1]) > 0.0:
            raise row.bad("instrument", f"'{slope}' is no slope",
                          "water gauge 1:10, rise to length of the tube")
        if row.text("unit") not in HEADS:
            raise row.bad("unit", f"a slope says nothing of {row.text('unit')}",
                          "mm along the tube, or no slope")
        ratio, edge = float(match[1]) / float(match[2]), EDGE_MM
    unit = "mm water" if row.text("unit") in ("mm", "") else row.text("unit")
    found = row.quantity("pressure_difference", unit)
    value = found.value * ratio
    doubt = row.own_doubt("pressure_difference", value, ratio, found)
    parts = {"instrument": edge * MM_WATER * ratio / LIMIT if doubt is None else doubt}
    return made(row, "column", "draught_at_chimney_foot_Pa", VALUE, value, "Pa", parts, name)


def water_level(row: Row) -> Reading:
    """Share of the drum filled; a dipstick's length from the lowest point inside is turned into it.
    """
    drum = row.known.tree.drum
    if not drum:
        raise row.bad("quantity", "there is no drum", "a temperature, draught, an event")
    if plain(row.text("spot")) not in LEVELS:
        raise row.bad("spot", f"no water stands at '{row.text('spot')}'", "drum")
    is_length = row.text("unit") in DIMENSIONS["length"].units
    name, _ = row.instrument("dipstick" if is_length else "gauge glass",
                             ("dipstick", "gauge glass"))
    if not is_length:
        found = row.quantity("share")
        doubt = row.own_doubt("share", found.value, 1.0, found)
        share, own = found.value, standard("gauge glass", 0.0) if doubt is None else doubt
    else:
        found = row.quantity("length")
        if not 0.0 <= found.value <= inside_height(drum):
            raise row.bad("reading", f"the drum is {1e3 * inside_height(drum):.0f} mm high inside",
                          "a height from its lowest point")
        doubt = row.own_doubt("length", found.value, 1.0, found)
        size = standard("dipstick", 0.0) / 1e3 if doubt is None else doubt
        share, above, below = (_share(drum, found.value + by) for by in (0.0, size, -size))
        own = 0.5 * (above - below)
    if not 0.0 <= share <= 1.0:
        raise row.bad("reading", f"'{row.text('reading')}' of a drum", "0 to 100 %")
    return made(row, "percent", "water_level_fraction", VALUE, PERCENT * share, "%",
                 {"instrument": PERCENT * own}, name)


def _share(drum: Any, height: float) -> float:
    return held_under(drum, min(max(height, 0.0), inside_height(drum))) / drum_volume(drum)


def mass(row: Row) -> Reading:
    """Steam condensed in a bucket, wood fed, ash, water; litres are of cold water."""
    measure = listed(row, MASSES)
    spot = plain(row.text("spot"))
    since, _ = row.span()
    if measure == "steam" and since is None:
        raise row.bad("time", "steam is caught over a time", "20 min to 25 min")
    kind = QUANTITIES[row.text("quantity").lower()]
    default = "bucket" if measure == "steam" else "scale"
    name, _ = row.instrument(default, ("bucket", "scale", "dipstick"))
    found = row.quantity(kind)
    grams = GRAMS * (WATER_DENSITY if kind == "volume" else 1.0)
    value = found.value * grams
    doubt = row.own_doubt(kind, value, grams, found)
    parts = {"instrument": standard(name, value) if doubt is None else doubt}
    column = {"steam": "steam_kg_per_h", "wood": ""}.get(measure, f"{spot}_kg")
    if column and column not in row.known.columns:
        raise row.bad("spot", f"the model has no {spot.replace('_', ' ')} here", "another spot")
    return made(row, "grams" if measure == "column" else measure, column, VALUE, value, "g",
                 parts, name)
