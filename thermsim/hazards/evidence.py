"""What the checks go by: the plant as written and what a firing of it showed, if there was one."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermsim.hazards.moments import minutes
from thermsim.network.sizes import air_pressure, drum_volume
from thermsim.physics.if97 import saturation_temperature
from thermsim.physics.relief import OVERPRESSURE
from thermsim.results.moments import lit_at

Floats = NDArray[np.float64]
ZERO_C, BAR = 273.15, 1e5
HELD = 1e4
"""gauge pressure [Pa] from which on a drum counts as under pressure"""
STRONG = 60.0
"""the strongest moment is the mean over so long [s]"""
SIDES = ("top", "sides", "bottom")
BURNS = 0.1
"""share of the strongest fire from which on it counts as burning"""


@dataclass(frozen=True)
class Evidence:
    """tree: the scenario's values; the others as in a result, None if nothing was fired."""

    tree: Any
    summary: Mapping[str, Any] | None = None
    series: pd.DataFrame | None = None
    events: pd.DataFrame | None = None

    @property
    def fired(self) -> bool:
        """Whether there was a firing with its series."""
        return self.summary is not None and self.series is not None and len(self.series) > 0

    @property
    def drum(self) -> Any:
        """The drum, or None."""
        return self.tree["drum"] or None

    @property
    def air(self) -> float:
        """The day's air [C]."""
        return float(self.tree["day"]["air"]) - ZERO_C

    @cached_property
    def outside(self) -> float:
        """The day's pressure [Pa]."""
        return air_pressure(self.tree)

    def answer(self, key: str) -> Any:
        """An answer of the summary; None where there is none."""
        return None if self.summary is None else self.summary.get(key)

    def peak(self, key: str, part: str) -> float | None:
        """The highest of an answer that is told by part, over the part's sides."""
        held = self.answer(key) or {}
        some = [float(held[name]) for name in (part, *(f"{part}_{side}" for side in SIDES))
                if held.get(name) is not None]
        return max(some, default=None)

    @cached_property
    def lit(self) -> float:
        """When the fire was lit, on the clock of the series [s]."""
        return 0.0 if self.events is None else lit_at(self.events)

    @cached_property
    def times(self) -> Floats:
        """Times of the series from lighting [s]."""
        return self.column("time_s") - self.lit

    def column(self, name: str) -> Floats:
        """A column of the series; noughts where there is none, no rows without a firing."""
        if self.series is None:
            return np.zeros(0)
        if name not in self.series:
            return np.zeros(len(self.series))
        return self.series[name].to_numpy(dtype=float)

    def names(self, part: str, ends: str) -> list[str]:
        """Columns of a part's temperatures, slice by slice and side by side; ends: as 'inside'."""
        if self.series is None:
            return []
        column = re.compile(rf"temperature_{re.escape(part)}(_\d+)?(_(lower|sides|top|bottom))?"
                            rf"_{ends}_C")
        return [name for name in map(str, self.series) if column.fullmatch(name)]

    def hottest(self, part: str, ends: str) -> Floats:
        """The highest temperature of a part, row by row [C]."""
        if self.series is None:
            return np.zeros(0)
        some = self.names(part, ends)
        if not some:
            return np.full(len(self.series), -ZERO_C)
        return self.series[some].to_numpy(dtype=float).max(axis=1)

    def first(self, holds: NDArray[np.bool_]) -> float | None:
        """The first moment of the series for which something holds [s from lighting]."""
        return float(self.times[int(np.argmax(holds))]) if holds.any() else None

    def first_over(self, values: Floats, limit: float) -> float | None:
        """The first moment over a limit [s from lighting]."""
        return self.first(values > limit)

    def first_where(self, holds: Callable[[int], bool]) -> float | None:
        """The first row for which something holds [s from lighting]."""
        return next((float(t) for k, t in enumerate(self.times) if holds(k)), None)

    def mean_over(self, values: Floats, seconds: float) -> Floats:
        """Running means over so many seconds; over what there is if that is less."""
        if len(values) < 2:
            return values
        step = float(np.median(np.diff(self.times)))
        number = min(max(round(seconds / max(step, 1e-9)), 1), len(values))
        made: Floats = np.convolve(np.nan_to_num(values), np.ones(number) / number, mode="valid")
        return made

    @cached_property
    def over(self) -> Floats:
        """Gauge pressure in the drum [Pa]."""
        return self.column("drum_pressure_Pa") - self.outside

    @cached_property
    def burning(self) -> NDArray[np.bool_]:
        """Rows in which the fire burns."""
        power = self.column("firepower_W")
        holds: NDArray[np.bool_] = power > BURNS * max(power.max(initial=0.0), 1.0)
        return holds

    @cached_property
    def strongest(self) -> float | None:
        """Most heat into the water [W], mean of a minute; None without a firing."""
        if not self.fired or not self.drum:
            return None
        return float(self.mean_over(self.column("heat_to_water_W"), STRONG).max(initial=0.0))

    @cached_property
    def set_pressure(self) -> float | None:
        """What the safety valve is set to, gauge [Pa]."""
        valve = self.drum["safety_valve"] if self.drum else None
        return float(valve["set"]) if valve else None

    @cached_property
    def reached(self) -> float:
        """Highest gauge pressure of the firing [Pa]."""
        return float(self.answer("peak_pressure_bar_gauge") or 0.0) * BAR

    @cached_property
    def working(self) -> float:
        """The pressure that the parts have to bear, gauge [Pa]: the set pressure, or what was
        reached if that is over the tenth more that codes let a valve have."""
        opens = self.set_pressure or 0.0
        return opens if self.reached <= (1.0 + OVERPRESSURE) * opens else self.reached

    @property
    def shut(self) -> bool:
        """Whether the drum is meant to be, or was, under pressure."""
        if not self.drum:
            return False
        valves = self.drum["safety_valve"] or self.drum["stop_valve"]
        return bool(valves) or self.vent_shut or self.reached >= HELD

    @property
    def vent_shut(self) -> bool:
        """Whether the vent is, or comes to be, shut or nearly so by hand."""
        deeds = [deed for entry in self.tree["firing"] or () for deed in entry["do"]]
        return self.drum["vent_open"] < 1.0 or any(
            deed.startswith(("shut vent", "set vent")) for deed in deeds)

    @cached_property
    def boiling(self) -> float:
        """Saturation at the working pressure [K]."""
        return float(saturation_temperature(self.working + self.outside))

    @cached_property
    def volume(self) -> float:
        """What the drum holds [m3]."""
        return drum_volume(self.drum)

    @cached_property
    def drum_wall(self) -> Floats:
        """The hotter of the drum's walls, dry and wet [C], row by row."""
        return np.maximum(self.column("temperature_drum_wet_wall_C"),
                          self.column("temperature_drum_dry_wall_C"))

    @cached_property
    def drum_metal(self) -> float:
        """Hottest metal of the drum [K]: of the firing; without one no cooler than its water."""
        peaks = [self.peak("peak_temperature_C", f"drum_{side}_wall") for side in ("wet", "dry")]
        hottest = max((peak + ZERO_C for peak in peaks if peak is not None), default=0.0)
        return max(hottest, self.boiling)

    @property
    def not_fired(self) -> tuple[str, ...]:
        """What is missing of a plant that was not fired."""
        return () if self.fired else ("a firing",)

    def passed(self, since: float | None, words: str = "passed") -> str:
        """When a limit was passed, as the end of a sentence; nothing if nothing was fired."""
        if since is not None:
            return f"; {words} {minutes(since)}"
        return "; this firing did not come to it" if self.fired else ""
