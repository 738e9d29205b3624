"""Which differences are told first: each measured by what a person would notice of its kind.

The yardsticks order sentences, no more: they are the presentation's own choice, no physics.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from thermsim.comparing.answers import ERRORS, SAYS_OUTCOME
from thermsim.comparing.largest import Largest
from thermsim.comparing.quantities import NOT_THERE, SHARE, WORDS, split_key
from thermsim.comparing.rows import ANSWER, Row

NOTICED: Mapping[str, tuple[float, float]] = {
    "s": (0.1, 60.0), "C": (0.1, 20.0), SHARE: (0.0, 0.02), "J": (0.1, 5e5), "W": (0.1, 500.0),
    "kg": (0.1, 0.1), "g": (0.1, 10.0), "Pa": (0.1, 0.5), "kg_per_h": (0.1, 0.2), "": (0.1, 0.05),
}
"""unit: (share of the larger figure, least) that would be noticed"""
FIRST_ASKED = {"time_to_boil_s": 3.0, "draught_established_s": 2.0, "smoke_from_openings_g": 2.0,
               "evaporation_rate_kg_per_h": 2.0, "water_heat_share": 1.5}
"""answers that a builder asks for first, and how much more they count"""
PLACES = ("outside_surface_peak_C", "peak_temperature_C")
"""answers with a figure for each place that are told, the place that changed most"""
SAME_MATTER = {"smoke_from_openings_s": "smoke_from_openings_g",
               "heat_released_J": "fuel_burnt_kg"}
"""answers of which one is told"""
NOT_TOLD = (*ERRORS, "solve_seconds", "computed_s")
MOST_TOLD = 4


def noticed(unit: str, difference: float, size: float) -> float:
    """A difference in units of what would be noticed; `size` is the larger of the figures."""
    share, least = NOTICED.get(unit, NOTICED[""])
    return abs(difference) / max(share * abs(size), least)


def noticed_most(one: Largest) -> float:
    """The same of the largest difference of a column; no end where only one has a value."""
    if one.difference is None:
        return float("inf")
    if not one.difference:
        return 0.0
    return noticed(one.unit, one.difference, max(abs(one.first), abs(one.value)))


def weight(row: Row) -> float:
    """How much the row tells: no end for what happened in one thing only."""
    most = 0.0
    for i in row.others:
        if row.beyond(i) is False or NOT_THERE in (row.texts[0], row.texts[i]):
            continue
        difference = row.difference(i)
        if difference is None:
            return float("inf")
        size = max(abs(row.values[0]), abs(row.values[i]))
        most = max(most, noticed(row.unit, difference, size))
    return most * FIRST_ASKED.get(row.name, 1.0)


def told_first(rows: Sequence[Row]) -> list[Row]:
    """The three or four answers that changed most, the outcome left out; each matter once."""
    weights = {row.name: weight(row) for row in rows if row.part == ANSWER}
    told = _first(weights)
    return [next(row for row in rows if row.part == ANSWER and row.name == name) for name in told]


def answers_told(found: Sequence[Largest]) -> list[Largest]:
    """The same of sweeps: answers by the case in which they differ most."""
    able = {one.name: one for one in sorted(found, key=noticed_most)
            if one.changed and one.beyond is not False}
    weights = {name: noticed_most(one) * FIRST_ASKED.get(name, 1.0) for name, one in able.items()}
    return [able[name] for name in _first(weights)]


def _first(weights: Mapping[str, float]) -> list[str]:
    """Names of the answers that weigh most, each matter once."""
    able = [name for name, size in weights.items() if size > 0.0 and name != SAYS_OUTCOME
            and name not in NOT_TOLD and (name in WORDS or split_key(name)[0] in PLACES)]
    kept: dict[str, str] = {}
    for name in sorted(able, key=lambda one: (-weights[one], one not in FIRST_ASKED)):
        answer, _ = split_key(name)
        kept.setdefault(SAME_MATTER.get(answer, answer), name)
    return list(kept.values())[:MOST_TOLD]
