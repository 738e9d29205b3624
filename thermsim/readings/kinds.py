"""Readings by quantity: each line becomes a reading in the unit in which it is compared."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from thermsim.dimensions import DIMENSIONS
from thermsim.errors import QuantityError
from thermsim.network.firing import nearest, plain
from thermsim.network.sizes import drum_volume, inside_height
from thermsim.network.water_level import held_under
from thermsim.readings.columns import QUANTITIES
from thermsim.readings.correction import ROUND_DOUBT, SET, Look, correct
from thermsim.readings.happenings import NOT, happening
from thermsim.readings.instruments import (
    BARE_SHARE,
    EDGE_MM,
    GLOWS_C,
    HEAD_MM,
    LIMIT,
    SCALE_BAR,
    SCALE_SHARE,
    SMOKE_SPEED,
    event_uncertainty,
    standard,
)
from thermsim.readings.reading import AT_LEAST, AT_MOST, UNSURE, VALUE, Reading, total
from thermsim.readings.row import RATIO, Row
from thermsim.readings.spots import column_of
from thermsim.readings.targets import emissivity_in_scenario, target_size
from thermsim.units import parse_quantity

ZERO_C, BAR, PERCENT, GRAMS, MM_WATER = 273.15, 1e5, 100.0, 1e3, 9.80665
COLDEST_C, HOTTEST_C = -60.0, 2000.0
AIR_DENSITY, WATER_DENSITY = 1.2, 998.2
"""of cold air and water [kg/m3]: to turn a speed into a flow, litres into mass"""
PRESSURES = {"": "drum_pressure_Pa", "drum": "drum_pressure_Pa", "gauge": "drum_pressure_Pa",
             "steam_line": "steam_line_pressure_Pa", "engine_chest": "engine_chest_pressure_Pa"}
DRAUGHTS = ("", "chimney_foot", "flue", "flue,_chimney_foot", "draught")
LEVELS = ("", "drum", "gauge_glass", "water", "dipstick")
BUCKET, FED, ASH, WATER = "bucket", "wood_fed", "ash", "water"
MASSES = {BUCKET: "steam", "steam_condensed": "steam", "vent": "steam", FED: "wood",
          "wood": "wood", ASH: "column", WATER: "column"}
MARKS = {"melted": (AT_LEAST, "crayon"), "not melted": (AT_MOST, "crayon"),
         "browned": (AT_LEAST, "paint"), "not browned": (AT_MOST, "paint"),
         "glowing": (AT_LEAST, "eye"), "not glowing": (AT_MOST, "eye")}
WAYS = {"in": AT_LEAST, "out": AT_MOST, "unsure": UNSURE}
COLUMN_UNITS = {"_C": ("temperature", 1.0, "C"), "_kg_per_h": ("mass_flow", 3600.0, "kg/h"),
                "_g_per_s": ("mass_flow", 1e3, "g/s"), "_Pa": ("pressure", 1.0, "Pa"),
                "_W": ("power", 1.0, "W"), "_kg": ("mass", 1.0, "kg"),
                "_fraction": ("share", 1.0, ""), "": ("number", 1.0, "")}
"""by the end of a column's name: kind of value, units of the column in an SI unit, unit"""


def temperature(row: Row) -> Reading:
    """Of a place; an infrared thermometer's is corrected."""
    column = _spot(row)
    surface = column.endswith(("_outside_C", "_wall_C", "_inside_C"))
    default = "infrared" if column.endswith("_outside_C") else "thermocouple"
    name, _ = row.instrument(default, ("infrared", "thermocouple"))
    if name == "infrared" and not surface:
        raise row.bad("instrument", "an infrared thermometer sees surfaces, no gas or water",
                      "a surface, or thermocouple")
    found = row.quantity("temperature")
    value = found.value - ZERO_C
    if not COLDEST_C < value < HOTTEST_C:
        raise row.bad("reading", f"'{row.text('reading')}' is {value:.0f} C",
                      f"{COLDEST_C:.0f} to {HOTTEST_C:.0f} C")
    doubt = row.own_doubt("temperature", value, 1.0, found)
    parts = {"instrument": standard(name, value) if doubt is None else doubt}
    if name != "infrared":
        if not surface and not column.endswith("_water_C") and doubt is None:
            air = float(row.known.tree.day.air) - ZERO_C
            parts["bare junction"] = BARE_SHARE * abs(value - air) / LIMIT
        return _made(row, "column", column, VALUE, value, "C", parts, name)
    seen = correct(_look(row, column, value), parts["instrument"])
    if seen is None:
        raise row.bad("reading", f"{value:.0f} C is less than the surroundings alone would show",
                      "another emissivity, or the temperature of what is mirrored, under reflected")
    return _made(row, "column", column, VALUE, value, "C", seen.parts, name,
                 corrected=seen.value, remarks=seen.remarks)


