"""A tall fire door breathes both ways: smoke at its top while air enters below."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

UPRIGHT = ("openings.ash_door.below_grate = no", "openings.ash_door.sill = 160 mm",
           "openings.ash_door.leak = 0 mm")
TALL = (*UPRIGHT, "openings.ash_door.width = 100 mm", "openings.ash_door.height = 200 mm")
LOW = (*UPRIGHT, "openings.ash_door.width = 250 mm", "openings.ash_door.height = 80 mm")
NARROW = (*UPRIGHT, "openings.ash_door.width = 100 mm", "openings.ash_door.height = 40 mm")


def door_smoke(firing: Any) -> float:
    """Smoke that left by the door [g]."""
    return float(firing.answers["smoke_by_opening_g"]["ash_door"])


@pytest.fixture(scope="module")
def doors(steadily: Callable[..., Any]) -> dict[str, Any]:
    """A fire of 6 kW with one of the doors open all the time."""
    kinds = {"tall": TALL, "low": LOW, "narrow": NARROW}
    return {name: steadily("6 kW", *kind, until="15 min") for name, kind in kinds.items()}


def test_smoke_leaves_at_the_top_while_air_enters_below(doors: dict[str, Any]) -> None:
    """The net flow is inward and yet smoke comes out, for minutes."""
    series = doors["tall"].series
    inward = series["flow_ash_door_g_per_s"] > 0.0
    smoking = series["smoke_ash_door_g_per_s"] > 0.05
    every = float(series["time_s"].iloc[1] - series["time_s"].iloc[0])
    assert every * int((inward & smoking).sum()) > 120.0


def test_a_tall_door_smokes_more_than_a_low_one_of_its_area(doors: dict[str, Any]) -> None:
    """Kawagoe: what goes each way rises with area times root of height."""
    assert door_smoke(doors["tall"]) > 1.5 * door_smoke(doors["low"])


def test_a_small_door_draws_all_of_itself(doors: dict[str, Any]) -> None:
    """The chimney pulls the neutral height of a small door over its head."""
    series = doors["narrow"].series
    late = series["time_s"] > 300.0
    assert float(series.loc[late, "outflow_ash_door_g_per_s"].max()) == 0.0
    assert float(series.loc[late, "flow_ash_door_g_per_s"].min()) > 0.5


def test_a_shut_door_lets_nothing_by(steadily: Callable[..., Any]) -> None:
    """Once shut, without leak, no smoke and no air pass it either way."""
    series = steadily("6 kW", *TALL, door="5 min", until="10 min").series
    late = series["time_s"] > 310.0
    for column in ("outflow_ash_door_g_per_s", "flow_ash_door_g_per_s"):
        assert float(series.loc[late, column].abs().max()) < 1e-6
