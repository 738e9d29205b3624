"""A drum off the middle of its casing: the ways of the gas and the faces along them as rows.

A way is a list of strips, a strip a list of octants of the gap (see `uneven_gap`). Where gas
crosses, a way runs through its octants one behind another; where it runs along the drum, it has
two strips side by side. Against any number of strips that do not mix, two give 12 % more heat for
a drum half the gap off the middle and an NTU of 0.3 a cell, 5 % for 1; gas that mixes round the
drum gives more than either. Baffles as fins are taken as high as the gap in the middle.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from thermsim.network.draft import Draft, Row
from thermsim.network.sizes import bay_spacing, has_baffles, window
from thermsim.network.uneven_gap import (
    LAMINAR_POWER,
    OCTANTS,
    TURBULENT_POWER,
    mean,
    offset,
    over_octants,
    width,
    window_gaps,
)
from thermsim.parts.drum_pass import ALL_ROUND, BOTTOM, SIDES, TOP
from thermsim.physics.draught import LAMINAR_SLOT
from thermsim.physics.local_losses import TURN_PAST_BAFFLE

Octants = tuple[int, ...]
NEAR_HALF, FAR_HALF = (6, 7, 0, 1), (2, 3, 4, 5)
OVER, UNDER = (0, 1, 2, 3), (4, 5, 6, 7)
WHOLE = tuple(range(OCTANTS))
SIDE_OCTANTS = {TOP: (1, 2), SIDES: (0, 3, 4, 7), BOTTOM: (5, 6), ALL_ROUND: WHOLE}


@dataclass(frozen=True)
class Way:
    """Strips of octants, how many alike lanes it stands for, and how many a bay has in all."""

    strips: tuple[Octants, ...]
    lanes: int = 1
    of: int = 2

    @property
    def octants(self) -> Octants:
        """All octants it passes."""
        return tuple(octant for strip in self.strips for octant in strip)


def ways_of(drum: Any) -> tuple[Way, ...]:
    """The ways of a bay, or along the drum; none if the drum hangs in the middle."""
    if offset(drum) == 0.0:
        return ()
    if not has_baffles(drum):
        if drum["lies"]:
            return Way(((0, 1), (2, 3))), Way(((6, 7), (4, 5)))
        return (Way((NEAR_HALF, FAR_HALF)),)
    if drum["crossing"] == "one way round":
        return (Way((WHOLE,), of=1),)
    if drum["crossing"] == "both sides":
        return Way((NEAR_HALF,)), Way((FAR_HALF,))
    if drum["lies"]:
        return Way((OVER,)), Way((UNDER,))
    return (Way((WHOLE,), lanes=2),)


def face_parts(drum: Any, side: int) -> list[Row]:
    """Shares of a side's wall by way and strip, each with its own gap; the rest of a face's row."""
    ways = ways_of(drum)
    if not ways:
        return []
    on_side = SIDE_OCTANTS[side]
    parts = []
    for number, way in enumerate(ways):
        for strip, octants in enumerate(way.strips):
            here = tuple(o for o in octants if o in on_side)
            if here:
                parts.append({"share": len(here) / len(on_side), "gap": mean(drum, here, -1.0),
                              "wide": mean(drum, here, 1.0) / drum["gap"],
                              "way": number, "strip": strip})
    return parts


def way_rows(drum: Any, step: float) -> list[Row]:
    """Rows of the ways of a cell, without entry losses; step: the cell's length along the drum."""
    rows = [crossing_way(drum, way) if has_baffles(drum) else along_way(drum, way, step)
            for way in ways_of(drum)]
    ease = [row["area"] * row["D_h"] ** 2 / (row["friction"] * row["length"]) for row in rows]
    for row, part in zip(rows, ease, strict=True):
        row["guess"] = part / sum(ease)
    return rows


def crossing_way(drum: Any, way: Way) -> Row:
    """A way across: gaps in series, with 1/gap^3 to the loss; turns in the gap at the windows."""
    spacing, gap = bay_spacing(drum), mean(drum, way.octants, -LAMINAR_POWER)
    area = way.lanes * spacing * gap
    length = width(drum, way.octants) / way.lanes - (window(drum) if way.of == 1 else 0.0)
    gaps = window_gaps(drum)
    slowness = sum(g**-2 for g in gaps) / len(gaps)
    turn = (TURN_PAST_BAFFLE * (way.of / way.lanes) * area**2
            / (way.lanes * spacing * window(drum)) * slowness)
    return {"area": area, "D_h": 2.0 * gap, "length": length, "friction": LAMINAR_SLOT,
            "turn": turn, "even": way.lanes / way.of, "onto": (gap / drum["gap"]) ** 2,
            "strip": 1.0, "strip_laminar": 1.0, "strip_turbulent": 1.0}


def along_way(drum: Any, way: Way, step: float) -> Row:
    """A way along: strips side by side. Its gap is the one that carries as much in turbulent flow;
    the friction constant makes laminar flow right: 96/(1 + 1.5 e^2) all round a narrow gap."""
    octants, near = way.octants, way.strips[0]
    across = width(drum, octants)
    gap = mean(drum, octants, TURBULENT_POWER)

    def part(power: float) -> float:
        """Share of the first strip in what goes with a power of the gap."""
        def law(gap: float) -> float:
            return gap**power

        return over_octants(drum, near, law) / over_octants(drum, octants, law)

    return {"area": across * gap, "D_h": 2.0 * gap, "length": step,
            "friction": LAMINAR_SLOT * (gap / mean(drum, octants, LAMINAR_POWER)) ** 3,
            "turn": 0.0, "even": 1.0, "onto": (gap / mean(drum, octants, 1.0)) ** 2,
            "strip": part(0.0), "strip_laminar": part(LAMINAR_POWER),
            "strip_turbulent": part(TURBULENT_POWER)}


def add_ways(draft: Draft, step: float, forward: float, backward: float) -> tuple[int, int]:
    """Rows of a cell's ways, entry and exit losses counted on the mean gap; first and last row."""
    first = draft.count("ways")
    for row in way_rows(draft.tree["drum"], step):
        onto = row.pop("onto")
        draft.row("ways", loss_forward=onto * forward, loss_backward=onto * backward, **row)
    return first, draft.count("ways")
