"""Curves of measured spots before and after, with readings and bands, as the plots want them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from thermsim.calibrating.beside import Beside
from thermsim.calibrating.fired import Fired
from thermsim.calibrating.outlook import SpotBand
from thermsim.calibrating.readings import corrected_anew
from thermsim.plots.fit_curves import Spot
from thermsim.readings.held import Held, hold
from thermsim.readings.meeting import in_unit
from thermsim.readings.pictured import by_curve, panel_of
from thermsim.readings.reading import ReadingsFile
from thermsim.results.moments import lit_at

if TYPE_CHECKING:
    from thermsim.calibrating.calibrate import Calibrated

MINUTE = 60.0


def fired_of(made: Calibrated, firing: str) -> Beside | None:
    """A firing before and after; that of the file's own scenario if it has none of its own. None
    if it could not be fired."""
    own = {back.firing: back for back in made.backs}.get(firing)
    base = made.backs[0]
    alike = own is None or (own.was.text, own.changes) == (base.was.text, base.changes)
    return next((one for one in made.fired if one.firing == ("" if alike else firing)), None)


def held_of(one: Fired, result: Any) -> Held:
    """Readings of a firing beside a result of it, corrected with its emissivities."""
    readings = tuple(corrected_anew(reading, result.scenario)
                     for reading in getattr(one.readings, "readings", ()))
    return hold(ReadingsFile(one.name, readings), result)


def spots_pictured(made: Calibrated, one: Fired) -> list[Spot]:
    """A panel for each spot of a firing with a curve."""
    fired = fired_of(made, one.name)
    if fired is None:
        return []
    held = held_of(one, fired.after)
    bands = {(band.spot.column, band.spot.unit): band for band in made.ahead.curves
             if band.firing == one.name}
    series = fired.before.series
    minutes = (series["time_s"].to_numpy(dtype=np.float64) - lit_at(fired.before.events)) / MINUTE
    found = []
    for key, rows in by_curve(held).items():
        before = in_unit(series[key[0]].to_numpy(dtype=np.float64), rows[0].reading, fired.before)
        found.append(_spot(panel_of(held, rows), minutes, before, bands.get(key)))
    return found


def _spot(panel: Any, minutes: Any, before: Any, band: SpotBand | None) -> Spot:
    if band is None:
        return Spot(panel, minutes, before)
    return Spot(panel, minutes, before,
                (band.moments / MINUTE, band.linear.low, band.linear.high),
                None if band.sampled is None else (band.sampled.low, band.sampled.high))
