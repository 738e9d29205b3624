"""Names of places that a rule, a spot reading or a column may mean, and the states behind them."""

from __future__ import annotations

from thermsim.network.assemble import Assembly
from thermsim.network.firing import plain


def flue_state(assembly: Assembly) -> int:
    """State of the gas at the chimney foot: what comes out of the cell before it."""
    plant = assembly.plant
    foot = int(plant.totals[0]["foot_cell"])
    run = plant.segments[int(plant.cells[foot]["segment"])]
    if foot > int(run["first"]):
        return int(plant.cells[foot - 1]["at"])
    return int(plant.zones[int(run["from_zone"])]["at"])


def places(assembly: Assembly) -> dict[str, int]:
    """All places with a temperature, by plain name."""
    index = assembly.draft.index
    found = {plain(index.names[i]): int(i) for i in index.of_kind("gas", "solid")}
    found |= {plain(spot.name): spot.state for spot in assembly.draft.spots}
    found["flue"] = flue_state(assembly)
    return found
