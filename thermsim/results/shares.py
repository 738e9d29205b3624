"""The ledger in a few shares a builder asks for: parts taken together, of the heat really burnt."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pandas as pd

LEFT = "fuel_left"
"""wood and charcoal still there: not burnt, so no share of what was"""
OUTSIDE, STORED = "lost_", "stored_"
PLACES = {"top", "sides", "bottom", "shell", "back", "ends", "lower", "middle", "upper"}
"""last words of a row that tell where on a part; the last three also lengths of a chimney"""
BODY = "still in the hot body"
SAYS = {
    "water_heating": "heating the water",
    "steam_at_vent": "making steam that left by the vent",
    "steam_to_line": "making steam that left by the stop valve",
    "steam_at_safety_valve": "making steam that the safety valve blew off",
    "engine_work": "work at the piston",
    "exhaust": "making steam that the engine let go",
    "air_at_vacuum_valve": "with the air that the vacuum valve let in",
    "unburnt": "unburnt in the gas",
    "drying_wood": "drying the wood",
    "flue_gas": "up the chimney with the gas",
    "smoke": "out of the openings with the smoke",
}


def _rows(ledger: pd.DataFrame) -> Iterator[tuple[str, str, float, str]]:
    """(row, group, share of the heat burnt, label), without what came in or is left unburnt."""
    kept = [(str(row["row"]), str(row["group"]), float(row["share_of_fuel"]), str(row["label"]))
            for row in ledger.to_dict("records")
            if row["group"] in ("useful", "stored", "lost")]
    left = sum(share for row, _, share, _ in kept if row == LEFT and math.isfinite(share))
    burnt = 1.0 - left
    for row, group, share, label in kept:
        if row != LEFT and math.isfinite(share) and burnt > 0.0:
            yield row, group, share / burnt, label


def part_of(row: str) -> str:
    """The part that a row of losses belongs to: its outsides and lengths are taken together.

    >>> part_of("lost_casing_top"), part_of("lost_smoke_duct_sides"), part_of("flue_gas")
    ('casing', 'smoke_duct', 'flue_gas')
    """
    if not row.startswith(OUTSIDE):
        return row
    words = row.removeprefix(OUTSIDE).split("_")
    while len(words) > 1 and (words[-1] in PLACES or words[-1].isdigit()):
        words.pop()
    return "_".join(words)


def losses_by_part(ledger: pd.DataFrame) -> dict[str, float]:
    """Share of the heat burnt that each part loses, all its outside surfaces together."""
    losses: dict[str, float] = {}
    for row, group, share, _ in _rows(ledger):
        if group == "lost":
            losses[part_of(row)] = losses.get(part_of(row), 0.0) + share
    return losses


def shares_by_destination(ledger: pd.DataFrame) -> list[tuple[str, float]]:
    """Where the heat burnt went, in words, the largest share first."""
    shares: dict[str, float] = {}
    for row, _, share, label in _rows(ledger):
        if row.startswith(STORED):
            says = BODY
        elif row.startswith(OUTSIDE):
            says = f"through the outside of the {part_of(row).replace('_', ' ')}"
        else:
            says = SAYS.get(row, label)
        shares[says] = shares.get(says, 0.0) + share
    return sorted(shares.items(), key=lambda one: -one[1])
