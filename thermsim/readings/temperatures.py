"""Readings of temperatures: infrared, thermocouple, and marks that are limits of them."""

from __future__ import annotations

from thermsim.readings.correction import ROUND_DOUBT, SET, Look, correct
from thermsim.readings.happenings import NOT
from thermsim.readings.instruments import BARE_SHARE, GLOWS_C, LIMIT, standard
from thermsim.readings.made import made, spot_column
from thermsim.readings.reading import AT_LEAST, AT_MOST, VALUE, Reading
from thermsim.readings.row import ZERO_C, Row
from thermsim.readings.targets import emissivity_in_scenario, target_size

COLDEST_C, HOTTEST_C = -60.0, 2000.0
MARKS = {"melted": (AT_LEAST, "crayon"), "not melted": (AT_MOST, "crayon"),
         "browned": (AT_LEAST, "paint"), "not browned": (AT_MOST, "paint"),
         "glowing": (AT_LEAST, "eye"), "not glowing": (AT_MOST, "eye")}


def temperature(row: Row) -> Reading:
    """Of a place; an infrared thermometer's is corrected."""
    column = spot_column(row)
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
        return made(row, "column", column, VALUE, value, "C", parts, name)
    look = _look(row, column, value)
    seen = correct(look, parts["instrument"])
    if seen is None:
        raise row.bad("reading", f"{value:.0f} C is less than the surroundings alone would show",
                      "another emissivity, or the temperature of what is mirrored, under reflected")
    return made(row, "column", column, VALUE, value, "C", seen.parts, name,
                 corrected=seen.value, remarks=seen.remarks, look=look)


def _look(row: Row, column: str, shown: float) -> Look:
    air = float(row.known.tree.day.air) - ZERO_C
    around = row.optional("reflected", "temperature")
    if around is None and column.endswith("_inside_C"):
        raise row.bad("reflected", "an inside mirrors fire and hot walls",
                      "the temperature of what stands round it, as 600 C +- 100 K")
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
    column = spot_column(row)
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
    return made(row, measure, column, says, value, "C", parts, name)
