"""Which rate depends on which state: the Jacobian's pattern, from the tables of the plant.

Built from streams over both flow directions, resistances and faces; never from probing. States
that set the fuel's gas, hence every flow, count as touching everything.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from thermsim.network.draft import Draft
from thermsim.network.plant import Plant
from thermsim.parts.gas import SHARES
from thermsim.parts.gas_pass import DRUM_GAP

Pattern = NDArray[np.bool_]


def summand_pattern(draft: Draft, plant: Plant) -> tuple[Pattern, NDArray[np.int64]]:
    """Pattern of the rates with their summands apart, and the state that each row belongs to.

    Momentum, and the heat of the drum's two walls, are sums over cells: as rows they would touch
    every cell's column. Their summands, a row for each cell, come after the states' own rows
    (balance.split_rows).
    """
    used = jacobian_pattern(draft, plant)
    rows = list(range(len(draft.index)))
    local = _local_columns(plant, used.shape[0])
    drum = plant.drum[0]
    walls = [int(drum["wet"]), int(drum["dry"])] if drum["there"] else []
    sums = [*flow_rows(plant), *walls]
    own = used.copy()
    for row in sums:
        own[row] &= ~np.any(list(local.values()), axis=0)
    parts = [own]
    everywhere = np.zeros(used.shape[0], dtype=bool)
    everywhere[fire_columns(plant)] = True
    if drum["there"]:
        everywhere[[*walls, int(drum["wetted"])]] = True
    for row in [*flow_rows(plant), int(drum["wet"]), int(drum["dry"])]:
        for columns in local.values():
            parts.append((columns | everywhere)[None])
            rows.append(row)
    return np.vstack(parts), np.array(rows, dtype=np.int64)


def _local_columns(plant: Plant, n: int) -> dict[int, Pattern]:
    """Columns by cell that act on its push and on its heat to the drum: itself, nearby, walls."""
    found: dict[int, Pattern] = {}
    for run in plant.segments:
        first, last = int(run["first"]), int(run["last"])
        for c in range(first, last):
            columns = np.zeros(n, dtype=bool)
            for k in range(max(c - 1, first), min(c + 2, last)):
                columns[int(plant.cells[k]["at"])] = True
            cell = plant.cells[c]
            for j in range(int(cell["face_first"]), int(cell["face_last"])):
                columns[int(plant.faces[j]["at"])] = True
            found[c] = columns
    return found


def jacobian_pattern(draft: Draft, plant: Plant) -> Pattern:
    """True where a row's rate may depend on a column's state, (n, n)."""
    n = len(draft.index)
    used = np.eye(n, dtype=bool)
    used[:, draft.index.of_kind("total")] = False
    _walls(used, plant)
    _cells(used, plant)
    _firebox(used, plant)
    _drum(used, plant)
    everywhere = fire_columns(plant)
    used[:, everywhere] = True
    _steam_way(used, plant)
    return used


def fire_columns(plant: Plant) -> list[int]:
    """States that set how much gas the fuel makes, or the flows: they touch every row."""
    fire = plant.fire[0]
    columns = [int(fire[k]) for k in ("unlit", "alight", "char", "crust", "ash", "bed", "flame")]
    for zone in plant.zones[:-1]:
        columns += [int(zone["at"]), *range(int(zone["share"]), int(zone["share"]) + SHARES)]
    columns += [int(opening["flow"]) for opening in plant.openings]
    return [*columns, int(plant.patches[1]["at"])]


def flow_rows(plant: Plant) -> list[int]:
    """Rows of momentum: they feel the weight of gas in every cell."""
    return [int(opening["flow"]) for opening in plant.openings]


def _walls(used: Pattern, plant: Plant) -> None:
    for link in plant.links:
        used[link["a"], link["b"]] = used[link["b"], link["a"]] = True


def _cells(used: Pattern, plant: Plant) -> None:
    """A cell, its neighbours, its walls; the drum's two walls; momentum."""
    momentum = flow_rows(plant)
    drum = [int(plant.drum[0]["wet"]), int(plant.drum[0]["dry"])]
    for run in plant.segments:
        zones = [int(plant.zones[run[k]]["at"]) for k in ("from_zone", "to_zone")]
        zones = [z for z in zones if z < used.shape[0]]
        first, last = int(run["first"]), int(run["last"])
        for c in range(first, last):
            cell = plant.cells[c]
            walls = [int(plant.faces[j]["at"]) for j in
                     range(int(cell["face_first"]), int(cell["face_last"]))]
            if cell["kind"] == DRUM_GAP:
                walls += drum
            near = [int(plant.cells[k]["at"]) for k in (c - 1, c, c + 1) if first <= k < last]
            own = int(cell["at"])
            for rows in (walls, near, momentum):
                used[np.ix_(rows, [own, *walls])] = True
            for neighbour in near:
                used[walls, neighbour] = True
            used[zones, own] = True


