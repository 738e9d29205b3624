"""Readings of what is seen to happen: events by the watch, and smoke at an opening."""

from __future__ import annotations

from thermsim.errors import QuantityError
from thermsim.network.firing import nearest, plain
from thermsim.readings.happenings import NOT, happening
from thermsim.readings.instruments import LIMIT, SMOKE_SPEED, event_uncertainty
from thermsim.readings.made import made
from thermsim.readings.reading import AT_LEAST, AT_MOST, UNSURE, VALUE, Reading
from thermsim.readings.row import Row

GRAMS, AIR_DENSITY = 1e3, 1.2
"""air as it comes in [kg/m3], to turn a speed into a flow"""
WAYS = {"in": AT_LEAST, "out": AT_MOST, "unsure": UNSURE}


def event(row: Row) -> Reading:
    """When something happened, by the time of its line."""
    no_unit(row)
    since, time = row.span()
    if since is not None:
        raise row.bad("time", "an event has one moment", "12 min 30 s +- is written as its "
                      "uncertainty")
    return _event(row, row.text("reading"), row.text("spot"), time, "reading")


def no_unit(row: Row) -> None:
    """Refuse a unit where there is no number: something stands in the wrong column."""
    if row.text("unit"):
        raise row.bad("unit", f"'{row.text('unit')}' stands where there is no number", "nothing")


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
    return made(row, "event", "", AT_LEAST if yet else VALUE, time, "s", parts, name,
                 spot=shown, happening=found)


def smoke(row: Row) -> Reading:
    """Which way a match's smoke goes at an opening: a limit of its net flow, none if unsure."""
    no_unit(row)
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
    return made(row, "column", f"flow_{opening}_g_per_s", WAYS[way], 0.0, "g/s", parts, name)
