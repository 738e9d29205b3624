"""Where the heat went: the shares of the ledgers side by side."""

from __future__ import annotations

import math
from collections.abc import Sequence

from thermsim.comparing.quantities import SHARE
from thermsim.comparing.rows import LEDGER, Row, number_row
from thermsim.comparing.solver_error import SolverError
from thermsim.comparing.things import Thing

ERROR_ROW = "imbalance"


def ledger_rows(things: Sequence[Thing], error: SolverError) -> list[Row]:
    """A row for each row of the ledgers, as a share of the heat in all wood put in."""
    if things[0].ledger is None or all(one.ledger is None for one in things[1:]):
        return []
    held = [None if one.ledger is None else
            dict(zip(one.ledger["row"].astype(str), one.ledger["share_of_fuel"], strict=True))
            for one in things]
    labels = {str(row): str(label) for one in reversed(things) if one.ledger is not None
              for row, label in zip(one.ledger["row"], one.ledger.get("label", one.ledger["row"]),
                                    strict=True)}
    rows = []
    for name in dict.fromkeys(name for one in held if one for name in one):
        values = [_share(one, name) for one in held]
        errors = [abs(value) if name == ERROR_ROW and value is not None
                  else error.ledger(thing, name)
                  for thing, value in zip(things, values, strict=True)]
        there = [None if one is None else name in one for one in held]
        rows.append(number_row(LEDGER, name, labels[name], SHARE, values, errors, there))
    return rows


def _share(held: dict[str, float] | None, name: str) -> float | None:
    if held is None or name not in held or not math.isfinite(held[name]):
        return None
    return float(held[name])
