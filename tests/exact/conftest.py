"""A plant on the bench: real scenario text and assembly, states set by hand, some of them held."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable, Iterable
from typing import Any

import numpy as np
import pytest

BASE = """
thermsim: 1
title: bench plant, invented
day:
  air: 15 C
  pressure: 1013.25 hPa
  humidity: 0 %
  wind: 0 m/s
wood:
  kind: reference wood
  thickness: 20 mm
firebox:
  width: 200 mm
  depth: 200 mm
  height: 300 mm
  grate: 100 mm
"""
NO_FIRE = """
fire:
  kind: none
"""
DOOR = """
openings:
  door:
    width: 60 mm
    height: 60 mm
    sill: 100 mm
    fit: sealed
"""
STACK = """
gas_path:
  - name: stack
    kind: chimney
    diameter: 130 mm
    length: 1.8 m
"""


class Bench:
    """A plant in hand; states by name in `y`, the real balance in `evaluate` and `march`."""

    def __init__(self, scenario: Any) -> None:
        from thermsim.network.assemble import assemble
        from thermsim.network.system import PlantSystem

        self.system = PlantSystem(assemble(scenario))
        self.assembly = self.system.assembly
        self.plant = self.assembly.plant
        self.index = self.assembly.draft.index
        self.y = self.system.start.copy()
        self.dy = np.zeros_like(self.y)
        self.watts = np.zeros(self.assembly.watts_count)
        self.gauges = np.zeros(self.assembly.draft.gauge_count)

    def names(self, *parts: str) -> list[str]:
        """States whose names hold all the parts given."""
        return [name for name in self.index.names if all(part in name for part in parts)]

    def put(self, names: str | Iterable[str], value: float) -> None:
        """Set states, by name."""
        for name in [names] if isinstance(names, str) else names:
            self.y[self.index[name]] = value

    def warm(self, T: float) -> None:
        """Set every temperature."""
        self.y[self.index.of_kind("gas", "solid")] = T

    def value(self, name: str) -> float:
        """A state, by name."""
        return float(self.y[self.index[name]])

    def evaluate(self, t: float = 0.0) -> np.ndarray:
        """Rates of all states as they stand; watts and gauges are filled too."""
        from thermsim.network.balance import evaluate

        evaluate(np.array([t]), self.y[None], self.plant, self.dy[None], self.watts[None],
                 self.gauges[None], np.zeros((0, 0)))
        return self.dy

    def heat(self, name: str) -> float:
        """What a node gets [W] at the last evaluation."""
        return float(self.plant.heat[self.index[name]])

    def gauge(self, name: str) -> float:
        """A gauge of the balance at the last evaluation."""
        return float(self.gauges[self.system.reading(name)])

    def lost(self, surface: str) -> float:
        """What a named outside surface lost [W] at the last evaluation."""
        from thermsim.parts.watts import FIRST_SURFACE

        names = self.assembly.draft.surface_names
        return float(self.watts[FIRST_SURFACE + names.index(surface)])

    def march(self, seconds: float, held: Iterable[str] = (), rtol: float = 1e-8,
              start: float = 0.0) -> Any:
        """Solve with the project's own solver, the states named in `held` standing still."""
        from thermsim.solver import ArraySystem, Settings, solve

        still = np.array([self.index[name] for name in held], dtype=np.int64)

        def rates(t: float, y: np.ndarray) -> np.ndarray:
            dy = self.system.rates(t, y)
            dy[still] = 0.0
            return dy

        n = len(self.y)
        system = ArraySystem(rates, self.system.names, np.ones((n, n), dtype=bool),
                             self.system.absolute_tolerances * (rtol / 1e-5),
                             self.system.uncontrolled)
        solution = solve(system, self.y, start + seconds, settings=Settings(rtol=rtol), t0=start)
        assert solution.outcome.key == "finished", solution.outcome
        self.y = solution.trajectory(start + seconds).copy()
        self.evaluate(start + seconds)
        return solution.trajectory

    def gas_and_shares(self) -> list[str]:
        """States of gas: temperatures and shares, and the flows."""
        places = self.index.of_kind("gas", "share", "flow")
        return [self.index.names[i] for i in places]


@pytest.fixture(scope="session")
def base() -> str:
    """Day, wood and firebox of the bench plant, as text."""
    return BASE


@pytest.fixture(scope="session")
def bench() -> Callable[..., Bench]:
    """`bench(*blocks, base=, changes=)`: a plant from blocks of scenario text over a bare base."""
    from thermsim.network.checks import CHECKS
    from thermsim.scenario.load import load_text

    def make(*blocks: str, base: str = BASE, changes: Iterable[str] = ()) -> Bench:
        given = "\n".join(map(textwrap.dedent, blocks))
        keys = re.findall(r"^\w+:", given, re.MULTILINE)
        usual = [block for block in (base, NO_FIRE, DOOR, STACK)
                 if block.strip().partition(":")[0] + ":" not in keys]
        text = "\n".join([*usual, given])
        return Bench(load_text(text, tuple(changes), checks=CHECKS))

    return make