def _look(row: Row, column: str, shown: float) -> Look:
    air = float(row.known.tree.day.air) - ZERO_C
    around = row.optional("reflected", "temperature")
    setting = row.optional("emissivity_set", "share")
    at = SET if setting is None else setting.value
    if not 0.0 < at <= 1.0:
        raise row.bad("emissivity_set", f"'{row.text('emissivity_set')}' cannot be set",
                      "over 0, at most 1")
    emissivity = row.emissivity(emissivity_in_scenario(column, row.known))
    if around is None:
        mirrored, doubt = air, ROUND_DOUBT
    else:
        mirrored, doubt = around.value - ZERO_C, 0.5 * (around.high - around.low)
    return Look(shown, emissivity, at, mirrored, doubt, air, row.spot_size(),
                target_size(column, row.known))


def mark(row: Row) -> Reading:
    """A crayon melted, a paint browned, steel aglow, or not yet: a limit of the temperature."""
    quantity = row.text("quantity").lower()
    says, default = MARKS[quantity]
    column = _spot(row)
    name, _ = row.instrument(default, (default,))
    written = None
    if row.text("reading"):
        written = row.quantity("temperature")
        value = written.value - ZERO_C
    elif default == "eye":
        value = GLOWS_C
    else:
        raise row.bad("reading", "nothing is written",
                      f"the temperature at which it is {quantity.removeprefix(NOT)}")
    doubt = row.own_doubt("temperature", value, 1.0, written)
    parts = {"instrument": standard(name, value) if doubt is None else doubt}
    measure = "column" if default == "eye" else "peak"
    return _made(row, measure, column, says, value, "C", parts, name)


def pressure(row: Row) -> Reading:
    """Over the day's, of the drum, the steam line's end or the engine's chest."""
    column = _listed(row, PRESSURES)
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
    return _made(row, "pressure", column, VALUE, value, "bar(g)", parts, name)


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
        ratio, edge = float(match[1]) / float(match[2]), EDGE_MM
    unit = "mm water" if row.text("unit") in ("mm", "") else row.text("unit")
    found = row.quantity("pressure_difference", unit)
    value = found.value * ratio
    doubt = row.own_doubt("pressure_difference", value, ratio, found)
    parts = {"instrument": edge * MM_WATER * ratio / LIMIT if doubt is None else doubt}
    return _made(row, "column", "draught_at_chimney_foot_Pa", VALUE, value, "Pa", parts, name)


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
    return _made(row, "percent", "water_level_fraction", VALUE, PERCENT * share, "%",
                 {"instrument": PERCENT * own}, name)


def _share(drum: Any, height: float) -> float:
    return held_under(drum, min(max(height, 0.0), inside_height(drum))) / drum_volume(drum)


def mass(row: Row) -> Reading:
    """Steam condensed in a bucket, wood fed, ash, water; litres are of cold water."""
    measure = _listed(row, MASSES)
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
    return _made(row, "grams" if measure == "column" else measure, column, VALUE, value, "g",
                 parts, name)


def event(row: Row) -> Reading:
    """When something happened, by the time of its line."""
    since, time = row.span()
    if since is not None:
        raise row.bad("time", "an event has one moment", "12 min 30 s +- is written as its "
                      "uncertainty")
    return _event(row, row.text("reading"), row.text("spot"), time, "reading")


def duration(row: Row) -> Reading:
    """From lighting until the event that the spot names."""
    return _event(row, row.text("spot"), "", row.quantity("time").value, "spot")


def _event(row: Row, words: str, spot: str, time: float, where: str) -> Reading:
    yet = words.lower().startswith(NOT)
    try:
        told, found = happening(words.lower().removeprefix(NOT), spot, row.known,
                                None if yet else row.seen)
    except QuantityError as error:
        raise row.refuse(where, error) from error
    name, _ = row.instrument("stopwatch", ("stopwatch",))
    doubt = row.own_doubt("time", time, 1.0, None)
    parts = {"instrument": event_uncertainty(told) if doubt is None else doubt}
    shown = told if not found.where or found.deed else f"{told}, {found.where.replace('_', ' ')}"
    return _made(row, "event", "", AT_LEAST if yet else VALUE, time, "s", parts, name,
                 spot=shown, happening=found)


