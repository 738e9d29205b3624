"""The plant as the solver sees it: rates, pattern, tolerances, plausibility; and its readings.

Doors and charges are changed by acts as the firing goes. Each change is remembered with its
time, so that the heat account, the gauges and the events can be evaluated afterwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import direct, entry
from thermsim.network.assemble import Assembly
from thermsim.network.balance import GAUGES, evaluate
from thermsim.network.pattern import jacobian_pattern, summand_pattern
from thermsim.parts.drum import read_drum

Floats = NDArray[np.float64]

COLDEST, HOTTEST = 150.0, 3500.0
"""temperatures [K] beyond which a solution is called implausible"""
SHARE_MARGIN = 0.05
"""how far a share may leave 0 to 1 before a solution is called implausible"""


@entry
def within(y, hot, shares):
    """Whether all temperatures and shares are within their bounds."""
    for i in hot:
        if not COLDEST <= y[i] <= HOTTEST:
            return False
    for i in shares:  # noqa: SIM110 - compiled code has no `all` over a generator
        if not -SHARE_MARGIN <= y[i] <= 1.0 + SHARE_MARGIN:
            return False
    return True


@entry
def drum_now(y, plant, shown):
    """Fill water temperature [K], pressure [Pa] and filled share of the drum; none without one."""
    if plant.drum[0].there == 1:
        read_drum(y, plant)
        shown[0] = plant.drum[0].water_T
        shown[1] = plant.drum[0].pressure
        shown[2] = plant.drum[0].level


class InDrum(NamedTuple):
    """Temperature of the water [K], pressure [Pa], share of the drum that is filled."""

    water: float
    pressure: float
    level: float


@dataclass
class PlantSystem:
    """A plant with what the solver asks for; see `solver.System`."""

    assembly: Assembly
    history: list[tuple[float, Any, Any]] = field(default_factory=list)

    def __post_init__(self) -> None:
        index = self.assembly.draft.index
        self.names: Sequence[str] = index.names
        self.absolute_tolerances = index.tolerances
        self.uncontrolled = index.of_kind("total")
        self.pattern = jacobian_pattern(self.assembly.draft, self.assembly.plant)
        self.difference_pattern, self.difference_rows = summand_pattern(
            self.assembly.draft, self.assembly.plant)
        self.typical = index.typical
        self.sharper = index.sharper
        self._quick = evaluate
        self._quick_drum = drum_now
        self._in_drum = np.zeros(3)
        self._moment = np.zeros(1)
        self._watts = np.zeros((1, self.assembly.watts_count))
        self._gauges = np.zeros((1, self.assembly.draft.gauge_count))
        self._no_rows = np.zeros((0, len(self.difference_rows)))
        self._hot = index.of_kind("gas", "solid")
        self._shares = index.of_kind("share")
        self.remember(0.0)

    @property
    def start(self) -> Floats:
        """States at the start, (n,)."""
        return self.assembly.draft.index.start

    def rates(self, t: float, y: Floats) -> Floats:
        """Rate of change of every state."""
        dy = np.empty((1, len(y)))
        self._moment[0] = t
        self._quick(self._moment, np.ascontiguousarray(y)[None], self.assembly.plant, dy,
                    self._watts, self._gauges, self._no_rows)
        if self._quick is evaluate:
            self._quick = direct(evaluate)
        return dy[0]

    def colour_rates(self, t: float, y: Floats, groups: Any, steps: Floats) -> Floats:
        """Rates, summands apart, with each group of columns moved by its steps."""
        colours = int(groups.max()) + 1
        states = y + (groups == np.arange(colours)[:, None]) * steps
        return self._split(np.full(colours, t), states)

    def difference_rates(self, t: float, y: Floats) -> Floats:
        """Rates with the summands of dense rows apart, (rows,)."""
        rows: Floats = self._split(np.array([t]), y[None])[0]
        return rows

    def _split(self, times: Floats, states: Floats) -> Floats:
        rows = np.empty((len(times), len(self.difference_rows)))
        self._evaluate(times, states, rows)
        return rows

    def _evaluate(self, times: Floats, states: Floats, rows: Floats) -> tuple[Floats, Floats]:
        """Ledger rows and gauges of many moments; fills `rows` if it has any."""
        watts = np.zeros((len(times), self.assembly.watts_count))
        gauges = np.zeros((len(times), self.assembly.draft.gauge_count))
        evaluate(times, np.ascontiguousarray(states), self.assembly.plant, np.empty(states.shape),
                 watts, gauges, rows)
        return watts, gauges

    def plausible(self, t: float, y: Floats) -> str | None:
        """None, or what cannot be: a temperature or a share out of all bounds."""
        if within(y, self._hot, self._shares):
            return None
        hot = y[self._hot]
        if hot.min() < COLDEST or hot.max() > HOTTEST:
            worst = int(np.argmax(np.abs(hot - 500.0)))
            name = self.names[self._hot[worst]]
            return f"{name} at {hot[worst] - 273.15:.0f} C"
        shares = y[self._shares]
        if shares.min() < -SHARE_MARGIN or shares.max() > 1.0 + SHARE_MARGIN:
            worst = int(np.argmax(np.abs(shares - 0.5)))
            return f"{self.names[self._shares[worst]]} at {shares[worst]:.3f}"
        return None

    def remember(self, t: float) -> None:
        """Keep doors and pulses as they are from time t on."""
        plant = self.assembly.plant
        self.history.append((t, plant.controls.copy(), plant.pulses.copy()))

    def recall(self, number: int) -> None:
        """Set doors and pulses back to the numbered entry of the history."""
        _, controls, pulses = self.history[number]
        self.assembly.plant.controls[:] = controls
        self.assembly.plant.pulses[:] = pulses

    def read(self, times: Floats, states: Floats, left: bool = False) -> tuple[Floats, Floats]:
        """Ledger rows and gauges at times in order, with the doors as they were then."""
        watts = np.zeros((len(times), self.assembly.watts_count))
        gauges = np.zeros((len(times), self.assembly.draft.gauge_count))
        starts = np.array([t for t, _, _ in self.history])
        which = np.searchsorted(starts, times, side="left" if left else "right") - 1
        which = np.maximum(which, 0)
        for number in np.unique(which):
            self.recall(int(number))
            rows = np.flatnonzero(which == number)
            watts[rows], gauges[rows] = self._evaluate(times[rows], states[rows], self._no_rows)
        self.recall(len(self.history) - 1)
        return watts, gauges

    def in_drum(self, y: Floats) -> InDrum:
        """Water, pressure and level in the drum: what rules ask at every step, without the rest."""
        self._quick_drum(np.ascontiguousarray(y), self.assembly.plant, self._in_drum)
        if self._quick_drum is drum_now:
            self._quick_drum = direct(drum_now)
        water, pressure, level = self._in_drum.tolist()
        return InDrum(water, pressure, level)

    def reading(self, name: str) -> int:
        """Place of a gauge of the fire or the drum, by its name in balance.GAUGES."""
        return self.assembly.gauge_first + GAUGES.index(name)
