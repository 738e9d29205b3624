"""What steam carries along comes from load and level; a share that is given still counts."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from thermsim.simulation import load_scenario, simulate

Fired = Callable[..., Any]


@pytest.fixture(scope="module")
def result() -> Fired:
    """`result(*changes)`: the given fire's result, solved once."""
    path = Path(__file__).parents[2] / "scenarios" / "given_fire.yaml"
    return cache(lambda *changes: simulate(load_scenario(path, changes)))


def test_a_slow_boil_with_room_over_it_is_nearly_dry(result: Fired) -> None:
    """7 kg/h from 0.1 m2 of surface, 0.12 m under the vent: 0.035 m/s (test_carry_over by hand)."""
    assert 1e-5 < result().summary["steam_wetness_fraction"] < 1e-4


def test_the_fuller_the_wetter_till_it_primes(result: Fired) -> None:
    wet = [result(*changes).summary["steam_wetness_fraction"]
           for changes in ((), ("drum.water = 17 l",), ("drum.water = 18 l",))]
    assert wet[0] < wet[1] < wet[2]
    assert wet[2] > 0.05  # 92 % full when it boils: "boiling water is thrown out of the vent"


def test_a_run_says_when_it_primes(result: Fired) -> None:
    summary = result("drum.water = 19 l").summary
    left = [one for one in summary["out_of_range"] if one["of"] == "carry_over.load_number"]
    assert left
    assert left[0]["worst"] > 1.0
    assert not [one for one in result().summary["out_of_range"]
                if one["of"].startswith("carry_over")]


@pytest.mark.parametrize("share", [0.0, 0.02])
def test_a_given_share_counts_as_given(result: Fired, share: float) -> None:
    found = result(f"drum.wetness = {100 * share:.0f} %", "drum.water = 19 l")
    assert np.allclose(found.series["steam_wetness_fraction"], share, atol=1e-6)
    # of steam and water alone it is a little more: some of what left was air
    assert found.summary["steam_wetness_fraction"] == pytest.approx(share, abs=5e-4)


def test_foam_multiplies_what_is_carried(result: Fired) -> None:
    clean, foaming = (result(f"drum.wetness_factor = {factor}").summary[
        "steam_wetness_fraction"] for factor in (1, 30))
    assert foaming / clean == pytest.approx(30.0, rel=0.05)


def test_carried_water_is_lost_water(result: Fired) -> None:
    """Mass that left is steam and what it carried; the account closes."""
    found = result("drum.water = 18 l")
    water, time = found.series["water_kg"], found.series["time_s"]
    steam = np.trapezoid(found.series["steam_kg_per_h"], time) / 3600.0
    carried = 1.0 - steam / (water.iloc[0] - water.iloc[-1])
    assert carried == pytest.approx(found.summary["steam_wetness_fraction"], abs=0.01)
    assert found.summary["ledger_error"] < 1e-3