def _firebox(used: Pattern, plant: Plant) -> None:
    """What shines and is warmed in the firebox: every patch, the bed, both gas zones."""
    group = [int(p["at"]) for p in plant.patches] + [int(z["at"]) for z in plant.zones[:2]]
    used[np.ix_(group, group)] = True


def _drum(used: Pattern, plant: Plant) -> None:
    """The drum's states among themselves, and on all that its wet share touches."""
    drum = plant.drum[0]
    if not drum["there"]:
        return
    states = [int(drum[k]) for k in ("mass", "energy", "air", "wet", "dry", "wetted",
                                       "mist")]
    used[np.ix_(states, states)] = True
    totals = [int(plant.totals[0][total]) for total in ("steam_out", "fed", "feed_heat")]
    totals_out = [int(outlet[k]) for outlet in plant.outlets for k in ("total", "heat")]
    for total in (*totals, *totals_out):
        used[total, states] = True
    held = [int(feed["held"]) for feed in plant.feeds if feed["held"] >= 0]
    used[np.ix_([*held, *states, *totals], [*held])] = True
    used[np.ix_(held, states)] = True
    touched = flow_rows(plant) + [int(p["at"]) for p in plant.patches]
    touched += [int(z["at"]) for z in plant.zones[:2]]
    for cell in plant.cells:
        if cell["kind"] == DRUM_GAP:
            touched.append(int(cell["at"]))
            touched += [int(plant.faces[j]["at"]) for j in
                        range(int(cell["face_first"]), int(cell["face_last"]))]
    for state in ("wet", "dry", "wetted"):
        used[touched, int(drum[state])] = True


def _steam_way(used: Pattern, plant: Plant) -> None:
    """Tubes, line and engine: each slice feels what comes along, from all slices before it.

    What the fire does reaches the line's flow and pressure through the tubes' walls alone.
    """
    drum = plant.drum[0]
    contents = [int(drum[k]) for k in ("mass", "energy", "air")] if drum["there"] else []
    walls = [int(tube["at"]) for tube in plant.tubes]
    last = int(plant.line[0]["last"]) if len(plant.line) else 0
    for line in plant.line:
        own = [int(line[k]) for k in ("flow", "pressure", "water")]
        totals = [int(line[k]) for k in ("held", "out")]
        totals += [int(engine[k]) for engine in plant.engine for k in ("steam", "work")]
        totals += [int(outlet[k]) for outlet in plant.outlets for k in ("total", "heat")]
        totals.append(int(plant.totals[0]["steam_out"]))
        used[own] = False
        steam = [*own, *walls[:last], *contents]
        used[np.ix_([*own, *totals], steam)] = True
        used[np.ix_([*walls[:last], *contents], [*own[:2], *contents])] = True
        for i in range(last):  # where an engine stands, its walls share what they condense
            used[walls[0 if len(plant.engine) else i:last], walls[i]] = True
        if any(int(engine["exhaust"]) for engine in plant.engine):
            used[np.ix_([*flow_rows(plant), *walls[last:]], steam)] = True
    feeding = [*contents, *(int(feed["held"]) for feed in plant.feeds if feed["held"] >= 0)]
    for i in range(last, len(walls)):
        used[walls[i:], walls[i]] = True
        used[walls[i], feeding] = True
        used[contents, walls[i]] = True