def smoke(row: Row) -> Reading:
    """Which way a match's smoke goes at an opening: a limit of its net flow, none if unsure."""
    opening = plain(row.text("spot"))
    if opening not in row.known.openings:
        raise row.bad("spot", f"no opening is called '{row.text('spot')}'",
                      nearest(opening, row.known.openings))
    way = row.text("reading").lower()
    if way not in WAYS:
        raise row.bad("reading", f"'{row.text('reading')}' is no way", nearest(way, list(WAYS)))
    name, _ = row.instrument("smoke match", ("smoke match",))
    given = next(one for key, one in row.known.tree.openings.items() if plain(key) == opening)
    area = float(given.width * given.height)
    parts = {"instrument": GRAMS * SMOKE_SPEED * AIR_DENSITY * area / LIMIT}
    return _made(row, "column", f"flow_{opening}_g_per_s", WAYS[way], 0.0, "g/s", parts, name)


def value(row: Row) -> Reading:
    """Any column of the series, in its own unit or another of its kind."""
    column = row.text("spot")
    if column not in row.known.columns or column == "time_s":
        near = nearest(column, [name for name in row.known.columns if name != "time_s"])
        raise row.bad("spot", f"no column is called '{column}'", near.split("; ")[0].split(
            " allowed:")[0].removeprefix("allowed: ")[:120])
    kind, factor, unit = next(of for end, of in COLUMN_UNITS.items() if column.endswith(end))
    if column == "draught_at_chimney_foot_Pa":
        kind = "pressure_difference"
    found = row.quantity(kind)
    number = found.value * factor - (ZERO_C if unit == "C" else 0.0)
    name, _ = row.instrument("other", ("other",))
    doubt = row.own_doubt(kind, number, factor, found)
    parts = {"instrument": standard("other", number) if doubt is None else doubt}
    if not total(parts) > 0.0:
        raise row.bad("uncertainty", "5 % of nothing is none", "write one")
    return _made(row, "column", column, VALUE, number, unit, parts, name)


Reader = Callable[[Row], Reading]
READERS: dict[str, Reader] = {
    "temperature": temperature, "pressure": pressure, "draught": draught,
    "water level": water_level, "mass": mass, "volume": mass, "duration": duration,
    "event": event, "smoke": smoke, "value": value, **dict.fromkeys(MARKS, mark)}
NO_NUMBER = ("glowing", "not glowing")
"""quantities whose reading may stay empty and still be one"""


def _spot(row: Row) -> str:
    if not row.text("spot"):
        raise row.bad("spot", "nothing is written", "where it was read, as flue")
    try:
        return column_of(row.text("spot"), row.known)
    except QuantityError as error:
        raise row.refuse("spot", error) from error


def _listed(row: Row, names: dict[str, str]) -> str:
    """What a spot of a short list stands for."""
    spot = plain(row.text("spot"))
    there = {name: of for name, of in names.items()
             if not of.endswith("_Pa") or of in row.known.columns}
    if spot not in there:
        words = [name.replace("_", " ") for name in there if name]
        raise row.bad("spot", f"the model has no {row.text('quantity')} at '{row.text('spot')}'",
                      f"one of: {', '.join(words)}" if words else "there is none in this plant")
    return there[spot]


def _made(row: Row, measure: str, column: str, says: str, value: float, unit: str,
          parts: dict[str, float], instrument: str, corrected: float = math.nan,
          remarks: tuple[str, ...] = (), spot: str = "", happening: Any = None) -> Reading:
    since, time = row.span()
    if column and column not in row.known.columns:
        raise row.bad("spot", f"the model has no '{column}' in this plant", "another spot")
    plain_name = column.removeprefix("temperature_").removesuffix("_C").replace("_", " ")
    shown = spot or (plain_name if column.startswith("temperature_")
                     else row.text("spot") or row.text("quantity").lower())
    return Reading(row.number, value if measure == "event" else time, since, shown,
                   row.text("spot"), row.text("quantity").lower(), measure, column, says, value,
                   value if math.isnan(corrected) else corrected, unit, total(parts), instrument,
                   row.text("note"), happening, parts, remarks)


