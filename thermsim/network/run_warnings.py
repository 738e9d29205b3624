"""Warnings that a finished run carries: where it left what the model was made or measured for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.network.design_flow import ICE, NTU_MOST
from thermsim.network.sizes import ANTOINE_A, ANTOINE_B, ANTOINE_C, PASCAL_TO_TORR, ROUND_DRUM

Floats = NDArray[np.float64]
SHORTEST = 5.0
"""seconds under which a warning is not worth telling"""
LEAST_FLOW = 1e-4
"""flow [kg/s] up the chimney under which nothing settles there"""
DESIGN_SHARE = 0.25
"""share of the highest flow from which on a pass is held to what its cells can follow: the little
heat that less gas carries is given off in the first of them however they are cut"""
FIREBOX_ZONE = 1


def warnings_of(scenario: Any, assembly: Any, run: Any) -> list[str]:
    """Warnings that a run must carry; `run` is the solved firing with its gauges."""
    if not len(run.times):
        return []
    states = run.states
    return [*coarse_cells(assembly, run), *short_of_oxygen(scenario, run),
            *too_hot(assembly, run, states), *wet_chimney(scenario, assembly, run, states)]


def told(seconds: float) -> str:
    """A span of time in words.

    >>> told(42.4), told(330.0)
    ('42 s', '5.5 min')
    """
    return f"{seconds:.0f} s" if seconds < 120.0 else f"{seconds / 60.0:.3g} min"


def coarse_cells(assembly: Any, run: Any) -> Iterator[str]:
    """Passes of which a cell had more heat transfer units than it can follow while gas flowed."""
    worst: dict[str, tuple[float, float]] = {}
    flow = np.abs(run.gauge("chimney_flow"))
    flows = flow > max(LEAST_FLOW, DESIGN_SHARE * float(flow.max()))
    for cell in assembly.plant.cells:
        name = assembly.draft.index.names[int(cell["at"])]
        ntu = np.where(flows, run.gauges[:, int(cell["gauge"]) + 1], 0.0)
        seconds = run.seconds_above(ntu - NTU_MOST)
        given = name.removesuffix("_gas").rpartition("_")[0]
        most, longest = worst.get(given, (0.0, 0.0))
        worst[given] = (max(most, float(ntu.max())), max(longest, seconds))
    for given, (most, seconds) in worst.items():
        if seconds > SHORTEST:
            yield (f"A cell of '{given}' had over {NTU_MOST} heat transfer units for "
                   f"{told(seconds)} (most {most:.1f}): the heat there is a little wrong; write "
                   "more 'cells' in that pass.")


def short_of_oxygen(scenario: Any, run: Any) -> Iterator[str]:
    """A given fire that was told to burn more than the air allowed."""
    if scenario.tree["fire"]["kind"] != "given":
        return
    seconds = run.seconds_above(run.gauge("short"))
    if seconds > SHORTEST:
        yield (f"The given fire released its heat for {told(seconds)} although the air taken in "
               "held too little oxygen for it.")


def too_hot(assembly: Any, run: Any, states: Floats) -> Iterator[str]:
    """Walls hotter than their material stands in long service, a line for each part."""
    worst: dict[tuple[str, str, str], tuple[float, float, float]] = {}
    for spot in assembly.draft.spots:
        if spot.limit is None or not spot.material:
            continue
        T = states[:, spot.state]
        seconds = run.seconds_above(T - spot.limit)
        key = (spot.part.replace("_", " "), spot.side, spot.material)
        most, longest, _ = worst.get(key, (0.0, 0.0, 0.0))
        worst[key] = (max(most, float(T.max())), max(longest, seconds), spot.limit)
    for (part, side, material), (most, seconds, limit) in worst.items():
        if seconds > SHORTEST:
            yield (f"The {side} of the {part} reached {most - ICE:.0f} C and was for "
                   f"{told(seconds)} over {limit - ICE:.0f} C, the most that {material} stands "
                   "in long service.")


def wet_chimney(scenario: Any, assembly: Any, run: Any, states: Floats) -> Iterator[str]:
    """Water of the flue gas settling on the chimney's inside, once the gas has warmed it."""
    if scenario.tree["gas_path"][-1]["kind"] == ROUND_DRUM:
        return
    plant = assembly.plant
    cell = plant.cells[int(plant.segments[-1]["last"]) - 1]
    faces = plant.faces["at"][int(cell["face_first"]):int(cell["face_last"])]
    wall = states[:, faces].min(axis=1)
    dew = dew_points(assembly, states)
    burning = run.gauge("dry_burnt") > 0.0
    wet = (wall < dew) & burning & (run.gauge("chimney_flow") > LEAST_FLOW)
    seconds = run.integral(wet)
    if seconds > SHORTEST:
        yield (f"The inside of the chimney top was under the dew point of the gas (up to "
               f"{float(dew[wet].max()) - ICE:.0f} C) for {told(seconds)} while wood burnt: water "
               "and tar settle there.")


def firebox_shares(assembly: Any, states: Floats) -> Floats:
    """Mass shares of the gas in the firebox at each moment, air first, (times, shares)."""
    plant = assembly.plant
    first = int(plant.zones[FIREBOX_ZONE]["share"])
    shares = np.zeros((len(states), len(plant.basis)))
    shares[:, 1:] = states[:, first:first + len(plant.basis) - 1]
    shares[:, 0] = 1.0 - shares[:, 1:].sum(axis=1)
    return shares


def dew_points(assembly: Any, states: Floats) -> Floats:
    """Water dew point [K] of the gas in the firebox at each moment, by Antoine's equation."""
    plant = assembly.plant
    basis = plant.basis
    shares = firebox_shares(assembly, states)
    water = shares @ basis["water_moles"]
    moles = shares @ basis["gas_constant"]
    pressure = np.maximum(float(plant.day[0]["pressure"]) * water / moles, 1.0)
    found: Floats = (ANTOINE_B / (ANTOINE_A - np.log10(pressure * PASCAL_TO_TORR))
                     - ANTOINE_C + ICE)
    return found
